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
	parts := []cells.Node{m.bounded(w), m.spoken(w)}
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

// declared reports whether the book was opened with an input; a set about one that
// was not holds every job.
func (m *model) declared(name string) bool { return m.isInput(name) }

func (m *model) told(name string) cells.Node {
	if !m.declared(name) {
		return cells.Never
	}
	return m.known(name)
}

// is is the set of jobs in which a name has one of the values, written as a job
// file has them, any value if there are none, or one above zero.
func (m *model) is(name string, values []string, aboveZero bool) cells.Node {
	values = slices.DeleteFunc(slices.Clone(values), func(v string) bool { return v == "" })
	switch {
	case !m.declared(name):
		return cells.Never
	case aboveZero:
		return m.aboveZero(name)
	case len(values) == 0:
		return m.told(name)
	}
	var in cells.Set
	for cell := range m.cells[name].Count() {
		v, _ := m.cells[name].Single(cell)
		text := v.Text(quantity.US)
		if w, ok := v.Word(); ok {
			text = w.Go
		}
		if slices.Contains(values, text) {
			in = in.With(cell)
		}
	}
	return m.name(name, in)
}

// aboveZero is the set of jobs in which a measured input surely is above zero.
func (m *model) aboveZero(name string) cells.Node {
	if !m.declared(name) {
		return cells.Never
	}
	var in cells.Set
	for cell := range m.cells[name].Count() {
		low, lowOK, _, _ := m.cells[name].Ends(cell)
		v, one := m.cells[name].Single(cell)
		if one && cells.NumberOf(v) > 0 || lowOK && cells.NumberOf(low) >= 0 {
			in = in.With(cell)
		}
	}
	return m.name(name, in)
}

// workedOutOf says that an input that is worked out from others is there only
// where they are, and if it is total, wherever they are.
func (m *model) workedOutOf(f site.Field) cells.Node {
	here, all := m.told(f.Path), cells.Always
	for _, from := range f.From {
		if from == f.Path || !m.declared(from) {
			return cells.Always
		}
		all = m.d.And(all, m.told(from))
	}
	if len(f.From) == 0 || !m.declared(f.Path) {
		return cells.Always
	}
	out := m.d.Or(m.d.Not(here), all)
	if f.Total {
		out = m.d.And(out, m.d.Or(m.d.Not(all), here))
	}
	return out
}

// spoken leaves out the texts that are not words of the rulebook, where it
// declares which there are.
func (m *model) spoken(w *drafter) cells.Node {
	out := cells.Always
	for _, e := range w.entries {
		if e.Form != site.TextForm || len(e.words) == 0 || !m.declared(e.Path) {
			continue
		}
		cs, in := m.cells[e.Path], cells.One(m.notTold(e.Path))
		for cell := range cs.Count() {
			if _, ok := e.textIn(cs, cell); ok {
				in = in.With(cell)
			}
		}
		out = m.d.And(out, m.d.In(m.input(e.Path), in))
	}
	return out
}

// bounded leaves out the cells of which no job may tell a value.
func (m *model) bounded(w *drafter) cells.Node {
	out := cells.Always
	for _, input := range m.book.Inputs() {
		name := input.Name
		f, ok := w.inputs[name]
		low, high := f.Bounds()
		if !ok || !m.cells[name].Ordered() || m.cells[name].Count() > cells.Most {
			continue
		}
		in := cells.One(m.notTold(name))
		for cell := range m.cells[name].Count() {
			if m.cells[name].Reaches(cell, low, high) {
				in = in.With(cell)
			}
		}
		if in.Count() <= m.cells[name].Count() {
			out = m.d.And(out, m.d.In(m.input(name), in))
		}
	}
	return out
}
