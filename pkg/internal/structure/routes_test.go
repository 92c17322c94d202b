package structure

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Each iteration and each table of the package is held here against a route of
// its own.

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

func drawFlexible(r *rand.Rand) (reliability quantity.Share, deviation, loss, psi float64) {
	level := printedDeviates[r.IntN(len(printedDeviates))].reliability
	return quantity.Percent(level), 0.2 + 0.4*r.Float64(), 0.5 + 2.5*r.Float64(), between(r.Float64(), 1000, 40000)
}

func TestRequiredSNRoutes(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	solved, refused := 0, 0
	for range 3000 {
		reliability, deviation, loss, psi := drawFlexible(r)
		esal := between(r.Float64(), 1, 50e6)
		sn, err := RequiredSN(esal, reliability, deviation, loss, quantity.PSI(psi))
		if err != nil {
			var outside *calculation.RangeError
			require.ErrorAs(t, err, &outside)
			most := must[float64](t)(TrafficCapacity(greatestSN, reliability, deviation, loss, quantity.PSI(psi)))
			require.Less(t, most, esal)
			require.Equal(t, most, outside.Want.High, "the error tells what the thickest section carries")
			refused++
			continue
		}
		back := must[float64](t)(TrafficCapacity(sn, reliability, deviation, loss, quantity.PSI(psi)))
		if sn == leastSN {
			require.GreaterOrEqual(t, back, esal)
			continue
		}
		solved++
		require.InEpsilon(t, esal, back, 1e-6, "SN put back")
		require.GreaterOrEqual(t, back, esal*(1-1e-12), "the safe end")
		z := must[float64](t)(NormalDeviate(reliability))
		require.InDelta(t, newtonSN(esal, z, deviation, loss, psi), sn, 1e-6, "Newton's method")
	}
	require.Greater(t, solved, 1000, "most draws must reach the solver")
	require.Positive(t, refused, "some draws must be refused")
}

// TestLeastRoot: a root that a number holds is found as it is, and else the first
// number at which the function is not below zero.
func TestLeastRoot(t *testing.T) {
	for _, c := range []struct {
		name, why string
		root      float64
	}{
		{"in the middle", "the first number tried is the root", 1},
		{"a quarter up", "found on the way down and up", 0.75},
		{"not held", "a third lies between two numbers", 1.0 / 3},
		{"the high end", "nothing before it will do", 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.root, leastRoot(func(x float64) float64 { return x - c.root }, 0, 2), c.why)
		})
	}
}

// TestDeviatesAreNormal: the printed table against the normal distribution, found
// by halving the error function.
func TestDeviatesAreNormal(t *testing.T) {
	for _, row := range printedDeviates {
		t.Run(fmt.Sprintf("%g %%", row.reliability), func(t *testing.T) {
			low, high := 0.0, 10.0
			for range 200 {
				middle := (low + high) / 2
				if 100*(1-math.Erfc(middle/math.Sqrt2)/2) < row.reliability {
					low = middle
				} else {
					high = middle
				}
			}
			off := 0.0007 // three printed decimals, some of them cut
			if row.reliability == 99.99 {
				off = 0.0315 // the one level at which print and quantile part
			}
			require.InDelta(t, -low, must[float64](t)(NormalDeviate(quantity.Percent(row.reliability))), off)
		})
	}
}

// TestCircleRoute sums point loads over the circle, ring by ring.
func TestCircleRoute(t *testing.T) {
	for _, z := range []float64{0.2, 1, 3} {
		t.Run(fmt.Sprintf("%g radii deep", z), func(t *testing.T) {
			const rings = 20000
			sum := 0.0
			for i := range rings {
				r := (float64(i) + 0.5) / rings
				sum += 3 / (2 * math.Pi * z * z) * math.Pow(1+(r/z)*(r/z), -2.5) * 2 * math.Pi * r / rings
			}
			got := must[quantity.Pressure](t)(BoussinesqCircle(1, 1, quantity.Length(z)))
			require.InDelta(t, sum, float64(got), 1e-8)
		})
	}
}

func TestGrowthRoute(t *testing.T) {
	for _, c := range []struct {
		name, why string
		rate      float64
	}{
		{"no growth", "the sum is the number of years", 0},
		{"hardly any", "one and the rate are nearly one", 1e-9},
		{"half a percent", "slow growth", 0.5},
		{"usual", "the rate of the published example", 4},
		{"most", "the end of the range", 10},
	} {
		t.Run(c.name, func(t *testing.T) {
			sum, year := 0.0, 1.0
			for range 25 {
				sum += year
				year *= 1 + c.rate/100
			}
			require.InEpsilon(t, sum, must[float64](t)(GrowthFactor(quantity.Percent(c.rate), quantity.Years(25))), 1e-9, c.why)
		})
	}
}
