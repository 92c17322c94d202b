package plan

import (
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
			p, _ := s.pack(c.items, 100)
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
			p, _ := c.stock.pack(c.items, 100)
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
		slices.SortFunc(r, func(a, b cut) int { return order(a.at, b.at) })
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

func TestPackingIsNeverWorseThanExhaustive(t *testing.T) {
	n, most := 60, 5
	if os.Getenv("GROUNDRULE_MANY") != "" {
		n, most = 200, 6
	}
	r := rand.New(rand.NewPCG(5, 6))
	joined, better := 0, 0
	for range n {
		s := stock{length: float64(20 + r.IntN(20)), lap: float64(r.IntN(4)), shortest: float64(4 + r.IntN(7))}
		var items []float64
		for range 1 + r.IntN(most) {
			items = append(items, float64(4+r.IntN(int(s.length)+4)))
		}
		p, _ := s.pack(items, 1000)
		holds(t, s, items, p)
		require.True(t, p.exact)
		rolls, joints := exhausted(s, items)
		require.LessOrEqual(t, p.rolls, rolls, "%v %v: %v", s, items, p.cuts)
		if p.rolls == rolls {
			require.LessOrEqual(t, p.joints, joints, "%v %v: %v", s, items, p.cuts)
		}
		if p.joints > 0 {
			joined++
		}
		if p.rolls < rolls || p.joints < joints {
			better++
		}
	}
	require.Greater(t, joined, n/10, "few packings have a joint")
	t.Logf("%d packings, %d with joints; %d beat the search in steps of a foot", n, joined, better)
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
