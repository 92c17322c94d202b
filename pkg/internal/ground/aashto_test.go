package ground_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
)

// Classes computed for this project (no trusted print): Das 9e Prob. 5.4, LL and
// PL, and edges of the table.
func TestAASHTOClass(t *testing.T) {
	for _, c := range []struct {
		name, why              string
		p10, p40, p200, ll, pl float64
		want                   string
	}{
		{"half an index", "2.5 is rounded half-up", 98, 80, 50, 38, 29, "A-4(3)"},
		{"high index", "there is no cap", 100, 92, 80, 56, 23, "A-7-6(28)"},
		{"clay", "A-6", 100, 88, 65, 37, 22, "A-6(8)"},
		{"silt", "A-4", 85, 55, 45, 28, 20, "A-4(1)"},
		{"clay of high limit", "A-7-6", 92, 75, 62, 43, 28, "A-7-6(8)"},
		{"line of A-7-5", "PI of LL - 30 is A-7-5; 11.25 + 6.5 by hand", 100, 100, 80, 50, 30, "A-7-5(18)"},
		{"over the line", "PI of LL - 29 is A-7-6; 11.25 + 7.15 by hand", 100, 100, 80, 50, 29, "A-7-6(18)"},
		{"stone", "A-1-a at all its edges", 50, 30, 15, 20, 14, "A-1-a(0)"},
		{"fine sand with limits", "A-3 is for nonplastic soil", 90, 60, 8, 20, 18, "A-2-4(0)"},
		{"silty sand of high limit", "A-2-5", 90, 60, 30, 45, 37, "A-2-5(0)"},
		{"clayey sand of high limit", "A-2-7 takes the plasticity part alone", 90, 60, 30, 45, 15, "A-2-7(3)"},
		{"35.4 rounds to granular", "whole numbers first", 100, 100, 35.4, 38, 20, "A-2-6(2)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.AASHTOClassOf(c.p10, c.p40, c.p200, c.ll, c.pl)
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

func TestAASHTORefuses(t *testing.T) {
	var outside *calculation.RangeError
	_, err := ground.ClassifyAASHTO(ground.AASHTOSample{P10: 50, P40: 60, P200: 10, Nonplastic: true})
	require.ErrorAs(t, err, &outside, "more through the finer sieve")
	_, err = ground.ClassifyAASHTO(ground.AASHTOSample{P10: 50, P40: 40, P200: 45, Nonplastic: true})
	require.ErrorAs(t, err, &outside, "more through the finer sieve")
	_, err = ground.GroupIndexUnrounded(30, 40, 20)
	require.ErrorAs(t, err, &outside, "the formula is not for granular soil")
	var missing *ground.MissingError
	_, err = ground.ClassifyAASHTO(ground.AASHTOSample{P10: 50, P40: 40, P200: 35})
	require.ErrorAs(t, err, &missing)
}

// Each group read on its own from the table, the left-most that fits.
func TestEverySampleHasOneAASHTOGroup(t *testing.T) {
	type row struct {
		group ground.AASHTOGroup
		fits  func(p10, p40, p200, ll, pi float64, np bool) bool
	}
	granular := func(low, lowPI bool) func(_, _, f, ll, pi float64, _ bool) bool {
		return func(_, _, f, ll, pi float64, _ bool) bool { return f <= 35 && (ll <= 40) == low && (pi <= 10) == lowPI }
	}
	fine := func(low, lowPI bool) func(_, _, f, ll, pi float64, _ bool) bool {
		return func(_, _, f, ll, pi float64, _ bool) bool { return f >= 36 && (ll <= 40) == low && (pi <= 10) == lowPI }
	}
	a7 := func(five bool) func(_, _, f, ll, pi float64, _ bool) bool {
		return func(_, _, f, ll, pi float64, _ bool) bool {
			return f >= 36 && ll >= 41 && pi >= 11 && (pi <= ll-30) == five
		}
	}
	table := []row{
		{ground.A1a, func(a, b, f, _, pi float64, _ bool) bool { return a <= 50 && b <= 30 && f <= 15 && pi <= 6 }},
		{ground.A1b, func(_, b, f, _, pi float64, _ bool) bool { return b <= 50 && f <= 25 && pi <= 6 }},
		{ground.A3, func(_, b, f, _, _ float64, np bool) bool { return b >= 51 && f <= 10 && np }},
		{ground.A24, granular(true, true)}, {ground.A25, granular(false, true)}, {ground.A26, granular(true, false)}, {ground.A27, granular(false, false)},
		{ground.A4, fine(true, true)}, {ground.A5, fine(false, true)}, {ground.A6, fine(true, false)}, {ground.A75, a7(true)}, {ground.A76, a7(false)},
	}
	r := rand.New(rand.NewPCG(5, 6))
	reached := map[ground.AASHTOGroup]bool{}
	for range 40_000 {
		p10 := math.Floor(r.Float64() * 101)
		p40 := math.Floor(r.Float64() * (p10 + 1))
		p200 := math.Floor(r.Float64() * (p40 + 1))
		ll := float64(1 + r.IntN(90))
		pl := float64(1 + r.IntN(int(ll)+5))
		c, err := ground.ClassifyAASHTO(ground.AASHTOSample{P10: p10, P40: p40, P200: p200, LL: ll, PL: pl})
		require.NoError(t, err)
		pi := max(0, ll-pl)
		want := ground.AASHTOGroup("")
		for _, each := range table {
			if each.fits(p10, p40, p200, ll, pi, pl >= ll) {
				want = each.group
				break
			}
		}
		if c.Group != want || c.Index < 0 {
			t.Fatalf("p10 %g p40 %g p200 %g ll %g pl %g: worked out %v, the table gives %s", p10, p40, p200, ll, pl, c, want)
		}
		reached[c.Group] = true
	}
	require.Len(t, reached, len(table), "every group is reached")
}
