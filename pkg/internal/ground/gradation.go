package ground

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Openings of the two sieves that the classification turns on.
var (
	sieveNo4   = quantity.Millimeters(4.75)
	sieveNo200 = quantity.Millimeters(0.075)
)

// Well graded, ASTM D2487: sand's limits seen in the 1998 edition, gravel's
// from memory.
const (
	wellGradedGravelCu = 4
	wellGradedSandCu   = 6
	wellGradedCcLow    = 1
	wellGradedCcHigh   = 3
)

var (
	// 1 mm stones to fines of a millionth: no soil is beyond it.
	aCu = calculation.Range{Low: 1, High: 1e6, Document: d2487 + ", Cu = D60/D10"}
	aCc = calculation.Range{Low: 0, High: 1e6, Above: true, Document: d2487 + ", Cc = D30^2/(D10 D60)"}
	// A grain of soil, from clay to boulder.
	aGrain = calculation.Range{Low: 0, High: 3000, Above: true, Unit: "mm", Document: "size of a grain of soil"}
)

// printSlack allows for Cu and Cc having been rounded for print before they
// are compared with each other, and percentSlack for percentages.
const (
	printSlack   = 1.05
	percentSlack = 1
)

// grading tells well from poorly graded soil, or that it is not known.
type grading uint8

const (
	gradingUnknown grading = iota
	wellGraded
	poorlyGraded
)

// coefficients returns Cu and Cc of a sample, 0 where not known.
func (s Sample) coefficients() (cu, cc float64, err error) {
	cu, cc = s.Cu, s.Cc
	sizes := []quantity.Length{s.D10, s.D30, s.D60}
	if sizes[0] != 0 && sizes[2] != 0 && cu == 0 {
		if cu, err = UniformityCoefficient(s.D10, s.D60); err != nil {
			return 0, 0, err
		}
	}
	if sizes[0] != 0 && sizes[1] != 0 && sizes[2] != 0 && cc == 0 {
		if cc, err = CurvatureCoefficient(s.D10, s.D30, s.D60); err != nil {
			return 0, 0, err
		}
	}
	if cu != 0 {
		if err = aCu.Named("Cu").Check(cu); err != nil {
			return 0, 0, err
		}
	}
	if cc != 0 {
		if err = aCc.Named("Cc").Check(cc); err != nil {
			return 0, 0, err
		}
	}
	// D10 <= D30 <= D60 keeps Cc between 1/Cu and Cu.
	if cu != 0 && cc != 0 && (cc > float64(cu*printSlack) || float64(cc*cu*printSlack) < 1) {
		return 0, 0, calculation.OutOfRange("Cc", cc, "", fmt.Sprintf("%.3g to %.3g, which Cu %g allows", 1/cu, cu, cu), d2487)
	}
	return cu, cc, nil
}

// sizesAgree refuses characteristic sizes that contradict the sieve: a size in
// the wrong unit is the common cause.
func (s Sample) sizesAgree() error {
	for _, size := range []struct {
		name    string
		d       quantity.Length
		percent float64
	}{{"D10", s.D10, 10}, {"D30", s.D30, 30}, {"D60", s.D60, 60}} {
		if size.d == 0 {
			continue
		}
		if err := aGrain.Named(size.name).Check(size.d.Millimeters()); err != nil {
			return err
		}
		for _, sieve := range []struct {
			name    string
			opening quantity.Length
			passing float64
		}{{"No. 4", sieveNo4, s.P4}, {"No. 200", sieveNo200, s.P200}} {
			finer := size.d < sieve.opening && sieve.passing < size.percent-percentSlack
			coarser := size.d > sieve.opening && sieve.passing > size.percent+percentSlack
			if finer || coarser {
				return calculation.OutOfRange(size.name, size.d.Millimeters(), "mm",
					fmt.Sprintf("what %g %% passing the %s sieve allows", sieve.passing, sieve.name), d2487)
			}
		}
	}
	return nil
}

// grade tells how a gravel or a sand is graded. One test that fails decides; to
// be well graded a soil must pass both.
func grade(gravel bool, cu, cc float64) (grading, []string) {
	least := float64(wellGradedSandCu)
	if gravel {
		least = wellGradedGravelCu
	}
	switch {
	case cu != 0 && cu < least, cc != 0 && (cc < wellGradedCcLow || cc > wellGradedCcHigh):
		return poorlyGraded, nil
	case cu != 0 && cc != 0:
		return wellGraded, nil
	}
	var what []string
	if cu == 0 {
		what = append(what, "coefficient of uniformity Cu (or D10 and D60)")
	}
	if cc == 0 {
		what = append(what, "coefficient of curvature Cc (or D10, D30 and D60)")
	}
	return gradingUnknown, what
}

// UniformityCoefficient is Cu = D60/D10 (ASTM D2487). Sizes above 0 to 3 m, in
// rising order. It is rounded at the sixth decimal, so that the turning of
// units does not decide a class.
func UniformityCoefficient(d10, d60 quantity.Length) (float64, error) {
	if err := rising(d10, d60); err != nil {
		return 0, err
	}
	return sixDecimals(float64(d60 / d10)), nil
}

// CurvatureCoefficient is Cc = D30^2/(D10 D60) (ASTM D2487). Sizes above 0 to
// 3 m, in rising order. It is rounded as [UniformityCoefficient] is.
func CurvatureCoefficient(d10, d30, d60 quantity.Length) (float64, error) {
	if err := rising(d10, d30, d60); err != nil {
		return 0, err
	}
	cc := sixDecimals(float64(d30/d10) * float64(d30/d60))
	if err := aCc.Named("Cc").Check(cc); err != nil {
		return 0, err
	}
	return cc, nil
}

func rising(sizes ...quantity.Length) error {
	var last quantity.Length
	for _, d := range sizes {
		if err := aGrain.Named("grain size").Check(d.Millimeters()); err != nil {
			return err
		}
		if d < last {
			return calculation.OutOfRange("grain size", d.Millimeters(), "mm",
				fmt.Sprintf("at least %g mm, the size before it", last.Millimeters()), d2487)
		}
		last = d
	}
	return aCu.Named("largest size over smallest").Check(float64(sizes[len(sizes)-1] / sizes[0]))
}

func sixDecimals(x float64) float64 { return math.Round(x*1e6) / 1e6 }
