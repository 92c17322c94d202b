package sieve_test

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
)

// The openings that GNU units lists are an oracle of its own.
func TestOpeningsAgainstGNUUnits(t *testing.T) {
	file, err := os.Open("../../../testdata/units/sieves.tsv")
	require.NoError(t, err)
	defer file.Close()
	checked := 0
	for lines := bufio.NewScanner(file); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		number, opening, ok := strings.Cut(lines.Text(), "\t")
		require.True(t, ok, lines.Text())
		want, err := strconv.ParseFloat(opening, 64)
		require.NoError(t, err)
		got, err := sieve.Opening("No. " + number)
		require.NoError(t, err)
		require.InEpsilon(t, want, got.Millimeters(), 1e-12, "No. %s", number)
		checked++
	}
	require.GreaterOrEqual(t, checked, 20)
}

// The inch sieves beside those of the published rows: each opening is near the
// inches that name it, as each is in ASTM E11 to within 2 %.
func TestInchSievesOpenNearlySo(t *testing.T) {
	for name, inches := range map[string]float64{
		"4 in": 4, "3-1/2 in": 3.5, "3 in": 3, "2-1/2 in": 2.5, "2 in": 2, "1-3/4 in": 1.75, "1-1/2 in": 1.5, "1-1/4 in": 1.25, "1 in": 1,
		"7/8 in": 0.875, "3/4 in": 0.75, "5/8 in": 0.625, "1/2 in": 0.5, "7/16 in": 0.4375, "3/8 in": 0.375, "5/16 in": 0.3125, "1/4 in": 0.25,
	} {
		t.Run(name, func(t *testing.T) {
			got, err := sieve.Opening(name)
			require.NoError(t, err)
			require.InEpsilon(t, inches, got.Inches(), 0.02)
			isPreferred(t, got)
		})
	}
	for _, number := range strings.Fields("4 5 6 7 8 10 12 14 16 18 20 25 30 35 40 45 50 60 70 80 100 120 140 170 200 230 270 325 400") {
		t.Run("No. "+number, func(t *testing.T) {
			got, err := sieve.Opening("No. " + number)
			require.NoError(t, err)
			isPreferred(t, got)
		})
	}
}

// isPreferred holds that an opening is one of the preferred numbers of which the
// sieves of ASTM E11 are made (from memory), forty to the tenfold, each some 6 %
// above the one before: none of them is rounded by more than 1.4 %.
func isPreferred(t *testing.T, opening quantity.Length) {
	t.Helper()
	step := math.Round(40 * math.Log10(opening.Millimeters()))
	require.InEpsilon(t, math.Pow(10, step/40), opening.Millimeters(), 0.014)
}

// A size turned from meters is the number that was written, to nine decimals of a
// millimeter.
func TestMillimetersAreThoseWritten(t *testing.T) {
	for _, c := range []struct {
		name, why string
		m, want   float64
	}{
		{"a sieve", "9.5 mm in meters and back", 0.0095, 9.5},
		{"nine decimals", "the last that counts", 0.000100001e-3, 0.000100001},
		{"a tenth decimal", "is rounded away", 0.0001000014e-3, 0.000100001},
		{"rounded up", "to the nearest", 0.0001000016e-3, 0.000100002},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, sieve.Millimeters(quantity.Meters(c.m)), c.why) })
	}
}

func TestNames(t *testing.T) {
	for _, c := range []struct {
		name, why string
		mm        float64
		want      string
	}{
		{"an inch sieve", "named by its fraction", 37.5, "1-1/2 in"},
		{"a number sieve", "named by its number", 0.075, "No. 200"},
		{"an inch", "is not the 1 in sieve", 25.4, "25.4 mm"},
		{"a metric sieve", "is of another series", 0.63, "0.63 mm"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, sieve.Name(quantity.Millimeters(c.mm)), c.why)
			opening, err := sieve.Opening(c.want)
			require.NoError(t, err)
			require.Equal(t, quantity.Millimeters(c.mm), opening, c.why)
		})
	}
}

func TestOpeningReads(t *testing.T) {
	for _, c := range []struct {
		text, why string
		mm        float64
	}{
		{"1 1/2 in", "a blank for the hyphen", 37.5}, {`1.5"`, "decimals and an inch mark", 37.5}, {"3/8 inch", "the unit in full", 9.5},
		{"#200", "a number mark", 0.075}, {"no 4", "no point", 4.75}, {"75 um", "as the fine sieves are named", 0.075}, {"75µm", "the sign for micro", 0.075}, {"75 μm", "the Greek letter that looks the same", 0.075},
		{"3000 mm", "the coarsest", 3000}, {"0.0001 mm", "the finest", 0.0001},
	} {
		t.Run(c.text, func(t *testing.T) {
			got, err := sieve.Opening(c.text)
			require.NoError(t, err)
			require.Equal(t, quantity.Millimeters(c.mm), got, c.why)
		})
	}
}

func TestOpeningRefuses(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"no unit", "a bare number may be mm or inches", "4.75", `not a sieve: "4.75": wanted a name such as 3/8 in or No. 8, or a size such as 9.5 mm`},
		{"no such number", "the series has no such sieve", "No. 9", `not a sieve: "No. 9": the table of US sieves has no such name; give its opening in mm`},
		{"no such inch size", "the series has no such sieve", "1.3 in", `not a sieve: "1.3 in": the table of US sieves has no such name; give its opening in mm`},
		{"a fraction of nothing", "it has no value", "1/0 in", `not a sieve: "1/0 in": "1/0" divides by zero`},
		{"just too fine", "finer than hydrometers tell", "0.00009 mm", `not a sieve: "0.00009 mm": opening is 0.00009 mm; it must be 0.0001 to 3,000 mm (limit of this library)`},
		{"no opening", "nothing passes", "0 mm", `not a sieve: "0 mm": opening is 0 mm; it must be 0.0001 to 3,000 mm (limit of this library)`},
		{"too wide", "a unit was mistaken", "3001 mm", `not a sieve: "3001 mm": opening is 3,001 mm; it must be 0.0001 to 3,000 mm (limit of this library)`},
		{"a word", "digits are wanted", "x mm", `not a sieve: "x mm": "x" is not a plain number`},
		{"half a fraction", "digits are wanted", "1/ in", `not a sieve: "1/ in": "" is not a plain number`},
		{"two points", "no number has them", "1.2.3 mm", `not a sieve: "1.2.3 mm": "1.2.3" is not a plain number`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := sieve.Opening(c.text)
			require.EqualError(t, err, c.want, c.why)
			require.ErrorIs(t, err, sieve.ErrUnknown)
			require.Zero(t, got)
		})
	}
}
