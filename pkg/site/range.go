package site

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// What is possible at all. It may still be more than a rulebook covers.
var (
	aboveZero   = calculation.Range{High: math.Inf(1), Above: true}
	mmAboveZero = calculation.Range{Unit: "mm", High: math.Inf(1), Above: true}
	zeroOrMore  = calculation.Range{High: math.Inf(1)}
	shareOrMore = calculation.Range{Unit: "%", High: math.Inf(1)}
	percentage  = calculation.Range{Unit: "%", High: 100}
	// countable is far more blows than anyone strikes, and a whole number that
	// every machine can hold.
	countable = calculation.Range{Low: 1, High: 1e6}
	// cbrRange runs past the 100 % of the standard crushed stone, since sound
	// rock and cemented gravel read more; above 200 a reading is a slip of the
	// pen (practice).
	cbrRange = calculation.Range{Unit: "%", High: 200}
	// slopeRange: no one paves steeper than 1 in 2, so that more is a slip of
	// the pen (practice).
	slopeRange = calculation.Range{Unit: "%", High: 50}
	// meanTemperatureRange holds every place on earth where anyone lives (from
	// memory); it catches a Fahrenheit reading written as Celsius.
	meanTemperatureRange = calculation.Range{Unit: "C", Low: -60, High: 40}
	withinYear           = calculation.Range{Unit: "days", High: 366}
)

// The sizes between which a value other than 0 can be written and read back.
const (
	largest  = 1e100
	smallest = 1e-100
)

// holds reports whether a number, in SI, is possible.
func (f *Field) holds(x float64) bool {
	return (x == 0 || math.Abs(x) >= smallest) && math.Abs(x) <= largest && f.Range.Holds(f.inUnit(x))
}

// inUnit turns a value in SI into the unit of the field's range, and fromUnit
// turns it back. A plain number has no unit but that of the range.
func (f *Field) inUnit(x float64) float64 {
	if u, ok := f.unit(); ok {
		if y, err := (quantity.Quantity{Dim: f.Dim, SI: x}).In(u.Symbol); err == nil {
			return y
		}
	}
	return x
}

func (f *Field) fromUnit(x float64) float64 {
	if u, ok := f.unit(); ok {
		if q, err := u.Quantity(x); err == nil {
			return q.SI
		}
	}
	return x
}

// unit returns the unit of the bounds of a measured value. Bounds of zero and of
// infinity need none, and a plain number has none.
func (f *Field) unit() (quantity.Unit, bool) { return quantity.UnitNamed(f.Range.Unit, f.Dim) }

// Bounds returns the least and the most that a job can tell of a number or a
// quantity, in SI. Where the range has no end it is that of what can be written
// and read back.
func (f Field) Bounds() (least, most float64) {
	least, most = -largest, largest
	if !math.IsInf(f.Range.Low, -1) {
		least = f.fromUnit(f.Range.Low)
	}
	if !math.IsInf(f.Range.High, 1) {
		most = f.fromUnit(f.Range.High)
	}
	if f.Range.Above && least == 0 {
		least = smallest
	}
	return least, most
}

// possible says the range in words, in both systems of units if they differ.
func (f *Field) possible() string {
	us, si := f.Range.Text(quantity.US), f.Range.Text(quantity.SI)
	switch {
	case f.Whole:
		return "a whole number, " + us
	case us != si:
		return us + " (" + si + ")"
	}
	return us
}
