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
	if cs := w.m.cells[w.entries[i].Path]; cs != nil {
		return cs
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

// findUsed marks the entries from which what is asked is worked out.
func (w *drafter) findUsed(names []string) {
	w.used = make([]bool, len(w.entries))
	for i, e := range w.entries {
		w.used[i] = e.Required
	}
	for _, in := range w.m.under(names) {
		for _, i := range w.entriesOf(in) {
			w.used[i] = true
		}
		for i, e := range w.entries {
			w.used[i] = w.used[i] || ofCurve(w.inputs[in]) && e.closes > 0
		}
	}
}
