package drainage

import (
	"fmt"

	"example.com/groundrule/pkg/quantity"
)

// UniformityCoefficient returns Cu = D60/D10 on an edge.
//
// Source: ASTM D2487, from memory.
func (g Gradation) UniformityCoefficient(e Edge) (float64, error) {
	d60, d10, err := g.sizePair(e, 60, 10)
	if err != nil {
		return 0, fmt.Errorf("coefficient of uniformity: %w", err)
	}
	return d60 / d10, nil
}

// CurvatureCoefficient returns Cc = D30^2/(D10 D60) on an edge.
//
// Source: ASTM D2487, from memory.
func (g Gradation) CurvatureCoefficient(e Edge) (float64, error) {
	d60, d10, err := g.sizePair(e, 60, 10)
	if err != nil {
		return 0, fmt.Errorf("coefficient of curvature: %w", err)
	}
	d30, err := g.SizeAt(e, 30)
	if err != nil {
		return 0, fmt.Errorf("coefficient of curvature: %w", err)
	}
	return (float64(d30) / d10) * (float64(d30) / d60), nil
}

func (g Gradation) sizePair(e Edge, first, second float64) (float64, float64, error) {
	a, err := g.SizeAt(e, first)
	if err != nil {
		return 0, 0, err
	}
	b, err := g.SizeAt(e, second)
	return float64(a), float64(b), err
}

// finenessSieves are the openings in mm of the fineness modulus: 6 in, 3 in and
// so on by halves to No. 100 (ASTM C125, from memory).
var finenessSieves = [...]float64{150, 75, 37.5, 19, 9.5, 4.75, 2.36, 1.18, 0.6, 0.3, 0.15}

// FinenessModulus returns the sum of the percents retained on 6 in, 3 in, 1-1/2 in
// and so on by halves to No. 100, over 100, on an edge. A sieve of that list
// that is not tabulated is interpolated; one beyond the tabulated sieves gives
// [ErrCannotTell]. ASTM C33 asks 2.3 to 3.1 of fine aggregate (relayed).
//
// Source: ASTM C125, from memory.
func (g Gradation) FinenessModulus(e Edge) (float64, error) {
	var retained float64
	for _, mm := range finenessSieves {
		passing, err := g.PercentPassing(e, quantity.Millimeters(mm))
		if err != nil {
			return 0, fmt.Errorf("fineness modulus: %w", err)
		}
		retained += 100 - passing
	}
	return retained / 100, nil
}

// LargestStone returns the maximum size: the smallest tabulated sieve that all
// grains are required to pass, so the smallest with 100 percent on the coarse
// edge. Where no sieve has 100 percent it cannot be told.
//
// Source: ASTM C125, from memory.
func (g Gradation) LargestStone() (quantity.Length, error) {
	size, err := g.SizeAt(Coarse, 100)
	if err != nil {
		return 0, fmt.Errorf("largest stone: %w", err)
	}
	return size, nil
}

// NominalMaximum returns the nominal maximum size: the smallest tabulated sieve
// that all grains are permitted to pass, so the smallest with 100 percent on
// the fine edge.
//
// Source: ASTM C125, from memory.
func (g Gradation) NominalMaximum() (quantity.Length, error) {
	size, err := g.SizeAt(Fine, 100)
	if err != nil {
		return 0, fmt.Errorf("nominal maximum size: %w", err)
	}
	return size, nil
}
