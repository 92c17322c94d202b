package trial

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

func sortClauses(clauses []ClauseCovered) {
	slices.SortStableFunc(clauses, func(a, b ClauseCovered) int { return a.Place.Compare(b.Place) })
}

// add counts what one outcome shows.
func (m *measure) add(o *engine.Outcome) {
	for _, d := range m.book.Decisions() {
		decided, came := o.Came(d)
		if !came || !decided.Asked {
			continue
		}
		for i, r := range d.Rules {
			switch decided.States[i] {
			case rulebook.Chosen:
				m.rules[r].Chosen++
			case rulebook.Held:
				m.rules[r].Held++
			case rulebook.NotHeld:
				m.rules[r].NotHeld++
			}
		}
	}
	for _, c := range o.Checks {
		if seen := m.compared[c.Check]; seen != nil {
			seen.count(c.Holds, true)
		}
	}
	asked := m.asked(o)
	for _, one := range asked {
		o.AskAll(one.condition)
	}
	read := readings(o.ClauseStates())
	for _, one := range asked {
		one.add(read)
	}
}

func (one *measured) add(read []verdict) {
	for i, clause := range one.clauses {
		if read[clause] == unreadable {
			continue
		}
		// Clauses that ask the same come to the same, except where one was not
		// read because another had settled the matter.
		question := slices.DeleteFunc(slices.Clone(one.groups[i]), func(other int) bool { return read[other] != read[clause] })
		one.seen[i].count(read[clause] == yes, decides(one.parts, read, question))
	}
}

func (c *ClauseCovered) count(is, decided bool) {
	switch {
	case is && decided:
		c.True++
		c.TrueDecides++
	case is:
		c.True++
	case decided:
		c.False++
		c.FalseDecides++
	default:
		c.False++
	}
}

// asked returns the conditions that a run asked, in the order of the files.
func (m *measure) asked(o *engine.Outcome) []*measured {
	found := map[*engine.Condition]bool{}
	states := o.ClauseStates()
	for _, c := range m.askedDirectly(o) {
		m.follow(c, states, found)
	}
	var out []*measured
	for _, one := range m.conditions {
		if found[one.condition] {
			out = append(out, one)
		}
	}
	return out
}

// follow adds a condition, and those of the terms that its clauses read.
func (m *measure) follow(c *engine.Condition, states []engine.ClauseState, found map[*engine.Condition]bool) {
	if c == nil || found[c] {
		return
	}
	found[c] = true
	for _, clause := range c.Clauses() {
		if states[clause.Index()] == engine.Unasked {
			continue
		}
		for _, name := range m.book.ClauseNames(clause.Index()) {
			m.followTerm(name, states, found)
		}
		if shape, ok := m.book.ClauseComparison(clause.Index()); ok && shape.Op == "known" {
			m.followTerm(shape.Name, states, found)
		}
	}
}

func (m *measure) followTerm(name string, states []engine.ClauseState, found map[*engine.Condition]bool) {
	if t := m.terms[name]; t != nil {
		m.follow(t.When(), states, found)
		m.follow(t.TermCondition(), states, found)
	}
}

// askedDirectly returns the conditions of entries that a run asked.
func (m *measure) askedDirectly(o *engine.Outcome) []*engine.Condition {
	var out []*engine.Condition
	for _, r := range m.book.Refusals() {
		out = append(out, r.When())
	}
	for _, d := range m.book.Decisions() {
		decided, came := o.Came(d)
		if !came {
			continue
		}
		out = append(out, d.When())
		if !decided.Asked {
			continue
		}
		for i, r := range d.Rules {
			if decided.States[i] != rulebook.NotReached {
				out = append(out, r.When())
			}
		}
	}
	if len(o.Refusals) > 0 {
		return out
	}
	for _, c := range m.book.Courses() {
		out = append(out, c.When())
	}
	for _, c := range m.book.Checks() {
		out = append(out, c.When())
	}
	for _, c := range o.Checks {
		out = append(out, c.Check.Holds())
	}
	for _, c := range m.book.Cautions() {
		out = append(out, c.When())
	}
	return out
}
