package survey

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// draft is a job in the making: for each entry its value, nil for what the job
// does not tell.
type draft []any

func (d draft) told() int {
	n := 0
	for _, v := range d {
		if v != nil {
			n++
		}
	}
	return n
}

// drafter drafts jobs whose inputs lie in wanted cells.
type drafter struct {
	book    *engine.Book
	table   *site.Table
	blank   *site.Site // tells nothing, and knows the words of the table
	inputs  map[string]site.Field
	entries []entry
	index   map[string]int // of entries, by path
	m       *model
	fixed   []pin
	// worth are the values worth trying, of each entry in each of its cells.
	worth [][][]float64
	// used tells which entries have a part in what is asked; the others are
	// left untold.
	used []bool
	// early are the decisions that a refusal needs, asked before it is known.
	early map[string]bool
}

// pin is an input that the survey was told to hold in one cell.
type pin struct {
	input string
	cell  int
	value value.Value // zero for not told
}

func newDrafter(m *model) *drafter {
	w := &drafter{book: m.book, table: inside.Table(m.book), m: m, inputs: map[string]site.Field{}, index: map[string]int{}, early: map[string]bool{}}
	w.blank, _ = w.table.Close(&site.Site{}) // it is no job, since it tells nothing
	w.entries = entries(m.book, w.table.Inputs())
	for _, f := range w.table.Inputs() {
		w.inputs[f.Path] = f
	}
	for i, e := range w.entries {
		w.index[e.Path] = i
	}
	for _, r := range w.book.Refusals() {
		for _, n := range m.under(r.When.Names()) {
			w.early[n] = true
		}
	}
	return w
}

// plain is the shortest job: what every job must tell, and nothing else.
func (w *drafter) plain() draft {
	d := make(draft, len(w.entries))
	for i, e := range w.entries {
		if e.Required {
			d[i] = e.usual
		}
	}
	return d
}

// site builds the job; ok is false for one that cannot be.
func (w *drafter) site(d draft) (s *site.Site, ok bool) {
	blank := *w.blank
	s = &blank
	for i, v := range d {
		if v != nil {
			w.entries[i].give(s, v)
		}
	}
	level(s)
	s, err := w.table.Close(s)
	return s, err == nil
}

// level lets no more pass a sieve than passes the coarser ones.
func level(s *site.Site) {
	slices.SortFunc(s.Soil.Sieves, func(a, b site.Sieve) int { return cmp.Compare(b.Opening, a.Opening) })
	most := quantity.Share(math.Inf(1))
	for i := range s.Soil.Sieves {
		sieve := &s.Soil.Sieves[i]
		if fine := s.Soil.Passing002; fine != nil && sieve.Opening < quantity.Millimeters(0.02) {
			*fine = min(*fine, most)
			most = *fine
		}
		sieve.Passing = min(sieve.Passing, most)
		most = sieve.Passing
	}
	if fine := s.Soil.Passing002; fine != nil {
		*fine = min(*fine, most)
	}
}

// with returns the draft with one entry changed.
func (d draft) with(i int, v any) draft {
	out := slices.Clone(d)
	out[i] = v
	return out
}

// put changes the draft so that an input lies in a cell, and reports whether it
// knows a way to; only the site itself can say whether the job then is as wanted.
func (w *drafter) put(d draft, input string, cell int, rng *rand.Rand) bool {
	told := cell != w.m.notTold(input)
	if i, ok := w.index[input]; ok && told {
		return w.tell(d, i, cell, rng)
	} else if ok {
		return w.tell(d, i, -1, rng)
	}
	f := w.inputs[input]
	if ofCurve(f) {
		for i, e := range w.entries { // the ends of the curve
			switch {
			case e.closes > 0 && !told:
				d[i] = nil
			case e.closes == coarsest && d[i] == nil:
				d[i] = e.high
			case e.closes == finest && d[i] == nil:
				d[i] = e.low
			}
		}
		return true
	} else if len(f.From) != 2 {
		return false
	}
	// The first of the two entries from which it is worked out follows from the other.
	first, second := w.index[f.From[0]], w.index[f.From[1]]
	if !told {
		d[first] = nil
		return true
	}
	if d[second] == nil {
		d[second] = w.entries[second].usual
	}
	other, _ := d[second].(float64)
	low, high := f.Bounds()
	usual, _ := f.Sample().(float64)
	x, ok := f.Solve(drawIn(w.m.cells[input], cell, low, high, usual, rng), other)
	d[first] = min(max(x, w.entries[first].low), w.entries[first].high)
	return ok
}

// tell tells an entry in a cell, or leaves it untold where that is below 0; it reports
// false where it knows no way to.
func (w *drafter) tell(d draft, i, cell int, rng *rand.Rand) bool {
	e, cs, ok := w.entries[i], w.cellsOf(i), true
	switch {
	case cell < 0:
		d[i] = nil
		return !e.Required
	case e.Form == site.FlagForm:
		d[i] = cell == 1
	case e.Form == site.WordForm && cell < len(e.words):
		d[i] = e.words[cell]
	case e.Form == site.WordForm:
		return false
	case e.Form == site.TextForm:
		d[i], ok = e.textIn(cs, cell)
	case w.worth != nil && len(w.worth[i][cell]) > 0 && rng.IntN(4) == 0:
		d[i] = w.worth[i][cell][rng.IntN(len(w.worth[i][cell]))]
	default:
		usual, _ := e.usual.(float64)
		d[i] = drawIn(cs, cell, e.low, e.high, usual, rng)
	}
	return ok
}

// textIn returns a text that lies in a cell; ok is false where the rulebook has no
// such word.
func (e entry) textIn(cs *cells.Cells, cell int) (text string, ok bool) {
	if v, one := cs.Single(cell); one {
		text, _ = v.PlainText()
		return text, len(e.words) == 0 || slices.Contains(e.words, text)
	}
	i := slices.IndexFunc(e.words, func(word string) bool {
		at, _ := cs.Of(value.Text(word))
		return at == cell
	})
	if i >= 0 {
		return e.words[i], true
	}
	return "something else", len(e.words) == 0
}

// drawIn draws a number from a cell, between the least and most that may be, which are
// drawn now and then.
func drawIn(cs *cells.Cells, cell int, low, high, usual float64, rng *rand.Rand) float64 {
	if v, one := cs.Single(cell); one {
		return cells.NumberOf(v)
	}
	a, b := low, high
	from, fromOK, to, toOK := cs.Ends(cell)
	if fromOK = fromOK && cells.NumberOf(from) >= a; fromOK {
		a = cells.NumberOf(from)
	}
	if toOK = toOK && cells.NumberOf(to) <= b; toOK {
		b = cells.NumberOf(to)
	}
	switch n := rng.IntN(24); {
	case n < 2 && !fromOK && !unbounded(a):
		return a
	case n == 2 && !toOK && !unbounded(b):
		return b
	}
	return drawBetween(a, b, usual, rng)
}

// unbounded tells a limit that is there for the writing of numbers alone.
func unbounded(x float64) bool { return math.Abs(x) > 1e50 || math.Abs(x) < 1e-50 && x != 0 }

// drawBetween draws from an open stretch: near its ends, in its middle, or
// anywhere, over some orders of size where it is long.
func drawBetween(a, b, usual float64, rng *rand.Rand) float64 {
	scale, openLow, openHigh := math.Max(math.Abs(usual), 1e-12), unbounded(a) && a < 0, unbounded(b) && b > 0
	far := portable.Pow(10, float64(3.5*rng.Float64())-2)
	near := portable.Pow(10, -3*rng.Float64())
	switch {
	case openLow && openHigh:
		return scale * far
	case openHigh && rng.IntN(4) == 0 && usual > a:
		return usual
	case openHigh:
		return a + float64(math.Max(scale, math.Abs(a))*far)
	case openLow:
		return b - float64(math.Max(scale, math.Abs(b))*far)
	}
	shares := []float64{0.5, 0.001, 0.999, near, near, rng.Float64(), rng.Float64(), rng.Float64()}
	return a + float64((b-a)*shares[rng.IntN(len(shares))])
}

// hold puts the inputs that the survey holds into the draft.
func (w *drafter) hold(d draft, rng *rand.Rand) {
	for _, p := range w.fixed {
		w.put(d, p.input, p.cell, rng)
	}
}

// entriesOf returns the entries from which an input is had.
func (w *drafter) entriesOf(input string) []int {
	if i, ok := w.index[input]; ok {
		return []int{i}
	}
	f := w.inputs[input]
	var out []int
	for i, e := range w.entries {
		if slices.Contains(f.From, e.Path) || ofCurve(f) && (e.closes > 0 || ofCurve(e.Field)) {
			out = append(out, i)
		}
	}
	return out
}

// start is the plain job with the held inputs.
func (w *drafter) start(rng *rand.Rand) draft {
	d := w.plain()
	w.hold(d, rng)
	return d
}

// choices lists the cells that an entry can be told in, -1 for not told.
func (w *drafter) choices(i int) []int {
	out := []int{}
	if !w.entries[i].Required {
		out = append(out, -1)
	}
	cs, e := w.cellsOf(i), w.entries[i]
	for cell := range cs.Count() {
		if cs.Reaches(cell, e.low, e.high) {
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
	for _, i := range rng.Perm(len(d)) {
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
