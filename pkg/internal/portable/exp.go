package portable

import "math"

// Exp returns e to the power x, to within 0.51 units in the last place (one
// unit where the result is below the smallest normal number).
func Exp(x float64) float64 {
	return exponential(double{x, 0})
}

// Pow returns x to the power y, to within 0.6 units in the last place (one unit
// where the result is below the smallest normal number). Special cases are
// those of [math.Pow].
func Pow(x, y float64) float64 {
	switch {
	case math.IsNaN(x), math.IsNaN(y), math.IsInf(x, 0), math.IsInf(y, 0), x == 0, y == 0:
		return math.Pow(x, y) // these cases are defined, and so are alike everywhere
	case x < 0:
		return float64(math.Pow(-1, y) * Pow(-x, y)) // 1 or -1, or NaN where y is not whole
	}
	log := logarithm(x)
	if rough := float64(log.hi * y); math.Abs(rough) > 1000 {
		return exponential(double{rough, 0}) // infinite, or 0; the product in two parts could overflow
	}
	power := product(log.hi, y)
	return exponential(ordered(power.hi, power.lo+float64(log.lo*y)))
}

// Beyond these the result is infinite, or 0.
const (
	mostExponent  = 710
	leastExponent = -746
)

// inverseFactorials are 1/n! from n = 14 down to 3.
var inverseFactorials = [...]float64{
	1.0 / 87178291200, 1.0 / 6227020800, 1.0 / 479001600, 1.0 / 39916800,
	1.0 / 3628800, 1.0 / 362880, 1.0 / 40320, 1.0 / 5040, 1.0 / 720, 1.0 / 120, 1.0 / 24, 1.0 / 6,
}

// exponential returns e^x. With x = k*ln 2 + r, |r| at most half of ln 2, it is
// 2^k * e^r, and e^r the series of Abramowitz and Stegun, 4.2.1, its first
// three terms worked out in double.
func exponential(x double) float64 {
	switch {
	case x.hi > mostExponent:
		return math.Inf(1)
	case x.hi < leastExponent:
		return 0
	}
	k := math.Floor(float64(x.hi*math.Log2E) + 0.5)
	r := sum(x.hi, -float64(k*ln2High))
	r = ordered(r.hi, r.lo+(x.lo-float64(k*ln2Low)))
	square := r.times(r)
	tail := 0.0
	for _, c := range inverseFactorials {
		tail = float64(tail*r.hi) + c
	}
	tail = float64(float64(tail*r.hi) * square.hi)
	s := double{1, 0}.plus(r).plus(double{float64(square.hi / 2), float64(square.lo / 2)})
	return math.Ldexp(s.hi+(s.lo+tail), int(k))
}
