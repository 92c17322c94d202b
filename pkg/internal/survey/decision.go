package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// decisionModel is a decision over abstract jobs.
type decisionModel struct {
	m      *model
	d      *engine.Decision
	cells  *cells.Cells
	holds  []cells.Node // each rule's condition
	fires  []cells.Node // each rule holds, and no earlier one does
	none   cells.Node   // no rule holds
	answer []engine.Formula
}

// decision returns the model of a decision; its own condition is left to whoever
// asks.
func (m *model) decision(d *engine.Decision) *decisionModel {
	if dm, ok := m.decisions[d.Name]; ok {
		return dm
	}
	dm := &decisionModel{m: m, d: d, cells: m.cells[d.Name], none: cells.Always}
	for _, r := range d.Rules {
		holds := m.condition(r.When)
		dm.holds = append(dm.holds, holds)
		dm.fires = append(dm.fires, m.d.And(dm.none, holds))
		dm.none = m.d.And(dm.none, m.d.Not(holds))
		dm.answer = append(dm.answer, m.book.AnswerFormula(r))
	}
	m.decisions[d.Name] = dm
	return dm
}

// comes is the set of jobs in which a rule's answer lies in the cells.
func (dm *decisionModel) comes(rule int, in cells.Set) cells.Node {
	return dm.m.formula(dm.answer[rule], dm.d.Name, dm.cells, in)
}

// answersIn is the set of jobs in which the decision's answer lies in the cells.
func (dm *decisionModel) answersIn(in cells.Set) cells.Node {
	if in == dm.cells.All() && dm.d.Take != rulebook.All {
		return dm.m.d.Not(dm.none)
	}
	out := cells.Never
	switch dm.d.Take {
	case rulebook.All:
		return cells.Always // a list has one cell
	case rulebook.Largest, rulebook.Smallest:
		// The cell of the largest answer is the largest cell of an answer.
		for cell := range dm.cells.Count() {
			if in.Has(cell) {
				out = dm.m.d.Or(out, dm.m.d.And(dm.some(cells.One(cell)), dm.m.d.Not(dm.some(dm.better(cell)))))
			}
		}
		return out
	}
	for i := range dm.d.Rules {
		out = dm.m.d.Or(out, dm.m.d.And(dm.fires[i], dm.comes(i, in)))
	}
	return out
}

// some is the set of jobs in which a rule that holds answers in the cells.
func (dm *decisionModel) some(in cells.Set) cells.Node {
	out := cells.Never
	for i := range dm.d.Rules {
		out = dm.m.d.Or(out, dm.m.d.And(dm.holds[i], dm.comes(i, in)))
	}
	return out
}

// better returns the cells whose answers all go before those of a cell.
func (dm *decisionModel) better(cell int) cells.Set {
	upTo := cells.First(cell + 1)
	if dm.d.Take == rulebook.Largest {
		return dm.cells.All().Without(upTo)
	}
	return upTo.Without(cells.One(cell))
}

// taken is the set of abstract jobs in which a rule's answer may be taken: it holds, and
// every other rule lets it through.
func (dm *decisionModel) taken(rule int) cells.Node {
	out := dm.holds[rule]
	for other := range dm.d.Rules {
		if out != cells.Never {
			out = dm.m.d.And(out, dm.escapes(rule, other))
		}
	}
	return out
}

// escapes is the set of abstract jobs in which another rule does not keep a
// rule's answer from being taken: the rule stands first, or its answer is the better.
func (dm *decisionModel) escapes(rule, other int) cells.Node {
	d, out := dm.m.d, cells.Never
	switch {
	case other == rule || dm.d.Take == rulebook.Only || dm.d.Take == rulebook.All || dm.d.Take == rulebook.First && other > rule:
		return cells.Always
	case dm.d.Take == rulebook.First:
		return d.Not(dm.holds[other])
	}
	for cell := range dm.cells.Count() {
		in := dm.cells.All().Without(dm.better(cell))
		if _, one := dm.cells.Single(cell); other < rule && one {
			in = in.Without(cells.One(cell))
		}
		out = d.Or(out, d.And(dm.comes(rule, cells.One(cell)), d.Or(d.Not(dm.holds[other]), dm.comes(other, in))))
	}
	return out
}

// differ is the set of abstract jobs in which two rules may answer differently.
func (dm *decisionModel) differ(a, b int) cells.Node {
	if dm.answer[a].Text() == dm.answer[b].Text() {
		return cells.Never
	}
	d, same := dm.m.d, cells.Never
	if dm.cells.Count() > cells.Most {
		return cells.Always
	}
	for cell := range dm.cells.Count() {
		if _, one := dm.cells.Single(cell); one {
			same = d.Or(same, d.And(dm.comes(a, cells.One(cell)), dm.comes(b, cells.One(cell))))
		}
	}
	return d.Not(same)
}

// constant returns the answer of a rule that no job changes.
func (m *model) constant(f engine.Formula) (value.Value, bool) {
	if len(m.notSettings(f.Names())) > 0 {
		return value.Value{}, false
	}
	v, err := f.On(nothing)
	return v, err == nil
}

// hiders finds the rules that hide or outdo a rule: as few as do so together,
// the earliest of them if there is a choice.
func (q *asker) hiders(a *aim) []int {
	d := a.subject.decision
	dm := q.m.decision(d)
	var others []int
	for other := range d.Rules {
		if other != a.rule && (other < a.rule || d.Take != rulebook.First) {
			others = append(others, other)
		}
	}
	return fewest(others, func(by []int) bool {
		return q.none(func() []cells.Node {
			out := []cells.Node{q.among(a.subject), dm.holds[a.rule]}
			for _, other := range by {
				out = append(out, dm.escapes(a.rule, other))
			}
			return out
		})
	})
}

// askHidden asks, of a rule that never answers, for a job in which it holds, and one of
// those that hide it answers.
func (q *asker) askHidden(s *subject, a *aim) {
	if !a.proven() {
		return
	}
	d := s.decision
	a.by = q.hiders(a)
	q.add(s, holds, a.rule, 0, func(x *seen) bool {
		return x.held(d, a.rule) && slices.ContainsFunc(a.by, func(other int) bool { return x.chose(d, other) })
	}, func() []cells.Node { return []cells.Node{q.m.decision(d).holds[a.rule]} })
}
