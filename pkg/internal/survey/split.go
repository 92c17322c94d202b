package survey

import (
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// splitAll splits every name at every value that something asked compares it with.
func (m *model) splitAll(also map[string][]value.Value) {
	asked := m.askedClauses()
	for i := range m.book.ClauseCount() {
		if !asked[i] {
			continue
		}
		if c, ok := m.clauseComparison(i); ok {
			m.splitBy(c)
		}
	}
	for _, d := range m.book.Decisions() {
		m.splitByAnswers(d)
	}
	for _, t := range m.book.Terms() {
		if f, ok := m.book.TermFormula(t); ok {
			m.splitByFormula(f)
		}
	}
	for _, c := range m.book.Checks() {
		if compares, ok := m.checkComparison(c); ok {
			m.splitBy(compares)
		}
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			if c, ok := m.limitComparison(d, l); ok && m.limited {
				m.splitBy(c)
			}
		}
	}
	for _, p := range m.book.Promises() {
		if as, _ := p.As(); as != "" && m.limited {
			then, _ := m.book.Then(p)
			m.splitByFormula(then)
		}
	}
	for name, values := range also {
		for _, v := range values {
			m.split(name, v)
		}
	}
	for m.carry() {
	}
}

// askedClauses are the clauses of the conditions that the survey asks about, and of what
// these are worked out of. A clause that only tells which caution a job makes real, or
// which question it leaves open, splits nothing: all that a depth is worked out of would
// be told apart at the point, for no question.
func (m *model) askedClauses() map[int]bool {
	var conditions []*engine.Condition
	for _, s := range append(subjects(m.book), promises(m.book)...) {
		conditions = append(conditions, s.conditions()...)
	}
	for _, t := range m.book.Terms() {
		conditions = append(conditions, t.When(), t.TermCondition())
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			conditions = append(conditions, l.When())
		}
	}
	asked := map[int]bool{}
	for _, c := range conditions {
		for _, clause := range c.Clauses() {
			asked[clause.Index()] = true
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

func (m *model) splitByFormula(f engine.Formula) {
	if c, ok := f.Comparison(); ok {
		m.splitBy(c)
	}
}

// splitByAnswers splits a decision at its fixed answers, where it matters which
// of two answers is the larger or whether they differ.
func (m *model) splitByAnswers(d *engine.Decision) {
	for _, r := range d.Rules {
		f := m.book.AnswerFormula(r)
		m.splitByFormula(f)
		if d.Take == rulebook.First || d.Take == rulebook.All || len(d.Rules) < 2 {
			continue
		}
		if v, fixed := m.constant(f); fixed {
			m.split(d.Name, v)
		}
	}
}

// carry splits every name that a term or an answer merely hands on as the term
// or the decision is split, and tells whether anything was split.
func (m *model) carry() bool {
	more := false
	hand := func(owner string, f engine.Formula) {
		if from, ok := m.cells[f.Text()]; ok && from.Kind() == m.cells[owner].Kind() {
			more = from.SplitAs(m.cells[owner]) || more
		}
	}
	for _, t := range m.book.Terms() {
		if f, ok := m.book.TermFormula(t); ok {
			hand(t.Name, f)
		}
	}
	for _, d := range m.book.Decisions() {
		if d.Take == rulebook.All {
			continue
		}
		for _, r := range d.Rules {
			hand(d.Name, m.book.AnswerFormula(r))
		}
	}
	return more
}
