package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Bounds against slips of unit, none from a publication.
const (
	mostDepthMeters   = 100.0    // water or stone depth
	mostRateSI        = 1.0      // m/s, above the conductivity of clean gravel
	mostTimeHours     = 87600.0  // ten years
	mostRunOnRatio    = 1000.0   // area drained over area paved
	mostAreaSI        = 1e9      // m2
	mostVolumeSI      = 1e9      // m3
	mostSizeMeters    = 3.0      // grain
	mostGroundSlope   = 1.0      // rise over run
	mostBarrierMeters = 10_000.0 // spacing
)

func checkDepth(name string, d quantity.Length) error {
	return within(name, d.Meters(), "m", 0, mostDepthMeters, "0 to 100 m", unitSlip)
}

// checkDepthAbove is checkDepth for a depth that may not be zero.
func checkDepthAbove(name string, d quantity.Length) error {
	if d == 0 {
		return calculation.OutOfRange(name, 0, "m", "more than 0, up to 100 m", unitSlip)
	}
	return checkDepth(name, d)
}

func checkRate(name string, r quantity.Rate) error {
	return within(name, float64(r), "m/s", 0, mostRateSI, "0 to 1 m/s", unitSlip)
}

// checkRateAbove is checkRate for a rate that may not be zero.
func checkRateAbove(name string, r quantity.Rate) error {
	if r == 0 {
		return calculation.OutOfRange(name, 0, "m/s", "more than 0, up to 1 m/s", unitSlip)
	}
	return checkRate(name, r)
}

func checkTime(name string, t quantity.Time) error {
	return within(name, t.Hours(), "h", 0, mostTimeHours, "0 to 87,600 h", unitSlip)
}

func checkArea(name string, a quantity.Area) error {
	return within(name, a.SquareMeters(), "m2", 0, mostAreaSI, "0 to 1e9 m2", unitSlip)
}

func checkVolume(name string, v quantity.Volume) error {
	return within(name, float64(v), "m3", 0, mostVolumeSI, "0 to 1e9 m3", unitSlip)
}

func checkSize(name string, size quantity.Length) error {
	if size <= 0 {
		return calculation.OutOfRange(name, size.Millimeters(), "mm", "more than 0, up to 3,000 mm", unitSlip)
	}
	return within(name, size.Meters(), "m", 0, mostSizeMeters, "more than 0, up to 3 m", unitSlip)
}

func checkRatio(name string, ratio float64) error {
	return within(name, ratio, "", 0, mostRunOnRatio, "0 to 1,000", unitSlip)
}

// checkVoids checks a porosity: the share of a course that is not stone.
func checkVoids(voids float64) error {
	if calculation.Finite(voids) && voids > 0 && voids < 1 {
		return nil
	}
	return calculation.OutOfRange("voids", voids, "", "between 0 and 1, neither included",
		"porosity, the share of the volume that is not stone")
}

func checkPercent(name string, percent float64) error {
	return within(name, percent, "%", 0, 100, "0 to 100 %", "percentage of a whole")
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// finite hands x on, unless the arithmetic left the range of numbers.
func finite[T ~float64](name string, x T) (T, error) {
	if !calculation.Finite(float64(x)) {
		return 0, calculation.OutOfRange(name, float64(x), "", "a finite number", unitSlip)
	}
	return x, nil
}
