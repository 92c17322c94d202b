package survey

import (
	"math/rand/v2"

	"example.com/groundrule/pkg/internal/cells"
)

// choices lists the cells that an entry can be told in, -1 for not told.
func (w *drafter) choices(i int) []int {
	out := []int{}
	if !w.entries[i].Required {
		out = append(out, -1)
	}
	cs, e := w.cellsOf(i), w.entries[i]
	for cell := range cs.Count() {
		if !cs.Ordered() || cs.Reaches(cell, e.low, e.high) {
			out = append(out, cell)
		}
	}
	return out
}

// cellsOf returns the cells of what an entry tells. An entry that is no input has
// one.
func (w *drafter) cellsOf(i int) *cells.Cells {
	if name, ok := w.inputOf(i); ok {
		return w.m.cells[name]
	}
	return &cells.Cells{}
}

// tell tells an entry in a cell, or leaves it untold.
func (w *drafter) tell(d draft, i, cell int, rng *rand.Rand) {
	w.putEntry(d, i, w.cellsOf(i), cell, cell >= 0, rng)
}

// movable lists the entries that have a part and are not held.
func (w *drafter) movable() []int {
	var out []int
	for i := range w.entries {
		if w.used[i] && !w.isHeld(i) {
			out = append(out, i)
		}
	}
	return out
}

// shares are the shares of entries that random jobs tell: from nearly nothing,
// as jobs come in, to nearly everything.
var shares = []float64{0.05, 0.15, 0.3, 0.5, 0.7, 0.9}

// randomDraft drafts a job that can be, at random: cells first, so that rare
// values are met as often as usual ones.
func (w *drafter) randomDraft(rng *rand.Rand) draft {
	d := w.start(rng)
	share := shares[rng.IntN(len(shares))]
	for _, i := range w.movable() {
		if w.entries[i].Required || rng.Float64() < share {
			cells := w.choices(i)
			w.tell(d, i, cells[rng.IntN(len(cells))], rng)
		}
	}
	return w.mend(d, rng)
}

// mend leaves entries out, one by one at random, until the job can be.
func (w *drafter) mend(d draft, rng *rand.Rand) draft {
	if _, ok := w.site(d); ok {
		return d
	}
	out := w.start(rng)
	order := rng.Perm(len(d))
	for _, i := range order {
		if d[i] == nil || w.isHeld(i) {
			continue
		}
		before := out[i]
		out[i] = d[i]
		if _, ok := w.site(out); !ok {
			out[i] = before
		}
	}
	return out
}

// pairs keeps which two cells of two entries have met in one job.
type pairs struct {
	at   [][]int // the number of each cell of each entry
	met  []bool
	wide int
}

// covering drafts jobs until every two cells of every two entries have met in
// one of them, or until there are as many as allowed. Each job is begun with a
// pair that has not met and filled up, entry by entry, with the cell that meets
// most others anew.
func (w *drafter) covering(most int, rng *rand.Rand) []draft {
	entries := w.movable()
	cells := make([][]int, len(entries))
	p := &pairs{at: make([][]int, len(entries))}
	for e, i := range entries {
		cells[e] = w.choices(i)
		p.at[e] = make([]int, len(cells[e]))
		for c := range cells[e] {
			p.at[e][c] = p.wide
			p.wide++
		}
	}
	p.met = make([]bool, p.wide*p.wide)
	var out []draft
	for a := range entries {
		for b := range a {
			for x := range cells[a] {
				for y := range cells[b] {
					if len(out) >= most {
						return out
					}
					if p.met[p.at[a][x]*p.wide+p.at[b][y]] {
						continue
					}
					chosen := p.fill(cells, a, x, b, y, rng)
					d := w.start(rng)
					for e, i := range entries {
						w.tell(d, i, cells[e][chosen[e]], rng)
					}
					out = append(out, w.mend(d, rng))
				}
			}
		}
	}
	return out
}

// fill chooses a cell for every entry, given those of two, and notes what met.
func (p *pairs) fill(cells [][]int, a, x, b, y int, rng *rand.Rand) []int {
	chosen := make([]int, len(cells))
	for e := range chosen {
		chosen[e] = -1
	}
	chosen[a], chosen[b] = x, y
	for _, e := range rng.Perm(len(cells)) {
		if chosen[e] >= 0 {
			continue
		}
		best, most := 0, -1
		offset := rng.IntN(len(cells[e]))
		for n := range min(len(cells[e]), mostLooked) {
			c := (n + offset) % len(cells[e])
			if fresh := p.fresh(chosen, e, c); fresh > most {
				best, most = c, fresh
			}
		}
		chosen[e] = best
	}
	for e, c := range chosen {
		for f, g := range chosen {
			p.met[p.at[e][c]*p.wide+p.at[f][g]] = true
		}
	}
	return chosen
}

// mostLooked is how many cells of an entry are weighed for one job.
const mostLooked = 12

func (p *pairs) fresh(chosen []int, e, c int) int {
	n := 0
	for f, g := range chosen {
		if f != e && g >= 0 && !p.met[p.at[e][c]*p.wide+p.at[f][g]] {
			n++
		}
	}
	return n
}

// findUsed marks the entries from which what is asked is worked out.
func (w *drafter) findUsed(names []string) {
	w.used = make([]bool, len(w.entries))
	for i, e := range w.entries {
		w.used[i] = e.Required
	}
	for _, in := range w.m.inputsUnder(names) {
		for _, i := range w.entriesOf(in) {
			w.used[i] = true
		}
		for i, e := range w.entries {
			w.used[i] = w.used[i] || ofCurve(w.inputs[in]) && e.closes > 0
		}
	}
}
