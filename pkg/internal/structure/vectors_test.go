package structure

import (
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// The vectors in this file are computed, not published: they were worked out
// apart from this package and guard it against change.

func near(t *testing.T, want, got, tolerance float64, what string, args ...any) {
	t.Helper()
	require.InDelta(t, want, got, tolerance, what, fmt.Sprint(args...))
}

func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		require.NoError(t, err)
		return v
	}
}

// TestRequiredSNTable: R 75, So 0.45, loss 1.7, printed deviate.
func TestRequiredSNTable(t *testing.T) {
	traffic := []float64{1e4, 2e4, 5e4, 1e5, 2e5, 5e5, 1e6, 2e6, 5e6, 1e7}
	table := []struct {
		psi    float64
		sn     []float64
		inches []float64 // of base at 0.14 beneath SN 1.815
	}{
		{3000, []float64{2.07, 2.33, 2.71, 3.04, 3.41, 3.95, 4.40, 4.88, 5.55, 6.09}, []float64{1.8, 3.7, 6.4, 8.8, 11.4, 15.3, 18.5, 21.9, 26.7, 30.5}},
		{4500, []float64{1.76, 1.99, 2.32, 2.60, 2.92, 3.40, 3.80, 4.24, 4.86, 5.36}, []float64{0, 1.2, 3.6, 5.6, 7.9, 11.3, 14.2, 17.3, 21.8, 25.3}},
		{6000, []float64{1.57, 1.77, 2.07, 2.33, 2.61, 3.04, 3.41, 3.82, 4.40, 4.88}, []float64{0, 0, 1.8, 3.7, 5.7, 8.8, 11.4, 14.3, 18.5, 21.9}},
		{7500, []float64{1.42, 1.62, 1.90, 2.13, 2.40, 2.79, 3.13, 3.51, 4.07, 4.52}, []float64{0, 0, 0.6, 2.3, 4.2, 7.0, 9.4, 12.1, 16.1, 19.3}},
		{9000, []float64{1.32, 1.50, 1.76, 1.99, 2.23, 2.60, 2.92, 3.27, 3.80, 4.24}, []float64{0, 0, 0, 1.2, 3.0, 5.6, 7.9, 10.4, 14.2, 17.3}},
		{12000, []float64{1.15, 1.32, 1.57, 1.77, 2.00, 2.33, 2.61, 2.93, 3.41, 3.82}, []float64{0, 0, 0, 0, 1.3, 3.7, 5.7, 8.0, 11.4, 14.3}},
		{15000, []float64{1.04, 1.20, 1.43, 1.62, 1.83, 2.13, 2.40, 2.69, 3.13, 3.51}, []float64{0, 0, 0, 0, 0.1, 2.3, 4.2, 6.3, 9.4, 12.1}},
	}
	for _, row := range table {
		for i, esal := range traffic {
			sn := must[float64](t)(RequiredSN(esal, 75, 0.45, 1.7, quantity.PSI(row.psi), PrintedDeviate))
			near(t, row.sn[i], sn, 0.00501, "SN", row.psi, esal)
			base := must[quantity.Length](t)(LayerThicknessForSN(sn, 1.815, 0.14, 1))
			near(t, row.inches[i], base.Inches(), 0.0501, "base", row.psi, esal)
		}
	}
}

func TestCapacityOfFixedSections(t *testing.T) {
	for _, c := range []struct{ sn, psi, esal float64 }{
		{2.375, 3000, 2.3e4}, {2.375, 4500, 5.8e4}, {2.375, 7500, 1.9e5},
		{2.655, 3000, 4.4e4}, {2.655, 4500, 1.1e5}, {2.655, 7500, 3.7e5},
		{2.935, 3000, 8.1e4}, {2.935, 4500, 2.1e5}, {2.935, 7500, 6.8e5},
		{3.495, 3000, 2.3e5}, {3.495, 4500, 6.0e5}, {3.495, 7500, 2.0e6},
	} {
		got := must[float64](t)(TrafficCapacity(c.sn, 75, 0.45, 1.7, quantity.PSI(c.psi), PrintedDeviate))
		require.InEpsilon(t, c.esal, got, 0.03, "SN %g on %g psi", c.sn, c.psi)
	}
}

func TestAxleEquivalenceOfThinSections(t *testing.T) {
	for _, c := range []struct {
		kip       float64
		axle      Axle
		pt        float64
		two, thre float64 // at SN 2 and SN 3
		tolerance float64
	}{
		{2, SingleAxle, 2.5, .00040, .00031, .000005}, {4, SingleAxle, 2.5, .0042, .0035, .00005},
		{8, SingleAxle, 2.5, .047, .051, .0005}, {12, SingleAxle, 2.5, .198, .229, .0005},
		{20, SingleAxle, 2.5, 1.57, 1.49, .005}, {24, SingleAxle, 2.5, 3.49, 3.09, .005},
		{34, TandemAxle, 2.5, 1.08, 1.11, .005}, {40, TandemAxle, 2.5, 2.16, 2.06, .005},
		{48, TandemAxle, 2.5, 4.80, 4.25, .005}, {52, TandemAxle, 2.5, 6.87, 5.93, .005},
		{2, SingleAxle, 2, .00023, .00020, .000005}, {12, SingleAxle, 2, .177, .189, .0005},
		{20, SingleAxle, 2, 1.59, 1.56, .005}, {24, SingleAxle, 2, 3.62, 3.43, .005}, {48, TandemAxle, 2, 4.98, 4.72, .005},
	} {
		load := quantity.PoundsForce(c.kip * 1000)
		near(t, c.two, must[float64](t)(AxleEquivalence(load, c.axle, 2, c.pt)), c.tolerance*1.01, "SN 2", c)
		near(t, c.thre, must[float64](t)(AxleEquivalence(load, c.axle, 3, c.pt)), c.tolerance*1.01, "SN 3", c)
	}
	for _, sn := range []float64{1, 3.3, 6} {
		near(t, 1, must[float64](t)(AxleEquivalence(quantity.PoundsForce(18000), SingleAxle, sn, 2.5)), 1e-12, "the standard axle is one")
	}
	near(t, 3.16, must[float64](t)(FourthPowerEquivalence(quantity.PoundsForce(24000))), 0.005, "24 kip")
	near(t, 24.4, must[float64](t)(FourthPowerEquivalence(quantity.PoundsForce(40000))), 0.05, "40 kip")
	near(t, .00015, must[float64](t)(FourthPowerEquivalence(quantity.PoundsForce(2000))), .000005, "2 kip")
}

func TestWheelCoverTable(t *testing.T) {
	load, tire := quantity.PoundsForce(9000), quantity.PSI(80)
	for _, c := range []struct{ cbr, inches float64 }{{3, 18.29}, {4, 15.56}, {5, 13.65}, {6, 12.22}, {7, 11.09}, {10, 8.68}} {
		near(t, c.inches, must[quantity.Length](t)(WheelCover(load, tire, c.cbr)).Inches(), 0.00501, "CBR", c.cbr)
	}
	// The cubic form was also worked out below the CBR from which it is offered.
	for _, c := range []struct{ cbr, inches float64 }{{3, 17.69}, {4, 14.98}, {7, 10.79}, {10, 8.71}} {
		near(t, c.inches, cubicCover(9000, 80, c.cbr, 1), 0.00501, "CBR", c.cbr)
	}
}

func TestPanelVectors(t *testing.T) {
	for _, c := range []struct{ lbf, in, contact, thin2, thin1, thick2, thick1 float64 }{
		{300, 2, 517.1, 108.7, 45.7, 78.0, 30.0},
		{2000, 4.5, 681.0, 292.8, 162.1, 235.7, 118.2},
		{3000, 4.5, 1021.4, 439.3, 243.1, 353.5, 177.4},
		{8000, 4.5, 2723.9, 1171.3, 648.2, 942.6, 473.0},
	} {
		stress := func(mm, spread float64) float64 {
			return must[quantity.Pressure](t)(PanelStress(quantity.PoundsForce(c.lbf), quantity.Inches(c.in), quantity.Millimeters(mm), spread)).Kilopascals()
		}
		got := []float64{stress(0, 2), stress(60, 2), stress(60, 1), stress(80, 2), stress(80, 1)}
		for i, want := range []float64{c.contact, c.thin2, c.thin1, c.thick2, c.thick1} {
			near(t, want, got[i], 0.0501, "stress", c.lbf, i)
		}
	}
	one := must[quantity.Pressure](t)(PaverStress(quantity.PoundsForce(300), quantity.Millimeters(200), quantity.Millimeters(100)))
	near(t, 66.7, one.Kilopascals(), 0.05, "one paver")
	bed := must[quantity.Pressure](t)(PanelBedStress(quantity.PoundsForce(300), quantity.Inches(2), quantity.Millimeters(60), quantity.Millimeters(20), 2))
	near(t, 78.0, bed.Kilopascals(), 0.05, "20 mm of panel spread as 20 mm of paver do")
	share := must[float64](t)(PanelUtilisation(quantity.Kilopascals(108.7), quantity.Kilopascals(75)))
	near(t, 1.449, share, 0.0005, "utilisation")
}

func TestStrainVectors(t *testing.T) {
	for _, c := range []struct{ coverages, strain, tolerance float64 }{
		{1e3, 1.478e-3, 5e-7}, {1e4, 1.069e-3, 5e-7}, {1e5, 7.73e-4, 5e-7}, {1e6, 5.59e-4, 5e-7},
	} {
		near(t, c.strain, must[float64](t)(SubgradeStrainLimit(c.coverages)), c.tolerance, "strain", c.coverages)
	}
}

// TestOdemarkExample: 9,000 lbf at 80 psi over 8 in of base three times as
// stiff as the ground.
func TestOdemarkExample(t *testing.T) {
	q := quantity.PSI(80)
	a := must[quantity.Length](t)(ContactRadius(quantity.PoundsForce(9000), q))
	h, upper, lower := quantity.Inches(8), quantity.PSI(22500), quantity.PSI(7500)
	near(t, 5.98, a.Inches(), 0.005, "radius")
	near(t, 10.38, must[quantity.Length](t)(OdemarkThickness(h, upper, lower, 0.9, 0.5, 0.5)).Inches(), 0.006, "equivalent thickness")
	near(t, 27.97, must[quantity.Pressure](t)(OdemarkStress(q, a, h, upper, lower, 0.9)).PSI(), 0.01, "factor 0.9")
	near(t, 24.04, must[quantity.Pressure](t)(OdemarkStress(q, a, h, upper, lower, 1)).PSI(), 0.01, "factor 1")
	near(t, 38.92, must[quantity.Pressure](t)(BoussinesqCircle(q, a, h)).PSI(), 0.01, "no stiffening")
	side := must[quantity.Length](t)(ContactSide(quantity.PoundsForce(9000), q))
	near(t, 26.0, must[quantity.Pressure](t)(SpreadStress(quantity.PoundsForce(9000), side, h, 2)).PSI(), 0.05, "2:1")
	// (1-0.45^2)/(1-0.35^2) = 0.7975/0.8775
	want := 0.9 * 8 * math.Cbrt(3*0.7975/0.8775)
	near(t, want, must[quantity.Length](t)(OdemarkThickness(h, upper, lower, 0.9, 0.35, 0.45)).Inches(), 1e-9, "Poisson's ratios")
}

var twoLayerTable = []struct {
	slenderness float64
	share       [8]float64
}{
	{0.25, [8]float64{.0869, .0670, .0556, .0426, .0284, .0184, .0101, .0063}},
	{0.50, [8]float64{.2845, .2241, .1886, .1471, .1006, .0665, .0372, .0237}},
	{0.75, [8]float64{.4880, .3973, .3413, .2734, .1933, .1315, .0760, .0493}},
	{1.00, [8]float64{.6464, .5468, .4810, .3969, .2914, .2047, .1224, .0809}},
	{1.50, [8]float64{.8293, .7552, .6959, .6084, .4802, .3589, .2290, .1573}},
	{2.00, [8]float64{.9106, .8749, .8359, .7663, .6437, .5084, .3443, .2449}},
}

var twoLayerRatios = [8]float64{1, 2, 3, 5, 10, 20, 50, 100}

func twoLayer(t *testing.T, slenderness, ratio, upperPoisson, lowerPoisson float64) float64 {
	t.Helper()
	p, err := TwoLayerStress(1, quantity.Length(slenderness), 1, quantity.Pressure(1e7*ratio), 1e7, upperPoisson, lowerPoisson)
	require.NoError(t, err)
	return float64(p)
}

func TestTwoLayerTable(t *testing.T) {
	for _, row := range twoLayerTable {
		for i, ratio := range twoLayerRatios {
			near(t, row.share[i], twoLayer(t, row.slenderness, ratio, 0.5, 0.5), 0.0000501, "share", row.slenderness, ratio)
		}
	}
	for _, slenderness := range []float64{0.5, 1, 1.5} {
		for _, ratio := range []float64{2, 3, 5, 10} {
			rise := twoLayer(t, slenderness, ratio, 0.35, 0.45)/twoLayer(t, slenderness, ratio, 0.5, 0.5) - 1
			require.True(t, rise > 0.015 && rise < 0.085, "a/h %g, ratio %g: Poisson's ratios 0.35 and 0.45 raise the stress by %.1f %%", slenderness, ratio, 100*rise)
		}
	}
}

// TestRememberedSpotValue: for a layer 1,000 times as stiff a published 0.0185
// is remembered. Two kernels here give 0.01894, so it stands in no published row.
func TestRememberedSpotValue(t *testing.T) {
	near(t, 0.01893974, twoLayer(t, 1, 1000, 0.5, 0.5), 1e-7, "a/h 1, ratio 1000")
}

// TestOdemarkError bounds what the doc comment of OdemarkStress says.
func TestOdemarkError(t *testing.T) {
	off := map[float64][2]float64{0.9: {1, -1}, 1: {1, -1}}
	for _, slenderness := range []float64{0.5, 0.75, 1, 1.25, 1.5} {
		for _, ratio := range []float64{2, 3, 5, 7, 10} {
			for f, span := range off {
				p := must[quantity.Pressure](t)(OdemarkStress(1, quantity.Length(slenderness), 1, quantity.Pressure(1e7*ratio), 1e7, f))
				e := float64(p)/twoLayer(t, slenderness, ratio, 0.5, 0.5) - 1
				off[f] = [2]float64{min(span[0], e), max(span[1], e)}
			}
		}
	}
	t.Logf("relative error by factor: %v", off)
	near(t, -0.08, off[0.9][0], 0.01, "lowest at 0.9")
	near(t, 0.06, off[0.9][1], 0.01, "highest at 0.9")
	near(t, -0.25, off[1][0], 0.01, "lowest at 1.0")
	near(t, -0.03, off[1][1], 0.01, "highest at 1.0")
}

// TestSizeLayers: example A6 from the top down. The print has 8, 7 and 11.5 in;
// the last comes from a chart reading of 5.6 where the equation gives 5.545.
func TestSizeLayers(t *testing.T) {
	demand := Demand{ESAL: 18.6e6, Reliability: 95, Deviation: 0.35, Loss: 2.1, Deviate: PrintedDeviate}
	layers := []Material{
		{Coefficient: 0.42, Drainage: 1},
		{Coefficient: 0.14, Drainage: 1.2, Modulus: quantity.PSI(30000)},
		{Coefficient: 0.08, Drainage: 1.2, Modulus: quantity.PSI(11000)},
	}
	got, err := SizeLayers(demand, layers, quantity.PSI(5700), quantity.Inches(0.5))
	require.NoError(t, err)
	var built, required []string
	for _, s := range got {
		built = append(built, fmt.Sprintf("%.4g", s.Built.Inches()))
		required = append(required, fmt.Sprintf("%.3f", s.Required))
		require.GreaterOrEqual(t, s.Reached, s.Required-1e-9)
	}
	require.Empty(t, cmp.Diff([]string{"8", "7", "11"}, built))
	require.Empty(t, cmp.Diff([]string{"3.200", "4.508", "5.545"}, required))

	sn, err := SectionSN(
		Layer{Thickness: quantity.Inches(4), Coefficient: 0.44, Drainage: 1},
		Layer{Thickness: quantity.Inches(8), Coefficient: 0.30, Drainage: 1},
		Layer{Thickness: quantity.Inches(8), Coefficient: 0.11, Drainage: 1})
	require.NoError(t, err)
	near(t, 5.04, sn, 1e-12, "section of example A2")

	exact, err := SizeLayers(Demand{ESAL: 1, Reliability: 50, Deviation: 0.45, Loss: 1.7, Deviate: PrintedDeviate},
		[]Material{{Coefficient: 0.44, Drainage: 1}}, quantity.PSI(40000), quantity.Inches(1))
	require.NoError(t, err)
	near(t, 1, exact[0].Built.Inches(), 1e-12, "one inch of 0.44 is the thinnest section; rounding must not make it two")
}

// TestRutting: 10^(-8.86486 + 4.477*3.30103) and 10^(-8.86486 + 13.431), by hand.
func TestRutting(t *testing.T) {
	require.InEpsilon(t, 8.2006e5, must[float64](t)(RuttingRepetitions(5e-4)), 1e-4)
	require.InEpsilon(t, 3.6825e4, must[float64](t)(RuttingRepetitions(1e-3)), 1e-4)
}

// TestTableEdges: a value on the edge of two rows or columns is read on the safe
// side, unless the print says which it belongs to.
func TestTableEdges(t *testing.T) {
	for _, c := range []struct{ saturation, want float64 }{{0.99, 1.25}, {1, 1.15}, {4.99, 1.15}, {5, 1.00}, {25, 1.00}} {
		near(t, c.want, must[float64](t)(DrainageCoefficient(GoodDrainage, c.saturation)), 0, "saturation", c.saturation)
	}
	for _, c := range []struct{ saturation, want float64 }{{25, 1.15}, {25.01, 1.00}} {
		near(t, c.want, must[float64](t)(UpperDrainageCoefficient(GoodDrainage, c.saturation)), 0, "saturation", c.saturation)
	}
	for _, c := range []struct{ esal, asphalt float64 }{
		{49999, 1}, {50e3, 2}, {150e3, 2}, {150001, 2.5}, {500e3, 2.5}, {2e6, 3}, {7e6, 3.5}, {7000001, 4}, {50e6, 4},
	} {
		near(t, c.asphalt, must[quantity.Length](t)(MinimumAsphalt(c.esal)).Inches(), 1e-12, "traffic", c.esal)
	}
	near(t, 4, must[quantity.Length](t)(MinimumBase(500e3)).Inches(), 1e-12, "base")
	near(t, 6, must[quantity.Length](t)(MinimumBase(500001)).Inches(), 1e-12, "base")
}
