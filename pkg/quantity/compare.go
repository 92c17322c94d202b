package quantity

import (
	"cmp"
	"fmt"
	"math"
)

// sameWithin is how far apart, relative to the larger, two values may be and
// still be the same. Turning units rounds in the sixteenth digit, so without it
// 2 in + 4 in would be less than 6 in and a rule at its limit would tip. One part
// in a thousand million is far above that noise and far below anything that a
// crew or a laboratory can measure.
const sameWithin = 1e-9

// iceInKelvin puts Celsius readings on the absolute scale, where a relative
// difference means something.
const iceInKelvin = 273.15

// same reports whether a and b agree within [sameWithin] of the larger. 0 is the
// same as 0 alone.
func same(a, b float64) bool {
	return a == b || math.Abs(a-b) <= sameWithin*math.Max(math.Abs(a), math.Abs(b))
}

// Compare returns -1 if a is less than b, 1 if it is more, and 0 if the two agree
// within a relative 1e-9, so that 2 in + 4 in is 6 in. Temperatures agree within
// the same share of their absolute value, about 3e-7 degrees. Since the
// tolerance is relative, a difference is best compared by its two sides: 2 in +
// 4 in - 6 in is not exactly 0.
//
// The error wraps [ErrDimension] if the dimensions differ, [ErrNotFinite] if a
// value is no number.
func Compare(a, b Quantity) (int, error) {
	if err := checkBoth(a, b); err != nil {
		return 0, err
	}
	if a.Dim != b.Dim {
		return 0, fmt.Errorf("%w: %s cannot be compared with %s", ErrDimension, article(a.Dim), article(b.Dim))
	}
	x, y := a.SI, b.SI
	if a.Dim == DimTemperature {
		x, y = x+iceInKelvin, y+iceInKelvin
	}
	if same(x, y) {
		return 0, nil
	}
	return cmp.Compare(x, y), nil
}

// RoundUp returns the least multiple of step that is not less than l. A multiple
// that l passes by less than a relative 1e-9 still counts: 6.0000000001 in is
// 6 in at a step of 1/2 in. The error is for a step that is not above 0, and for
// values that are no numbers ([ErrNotFinite]).
func RoundUp(l, step Length) (Length, error) {
	return roundTo(l, step, func(n float64) float64 {
		if nearest := math.Round(n); same(n, nearest) {
			return nearest
		}
		return math.Ceil(n)
	})
}

// RoundNearest returns the multiple of step nearest to l; halfway, the one
// further from 0, within the tolerance and with the errors of [RoundUp].
func RoundNearest(l, step Length) (Length, error) {
	return roundTo(l, step, func(n float64) float64 {
		size := math.Abs(n)
		if half := math.Floor(size) + 0.5; same(size, half) {
			return math.Copysign(math.Ceil(half), n)
		}
		return math.Round(n)
	})
}

func roundTo(l, step Length, round func(float64) float64) (Length, error) {
	if err := checkBoth(l.Quantity(), step.Quantity()); err != nil {
		return 0, err
	}
	if step <= 0 {
		return 0, fmt.Errorf("the step of rounding must be above 0, got %s", step.Quantity().Text(US))
	}
	out := Length(round(float64(l/step))) * step
	// Adding 0 turns a negative zero into a plain one.
	return out + 0, out.Quantity().check()
}
