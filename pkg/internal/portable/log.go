package portable

import "math"

// Constants in two parts. The first part of ln 2 has 42 bits, so that its
// product with an exponent is exact.
const (
	ln2High    = 0x1.62e42fefa38p-1
	ln2Low     = math.Ln2 - ln2High
	log10eHigh = 0x1.bcb7b1526e50ep-2
	log10eLow  = math.Log10E - log10eHigh
	thirdHigh  = 0x1.5555555555555p-2
	thirdLow   = 1.0/3 - thirdHigh
	fifthHigh  = 0x1.999999999999ap-3
	fifthLow   = 1.0/5 - fifthHigh
)

// Log returns the natural logarithm of x, to within 0.51 units in the last
// place: -Inf for 0, +Inf for +Inf, NaN below 0.
func Log(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 1) {
		return math.Log(x) // these cases are defined, and so are alike everywhere
	}
	return logarithm(x).hi
}

// Log10 returns the logarithm of x to base 10, to within 0.51 units in the last
// place, so that a power of ten has its exact exponent. Special cases are as
// for [Log].
func Log10(x float64) float64 {
	if !(x > 0) || math.IsInf(x, 1) {
		return math.Log(x)
	}
	return logarithm(x).times(double{log10eHigh, log10eLow}).hi
}

// oddInverses are 1/n for odd n from 25 down to 7.
var oddInverses = [...]float64{1.0 / 25, 1.0 / 23, 1.0 / 21, 1.0 / 19, 1.0 / 17, 1.0 / 15, 1.0 / 13, 1.0 / 11, 1.0 / 9, 1.0 / 7}

// logarithm returns ln x for a finite x above 0, with a relative error below
// 2^-65. With x = m*2^e, m near 1, and s = (m-1)/(m+1) it is
//
//	e*ln 2 + 2*(s + s^3/3 + s^5/5 + ...)
//
// the series of Abramowitz and Stegun, 4.1.27. The first three terms are worked
// out in double; |s| is below 0.172, so the others are small.
func logarithm(x float64) double {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m *= 2
		e--
	}
	top, bottom := m-1, sum(m, 1)
	q := top / bottom.hi
	back := product(q, bottom.hi)
	s := ordered(q, (top-back.hi-back.lo-float64(q*bottom.lo))/bottom.hi)
	square := s.times(s)
	tail := 0.0
	for _, c := range oddInverses {
		tail = float64(tail*square.hi) + c
	}
	series := double{fifthHigh, fifthLow}.plus(square.times(double{tail, 0}))
	series = double{thirdHigh, thirdLow}.plus(square.times(series))
	series = double{1, 0}.plus(square.times(series))
	series = s.times(series)
	n := float64(e)
	return ordered(float64(n*ln2High), float64(n*ln2Low)).plus(double{2 * series.hi, 2 * series.lo})
}
