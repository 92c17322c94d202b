package ground

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// limit is the range in which a value may lie, with the document that sets it.
type limit struct {
	lo, hi float64
	// above makes lo itself out of range.
	above    bool
	unit     string
	document string
}

// unitTurn is how far, in parts of the value, the turning of units may move it:
// a value on the edge of a range, in whatever unit it is written, is on it.
const unitTurn = 1e-12

// check refuses x outside the range; NaN is outside every range.
func (l limit) check(name string, x float64) error {
	turn := float64(unitTurn * math.Abs(x))
	if within := x+turn >= l.lo && x-turn <= l.hi; within && !(l.above && x <= l.lo) {
		return nil
	}
	words := fmt.Sprintf("%g to %g", l.lo, l.hi)
	if l.above {
		words = fmt.Sprintf("above %g to %g", l.lo, l.hi)
	}
	if l.unit != "" {
		words += " " + l.unit
	}
	return calculation.OutOfRange(name, x, l.unit, words, l.document)
}

// Ranges that follow from what the value is, not from a publication. They keep
// slips of unit out of the formulas and the results finite.
var (
	aPercentage = limit{lo: 0, hi: 100, unit: "%", document: "percentage by mass"}
	// The stiffest natural clays stay under 1000 % liquid limit.
	aLimit     = limit{lo: 0, hi: 1000, above: true, unit: "%", document: "Atterberg limit"}
	aPI        = limit{lo: 0, hi: 1000, unit: "%", document: "plasticity index"}
	aCBR       = limit{lo: 0, hi: 200, above: true, unit: "%", document: "California bearing ratio"}
	anEsal     = limit{lo: 0, hi: 1e12, document: "axle load passes"}
	aModulus   = limit{lo: 0, hi: 1e6, above: true, unit: "psi", document: "modulus of a soil or stone"}
	aThickness = limit{lo: 0, hi: 1000, unit: "in", document: "thickness or depth"}
	aVolume    = limit{lo: 0, hi: 1e9, unit: "m3", document: "volume of earth"}
)

// first returns the first error, or nil.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// onlyIf returns x if err is nil, else nothing: a refused value goes no further.
func onlyIf[T any](x T, err error) (T, error) {
	if err != nil {
		var nothing T
		return nothing, err
	}
	return x, nil
}

// wholeNumber rounds to the nearest whole number, a half upwards, as the class
// systems report percentages and limits. x must have passed a limit.
func wholeNumber(x float64) int { return int(math.Floor(x + 0.5)) }

// tonsPerSquareFoot is a pressure in short tons-force per square foot.
func tonsPerSquareFoot(x float64) quantity.Pressure {
	const poundsPerTon, squareInchesPerSquareFoot = 2000, 144
	return quantity.PSI(x * poundsPerTon / squareInchesPerSquareFoot)
}
