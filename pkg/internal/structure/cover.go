package structure

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	// The report gives its equation for CBR below about 10 to 12. Softer than 0.5
	// is ground for a platform design, not for this equation.
	coverCBRs      = calculation.Range{Name: "cbr", Low: 0.5, High: 12, Document: "USACE WES Technical Report 3-441, Nov 1956"}
	tires          = calculation.Range{Name: "tire pressure", Unit: "psi", Low: 5, High: 500, Document: ownLimit}
	wheels         = calculation.Range{Name: "wheel load", Unit: "lbf", Low: 100, High: 200e3, Document: ownLimit}
	covers         = calculation.Range{Name: "cover", Unit: "ft", Low: 0, High: 30, Document: ownLimit}
	coverageCounts = calculation.Range{Name: "number of coverages", Low: 10, High: 1e6, Document: ownLimit}
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
	err := cmp.Or(wheels.CheckMeasure(load), tires.CheckMeasure(pressure), coverCBRs.Check(cbr))
	if err != nil {
		return 0, err
	}
	const bearing = 8.1
	perLoad := 1/(bearing*cbr) - 1/(pressure.PSI()*math.Pi)
	return quantity.Inches(math.Sqrt(load.PoundsForce() * max(0, perLoad))), nil
}

// CoverageFactor returns the factor on the cover of [WheelCover] for another
// number of coverages, 10 to a million: 0.23*log10(C) + 0.15.
//
// USACE CBR method (memory); the range is this library's own.
func CoverageFactor(coverages float64) (float64, error) {
	if err := coverageCounts.Check(coverages); err != nil {
		return 0, err
	}
	return float64(0.23*portable.Log10(coverages)) + 0.15, nil
}

// PairCover returns the cover that a pair of dual tires needs, where one tire with
// the load of both would need the cover given. Up to half of the clear distance of
// the tires, 2.25 in, each of the two presses by itself; from twice their spacing of
// 13.5 in on they press as one; between, the load that counts grows as a power of
// the depth. Cover 0 to 30 ft.
//
// Boyd and Foster's equivalent single wheel (memory), with the usual dual tires of
// an 18,000 lb axle.
func PairCover(single quantity.Length) (quantity.Length, error) {
	if err := covers.CheckMeasure(single); err != nil {
		return 0, err
	}
	const apart, together = 2.25, 27.0
	in := single.Inches()
	if in >= together {
		return single, nil
	}
	if in <= apart*math.Sqrt2 {
		return quantity.Inches(in / math.Sqrt2), nil
	}
	grows := portable.Log(2) / portable.Log(together/apart)
	return quantity.Inches(portable.Pow(in*in/2/portable.Pow(apart, grows), 1/(2-grows))), nil
}

func coverCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "wheel_cover",
			About: "The cover that a subgrade of CBR 12 or less needs beneath one wheel at 5,000 coverages.",
			Params: []calculation.Param{
				param("load", "load on one wheel, 100 to 200,000 lbf"),
				param("pressure", "tire pressure, 5 to 500 psi"),
				param("cbr", "CBR of the subgrade, 0.5 to 12"),
			},
			Result:   param("cover", "thickness above the subgrade; zero where the wheel presses no harder than the subgrade can bear"),
			Range:    "CBR 0.5 to 12",
			Sources:  []value.Source{sourceCover},
			Example:  "wheel_cover(lbf(9000), psi(80), 5.0)",
			Go:       WheelCover,
			Moves:    "++-",
			Positive: true,
		},
		{
			Name:     "coverage_factor",
			About:    "The factor on that cover for a number of coverages other than 5,000.",
			Params:   []calculation.Param{param("coverages", "number of coverages, 10 to a million")},
			Result:   param("factor", "factor on the thickness"),
			Range:    "coverages 10 to a million",
			Sources:  []value.Source{sourceCoverage},
			Example:  "coverage_factor(1000.0)",
			Go:       CoverageFactor,
			Moves:    "+",
			Positive: true,
		},
		{
			Name:     "pair_cover",
			About:    "The cover beneath a pair of dual tires, where one tire with the load of both would need the cover given.",
			Params:   []calculation.Param{param("single", "cover beneath one tire, 0 to 30 ft")},
			Result:   param("cover", "cover beneath the pair"),
			Range:    "cover 0 to 30 ft",
			Sources:  []value.Source{sourcePair},
			Example:  "pair_cover(inches(18.3))",
			Go:       PairCover,
			Moves:    "+",
			Positive: true,
		},
	}
}
