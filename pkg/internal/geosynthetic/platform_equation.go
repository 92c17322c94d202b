package geosynthetic

import (
	"math"

	"example.com/groundrule/pkg/internal/portable"
)

// platformEquation is the platform equation with everything but the thickness
// put in, written in x = h/r:
//
//	x = (level + passing * x^-1.5) * (sqrt(overload / m(x)) - 1) / spread
//	m(x) = 1 - 0.9 exp(-1/x^2)
//
// level, spread and overload are above 0; passing is 0 or above, because the
// aperture stability modulus stays under the 0.81 at which its bracket turns.
// The limits of the case keep overload under 30 and passing under 4.
type platformEquation struct {
	level, passing, spread, overload float64
}

// solveStep is how finely x is found. It is a power of two, as are the ends of
// the search, so that every x tried is exact and the answer does not hang on
// the last bit of a library's exponential.
const solveStep = 1.0 / (1 << 30)

// lastShortfall is the x from which on every thicker platform satisfies the
// equation: its largest root, or 0 if no thickness falls short.
//
// The bracket. For x >= 1 the right side is at most
// (level + passing) (sqrt(10 overload) - 1) / spread, since x^-1.5 <= 1 and
// m > 0.1; so beyond the larger of 1 and that bound nothing falls short. For
// overload > 1 the right side is always at least
// level (sqrt(overload) - 1) / spread > 0, since m <= 1; so a platform thinner
// than that does fall short, and there is a root between.
//
// The search halves the bracket and goes into the upper half unless that half
// is proven to hold no shortfall (see [platformEquation.suffices]). Plain
// halving by sign would find some root; where weak stone lies on ground that
// all but carries the wheel there can be three, and only the largest is safe.
func (e platformEquation) lastShortfall() float64 {
	bound := (e.level + e.passing) * (math.Sqrt(e.overload/(1-mobilisationDrop)) - 1) / e.spread
	high := 1.0
	for high < bound {
		high *= 2
	}
	return e.search(0, high)
}

// search returns the upper end of the highest step in [low, high] that is not
// proven to suffice, or 0 if all are.
func (e platformEquation) search(low, high float64) float64 {
	if e.suffices(low, high) {
		return 0
	}
	if high-low <= solveStep {
		return high
	}
	middle := (low + high) / 2
	if x := e.search(middle, high); x > 0 {
		return x
	}
	return e.search(low, middle)
}

// suffices proves that every x in [low, high] satisfies the equation. The
// first factor of the right side falls with x and the second rises, so the one
// at low times the other at high is at least the right side anywhere between.
func (e platformEquation) suffices(low, high float64) bool {
	excess := math.Sqrt(e.overload/mobilisation(high)) - 1
	if excess <= 0 {
		return true
	}
	if low <= 0 {
		return false
	}
	reach := e.level + e.passing/(low*math.Sqrt(low))
	return reach*excess <= e.spread*low
}

// mobilisation is the part of the bearing capacity that is called up under a
// platform of x radii, 1 when thin and 0.1 when thick.
func mobilisation(x float64) float64 {
	return 1 - float64(mobilisationDrop*portable.Exp(-1/(x*x)))
}
