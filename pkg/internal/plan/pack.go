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

// pack cuts items, the lengths of strips, from as few rolls as it can, up to most, and
// then with as few joints. The answer is proven for up to 11 strips of different
// lengths, and for more where many are alike; beyond that it is a good one, and bound
// says how good.
func (s stock) pack(items []float64, most int) (packing, bool) {
	order := make([]int, len(items))
	for i := range items {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(items[b], items[a]) })
	bound := s.bound(items)
	if bound > most {
		return packing{}, false
	}
	_, forced := s.need(items)
	best := s.firstFit(items, order)
	if best.rolls > bound {
		found, ok, whole := s.search(items, order, min(most, best.rolls))
		if whole {
			found.bound, found.exact = found.rolls, true
			return found, ok
		}
		if found = s.inTurn(items, order); found.rolls < best.rolls {
			best = found
		}
	}
	best.bound, best.exact = bound, best.rolls == bound && best.joints == forced
	return best, best.rolls <= most
}

// forced is how many joints a strip needs because it is longer than a roll.
func (s stock) forced(item float64) int {
	if item <= s.length+slack {
		return 0
	}
	return roundUp((item-s.lap)/(s.length-s.lap)) - 1
}

// need returns the length of all items with the joints that they must have.
func (s stock) need(items []float64) (length float64, joints int) {
	for _, l := range items {
		length += l
		joints += s.forced(l)
	}
	return length + float64(float64(joints)*s.lap), joints
}

// roundUp is the least whole number that x does not pass by more than rounding.
func roundUp(x float64) int { return int(math.Ceil(x - slack)) }

// bound returns a number of rolls below which the items cannot be cut: their sum
// with the joints that they must have; and where none is joined the bound L2 of
// Martello and Toth (Knapsack Problems, 1990, chapter 8, from memory).
func (s stock) bound(items []float64) int {
	sum, _ := s.need(items)
	bound := roundUp(sum / s.length)
	if slices.ContainsFunc(items, s.canJoin) {
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
// appends the lengths cut, each but the first from a roll of its own, and says
// whether the first begins one too and whether that can be done.
func (s stock) place(lengths []float64, fill, item float64, join bool) (cut []float64, fresh, ok bool) {
	room := s.length - fill
	if item <= room+slack {
		return append(lengths, item), false, true
	}
	if !join {
		if item <= s.length+slack {
			return append(lengths, item), true, true
		}
		room, fresh = s.length, true
	}
	least := s.least(item)
	first := min(room, item+s.lap-least)
	if first < least-slack || first <= s.lap+slack {
		return lengths, false, false
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
		lengths, _, _ := s.place(nil, s.length, items[i], false)
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
		k := max(slices.IndexFunc(left, func(i int) bool { return items[i] <= s.length-b.fill+slack }), 0)
		lengths, fresh, ok := s.place(nil, b.fill, items[left[k]], true)
		if !ok { // where the longest cannot begin, no other can
			lengths, fresh, _ = s.place(nil, b.fill, items[left[k]], false)
		}
		b.cut(left[k], lengths, fresh)
		left = slices.Delete(left, k, k+1)
	}
	return b.packing
}

// step is one way to have cut a set of strips: how many rolls and joints it took
// and how much of the last roll is used; and the last strip, whether it was joined
// and the step before.
type step struct {
	rolls, joints int
	fill          float64
	kind          int
	join          bool
	before, other int // other is the next step to the same set; 0 is none
}

// beats reports whether nothing that can follow u is better than it is after s.
func (s *step) beats(u *step) bool {
	return s.joints <= u.joints && (s.rolls < u.rolls || s.rolls == u.rolls && s.fill <= u.fill+slack/100)
}

// kinds groups items of one length, the longest first.
func kinds(items []float64, order []int) (kinds [][]int) {
	for _, i := range order {
		if n := len(kinds); n > 0 && items[kinds[n-1][0]]-items[i] <= slack {
			kinds[n-1] = append(kinds[n-1], i)
		} else {
			kinds = append(kinds, []int{i})
		}
	}
	return kinds
}

// search finds the best order in which to cut strips from up to most rolls, and which
// of them to join, by way of every set that can be cut first. It fails where there is
// none, and gives up where there are more than [mostStates] sets.
func (s stock) search(items []float64, order []int, most int) (best packing, found, whole bool) {
	kinds := kinds(items, order)
	states, left := 1, 0.0
	weight, length := make([]int, len(kinds)), make([]float64, len(kinds))
	for k, of := range kinds {
		weight[k], length[k] = states, items[of[0]]
		left += float64(length[k] * float64(len(of)))
		if states *= len(of) + 1; states > mostStates {
			return packing{}, false, false
		}
	}
	steps := []step{{}, {fill: s.length}}                       // the first is none
	first, rest := make([]int, states), make([]float64, states) // the first step to each set, and what is left to cut
	first[0], rest[0] = 1, left
	var buffer []float64
	for at := range states - 1 {
		for k, of := range kinds {
			if at/weight[k]%(len(of)+1) == len(of) {
				continue
			}
			next := at + weight[k]
			rest[next] = rest[at] - length[k]
			for w := first[at]; w > 0; w = steps[w].other {
				for _, join := range []bool{false, true} {
					lengths, fresh, ok := s.place(buffer[:0], steps[w].fill, length[k], join)
					buffer = lengths[:0]
					if ok {
						n := steps[w].after(lengths, fresh)
						n.kind, n.join, n.before = k, join, w
						if used := float64(float64(n.rolls-1)*s.length) + n.fill; used+rest[next] <= float64(float64(most)*s.length)+slack {
							steps, first[next] = enter(steps, first[next], n)
						}
						if n.rolls == steps[w].rolls {
							break // it fits into what is left
						}
					}
				}
			}
		}
	}
	last := first[states-1]
	if last == 0 {
		return packing{}, false, true
	}
	for w := last; w > 0; w = steps[w].other {
		if cmp.Or(steps[w].rolls-steps[last].rolls, steps[w].joints-steps[last].joints) < 0 {
			last = w
		}
	}
	return s.retrace(steps, last, kinds, items), true, true
}

// after returns the step that pieces of one more strip make of s.
func (s step) after(lengths []float64, fresh bool) step {
	n := step{rolls: s.rolls + len(lengths) - 1, joints: s.joints + len(lengths) - 1, fill: lengths[len(lengths)-1]}
	if fresh {
		n.rolls++
	} else if len(lengths) == 1 {
		n.fill += s.fill
	}
	return n
}

// enter adds a step to those to the same set, of which first is the first, and
// takes out those that it beats, unless one of them beats it.
func enter(steps []step, first int, n step) ([]step, int) {
	for w := first; w > 0; w = steps[w].other {
		if steps[w].beats(&n) {
			return steps, first
		}
	}
	n.other = first
	for before, w := 0, first; w > 0; w = steps[w].other {
		switch {
		case !n.beats(&steps[w]):
			before = w
		case before == 0:
			n.other = steps[w].other
		default:
			steps[before].other = steps[w].other
		}
	}
	return append(steps, n), len(steps)
}

// retrace cuts the strips in the order that leads to the last step.
func (s stock) retrace(steps []step, last int, kinds [][]int, items []float64) packing {
	var path []step
	for w := last; steps[w].before > 0; w = steps[w].before {
		path = append(path, steps[w])
	}
	slices.Reverse(path)
	b := bench{fill: s.length}
	for _, p := range path {
		item := kinds[p.kind][0]
		kinds[p.kind] = kinds[p.kind][1:]
		lengths, fresh, _ := s.place(nil, b.fill, items[item], p.join)
		b.cut(item, lengths, fresh)
	}
	return b.packing
}
