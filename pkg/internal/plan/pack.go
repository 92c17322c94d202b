package plan

import (
	"cmp"
	"math"
	"slices"
)

// stock is what strips are cut from: rolls of a length. A strip of several pieces
// has each lapped over the one before, and none shorter than shortest.
type stock struct{ length, lap, shortest float64 }

// cut is a piece of an item, cut from a roll.
type cut struct {
	item   int
	roll   int
	at     float64 // where on the roll it begins
	length float64
}

// packing says which pieces are cut from which rolls. No packing of these items
// takes fewer than bound rolls. Exact says that none takes fewer rolls, nor as
// few with fewer joints, where what is left of a roll begins at most one strip,
// which the next roll continues.
type packing struct {
	cuts                 []cut
	rolls, joints, bound int
	exact                bool
}

// mostStates bounds the work of the exact search: the number of different sets of
// strips that can be cut before the others.
const mostStates = 2048

// pack cuts items, the lengths of strips, from as few rolls as it can, and then
// with as few joints. The answer is proven for up to 11 strips of different
// lengths, and for more where many are alike; beyond that it is a good one, and
// bound says how good.
func (s stock) pack(items []float64) packing {
	order := make([]int, len(items))
	for i := range items {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(items[b], items[a]) })
	best := s.firstFit(items, order)
	best.bound = s.bound(items)
	if best.exact = best.rolls == best.bound && best.joints == s.forced(items); best.exact {
		return best
	}
	if found, ok := s.search(items, order); ok {
		found.bound, found.exact = found.rolls, true
		return found
	}
	if found := s.inTurn(items, order); found.rolls < best.rolls {
		found.bound = best.bound
		return found
	}
	return best
}

// forced is how many joints the items need because they are longer than a roll.
func (s stock) forced(items []float64) int {
	joints := 0
	for _, l := range items {
		if l > s.length+slack {
			joints += roundUp((l-s.lap)/(s.length-s.lap)) - 1
		}
	}
	return joints
}

// roundUp is the least whole number that x does not pass by more than rounding.
func roundUp(x float64) int { return int(math.Ceil(x - slack)) }

// bound returns a number of rolls below which the items cannot be cut: their sum
// with the joints that they need; and where none can be joined the bound L2 of
// Martello and Toth (Knapsack Problems, 1990, chapter 8, from memory).
func (s stock) bound(items []float64) int {
	sum := float64(s.forced(items)) * s.lap
	joined := false
	for _, l := range items {
		sum += l
		joined = joined || s.canJoin(l)
	}
	bound := roundUp(sum / s.length)
	if joined {
		return bound
	}
	for _, small := range append([]float64{0}, items...) {
		if small > s.length/2 {
			continue
		}
		whole, room, rest := 0, 0.0, 0.0
		for _, l := range items {
			switch {
			case l > s.length-small:
				whole++
			case l > s.length/2:
				whole++
				room += s.length - l
			case l >= small:
				rest += l
			}
		}
		bound = max(bound, whole+roundUp(max(rest-room, 0)/s.length))
	}
	return bound
}

// least returns how short a piece of a strip may be that is joined. A strip longer
// than a roll must be joined, be the pieces ever so short.
func (s stock) least(item float64) float64 {
	least := max(s.shortest, s.lap)
	if item > s.length+slack {
		least = min(least, s.length/2)
	}
	return least
}

func (s stock) canJoin(item float64) bool {
	return item > s.length+slack || item+s.lap >= 2*s.least(item)-slack
}

// place cuts an item where fill of the last roll is used. Where it does not fit
// into the rest, it begins a new roll, or with join begins in the rest. It
// returns the lengths cut, one for each roll but where the first begins a roll
// anew, and whether that can be done.
func (s stock) place(fill, item float64, join bool) (lengths []float64, fresh, ok bool) {
	room := s.length - fill
	if item <= room+slack {
		return []float64{item}, false, true
	}
	if !join {
		if item <= s.length+slack {
			return []float64{item}, true, true
		}
		room, fresh = s.length, true
	}
	least := s.least(item)
	first := min(room, item+s.lap-least)
	if first < least-slack || first <= s.lap+slack {
		return nil, false, false
	}
	lengths = append(lengths, first)
	rest := item + s.lap - first
	for rest > s.length+slack {
		next := min(s.length, rest+s.lap-least)
		lengths = append(lengths, next)
		rest += s.lap - next
	}
	return append(lengths, rest), fresh, true
}

// bench is rolls as they are cut, the last of them still open.
type bench struct {
	packing
	fill float64 // of the last roll
}

func (b *bench) cut(item int, lengths []float64, fresh bool) {
	for k, l := range lengths {
		if fresh || k > 0 {
			b.rolls++
			b.fill = 0
		}
		b.cuts = append(b.cuts, cut{item, b.rolls - 1, b.fill, l})
		b.fill += l
	}
	b.joints += len(lengths) - 1
}

// firstFit cuts the longest first, each from the first roll that has room for it,
// and joins only what is longer than a roll.
func (s stock) firstFit(items []float64, order []int) packing {
	b := bench{fill: s.length}
	var used []float64
	for _, i := range order {
		roll := slices.IndexFunc(used, func(u float64) bool { return items[i] <= s.length-u+slack })
		if roll >= 0 {
			b.cuts = append(b.cuts, cut{i, roll, used[roll], items[i]})
			used[roll] += items[i]
			continue
		}
		lengths, _, _ := s.place(s.length, items[i], false)
		b.cut(i, lengths, true)
		used = append(used, lengths...)
	}
	return b.packing
}

// inTurn uses one roll after the other: the longest strip that fits into the
// rest, and where none does the longest of all begins there.
func (s stock) inTurn(items []float64, order []int) packing {
	b := bench{fill: s.length}
	left := slices.Clone(order)
	for len(left) > 0 {
		k := slices.IndexFunc(left, func(i int) bool { return items[i] <= s.length-b.fill+slack })
		lengths, fresh, ok := s.place(b.fill, items[left[max(k, 0)]], true)
		for next := 1; !ok && next < len(left); next++ {
			k = next
			lengths, fresh, ok = s.place(b.fill, items[left[k]], true)
		}
		if !ok {
			k = 0
			lengths, fresh, _ = s.place(b.fill, items[left[0]], false)
		}
		k = max(k, 0)
		b.cut(left[k], lengths, fresh)
		left = slices.Delete(left, k, k+1)
	}
	return b.packing
}

// step is one way to have cut a set of strips: how many rolls and joints it took
// and how much of the last roll is used, and the step before.
type step struct {
	rolls, joints int
	fill          float64
	before        *step
	kind          int
	lengths       []float64
	fresh         bool
}

// beats reports whether nothing that can follow u is better than it is after s.
func (s *step) beats(u *step) bool {
	return s.joints <= u.joints && (s.rolls < u.rolls || s.rolls == u.rolls && s.fill <= u.fill+slack/100)
}

// search finds the best order in which to cut strips, and which of them to join,
// by way of every set that can be cut first. It gives up where there are more
// than [mostStates] of them.
func (s stock) search(items []float64, order []int) (packing, bool) {
	var kinds [][]int // items of one length
	for _, i := range order {
		if n := len(kinds); n > 0 && items[kinds[n-1][0]]-items[i] <= slack {
			kinds[n-1] = append(kinds[n-1], i)
		} else {
			kinds = append(kinds, []int{i})
		}
	}
	states := 1
	weight := make([]int, len(kinds))
	for k, of := range kinds {
		weight[k] = states
		if states *= len(of) + 1; states > mostStates {
			return packing{}, false
		}
	}
	ways := make([][]*step, states)
	ways[0] = []*step{{fill: s.length}}
	for at := range states - 1 {
		for k, of := range kinds {
			if at/weight[k]%(len(of)+1) == len(of) {
				continue
			}
			for _, w := range ways[at] {
				next := &ways[at+weight[k]]
				if s.follow(next, w, k, items[of[0]], false) {
					s.follow(next, w, k, items[of[0]], true)
				}
			}
		}
	}
	last := slices.MinFunc(ways[states-1], func(a, b *step) int {
		return cmp.Or(cmp.Compare(a.rolls, b.rolls), cmp.Compare(a.joints, b.joints))
	})
	return retrace(last, kinds), true
}

// follow adds the way in which an item follows w, unless another is as good, and
// reports whether the item did not fit into the rest of the roll.
func (s stock) follow(next *[]*step, w *step, kind int, item float64, join bool) (open bool) {
	lengths, fresh, ok := s.place(w.fill, item, join)
	if !ok {
		return true
	}
	n := &step{w.rolls + len(lengths) - 1, w.joints + len(lengths) - 1, lengths[len(lengths)-1], w, kind, lengths, fresh}
	if fresh {
		n.rolls++
	} else if len(lengths) == 1 {
		n.fill += w.fill
	}
	if slices.ContainsFunc(*next, func(o *step) bool { return o.beats(n) }) {
		return n.rolls > w.rolls
	}
	*next = append(slices.DeleteFunc(*next, n.beats), n)
	return n.rolls > w.rolls
}

// retrace cuts the strips in the order that leads to last.
func retrace(last *step, kinds [][]int) packing {
	var path []*step
	for s := last; s.before != nil; s = s.before {
		path = append(path, s)
	}
	slices.Reverse(path)
	var b bench
	used := make([]int, len(kinds))
	for _, s := range path {
		b.cut(kinds[s.kind][used[s.kind]], s.lengths, s.fresh)
		used[s.kind]++
	}
	return b.packing
}
