package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// guard is what keeps a job from getting a section: a refusal, a check that
// stops, a limit of an answer. Every section passes every guard.
type guard struct {
	what   string
	by     Named
	names  []string // that it reads
	passes func() cells.Node
}

// guards lists the guards of the book: refusals first, which are the cheapest.
func (m *model) guards() []guard {
	var out []guard
	for _, r := range m.book.Refusals() {
		out = append(out, guard{"refusal", Named{r.ID, r.Place}, r.When().Names(), func() cells.Node { return m.d.Not(m.condition(r.When())) }})
	}
	for _, c := range m.book.Checks() {
		if c.Failing == rulebook.Stops {
			names := append(c.When().Names(), c.Holds().Names()...)
			if checked, limit, ok := m.book.CheckFormulas(c); ok {
				names = append(append(names, checked.Names()...), limit.Names()...)
			}
			out = append(out, guard{"check", Named{c.ID, c.Place}, names, func() cells.Node {
				return m.d.Or(m.d.Not(m.condition(c.When())), m.met(c))
			}})
		}
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			if !l.Permitted() {
				limit, _ := m.book.LimitFormula(l)
				out = append(out, guard{"limit", Named{l.ID, l.Place}, slices.Concat([]string{d.Name}, l.When().Names(), limit.Names()), func() cells.Node {
					return m.d.Or(m.d.Not(m.d.And(m.condition(d.When()), m.condition(l.When()))), m.within(d, l))
				}})
			}
		}
	}
	return out
}

// met is the set of jobs in which a check that applies is met.
func (m *model) met(c *engine.Check) cells.Node {
	if c.Holds() != nil {
		return m.condition(c.Holds())
	}
	return m.compared(c)
}

// within is the set of jobs in which an answer may be within a limit.
func (m *model) within(d *engine.Decision, l *engine.Limit) cells.Node {
	if c, ok := m.limitComparison(d, l); ok {
		if n, ok := m.comparison(c); ok {
			return n
		}
	}
	if words := slices.Concat(l.OneOf, l.NoneOf); len(words) > 0 && d.Take != rulebook.All {
		var in cells.Set
		cs := m.cells[d.Name]
		for cell := range cs.Count() {
			v, _ := cs.Single(cell)
			named := slices.ContainsFunc(words, func(w value.Word) bool { return v.Is(value.OfWord(&w)) })
			if named == (len(l.OneOf) > 0) {
				in = in.With(cell)
			}
		}
		return m.name(d.Name, in)
	}
	return cells.Always
}

// limitComparison returns the comparison that a limit makes of an answer.
func (m *model) limitComparison(d *engine.Decision, l *engine.Limit) (engine.Comparison, bool) {
	limit, ok := m.book.LimitFormula(l)
	if !ok || d.Take == rulebook.All {
		return engine.Comparison{}, false
	}
	op := ">="
	if l.AtMost != (rulebook.Text{}) {
		op = "<="
	}
	return m.sides(m.book.NameFormula(d.Name), op, limit)
}
