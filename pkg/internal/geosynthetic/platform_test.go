package geosynthetic_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

// standardCase is the wheel of the method's calibration on CBR 1.
func standardCase() geosynthetic.PlatformCase {
	return geosynthetic.PlatformCase{
		WheelLoad: quantity.Kilonewtons(40), TirePressure: quantity.Kilopascals(550), Passes: 1000,
		Rut: quantity.Millimeters(75), SubgradeCBR: 1, BaseCBR: 15, Support: geosynthetic.NoSupport, Constants: geosynthetic.PublishedConstants,
	}
}

// textbook is the right side of the equation written out as the publication
// steps through it (angle, mobilisation, thickness), apart from the solver.
func textbook(c geosynthetic.PlatformCase, h float64) float64 {
	fit := map[geosynthetic.PlatformConstants][3]float64{
		geosynthetic.PublishedConstants:  {0.868, 0.661, 1.006},
		geosynthetic.LaboratoryConstants: {1.26, 0.96, 1.46},
	}[c.Constants]
	factor := map[geosynthetic.Support]float64{
		geosynthetic.NoSupport: 3.14, geosynthetic.FabricSupport: 5.14, geosynthetic.GridSupport: 5.71,
	}[c.Support]
	load, pressure := float64(c.WheelLoad)/1000, float64(c.TirePressure)/1000
	r := math.Sqrt(load / (math.Pi * pressure))
	ratio := math.Min(3.48*math.Pow(c.BaseCBR, 0.3)/c.SubgradeCBR, 5)
	k := (fit[1] - fit[2]*c.ApertureModulus*c.ApertureModulus) * math.Pow(r/h, 1.5)
	cotangent := (fit[0] + k*math.Log10(c.Passes)) / (1 + 0.204*(ratio-1))
	m := float64(c.Rut) * 1000 / 75 * (1 - 0.9*math.Exp(-math.Pow(r/h, 2)))
	strength := 30 * c.SubgradeCBR
	return cotangent * (math.Sqrt(load/(math.Pi*r*r*m*factor*strength)) - 1) * r
}

// Computed with another program from the same formula, not published: they
// hold the code to the formula and no more.
func TestPlatformRegression(t *testing.T) {
	const grid32, grid65 = 0.32, 0.65
	for _, tc := range []struct {
		name, why   string
		passes, cbr float64
		bare        float64
		fabric      float64
		at32, at65  float64
	}{
		{"CBR 0.5", "softest ground, modulus ratio at its cap", 1000, 0.5, 0.7249, 0.5367, 0.4760, 0.3678},
		{"CBR 1", "the middle of the calibration", 1000, 1, 0.4702, 0.3260, 0.2711, 0.1591},
		{"CBR 2", "the stiff grid is under the least thickness", 1000, 2, 0.3211, 0.1806, 0.1250, 0.0760},
		{"5,000 passes", "more passes, more stone", 5000, 1, 0.5037, 0.3611, 0.3048, 0.1812},
		{"10,000 passes", "the end of the calibration", 10000, 1, 0.5168, 0.3747, 0.3179, 0.1904},
	} {
		t.Run(tc.name, func(t *testing.T) {
			for _, column := range []struct {
				support geosynthetic.Support
				modulus float64
				want    float64
			}{
				{geosynthetic.NoSupport, 0, tc.bare},
				{geosynthetic.FabricSupport, 0, tc.fabric},
				{geosynthetic.GridSupport, grid32, tc.at32},
				{geosynthetic.GridSupport, grid65, tc.at65},
			} {
				c := standardCase()
				c.Passes, c.SubgradeCBR, c.Support, c.ApertureModulus = tc.passes, tc.cbr, column.support, column.modulus
				p, err := c.Size()
				require.NoError(t, err)
				require.InDelta(t, column.want, float64(p.BeforeLeast), 0.00005, "%s %g: %s", column.support, column.modulus, tc.why)
				require.Equal(t, max(p.BeforeLeast, 0.10), p.Thickness)
			}
		})
	}
}

// randomCase draws a case over the whole range, ends included now and then.
func randomCase(r *rand.Rand) geosynthetic.PlatformCase {
	in := func(low, high float64) float64 {
		switch r.IntN(12) {
		case 0:
			return low
		case 1:
			return high
		}
		return low + r.Float64()*(high-low)
	}
	c := geosynthetic.PlatformCase{
		WheelLoad: quantity.Kilonewtons(in(20, 60)), TirePressure: quantity.Kilopascals(in(275, 825)),
		Passes: math.Round(math.Pow(10, in(2, 4))), Rut: quantity.Millimeters(in(50, 100)),
		SubgradeCBR: in(0.5, 4.999), BaseCBR: in(5, 100),
		Support:   []geosynthetic.Support{geosynthetic.NoSupport, geosynthetic.FabricSupport, geosynthetic.GridSupport}[r.IntN(3)],
		Constants: []geosynthetic.PlatformConstants{geosynthetic.PublishedConstants, geosynthetic.LaboratoryConstants}[r.IntN(2)],
	}
	if c.Support == geosynthetic.GridSupport {
		c.ApertureModulus = in(0.01, 0.8)
	}
	return c
}

// The root put back into the equation as the textbook writes it, and every
// thicker platform shown to satisfy it.
func TestPlatformRootSatisfiesTheEquation(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	roots, bare := 0, 0
	for range 1500 {
		c := randomCase(r)
		p, err := c.Size()
		require.NoError(t, err, "%+v", c)
		h := float64(p.BeforeLeast)
		if c.WheelLoad <= p.WithoutBase {
			bare++
			require.Zero(t, h)
			continue
		}
		if h > 0 {
			roots++
			require.InDelta(t, h, textbook(c, h), 1e-6, "%+v", c)
		}
		for x := max(h, 0.001) + 1e-6; x < 2; x *= 1.04 {
			require.GreaterOrEqual(t, x-textbook(c, x), -1e-9, "thickness %g falls short beyond the root %g: %+v", x, h, c)
		}
	}
	require.Greater(t, roots, 500, "the cases must hold many with a root")
	require.Greater(t, bare, 50, "and some that need no base")
}

// Ground that all but carries the wheel: the root is there however thin the base,
// so that none is told only where none is needed.
func TestPlatformThinnestRoot(t *testing.T) {
	c := standardCase()
	c.TirePressure = quantity.Kilopascals(275)
	c.SubgradeCBR = 0.99999 * 275 / (3.14 * 30) // of the CBR that carries it
	p, err := c.Size()
	require.NoError(t, err)
	h := float64(p.BeforeLeast)
	require.Greater(t, h, 1e-4)
	require.Less(t, h, 0.004, "2 percent of the radius")
	require.InDelta(t, h, textbook(c, h), 1e-6)
}

// Weak stone on ground that all but carries the wheel gives the equation three
// roots; the largest is the safe one, since between the others a thicker
// platform falls short. Found by a scan of the whole range, computed.
func TestPlatformTakesTheLargestOfThreeRoots(t *testing.T) {
	for _, tc := range []struct {
		name, why string
		change    func(*geosynthetic.PlatformCase)
	}{
		{"published constants", "most passes, the least rut", func(c *geosynthetic.PlatformCase) {
			c.SubgradeCBR, c.Passes, c.Rut, c.TirePressure = 3.8, 10000, quantity.Millimeters(50), quantity.Kilopascals(275)
		}},
		{"laboratory constants", "fewest passes, a middling rut", func(c *geosynthetic.PlatformCase) {
			c.SubgradeCBR, c.Passes, c.Rut, c.TirePressure = 3.75, 100, quantity.Millimeters(70), quantity.Kilopascals(400)
			c.Constants = geosynthetic.LaboratoryConstants
		}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := standardCase()
			c.BaseCBR = 5
			tc.change(&c)
			var crossings []float64
			before := 1e-3 - textbook(c, 1e-3)
			for h := 1e-3; h < 2; h *= 1.0002 {
				now := h - textbook(c, h)
				if (now < 0) != (before < 0) {
					crossings = append(crossings, h)
				}
				before = now
			}
			require.Len(t, crossings, 3, "%s: %v", tc.why, crossings)
			p, err := c.Size()
			require.NoError(t, err)
			require.InDelta(t, crossings[2], float64(p.BeforeLeast), 5e-5)
			t.Logf("roots near %v m", crossings)
		})
	}
}

func TestPlatformNeverFallsAsThingsGetWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	size := func(c geosynthetic.PlatformCase) quantity.Length {
		p, err := c.Size()
		require.NoError(t, err, "%+v", c)
		return p.Thickness
	}
	const hair = 1e-8 // the step of the solver, in meters, with room to spare
	for range 4000 {
		c := randomCase(r)
		h := size(c)
		for _, worse := range []struct {
			what   string
			change func(*geosynthetic.PlatformCase)
		}{
			{"CBR falls", func(w *geosynthetic.PlatformCase) { w.SubgradeCBR = 0.5 + r.Float64()*(c.SubgradeCBR-0.5) }},
			{"passes rise", func(w *geosynthetic.PlatformCase) { w.Passes = c.Passes + r.Float64()*(10000-c.Passes) }},
			{"load rises", func(w *geosynthetic.PlatformCase) {
				w.WheelLoad = c.WheelLoad + quantity.Force(r.Float64())*(60000-c.WheelLoad)
			}},
			{"rut allowed falls", func(w *geosynthetic.PlatformCase) { w.Rut = 0.05 + quantity.Length(r.Float64())*(c.Rut-0.05) }},
			{"the grid is softer", func(w *geosynthetic.PlatformCase) { w.ApertureModulus = (0.1 + 0.9*r.Float64()) * c.ApertureModulus }},
			{"the stone is weaker", func(w *geosynthetic.PlatformCase) { w.BaseCBR = 5 + r.Float64()*(c.BaseCBR-5) }},
		} {
			w := c
			worse.change(&w)
			require.GreaterOrEqual(t, float64(size(w)), float64(h)-hair, "%s: %+v against %+v", worse.what, w, c)
		}
		grid, fabric, bare := c, c, c
		grid.ApertureModulus = max(c.ApertureModulus, 0.01)
		grid.Support, fabric.Support, bare.Support = geosynthetic.GridSupport, geosynthetic.FabricSupport, geosynthetic.NoSupport
		fabric.ApertureModulus, bare.ApertureModulus = 0, 0
		require.LessOrEqual(t, float64(size(grid)), float64(size(fabric))+hair, "grid against fabric: %+v", c)
		require.LessOrEqual(t, float64(size(fabric)), float64(size(bare))+hair, "fabric against none: %+v", c)
		published, laboratory := c, c
		published.Constants, laboratory.Constants = geosynthetic.PublishedConstants, geosynthetic.LaboratoryConstants
		require.LessOrEqual(t, float64(size(published)), float64(size(laboratory))+hair, "laboratory constants are the thicker: %+v", c)
	}
}

// The published constants against the field formula of Hammitt (1970), as
// recalled: an independent formula, so only the size of the answer can agree.
func TestPlatformIsNearTheFieldFormula(t *testing.T) {
	for _, tc := range []struct {
		name, why   string
		passes, cbr float64
	}{
		{"fewest passes on CBR 1", "where the two formulas are nearest", 100, 1},
		{"fewest passes on CBR 2", "firmer ground", 100, 2},
		{"1,000 passes on CBR 1", "the middle of the calibration", 1000, 1},
		{"1,000 passes on CBR 2", "where they part most within 1,000 passes", 1000, 2},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c := standardCase()
			c.Passes, c.SubgradeCBR = tc.passes, tc.cbr
			p, err := c.Size()
			require.NoError(t, err)
			area := 40.0 / 550
			field := (0.0236*math.Log10(tc.passes) + 0.0161) * math.Sqrt(40/tc.cbr-17.8*area)
			require.InDelta(t, 1, float64(p.BeforeLeast)/field, 0.16, tc.why)
		})
	}
}

func TestPlatformRefuses(t *testing.T) {
	for _, tc := range []struct {
		why, value string
		change     func(*geosynthetic.PlatformCase)
	}{
		{"a car's wheel, outside the calibration", "wheel load", func(c *geosynthetic.PlatformCase) { c.WheelLoad = quantity.Kilonewtons(9) }},
		{"a wheel above the range", "wheel load", func(c *geosynthetic.PlatformCase) { c.WheelLoad = quantity.Kilonewtons(60.1) }},
		{"a car's tire", "tire pressure", func(c *geosynthetic.PlatformCase) { c.TirePressure = quantity.Kilopascals(240) }},
		{"an aircraft's tire", "tire pressure", func(c *geosynthetic.PlatformCase) { c.TirePressure = quantity.Kilopascals(1400) }},
		{"too few passes", "passes", func(c *geosynthetic.PlatformCase) { c.Passes = 99 }},
		{"more passes than calibrated", "passes", func(c *geosynthetic.PlatformCase) { c.Passes = 10001 }},
		{"a rut that a platform is not sized for", "rut", func(c *geosynthetic.PlatformCase) { c.Rut = quantity.Millimeters(49) }},
		{"a rut where the membrane effect begins", "rut", func(c *geosynthetic.PlatformCase) { c.Rut = quantity.Millimeters(101) }},
		{"ground that is not soft", "subgrade cbr", func(c *geosynthetic.PlatformCase) { c.SubgradeCBR = 5 }},
		{"ground for a specialist", "subgrade cbr", func(c *geosynthetic.PlatformCase) { c.SubgradeCBR = 0.49 }},
		{"stone weaker than the ground may be", "base cbr", func(c *geosynthetic.PlatformCase) { c.BaseCBR = 4 }},
		{"a tire just harder than the range", "tire pressure", func(c *geosynthetic.PlatformCase) { c.TirePressure = quantity.Kilopascals(826) }},
		{"stone stronger than any", "base cbr", func(c *geosynthetic.PlatformCase) { c.BaseCBR = 100.1 }},
		{"a stiffer grid than the bracket holds", "aperture stability modulus", func(c *geosynthetic.PlatformCase) {
			c.Support, c.ApertureModulus = geosynthetic.GridSupport, 0.81
		}},
		{"a grid without its modulus", "aperture stability modulus", func(c *geosynthetic.PlatformCase) { c.Support = geosynthetic.GridSupport }},
		{"a modulus for a fabric", "aperture stability modulus without a grid", func(c *geosynthetic.PlatformCase) {
			c.Support, c.ApertureModulus = geosynthetic.FabricSupport, 0.01
		}},
		{"not a number", "passes", func(c *geosynthetic.PlatformCase) { c.Passes = math.NaN() }},
		{"an unknown support", "support", func(c *geosynthetic.PlatformCase) { c.Support = "straw" }},
		{"unknown constants", "constants", func(c *geosynthetic.PlatformCase) { c.Constants = "house" }},
	} {
		t.Run(tc.value+": "+tc.why, func(t *testing.T) {
			c := standardCase()
			tc.change(&c)
			p, err := c.Size()
			var outside *calculation.RangeError
			var unknown *calculation.WordError
			if errors.As(err, &unknown) {
				require.Equal(t, tc.value, unknown.Name)
			} else {
				require.ErrorAs(t, err, &outside)
				require.Equal(t, tc.value, outside.Want.Name)
				require.NotEmpty(t, outside.Want.Document)
			}
			require.Zero(t, p)
		})
	}
}

// The ends of each range are inside it, also after a turn of units.
func TestPlatformTakesTheEndsOfItsRanges(t *testing.T) {
	c := standardCase()
	c.WheelLoad, c.TirePressure, c.Passes, c.Rut, c.SubgradeCBR, c.BaseCBR = 20000, 275000, 100, quantity.Millimeters(100), 4.99, 5
	_, err := c.Size()
	require.NoError(t, err)
	c.WheelLoad, c.TirePressure, c.Passes, c.Rut, c.SubgradeCBR, c.BaseCBR = 60000, 825000, 10000, quantity.Millimeters(50), 0.5, 100
	_, err = c.Size()
	require.NoError(t, err)
	c.Support, c.ApertureModulus = geosynthetic.GridSupport, 0.8
	_, err = c.Size()
	require.NoError(t, err)
	// The rule language takes the same, and a modulus just above 0.
	thickness, err := geosynthetic.PlatformThicknessBy(c.Constants, c.WheelLoad, c.TirePressure, c.Passes, c.Rut, c.SubgradeCBR, c.BaseCBR, c.Support, 0.001)
	require.NoError(t, err)
	c.ApertureModulus = 0.001
	p, err := c.Size()
	require.NoError(t, err)
	require.Equal(t, p.Thickness, thickness)
}

// Bare ground that carries the wheel needs no base, and the least is built.
func TestPlatformWhereNoBaseIsNeeded(t *testing.T) {
	c := standardCase()
	c.TirePressure, c.SubgradeCBR, c.Rut = quantity.Kilopascals(275), 4, quantity.Millimeters(100)
	p, err := c.Size()
	require.NoError(t, err)
	require.Zero(t, p.BeforeLeast)
	require.Equal(t, geosynthetic.PlatformThicknessLeast, p.Thickness)
	// By hand: 100/75 * (40/275) * 3.14 * 30 * 4 = 73.08 kN.
	require.InDelta(t, 73.08, p.WithoutBase.Kilonewtons(), 0.01)
}

func BenchmarkPlatform(b *testing.B) {
	c := standardCase()
	for b.Loop() {
		if _, err := c.Size(); err != nil {
			b.Fatal(err)
		}
	}
}
