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
// value is not a number.
func (a Quantity) Compare(b Quantity) (int, error) {
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

// RoundUp returns the least whole number of steps that is not less than q. What a
// step passes by less than a part in a thousand million, as 2 in + 4 in passes 6
// in, counts as whole. The error wraps [ErrDimension] if the two differ in it,
// and is for a step that is not above 0.
func (q Quantity) RoundUp(step Quantity) (Quantity, error) { return q.round(step, math.Ceil) }

// RoundDown returns the greatest whole number of steps that is not more than q,
// with the tolerance and the errors of [Quantity.RoundUp].
func (q Quantity) RoundDown(step Quantity) (Quantity, error) { return q.round(step, math.Floor) }

// RoundNear returns the nearest whole number of steps, the greater of two that are
// as near, with the tolerance and the errors of [Quantity.RoundUp].
func (q Quantity) RoundNear(step Quantity) (Quantity, error) {
	return q.round(step, func(n float64) float64 { return math.Floor(n + 0.5) })
}

func (q Quantity) round(step Quantity, whole func(float64) float64) (Quantity, error) {
	if _, err := q.Compare(step); err != nil {
		return Quantity{}, err
	}
	if step.SI <= 0 {
		return Quantity{}, fmt.Errorf("the step of rounding must be above 0, got %s", step.Text(US))
	}
	n := q.SI / step.SI
	if near := math.Round(n); math.Abs(n-near) <= sameWithin*math.Max(1, math.Abs(n)) {
		n = near
	} else {
		n = whole(n)
	}
	// Adding 0 turns a negative zero into a plain one.
	out := Quantity{q.Dim, float64(n*step.SI) + 0}
	return out, out.check()
}
