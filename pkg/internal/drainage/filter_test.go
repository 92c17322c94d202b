package drainage_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// ratios are the three that the criteria limit, on the mids.
var ratios = []func(filter, protected drainage.Gradation) (float64, error){
	drainage.RetentionRatio, drainage.ParallelRatio, drainage.PermeabilityRatio,
}

// Ratios computed once from the envelopes (no publication): D15F/D85B, D50F/D50B
// and D15F/D15B on the mids, and the verdicts of the limits 5 and 25. The bound
// is half of the last digit shown.
func TestLayerPairs(t *testing.T) {
	for _, c := range []struct {
		name, why, filter, protected   string
		want                           [3]float64
		near                           [3]float64
		holdsOnMids, holdsOnWorstEdges bool
	}{
		{"No. 57 under No. 8", "the usual stack", no57, no8, [3]float64{0.70, 2.17, 1.63}, two, true, true},
		{"No. 2 under No. 57", "the usual subbase", no2, no57, [3]float64{1.84, 3.58, 6.40}, two, true, true},
		{"No. 3 under No. 57", "another subbase", no3, no57, [3]float64{1.25, 2.67, 4.35}, two, true, true},
		{"No. 2 under No. 8", "why a choke course of No. 57 is laid: 5.18 at the worst edges", no2, no8, [3]float64{4.45, 7.78, 10.46}, two, true, false},
		{"No. 57 under No. 9", "finer bedding", no57, no9, [3]float64{1.40, 4.49, 3.68}, two, true, true},
		{"No. 57 under No. 89", "finer bedding", no57, no89, [3]float64{0.73, 2.49, 2.99}, two, true, true},
		{"No. 57 under bedding sand", "the sand needs a fabric or a choke course: 7.19 and 33.6 at the worst edges", no57, c33, [3]float64{3.04, 18.7, 23.5}, [3]float64{two[0], one, one}, true, false},
		{"No. 8 under bedding sand", "a choke course", no8, c33, [3]float64{1.86, 8.61, 14.4}, [3]float64{two[0], two[0], one}, true, true},
		{"No. 89 under bedding sand", "a finer choke course", no89, c33, [3]float64{1.02, 7.51, 7.87}, two, true, true},
		{"No. 9 under bedding sand", "the finest choke course", no9, c33, [3]float64{0.82, 4.16, 6.39}, two, true, true},
		{"dense base under bedding sand", "the commonest pair: 19.95 at the worst edges", d2940Base, c33, [3]float64{0.18, 8.14, 1.39}, two, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, b := gradation(t, c.filter), gradation(t, c.protected)
			for i, ratio := range ratios {
				got, err := ratio(f, b)
				require.NoError(t, err)
				require.InDelta(t, c.want[i], got, c.near[i], "%s: ratio %d", c.why, i)
			}
			for _, set := range []drainage.CriteriaSet{drainage.PavementDrainage, drainage.OpenGraded} {
				holds, err := drainage.FilterHolds(set, f, b)
				require.NoError(t, err)
				require.Equal(t, c.holdsOnMids, holds, "%s: %s on the mids", c.why, set)
				holds, err = drainage.FilterHoldsWorst(set, f, b)
				require.NoError(t, err)
				require.Equal(t, c.holdsOnWorstEdges, holds, "%s: %s on the worst edges", c.why, set)
			}
		})
	}
}

var (
	two = [3]float64{0.0051, 0.0051, 0.0051}
	one = 0.051
)

// Each limit of each set, just where it turns. What is protected has the sizes
// 1, 2 and 4 mm, so that limits fall on round sizes.
func TestSetsAtTheirLimits(t *testing.T) {
	const b = "4 mm: 85, 2 mm: 50, 1 mm: 15"
	for _, c := range []struct {
		name, why, filter string
		set               drainage.CriteriaSet
		want              bool
	}{
		{"pavement, retention 5", "the limit itself holds", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.PavementDrainage, true},
		{"pavement, retention 5.05", "just above", "100 mm: 85, 40 mm: 50, 20.2 mm: 15", drainage.PavementDrainage, false},
		{"pavement, parallel 25", "the limit itself holds", "100 mm: 85, 50 mm: 50, 8 mm: 15", drainage.PavementDrainage, true},
		{"pavement, parallel 25.5", "just above", "100 mm: 85, 51 mm: 50, 8 mm: 15", drainage.PavementDrainage, false},
		{"pavement, permeability 4", "is not asked", "100 mm: 85, 40 mm: 50, 4 mm: 15", drainage.PavementDrainage, true},
		{"with flow, retention 5.05", "as without flow", "100 mm: 85, 40 mm: 50, 20.2 mm: 15", drainage.PavementDrainageWithFlow, false},
		{"with flow, retention 5", "as without flow", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.PavementDrainageWithFlow, true},
		{"with flow, parallel 25.5", "as without flow", "100 mm: 85, 51 mm: 50, 8 mm: 15", drainage.PavementDrainageWithFlow, false},
		{"with flow, parallel 25", "as without flow", "100 mm: 85, 50 mm: 50, 8 mm: 15", drainage.PavementDrainageWithFlow, true},
		{"with flow, permeability 4.9", "water does not pass", "100 mm: 85, 40 mm: 50, 4.9 mm: 15", drainage.PavementDrainageWithFlow, false},
		{"with flow, permeability 5", "the limit itself holds", "100 mm: 85, 40 mm: 50, 5 mm: 15", drainage.PavementDrainageWithFlow, true},
		{"riprap, retention 5", "the limit is below", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.RiprapFilter, false},
		{"riprap, retention 4.95", "just below", "100 mm: 85, 40 mm: 50, 19.8 mm: 15", drainage.RiprapFilter, true},
		{"riprap, permeability 5", "the limit is above", "100 mm: 85, 40 mm: 50, 5 mm: 15", drainage.RiprapFilter, false},
		{"riprap, permeability 5.1", "just above", "100 mm: 85, 40 mm: 50, 5.1 mm: 15", drainage.RiprapFilter, true},
		{"riprap, parallel 40", "the limit is below", "100 mm: 85, 80 mm: 50, 8 mm: 15", drainage.RiprapFilter, false},
		{"riprap, parallel 39.5", "over the pavement's limit and under the riprap's", "100 mm: 85, 79 mm: 50, 8 mm: 15", drainage.RiprapFilter, true},
		{"open-graded, retention 5", "the limit is below", "100 mm: 85, 40 mm: 50, 20 mm: 15", drainage.OpenGraded, false},
		{"open-graded, retention 4.95", "just below", "100 mm: 85, 40 mm: 50, 19.8 mm: 15", drainage.OpenGraded, true},
		{"open-graded, parallel 25", "the limit is below", "100 mm: 85, 50 mm: 50, 8 mm: 15", drainage.OpenGraded, false},
		{"open-graded, parallel 24.5", "just below", "100 mm: 85, 49 mm: 50, 8 mm: 15", drainage.OpenGraded, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.FilterHolds(c.set, gradation(t, c.filter), gradation(t, b))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
	// 40 times the D15 of a soil of one size, so that retention is 5 at once.
	for _, c := range []struct {
		name, why, filter string
		want              bool
	}{
		{"riprap, permeability 40", "a filter so much coarser lets the soil through", "100 mm: 85, 60 mm: 50, 40 mm: 15", false},
		{"riprap, permeability 39", "below 40 it holds the soil", "100 mm: 85, 60 mm: 50, 39 mm: 15", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := drainage.FilterHolds(drainage.RiprapFilter, gradation(t, c.filter), gradation(t, "9 mm: 85, 4 mm: 50, 1 mm: 15"))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
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
	parallel, err := drainage.ParallelRatio(filter, gradation(t, "0.7 mm: 85, 0.6 mm: 50, 0.3 mm: 15"))
	require.NoError(t, err)
	require.Equal(t, 8.333333333, parallel, "5 mm over 0.6 mm, to nine decimals")
	holds, err := drainage.FilterHolds(drainage.PavementDrainage, filter, soil)
	require.NoError(t, err)
	require.True(t, holds)
}

// The edges that stand worst: for a ratio that must stay up the other way about.
// The sizes of the envelopes are made so that only one pair of edges fails.
func TestWorstEdges(t *testing.T) {
	for _, c := range []struct{ name, why, filter, protected string }{
		{"retention", "the coarse edge of the filter over the fine edge of the soil: 6 of at most 5, on the mids 3.9",
			"100 mm: 85, 60 mm: 50, 24 mm: 1-15, 15 mm: 1-15", "8 mm: 85-100, 4 mm: 50-85, 1 mm: 15"},
		{"permeability", "the fine edge of the filter over the coarse edge of the soil: 4 of at least 5, on the mids more",
			"20 mm: 85, 12 mm: 50, 8 mm: 15-40, 4 mm: 0-15", "6 mm: 85, 3 mm: 50, 1 mm: 15-30, 0.5 mm: 0-15"},
	} {
		t.Run(c.name, func(t *testing.T) {
			filter, protected := gradation(t, c.filter), gradation(t, c.protected)
			holds, err := drainage.FilterHolds(drainage.PavementDrainageWithFlow, filter, protected)
			require.NoError(t, err)
			require.True(t, holds, c.why)
			holds, err = drainage.FilterHoldsWorst(drainage.PavementDrainageWithFlow, filter, protected)
			require.NoError(t, err)
			require.False(t, holds, c.why)
		})
	}
}

func TestFilterThatCannotBeJudged(t *testing.T) {
	silt, stone := gradation(t, "No. 4: 100, No. 200: 90"), gradation(t, no57)
	for _, c := range []struct {
		name, why         string
		set               drainage.CriteriaSet
		filter, protected drainage.Gradation
		want              string
	}{
		{"the soil is too fine", "D85 of the silt is finer than its finest sieve", drainage.PavementDrainage, stone, silt,
			"D15F/D85B of the filter criteria, protected course: size D85 on the mid: 90 % pass No. 200, the finest sieve given: cannot be told from what is known"},
		{"the filter is too coarse", "less pass its coarsest sieve than are asked of it", drainage.PavementDrainage, gradation(t, "1 in: 14, No. 4: 5"), stone,
			"D15F/D85B of the filter criteria, filter: size D15 on the mid: 14 % pass 1 in, the coarsest sieve given: cannot be told from what is known"},
		{"no soil", "the zero gradation tells nothing", drainage.PavementDrainage, stone, drainage.Gradation{},
			"D15F/D85B of the filter criteria, protected course: size D85: no gradation is known: cannot be told from what is known"},
		{"no such set", "the words that would do are named", "no such set", stone, silt,
			`set of filter criteria is "no such set"; it must be pavement drainage, pavement drainage with flow, riprap filter or open-graded layers (the words of filter_criteria)`},
	} {
		t.Run(c.name, func(t *testing.T) {
			holds, err := drainage.FilterHolds(c.set, c.filter, c.protected)
			require.EqualError(t, err, c.want, c.why)
			require.False(t, holds)
			if c.set == drainage.PavementDrainage {
				require.ErrorIs(t, err, drainage.ErrCannotTell)
			}
		})
	}
}

func TestVocabularyLabelsAreTheConstants(t *testing.T) {
	var labels []string
	for _, w := range drainage.CriteriaSet("").Vocabulary().Words {
		labels = append(labels, w.Label)
		_, err := drainage.FilterHolds(drainage.CriteriaSet(w.Label), gradation(t, no57), gradation(t, no8))
		require.NoError(t, err, w.Label)
	}
	require.Empty(t, cmp.Diff([]string{
		string(drainage.PavementDrainage), string(drainage.PavementDrainageWithFlow), string(drainage.RiprapFilter), string(drainage.OpenGraded),
	}, labels))
}

func percent(x float64) quantity.Share { return quantity.Percent(x) }
