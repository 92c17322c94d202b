package ground_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

// The table computed for the reference, to its print.
func TestDCPTable(t *testing.T) {
	const none = -1
	for _, c := range []struct{ dpi, general, cl, ch float64 }{
		{5, 48.1, none, 69.7}, {10, 22.1, none, 34.8}, {15, 14.1, none, 23.2}, {20, 10.2, 8.63, 17.4}, {25, 7.94, 5.52, 13.9},
		{30, 6.47, 3.84, 11.6}, {40, 4.69, 2.16, 8.71}, {50, 3.65, 1.38, 6.97}, {60, 2.98, 0.96, 5.81}, {100, 1.68, none, 3.48},
	} {
		for curve, want := range map[ground.DCPCurve]float64{ground.DCPGeneral: c.general, ground.DCPCL: c.cl, ground.DCPCH: c.ch} {
			if want == none {
				continue
			}
			got, err := ground.CBRFromDCP(quantity.Millimeters(c.dpi), curve, ground.Hammer8kg)
			require.NoError(t, err)
			require.InEpsilon(t, want, got, 0.006, "%g mm, %s", c.dpi, curve)
		}
	}
}

func TestDCPLeanClayCurve(t *testing.T) {
	cbr := func(mm float64, c ground.DCPCurve) float64 {
		got, err := ground.CBRFromDCP(quantity.Millimeters(mm), c, ground.Hammer8kg)
		require.NoError(t, err)
		return got
	}
	require.Equal(t, cbr(18.5, ground.DCPGeneral), cbr(18.5, ground.DCPCL), "at CBR 10 and over the general curve serves")
	require.Less(t, cbr(18.6, ground.DCPCL), 10.0, "under CBR 10 its own, which is the lower")
	require.InDelta(t, 11.1, cbr(18.58, ground.DCPGeneral), 0.05, "the step between the two")
	light, err := ground.CBRFromDCP(quantity.Millimeters(10), ground.DCPGeneral, ground.Hammer46kg)
	require.NoError(t, err)
	require.Equal(t, cbr(20, ground.DCPGeneral), light, "a light blow counts half")
}

func TestDCPFallsAsPenetrationRises(t *testing.T) {
	for _, curve := range []ground.DCPCurve{ground.DCPGeneral, ground.DCPCL, ground.DCPCH, ground.DCPTRL} {
		last, answers := math.Inf(1), 0
		for dpi := 0.5; dpi < 900; dpi *= 1.01 {
			got, err := ground.CBRFromDCP(quantity.Millimeters(dpi), curve, ground.Hammer8kg)
			if err != nil {
				var outside *calculation.RangeError
				require.ErrorAs(t, err, &outside)
				continue
			}
			require.Less(t, got, last, "%s at %g mm", curve, dpi)
			last = got
			answers++
		}
		require.Greater(t, answers, 300, "%s", curve)
	}
}

func TestStrengthDivisors(t *testing.T) {
	cu := quantity.Kilopascals(90)
	thirty, err := ground.CBRFromUndrainedStrength(cu, ground.Divisor30)
	require.NoError(t, err)
	require.InDelta(t, 3.0, thirty, 1e-12)
	black, err := ground.CBRFromUndrainedStrength(cu, ground.Divisor23)
	require.NoError(t, err)
	require.InDelta(t, 3.9, black, 0.05)
	back, err := ground.UndrainedStrengthFromCBR(black, ground.Divisor23)
	require.NoError(t, err)
	require.InEpsilon(t, float64(cu), float64(back), 1e-12)
	qu, err := ground.CBRFromPocketPenetrometer(2*cu, ground.Divisor30)
	require.NoError(t, err)
	require.InDelta(t, thirty, qu, 1e-12, "qu is twice cu")
	var outside *calculation.RangeError
	_, err = ground.CBRFromPocketPenetrometer(quantity.Kilopascals(430), ground.Divisor30)
	require.ErrorAs(t, err, &outside, "4.5 tsf is off the scale")
}

func TestConsistencyBands(t *testing.T) {
	order := []ground.Consistency{ground.VerySoft, ground.Soft, ground.Medium, ground.Stiff, ground.VeryStiff, ground.Hard}
	// CBR at cu = 30 CBR, computed for the reference.
	low := []float64{0, 0.4, 0.8, 1.6, 3.2, 6.4}
	for i, c := range order {
		got, err := ground.CBRLowFromConsistency(c, ground.Divisor30)
		if c == ground.VerySoft {
			var none *ground.NoEntryError
			require.ErrorAs(t, err, &none)
			continue
		}
		require.NoError(t, err)
		require.InDelta(t, low[i], got, 0.05, "%s", c)
		high, err := ground.CBRHighFromConsistency(order[i-1], ground.Divisor30)
		require.NoError(t, err)
		require.Equal(t, got, high, "one band ends where the next begins")
		qu, err := ground.UnconfinedStrengthLow(c)
		require.NoError(t, err)
		band, err := ground.ConsistencyFromUnconfinedStrength(qu)
		require.NoError(t, err)
		require.Equal(t, c, band, "an edge belongs to the firmer band")
		band, err = ground.ConsistencyFromUnconfinedStrength(qu - 1)
		require.NoError(t, err)
		require.Equal(t, order[i-1], band)
	}
	_, err := ground.CBRHighFromConsistency(ground.Hard, ground.Divisor30)
	var none *ground.NoEntryError
	require.ErrorAs(t, err, &none)
	psf, err := quantity.ParseAs(quantity.DimPressure, "2000 psf")
	require.NoError(t, err)
	band, err := ground.ConsistencyFromUnconfinedStrength(quantity.Pressure(psf.SI))
	require.NoError(t, err)
	require.Equal(t, ground.Stiff, band, "an edge is an edge in any unit")
}

func TestCBRFromClass(t *testing.T) {
	for _, c := range []struct {
		name, why string
		group     ground.Group
		table     ground.CBRTable
		low, high float64
	}{
		{"gravel", "an entry as it stands", ground.GW, ground.TableTM3357, 40, 80},
		{"dual gravel", "the lower of the parts at either end", ground.GWGM, ground.TableTM3357, 20, 30},
		{"silty, clayey sand", "NAVFAC has the entry", ground.SCSM, ground.TableNAVFAC, 5, 30},
		{"silty, clayey sand by parts", "TM 3-357 has not", ground.SCSM, ground.TableTM3357, 5, 20},
		{"clay", "NHI gives a low end", ground.CH, ground.TableNHI, 1, 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			low, err := ground.CBRLowFromClass(c.group, c.table)
			require.NoError(t, err)
			high, err := ground.CBRHighFromClass(c.group, c.table)
			require.NoError(t, err)
			require.Equal(t, []float64{c.low, c.high}, []float64{low, high}, c.why)
		})
	}
	var none *ground.NoEntryError
	_, err := ground.CBRLowFromClass(ground.CL, ground.TableTM3357)
	require.ErrorAs(t, err, &none, "15 or less is no low end")
	_, err = ground.CBRHighFromClass(ground.PT, ground.TableNHI)
	require.ErrorAs(t, err, &none)
	for _, table := range []ground.CBRTable{ground.TableTM3357, ground.TableNAVFAC, ground.TableNHI} {
		for _, g := range ground.Groups() {
			if low, err := ground.CBRLowFromClass(g, table); err == nil {
				high, err := ground.CBRHighFromClass(g, table)
				require.NoError(t, err)
				require.Less(t, low, high, "%s %s", table, g)
			}
		}
	}
}

func TestReadingAtPercentile(t *testing.T) {
	for _, c := range []struct {
		name, why string
		readings  []float64
		percent   float64
		want      float64
	}{
		{"one", "a single reading is itself", []float64{6}, 87.5, 6},
		{"two", "on the line between 100 % and 50 %", []float64{8, 4}, 75, 6},
		{"all alike", "itself", []float64{5, 5, 5}, 60, 5},
		{"past the greatest", "never extrapolated", []float64{3, 8, 8}, 10, 8},
		{"every test", "the least", []float64{3, 8, 9}, 100, 3},
		{"reference", "3 + (90.9 - 75)/(90.9 - 72.7), by hand", []float64{7, 5, 7, 2, 8, 6, 5, 3, 4, 3, 6}, 75, 3.875},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.ReadingAtPercentile(c.readings, c.percent)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, 1e-12, c.why)
		})
	}
	_, err := ground.ReadingAtPercentile(nil, 75)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
}

func TestDesignCBRProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	for range 2000 {
		readings := make([]float64, 1+r.IntN(12))
		for i := range readings {
			readings[i] = float64(1 + r.IntN(15))
		}
		light, err := ground.DesignCBR(readings, 5e3)
		require.NoError(t, err)
		heavy, err := ground.DesignCBR(readings, 5e6)
		require.NoError(t, err)
		require.LessOrEqual(t, heavy, light, "more traffic asks for more of the readings")
		require.GreaterOrEqual(t, heavy, slices.Min(readings))
		require.LessOrEqual(t, light, slices.Max(readings))
		before := slices.Clone(readings)
		r.Shuffle(len(readings), func(i, j int) { readings[i], readings[j] = readings[j], readings[i] })
		again, err := ground.DesignCBR(readings, 5e6)
		require.NoError(t, err)
		require.Equal(t, heavy, again, "order does not count: %v %v", before, readings)
	}
	for esals, want := range map[float64]float64{0: 60, 1e4: 60, 10001: 75, 999999: 75, 1e6: 87.5} {
		got, err := ground.DesignPercentile(esals)
		require.NoError(t, err)
		require.Equal(t, want, got, "%g", esals)
	}
}

func TestResilientModulus(t *testing.T) {
	psi := func(cbr float64, by ground.ModulusCorrelation) float64 {
		mr, err := ground.ResilientModulus(cbr, by)
		require.NoError(t, err)
		back, err := ground.CBRFromModulus(mr, by)
		require.NoError(t, err)
		require.InEpsilon(t, cbr, back, 1e-9, "back again")
		return mr.PSI()
	}
	// Computed for the reference.
	for cbr, want := range map[float64]float64{1: 2555, 3: 5161, 5: 7157, 7: 8877, 10: 11153, 80: 42205} {
		require.InDelta(t, want, psi(cbr, ground.Modulus2555), 0.6, "CBR %g", cbr)
	}
	for _, cbr := range []float64{0.5, 3, 10} {
		require.InDelta(t, 1500*cbr, psi(cbr, ground.Modulus1500), 1e-6)
	}
	require.InEpsilon(t, psi(5, ground.Modulus2555), psi(5, ground.ModulusLR1132), 0.001, "the two powers agree within 0.1 %")
	require.InEpsilon(t, psi(4.39, ground.Modulus2555), psi(4.39, ground.Modulus1500), 0.001, "they cross at 4.39")
	var outside *calculation.RangeError
	for by, cbrs := range map[ground.ModulusCorrelation][]float64{
		ground.Modulus1500: {0, 10.01, -1, math.NaN()}, ground.Modulus2555: {0.99, 100.1, math.Inf(1)}, ground.ModulusLR1132: {1.9, 12.1},
	} {
		for _, cbr := range cbrs {
			_, err := ground.ResilientModulus(cbr, by)
			require.ErrorAs(t, err, &outside, "%s at %g", by, cbr)
		}
	}
	_, err := ground.ModulusFromRValue(21, ground.RValueAASHTO)
	require.ErrorAs(t, err, &outside)
	mr, err := ground.ModulusFromRValue(20, ground.RValueAASHTO)
	require.NoError(t, err)
	require.InDelta(t, 12100, mr.PSI(), 1e-6)
}

func TestDefaultModulus(t *testing.T) {
	for _, g := range ground.Groups() {
		organic, err := ground.IsOrganic(g)
		require.NoError(t, err)
		low, err := ground.DefaultModulusLow(g)
		if organic {
			var none *ground.NoEntryError
			require.ErrorAs(t, err, &none, "%s", g)
			continue
		}
		require.NoError(t, err, "%s", g)
		typical, err := ground.DefaultModulusTypical(g)
		require.NoError(t, err)
		require.Less(t, low, typical, "%s", g)
	}
	low, err := ground.DefaultModulusLow(ground.CLML)
	require.NoError(t, err)
	require.InDelta(t, 13500, low.PSI(), 1e-6, "CL is the lower part of CL-ML")
}

func TestEffectiveRoadbedModulus(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for range 2000 {
		seasons := make([]quantity.Pressure, 1+r.IntN(12))
		for i := range seasons {
			seasons[i] = quantity.PSI(1000 + 30000*r.Float64())
		}
		got, err := ground.EffectiveRoadbedModulusOf(seasons)
		require.NoError(t, err)
		require.GreaterOrEqual(t, float64(got), float64(slices.Min(seasons))*(1-1e-12))
		require.LessOrEqual(t, float64(got), float64(slices.Max(seasons))*(1+1e-12))
		uf, err := ground.RoadbedDamage(seasons[0])
		require.NoError(t, err)
		back, err := ground.ModulusFromDamage(uf)
		require.NoError(t, err)
		require.InEpsilon(t, float64(seasons[0]), float64(back), 1e-12)
	}
	// Computed for the reference from the formula.
	year, err := ground.EffectiveRoadbedModulus(quantity.PSI(1000), []float64{20, 20, 2.5, 4, 4, 7, 7, 7, 7, 7, 4, 20})
	require.NoError(t, err)
	require.InDelta(t, 4923, year.PSI(), 1)
	for _, end := range []float64{100, 1e6} {
		uf, err := ground.RoadbedDamage(quantity.PSI(end))
		require.NoError(t, err)
		_, err = ground.ModulusFromDamage(uf)
		require.NoError(t, err, "the ends come back")
	}
}

func TestIndexCorrelations(t *testing.T) {
	got, err := ground.CBRFromPlasticity(60, 15)
	require.NoError(t, err)
	require.InDelta(t, 75/(1+0.728*0.6*15), got, 1e-12)
	for _, mm := range []float64{0.01, 30} {
		_, err = ground.CBRFromGrainSize(quantity.Millimeters(mm))
		require.NoError(t, err, "the edge is inside")
	}
	_, err = ground.CBRFromGrainSize(quantity.Millimeters(30.01))
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
}

func ExampleDesignCBR() {
	readings := []float64{7, 5, 7, 2, 8, 6, 5, 3, 4, 3, 6}
	cbr, _ := ground.DesignCBR(readings, 987_041)
	fmt.Printf("%.3f\n", cbr)
	// Output: 3.875
}
