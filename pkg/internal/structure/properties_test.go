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

// TestLoadsOfAxleGroups: the example of the calculation is a single axle, so the
// ends of the other groups are held here.
func TestLoadsOfAxleGroups(t *testing.T) {
	for _, c := range []struct {
		name, why string
		axle      Axle
		lbf       float64
		taken     bool
	}{
		{"the lightest tandem", "the end is in", TandemAxle, 2000, true},
		{"lighter", "the tables begin at 2,000 lbf", TandemAxle, 1999, false},
		{"the heaviest tandem", "the end is in", TandemAxle, 90000, true},
		{"a heavier tandem", "the tables end at 90,000 lbf", TandemAxle, 90001, false},
		{"the heaviest tridem", "the end is in", TridemAxle, 90000, true},
		{"a heavier tridem", "the tables end at 90,000 lbf", TridemAxle, 90001, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := AxleEquivalence(quantity.PoundsForce(c.lbf), c.axle, 3, 2.5)
			require.Equal(t, c.taken, err == nil, c.why)
		})
	}
}
