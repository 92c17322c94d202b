package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// splitAll splits every name at every value that something asked compares it with.
func (m *model) splitAll(fixed []pin) {
	asked := m.askedClauses()
	for i := range m.book.ClauseCount() {
		if c, ok := m.clauseComparison(i); ok && asked[i] {
			m.splitBy(c)
		}
	}
	for _, f := range formulas(m.book) {
		m.splitByFormula(f)
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			if c, ok := m.limitComparison(d, l); ok && m.limited {
				m.splitBy(c)
			}
		}
	}
	for _, c := range m.book.Checks() {
		if compares, ok := m.checkComparison(c); ok {
			m.splitBy(compares)
		}
	}
	for _, p := range m.book.Promises() {
		if as, _ := p.As(); as != "" && m.limited {
			then, _ := m.book.Then(p)
			m.splitByFormula(formula{Formula: then, owner: p.ID})
		}
	}
	for _, p := range fixed {
		m.split(p.input, p.value)
	}
	for m.carry() {
	}
}

// askedClauses are the clauses of the conditions that the survey asks about, and of what
// these are worked out of. A clause that only tells which caution a job makes real, or
// which question it leaves open, splits nothing: all that a depth is worked out of would
// be told apart at the point, for no question.
func (m *model) askedClauses() map[int]bool {
	asked := map[int]bool{}
	ask := func(c *engine.Condition) {
		for _, clause := range c.Clauses() {
			asked[clause.Index] = true
		}
	}
	for _, c := range conditions(m.book) {
		ask(c.condition)
	}
	for _, p := range promises(m.book) {
		for _, c := range p.conditions() {
			ask(c)
		}
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			ask(l.When)
		}
	}
	return asked
}

func (m *model) split(name string, at value.Value) bool {
	cs, ok := m.cells[name]
	return ok && cs.Split(at)
}

func (m *model) splitBy(c engine.Comparison) {
	for _, v := range c.Values {
		m.split(c.Name, v)
	}
}

// splitByFormula splits what a formula compares, and a decision at a fixed answer where it
// matters which of two answers is the larger or whether they differ.
func (m *model) splitByFormula(f formula) {
	if c, ok := f.Comparison(); ok && f.owner != "" {
		m.splitBy(c)
	}
	if f.take == rulebook.Only || f.take == rulebook.Largest || f.take == rulebook.Smallest {
		if v, fixed := m.constant(f.Formula); fixed {
			m.split(f.owner, v)
		}
	}
}

// carry splits every name that a term or an answer merely hands on as the term
// or the decision is split, and tells whether anything was split.
func (m *model) carry() bool {
	more := false
	for _, f := range formulas(m.book) {
		from, to := m.cells[f.Text()], m.cells[f.owner]
		if from != nil && to != nil && from.Kind() == to.Kind() && f.take != rulebook.All {
			more = from.SplitAs(to) || more
		}
	}
	return more
}

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

// where is the set of jobs in which a name lies in one of the cells that pass.
func (m *model) where(name string, passes func(cs *cells.Cells, cell int) bool) cells.Node {
	cs, in := m.cells[name], cells.Set{}
	if cs == nil || cs.Count() > cells.Most {
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
			return spoken && (f.Path == "" || cs.Reaches(cell, low, high))
		})
		out = m.d.And(out, m.d.Or(may, m.d.Not(m.known(input.Name))))
	}
	return out
}
