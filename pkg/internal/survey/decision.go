package survey

import (
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// decisionModel is a decision over abstract jobs.
type decisionModel struct {
	m      *model
	d      *engine.Decision
	cells  *cells
	holds  []node // each rule's condition
	fires  []node // each rule holds, and no earlier one does
	none   node   // no rule holds
	answer []engine.Formula
}

// decision returns the model of a decision; its own condition is left to whoever
// asks.
func (m *model) decision(d *engine.Decision) *decisionModel {
	if dm, ok := m.decisions[d.Name]; ok {
		return dm
	}
	dm := &decisionModel{m: m, d: d, cells: m.cells[d.Name], none: always}
	for _, r := range d.Rules {
		holds := m.condition(r.When())
		dm.holds = append(dm.holds, holds)
		dm.fires = append(dm.fires, m.d.and(dm.none, holds))
		dm.none = m.d.and(dm.none, m.d.not(holds))
		dm.answer = append(dm.answer, m.book.AnswerFormula(r))
	}
	m.decisions[d.Name] = dm
	return dm
}

// comes is the set of jobs in which a rule's answer lies in the cells.
func (dm *decisionModel) comes(rule int, in set) node {
	return dm.m.formula(dm.answer[rule], variable{role: answerOpen, name: dm.d.Name, rules: []int{rule}}, dm.cells, in)
}

// answersIn is the set of jobs in which the decision's answer lies in the cells.
func (dm *decisionModel) answersIn(in set) node {
	if in == dm.cells.all() && dm.d.Take != rulebook.All {
		return dm.m.d.not(dm.none)
	}
	switch dm.d.Take {
	case rulebook.Largest, rulebook.Smallest:
		return dm.extremeIn(in)
	case rulebook.All:
		return always // a list has one cell
	}
	out := never
	for i := range dm.d.Rules {
		out = dm.m.d.or(out, dm.m.d.and(dm.fires[i], dm.comes(i, in)))
	}
	return out
}

// extremeIn is answersIn for the largest or smallest answer. The cell of the
// largest answer is the largest cell of an answer.
func (dm *decisionModel) extremeIn(in set) node {
	d, out := dm.m.d, never
	for cell := range dm.cells.count() {
		if !in.has(cell) {
			continue
		}
		beyond := dm.better(cell)
		here := d.and(dm.some(oneCell(cell)), d.not(dm.some(beyond)))
		out = d.or(out, here)
	}
	return out
}

// some is the set of jobs in which a rule that holds answers in the cells.
func (dm *decisionModel) some(in set) node {
	out := never
	for i := range dm.d.Rules {
		out = dm.m.d.or(out, dm.m.d.and(dm.holds[i], dm.comes(i, in)))
	}
	return out
}

// better returns the cells whose answers all go before those of a cell.
func (dm *decisionModel) better(cell int) set {
	upTo := firstCells(cell + 1)
	if dm.d.Take == rulebook.Largest {
		return dm.cells.all().without(upTo)
	}
	return upTo.without(oneCell(cell))
}

// governs is the set of abstract jobs in which a rule of a largest or smallest
// decision may be the one whose answer is taken: no earlier rule answers as
// well, and no later one better.
func (dm *decisionModel) governs(rule int) node {
	d, out := dm.m.d, never
	for cell := range dm.cells.count() {
		here := d.and(dm.holds[rule], dm.comes(rule, oneCell(cell)))
		allowed := dm.cells.all().without(dm.better(cell))
		earlier := allowed
		if _, one := dm.cells.single(cell); one {
			earlier = allowed.without(oneCell(cell))
		}
		for other := range dm.d.Rules {
			if here == never {
				break
			}
			in := allowed
			switch {
			case other == rule:
				continue
			case other < rule:
				in = earlier
			}
			if in == dm.cells.all() {
				continue
			}
			here = d.and(here, d.or(d.not(dm.holds[other]), dm.comes(other, in)))
		}
		out = d.or(out, here)
	}
	return out
}

// differ is the set of abstract jobs in which two rules may answer differently.
func (dm *decisionModel) differ(a, b int) node {
	if dm.answer[a].Text() == dm.answer[b].Text() {
		return never
	}
	d, same := dm.m.d, never
	if dm.cells.shape == whole || dm.cells.count() > mostCells {
		return always
	}
	for cell := range dm.cells.count() {
		if _, one := dm.cells.single(cell); one {
			same = d.or(same, d.and(dm.comes(a, oneCell(cell)), dm.comes(b, oneCell(cell))))
		}
	}
	return d.not(same)
}

// constant returns the answer of a rule that no job changes.
func (m *model) constant(f engine.Formula) (value.Value, bool) {
	if len(m.notSettings(f.Names())) > 0 {
		return value.Value{}, false
	}
	v, err := f.On(nothing)
	return v, err == nil
}
