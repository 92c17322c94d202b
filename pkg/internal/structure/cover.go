package structure

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const (
	coverDocument = "USACE WES Technical Report 3-441, Nov 1956"
	cubicDocument = "USACE WES TR S-71-17 and IR S-77-1"
)

var (
	// The report gives its equation for CBR below about 10 to 12. Softer than 0.5
	// is ground for a platform design, not for this equation.
	coverCBRBound     = bound{"cbr", "%", 0.5, 12, false, coverDocument}
	cubicCBRBound     = bound{"cbr", "%", 12, 100, false, cubicDocument}
	tireBound         = bound{"tire pressure", "psi", 5, 500, false, ownLimit}
	wheelBound        = bound{"wheel load", "lbf", 100, 200e3, false, ownLimit}
	coveragesBound    = bound{"coverages", "", 10, 1e6, false, ownLimit}
	repetitionalBound = bound{"load repetition factor", "", 0.1, 2, false, ownLimit}
)

// WheelCover returns the thickness of cover that a subgrade needs beneath one
// wheel at 5,000 coverages, for CBR 0.5 to 12:
//
//	t = sqrt(P * (1/(8.1*CBR) - 1/(p*pi)))    (in, lbf, psi)
//
// Zero means that the wheel presses on the surface no harder than the subgrade
// can bear (p*pi is 8.1*CBR or less), so that the equation asks for no cover;
// it does not mean that a pavement needs no base. For another number of
// coverages multiply by [CoverageFactor]. Wheel load 100 to 200,000 lbf, tire
// pressure 5 to 500 psi.
//
// USACE WES TR 3-441, 1956: symbols and range seen, the constant 8.1 and the
// 5,000 coverages from memory; an airfield basis.
func WheelCover(load quantity.Force, pressure quantity.Pressure, cbr float64) (quantity.Length, error) {
	err := first(wheelBound.check(load.PoundsForce()), tireBound.check(pressure.PSI()), coverCBRBound.check(cbr))
	if err != nil {
		return 0, err
	}
	const bearing = 8.1
	perLoad := 1/(bearing*cbr) - 1/(pressure.PSI()*math.Pi)
	return quantity.Inches(math.Sqrt(load.PoundsForce() * max(0, perLoad))), nil
}

// CubicWheelCover returns the thickness of cover beneath one wheel for CBR 12 to
// 100, where the equation of [WheelCover] no longer holds:
//
//	t = alpha*sqrt(A)*(-0.0481 - 1.1562*x - 0.6414*x^2 - 0.4730*x^3),  x = log10(CBR/p)
//
// with the contact area A = P/p in square inches and p in psi. Alpha is the
// load repetition factor, 0.1 to 2; 1 stands for 5,000 coverages of a single
// wheel. Zero means that the equation asks for no cover. Loads and pressures as
// for [WheelCover].
//
// USACE WES TR S-71-17 and IR S-77-1 (memory).
func CubicWheelCover(load quantity.Force, pressure quantity.Pressure, cbr, alpha float64) (quantity.Length, error) {
	err := first(wheelBound.check(load.PoundsForce()), tireBound.check(pressure.PSI()),
		cubicCBRBound.check(cbr), repetitionalBound.check(alpha))
	if err != nil {
		return 0, err
	}
	return quantity.Inches(cubicCover(load.PoundsForce(), pressure.PSI(), cbr, alpha)), nil
}

// cubicCover is the cubic form in inches, lbf and psi. The cubic falls for every
// x: its slope -1.1562 - 1.2828*x - 1.419*x^2 has no root.
func cubicCover(load, pressure, cbr, alpha float64) float64 {
	x := portable.Log10(cbr / pressure)
	inner := -0.6414 - float64(0.4730*x)
	inner = -1.1562 + float64(inner*x)
	inner = -0.0481 + float64(inner*x)
	return alpha * math.Sqrt(load/pressure) * max(0, inner)
}

// CoverageFactor returns the factor on the cover of [WheelCover] for another
// number of coverages, 10 to a million: 0.23*log10(C) + 0.15.
//
// USACE CBR method (memory); the range is this library's own.
func CoverageFactor(coverages float64) (float64, error) {
	if err := coveragesBound.check(coverages); err != nil {
		return 0, err
	}
	return float64(0.23*portable.Log10(coverages)) + 0.15, nil
}

func coverCalculations() []calculation.Function {
	wheel := calculation.Param{Name: "load", About: "load on one wheel, 100 to 200,000 lbf"}
	tire := calculation.Param{Name: "pressure", About: "tire pressure, 5 to 500 psi"}
	return []calculation.Function{
		{
			Name:    "wheel_cover",
			About:   "The cover that a subgrade of CBR 12 or less needs beneath one wheel at 5,000 coverages.",
			Params:  []calculation.Param{wheel, tire, {Name: "cbr", About: "CBR of the subgrade in percent, 0.5 to 12"}},
			Result:  calculation.Param{Name: "cover", About: "thickness above the subgrade; zero where the wheel presses no harder than the subgrade can bear"},
			Range:   "CBR 0.5 to 12",
			Sources: []value.Source{sourceCover},
			Example: "wheel_cover(lbf(9000), psi(80), 5.0)",
			Go:      WheelCover,
		},
		{
			Name:  "cubic_wheel_cover",
			About: "The cover that a subgrade of CBR 12 or more needs beneath one wheel.",
			Params: []calculation.Param{
				wheel, tire, {Name: "cbr", About: "CBR of the subgrade in percent, 12 to 100"},
				{Name: "alpha", About: "load repetition factor, 0.1 to 2; 1 at 5,000 coverages of a single wheel"},
			},
			Result:  calculation.Param{Name: "cover", About: "thickness above the subgrade; zero where the equation asks for none"},
			Range:   "CBR 12 to 100",
			Sources: []value.Source{sourceCubic},
			Example: "cubic_wheel_cover(lbf(9000), psi(80), 15.0, 1.0)",
			Go:      CubicWheelCover,
		},
		{
			Name:    "coverage_factor",
			About:   "The factor on wheel_cover for a number of coverages other than 5,000.",
			Params:  []calculation.Param{{Name: "coverages", About: "number of coverages, 10 to a million"}},
			Result:  calculation.Param{Name: "factor", About: "factor on the thickness"},
			Range:   "coverages 10 to a million",
			Sources: []value.Source{sourceCoverage},
			Example: "coverage_factor(1000.0)",
			Go:      CoverageFactor,
		},
	}
}
