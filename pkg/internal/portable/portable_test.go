package portable

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// exact works with 240 bits, more than four times those of the results that it
// checks, and by other series than the package: halving and doubling.
const exact = 240

func num(x float64) *big.Float { return new(big.Float).SetPrec(exact).SetFloat64(x) }

func add(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(exact).Add(a, b) }
func sub(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(exact).Sub(a, b) }
func mul(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(exact).Mul(a, b) }
func quo(a, b *big.Float) *big.Float { return new(big.Float).SetPrec(exact).Quo(a, b) }

// bigExp halves x twenty times, sums the series, and squares twenty times.
func bigExp(x *big.Float) *big.Float {
	const halvings = 20
	small := new(big.Float).SetPrec(exact+2*halvings).SetMantExp(x, -halvings)
	total, term := new(big.Float).SetPrec(exact+2*halvings).SetInt64(1), new(big.Float).SetPrec(exact+2*halvings).SetInt64(1)
	for n := int64(1); n < 40; n++ {
		term.Quo(term.Mul(term, small), new(big.Float).SetInt64(n))
		total.Add(total, term)
	}
	for range halvings {
		total.Mul(total, total)
	}
	return total.SetPrec(exact)
}

// bigLog is Newton's method on bigExp, from the logarithm of the standard library.
func bigLog(x float64) *big.Float {
	if x == 1 {
		return num(0)
	}
	mantissa, e := math.Frexp(x)
	y := add(num(math.Log(mantissa)), mul(num(float64(e)), bigLn2))
	for range 3 {
		y = sub(add(y, quo(num(x), bigExp(y))), num(1))
	}
	return y
}

// bigLn2 is ln 2 as the sum of 1/(n 2^n).
var bigLn2 = func() *big.Float {
	total := num(0)
	for n := 1; n < exact; n++ {
		total = add(total, new(big.Float).SetPrec(exact).SetMantExp(quo(num(1), num(float64(n))), -n))
	}
	return total
}()

// bigErf is 2/sqrt(pi) e^(-x^2) times the sum of 2^n x^(2n+1)/(2n+1)!!.
func bigErf(x float64) *big.Float {
	square, term, total := mul(num(x), num(x)), num(x), num(x)
	for n := 1.0; n < 6000; n++ {
		term = quo(mul(term, mul(num(2), square)), num(2*n+1))
		total = add(total, term)
		if term.MantExp(nil) < total.MantExp(nil)-exact {
			break
		}
	}
	e := bigExp(new(big.Float).SetPrec(exact).Neg(square))
	return quo(mul(mul(num(2), e), total), new(big.Float).SetPrec(exact).Sqrt(bigPi))
}

var bigPi, _, _ = big.ParseFloat("3.14159265358979323846264338327950288419716939937510582097494459230781640628620899862803", 10, exact, big.ToNearestEven)

// off returns how many units in the last place got is from want.
func off(got float64, want *big.Float) float64 {
	if got == 0 && want.Sign() == 0 {
		return 0
	}
	unit := math.Max(math.Nextafter(math.Abs(got), math.Inf(1))-math.Abs(got), math.SmallestNonzeroFloat64)
	u, _ := quo(sub(num(got), want), num(unit)).Float64()
	return math.Abs(u)
}

// anyPositive draws a number of any size above 0.
func anyPositive(r *rand.Rand) float64 {
	return math.Float64frombits(1 + r.Uint64N(math.Float64bits(math.MaxFloat64)))
}

// nearOne draws a number within a tenth of one, most of them much nearer.
func nearOne(r *rand.Rand) float64 {
	return 1 + (r.Float64()-0.5)*math.Ldexp(0.2, -r.IntN(50))
}

func tenfold(r *rand.Rand) float64 { return math.Pow(10, 12*r.Float64()-6) }

func TestAccuracy(t *testing.T) {
	one := func(draw func(*rand.Rand) float64) func(*rand.Rand) [2]float64 {
		return func(r *rand.Rand) [2]float64 { return [2]float64{draw(r)} }
	}
	spread := func(low, high float64) func(*rand.Rand) float64 {
		return func(r *rand.Rand) float64 { return low + (high-low)*r.Float64() }
	}
	log := func(x [2]float64) (float64, *big.Float) { return Log(x[0]), bigLog(x[0]) }
	log10 := func(x [2]float64) (float64, *big.Float) {
		return Log10(x[0]), quo(bigLog(x[0]), add(bigLog(5), bigLn2))
	}
	exp := func(x [2]float64) (float64, *big.Float) { return Exp(x[0]), bigExp(num(x[0])) }
	pow := func(x [2]float64) (float64, *big.Float) {
		return Pow(x[0], x[1]), bigExp(mul(num(x[1]), bigLog(x[0])))
	}
	erf := func(x [2]float64) (float64, *big.Float) { return Erf(x[0]), bigErf(x[0]) }
	erfc := func(x [2]float64) (float64, *big.Float) { return Erfc(x[0]), sub(num(1), bigErf(x[0])) }
	for _, c := range []struct {
		name, why string
		draw      func(*rand.Rand) [2]float64
		call      func([2]float64) (float64, *big.Float)
		within    float64 // units in the last place, as the doc comment says
	}{
		{"log, any size", "every exponent, and numbers below the smallest normal one", one(anyPositive), log, 0.51},
		{"log, near one", "the result is small, and its last place with it", one(nearOne), log, 0.51},
		{"log, loads and moduli", "the sizes that designs have", one(tenfold), log, 0.51},
		{"log10, any size", "every exponent", one(anyPositive), log10, 0.51},
		{"log10, near one", "the result is small, and its last place with it", one(nearOne), log10, 0.51},
		{"exp, all that is finite", "from the smallest result to the largest", one(spread(-708, 709)), exp, 0.51},
		{"exp, small", "the result is near one", one(func(r *rand.Rand) float64 { return nearOne(r) - 1 }), exp, 0.51},
		{"exp, below the normal numbers", "a result with fewer bits is rounded twice", one(spread(-744, -709)), exp, 1},
		{"pow, any", "a power of any size, told apart by the error of the logarithm", func(r *rand.Rand) [2]float64 {
			x := anyPositive(r)
			return [2]float64{x, (r.Float64()*1400 - 700) / math.Log(x)}
		}, pow, 0.6},
		{"pow, near one", "a great power of a number near one", func(r *rand.Rand) [2]float64 {
			x := nearOne(r)
			return [2]float64{x, (r.Float64()*1400 - 700) / max(1e-15, math.Abs(math.Log(x)))}
		}, pow, 0.6},
		{"pow, as the formulas use it", "powers of ten and of a CBR", func(r *rand.Rand) [2]float64 {
			return [2]float64{tenfold(r), 12*r.Float64() - 6}
		}, pow, 0.6},
		{"erf", "both its series and its sum", one(spread(-6, 6)), erf, 2},
		{"erf, small", "the result is nearly the argument", one(func(r *rand.Rand) float64 { return nearOne(r) - 1 }), erf, 2},
		{"erfc", "both sides of where the correction ends, and down to where 240 bits tell 1 from erf", one(spread(-3, 8)), erfc, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(1, 2))
			worst, at := 0.0, [2]float64{}
			for range 2000 {
				x := c.draw(r)
				got, want := c.call(x)
				if u := off(got, want); u > worst {
					worst, at = u, x
				}
			}
			t.Logf("worst %.4f units in the last place, at %v", worst, at)
			require.LessOrEqual(t, worst, c.within, "%s: at %v", c.why, at)
		})
	}
}

func TestSpecialValues(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	minusZero := math.Copysign(0, -1)
	for _, f := range []struct {
		name, why  string
		ours, math func(float64) float64
	}{
		{"log", "minus infinity at 0, no number below", Log, math.Log},
		{"log10", "as the logarithm", Log10, math.Log10},
		{"exp", "0 and infinity beyond what a number holds", Exp, math.Exp},
		{"erf", "one at infinity", Erf, math.Erf},
		{"erfc", "two at minus infinity", Erfc, math.Erfc},
	} {
		t.Run(f.name, func(t *testing.T) {
			for _, x := range []float64{nan, inf, -inf, 0, minusZero, 1, -1, 1000, -1000, 1e300, -1e300} {
				same(t, f.math(x), f.ours(x), fmt.Sprint(x))
			}
		})
	}
	t.Run("pow", func(t *testing.T) {
		edges := []float64{nan, inf, -inf, 0, minusZero, 1, -1, 2, -2, 3, -3, 0.5, -0.5, 1e300, -1e300, 1e-300, 1e17, -1e17}
		for _, x := range edges {
			for _, y := range edges {
				same(t, math.Pow(x, y), Pow(x, y), fmt.Sprint(x, " to the ", y))
			}
		}
	})
}

// same holds two results together: the same special value, or equal within the
// two units by which the standard library may be off.
func same(t *testing.T, want, got float64, at string) {
	t.Helper()
	switch {
	case math.IsNaN(want):
		require.True(t, math.IsNaN(got), "at %s: %v", at, got)
	case want == 0 || math.IsInf(want, 0):
		require.Equal(t, math.Float64bits(want), math.Float64bits(got), "at %s: %v, wanted %v", at, got, want)
	default:
		require.InEpsilon(t, want, got, 1e-15, "at %s", at)
	}
}

// A power that a number holds exactly comes out exactly, since every result is
// within 0.51 units.
func TestExactPowers(t *testing.T) {
	ten := 1.0
	for n := range 23 {
		require.Equal(t, ten, Pow(10, float64(n)), "10 to the %d", n)
		require.Equal(t, float64(n), Log10(ten), "log10 of %g", ten)
		ten *= 10
	}
	for n := range 17 {
		x := float64(3 + n)
		require.Equal(t, x*x*x, Pow(x, 3), "the cube of %g", x)
		require.Equal(t, x, Pow(x*x, 0.5), "the root of %g", x*x)
	}
	require.Equal(t, math.E, Exp(1))
	require.Equal(t, 1.0, Exp(0))
	require.Zero(t, Log(1))
}

func TestFinite(t *testing.T) {
	for _, c := range []struct {
		name, why string
		xs        []float64
		want      bool
	}{
		{"none", "nothing is out of bounds", nil, true},
		{"numbers", "the greatest and the least among them", []float64{0, -1, math.MaxFloat64, math.SmallestNonzeroFloat64}, true},
		{"not a number last", "each counts", []float64{1, math.NaN()}, false},
		{"infinite first", "each counts", []float64{math.Inf(1), 1}, false},
		{"minus infinity", "the sign does not matter", []float64{math.Inf(-1)}, false},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Finite(c.xs...), c.why) })
	}
}

// TestEndsOfTheNumbers: the greatest number is e^709.7827, half of the smallest is
// e^-745.13, and erfc is that small from 27.23 on.
func TestEndsOfTheNumbers(t *testing.T) {
	near, _ := bigExp(num(709.782)).Float64()
	for _, c := range []struct {
		name, why string
		want, got float64
	}{
		{"just finite", "below the greatest number", near, Exp(709.782)},
		{"just infinite", "above the greatest number", math.Inf(1), Exp(709.783)},
		{"just above 0", "above half of the smallest number", math.SmallestNonzeroFloat64, Exp(-745.1)},
		{"just 0", "below half of the smallest number", 0, Exp(-745.2)},
		{"far beyond", "an exponent that no whole number holds", math.Inf(1), Exp(1e300)},
		{"far below", "an exponent that no whole number holds", 0, Exp(-1e300)},
		{"power just finite", "the greatest power of 2", math.Ldexp(1, 1023), Pow(2, 1023)},
		{"power just infinite", "the next", math.Inf(1), Pow(2, 1024)},
		{"power just above 0", "the smallest number", math.SmallestNonzeroFloat64, Pow(2, -1074)},
		{"power of 0", "a quarter of the smallest number", 0, Pow(2, -1076)},
		{"erfc just above 0", "e^(-27.22^2)/(27.22 sqrt(pi)) is e^-744.8", math.SmallestNonzeroFloat64, Erfc(27.22)},
		{"erfc of 0", "e^(-27.24^2)/(27.24 sqrt(pi)) is e^-745.9", 0, Erfc(27.24)},
		{"erfc beyond", "e^-784 is 0", 0, Erfc(28.5)},
	} {
		t.Run(c.name, func(t *testing.T) { same(t, c.want, c.got, c.why) })
	}
}
