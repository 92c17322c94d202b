package survey

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/rulebook"
)

// hunter looks for a job that shows one aim. It runs a job, reads off in which
// cell each variable lies, asks the diagram for the way into the aim's region
// that changes least, and changes the job that way: inputs at once, calculated
// values by moving the numbers they are calculated from, by bisection where the
// wanted cell lies between two that were met.
type hunter struct {
	s      *searcher
	w      *drafter
	m      *model
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
		switch n := len(h.s.drafts); {
		case start%3 == 2:
			d = h.w.randomDraft(h.rng)
		case start%3 == 1 && n > 0:
			d = h.s.drafts[h.rng.IntN(n)]
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
	x, ok := h.s.eye.look(d)
	if !ok {
		return nil, false
	}
	found := h.s.shows(x)
	h.valid++
	if len(found.aims) > 0 || found.trouble != nil {
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
		if v.role == inputCell || v.role == settingClause || at[s.Variable] < 0 || at[s.Variable] == s.Cell {
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
	noise := make([]float64, len(h.m.variables))
	for i := range noise {
		noise[i] = h.rng.Float64()
	}
	salt := h.rng.Uint64()
	return func(variable, cell int) float64 {
		mixed := (salt ^ uint64(variable)<<20 ^ uint64(cell)) * 0x9e3779b97f4a7c15
		small := float64(mixed>>40) / (1 << 24) / 2
		if h.m.variables[variable].role == inputCell {
			return 1 + noise[variable] + small
		}
		return 4 + float64(4*noise[variable]) + small
	}
}

// grid is how many values of a number are tried to move what is calculated
// from it, and mostHalvings how often a stretch is halved.
const (
	grid         = 9
	mostHalvings = 70
)

// drive moves the numbers from which a variable is calculated until it lies in
// the wanted cell. The rest of the way is what must stay as it is.
func (h *hunter) drive(d draft, way []cells.Step, want cells.Step, now int) (draft, bool) {
	pinned := map[string]int{}
	for _, s := range way {
		if v := h.m.variables[s.Variable]; v.role == inputCell {
			pinned[v.name] = s.Cell
		}
	}
	movers := slices.Clone(h.s.upstream[want.Variable])
	h.rng.Shuffle(len(movers), func(i, j int) { movers[i], movers[j] = movers[j], movers[i] })
	slices.SortStableFunc(movers, func(i, j int) int { return -cmp.Compare(told(d[i]), told(d[j])) })
	for _, i := range movers {
		if h.w.isHeld(i) || d[i] == nil && h.staysUntold(i, pinned) {
			continue
		}
		if next, ok := h.move(d, i, pinned, way, want, now); ok || h.hit || h.ran >= h.budget {
			return next, ok
		}
	}
	return nil, false
}

// told is 1 for what a job tells, which is moved first.
func told(v any) int {
	if v == nil {
		return 0
	}
	return 1
}

// staysUntold reports whether an entry must be left untold: the way wants its input
// so, or it is no input by itself.
func (h *hunter) staysUntold(i int, pinned map[string]int) bool {
	name, ok := h.w.inputOf(i)
	cell, isPinned := pinned[name]
	return !ok || isPinned && cell == h.m.notTold(name)
}

// sample is one value of a number with the cell that it brought about.
type sample struct {
	x    float64
	cell int
}

func (h *hunter) move(d draft, i int, pinned map[string]int, way []cells.Step, want cells.Step, now int) (draft, bool) {
	x0, isTold := d[i].(float64)
	var got []sample
	if isTold {
		got = append(got, sample{x0, now})
	}
	if x0 == 0 {
		x0, _ = h.w.entries[i].usual.(float64)
	}
	low, high := h.room(i, pinned)
	for n := range grid {
		x := h.spread(low, high, x0, n)
		s, cell := h.at(d, i, x, want.Variable)
		switch {
		case h.hit || cell == want.Cell && h.fits(s, way):
			return d.with(i, x), true
		case cell >= 0:
			got = append(got, sample{x, cell})
		}
		if h.ran >= h.budget {
			return nil, false
		}
	}
	slices.SortFunc(got, func(a, b sample) int { return cmp.Compare(a.x, b.x) })
	for j := 1; j < len(got); j++ {
		a, b := got[j-1], got[j]
		if a.cell == b.cell || a.cell > want.Cell && b.cell > want.Cell || a.cell < want.Cell && b.cell < want.Cell {
			continue
		}
		if next, ok := h.halve(d, i, a, b, way, want); ok || h.hit {
			return next, ok
		}
	}
	return nil, false
}

// halve looks between two values on both sides of the wanted cell, or of its
// edge: there alone two conditions may both fail, or both hold.
func (h *hunter) halve(d draft, i int, a, b sample, way []cells.Step, want cells.Step) (draft, bool) {
	for range mostHalvings {
		x := a.x + (b.x-a.x)/2
		if x == a.x || x == b.x || h.ran >= h.budget {
			break
		}
		s, cell := h.at(d, i, x, want.Variable)
		switch {
		case h.hit || cell == want.Cell && h.fits(s, way):
			return d.with(i, x), true
		case cell < 0:
			return nil, false
		case side(cell, want.Cell) == side(a.cell, want.Cell):
			a = sample{x, cell}
		default:
			b = sample{x, cell}
		}
	}
	return nil, false
}

func side(cell, of int) int { return cmp.Compare(cell, of) }

// fits reports whether what is calculated still lies where the way wants it.
func (h *hunter) fits(s *seen, way []cells.Step) bool {
	for _, each := range way {
		v := h.m.variables[each.Variable]
		if v.role == inputCell || v.role == settingClause {
			continue
		}
		if cell := s.cellOf(h.m, v); cell >= 0 && cell != each.Cell {
			return false
		}
	}
	return true
}

// at runs the job with a number changed; the cell is -1 if it was not worked
// out.
func (h *hunter) at(d draft, i int, x float64, variable int) (*seen, int) {
	s, ok := h.look(d.with(i, x))
	if !ok {
		return nil, -1
	}
	return s, s.cellOf(h.m, h.m.variables[variable])
}

// room returns the least and most that a number may be without leaving the cell
// in which the way wants it.
func (h *hunter) room(i int, pinned map[string]int) (low, high float64) {
	low, high = h.w.entries[i].low, h.w.entries[i].high
	name, ok := h.w.inputOf(i)
	if !ok {
		return low, high
	}
	cell, isPinned := pinned[name]
	if !isPinned || cell == h.m.notTold(name) {
		return low, high
	}
	if v, one := h.m.cells[name].Single(cell); one {
		return cells.NumberOf(v), cells.NumberOf(v)
	}
	from, fromOK, to, toOK := h.m.cells[name].Ends(cell)
	if fromOK {
		low = max(low, cells.NumberOf(from))
	}
	if toOK {
		high = min(high, cells.NumberOf(to))
	}
	return low, high
}

// spread returns the n-th of the values that are tried between two limits.
func (h *hunter) spread(low, high, now float64, n int) float64 {
	if !unbounded(low) && !unbounded(high) && !math.IsInf(low, 0) && !math.IsInf(high, 0) {
		share := (float64(n) + 0.5 + (h.rng.Float64()-0.5)/2) / grid
		return low + float64((high-low)*share)
	}
	x := now * portable.Pow(10, float64((float64(n)-(grid-1)/2)*0.75)+(h.rng.Float64()-0.5)/2)
	return min(max(x, low), high)
}

// isHeld reports whether the survey was told to hold what the entry tells.
func (w *drafter) isHeld(i int) bool {
	return slices.ContainsFunc(w.fixed, func(p pin) bool { return slices.Contains(w.entriesOf(p.input), i) })
}

// traceUpstream lists, for every variable that is calculated, the numbers from
// which it is, all the way.
func (s *searcher) traceUpstream() {
	s.upstream = map[int][]int{}
	for i, v := range s.m.variables {
		if v.role == inputCell || v.role == settingClause {
			continue
		}
		inputs := s.m.inputsUnder(v.reads)
		var out []int
		for _, in := range inputs {
			for _, e := range s.w.entriesOf(in) {
				if s.w.entries[e].numeric() && !slices.Contains(out, e) {
					out = append(out, e)
				}
			}
		}
		s.upstream[i] = out
	}
}

// inputsUnder lists the inputs from which names are worked out, all the way, in
// the order in which they are met.
func (m *model) inputsUnder(names []string) []string {
	var out []string
	seen := map[string]bool{}
	var visit func([]string)
	visit = func(names []string) {
		for _, n := range names {
			if seen[n] {
				continue
			}
			seen[n] = true
			origin, _ := m.book.OriginOf(n)
			switch origin {
			case rulebook.FromSite:
				out = append(out, n)
			case rulebook.FromTerm, rulebook.FromDecision:
				visit(m.book.Reads(n))
			}
		}
	}
	visit(names)
	return out
}
