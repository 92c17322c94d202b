package structure

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// Each iteration of the package is held here against a route of its own.

// plainTraffic is the flexible equation written anew, in natural logarithms.
func plainTraffic(sn, z, deviation, loss, psi float64) float64 {
	ln := (z*deviation-0.2-8.07)*math.Ln10 + 9.36*math.Log(sn+1) + 2.32*math.Log(psi)
	return ln + math.Log(loss/2.7)/(0.4+1094*math.Exp(-5.19*math.Log(sn+1)))
}

// newtonSN solves it by Newton's method, with a slope by difference.
func newtonSN(esal, z, deviation, loss, psi float64) float64 {
	sn := 3.0
	for range 100 {
		f := plainTraffic(sn, z, deviation, loss, psi) - math.Log(esal)
		slope := (plainTraffic(sn+1e-6, z, deviation, loss, psi) - plainTraffic(sn-1e-6, z, deviation, loss, psi)) / 2e-6
		sn = math.Max(sn-f/slope, 0.01)
	}
	return sn
}

func drawFlexible(r *rand.Rand) (reliability, deviation, loss, psi float64) {
	return 50 + 49.99*r.Float64(), 0.2 + 0.4*r.Float64(), 0.5 + 2.5*r.Float64(), between(r.Float64(), 1000, 40000)
}

func TestRequiredSNRoutes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	solved := 0
	for range 3000 {
		reliability, deviation, loss, psi := drawFlexible(r)
		esal := between(r.Float64(), 1, 50e6)
		sn, err := RequiredSN(esal, reliability, deviation, loss, quantity.PSI(psi), ExactDeviate)
		if err != nil {
			require.ErrorIs(t, err, ErrNoAnswer)
			most, err := TrafficCapacity(greatestSN, reliability, deviation, loss, quantity.PSI(psi), ExactDeviate)
			require.NoError(t, err)
			require.Less(t, most, esal)
			continue
		}
		back, err := TrafficCapacity(sn, reliability, deviation, loss, quantity.PSI(psi), ExactDeviate)
		require.NoError(t, err)
		if sn == leastSN {
			require.GreaterOrEqual(t, back, esal)
			continue
		}
		solved++
		require.InEpsilon(t, esal, back, 1e-6, "SN put back")
		require.GreaterOrEqual(t, back, esal*(1-1e-12), "the safe end")
		z, err := NormalDeviate(reliability, ExactDeviate)
		require.NoError(t, err)
		require.InDelta(t, newtonSN(esal, z, deviation, loss, psi), sn, 1e-6, "Newton's method")

		modulus, err := RequiredModulus(esal, sn, reliability, deviation, loss, ExactDeviate)
		require.NoError(t, err)
		require.InEpsilon(t, psi, modulus.PSI(), 1e-6, "modulus put back")
	}
	require.Greater(t, solved, 1000, "most draws must reach the solver")
}

func TestNormalDeviateRoute(t *testing.T) {
	for _, reliability := range []float64{50, 50.1, 60, 75, 77.7, 90, 95, 99, 99.9, 99.99} {
		low, high := 0.0, 10.0 // the deviate, by halving the error function
		for range 200 {
			middle := (low + high) / 2
			if 100*(1-math.Erfc(middle/math.Sqrt2)/2) < reliability {
				low = middle
			} else {
				high = middle
			}
		}
		z, err := NormalDeviate(reliability, ExactDeviate)
		require.NoError(t, err)
		require.InDelta(t, -low, z, 1e-9, "reliability %g", reliability)
	}
	printed, err := NormalDeviate(99.99, PrintedDeviate)
	require.NoError(t, err)
	exact, err := NormalDeviate(99.99, ExactDeviate)
	require.NoError(t, err)
	require.InDelta(t, 0.031, exact-printed, 0.0005, "the one level at which print and quantile part")
}

// incompressible is the interface kernel for Poisson's ratios of 0.5 in closed form.
func incompressible(x, ratio float64) float64 {
	n := (ratio - 1) / (ratio + 1)
	e := math.Exp(-2 * x)
	return (1 - n) * (1 + x - n*(1-x)*e) * math.Exp(-x) / (1 - 2*n*(1+2*x*x)*e + n*n*e*e)
}

// simpsonShare integrates the closed kernel by Simpson's rule on an even net.
func simpsonShare(slenderness, ratio float64) float64 {
	const steps, end = 20000, 40.0
	h := end / steps
	sum := 0.0
	for i := range steps + 1 {
		x, w := float64(i)*h, 2.0
		switch {
		case i == 0 || i == steps:
			w = 1
		case i%2 == 1:
			w = 4
		}
		sum += w * incompressible(x, ratio) * math.J1(x*slenderness)
	}
	return slenderness * sum * h / 3
}

func TestTwoLayerRoutes(t *testing.T) {
	for _, slenderness := range []float64{0.1, 0.25, 0.7, 1, 1.6, 2} {
		for _, ratio := range []float64{1, 1.5, 3, 10, 100, 1000} {
			for _, x := range []float64{0, 0.01, 0.3, 1, 4, 20} {
				require.InDelta(t, incompressible(x, ratio), interfaceKernel(x, ratio, 0.5, 0.5), 1e-10, "kernel at %g, ratio %g", x, ratio)
			}
			require.InDelta(t, simpsonShare(slenderness, ratio), twoLayer(t, slenderness, ratio, 0.5, 0.5), 1e-7, "a/h %g, ratio %g", slenderness, ratio)
		}
		for _, poisson := range []float64{0, 0.2, 0.35, 0.45, 0.5} {
			require.InDelta(t, circleShare(slenderness, 1), twoLayer(t, slenderness, 1, poisson, poisson), 1e-8, "one ground, a/h %g, Poisson's ratio %g", slenderness, poisson)
		}
	}
}

// TestCornerRoute sums point loads over the rectangle; the corner solution came
// from memory and this shows that it is the integral of the point load.
func TestCornerRoute(t *testing.T) {
	const n = 200
	for _, c := range []struct{ l, b, z float64 }{{1, 1, 1}, {2, 0.5, 0.7}, {0.3, 3, 2}} {
		sum := 0.0
		for i := range n {
			for j := range n {
				x, y := c.l*(float64(i)+0.5)/n, c.b*(float64(j)+0.5)/n
				p, err := BoussinesqPoint(quantity.Force(c.l*c.b/n/n), quantity.Length(c.z), quantity.Length(math.Hypot(x, y)))
				require.NoError(t, err)
				sum += float64(p)
			}
		}
		got, err := BoussinesqCorner(1, quantity.Length(c.l), quantity.Length(c.b), quantity.Length(c.z))
		require.NoError(t, err)
		require.InDelta(t, sum, float64(got), 2e-6, "%+v", c)
	}
}

func TestStrainRoute(t *testing.T) {
	for _, coverages := range []float64{100, 5000, 1e7} {
		strain, err := SubgradeStrainLimit(coverages)
		require.NoError(t, err)
		back, err := SubgradeStrainCoverages(strain)
		require.NoError(t, err)
		require.InEpsilon(t, coverages, back, 1e-9)
	}
}

func TestGrowthRoute(t *testing.T) {
	for _, rate := range []float64{0, 1e-9, 0.5, 4, 20} {
		sum, year := 0.0, 1.0
		for range 25 {
			sum += year
			year *= 1 + rate/100
		}
		got, err := GrowthFactor(rate, quantity.Years(25))
		require.NoError(t, err)
		require.InEpsilon(t, sum, got, 1e-9, "rate %g", rate)
	}
}
