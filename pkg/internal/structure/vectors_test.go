package structure

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// The vectors in this file are computed, not published: they were worked out
// apart from this package and guard it against change.

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		require.NoError(t, err)
		return v
	}
}

// TestRequiredSNTable: reliability 75 %, deviation 0.45, loss 1.7; the base is of
// coefficient 0.14 beneath a structural number of 1.815.
func TestRequiredSNTable(t *testing.T) {
	traffic := []float64{1e4, 2e4, 5e4, 1e5, 2e5, 5e5, 1e6, 2e6, 5e6, 1e7}
	for _, row := range []struct {
		why        string
		psi        float64
		sn, inches []float64
	}{
		{"the softest soil, where every traffic needs a base", 3000, []float64{2.07, 2.33, 2.71, 3.04, 3.41, 3.95, 4.40, 4.88, 5.55, 6.09}, []float64{1.8, 3.7, 6.4, 8.8, 11.4, 15.3, 18.5, 21.9, 26.7, 30.5}},
		{"CBR 3", 4500, []float64{1.76, 1.99, 2.32, 2.60, 2.92, 3.40, 3.80, 4.24, 4.86, 5.36}, []float64{0, 1.2, 3.6, 5.6, 7.9, 11.3, 14.2, 17.3, 21.8, 25.3}},
		{"CBR 4", 6000, []float64{1.57, 1.77, 2.07, 2.33, 2.61, 3.04, 3.41, 3.82, 4.40, 4.88}, []float64{0, 0, 1.8, 3.7, 5.7, 8.8, 11.4, 14.3, 18.5, 21.9}},
		{"CBR 5", 7500, []float64{1.42, 1.62, 1.90, 2.13, 2.40, 2.79, 3.13, 3.51, 4.07, 4.52}, []float64{0, 0, 0.6, 2.3, 4.2, 7.0, 9.4, 12.1, 16.1, 19.3}},
		{"CBR 6", 9000, []float64{1.32, 1.50, 1.76, 1.99, 2.23, 2.60, 2.92, 3.27, 3.80, 4.24}, []float64{0, 0, 0, 1.2, 3.0, 5.6, 7.9, 10.4, 14.2, 17.3}},
		{"CBR 8", 12000, []float64{1.15, 1.32, 1.57, 1.77, 2.00, 2.33, 2.61, 2.93, 3.41, 3.82}, []float64{0, 0, 0, 0, 1.3, 3.7, 5.7, 8.0, 11.4, 14.3}},
		{"firm soil, where light traffic needs none", 15000, []float64{1.04, 1.20, 1.43, 1.62, 1.83, 2.13, 2.40, 2.69, 3.13, 3.51}, []float64{0, 0, 0, 0, 0.1, 2.3, 4.2, 6.3, 9.4, 12.1}},
	} {
		for i, esal := range traffic {
			t.Run(fmt.Sprintf("%g axles on %g psi", esal, row.psi), func(t *testing.T) {
				sn := must[float64](t)(RequiredSN(esal, 0.75, 0.45, 1.7, quantity.PSI(row.psi)))
				require.InDelta(t, row.sn[i], sn, 0.00501, row.why)
				base := must[quantity.Length](t)(LayerThicknessForSN(sn, 1.815, 0.14, 1))
				require.InDelta(t, row.inches[i], base.Inches(), 0.0501, row.why)
			})
		}
	}
}

func TestCapacityOfFixedSections(t *testing.T) {
	for _, c := range []struct {
		why string
		sn  float64
		psi []float64
		out []float64
	}{
		{"4 in of base", 2.375, []float64{3000, 4500, 7500}, []float64{2.3e4, 5.8e4, 1.9e5}},
		{"6 in of base", 2.655, []float64{3000, 4500, 7500}, []float64{4.4e4, 1.1e5, 3.7e5}},
		{"8 in of base", 2.935, []float64{3000, 4500, 7500}, []float64{8.1e4, 2.1e5, 6.8e5}},
		{"12 in of base", 3.495, []float64{3000, 4500, 7500}, []float64{2.3e5, 6.0e5, 2.0e6}},
	} {
		for i, psi := range c.psi {
			t.Run(fmt.Sprintf("SN %g on %g psi", c.sn, psi), func(t *testing.T) {
				got := must[float64](t)(TrafficCapacity(c.sn, 0.75, 0.45, 1.7, quantity.PSI(psi)))
				require.InEpsilon(t, c.out[i], got, 0.03, c.why)
			})
		}
	}
}

func TestAxleEquivalenceOfThinSections(t *testing.T) {
	for _, c := range []struct {
		why        string
		kip        float64
		axle       Axle
		terminal   float64
		two, three float64 // at a structural number of 2 and of 3
		tolerance  float64
	}{
		{"a car", 2, SingleAxle, 2.5, .00040, .00031, .000005},
		{"a light truck", 4, SingleAxle, 2.5, .0042, .0035, .00005},
		{"where the two sections change places", 8, SingleAxle, 2.5, .047, .051, .0005},
		{"a truck", 12, SingleAxle, 2.5, .198, .229, .0005},
		{"above the standard axle", 20, SingleAxle, 2.5, 1.57, 1.49, .005},
		{"a fire truck's single axle", 24, SingleAxle, 2.5, 3.49, 3.09, .005},
		{"a legal tandem", 34, TandemAxle, 2.5, 1.08, 1.11, .005},
		{"an overloaded tandem", 40, TandemAxle, 2.5, 2.16, 2.06, .005},
		{"a heavier tandem", 48, TandemAxle, 2.5, 4.80, 4.25, .005},
		{"the tandem of a 75,000 lb apparatus", 52, TandemAxle, 2.5, 6.87, 5.93, .005},
		{"a car, worn further", 2, SingleAxle, 2, .00023, .00020, .000005},
		{"a truck, worn further", 12, SingleAxle, 2, .177, .189, .0005},
		{"above the standard axle, worn further", 20, SingleAxle, 2, 1.59, 1.56, .005},
		{"a fire truck's single axle, worn further", 24, SingleAxle, 2, 3.62, 3.43, .005},
		{"a heavier tandem, worn further", 48, TandemAxle, 2, 4.98, 4.72, .005},
		{"the standard axle is one by definition", 18, SingleAxle, 2.5, 1, 1, 1e-12},
	} {
		t.Run(fmt.Sprintf("%s of %g kip to %g", c.axle, c.kip, c.terminal), func(t *testing.T) {
			load := quantity.PoundsForce(c.kip * 1000)
			require.InDelta(t, c.two, must[float64](t)(AxleEquivalence(load, c.axle, 2, c.terminal)), c.tolerance*1.01, c.why)
			require.InDelta(t, c.three, must[float64](t)(AxleEquivalence(load, c.axle, 3, c.terminal)), c.tolerance*1.01, c.why)
		})
	}
}

// TestWheelCover: a wheel of 9,000 lbf at 80 psi.
func TestWheelCover(t *testing.T) {
	for _, c := range []struct {
		why         string
		cbr, inches float64
	}{
		{"soft clay", 3, 18.29}, {"a step firmer", 4, 15.56}, {"the usual clay", 5, 13.65},
		{"a step firmer", 6, 12.22}, {"the anchor of a published design", 7, 11.09}, {"near the end of the range", 10, 8.68},
	} {
		t.Run(fmt.Sprintf("CBR %g", c.cbr), func(t *testing.T) {
			got := must[quantity.Length](t)(WheelCover(quantity.PoundsForce(9000), quantity.PSI(80), c.cbr))
			require.InDelta(t, c.inches, got.Inches(), 0.00501, c.why)
		})
	}
}

// TestPairCover: Boyd and Foster's equivalent single wheel (memory), by hand. Below
// half of the clear distance half of the load counts, so the cover is divided by the
// root of 2; from twice the spacing on all of it counts.
func TestPairCover(t *testing.T) {
	for _, c := range []struct {
		name, why          string
		single, pair, near float64 // in
	}{
		{"none", "what needs no cover for one tire needs none for two", 0, 0, 1e-12},
		{"near the surface", "3 / sqrt(2)", 3, 2.1213, 5e-5},
		{"half of the clear distance", "2.25 sqrt(2) for one tire is 2.25 for the pair", 3.18198, 2.25, 5e-5},
		{"at 13.5 in", "of 9,000 lb, 4,500 x (13.5/2.25)^(log 2/log 12) = 7,418 lb count, so one tire would need 13.5 x sqrt(9,000/7,418)", 14.8703, 13.5, 1e-3},
		{"twice the spacing", "the two press as one from here on", 27, 27, 1e-9},
		{"deeper", "the two press as one", 28, 28, 1e-9},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := must[quantity.Length](t)(PairCover(quantity.Inches(c.single)))
			require.InDelta(t, c.pair, got.Inches(), c.near, c.why)
		})
	}
}

// TestCoverageFactor: 0.23 log10(C) + 0.15 (memory), by hand.
func TestCoverageFactor(t *testing.T) {
	for _, c := range []struct {
		why             string
		coverages, want float64
	}{
		{"0.23 + 0.15", 10, 0.38}, {"3 x 0.23 + 0.15", 1000, 0.84}, {"6 x 0.23 + 0.15", 1e6, 1.53},
	} {
		t.Run(fmt.Sprintf("%g coverages", c.coverages), func(t *testing.T) {
			require.InDelta(t, c.want, must[float64](t)(CoverageFactor(c.coverages)), 1e-12, c.why)
		})
	}
}

func TestDesignESAL(t *testing.T) {
	for _, c := range []struct {
		name, why                     string
		daily, trucks, factor         float64
		growth, direction, lane, want float64
		near                          float64
	}{
		{"a rural road", "Huang, chapter 6 (relayed), printed to the nearest hundred", 4000, 25, 0.38, 29.78, 50, 100, 2_065_200, 50},
		{"two lanes each way", "by hand: 1,000 x 0.2 x 0.5 x 10 x 0.5 x 0.8 = 400 a day, times 365; no factor is 1", 1000, 20, 0.5, 10, 50, 80, 146_000, 1e-6},
		{"no trucks", "cars are not counted", 1000, 0, 0.5, 10, 50, 80, 0, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := must[float64](t)(DesignESAL(c.daily, quantity.Percent(c.trucks), c.factor, c.growth, quantity.Percent(c.direction), quantity.Percent(c.lane)))
			require.InDelta(t, c.want, got, c.near, c.why)
		})
	}
}

func TestPanelStress(t *testing.T) {
	for _, c := range []struct {
		why                                            string
		lbf, in, contact, thin2, thin1, thick2, thick1 float64
	}{
		{"a load on a stair tread, the smallest patch", 300, 2, 517.1, 108.7, 45.7, 78.0, 30.0},
		{"a load on a garage floor", 2000, 4.5, 681.0, 292.8, 162.1, 235.7, 118.2},
		{"a heavier load on a garage floor", 3000, 4.5, 1021.4, 439.3, 243.1, 353.5, 177.4},
		{"a truck wheel", 8000, 4.5, 2723.9, 1171.3, 648.2, 942.6, 473.0},
	} {
		for _, at := range []struct{ mm, spread, kPa float64 }{
			{0, 2, c.contact}, {60, 2, c.thin2}, {60, 1, c.thin1}, {80, 2, c.thick2}, {80, 1, c.thick1},
		} {
			t.Run(fmt.Sprintf("%g lbf under %g mm at %g to 1", c.lbf, at.mm, at.spread), func(t *testing.T) {
				got := must[quantity.Pressure](t)(PanelStress(quantity.PoundsForce(c.lbf), quantity.Inches(c.in), quantity.Millimeters(at.mm), at.spread))
				require.InDelta(t, at.kPa, got.Kilopascals(), 0.0501, c.why)
			})
		}
	}
}

// TestDrainageTable is Table 2.4 by its lower ends, read at the edges of its columns.
func TestDrainageTable(t *testing.T) {
	saturations := []float64{0, 0.99, 1, 4.99, 5, 25, 25.01, 100}
	for _, c := range []struct {
		why     string
		quality DrainageQuality
		want    []float64
	}{
		{"the first column ends below 1, the third with 25, from where on the fourth is its lower end", ExcellentDrainage, []float64{1.35, 1.35, 1.30, 1.30, 1.20, 1.20, 1.20, 1.20}},
		{"the usual base", GoodDrainage, []float64{1.25, 1.25, 1.15, 1.15, 1.00, 1.00, 1.00, 1.00}},
		{"the prints differ in an upper end only, which is not used", FairDrainage, []float64{1.15, 1.15, 1.05, 1.05, 0.80, 0.80, 0.80, 0.80}},
		{"each column differs", PoorDrainage, []float64{1.05, 1.05, 0.80, 0.80, 0.60, 0.60, 0.60, 0.60}},
		{"the worst row", VeryPoorDrainage, []float64{0.95, 0.95, 0.75, 0.75, 0.40, 0.40, 0.40, 0.40}},
	} {
		for i, saturation := range saturations {
			t.Run(fmt.Sprintf("%s, wet for %g %%", c.quality, saturation), func(t *testing.T) {
				require.Equal(t, c.want[i], must[float64](t)(DrainageCoefficient(c.quality, quantity.Percent(saturation))), c.why)
			})
		}
	}
}

func TestDepthZero(t *testing.T) {
	q := quantity.PSI(80)
	require.Equal(t, q, must[quantity.Pressure](t)(BoussinesqCircle(q, quantity.Inches(6), 0)))
	// 1.5 (a/z)^2 is the limit at great depth; 1 - 1/(1 + 1e-10)^1.5 would lose half of its digits.
	deep := must[quantity.Pressure](t)(BoussinesqCircle(1, quantity.Millimeters(1), quantity.Meters(100)))
	require.InEpsilon(t, 1.5e-10, float64(deep), 1e-9)
}

// TestNoCoverNeeded: where the wheel presses no harder than the ground can
// bear, zero, and on the way there the cover shrinks to nothing.
func TestNoCoverNeeded(t *testing.T) {
	load := quantity.PoundsForce(9000)
	limit := 8.1 * 10 / 3.141592653589793 // psi, at CBR 10
	require.Zero(t, must[quantity.Length](t)(WheelCover(load, quantity.PSI(limit*0.999), 10)))
	just := must[quantity.Length](t)(WheelCover(load, quantity.PSI(limit*1.000001), 10)).Inches()
	require.True(t, just > 0 && just < 0.05, "%g in", just)
}
