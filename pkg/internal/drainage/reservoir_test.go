package drainage_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

func inches(x float64) quantity.Length      { return quantity.Inches(x) }
func inchesPerHour(x float64) quantity.Rate { return quantity.InchesPerHour(x) }

// Every expected value in this file is computed by hand from the formula (no
// publication prints one), but for the rows of testdata/published.

func TestReservoirDepthW32(t *testing.T) {
	mm := quantity.Millimeters
	for name, q := range map[string]quantity.Rate{
		"15 mm/h":                          quantity.MillimetersPerHour(15),
		"360 mm/day, the guide's own unit": quantity.MillimetersPerHour(360.0 / 24),
	} {
		got, err := drainage.ReservoirDepth(mm(25), 1, q, quantity.Hours(2), 0.4)
		require.NoError(t, err, name)
		require.InDelta(t, 50, got.Millimeters(), 1e-9, name)
	}
}

// W3-3: the three storms of a Minnesota watershed district (2.4, 4.1, 5.9 in).
func TestReservoirDepthW33(t *testing.T) {
	rains := []float64{2.4, 4.1, 5.9}
	for _, c := range []struct {
		q, runOn float64
		want     []float64
	}{
		{0.5, 0, []float64{3.5, 7.75, 12.25}},
		{0.5, 0.5, []float64{6.5, 12.875, 19.625}},
		{0.5, 1, []float64{9.5, 18.0, 27.0}},
		{0.06, 0, []float64{5.7, 9.95, 14.45}},
		{0.06, 1, []float64{11.7, 20.2, 29.2}},
		{0, 0, []float64{6.0, 10.25, 14.75}},
	} {
		for i, rain := range rains {
			t.Run(fmt.Sprintf("%g in, %g in/h, R %g", rain, c.q, c.runOn), func(t *testing.T) {
				got, err := drainage.ReservoirDepth(inches(rain), c.runOn, inchesPerHour(c.q), quantity.Hours(2), 0.4)
				require.NoError(t, err)
				require.InDelta(t, c.want[i], got.Inches(), 1e-9)
			})
		}
	}
}

func TestReservoirDepthCapW34(t *testing.T) {
	for f, want := range map[float64][]float64{
		0.02: {1.2, 2.4, 3.6}, 0.05: {3, 6, 9}, 0.10: {6, 12, 18}, 0.27: {16.2, 32.4, 48.6}, 0.5: {30, 60, 90},
	} {
		for i, hours := range []float64{24, 48, 72} {
			got, err := drainage.ReservoirDepthCap(inchesPerHour(f), quantity.Hours(hours), 0.4)
			require.NoError(t, err)
			require.InDelta(t, want[i], got.Inches(), 1e-9, "%g in/h, %g h", f, hours)
		}
	}
}

// W3-5 and W3-6 were worked with tf rounded to 0.083 day.
func TestVirginia(t *testing.T) {
	filling := quantity.Days(0.083)
	for _, c := range []struct {
		name    string
		i, want float64
		near    float64
	}{
		{"0.5 in/h", 0.5, 3.63, 0.0001},
		{"1 in/h", 1, 2.385, 0.0001},
		{"2 in/h would be -0.105 in and is given as 0", 2, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.ReservoirDepthVirginia(inches(0.95), 1, inches(1), inchesPerHour(c.i), filling, 0.4)
			require.NoError(t, err)
			require.InDelta(t, c.want, got.Inches(), c.near)
		})
	}
	dmax, err := drainage.ReservoirDepthCapVirginia(inchesPerHour(0.5), quantity.Days(2), 0.4)
	require.NoError(t, err)
	require.InDelta(t, 30, dmax.Inches(), 1e-9)

	qu, err := drainage.UnderdrainOutflowVirginia(quantity.Rate(100*0.3048/86400), 0.005)
	require.NoError(t, err)
	require.InDelta(t, 0.5*0.3048/86400, float64(qu), 1e-12)
	got, err := drainage.ReservoirDepthVirginiaUnderdrain(inches(0.95), 1, inches(1), inchesPerHour(0.1), qu, filling, 0.4)
	require.NoError(t, err)
	require.InDelta(t, 3.38, got.Inches(), 0.005)
}

func TestNorthCarolinaW37(t *testing.T) {
	for _, c := range []struct{ rain, runOn, want float64 }{{1, 1, 5}, {1.5, 1, 7.5}, {1.5, 0.5, 5.625}} {
		got, err := drainage.ReservoirDepthNorthCarolina(inches(c.rain), c.runOn, 0.4)
		require.NoError(t, err)
		require.InDelta(t, c.want, got.Inches(), 1e-9)
	}
	for _, c := range []struct{ rain, i, days, near float64 }{{1, 0.04, 10.4, 0.05}, {1, 0.1, 4.17, 0.005}, {1, 0.5, 0.83, 0.005}, {1.5, 0.208, 3, 0.005}} {
		got, err := drainage.DrawdownNorthCarolina(inches(c.rain), 1, inchesPerHour(c.i))
		require.NoError(t, err)
		require.InDelta(t, c.days, got.Days(), c.near)
	}
}

func TestMinnesotaCreditW38(t *testing.T) {
	got, err := drainage.VolumeCreditMinnesota(quantity.SquareFeet(400), quantity.SquareFeet(400), quantity.Feet(1), 0.4)
	require.NoError(t, err)
	require.InDelta(t, 160, cubicFeet(got), 1e-9)
}

func cubicFeet(v quantity.Volume) float64 { return float64(v) / (0.3048 * 0.3048 * 0.3048) }

func TestOntarioW39(t *testing.T) {
	mmh := quantity.MillimetersPerHour
	got, err := drainage.ReservoirFootprintOntario(quantity.Hours(4), mmh(10), mmh(3), quantity.SquareMeters(150), quantity.Millimeters(350), 0.4)
	require.NoError(t, err)
	require.InDelta(t, 30, got.SquareMeters(), 1e-9)
	got, err = drainage.ReservoirFootprintOntario(quantity.Hours(4), mmh(3), mmh(10), quantity.SquareMeters(150), quantity.Millimeters(350), 0.4)
	require.NoError(t, err)
	require.Zero(t, got, "the ground takes more than it rains")

	// (25 x 1 + 25 - 3 x 4) / 0.4 = 95 mm.
	depth, err := drainage.ReservoirDepthOntario(quantity.Millimeters(25), 1, mmh(3), quantity.Hours(4), 0.4)
	require.NoError(t, err)
	require.InDelta(t, 95, depth.Millimeters(), 1e-9)
	_, err = drainage.ReservoirDepthOntario(quantity.Millimeters(25), 2.01, mmh(3), quantity.Hours(4), 0.4)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
	require.Contains(t, outside.Want.Document, "TRCA")
}

func TestTrenchW310(t *testing.T) {
	water := quantity.Volume(1000 * 0.3048 * 0.3048 * 0.3048)
	got, err := drainage.TrenchArea(water, 0.4, quantity.Feet(4), inchesPerHour(0.5), quantity.Hours(2))
	require.NoError(t, err)
	require.InDelta(t, 594.1, got.SquareFeet(), 0.05)
}

func TestDrainTimeW311(t *testing.T) {
	for _, c := range []struct{ depth, f, hours float64 }{{12, 0.5, 9.6}, {6, 0.1, 24}} {
		got, err := drainage.DrainTime(inches(c.depth), 0.4, inchesPerHour(c.f))
		require.NoError(t, err)
		require.InDelta(t, c.hours, got.Hours(), 1e-9)
	}
	_, err := drainage.DrainTime(inches(6), 0.4, 0)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside, "ground that takes no water never empties it")
}

func TestUnderdrain(t *testing.T) {
	for _, c := range []struct {
		name   string
		f, max float64
		want   bool
	}{{"slower", 0.29, 0.3, true}, {"just as fast", 0.3, 0.3, false}, {"takes nothing", 0, 0.3, true}} {
		got, err := drainage.UnderdrainNeeded(inchesPerHour(c.f), inchesPerHour(c.max))
		require.NoError(t, err)
		require.Equal(t, c.want, got, c.name)
	}
	for _, c := range []struct {
		name     string
		depth, f float64
		want     bool
	}{{"12 in at 0.1 in/h: 48 h", 12, 0.101, false}, {"12 in at 0.05 in/h: 96 h", 12, 0.05, true}, {"takes nothing", 12, 0, true}, {"nothing to drain", 0, 0, false}} {
		got, err := drainage.UnderdrainNeededToDrain(inches(c.depth), 0.4, inchesPerHour(c.f), quantity.Hours(48))
		require.NoError(t, err)
		require.Equal(t, c.want, got, c.name)
	}
}

func TestSlopedSubgradeW312(t *testing.T) {
	barrier := inches(12)
	for slope, want := range map[float64]float64{0.01: 66.7, 0.02: 33.3, 0.03: 22.2, 0.05: 13.3} {
		spacing, err := drainage.BarrierSpacingDenver(barrier, slope)
		require.NoError(t, err)
		require.InDelta(t, want, spacing.Feet(), 0.05)
		usable, err := drainage.UsableDepthOnSlope(barrier, slope, spacing)
		require.NoError(t, err)
		require.InDelta(t, 2.0/3, float64(usable/barrier), 1e-9, "two thirds of the height are usable")
	}
	for slope, want := range map[float64][]float64{0.02: {10.8, 9.6, 8.4, 5.0}, 0.05: {9.0, 6.0, 4.0, 2.0}} {
		for i, feet := range []float64{10, 20, 30, 60} {
			got, err := drainage.UsableDepthOnSlope(barrier, slope, quantity.Feet(feet))
			require.NoError(t, err)
			require.InDelta(t, want[i], got.Inches(), 1e-9, "slope %g, %g ft", slope, feet)
		}
	}
	flat, err := drainage.UsableDepthOnSlope(barrier, 0, quantity.Feet(60))
	require.NoError(t, err)
	require.Equal(t, barrier, flat)
	_, err = drainage.BarrierSpacingDenver(barrier, 0)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
}

func TestVoids(t *testing.T) {
	for density, want := range map[float64]float64{1500: .434, 1550: .415, 1600: .396, 1650: .377, 1700: .358} {
		got, err := drainage.VoidsFromDensity(quantity.KgPerM3(density), 2.65)
		require.NoError(t, err)
		require.InDelta(t, want, got, 0.0005)
	}
	e, err := drainage.VoidRatio(0.4)
	require.NoError(t, err)
	require.InDelta(t, 0.667, e, 0.0005)
	var outside *calculation.RangeError
	_, err = drainage.VoidsFromDensity(quantity.KgPerM3(2650), 2.65)
	require.ErrorAs(t, err, &outside, "no voids")
	_, err = drainage.VoidsFromDensity(quantity.KgPerM3(1600), 2650)
	require.ErrorAs(t, err, &outside, "a density in place of a specific gravity")
}

func TestReservoirRefuses(t *testing.T) {
	ok := func(rain quantity.Length, runOn float64, q quantity.Rate, filling quantity.Time, voids float64) error {
		_, err := drainage.ReservoirDepth(rain, runOn, q, filling, voids)
		return err
	}
	good := inches(2)
	for _, c := range []struct {
		name, value string
		err         error
	}{
		{"no voids", "voids", ok(good, 0, 0, 0, 0)},
		{"nothing but voids", "voids", ok(good, 0, 0, 0, 1)},
		{"voids in percent", "voids", ok(good, 0, 0, 0, 40)},
		{"rain falls up", "rain", ok(-good, 0, 0, 0, 0.4)},
		{"rain is no number", "rain", ok(quantity.Length(math.NaN()), 0, 0, 0, 0.4)},
		{"run-on below 0", "run-on ratio", ok(good, -0.1, 0, 0, 0.4)},
		{"ground gives water", "infiltration", ok(good, 0, -1e-6, 0, 0.4)},
		{"infiltration without end", "infiltration", ok(good, 0, quantity.Rate(math.Inf(1)), 0, 0.4)},
		{"time runs back", "time of filling", ok(good, 0, 0, -1, 0.4)},
	} {
		t.Run(c.name, func(t *testing.T) {
			var outside *calculation.RangeError
			require.ErrorAs(t, c.err, &outside)
			require.Equal(t, c.value, outside.Want.Name)
		})
	}
}
