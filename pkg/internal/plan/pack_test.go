package plan

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPackedRows holds packings without joints to the rows of takeoff.md 5, all
// COMPUTED there by exhaustive search.
func TestPackedRows(t *testing.T) {
	for _, c := range []struct {
		why          string
		items        []float64
		roll         float64
		bound, rolls int
	}{
		{"perfect fill", []float64{120, 120, 120, 90, 90, 60}, 300, 2, 2},
		{"the bound L2 beats the sum", []float64{160, 160, 160}, 300, 3, 3},
		{"the bound proves the optimum", []float64{180, 180, 130, 130}, 300, 3, 3},
		{"longest first fails: 140 + 80 + 80 and 3 x 100", []float64{140, 100, 100, 100, 80, 80}, 300, 2, 2},
		{"no bound proves it: it needs the search", []float64{200, 110, 110, 90, 90}, 300, 2, 3},
		{"the smallest on which longest first fails", []float64{90, 90, 60, 60, 60, 60}, 210, 2, 2},
	} {
		t.Run(fmt.Sprint(c.items), func(t *testing.T) {
			s := stock{length: c.roll, lap: 3, shortest: c.roll} // as short as a roll: nothing is joined
			require.Equal(t, c.bound, s.bound(c.items), c.why)
			p, _ := s.pack(c.items, 1000)
			require.Equal(t, c.rolls, p.rolls, c.why)
			require.True(t, p.exact, c.why)
			require.Zero(t, p.joints)
			holds(t, s, c.items, p)
		})
	}
}

func TestJoinedStrips(t *testing.T) {
	for _, c := range []struct {
		name, why     string
		items         []float64
		stock         stock
		rolls, joints int
	}{
		{"one that a roll just holds", "no joint", []float64{300}, stock{300, 3, 10}, 1, 0},
		{"longer than two rolls", "597 = 300 + 300 - 3, an end lap row of takeoff.md 4.3 (COMPUTED)", []float64{597}, stock{300, 3, 10}, 2, 1},
		{"a foot more", "598 ft, the next row there: a third piece", []float64{598}, stock{300, 3, 10}, 3, 2},
		{"700 ft", "the last row there", []float64{700}, stock{300, 3, 10}, 3, 2},
		{"an offcut that reaches", "three strips of 160 ft: 160 + 140 of one, and 23 with the lap, then 160, from another", []float64{160, 160, 160}, stock{300, 3, 20}, 2, 1},
		{"an offcut that reaches with a foot to spare", "the first piece is cut a foot shorter, so that the last is 24 ft", []float64{160, 160, 160}, stock{300, 3, 24}, 2, 1},
		{"both too short", "no piece of a strip of 160 ft is under 82 ft", []float64{160, 160, 160}, stock{300, 3, 82}, 3, 0},
		{"one that fills up exactly", "three strips of 99 ft from rolls of 150: 99 + 51, 51 + 99", []float64{99, 99, 99}, stock{150, 3, 20}, 2, 1},
		{"a hair over", "the lap makes it too much", []float64{99.1, 99.1, 99.1}, stock{150, 3, 20}, 3, 0},
		{"no lap", "panels and netting that is tied edge to edge", []float64{100, 100, 100}, stock{150, 0, 20}, 2, 1},
		{"longer than a roll, no short pieces", "what must be joined is, be the pieces shorter than allowed", []float64{310}, stock{300, 3, 300}, 2, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, _ := c.stock.pack(c.items, 1000)
			require.Equal(t, [2]int{c.rolls, c.joints}, [2]int{p.rolls, p.joints}, "%s: %v", c.why, p.cuts)
			require.True(t, p.exact)
			holds(t, c.stock, c.items, p)
		})
	}
}

// holds reads a packing: no roll is longer than it is, no piece lies on another,
// each item is whole with its laps, and joined pieces are long enough.
func holds(t *testing.T, s stock, items []float64, p packing) {
	t.Helper()
	laid, pieces := make([]float64, len(items)), make([]int, len(items))
	rolls := make([][]cut, p.rolls)
	for _, c := range p.cuts {
		laid[c.item] += c.length
		pieces[c.item]++
		rolls[c.roll] = append(rolls[c.roll], c)
	}
	for _, c := range p.cuts {
		if pieces[c.item] > 1 {
			require.GreaterOrEqual(t, c.length, s.least(items[c.item])-1e-6, "%v", p.cuts)
		}
	}
	joints := 0
	for i, l := range items {
		require.InDelta(t, l+float64(pieces[i]-1)*s.lap, laid[i], 1e-6, "item %d of %v in %v", i, items, p.cuts)
		joints += pieces[i] - 1
	}
	require.Equal(t, p.joints, joints)
	for _, r := range rolls {
		require.NotEmpty(t, r, "a roll that nothing is cut from")
		slices.SortFunc(r, func(a, b cut) int { return cmp.Compare(a.at, b.at) })
		end := 0.0
		for _, c := range r {
			require.GreaterOrEqual(t, c.at, end-1e-6)
			end = c.at + c.length
		}
		require.LessOrEqual(t, end, s.length+1e-6)
	}
	require.LessOrEqual(t, p.bound, p.rolls)
}

// exhausted tries every order of the items, and after each roll each way to go on:
// begin the next strip in what is left, with every length of its first piece in
// steps of a foot, or take a new roll. Items, laps and rolls are whole feet.
func exhausted(s stock, items []float64) (rolls, joints int) {
	rolls, joints = math.MaxInt, math.MaxInt
	var try func(left []float64, pieces bool, used, joined int, room float64)
	try = func(left []float64, pieces bool, used, joined int, room float64) {
		if used > rolls || used == rolls && joined >= joints {
			return
		}
		if len(left) == 0 {
			rolls, joints = used, joined
			return
		}
		for i, l := range left {
			if pieces && i > 0 {
				break // the first is the rest of a strip, which begins the roll
			}
			rest := slices.Delete(slices.Clone(left), i, i+1)
			switch {
			case l <= room:
				try(rest, false, used, joined, room-l)
			case l <= s.length && !pieces:
				try(rest, false, used+1, joined, s.length-l)
			}
			for first := s.shortest; first <= room; first++ {
				if over := l + s.lap - first; over >= s.shortest && l > room && first > s.lap {
					try(slices.Concat([]float64{over}, rest), true, used+1, joined+1, s.length)
				}
			}
			if l > s.length && room < s.length {
				try(slices.Concat([]float64{l}, rest), false, used+1, joined, s.length)
			}
		}
	}
	try(items, false, 0, 0, 0)
	return rolls, joints
}

func TestPackingAgainstExhaustive(t *testing.T) {
	n, most := 60, 5
	if os.Getenv("GROUNDRULE_MANY") != "" {
		n, most = 200, 6
	}
	r := rand.New(rand.NewPCG(5, 6))
	joined := 0
	for range n {
		s := stock{length: float64(20 + r.IntN(20)), lap: float64(r.IntN(4)), shortest: float64(4 + r.IntN(7))}
		var items []float64
		for range 1 + r.IntN(most) {
			items = append(items, float64(4+r.IntN(int(s.length)+4)))
		}
		p, _ := s.pack(items, 1000)
		holds(t, s, items, p)
		require.True(t, p.exact)
		again, ok := s.pack(items, p.rolls)
		require.True(t, ok)
		require.Equal(t, [2]int{p.rolls, p.joints}, [2]int{again.rolls, again.joints}, "just enough rolls change nothing")
		_, ok = s.pack(items, p.rolls-1)
		require.False(t, ok, "no fewer rolls do")
		rolls, joints := exhausted(s, items)
		require.Equal(t, [2]int{rolls, joints}, [2]int{p.rolls, p.joints}, "%v %v: %v", s, items, p.cuts)
		if p.joints > 0 {
			joined++
		}
	}
	require.Greater(t, joined, n/10, "few packings have a joint")
	t.Logf("%d packings, %d with joints", n, joined)
}

func TestManyItems(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	proven, over := 0, 0
	for range 100 {
		s := stock{length: 90, lap: 0.9, shortest: []float64{3, 90}[r.IntN(2)]}
		var items []float64
		for range 20 + r.IntN(200) {
			items = append(items, 3+r.Float64()*100*r.Float64())
		}
		p, _ := s.pack(items, 1000)
		holds(t, s, items, p)
		if p.exact {
			proven++
		} else if p.rolls > p.bound {
			over++
		}
		require.LessOrEqual(t, p.rolls, p.bound+1+p.bound/20, "%v: %d items, %d rolls, bound %d", s, len(items), p.rolls, p.bound)
	}
	t.Logf("of 100: %d proven to have the fewest rolls and joints, %d more to have the fewest rolls", proven, 100-proven-over)
}

// TestBoundIsL2 holds the bound to its definition: for every whole K up to half a
// roll, what is longer than a roll less K has a roll of its own, and so has what is
// longer than half a roll, beside which what is at least K may lie.
func TestBoundIsL2(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	above := 0
	for range 3000 {
		s := stock{length: float64(10 + r.IntN(20)), lap: 1, shortest: 30}
		var items []float64
		sum, want := 0.0, 0
		for range 1 + r.IntN(7) {
			l := float64(1 + r.IntN(int(s.length)))
			items, sum = append(items, l), sum+l
		}
		for k := 0.0; k <= s.length/2; k++ {
			alone, beside, room, rest := 0, 0, 0.0, 0.0
			for _, l := range items {
				if l > s.length-k {
					alone++
				} else if 2*l > s.length {
					beside++
					room += s.length - l
				} else if l >= k {
					rest += l
				}
			}
			want = max(want, alone+beside+max(0, int(math.Ceil((rest-room)/s.length))))
		}
		require.Equal(t, want, s.bound(items), "%v from rolls of %g", items, s.length)
		if want > int(math.Ceil(sum/s.length)) {
			above++
		}
		s.shortest = 0
		if slices.Max(items) > 1 {
			require.Equal(t, int(math.Ceil(sum/s.length)), s.bound(items), "what may be joined fills every roll: %v", items)
		}
	}
	require.Greater(t, above, 300, "few are above the sum")
}

// TestPlace holds how one strip is cut where some of a roll is used: rolls of 100,
// lapping 4, no joined piece under 10 unless said.
func TestPlace(t *testing.T) {
	tens, fifties := stock{100, 4, 10}, stock{100, 4, 60}
	for _, c := range []struct {
		name, why  string
		stock      stock
		fill, item float64
		join       bool
		want       []float64 // nothing where it cannot be done
		fresh      bool
	}{
		{"fits", "whole, from the rest", tens, 60, 40, false, []float64{40}, false},
		{"fits, may be joined", "whole all the same", tens, 60, 40, true, []float64{40}, false},
		{"fits but for rounding", "a thousandth of a millimeter is nothing", tens, 60, 40 + 5e-7, true, []float64{40 + 5e-7}, false},
		{"does not fit", "from a new roll", tens, 60, 41, false, []float64{41}, true},
		{"does not fit, joined", "the first piece is shortened so that the last is 10", tens, 60, 41, true, []float64{35, 10}, false},
		{"a long one, joined", "all of the rest is used: 40 + 54 - 4 is 90", tens, 60, 90, true, []float64{40, 54}, false},
		{"the least rest", "10 are just enough", tens, 90, 50, true, []float64{10, 44}, false},
		{"the least rest but for rounding", "as good as 10", tens, 90 + 5e-7, 50, true, []float64{10 - 5e-7, 44 + 5e-7}, false},
		{"less than the least rest", "9.9 are too short", tens, 90.1, 50, true, nil, false},
		{"the least to join", "10 and 10 lap by 4: 16", tens, 85, 16, true, []float64{10, 10}, false},
		{"less than the least to join", "one piece would be under 10", tens, 85, 15.9, true, nil, false},
		{"a rest no longer than the lap", "it would cover nothing of its own", stock{100, 4, 0}, 96, 50, true, nil, false},
		{"a rest longer than the lap", "5 with 4 of them lapped", stock{100, 4, 0}, 95, 50, true, []float64{5, 49}, false},
		{"as long as a roll", "no joint", tens, 60, 100, false, []float64{100}, true},
		{"as long as a roll but for rounding", "no joint", tens, 60, 100 + 5e-7, false, []float64{100 + 5e-7}, true},
		{"longer than a roll", "joined, be it not asked for, from two new rolls", tens, 60, 150, false, []float64{100, 54}, true},
		{"longer than a roll, into the rest", "three pieces: 40 + 100 + 18 less two laps", tens, 60, 150, true, []float64{40, 100, 18}, false},
		{"two rolls less a lap", "just two pieces", tens, 100, 196, false, []float64{100, 100}, true},
		{"a bit over a roll", "the first of 97, so that the last is 10", tens, 100, 103, false, []float64{97, 10}, true},
		{"a bit over two rolls", "the second of 97, so that the last is 10", tens, 100, 199, false, []float64{100, 97, 10}, true},
		{"longer than a roll, no piece that short", "what must be joined may have pieces of half a roll", fifties, 100, 110, false, []float64{64, 50}, true},
		{"as long as a roll, no piece that short", "two of 60 are too long", fifties, 20, 100, true, nil, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			before := []float64{7}
			got, fresh, ok := c.stock.place(before, c.fill, c.item, c.join)
			require.Equal(t, c.want != nil, ok, c.why)
			require.InDeltaSlice(t, append(before, c.want...), got, 1e-9, c.why)
			if ok {
				require.Equal(t, c.fresh, fresh, c.why)
			}
		})
	}
}

func TestJointsThatMustBe(t *testing.T) {
	s := stock{300, 3, 10}
	for item, want := range map[float64]int{1: 0, 300: 0, 300 + 5e-7: 0, 300.001: 1, 597: 1, 597 + 1e-7: 1, 597.001: 2, 894: 2, 894.001: 3} {
		require.Equal(t, want, s.forced(item), "%g ft from rolls of 300 lapping 3", item)
	}
	length, joints := s.need([]float64{100, 597, 600})
	require.InDelta(t, 1297+3*3, length, 1e-9, "one joint and two")
	require.Equal(t, 3, joints)
	for _, c := range []struct {
		item     float64
		shortest float64
		want     bool
	}{
		{17, 10, true}, {17 - 5e-7, 10, true}, {16.99, 10, false}, {3, 0, true}, {2.99, 0, false},
		{299, 152, false}, {301, 152, true}, {300, 152, false}, {300 + 5e-7, 152, false},
	} {
		require.Equal(t, c.want, stock{300, 3, c.shortest}.canJoin(c.item), "%g of pieces from %g on, lapping 3", c.item, c.shortest)
	}
	for x, want := range map[float64]int{0: 0, 1: 1, 1 + 5e-7: 1, 1 + 2e-6: 2, 1.5: 2} {
		require.Equal(t, want, roundUp(x), "%v", x)
	}
}

// TestSimpleWays holds the two ways to cut that are tried where there are too many
// strips for the search, from rolls of 100 that lap 4, none joined under 10.
func TestSimpleWays(t *testing.T) {
	for _, c := range []struct {
		name, why     string
		way           func(s stock, items []float64, order []int) packing
		items         []float64
		cuts          []cut
		rolls, joints int
	}{
		{"longest first", "40 fits just beside 60, 30 beside 50", stock.firstFit, []float64{60, 50, 40, 30},
			[]cut{{0, 0, 0, 60}, {1, 1, 0, 50}, {2, 0, 60, 40}, {3, 1, 50, 30}}, 2, 0},
		{"longest first, one longer than a roll", "what is left of its second roll is used", stock.firstFit, []float64{150, 46, 40},
			[]cut{{0, 0, 0, 100}, {0, 1, 0, 54}, {1, 1, 54, 46}, {2, 2, 0, 40}}, 3, 1},
		{"in turn", "30 is the longest that fits beside 60; then 50 begins in the last 10", stock.inTurn, []float64{60, 50, 45, 30},
			[]cut{{0, 0, 0, 60}, {3, 0, 60, 30}, {1, 0, 90, 10}, {1, 1, 0, 44}, {2, 1, 44, 45}}, 2, 1},
		{"in turn, a rest that is too short", "the last 9 are left", stock.inTurn, []float64{91, 50, 45},
			[]cut{{0, 0, 0, 91}, {1, 1, 0, 50}, {2, 1, 50, 45}}, 2, 0},
		{"in turn, fits just", "60 and 40 are 100", stock.inTurn, []float64{60, 40}, []cut{{0, 0, 0, 60}, {1, 0, 60, 40}}, 1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			order := []int{0, 1, 2, 3}[:len(c.items)]
			p := c.way(stock{100, 4, 10}, c.items, order)
			require.Equal(t, packing{cuts: c.cuts, rolls: c.rolls, joints: c.joints}, p, c.why)
		})
	}
	require.Equal(t, [][]int{{2, 0}, {1}, {3}}, kinds([]float64{9, 8, 9 + 5e-7, 8 - 2e-6}, []int{2, 0, 1, 3}), "lengths that differ by rounding are one kind")
}

// TestSteps holds what is kept of the ways to cut a set of strips to its
// definition: those that no other way beats, each once.
func TestSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	type way struct {
		rolls, joints int
		fill          float64
	}
	for range 3000 {
		steps, first := []step{{}}, 0
		all := map[way]bool{}
		for range 1 + r.IntN(12) {
			n := way{r.IntN(4), r.IntN(4), float64(r.IntN(4))}
			all[n] = true
			steps, first = enter(steps, first, step{rolls: n.rolls, joints: n.joints, fill: n.fill})
		}
		want, got := map[way]bool{}, map[way]bool{}
		for a := range all {
			want[a] = true
			for b := range all {
				if b != a && b.joints <= a.joints && (b.rolls < a.rolls || b.rolls == a.rolls && b.fill <= a.fill) {
					delete(want, a)
				}
			}
		}
		for w := first; w > 0; w = steps[w].other {
			n := way{steps[w].rolls, steps[w].joints, steps[w].fill}
			require.False(t, got[n], "kept twice")
			got[n] = true
		}
		require.Equal(t, want, got)
	}
	require.True(t, (&step{fill: 1 + 9e-9}).beats(&step{fill: 1}), "a hundredth of the slack is nothing")
	require.False(t, (&step{fill: 1 + 1.02e-8}).beats(&step{fill: 1}))
	s := step{rolls: 2, joints: 1, fill: 30}
	for _, c := range []struct {
		name    string
		lengths []float64
		fresh   bool
		want    step
	}{
		{"from the rest", []float64{20}, false, step{rolls: 2, joints: 1, fill: 50}},
		{"from a new roll", []float64{20}, true, step{rolls: 3, joints: 1, fill: 20}},
		{"joined from the rest", []float64{60, 100, 7}, false, step{rolls: 4, joints: 3, fill: 7}},
		{"joined from a new roll", []float64{100, 7}, true, step{rolls: 4, joints: 2, fill: 7}},
	} {
		require.Equal(t, c.want, s.after(c.lengths, c.fresh), c.name)
	}
}

// TestSearchGivesUp holds where too many sets are too many: 2,048 of them, which 11
// strips of different lengths make, and 12 do not.
func TestSearchGivesUp(t *testing.T) {
	s := stock{100, 4, 10}
	for n, want := range map[int]bool{2: true, 11: true, 12: false} {
		var items []float64
		var order []int
		for i := range n {
			items, order = append(items, 60-float64(i)), append(order, i)
		}
		_, found, whole := s.search(items, order, n)
		require.Equal(t, want, whole, "%d strips", n)
		require.Equal(t, want, found)
	}
	_, found, whole := s.search([]float64{60, 60}, []int{0, 1}, 1)
	require.Equal(t, [2]bool{false, true}, [2]bool{found, whole}, "no way from one roll, and that is sure")
}
