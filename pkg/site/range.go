package site

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// What is possible at all. It may still be more than a rulebook covers. A bound
// without a source is this library's own: a figure beyond it has a wrong unit or
// a point in the wrong place.
var (
	percentage = upTo(100, "%")
	// countable is far more blows than anyone strikes, and a whole number that
	// every machine can hold.
	countable = between(1, 1e6, "")
	// cbrRange runs past the 100 % of the standard crushed stone, since sound
	// rock and cemented gravel read more.
	cbrRange = upTo(200, "%")
	// limitRange holds the limits of bentonite, some 700 % (from memory).
	limitRange = upTo(1000, "%")
	// penetrometerRange is what the usual scale shows, in steps of 0.25 tsf up to 4.5
	// (from memory). Softer soil is tried by hand or with a vane.
	penetrometerRange = between(0.25, 4.5, "tsf")
	// meanTemperatureRange holds every place on earth where anyone lives (from
	// memory); it catches a Fahrenheit reading written as Celsius.
	meanTemperatureRange = between(-60, 40, "C")
)

// pressuresConfused are the units in which a pocket penetrometer's reading is written
// by mistake.
var pressuresConfused = []string{"tsf", "kg/cm2", "psi", "psf", "kPa"}

// upTo is 0 to a bound, above 0 without 0, and between is from bound to bound.
func upTo(high float64, unit string) calculation.Range { return between(0, high, unit) }

func above0(high float64, unit string) calculation.Range {
	return calculation.Range{Unit: unit, High: high, Above: true}
}

func between(low, high float64, unit string) calculation.Range {
	return calculation.Range{Unit: unit, Low: low, High: high}
}

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
