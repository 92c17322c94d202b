package portable

import "math"

const (
	smallArgument = 0.5 // where the series gives way to the sum
	erfcIsZero    = 28  // beyond this, erfc is below the smallest number
	steps         = 12  // terms of the sum; the next is below the last place
)

// Erf returns the error function of x, to within about 2 units in the last
// place.
func Erf(x float64) float64 {
	switch {
	case x < 0:
		return -Erf(-x)
	case x < smallArgument:
		return erfSeries(x)
	}
	return 1 - Erfc(x)
}

// Erfc returns the complementary error function 1 - Erf(x), to within about 4
// units in the last place.
func Erfc(x float64) float64 {
	switch {
	case x < 0:
		return 1 + Erf(-x)
	case x < smallArgument:
		return 1 - erfSeries(x)
	case x > erfcIsZero:
		return 0
	}
	return erfcSum(x)
}

// erfSeries is Abramowitz and Stegun, 7.1.5: 2/sqrt(pi) times the sum of
// (-1)^n x^(2n+1)/(n! (2n+1)), for 0 <= x < 0.5.
func erfSeries(x float64) float64 {
	square, term, s := float64(x*x), 1.0, 0.0
	for n := 1.0; n <= 14; n++ {
		term *= -square / n
		s += term / (2*n + 1)
	}
	return float64(2 / math.SqrtPi * (x + float64(x*s)))
}

// erfcSum is the trapezoidal rule for the integral of e^(-t^2)/(t^2+x^2), with
// the correction for its pole, for x >= 0.5: Chiarella and Reichel, "On the
// evaluation of integrals related to the error function" (1968, from memory; the
// test holds it). With steps of one half
//
//	erfc x = x e^(-x^2)/pi * (1/(2 x^2) + sum of e^(-k^2/4)/(k^2/4 + x^2)) - 2/(e^(4 pi x) - 1)
//
// the last term only up to x = 2 pi, and what is left out is of the order of
// e^(-4 pi^2).
func erfcSum(x float64) float64 {
	square := float64(x * x)
	s := 0.0
	for i, bell := range bells {
		s += bell / (stepSquared(i) + square)
	}
	s = float64(x*s) + 0.5/x
	fall := product(x, x)
	whole := float64(exponential(double{-fall.hi, -fall.lo}) * s / math.Pi)
	if x > 2*math.Pi {
		return whole
	}
	return whole - 2/(Exp(float64(4*math.Pi*x))-1)
}

// bells are e^(-k^2/4), the smallest first.
var bells = func() (b [steps]float64) {
	for i := range b {
		b[i] = Exp(-stepSquared(i))
	}
	return b
}()

// stepSquared is k^2/4 for the bell at i.
func stepSquared(i int) float64 {
	k := float64(steps - i)
	return float64(k * k / 4)
}
