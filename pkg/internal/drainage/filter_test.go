package drainage_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// Ratios computed once from the envelopes (no publication): D15F/D85B mid and
// worst, D50F/D50B mid and worst, D15F/D15B mid, and the verdicts of the limits
// 5 and 25.
func TestLayerPairs(t *testing.T) {
	for _, c := range []struct {
		name, filter, protected        string
		want                           [5]float64
		near                           [5]float64
		holdsOnMids, holdsOnWorstEdges bool
	}{
		{"No. 57 under No. 8", no57, no8, [5]float64{0.70, 1.04, 2.17, 2.77, 1.63}, two, true, true},
		{"No. 2 under No. 57", no2, no57, [5]float64{1.84, 2.20, 3.58, 5.17, 6.40}, two, true, true},
		{"No. 3 under No. 57", no3, no57, [5]float64{1.25, 1.54, 2.67, 3.94, 4.35}, two, true, true},
		{"No. 2 under No. 8: why a choke course of No. 57 is laid", no2, no8, [5]float64{4.45, 5.18, 7.78, 9.20, 10.46}, two, true, false},
		{"No. 57 under No. 9", no57, no9, [5]float64{1.40, 2.13, 4.49, 6.04, 3.68}, two, true, true},
		{"No. 57 under No. 89", no57, no89, [5]float64{0.73, 1.13, 2.49, 3.88, 2.99}, two, true, true},
		{"No. 57 under bedding sand: the sand needs a fabric or a choke course", no57, c33, [5]float64{3.04, 7.19, 18.7, 33.6, 23.5}, [5]float64{two[0], two[0], one, one, one}, true, false},
		{"No. 8 under bedding sand", no8, c33, [5]float64{1.86, 4.22, 8.61, 14.4, 14.4}, [5]float64{two[0], two[0], two[0], one, one}, true, true},
		{"No. 89 under bedding sand", no89, c33, [5]float64{1.02, 3.19, 7.51, 13.4, 7.87}, [5]float64{two[0], two[0], two[0], one, two[0]}, true, true},
		{"No. 9 under bedding sand", no9, c33, [5]float64{0.82, 2.10, 4.16, 7.20, 6.39}, two, true, true},
		{"dense base under bedding sand", d2940Base, c33, [5]float64{0.18, 0.67, 8.14, 19.95, 1.39}, two, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, b := gradation(t, c.filter), gradation(t, c.protected)
			for i, ratio := range []func(filter, protected drainage.Gradation) (float64, error){
				drainage.RetentionRatio, drainage.RetentionRatioWorst,
				drainage.ParallelRatio, drainage.ParallelRatioWorst, drainage.PermeabilityRatio,
			} {
				got, err := ratio(f, b)
				require.NoError(t, err)
				require.InDelta(t, c.want[i], got, c.near[i], "ratio %d", i)
			}
			for _, set := range []drainage.CriteriaSet{drainage.PavementDrainage, drainage.OpenGraded} {
				holds, err := drainage.FilterHolds(set, f, b)
				require.NoError(t, err)
				require.Equal(t, c.holdsOnMids, holds, "%s on the mids", set)
				holds, err = drainage.FilterHoldsWorst(set, f, b)
				require.NoError(t, err)
				require.Equal(t, c.holdsOnWorstEdges, holds, "%s on the worst edges", set)
			}
		})
	}
}

// Half of the last digit shown, where that is the second decimal or the first.
var (
	two = [5]float64{0.0051, 0.0051, 0.0051, 0.0051, 0.0051}
	one = 0.051
)

// W2-1: river engineering manual sec. 6.11.1, problem 1, seen. The published
// verdict: every requirement is met, no filter is needed between sand and cover.
func TestJudgePublishedRiprap(t *testing.T) {
	cover := gradation(t, "24 mm: 85, 12 mm: 50, 6 mm: 15")
	sand := gradation(t, "1.5 mm: 85, 0.75 mm: 50, 0.38 mm: 15")
	j, err := drainage.Judge(drainage.RiprapFilter, cover, sand)
	require.NoError(t, err)
	require.True(t, j.Holds)
	want := []struct {
		ratio string
		value float64
		bound drainage.Bound
		limit float64
	}{
		{"D15F/D85B", 4, drainage.Below, 5},
		{"D15F/D15B", 15.79, drainage.Above, 5},
		{"D15F/D15B", 15.79, drainage.Below, 40},
		{"D50F/D50B", 16, drainage.Below, 40},
	}
	require.Len(t, j.Tests, len(want))
	for i, w := range want {
		got := j.Tests[i]
		require.Equal(t, w.ratio, got.Ratio)
		require.Equal(t, w.bound, got.Bound)
		require.Equal(t, w.limit, got.Limit)
		require.InDelta(t, w.value, got.Value, 0.005)
		require.True(t, got.Holds)
	}
	require.Equal(t, "D15F/D85B 4 < 5: holds", j.Tests[0].String())
}

// The same pair of courses may stand under one set and fail under another, and
// a failing test says so.
func TestSetsDisagree(t *testing.T) {
	filter := gradation(t, "100 mm: 85, 60 mm: 50, 6 mm: 15")
	protected := gradation(t, "4 mm: 85, 2 mm: 50, 0.6 mm: 15")
	holds, err := drainage.FilterHolds(drainage.RiprapFilter, filter, protected)
	require.NoError(t, err)
	require.True(t, holds, "D50F/D50B is 30, under the riprap limit of 40")
	j, err := drainage.Judge(drainage.PavementDrainage, filter, protected)
	require.NoError(t, err)
	require.False(t, j.Holds, "and over the pavement limit of 25")
	require.Equal(t, "D50F/D50B 30 <= 25: fails", j.Tests[1].String())
}

func TestJudgeEachSetAtItsLimits(t *testing.T) {
	// One gradation with sizes 1, 2, 4 mm, so that limits fall on round sizes.
	b := "4 mm: 85, 2 mm: 50, 1 mm: 15"
	for _, c := range []struct {
		name, filter string
		set          drainage.CriteriaSet
		want         bool
	}{
		{"pavement: D15F/D85B of exactly 5 holds", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.PavementDrainage, true},
		{"open-graded: exactly 5 fails, the limit is below", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.OpenGraded, false},
		{"pavement: D50F/D50B of exactly 25 holds", "100 mm: 85, 50 mm: 50, 8 mm: 15", drainage.PavementDrainage, true},
		{"with flow: D15F/D15B of 4 fails", "100 mm: 85, 40 mm: 50, 4 mm: 15", drainage.PavementDrainageWithFlow, false},
		{"with flow: exactly 5 holds", "100 mm: 85, 40 mm: 50, 5 mm: 15", drainage.PavementDrainageWithFlow, true},
		{"riprap: D15F/D15B of exactly 5 fails, the limit is above", "100 mm: 85, 40 mm: 50, 5 mm: 15", drainage.RiprapFilter, false},
		{"Terzaghi: D15F/D85B of exactly 4, D15F/D15B 16", "100 mm: 85, 40 mm: 50, 16 mm: 15", drainage.TerzaghiFilter, true},
		{"Terzaghi: D15F/D15B under 4", "100 mm: 85, 40 mm: 50, 3 mm: 15", drainage.TerzaghiFilter, false},
		{"older choke: D15F/D50B 4, D50F/D50B 10", "100 mm: 85, 20 mm: 50, 8 mm: 15", drainage.OlderChoke, true},
		{"older choke: D50F/D50B of exactly 2 fails, the limit is above", "9 mm: 85, 4 mm: 50, 3 mm: 15", drainage.OlderChoke, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.FilterHolds(c.set, gradation(t, c.filter), gradation(t, b))
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

// 3.5 mm over 0.7 mm is 5.000000000000001 in plain floating point.
func TestRatioAtItsLimitIsNotPushedOver(t *testing.T) {
	filter := gradation(t, "9 mm: 85, 5 mm: 50, 3.5 mm: 15")
	soil := gradation(t, "0.7 mm: 85, 0.5 mm: 50, 0.3 mm: 15")
	ratio, err := drainage.RetentionRatio(filter, soil)
	require.NoError(t, err)
	require.Equal(t, 5.0, ratio)
	holds, err := drainage.FilterHolds(drainage.PavementDrainage, filter, soil)
	require.NoError(t, err)
	require.True(t, holds)
}

func TestWorstEdgesOfARatioThatMustStayUp(t *testing.T) {
	filter := gradation(t, no57)
	sand := gradation(t, c33)
	got, err := drainage.PermeabilityRatioWorst(filter, sand)
	require.NoError(t, err)
	// Computed: No. 57 fine edge 5.233 over C33 coarse edge 0.424.
	require.InDelta(t, 5.233/0.424, got, 0.02)
}

func TestFilterThatCannotBeJudged(t *testing.T) {
	silt := gradation(t, "No. 4: 100, No. 200: 90")
	stone := gradation(t, no57)
	_, err := drainage.FilterHolds(drainage.PavementDrainage, stone, silt)
	require.ErrorIs(t, err, drainage.ErrCannotTell, "D85 of the silt is finer than its finest sieve")
	told, err := drainage.FilterCanBeJudged(drainage.PavementDrainage, stone, silt)
	require.NoError(t, err)
	require.False(t, told)
	told, err = drainage.FilterCanBeJudged(drainage.PavementDrainage, stone, gradation(t, c33))
	require.NoError(t, err)
	require.True(t, told)
	var outside *calculation.WordError
	_, err = drainage.FilterCanBeJudged("no such set", stone, silt)
	require.ErrorAs(t, err, &outside)
	_, err = drainage.FilterHolds(drainage.PavementDrainage, stone, drainage.Gradation{})
	require.ErrorIs(t, err, drainage.ErrCannotTell)
}

// Geosynthetics reference, granular filter chain, seen: what the limits 5, 40
// and 40 ask of a filter between sand and stone.
func TestFilterChain(t *testing.T) {
	sand := gradation(t, "1.5 mm: 85, 0.17 mm: 15")
	d15, err := drainage.FilterD15Most(drainage.RiprapFilter, sand)
	require.NoError(t, err)
	require.InDelta(t, 6.8, d15.Millimeters(), 1e-9, "40 x 0.17 governs over 5 x 1.5")
	_, err = drainage.FilterD50Most(drainage.RiprapFilter, sand)
	require.NoError(t, err, "D50 lies between the two sizes given")
	_, err = drainage.FilterD50Most(drainage.TerzaghiFilter, sand)
	var outside *calculation.WordError
	require.ErrorAs(t, err, &outside, "Terzaghi puts no limit on D50")

	// What a filter holds from above is what is held from below.
	filter := gradation(t, "200 mm: 50, 100 mm: 15")
	least85, err := drainage.ProtectedD85Least(drainage.RiprapFilter, filter)
	require.NoError(t, err)
	require.InDelta(t, 20, least85.Millimeters(), 1e-9)
}

func TestRetentionLimitOfSoils(t *testing.T) {
	mm := quantity.Millimeters
	for _, c := range []struct {
		name  string
		fines float64
		d85   quantity.Length
		want  float64
	}{
		{"W2-3, computed: (15/25)(2.0-0.7)+0.7", 25, mm(0.5), 1.48},
		{"category 1: 9 d85", 90, mm(0.06), 0.54},
		{"category 1: not less than 0.2 mm", 90, mm(0.01), 0.2},
		{"85 % is still category 2", 85, mm(0.07), 0.7},
		{"40 % is category 2", 40, mm(3), 0.7},
		{"just under 40 % runs into category 2 without a step", 39.999999, mm(3), 0.7},
		{"category 3 with 4 d85 under 0.7 mm", 20, mm(0.1), 0.7},
		{"15 % is category 3, all of 4 d85", 15, mm(1), 4},
		{"category 4: 4 d85", 14.9, mm(1), 4},
		{"category 4 has no floor", 5, mm(0.1), 0.4},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.RetentionLimitD15(c.fines, c.d85)
			require.NoError(t, err)
			require.InDelta(t, c.want, got.Millimeters(), 1e-5)
		})
	}
	_, err := drainage.RetentionLimitD15ByFines(10)
	require.ErrorIs(t, err, drainage.ErrCannotTell)
	var outside *calculation.RangeError
	_, err = drainage.RetentionLimitD15Dispersive(30, mm(1))
	require.ErrorAs(t, err, &outside)
	_, err = drainage.RetentionLimitD15(math.NaN(), mm(1))
	require.ErrorAs(t, err, &outside)
}

func TestJudgeNRCS(t *testing.T) {
	for _, c := range []struct {
		name, filter, soil string
		want               float64 // D15F over its limit, by hand
	}{
		{"category 2 needs no d85: D15F 0.35 over 0.7 mm", "1 mm: 85, 0.35 mm: 15", "No. 4: 100, No. 200: 60", 0.5},
		{"category 4 as it lies: D15F 8 over 4 x 2 mm", "20 mm: 85, 8 mm: 15", "No. 4: 100, 2 mm: 85, No. 200: 10", 1},
		// Half of the soil is gravel: 30 of 50 that pass No. 4 are fines, so
		// 60 %, category 2.
		{"gravel is left out: 30 % of all is 60 % of what passes No. 4", "1 mm: 85, 0.35 mm: 15", "75 mm: 100, No. 4: 50, No. 200: 30", 0.5},
		// 16 of 80 are fines: 20 %, category 3; d85 of what passes No. 4 is at
		// 68 % of all, 1 mm: (20/25)(4-0.7)+0.7 = 3.34.
		{"category 3 regraded", "20 mm: 85, 3.34 mm: 15", "75 mm: 100, No. 4: 80, 1 mm: 68, No. 200: 16", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, err := drainage.Judge(drainage.NRCSRetention, gradation(t, c.filter), gradation(t, c.soil))
			require.NoError(t, err)
			require.InDelta(t, c.want, j.Tests[0].Value, 1e-9)
			worst, err := drainage.JudgeWorst(drainage.NRCSRetention, gradation(t, c.filter), gradation(t, c.soil))
			require.NoError(t, err)
			require.Equal(t, j.Tests[0].Value, worst.Tests[0].Value, "the soil is one curve: worst is mid")
		})
	}
	_, err := drainage.Judge(drainage.NRCSRetention, gradation(t, no57), gradation(t, "No. 4: 100, No. 200: 90"))
	require.ErrorIs(t, err, drainage.ErrCannotTell, "category 1 rests on a d85 finer than No. 200")
}

func TestVocabularyLabelsAreTheConstants(t *testing.T) {
	var labels []string
	for _, w := range drainage.CriteriaSet("").Vocabulary().Words {
		labels = append(labels, w.Label)
		if strings.HasPrefix(w.Label, "NRCS") {
			continue
		}
		_, err := drainage.Judge(drainage.CriteriaSet(w.Label), gradation(t, no57), gradation(t, no8))
		require.NoError(t, err, w.Label)
	}
	require.Empty(t, cmp.Diff([]string{
		string(drainage.PavementDrainage), string(drainage.PavementDrainageWithFlow), string(drainage.RiprapFilter),
		string(drainage.OpenGraded), string(drainage.OlderChoke), string(drainage.TerzaghiFilter), string(drainage.NRCSRetention),
	}, labels))
}
