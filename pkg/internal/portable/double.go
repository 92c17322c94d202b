package portable

import "math"

// double is the sum of two numbers, the second at most half a unit in the last
// place of the first: about 106 bits. The operations are those of Dekker, "A
// floating-point technique for extending the available precision" (1971), and
// Knuth's sum of two numbers with its error.
type double struct{ hi, lo float64 }

// sum returns a + b without error.
func sum(a, b float64) double {
	s := a + b
	part := s - a
	return double{s, (a - (s - part)) + (b - part)}
}

// ordered is [sum] for |a| >= |b|.
func ordered(a, b float64) double {
	s := a + b
	return double{s, b - (s - a)}
}

// product returns a * b, with an error of at most the last bit of 106.
func product(a, b float64) double {
	p := float64(a * b)
	ah, al := halves(a)
	bh, bl := halves(b)
	rest := float64(ah*bh) - p + float64(ah*bl) + float64(al*bh) + float64(al*bl)
	return double{p, rest}
}

// halves returns the leading 26 bits of a and the rest.
func halves(a float64) (high, low float64) {
	high = math.Float64frombits(math.Float64bits(a) &^ (1<<27 - 1))
	return high, a - high
}

func (x double) plus(y double) double {
	s := sum(x.hi, y.hi)
	return ordered(s.hi, s.lo+(x.lo+y.lo))
}

func (x double) times(y double) double {
	p := product(x.hi, y.hi)
	return ordered(p.hi, p.lo+(float64(x.hi*y.lo)+float64(x.lo*y.hi)))
}
