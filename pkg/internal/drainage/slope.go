package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// denverSpacing is the 1.5 of L = D / (1.5 S) (UDFCD Vol. 3 T-10, from memory).
const denverSpacing = 1.5

// checkSlope checks a slope as rise over run, so 0.02 for 2 percent.
func checkSlope(slope float64) error {
	return within("slope", slope, "", 0, mostGroundSlope, "0 to 1, rise over run", unitSlip)
}

// UsableDepthOnSlope returns the mean depth of stone that level water fills behind
// barriers of a height, set at a spacing down a subgrade of a slope (rise over
// run). With D the height and S L the drop from one barrier to the next:
//
//	S L up to D   D - S L / 2
//	S L above D   D^2 / (2 S L)
//
// Source: geometry, computed.
func UsableDepthOnSlope(barrier quantity.Length, slope float64, spacing quantity.Length) (quantity.Length, error) {
	err := firstError(checkDepth("barrier height", barrier), checkSlope(slope), checkSpacing(spacing))
	if err != nil {
		return 0, err
	}
	drop := quantity.Length(slope * float64(spacing))
	if drop <= barrier {
		return barrier - drop/2, nil
	}
	return finite("usable depth", quantity.Length(float64(barrier)*(float64(barrier)/(2*float64(drop)))))
}

func checkSpacing(spacing quantity.Length) error {
	return within("barrier spacing", spacing.Meters(), "m", 0, mostBarrierMeters, "0 to 10,000 m", unitSlip)
}

// BarrierSpacingDenver returns the largest spacing of barriers of a height on a
// subgrade of a slope (rise over run, more than 0): L = D / (1.5 S). At that
// spacing two thirds of the height are usable.
//
// Source: UDFCD (Denver) USDCM Vol. 3 T-10, from memory.
func BarrierSpacingDenver(barrier quantity.Length, slope float64) (quantity.Length, error) {
	if err := firstError(checkDepth("barrier height", barrier), checkSlope(slope)); err != nil {
		return 0, err
	}
	if slope == 0 {
		return 0, calculation.OutOfRange("slope", slope, "", "more than 0, up to 1", "a level subgrade needs no barriers")
	}
	return finite("barrier spacing", barrier/quantity.Length(denverSpacing*slope))
}

// BarrierHeightDenver returns the height of stone behind barriers, set as
// [BarrierSpacingDenver] sets them, that holds as much as a level depth does.
// The drop from one barrier to the next is then D / 1.5, so that of the height D
// the mean D - D / (2 x 1.5) fills, whatever the slope.
//
// Source: the spacing of UDFCD (Denver) USDCM Vol. 3 T-10, from memory; the
// share that fills is geometry, computed.
func BarrierHeightDenver(level quantity.Length) (quantity.Length, error) {
	if err := checkDepth("level depth", level); err != nil {
		return 0, err
	}
	return finite("barrier height", quantity.Length(float64(level)/(1-1/(2*denverSpacing))))
}
