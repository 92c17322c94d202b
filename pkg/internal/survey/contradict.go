package survey

import (
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// possible is the set of abstract jobs left when those are taken out that
// package site refuses: values that no job may tell, and values that contradict
// each other, as the table of the job's fields has them. It takes out no job that
// the site would take; that is tested.
func (m *model) possible(w *drafter) node {
	parts := []node{m.bounded(w), m.spoken(w)}
	for _, f := range site.Fields() {
		for _, c := range f.Contradictions {
			parts = append(parts, m.d.not(m.d.and(m.is(f.Path, []string{c.Is}, false), m.is(c.With, c.Words, c.AboveZero))))
		}
	}
	for _, f := range site.Inputs() {
		parts = append(parts, m.workedOutOf(f))
	}
	for _, in := range m.book.Inputs() {
		if in.Required {
			parts = append(parts, m.told(in.Name))
		}
	}
	return m.d.and(parts...)
}

// declared reports whether the book was opened with an input; a set about one that
// was not holds every job.
func (m *model) declared(name string) bool { return m.isInput(name) }

func (m *model) told(name string) node {
	if !m.declared(name) {
		return never
	}
	return m.known(name)
}

// is is the set of jobs in which a name has one of the values, written as a job
// file has them, any value if there are none, or one above zero.
func (m *model) is(name string, values []string, aboveZero bool) node {
	values = slices.DeleteFunc(slices.Clone(values), func(v string) bool { return v == "" })
	switch {
	case !m.declared(name):
		return never
	case aboveZero:
		return m.aboveZero(name)
	case len(values) == 0:
		return m.told(name)
	}
	var in set
	for cell := range m.cells[name].count() {
		v, _ := m.cells[name].single(cell)
		text := v.Text(quantity.US)
		if w, ok := v.Word(); ok {
			text = w.Go
		}
		if slices.Contains(values, text) {
			in = in.with(cell)
		}
	}
	return m.name(name, in)
}

// aboveZero is the set of jobs in which a measured input surely is above zero.
func (m *model) aboveZero(name string) node {
	if !m.declared(name) {
		return never
	}
	var in set
	for cell := range m.cells[name].count() {
		low, lowOK, _, _ := m.cells[name].ends(cell)
		v, one := m.cells[name].single(cell)
		if one && numberOf(v) > 0 || lowOK && numberOf(low) >= 0 {
			in = in.with(cell)
		}
	}
	return m.name(name, in)
}

// workedOutOf says that an input that is worked out from others is there only
// where they are, and if it is total, wherever they are.
func (m *model) workedOutOf(f site.Field) node {
	here, all := m.told(f.Path), always
	for _, from := range f.From {
		if from == f.Path || !m.declared(from) {
			return always
		}
		all = m.d.and(all, m.told(from))
	}
	if len(f.From) == 0 || !m.declared(f.Path) {
		return always
	}
	out := m.d.or(m.d.not(here), all)
	if f.Total {
		out = m.d.and(out, m.d.or(m.d.not(all), here))
	}
	return out
}

// spoken leaves out the texts that are not words of the rulebook, where it
// declares which there are.
func (m *model) spoken(w *drafter) node {
	out := always
	for _, e := range w.entries {
		if e.Form != site.TextForm || len(e.words) == 0 || !m.declared(e.Path) {
			continue
		}
		cs, in := m.cells[e.Path], oneCell(m.notTold(e.Path))
		for cell := range cs.count() {
			if _, ok := e.textIn(cs, cell); ok {
				in = in.with(cell)
			}
		}
		out = m.d.and(out, m.d.in(m.input(e.Path), in))
	}
	return out
}

// bounded leaves out the cells of which no job may tell a value.
func (m *model) bounded(w *drafter) node {
	out := always
	for _, input := range m.book.Inputs() {
		name := input.Name
		f, ok := w.inputs[name]
		low, high := f.Bounds()
		if !ok || m.cells[name].shape != ordered || m.cells[name].count() > mostCells {
			continue
		}
		in := oneCell(m.notTold(name))
		for cell := range m.cells[name].count() {
			if m.cells[name].reaches(cell, low, high) {
				in = in.with(cell)
			}
		}
		if in.count() <= m.cells[name].count() {
			out = m.d.and(out, m.d.in(m.input(name), in))
		}
	}
	return out
}

// reaches reports whether a cell has a value from low to high.
func (c *cells) reaches(cell int, low, high float64) bool {
	if v, one := c.single(cell); one {
		return numberOf(v) >= low && numberOf(v) <= high
	}
	from, fromOK, to, toOK := c.ends(cell)
	return !(fromOK && numberOf(from) >= high) && !(toOK && numberOf(to) <= low)
}
