package drainage

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// denverSpacing is the 1.5 of L = D / (1.5 S) (UDFCD Vol. 3 T-10, from memory).
const denverSpacing = 1.5

var slopes = calculation.Range{Name: "slope", Unit: "%", Low: 0.01, High: 100, Document: "limit of this library; a level subgrade needs no barriers"}

// BarrierSpacingDenver returns the largest spacing of barriers of a height on a
// subgrade of a slope: L = D / (1.5 S). At that spacing two thirds of the height
// are usable. The height is 0 to 100 m, the slope 0.01 to 100 %.
//
// Source: UDFCD (Denver) USDCM Vol. 3 T-10, from memory.
func BarrierSpacingDenver(barrier quantity.Length, slope quantity.Share) (quantity.Length, error) {
	if err := cmp.Or(waters.Named("barrier height").CheckMeasure(barrier), slopes.CheckMeasure(slope)); err != nil {
		return 0, err
	}
	return quantity.Length(float64(barrier) / (denverSpacing * slope.Fraction())), nil
}

// BarrierHeightDenver returns the height of stone behind barriers, set as
// [BarrierSpacingDenver] sets them, that holds as much as a level depth does.
// The drop from one barrier to the next is then D / 1.5, so that of the height D
// the mean D - D / (2 x 1.5) fills, whatever the slope. The depth is 0 to 100 m.
//
// Source: the spacing of UDFCD (Denver) USDCM Vol. 3 T-10, from memory; the
// share that fills is geometry, computed.
func BarrierHeightDenver(level quantity.Length) (quantity.Length, error) {
	if err := waters.Named("level depth").CheckMeasure(level); err != nil {
		return 0, err
	}
	return quantity.Length(float64(level) / (1 - 1/(2*denverSpacing))), nil
}

func barrierCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "barrier_spacing_denver",
			About: "The largest spacing of barriers on a sloped subgrade, two thirds of their height being usable.",
			Params: []calculation.Param{
				param("barrier", "height of the barriers across the slope, 0 to 100 m"),
				param("slope", "slope of the subgrade, 0.01 to 100 %"),
			},
			Result:   param("spacing", "largest distance from barrier to barrier"),
			Range:    "slope 0.01 to 100 %",
			Sources:  []value.Source{sourceDenver},
			Example:  "barrier_spacing_denver(inches(12), percent(2))",
			Go:       BarrierSpacingDenver,
			Moves:    "+-",
			Positive: true,
		},
		{
			Name:     "barrier_height_denver",
			About:    "The height of stone behind such barriers that holds as much as a level depth.",
			Params:   []calculation.Param{param("level", "depth of stone that would do on level ground, 0 to 100 m")},
			Result:   param("height", "height of the barriers and of the stone behind them"),
			Range:    "0 to 100 m",
			Sources:  []value.Source{sourceDenver},
			Example:  "barrier_height_denver(inches(8))",
			Go:       BarrierHeightDenver,
			Moves:    "+",
			Positive: true,
		},
	}
}
