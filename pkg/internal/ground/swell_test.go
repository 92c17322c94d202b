package ground_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
)

func TestPotentialSwell(t *testing.T) {
	for _, c := range []struct {
		name, why string
		ll, pi    float64
		set       ground.SwellSet
		want      ground.SwellClass
	}{
		{"snethen low", "both low", 49, 24, ground.SwellBySnethen, ground.SwellLow},
		{"snethen edge", "50 and 25 are marginal", 50, 25, ground.SwellBySnethen, ground.SwellMarginal},
		{"snethen upper edge", "60 and 35 are marginal still", 60, 35, ground.SwellBySnethen, ground.SwellMarginal},
		{"snethen disagree", "the higher of the two", 61, 20, ground.SwellBySnethen, ground.SwellHigh},
		{"snethen disagree by pi", "the higher of the two", 45, 36, ground.SwellBySnethen, ground.SwellHigh},
		{"chen overlap", "12 is low and medium: the higher", 60, 12, ground.SwellByChen, ground.SwellMedium},
		{"chen edge", "20 is on two bands: the higher", 60, 20, ground.SwellByChen, ground.SwellHigh},
		{"chen low", "under 10", 60, 9, ground.SwellByChen, ground.SwellLow},
		{"chen overlap high", "35 is medium and high: the higher", 60, 35, ground.SwellByChen, ground.SwellHigh},
		{"chen very high", "over 35", 60, 36, ground.SwellByChen, ground.SwellVeryHigh},
		{"usbr overlap", "16 is low and medium: the higher", 60, 16, ground.SwellByUSBR, ground.SwellMedium},
		{"usbr overlap high", "26 is medium and high: the higher", 60, 26, ground.SwellByUSBR, ground.SwellHigh},
		{"usbr closed edge", "28 is on two bands: the higher", 60, 28, ground.SwellByUSBRClosed, ground.SwellHigh},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.PotentialSwell(c.ll, c.pi, c.set)
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
	_, err := ground.PotentialSwell(30, 31, ground.SwellByChen)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside, "a plasticity index over the liquid limit")
}

func TestSwellRises(t *testing.T) {
	var order []ground.SwellClass
	for _, w := range ground.SwellLow.Vocabulary().Words {
		order = append(order, ground.SwellClass(w.Label))
	}
	for _, w := range ground.SwellByChen.Vocabulary().Words {
		last := 0
		for pi := 0.0; pi <= 90; pi += 0.5 {
			got, err := ground.PotentialSwell(90, pi, ground.SwellSet(w.Label))
			require.NoError(t, err)
			rank := slices.Index(order, got)
			require.GreaterOrEqual(t, rank, last, "%s at %g", w.Label, pi)
			last = rank
		}
	}
	last := len(order)
	for sl := 1.0; sl < 30; sl += 0.5 {
		got, err := ground.SwellFromShrinkageLimit(sl)
		require.NoError(t, err)
		rank := slices.Index(order, got)
		require.LessOrEqual(t, rank, last, "a soil of high shrinkage limit swells less")
		last = rank
	}
	for ei, want := range map[float64]ground.SwellClass{0: ground.SwellVeryLow, 20: ground.SwellVeryLow, 20.5: ground.SwellLow, 50: ground.SwellLow,
		51: ground.SwellMedium, 90: ground.SwellMedium, 91: ground.SwellHigh, 130: ground.SwellHigh, 131: ground.SwellVeryHigh} {
		got, err := ground.SwellFromExpansionIndex(ei)
		require.NoError(t, err)
		require.Equal(t, want, got, "%g", ei)
	}
}

func TestExpansive(t *testing.T) {
	for _, c := range []struct {
		name            string
		pi, p200, finer float64
		want            bool
	}{
		{"all three", 15, 11, 10.5, true}, {"low plasticity", 14, 50, 30, false}, {"few fines", 20, 10, 9, false}, {"little clay", 20, 50, 10, false},
	} {
		got, err := ground.ExpansiveByLimits(c.pi, c.p200, c.finer)
		require.NoError(t, err)
		require.Equal(t, c.want, got, c.name)
	}
	_, err := ground.ExpansiveByLimits(20, 10, 30)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside, "more clay than fines")
	for ei, want := range map[float64]bool{20: false, 20.1: true} {
		got, err := ground.ExpansiveByIndex(ei)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}

func TestEarthVolume(t *testing.T) {
	states := []ground.EarthState{ground.InBank, ground.Loose, ground.Compacted}
	for _, w := range ground.EarthSand.Vocabulary().Words {
		earth := ground.Earth(w.Label)
		for _, from := range states {
			for _, to := range states {
				there, err := ground.EarthVolume(100, from, to, earth)
				require.NoError(t, err)
				back, err := ground.EarthVolume(there, to, from, earth)
				require.NoError(t, err)
				require.InEpsilon(t, 100, float64(back), 1e-12, "there and back")
			}
		}
	}
	// Inverses computed for the reference.
	for _, c := range []struct {
		earth    ground.Earth
		from, to ground.EarthState
		want     float64
	}{
		{ground.EarthSand, ground.Loose, ground.Compacted, .86}, {ground.EarthSand, ground.Compacted, ground.Loose, 1.17},
		{ground.EarthLoam, ground.Loose, ground.InBank, .80}, {ground.EarthLoam, ground.Compacted, ground.Loose, 1.39},
		{ground.EarthClay, ground.Compacted, ground.InBank, 1.11}, {ground.EarthClay, ground.Compacted, ground.Loose, 1.59},
		{ground.EarthRock, ground.Compacted, ground.InBank, .77}, {ground.EarthRock, ground.Compacted, ground.Loose, 1.15},
	} {
		got, err := ground.EarthVolume(1, c.from, c.to, c.earth)
		require.NoError(t, err)
		require.InDelta(t, c.want, float64(got), 0.005, "%s %s to %s", c.earth, c.from, c.to)
	}
	_, err := ground.SwellPercent(quantity.PCF(90), quantity.PCF(100))
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside, "loose earth is not the heavier")
}
