package survey

import (
	"cmp"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
)

// hunter looks for a job that shows one aim. It runs a job, reads off in which
// cell each variable lies, asks the diagram for the way into the aim's region
// that changes least, and changes the job that way: inputs at once, calculated
// values by moving the numbers they are calculated from, by bisection where the
// wanted cell lies between two that were met.
type hunter struct {
	*searcher
	aim    *aim
	number int // of the aim
	rng    *rand.Rand
	budget int
	ran    int
	valid  int // of those that were run
	found  []shown
	hit    bool
}

// mostSteps is how many changes are made to one job before another is begun.
const mostSteps = 14

func (h *hunter) hunt() {
	for start := 0; h.ran < h.budget && !h.hit; start++ {
		d := h.w.start(h.rng)
		switch n := len(h.drafts); {
		case start%3 == 2:
			d = h.w.randomDraft(h.rng)
		case start%3 == 1 && n > 0:
			d = h.drafts[h.rng.IntN(n)]
		}
		taste := h.taste()
		for range mostSteps {
			next, ok := h.step(d, taste)
			if !ok || h.hit || h.ran >= h.budget {
				break
			}
			d = next
		}
	}
}

// look runs one job and keeps what it shows.
func (h *hunter) look(d draft) (*seen, bool) {
	h.ran++
	x, ok := h.w.look(d)
	if !ok {
		return nil, false
	}
	found := h.shows(x)
	h.valid++
	if len(found.aims) > 0 || x.troubled() {
		h.found = append(h.found, found)
	}
	h.hit = h.hit || slices.Contains(found.aims, h.number)
	return x, true
}

// step changes a job toward the aim's region; ok is false where it is stuck.
func (h *hunter) step(d draft, taste func(variable, cell int) float64) (next draft, ok bool) {
	x, ok := h.look(d)
	if !ok || h.hit || h.ran >= h.budget {
		return nil, false
	}
	at := x.cells(h.m)
	way, ok := h.m.d.Cheapest(h.aim.region, func(variable, cell int) float64 {
		if at[variable] == cell {
			return 0
		}
		return taste(variable, cell)
	})
	if !ok {
		return nil, false
	}
	next = slices.Clone(d)
	changed := false
	for _, s := range way {
		v := h.m.variables[s.Variable]
		if v.role != inputCell || at[s.Variable] == s.Cell {
			continue
		}
		if !h.w.put(next, v.name, s.Cell, h.rng) {
			return nil, false
		}
		changed = true
	}
	if changed {
		return next, true
	}
	for _, s := range way {
		v := h.m.variables[s.Variable]
		if v.role != leftOpen || at[s.Variable] < 0 || at[s.Variable] == s.Cell {
			continue
		}
		settled := slices.DeleteFunc(slices.Clone(way), func(o cells.Step) bool {
			return h.m.variables[o.Variable].role != inputCell && at[o.Variable] >= 0 && at[o.Variable] != o.Cell
		})
		return h.drive(d, settled, s, at[s.Variable])
	}
	return nil, false
}

// taste returns what each change costs while one job is changed step by step:
// little for an input, much for what must be calculated. It is drawn anew for
// each job that is begun, so that other ways are tried, and stays the same until
// that is given up, so that a way once begun is the cheapest to go on with.
func (h *hunter) taste() func(variable, cell int) float64 {
	costs := make([][]float64, len(h.m.variables))
	for i, v := range h.m.variables {
		usual := 1 + h.rng.Float64()
		if v.role != inputCell {
			usual *= 4
		}
		for range v.cells.Count() + 1 {
			costs[i] = append(costs[i], usual+h.rng.Float64()/2)
		}
	}
	return func(variable, cell int) float64 { return costs[variable][cell] }
}

// grid is how many values of a number are tried to move what is calculated
// from it, and mostHalvings how often a stretch is halved.
const (
	grid         = 9
	mostHalvings = 70
)

// drive moves the numbers from which a variable is calculated, those that the job tells
// first, until it lies in the wanted cell. The rest of the way is what must stay as it is.
func (h *hunter) drive(d draft, way []cells.Step, want cells.Step, now int) (draft, bool) {
	movers := h.w.upstream(h.m.variables[want.Variable])
	h.rng.Shuffle(len(movers), func(i, j int) { movers[i], movers[j] = movers[j], movers[i] })
	for _, told := range []bool{true, false} {
		for _, i := range movers {
			if h.w.isHeld(i) || told != (d[i] != nil) {
				continue
			}
			if next, ok := h.move(d, i, way, want, now); ok || h.hit || h.ran >= h.budget {
				return next, ok
			}
		}
	}
	return nil, false
}

// sample is one value of a number with the cell that it brought about.
type sample struct {
	x    float64
	cell int
}

// move tries values of a number, within the cell in which the way wants it, and halves
// every stretch between two with which the variable lies on both sides of the wanted
// cell, or of its edge: there alone two conditions may both fail, or both hold.
func (h *hunter) move(d draft, i int, way []cells.Step, want cells.Step, now int) (draft, bool) {
	var got []sample
	if x, told := d[i].(float64); told {
		got = append(got, sample{x, now})
	}
	choices := h.cellsFor(d, i, way)
	try := func(x float64) (cell int, done bool) {
		s, ok := h.look(d.with(i, x))
		if !ok {
			return -1, h.hit
		}
		cell = s.cellOf(h.m, h.m.variables[want.Variable])
		return cell, h.hit || cell == want.Cell && h.fits(s, way)
	}
	for n := 0; n < grid && len(choices) > 0; n++ {
		next := slices.Clone(d)
		h.w.tell(next, i, choices[h.rng.IntN(len(choices))], h.rng)
		x, told := next[i].(float64)
		if !told {
			continue
		}
		cell, done := try(x)
		switch {
		case done:
			return d.with(i, x), true
		case h.ran >= h.budget:
			return nil, false
		case cell >= 0:
			got = append(got, sample{x, cell})
		}
	}
	slices.SortFunc(got, func(a, b sample) int { return cmp.Compare(a.x, b.x) })
	for j := 1; j < len(got); j++ {
		low, high := got[j-1], got[j]
		for range mostHalvings {
			x := low.x + (high.x-low.x)/2
			if cmp.Compare(low.cell, want.Cell) == cmp.Compare(high.cell, want.Cell) || x == low.x || x == high.x || h.ran >= h.budget {
				break
			}
			cell, done := try(x)
			switch {
			case done:
				return d.with(i, x), true
			case cell < 0:
				return nil, false
			case cmp.Compare(cell, want.Cell) == cmp.Compare(low.cell, want.Cell):
				low = sample{x, cell}
			default:
				high = sample{x, cell}
			}
		}
	}
	return nil, false
}

// cellsFor returns the cells in which a way lets a number be told; none where it must stay
// untold.
func (h *hunter) cellsFor(d draft, i int, way []cells.Step) []int {
	name := h.w.entries[i].Path
	for _, s := range way {
		switch v := h.m.variables[s.Variable]; {
		case v.role != inputCell || v.name != name:
		case s.Cell == h.m.notTold(name):
			return nil
		default:
			return []int{s.Cell}
		}
	}
	if d[i] == nil && !h.m.isInput(name) {
		return nil
	}
	return h.w.choices(i)
}

// fits reports whether what is calculated still lies where the way wants it.
func (h *hunter) fits(s *seen, way []cells.Step) bool {
	for _, each := range way {
		if v := h.m.variables[each.Variable]; v.role == leftOpen {
			if cell := s.cellOf(h.m, v); cell >= 0 && cell != each.Cell {
				return false
			}
		}
	}
	return true
}

// isHeld reports whether the survey was told to hold what the entry tells.
func (w *drafter) isHeld(i int) bool {
	return slices.ContainsFunc(w.fixed, func(p pin) bool { return slices.Contains(w.entriesOf(p.input), i) })
}

// upstream lists the numbers from which a variable is calculated, all the way.
func (w *drafter) upstream(of variable) []int {
	var out []int
	for _, in := range w.m.under(of.reads) {
		for _, e := range w.entriesOf(in) {
			if w.entries[e].numeric() && !slices.Contains(out, e) {
				out = append(out, e)
			}
		}
	}
	return out
}
