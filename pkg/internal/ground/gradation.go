package ground

import (
	"cmp"
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Openings of the two sieves that the classification turns on, in mm.
const (
	sieveNo4   = 4.75
	sieveNo200 = 0.075
)

// Well graded, ASTM D2487: sand's limits seen in the 1998 edition, gravel's
// from memory.
const (
	wellGradedGravelCu = 4
	wellGradedSandCu   = 6
)

var (
	wellGradedCc = calculation.Range{Low: 1, High: 3}
	// 1 m stones to fines of a micrometer: no soil is beyond it.
	aCu = calculation.Range{Name: "Cu", Low: 1, High: 1e6, Document: d2487 + ", Cu = D60/D10"}
	// A grain of soil, from clay to boulder.
	aGrain = calculation.Range{Low: 0, High: 3000, Above: true, Unit: "mm", Document: "size of a grain of soil"}
)

// wellGraded reports whether a gravel or a sand of the two coefficients is well
// graded. D10 <= D30 <= D60 keeps Cc between 1/Cu and Cu; an allowance of 5 %
// is for coefficients that were rounded for print.
func wellGraded(gravel bool, cu, cc float64) (bool, error) {
	const rounding = 1.05
	most := float64(cu * rounding)
	allowed := calculation.Range{Name: "Cc", Low: 1 / most, High: most, Document: d2487 + ", what Cu allows"}
	if err := cmp.Or(aCu.Check(cu), allowed.Check(cc)); err != nil {
		return false, err
	}
	least := float64(wellGradedSandCu)
	if gravel {
		least = wellGradedGravelCu
	}
	return cu >= least && wellGradedCc.Holds(cc), nil
}

// sizesAgree refuses sizes that contradict the sieve by more than a point: a
// size in the wrong unit is the common cause.
func sizesAgree(p4, p200 quantity.Share, d10, d30, d60 quantity.Length) error {
	for _, size := range []struct {
		name    string
		d       quantity.Length
		percent float64
	}{{"D10", d10, 10}, {"D30", d30, 30}, {"D60", d60, 60}} {
		for _, sieve := range []struct {
			name             string
			opening, passing float64
		}{{"No. 4", sieveNo4, p4.Percent()}, {"No. 200", sieveNo200, p200.Percent()}} {
			within := aGrain
			within.Name, within.Document = size.name, fmt.Sprintf("%.4g %% passes the %s sieve", sieve.passing, sieve.name)
			if sieve.passing < size.percent-1 {
				within.Low, within.Above = sieve.opening, false
			} else if sieve.passing > size.percent+1 {
				within.High = sieve.opening
			}
			if err := within.CheckMeasure(size.d); err != nil {
				return err
			}
		}
	}
	return nil
}

// UniformityCoefficient returns Cu = D60/D10 (ASTM D2487). Sizes above 0 to 3 m,
// in rising order. It is rounded at the sixth decimal, so that the turning of
// units does not decide a class.
func UniformityCoefficient(d10, d60 quantity.Length) (float64, error) {
	if err := rising(d10, d60); err != nil {
		return 0, err
	}
	return sixDecimals(float64(d60 / d10)), nil
}

// CurvatureCoefficient returns Cc = D30^2/(D10 D60) (ASTM D2487), with the range
// and the rounding of [UniformityCoefficient].
func CurvatureCoefficient(d10, d30, d60 quantity.Length) (float64, error) {
	if err := rising(d10, d30, d60); err != nil {
		return 0, err
	}
	return sixDecimals(float64(d30/d10) * float64(d30/d60)), nil
}

// rising refuses sizes of which one is smaller than the one before it, and a
// largest that is over a million times the smallest.
func rising(sizes ...quantity.Length) error {
	within := aGrain.Named("grain size")
	for _, d := range sizes {
		if err := within.CheckMeasure(d); err != nil {
			return err
		}
		within.Low, within.Above, within.Document = d.Millimeters(), false, "no smaller than the size before it"
	}
	return aCu.Named("largest size over smallest").Check(float64(sizes[len(sizes)-1] / sizes[0]))
}

func sixDecimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }
