package structure

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const draws = 2000

// solve returns the required SN, or one past the range where there is no answer,
// so that no answer counts as thicker than any.
func solve(t *testing.T, esal, reliability, deviation, loss, psi float64) float64 {
	sn, err := RequiredSN(esal, reliability, deviation, loss, quantity.PSI(psi), ExactDeviate)
	if err != nil {
		require.ErrorIs(t, err, ErrNoAnswer)
		return greatestSN + 1
	}
	return sn
}

func ordered(a, b float64) (less, more float64) { return min(a, b), max(a, b) }

// TestThicknessNeverFalls when the ground is softer, the traffic heavier or the
// reliability higher.
func TestThicknessNeverFalls(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range draws {
		reliability, deviation, loss, psi := drawFlexible(r)
		esal := between(r.Float64(), 1, 50e6)
		light, heavy := ordered(esal, between(r.Float64(), 1, 50e6))
		require.LessOrEqual(t, solve(t, light, reliability, deviation, loss, psi), solve(t, heavy, reliability, deviation, loss, psi), "traffic")
		soft, firm := ordered(psi, between(r.Float64(), 1000, 40000))
		require.LessOrEqual(t, solve(t, esal, reliability, deviation, loss, firm), solve(t, esal, reliability, deviation, loss, soft), "modulus")
		unsure, sure := ordered(reliability, 50+49.99*r.Float64())
		require.LessOrEqual(t, solve(t, esal, unsure, deviation, loss, psi), solve(t, esal, sure, deviation, loss, psi), "reliability")

		load, tire := between(r.Float64(), 100, 2e5), between(r.Float64(), 5, 500)
		cover := func(load, tire, cbr float64) float64 {
			return float64(must[quantity.Length](t)(WheelCover(quantity.PoundsForce(load), quantity.PSI(tire), cbr)))
		}
		weak, strong := ordered(between(r.Float64(), 0.5, 12), between(r.Float64(), 0.5, 12))
		require.LessOrEqual(t, cover(load, tire, strong), cover(load, tire, weak), "CBR")
		small, large := ordered(load, between(r.Float64(), 100, 2e5))
		require.LessOrEqual(t, cover(small, tire, weak), cover(large, tire, weak), "wheel load")
		slack, hard := ordered(tire, between(r.Float64(), 5, 500))
		require.LessOrEqual(t, cover(load, slack, weak), cover(load, hard, weak), "tire pressure")
		weak, strong = ordered(between(r.Float64(), 12, 100), between(r.Float64(), 12, 100))
		require.LessOrEqual(t, cubicCover(load, tire, strong, 1), cubicCover(load, tire, weak, 1), "CBR, cubic form")
		few, many := ordered(between(r.Float64(), 10, 1e6), between(r.Float64(), 10, 1e6))
		require.LessOrEqual(t, must[float64](t)(CoverageFactor(few)), must[float64](t)(CoverageFactor(many)), "coverages")
		require.GreaterOrEqual(t, must[float64](t)(SubgradeStrainLimit(100+few)), must[float64](t)(SubgradeStrainLimit(100+many)), "strain limit")
		require.LessOrEqual(t, must[quantity.Length](t)(MinimumBase(light)), must[quantity.Length](t)(MinimumBase(heavy)), "least base")
		require.LessOrEqual(t, must[quantity.Length](t)(MinimumAsphalt(light)), must[quantity.Length](t)(MinimumAsphalt(heavy)), "least asphalt")
	}
}

// TestStressNeverRises with depth, nor with a wider spread or a stiffer layer.
func TestStressNeverRises(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	p := must[quantity.Pressure](t)
	for range draws {
		a, b := quantity.Length(between(r.Float64(), 0.01, 10)), quantity.Length(between(r.Float64(), 0.01, 10))
		near, far := ordered(20*r.Float64()*r.Float64(), 20*r.Float64()*r.Float64())
		up, down := quantity.Length(near), quantity.Length(far)
		q := quantity.PSI(1)
		// The allowance is the rounding of two results that are nearly equal.
		const crumb = 1e-12
		lower := func(shallow, deep quantity.Pressure, what string) {
			require.LessOrEqual(t, float64(deep), float64(shallow)*(1+crumb), what)
			require.Positive(t, float64(deep), what)
			require.LessOrEqual(t, float64(shallow), float64(q)*(1+crumb), what)
		}
		lower(p(BoussinesqCircle(q, a, up)), p(BoussinesqCircle(q, a, down)), "circle")
		lower(p(BoussinesqSquare(q, a, up)), p(BoussinesqSquare(q, a, down)), "square")
		lower(p(BoussinesqCorner(q, a, b, up)), p(BoussinesqCorner(q, a, b, down)), "corner")
		load := quantity.Force(float64(q) * float64(a*a))
		spread := 0.5 + 4.5*r.Float64()
		lower(p(SpreadStress(load, a, up, spread)), p(SpreadStress(load, a, down, spread)), "square spread")
		lower(p(CircleSpreadStress(load, a, up, spread)), p(CircleSpreadStress(load, a, down, spread)), "circle spread")
		narrow := spread + (5-spread)*r.Float64()
		require.LessOrEqual(t, p(SpreadStress(load, a, down, spread)), p(SpreadStress(load, a, down, narrow)), "a steeper spread")
	}
	// Where a stiffer layer does least: as thin as the range allows, and hardly stiffer.
	require.Less(t, twoLayer(t, 2, 1.01, 0.5, 0.5), twoLayer(t, 2, 1, 0.5, 0.5))
	for range draws / 20 {
		soft, stiff := ordered(between(r.Float64(), 1, 1000), between(r.Float64(), 1, 1000))
		thick, thin := ordered(between(r.Float64(), 0.1, 2), between(r.Float64(), 0.1, 2))
		upper, ground := r.Float64()/2, r.Float64()/2
		const settled = 1e-8
		require.LessOrEqual(t, twoLayer(t, thin, stiff, upper, ground), twoLayer(t, thin, soft, upper, ground)+settled, "a stiffer layer")
		require.LessOrEqual(t, twoLayer(t, thick, soft, upper, ground), twoLayer(t, thin, soft, upper, ground)+settled, "a thicker layer")
	}
}

// TestAxleHarmRises with the load, and is less when more axles share it.
func TestAxleHarmRises(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	harm := func(kip float64, axle Axle, sn, pt float64) float64 {
		return must[float64](t)(AxleEquivalence(quantity.PoundsForce(kip*1000), axle, sn, pt))
	}
	for range draws {
		sn, pt := 1+5*r.Float64(), 2+r.Float64()
		light, heavy := ordered(between(r.Float64(), 2, 50), between(r.Float64(), 2, 50))
		for _, axle := range []Axle{SingleAxle, TandemAxle, TridemAxle} {
			require.LessOrEqual(t, harm(light, axle, sn, pt), harm(heavy, axle, sn, pt), "%s axle, %g and %g kip", axle, light, heavy)
		}
		require.Less(t, harm(heavy, TandemAxle, sn, pt), harm(heavy, SingleAxle, sn, pt), "%g kip", heavy)
		require.Less(t, harm(heavy, TridemAxle, sn, pt), harm(heavy, TandemAxle, sn, pt), "%g kip", heavy)
	}
}

// TestDrainageTable: a coefficient never rises when a layer drains worse or is
// wet for longer, and the disputed cell has the safe end.
func TestDrainageTable(t *testing.T) {
	last := map[float64]CoefficientRange{}
	shares := []float64{0, 0.99, 1, 4.9, 5, 25, 25.1, 100}
	for _, w := range DrainageQuality("").Vocabulary().Words {
		before := CoefficientRange{9, 9}
		for _, share := range shares {
			got, err := DrainageCoefficients(DrainageQuality(w.Label), share)
			require.NoError(t, err)
			require.LessOrEqual(t, got.Low, got.High)
			require.LessOrEqual(t, got.High, before.High, "%s at %g", w.Label, share)
			require.LessOrEqual(t, got.Low, before.Low, "%s at %g", w.Label, share)
			if better, ok := last[share]; ok {
				require.LessOrEqual(t, got.High, better.High, "%s at %g", w.Label, share)
				require.LessOrEqual(t, got.Low, better.Low, "%s at %g", w.Label, share)
			}
			before, last[share] = got, got
		}
	}
	high, err := UpperDrainageCoefficient(FairDrainage, 10)
	require.NoError(t, err)
	require.Equal(t, 1.00, high, "of the two prints that circulate, 1.00 and 1.05, the lower; from memory")
}

func TestDepthZero(t *testing.T) {
	q, a := quantity.PSI(80), quantity.Inches(6)
	require.Equal(t, q, must[quantity.Pressure](t)(BoussinesqCircle(q, a, 0)))
	near(t, 80, must[quantity.Pressure](t)(BoussinesqSquare(q, a, 0)).PSI(), 1e-9, "square")
	near(t, 20, must[quantity.Pressure](t)(BoussinesqCorner(q, a, 2*a, 0)).PSI(), 1e-9, "corner")
	near(t, 1, must[float64](t)(PanelUtilisation(q, q)), 0, "utilisation")
}

// TestNoCoverNeeded: where the wheel presses no harder than the ground can
// bear, zero, and on the way there the cover shrinks to nothing.
func TestNoCoverNeeded(t *testing.T) {
	load := quantity.PoundsForce(9000)
	limit := 8.1 * 10 / 3.141592653589793 // psi, at CBR 10
	require.Zero(t, must[quantity.Length](t)(WheelCover(load, quantity.PSI(limit*0.999), 10)))
	just := must[quantity.Length](t)(WheelCover(load, quantity.PSI(limit*1.000001), 10)).Inches()
	require.True(t, just > 0 && just < 0.05, "%g in", just)
	require.Zero(t, must[quantity.Length](t)(CubicWheelCover(load, quantity.PSI(50), 100, 1)))
}

// TestRefusals: what stands outside a range is refused with its name and range,
// and nothing is given beside the error.
func TestRefusals(t *testing.T) {
	lbf, psi, in := quantity.PoundsForce, quantity.PSI, quantity.Inches
	cases := []struct {
		name, value string
		call        func() (any, error)
	}{
		{"between printed levels", "reliability", func() (any, error) { return NormalDeviate(77, PrintedDeviate) }},
		{"likelier to fail than not", "reliability", func() (any, error) { return NormalDeviate(49, ExactDeviate) }},
		{"past the table", "reliability", func() (any, error) { return NormalDeviate(99.999, ExactDeviate) }},
		{"no such deviate", "deviate", func() (any, error) { return NormalDeviate(75, "guess") }},
		{"more than any section carries", "esal", func() (any, error) { return RequiredSN(50e6, 99.9, 0.6, 0.5, psi(1000), ExactDeviate) }},
		{"more than the firmest ground carries", "esal", func() (any, error) { return RequiredModulus(50e6, 1, 95, 0.45, 1.7, PrintedDeviate) }},
		{"ground softer than the chart", "modulus", func() (any, error) { return RequiredSN(1e5, 75, 0.45, 1.7, psi(900), PrintedDeviate) }},
		{"no traffic", "esal", func() (any, error) { return RequiredSN(0, 75, 0.45, 1.7, psi(5000), PrintedDeviate) }},
		{"wrong deviation", "deviation", func() (any, error) { return RequiredSN(1e5, 75, 4.5, 1.7, psi(5000), PrintedDeviate) }},
		{"no loss", "serviceability loss", func() (any, error) { return RequiredSN(1e5, 75, 0.45, 0, psi(5000), PrintedDeviate) }},
		{"thinner than the road test", "structural number", func() (any, error) { return TrafficCapacity(0.4, 75, 0.45, 1.7, psi(5000), PrintedDeviate) }},
		{"CBR above the equation", "cbr", func() (any, error) { return WheelCover(lbf(9000), psi(80), 12.5) }},
		{"CBR below the cubic form", "cbr", func() (any, error) { return CubicWheelCover(lbf(9000), psi(80), 11.9, 1) }},
		{"no axle that heavy", "axle load", func() (any, error) { return AxleEquivalence(lbf(51000), SingleAxle, 3, 2.5) }},
		{"no such axle", "axle", func() (any, error) { return AxleEquivalence(lbf(18000), "quad", 3, 2.5) }},
		{"negative depth", "depth", func() (any, error) { return BoussinesqCircle(psi(80), in(6), in(-1)) }},
		{"beneath a point at the surface", "depth", func() (any, error) { return BoussinesqPoint(lbf(9000), 0, 0) }},
		{"layer softer than the ground", "modulus ratio", func() (any, error) {
			return TwoLayerStress(psi(80), in(6), in(8), psi(5000), psi(7500), 0.5, 0.5)
		}},
		{"layer thinner than checked", "radius over thickness", func() (any, error) {
			return TwoLayerStress(psi(80), in(6), in(0.5), psi(15000), psi(7500), 0.5, 0.5)
		}},
		{"factor of no one", "odemark factor", func() (any, error) { return OdemarkStress(psi(80), in(6), in(8), psi(15000), psi(7500), 1.1) }},
		{"no resistance", "resistance", func() (any, error) { return PanelUtilisation(psi(10), 0) }},
		{"no such foam", "eps type", func() (any, error) { return EPSResistance("EPP30", EPSAt1Percent) }},
		{"no such strain", "strain", func() (any, error) { return EPSResistance(EPS29, "25 %") }},
		{"no such drainage", "drainage quality", func() (any, error) { return DrainageCoefficient("superb", 10) }},
		{"strain of no coverages in range", "strain", func() (any, error) { return SubgradeStrainCoverages(0.01) }},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.call()
			var outside *calculation.RangeError
			var unknown *calculation.WordError
			if errors.As(err, &unknown) {
				require.Equal(t, c.value, unknown.Name)
				require.NotEmpty(t, unknown.Document)
			} else {
				require.ErrorAs(t, err, &outside)
				require.Equal(t, c.value, outside.Want.Name)
				require.NotEmpty(t, outside.Want.Document)
			}
			require.Zero(t, got)
		})
	}
	_, err := NormalDeviate(77, PrintedDeviate)
	require.ErrorContains(t, err, "75, 80")
	require.ErrorContains(t, err, "exact")
	for _, x := range []float64{1000, 40000} {
		_, err := RequiredSN(1e5, 75, 0.45, 1.7, psi(x), PrintedDeviate)
		require.NoError(t, err, "the ends of a range are in it, also by way of pascals")
	}
}
