package ground_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

// The curves as computed for the reference, to their print.
func TestDCPTable(t *testing.T) {
	const none = -1
	for _, c := range []struct {
		name, why            string
		dpi, general, cl, ch float64
	}{
		{"5 mm", "as hard as it is usually driven", 5, 48.1, none, 69.7},
		{"10 mm", "above CBR 10, where lean clay has no curve of its own", 10, 22.1, none, 34.8},
		{"15 mm", "the same, nearer to the step", 15, 14.1, none, 23.2},
		{"20 mm", "past the step of lean clay at 18.6 mm", 20, 10.2, 8.63, 17.4},
		{"25 mm", "the three curves apart", 25, 7.94, 5.52, 13.9},
		{"30 mm", "the three curves apart", 30, 6.47, 3.84, 11.6},
		{"40 mm", "soft ground", 40, 4.69, 2.16, 8.71},
		{"50 mm", "soft ground", 50, 3.65, 1.38, 6.97},
		{"60 mm", "lean clay near the end of the table", 60, 2.98, 0.96, 5.81},
		{"100 mm", "lean clay is past the end of the table", 100, 1.68, none, 3.48},
	} {
		t.Run(c.name, func(t *testing.T) {
			for curve, want := range map[ground.DCPCurve]float64{ground.DCPGeneral: c.general, ground.DCPCL: c.cl, ground.DCPCH: c.ch} {
				if want == none {
					continue
				}
				got, err := ground.CBRFromDCP(quantity.Millimeters(c.dpi), curve, ground.Hammer8kg)
				require.NoError(t, err)
				require.InEpsilon(t, want, got, 0.006, "%s: %s", curve, c.why)
			}
		})
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
		lowered := slices.Clone(readings)
		lowered[r.IntN(len(lowered))] *= r.Float64()*0.9 + 0.1
		lower, err := ground.DesignCBR(lowered, 5e5)
		require.NoError(t, err)
		middle, err := ground.DesignCBR(readings, 5e5)
		require.NoError(t, err)
		require.LessOrEqual(t, lower, middle, "a reading that falls never raises the value: %v %v", readings, lowered)
		before := slices.Clone(readings)
		r.Shuffle(len(readings), func(i, j int) { readings[i], readings[j] = readings[j], readings[i] })
		again, err := ground.DesignCBR(readings, 5e6)
		require.NoError(t, err)
		require.Equal(t, heavy, again, "order does not count: %v %v", before, readings)
	}
}

func TestDesignPercentile(t *testing.T) {
	for _, c := range []struct {
		name, why   string
		esals, want float64
	}{
		{"no traffic", "counts as light", 0, 60},
		{"10,000", "is light still", 1e4, 60},
		{"over 10,000", "is medium", 10001, 75},
		{"under 1,000,000", "is medium", 999999, 75},
		{"1,000,000", "is heavy", 1e6, 87.5},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.DesignPercentile(c.esals)
			require.NoError(t, err)
			require.Equal(t, pct(c.want), got, c.why)
		})
	}
}

func ExampleDesignCBR() {
	readings := []float64{7, 5, 7, 2, 8, 6, 5, 3, 4, 3, 6}
	cbr, _ := ground.DesignCBR(readings, 987_041)
	fmt.Printf("%.3f\n", cbr)
	// Output: 3.750
}

func TestStrengthDivisors(t *testing.T) {
	cu := quantity.Kilopascals(90)
	thirty, err := ground.CBRFromUndrainedStrength(cu, ground.Divisor30)
	require.NoError(t, err)
	require.InDelta(t, 3.0, thirty, 1e-12)
	black, err := ground.CBRFromUndrainedStrength(cu, ground.Divisor23)
	require.NoError(t, err)
	require.InDelta(t, 3.9, black, 0.05)
	qu, err := ground.CBRFromPocketPenetrometer(2*cu, ground.Divisor30)
	require.NoError(t, err)
	require.InDelta(t, thirty, qu, 1e-12, "qu is twice cu")
	_, err = ground.CBRFromPocketPenetrometer(quantity.Kilopascals(430), ground.Divisor30)
	require.EqualError(t, err, "unconfined strength is 430 kPa; it must be above 0 and at most 383 kPa (TM 5-818-1 Table 2-2, unconfined strength up to 4 tsf)", "4.5 tsf is off the scale")
}

func TestConsistencyBands(t *testing.T) {
	order := []ground.Consistency{ground.VerySoft, ground.Soft, ground.Medium, ground.Stiff, ground.VeryStiff, ground.Hard}
	// CBR at cu = 30 CBR, computed for the reference.
	low := []float64{0, 0.4, 0.8, 1.6, 3.2, 6.4}
	for i, c := range order[1:] {
		got, err := ground.CBRLowFromConsistency(c, ground.Divisor30)
		require.NoError(t, err)
		require.InDelta(t, low[i+1], got, 0.05, "%s", c)
		high, err := ground.CBRHighFromConsistency(order[i], ground.Divisor30)
		require.NoError(t, err)
		require.Equal(t, got, high, "one band ends where the next begins")
	}
	_, err := ground.CBRLowFromConsistency(ground.VerySoft, ground.Divisor30)
	require.EqualError(t, err, `consistency is "very soft"; it must be soft, medium, stiff, very stiff or hard (TM 5-818-1 Table 2-2; very soft clay starts at nothing: undercut or stabilize it)`)
	_, err = ground.CBRHighFromConsistency(ground.Hard, ground.Divisor30)
	require.EqualError(t, err, `consistency is "hard"; it must be very soft, soft, medium, stiff or very stiff (TM 5-818-1 Table 2-2; the band of hard clay has no end)`)
}

// The values are those of the reference, computed from the bands in SI.
func TestMiddleOfConsistency(t *testing.T) {
	for _, c := range []struct {
		name, why   string
		consistency ground.Consistency
		divisor     ground.StrengthDivisor
		want        float64
	}{
		{"very soft", "6.25/30", ground.VerySoft, ground.DivisorByStiffness, 0.2},
		{"soft", "18.75/30", ground.Soft, ground.DivisorByStiffness, 0.6},
		{"medium", "37.5/30", ground.Medium, ground.DivisorByStiffness, 1.25},
		{"stiff", "75/23", ground.Stiff, ground.DivisorByStiffness, 3.3},
		{"stiff by 30", "75/30", ground.Stiff, ground.Divisor30, 2.5},
		{"medium by 23", "37.5/23", ground.Medium, ground.Divisor23, 1.6},
		{"very stiff", "150/23", ground.VeryStiff, ground.DivisorByStiffness, 6.5},
		{"hard", "has no middle, so 191.5/23", ground.Hard, ground.DivisorByStiffness, 8.3},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.CBRFromConsistency(c.consistency, c.divisor)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, 0.05, c.why)
		})
	}
	_, err := ground.CBRFromConsistency("firm", ground.Divisor30)
	require.ErrorContains(t, err, `consistency is "firm"`)
}

// A strength a hair greater is never worth less, nor worth much more.
func TestDivisorByStiffnessHasNoStep(t *testing.T) {
	last := 0.0
	for kpa := 1.0; kpa <= 191; kpa += 0.5 {
		got, err := ground.CBRFromUndrainedStrength(quantity.Kilopascals(kpa), ground.DivisorByStiffness)
		require.NoError(t, err)
		require.Greater(t, got, last, "%g kPa", kpa)
		require.Less(t, got-last, 0.05, "%g kPa", kpa)
		last = got
	}
}

func TestConsistencyFromBlowCount(t *testing.T) {
	for _, c := range []struct {
		name, why string
		blows     float64
		want      ground.Consistency
	}{
		{"1", "under 2 is very soft", 1, ground.VerySoft},
		{"2", "soft begins at 2 itself", 2, ground.Soft},
		{"4", "an edge belongs to the softer band", 4, ground.Soft},
		{"4.5", "just over an edge", 4.5, ground.Medium},
		{"8", "an edge belongs to the softer band", 8, ground.Medium},
		{"15", "an edge belongs to the softer band", 15, ground.Stiff},
		{"30", "an edge belongs to the softer band", 30, ground.VeryStiff},
		{"31", "the last band is open", 31, ground.Hard},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.ConsistencyFromBlowCount(c.blows)
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestCBRFromClass(t *testing.T) {
	for _, c := range []struct {
		name, why string
		group     ground.Group
		table     ground.CBRTable
		want      float64
	}{
		{"gravel", "an entry as it stands", ground.GW, ground.TableTM3357, 40},
		{"dual gravel", "the lower of the parts", ground.GWGM, ground.TableTM3357, 20},
		{"silty, clayey sand", "NAVFAC has the entry", ground.SCSM, ground.TableNAVFAC, 5},
		{"silty, clayey sand by parts", "TM 3-357 has not", ground.SCSM, ground.TableTM3357, 5},
		{"clay", "NHI has a low end", ground.CH, ground.TableNHI, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			low, err := ground.CBRLowFromClass(c.group, c.table)
			require.NoError(t, err)
			require.Equal(t, c.want, low, c.why)
		})
	}
	var none *calculation.WordError
	_, err := ground.CBRLowFromClass(ground.CL, ground.TableTM3357)
	require.ErrorAs(t, err, &none, "15 or less is no low end")
	require.NotContains(t, none.Want, "CL")
	require.Contains(t, none.Want, "GW-GM", "a dual group by its parts")
	_, err = ground.CBRLowFromClass(ground.PT, ground.TableNHI)
	require.ErrorAs(t, err, &none)
	_, err = ground.CBRLowFromClass("XX", ground.TableNHI)
	require.ErrorContains(t, err, "(the words of uscs)", "what is no group is not told to be tested")
}

// The tables as they are written in the notes of the project, to
// catch a slip of copying: group and low end.
func TestCBRTablesAsWritten(t *testing.T) {
	for table, text := range map[ground.CBRTable]string{
		ground.TableTM3357: "GW 40; GP 30; GM 20; GC 20; SW 20; SP 10; SM 10; SC 5; ML none; CL none; OL none; MH none; CH none; OH none",
		ground.TableNAVFAC: "GW 40; GP 30; GM 20; GC 20; SW 20; SP 10; SM 10; SM-SC 5; SC 5; ML none; CL none; OL none; MH none; CH none; OH none",
		ground.TableNHI:    "GW 60; GP 35; GM 40; GC 20; SW 20; SP 15; SM 20; SC 10; ML 5; CL 5; OL 4; MH 4; CH 3; OH 3",
	} {
		for _, entry := range strings.Split(text, "; ") {
			symbol, want, _ := strings.Cut(entry, " ")
			g, err := ground.ParseGroup(symbol)
			require.NoError(t, err)
			got := "none"
			if low, err := ground.CBRLowFromClass(g, table); err == nil {
				got = fmt.Sprint(low)
			}
			require.Equal(t, want, got, "%s %s", table, symbol)
		}
	}
}

func TestDesignCBR(t *testing.T) {
	for _, c := range []struct {
		name, why string
		readings  []float64
		esals     float64
		want      float64
	}{
		{"one", "a single reading is itself", []float64{6}, 1e6, 6},
		{"two", "75 %: on the line between 100 % and 50 %", []float64{8, 4}, 5e5, 6},
		{"all alike", "itself", []float64{5, 5, 5}, 0, 5},
		{"past the greatest", "60 %, and both 8 are at 67 %: on the line from 100 %", []float64{3, 8, 8}, 0, 8},
		{"by hand", "75 % lies between the second 3, at 81.8 %, and the 4, at 72.7 %", []float64{7, 5, 7, 2, 8, 6, 5, 3, 4, 3, 6}, 987_041, 3.75},
		{"a tie that parts", "the 5 of 4, 4, 5 fell to 2.8; 75 % still reach 4, not 6", []float64{4, 20, 9, 20, 8, 2.8, 16, 4}, 5e5, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.DesignCBR(c.readings, c.esals)
			require.NoError(t, err)
			require.InDelta(t, c.want, got, 1e-12, c.why)
		})
	}
	_, err := ground.DesignCBR(nil, 75)
	require.EqualError(t, err, "number of readings is 0; it must be 1 to 10,000 (Asphalt Institute, design percentile by traffic)")
	_, err = ground.DesignCBR([]float64{3, 1e-9}, 75)
	require.ErrorContains(t, err, "reading is 1e-9", "softer than anything that stands")
}

func TestFewReadings(t *testing.T) {
	for _, c := range []struct {
		name, why string
		readings  []float64
		reached   float64
		firm      []float64
	}{
		{"one", "is reached by all there is, and nothing is softer than itself", []float64{6}, 6, []float64{6}},
		{"fewer than five", "the least, in whatever order", []float64{9, 0.3, 9}, 0.3, []float64{9, 9}},
		{"five", "the least again", []float64{9, 9, 0.3, 9, 9}, 0.3, []float64{9, 9, 9, 9}},
		{"six", "the fifth greatest", []float64{4, 5, 6, 7, 8, 9}, 5, []float64{4, 5, 6, 7, 8, 9}},
		{"two", "the lower is the middle one", []float64{9, 2}, 2, []float64{2, 9}},
		{"just half", "is firm", []float64{4.5, 9, 9}, 4.5, []float64{4.5, 9, 9}},
		{"under half", "is soft", []float64{4.4, 9, 9}, 4.4, []float64{9, 9}},
		{"nothing at all", "mud has a reading too", []float64{0, 4, 4}, 0, []float64{4, 4}},
	} {
		t.Run(c.name, func(t *testing.T) {
			reached, err := ground.ReachedBy(c.readings, 4.2)
			require.NoError(t, err)
			require.Equal(t, c.reached, reached, c.why)
			firm, err := ground.FirmReadings(c.readings, 0.5)
			require.NoError(t, err)
			require.Equal(t, c.firm, firm, c.why)
		})
	}
	_, err := ground.FirmReadings([]float64{4}, 1.1)
	require.EqualError(t, err, "ratio is 1.1; it must be 0 to 1 (a soft spot is below the middle reading)")
	_, err = ground.ReachedBy([]float64{4}, 0)
	require.EqualError(t, err, "count is 0; it must be 1 to 10,000 (Asphalt Institute, design percentile by traffic)")
}

func TestCBRsFromDCP(t *testing.T) {
	got, err := ground.CBRsFromDCP([]float64{20, 1}, ground.DCPGeneral, ground.Hammer8kg)
	require.NoError(t, err)
	require.InDeltaSlice(t, []float64{10.19, 100}, got, 0.005, "292/20^1.12, and no more than the table's end")
	_, err = ground.CBRsFromDCP([]float64{20, 400}, ground.DCPGeneral, ground.Hammer8kg)
	require.ErrorContains(t, err, "CBR from the penetrometer is 0.3", "softer than the table")
}

func TestResilientModulus(t *testing.T) {
	psi := func(cbr float64, by ground.ModulusCorrelation) float64 {
		mr, err := ground.ResilientModulus(cbr, by)
		require.NoError(t, err)
		return mr.PSI()
	}
	for _, c := range []struct {
		name, why string
		by        ground.ModulusCorrelation
		cbr, want float64
	}{
		{"power at 1", "the constant itself, computed for the reference", ground.Modulus2555, 1, 2555},
		{"power at 5", "computed for the reference", ground.Modulus2555, 5, 7157},
		{"power at 80", "far up the curve, computed for the reference", ground.Modulus2555, 80, 42205},
		{"line at 0.5", "1500 by hand", ground.Modulus1500, 0.5, 750},
		{"line at 10", "its end, 1500 by hand", ground.Modulus1500, 10, 15000},
	} {
		t.Run(c.name, func(t *testing.T) { require.InDelta(t, c.want, psi(c.cbr, c.by), 0.6, c.why) })
	}
	require.InEpsilon(t, psi(5, ground.Modulus2555), psi(5, ground.ModulusLR1132), 0.001, "the two powers agree within 0.1 %")
	require.InEpsilon(t, psi(4.39, ground.Modulus2555), psi(4.39, ground.Modulus1500), 0.001, "they cross at 4.39")
	require.InEpsilon(t, 15000, psi(10.000000000000010001, ground.Modulus1500), 1e-9, "what a rule takes for 10 is 10")
	for _, c := range []struct {
		name, why string
		by        ground.ModulusCorrelation
		cbr       float64
		want      string
	}{
		{"line at 0", "above 0", ground.Modulus1500, 0, "above 0 and at most 10"},
		{"line past 10", "it is for fine-grained soil", ground.Modulus1500, 10.01, "above 0 and at most 10"},
		{"power under 1", "its range", ground.Modulus2555, 0.99, "1 to 100"},
		{"power past 100", "its range", ground.Modulus2555, 100.1, "1 to 100"},
		{"metric power under 2", "its range", ground.ModulusLR1132, 1.9, "2 to 12"},
		{"metric power past 12", "its range", ground.ModulusLR1132, 12.1, "2 to 12"},
		{"not a number", "is in no range", ground.Modulus1500, math.NaN(), "cbr is NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ground.ResilientModulus(c.cbr, c.by)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
