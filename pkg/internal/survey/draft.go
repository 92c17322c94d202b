package survey

import (
	"cmp"
	"math"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
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
	w.entries = entries(m.book, w.table.Inputs())
	for _, f := range w.table.Inputs() {
		w.inputs[f.Path] = f
	}
	for i, e := range w.entries {
		w.index[e.Path] = i
	}
	for _, r := range w.book.Refusals() {
		for _, n := range m.under(r.When().Names()) {
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
	s = &site.Site{}
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
