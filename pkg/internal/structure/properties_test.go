package structure

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const draws = 2000

// solve returns the required SN, or one past the range where there is no answer,
// so that no answer counts as thicker than any.
func solve(t *testing.T, esal float64, reliability quantity.Share, deviation, loss, psi float64) float64 {
	sn, err := RequiredSN(esal, reliability, deviation, loss, quantity.PSI(psi))
	if err != nil {
		var outside *calculation.RangeError
		require.ErrorAs(t, err, &outside)
		require.Equal(t, "esal", outside.Want.Name)
		return greatestSN + 1
	}
	return sn
}

func ordered[T ~float64](a, b T) (less, more T) { return min(a, b), max(a, b) }

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
		other, _, _, _ := drawFlexible(r)
		unsure, sure := ordered(reliability, other)
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
		few, many := ordered(between(r.Float64(), 10, 1e6), between(r.Float64(), 10, 1e6))
		require.LessOrEqual(t, must[float64](t)(CoverageFactor(few)), must[float64](t)(CoverageFactor(many)), "coverages")
	}
}

// TestStressNeverRises with depth, nor with a wider spread, and is never above
// the pressure on the surface.
func TestStressNeverRises(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	p := must[quantity.Pressure](t)
	for range draws {
		a := quantity.Length(between(r.Float64(), 0.01, 10))
		q := quantity.PSI(1)
		// The allowance is the rounding of two results that are nearly equal.
		const crumb = 1e-12
		lower := func(shallow, deep quantity.Pressure, what string) {
			require.LessOrEqual(t, float64(deep), float64(shallow)*(1+crumb), what)
			require.Positive(t, float64(deep), what)
			require.LessOrEqual(t, float64(shallow), float64(q)*(1+crumb), what)
		}
		near, far := ordered(20*r.Float64()*r.Float64(), 20*r.Float64()*r.Float64())
		lower(p(BoussinesqCircle(q, a, quantity.Length(near))), p(BoussinesqCircle(q, a, quantity.Length(far))), "circle")
		load := quantity.Force(float64(q) * float64(a*a))
		thin, thick := ordered(0.3*r.Float64(), 0.3*r.Float64())
		spread := 0.5 + 4.5*r.Float64()
		lower(p(PanelStress(load, a, quantity.Length(thin), spread)), p(PanelStress(load, a, quantity.Length(thick), spread)), "spread")
		narrow := spread + (5-spread)*r.Float64()
		require.LessOrEqual(t, p(PanelStress(load, a, quantity.Length(thick), spread)), p(PanelStress(load, a, quantity.Length(thick), narrow)), "a steeper spread")
	}
}

// TestLayerMakesUpWhatIsMissing: a layer of the thickness that a structural
// number calls for adds just what the layers above it lack.
func TestLayerMakesUpWhatIsMissing(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range draws {
		required, coefficient, drainage := 9*r.Float64(), 0.05+0.5*r.Float64(), 0.4+r.Float64()
		above := 10 * r.Float64()
		thickness := must[quantity.Length](t)(LayerThicknessForSN(required, above, coefficient, drainage))
		require.InDelta(t, max(0, required-above), must[float64](t)(LayerSN(thickness, coefficient, drainage)), 1e-9)
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

// TestRefusals reads the refusals that are more than the end of a range.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name, why string
		call      func() (float64, error)
		want      string
	}{
		{"between printed levels", "nothing is interpolated; the two levels beside it are named",
			func() (float64, error) { return NormalDeviate(0.77) },
			`reliability is "77 %"; it must be 75 % or 80 % (AASHTO Guide for Design of Pavement Structures, 1993, Table 4.1)`},
		{"worse than even", "such a section is likelier to fail than not",
			func() (float64, error) { return NormalDeviate(0.49) },
			"reliability is 49 %; it must be 50 to 99.99 % (AASHTO Guide for Design of Pavement Structures, 1993, Table 4.1)"},
		{"certain", "the table ends below it",
			func() (float64, error) { return NormalDeviate(1) },
			"reliability is 100 %; it must be 50 to 99.99 % (AASHTO Guide for Design of Pavement Structures, 1993, Table 4.1)"},
		{"between the first levels", "the lowest level is named too",
			func() (float64, error) { return NormalDeviate(0.55) },
			`reliability is "55 %"; it must be 50 % or 60 % (AASHTO Guide for Design of Pavement Structures, 1993, Table 4.1)`},
		{"more than any section carries", "the error tells what the thickest carries",
			func() (float64, error) { return RequiredSN(50e6, 0.999, 0.6, 0.5, quantity.PSI(1000)) },
			"esal is 50,000,000; it must be 1 to 24,934 (what a structural number of 9 carries here, the most in AASHTO Guide for Design of Pavement Structures, 1993, Figure 3.1 (ends of the scales, from memory))"},
		{"no such axle", "the words that would do are named",
			func() (float64, error) { return AxleEquivalence(quantity.PoundsForce(18000), "quad", 3, 2.5) },
			`axle is "quad"; it must be single, tandem or tridem (the words of axle)`},
		{"no such drainage", "the words that would do are named",
			func() (float64, error) { return DrainageCoefficient("superb", 0.1) },
			`drainage quality is "superb"; it must be excellent, good, fair, poor or very poor (the words of drainage_quality)`},
		{"a single axle of a tandem's load", "each group has a range of its own",
			func() (float64, error) { return AxleEquivalence(quantity.PoundsForce(60000), SingleAxle, 3, 2.5) },
			"axle load is 60,000 lbf; it must be 2,000 to 50,000 lbf (AASHTO Guide for Design of Pavement Structures, 1993, Appendix D tables (ends from memory))"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := c.call()
			require.EqualError(t, err, c.want, c.why)
			require.Zero(t, got)
		})
	}
}

// TestRangeEnds takes each argument at both ends of its range, within it and just
// beyond, with the others as a job has them.
func TestRangeEnds(t *testing.T) {
	lbf, psi, inches, meters, percent := quantity.PoundsForce, quantity.PSI, quantity.Inches, quantity.Meters, quantity.Percent
	for _, c := range []struct {
		name, why string
		low, high float64
		above     bool // the low end itself is not taken
		call      func(x float64) error
	}{
		{"traffic of a required number", "no traffic is not traffic; the nomograph ends at 50 million", 1, 50e6, false,
			func(x float64) error { return refused(RequiredSN(x, 0.5, 0.35, 3, psi(20000))) }},
		{"structural number", "from the road test's thinnest section to the end of the scale", 0.44, 9, false,
			func(x float64) error { return refused(TrafficCapacity(x, 0.75, 0.45, 1.7, psi(7500))) }},
		{"deviation", "the scale of the nomograph", 0.2, 0.6, false,
			func(x float64) error { return refused(TrafficCapacity(3, 0.75, x, 1.7, psi(7500))) }},
		{"serviceability loss", "the scale of the nomograph", 0.5, 3, false,
			func(x float64) error { return refused(TrafficCapacity(3, 0.75, 0.45, x, psi(7500))) }},
		{"modulus", "the scale of the nomograph", 1000, 40000, false,
			func(x float64) error { return refused(TrafficCapacity(3, 0.75, 0.45, 1.7, psi(x))) }},
		{"thickness of a layer", "no layer is one of no thickness", 0, 400, false,
			func(x float64) error { return refused(LayerSN(inches(x), 0.14, 1)) }},
		{"layer coefficient", "nothing would come of a coefficient of 0", 0.01, 1, false,
			func(x float64) error { return refused(LayerSN(inches(6), x, 1)) }},
		{"drainage coefficient", "the ends of Table 2.4", 0.4, 1.4, false,
			func(x float64) error { return refused(LayerSN(inches(6), 0.14, x)) }},
		{"coefficient of a layer to be found", "it divides", 0.01, 1, false,
			func(x float64) error { return refused(LayerThicknessForSN(2.4, 1, x, 1)) }},
		{"drainage of a layer to be found", "it divides", 0.4, 1.4, false,
			func(x float64) error { return refused(LayerThicknessForSN(2.4, 1, 0.14, x)) }},
		{"required number", "0 to the end of the scale", 0, 9, false,
			func(x float64) error { return refused(LayerThicknessForSN(x, 1, 0.14, 1)) }},
		{"number above", "layers above may be far more than is required", 0, 100, false,
			func(x float64) error { return refused(LayerThicknessForSN(2.4, x, 0.14, 1)) }},
		{"saturation", "a share of the time", 0, 100, false,
			func(x float64) error { return refused(DrainageCoefficient(GoodDrainage, percent(x))) }},
		{"single axle", "the tables end at 50,000 lbf", 2000, 50e3, false,
			func(x float64) error { return refused(AxleEquivalence(lbf(x), SingleAxle, 3, 2.5)) }},
		{"tandem axle", "the tables of groups end at 90,000 lbf", 2000, 90e3, false,
			func(x float64) error { return refused(AxleEquivalence(lbf(x), TandemAxle, 3, 2.5)) }},
		{"tridem axle", "the tables of groups end at 90,000 lbf", 2000, 90e3, false,
			func(x float64) error { return refused(AxleEquivalence(lbf(x), TridemAxle, 3, 2.5)) }},
		{"structural number under an axle", "the columns of the tables", 1, 6, false,
			func(x float64) error { return refused(AxleEquivalence(lbf(18000), SingleAxle, x, 2.5)) }},
		{"terminal serviceability", "the tables are for 2.0, 2.5 and 3.0", 2, 3, false,
			func(x float64) error { return refused(AxleEquivalence(lbf(18000), SingleAxle, 3, x)) }},
		{"growth rate", "traffic may stay as it is", 0, 10, false,
			func(x float64) error { return refused(GrowthFactor(percent(x), quantity.Years(20))) }},
		{"life", "a life of nothing has no traffic", 0, 50, true,
			func(x float64) error { return refused(GrowthFactor(percent(4), quantity.Years(x))) }},
		{"daily traffic", "a road may be closed", 0, 1e6, false,
			func(x float64) error {
				return refused(DesignESAL(x, percent(25), 0.38, 29.78, percent(50), percent(100)))
			}},
		{"truck share", "there may be no trucks, or nothing else", 0, 100, false,
			func(x float64) error {
				return refused(DesignESAL(4000, percent(x), 0.38, 29.78, percent(50), percent(100)))
			}},
		{"truck factor", "an empty truck does next to no harm", 0, 100, false,
			func(x float64) error {
				return refused(DesignESAL(4000, percent(25), x, 29.78, percent(50), percent(100)))
			}},
		{"growth factor", "1,164 is 10 % a year over 50 years: (1.1^50 - 1)/0.1 = 1,163.9", 0, 1164, true,
			func(x float64) error {
				return refused(DesignESAL(4000, percent(25), 0.38, x, percent(50), percent(100)))
			}},
		{"direction share", "the busier direction has some of the traffic", 0, 100, true,
			func(x float64) error {
				return refused(DesignESAL(4000, percent(25), 0.38, 29.78, percent(x), percent(100)))
			}},
		{"lane share", "the busiest lane has some of the traffic", 0, 100, true,
			func(x float64) error {
				return refused(DesignESAL(4000, percent(25), 0.38, 29.78, percent(50), percent(x)))
			}},
		{"wheel load", "from a cart to an aircraft", 100, 200e3, false,
			func(x float64) error { return refused(WheelCover(lbf(x), psi(80), 5)) }},
		{"tire pressure", "a tire holds some air", 5, 500, false,
			func(x float64) error { return refused(WheelCover(lbf(9000), psi(x), 5)) }},
		{"CBR under a wheel", "the report's equation, and no ground for a platform", 0.5, 12, false,
			func(x float64) error { return refused(WheelCover(lbf(9000), psi(80), x)) }},
		{"coverages", "the line in the logarithm does not go on for ever", 10, 1e6, false,
			func(x float64) error { return refused(CoverageFactor(x)) }},
		{"cover of one tire", "in feet", 0, 30, false,
			func(x float64) error { return refused(PairCover(quantity.Feet(x))) }},
		{"pressure on a circle", "no pressure makes no stress", 0, 1e4, true,
			func(x float64) error { return refused(BoussinesqCircle(psi(x), 1, 1)) }},
		{"radius", "a millimeter to 100 m", 1e-3, 100, false,
			func(x float64) error { return refused(BoussinesqCircle(psi(80), meters(x), 1)) }},
		{"depth", "the surface is at depth 0", 0, 100, false,
			func(x float64) error { return refused(BoussinesqCircle(psi(80), 1, meters(x))) }},
		{"load on a patch", "no load makes no stress", 0, 1e6, true,
			func(x float64) error { return refused(PanelStress(lbf(x), inches(2), 0.06, 2)) }},
		{"patch", "a millimeter to 100 m", 1e-3, 100, false,
			func(x float64) error { return refused(PanelStress(lbf(300), meters(x), 0.06, 2)) }},
		{"paver", "there may be none", 0, 300, false,
			func(x float64) error { return refused(PanelStress(lbf(300), inches(2), quantity.Millimeters(x), 2)) }},
		{"spread", "1 and 2 with room on both sides", 0.5, 5, false,
			func(x float64) error { return refused(PanelStress(lbf(300), inches(2), 0.06, x)) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			const beyond = 1e-3
			below, justIn := c.low*(1-beyond), c.low*(1+beyond)
			if c.low == 0 {
				below, justIn = -beyond, beyond
			}
			for _, x := range []float64{below, c.high * (1 + beyond)} {
				var outside *calculation.RangeError
				require.ErrorAs(t, c.call(x), &outside, "%g is beyond: %s", x, c.why)
			}
			require.Equal(t, c.above, c.call(c.low) != nil, "%g: %s", c.low, c.why)
			for _, x := range []float64{justIn, c.high} {
				require.NoError(t, c.call(x), "%g: %s", x, c.why)
			}
		})
	}
}

// refused is the error alone of a call.
func refused[T any](_ T, err error) error { return err }
