package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// possible is the set of abstract jobs left when those are taken out that
// package site refuses: values that no job may tell, and values that contradict
// each other, as the table of the job's fields has them. It takes out no job that
// the site would take; that is tested.
func (m *model) possible(w *drafter) cells.Node {
	parts := []cells.Node{m.telling(w)}
	for _, f := range w.table.Fields() {
		for _, c := range f.Contradictions {
			parts = append(parts, m.d.Not(m.d.And(m.is(f.Path, []string{c.Is}, false), m.is(c.With, c.Words, c.AboveZero))))
		}
	}
	for _, f := range w.table.Inputs() {
		parts = append(parts, m.workedOutOf(f))
	}
	for _, in := range m.book.Inputs() {
		if in.Required {
			parts = append(parts, m.told(in.Name))
		}
	}
	return m.d.And(parts...)
}

// told is the set of jobs that tell an input; none if the book was opened without it.
func (m *model) told(name string) cells.Node {
	if !m.isInput(name) {
		return cells.Never
	}
	return m.known(name)
}

// where is the set of jobs that tell an input in one of the cells that pass.
func (m *model) where(name string, passes func(cs *cells.Cells, cell int) bool) cells.Node {
	cs, in := m.cells[name], cells.Set{}
	if !m.isInput(name) || cs.Count() > cells.Most {
		return cells.Never
	}
	for cell := range cs.Count() {
		if passes(cs, cell) {
			in = in.With(cell)
		}
	}
	return m.name(name, in)
}

// is is the set of jobs in which a name has one of the values, written as a job
// file has them, any value if there are none, or one that surely is above zero.
func (m *model) is(name string, values []string, aboveZero bool) cells.Node {
	values = slices.DeleteFunc(slices.Clone(values), func(v string) bool { return v == "" })
	if len(values) == 0 && !aboveZero {
		return m.told(name)
	}
	return m.where(name, func(cs *cells.Cells, cell int) bool {
		v, one := cs.Single(cell)
		if aboveZero {
			low, lowOK, _, _ := cs.Ends(cell)
			return one && cells.NumberOf(v) > 0 || lowOK && cells.NumberOf(low) >= 0
		}
		text := v.Text(quantity.US)
		if w, ok := v.Word(); ok {
			text = w.Go
		}
		return slices.Contains(values, text)
	})
}

// workedOutOf says that an input that is worked out from others is there only
// where they are, and if it is total, wherever they are.
func (m *model) workedOutOf(f site.Field) cells.Node {
	here, all := m.told(f.Path), cells.Always
	for _, from := range f.From {
		if from == f.Path || !m.isInput(from) {
			return cells.Always
		}
		all = m.d.And(all, m.told(from))
	}
	if len(f.From) == 0 || !m.isInput(f.Path) {
		return cells.Always
	}
	out := m.d.Or(m.d.Not(here), all)
	if f.Total {
		out = m.d.And(out, m.d.Or(m.d.Not(all), here))
	}
	return out
}

// telling leaves out the cells of which no job may tell a value, and the texts that are
// not words of the rulebook, where it declares which there are.
func (m *model) telling(w *drafter) cells.Node {
	out := cells.Always
	for _, input := range m.book.Inputs() {
		cs, f := m.cells[input.Name], w.inputs[input.Name]
		low, high := f.Bounds()
		i, isEntry := w.index[input.Name]
		if cs.Count() > cells.Most {
			continue
		}
		may := m.where(input.Name, func(cs *cells.Cells, cell int) bool {
			spoken := true
			if isEntry && w.entries[i].Form == site.TextForm && len(w.entries[i].words) > 0 {
				_, spoken = w.entries[i].textIn(cs, cell)
			}
			return spoken && (f.Path == "" || !cs.Ordered() || cs.Reaches(cell, low, high))
		})
		out = m.d.And(out, m.d.Or(may, m.d.Not(m.known(input.Name))))
	}
	return out
}
