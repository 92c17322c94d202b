package quantity

import (
	"fmt"
	"math"
	"strconv"
)

// String returns the quantity in US units.
func (q Quantity) String() string { return q.Text(US) }

// In returns the value in a unit, named by symbol, spelling or builder; "" and
// "1" name the plain number of a ratio. The error is a [*ParseError] for an
// unknown unit, wraps [ErrDimension] for a unit of another dimension, and
// [ErrNotFinite] for a value that is not a number.
func (q Quantity) In(unit string) (float64, error) {
	if err := q.check(); err != nil {
		return 0, err
	}
	if q.Dim == DimRatio && (unit == "" || unit == "1") {
		return q.SI, nil
	}
	u, ok := UnitNamed(unit, q.Dim)
	if !ok {
		return 0, unknownUnit(unit, q.Dim)
	}
	x := u.fromSI(q.SI)
	if math.IsInf(x, 0) {
		return 0, fmt.Errorf("%s in %s: %w", q.Dim, unit, ErrNotFinite)
	}
	return x, nil
}

// Text returns the quantity as the trade writes it in a system; [EitherSystem] is
// read as [US]. [ParseAs] reads it back to within the rounding of the print:
//
//   - lengths in US units, up to 48 in: inches, as a fraction of sixteenths or
//     coarser where the hundredths are those of the fraction, such as 3-1/8 in;
//     else decimals to 0.01 in, such as 5.91 in;
//   - longer lengths in US units: feet and inches to the nearest sixteenth, such
//     as 12 ft 6 in;
//   - lengths in SI: to 0.1 mm below 1 m, to 1 mm from there on;
//   - temperatures to 0.1 degree;
//   - all else, and lengths below 1 in or 1 mm, to four figures, whole digits
//     never rounded.
//
// But for temperatures nothing shows as 0 that is not 0. A value without a
// dimension or not finite gives a text that says so, and that does not parse.
//
// With how a language writes ([System.Writing]) it is written so in the end.
func (q Quantity) Text(system System) string {
	if err := q.check(); err != nil {
		return err.Error()
	}
	if base := system.Base(); base != system {
		return system.Write(q.Text(base))
	}
	if system != SI {
		system = US
	}
	if size := math.Abs(q.SI); size > largestPrinted || size < smallestPrinted && size != 0 && q.Dim != DimTemperature {
		x, _ := q.In(q.Dim.BaseUnit())
		text := strconv.FormatFloat(x, 'g', -1, 64)
		if q.Dim == DimRatio {
			return text
		}
		return text + " " + q.Dim.BaseUnit()
	}
	switch {
	case q.Dim == DimRatio:
		return figures(q.SI)
	case q.Dim == DimLength && system == US:
		return q.usLength()
	case q.Dim == DimLength:
		return q.siLength()
	}
	builder, q := q.unitFor(system)
	decimals := -1
	if q.Dim == DimTemperature {
		decimals = 1
	}
	return q.textIn(builder, decimals)
}

// The sizes between which a value is rounded for print. Beyond, where nothing of
// this trade lies, it is written in full in its SI unit, so that no turn between
// units and no rounding can carry it out of what is read.
const (
	largestPrinted  = 1e90
	smallestPrinted = 1e-90
)

// unitFor returns the builder of the unit in which a value is printed, and the
// value to print, which [Quantity.larger] may have rounded.
func (q Quantity) unitFor(system System) (builder string, out Quantity) {
	turns := q.Dim.entry().us
	if system == SI {
		turns = q.Dim.entry().si
	}
	builder = turns[0].builder
	for _, turn := range turns[1:] {
		small := builder
		if builder, q = q.larger(turn.from, small, turn.builder); builder == small {
			break
		}
	}
	return builder, q
}

// larger chooses between two units by size. What would round up to the turn is
// printed as the turn itself, so that 59.999 s is 1 min, and a text read back is
// printed the same.
func (q Quantity) larger(from float64, small, large string) (string, Quantity) {
	u := byText().builder[small]
	size := math.Abs(q.SI)
	switch {
	case size >= from:
		return large, q
	case u.toSI(rounded(u.fromSI(size))) >= from*(1-sameWithin):
		return large, Quantity{q.Dim, math.Copysign(from, q.SI)}
	}
	return small, q
}

// textIn prints in the unit of a builder, with so many decimals, or to four
// figures if decimals is negative.
func (q Quantity) textIn(builder string, decimals int) string {
	u := byText().builder[builder]
	x := u.fromSI(q.SI)
	number := figures(x)
	if decimals >= 0 {
		number = fixed(x, decimals)
	}
	symbol := u.Symbol
	if u.Plural != "" && number != "1" {
		symbol = u.Plural
	}
	return number + " " + symbol
}
