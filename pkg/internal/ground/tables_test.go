package ground_test

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

// The tables as they are written in the notes of the project (from memory), to
// catch a slip of copying: group, low to high, typical in brackets.
var cbrTexts = map[ground.CBRTable]string{
	ground.TableTM3357: "GW 40-80; GP 30-60; GM 20-30; GC 20-40; SW 20-40; SP 10-40; SM 10-20; SC 5-20; ML <=15; CL <=15; OL <=5; MH <=10; CH <=15; OH <=5",
	ground.TableNAVFAC: "GW 40-80; GP 30-60; GM 20-60; GC 20-40; SW 20-40; SP 10-40; SM 10-40; SM-SC 5-30; SC 5-20; ML <=15; CL <=15; OL <=5; MH <=10; CH <=15; OH <=5",
	ground.TableNHI:    "GW 60-80; GP 35-60; GM 40-80; GC 20-40; SW 20-40; SP 15-30; SM 20-40; SC 10-20; ML 5-15; CL 5-15; OL <=5; MH 2-8; CH 1-5; OH 1-3",
}

func TestCBRTablesAsWritten(t *testing.T) {
	for table, text := range cbrTexts {
		for _, entry := range strings.Split(text, "; ") {
			symbol, band, _ := strings.Cut(entry, " ")
			g, err := ground.ParseGroup(symbol)
			require.NoError(t, err)
			high, err := ground.CBRHighFromClass(g, table)
			require.NoError(t, err)
			low, err := ground.CBRLowFromClass(g, table)
			got := fmt.Sprintf("%g-%g", low, high)
			if err != nil {
				var none *ground.NoEntryError
				require.ErrorAs(t, err, &none)
				got = fmt.Sprintf("<=%g", high)
			}
			require.Equal(t, band, got, "%s %s", table, symbol)
		}
	}
}

const (
	modulusText = "CH 5-13.5 (8); MH 8-17.5 (11.5); CL 13.5-24 (17); ML 17-25.5 (20); SW 28-37.5 (32); SP 24-33 (28); SW-SC 21.5-31 (25.5); SW-SM 24-33 (28); " +
		"SP-SC 21.5-31 (25.5); SP-SM 24-33 (28); SC 21.5-28 (24); SM 28-37.5 (32); GW 39.5-42 (41); GP 35.5-40 (38); GW-GC 28-40 (34.5); GW-GM 35.5-40.5 (38.5); " +
		"GP-GC 28-39 (34); GP-GM 31-40 (36); GC 24-37.5 (31); GM 33-42 (38.5)"
	modulusTextAASHTO = "A-1-a 38.5-42 (40); A-1-b 35.5-40 (38); A-2-4 28-37.5 (32); A-2-5 24-33 (28); A-2-6 21.5-31 (26); A-2-7 21.5-28 (24); " +
		"A-3 24.5-35.5 (29); A-4 21.5-29 (24); A-5 17-25.5 (20); A-6 13.5-24 (17); A-7-5 8-17.5 (12); A-7-6 5-13.5 (8)"
)

func TestDefaultModulusAsWritten(t *testing.T) {
	ksi := func(q quantity.Pressure, err error) float64 {
		require.NoError(t, err)
		return q.PSI() / 1000
	}
	check := func(text string, low, typical func(string) float64) {
		for _, entry := range strings.Split(text, "; ") {
			fields := strings.Fields(entry)
			lowText, _, _ := strings.Cut(fields[1], "-")
			for want, got := range map[string]float64{lowText: low(fields[0]), strings.Trim(fields[2], "()"): typical(fields[0])} {
				x, err := strconv.ParseFloat(want, 64)
				require.NoError(t, err)
				require.InDelta(t, x, got, 1e-9, entry)
			}
		}
	}
	check(modulusText,
		func(g string) float64 { return ksi(ground.DefaultModulusLow(ground.Group(g))) },
		func(g string) float64 { return ksi(ground.DefaultModulusTypical(ground.Group(g))) })
	check(modulusTextAASHTO,
		func(g string) float64 { return ksi(ground.DefaultModulusLowAASHTO(ground.AASHTOGroup(g))) },
		func(g string) float64 { return ksi(ground.DefaultModulusTypicalAASHTO(ground.AASHTOGroup(g))) })
	_, err := ground.DefaultModulusLowAASHTO(ground.A8)
	var none *ground.NoEntryError
	require.ErrorAs(t, err, &none)
}

// Values worked out by hand from formulas that no published row reaches.
func TestFormulasByHand(t *testing.T) {
	value := func(x float64, err error) float64 {
		require.NoError(t, err)
		return x
	}
	for _, c := range []struct {
		name      string
		want, got float64
	}{
		{"TRL curve at 10 mm, 10^(2.48 - 1.057)", 26.485, value(ground.CBRFromDCP(quantity.Millimeters(10), ground.DCPTRL, ground.Hammer8kg))},
		{"TRL curve at 100 mm, 10^(2.48 - 2.114)", 2.32274, value(ground.CBRFromDCP(quantity.Millimeters(100), ground.DCPTRL, ground.Hammer8kg))},
		{"damage at 10,000 psi, 1.18e8 / 10^9.28", 0.061929, value(ground.RoadbedDamage(quantity.PSI(10_000)))},
		{"damage at 2,500 psi, as recomputed in the notes", 1.544, value(ground.RoadbedDamage(quantity.PSI(2500)))},
		{"FG-1", 9, value(ground.FAAReducedCBR(ground.FG1))},
		{"FG-2", 7, value(ground.FAAReducedCBR(ground.FG2))},
		{"FG-3", 4, value(ground.FAAReducedCBR(ground.FG3))},
		{"Asphalt Institute R 10, 1155 + 5550", 6705, func() float64 {
			mr, err := ground.ModulusFromRValue(10, ground.RValueAsphalt)
			require.NoError(t, err)
			return mr.PSI()
		}()},
		{"65 % of 40 in", 26, func() float64 {
			cover, err := ground.FAALimitedPenetrationCover(quantity.Inches(40))
			require.NoError(t, err)
			return cover.Inches()
		}()},
		{"D60 of 1 mm", 28.09, value(ground.CBRFromGrainSize(quantity.Millimeters(1)))},
		{"D60 of 10 mm, 28.09 x 10^0.358", 64.057, value(ground.CBRFromGrainSize(quantity.Millimeters(10)))},
		{"half of 5 % fines", 2.5, value(ground.FinerThanPointZeroTwo(5))},
	} {
		if math.Abs(c.got/c.want-1) > 3e-4 {
			t.Errorf("%s: want %g, got %g", c.name, c.want, c.got)
		}
	}
}
