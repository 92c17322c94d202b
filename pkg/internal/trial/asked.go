package trial

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
)

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
	read := readings(o)
	for _, one := range asked {
		one.add(read)
	}
}

func (one *measured) add(read func(clause int) logic.Truth) {
	for i, clause := range one.clauses {
		if read(clause) == logic.Unknown {
			continue
		}
		// Clauses that ask the same come to the same, except where one was not
		// read because another had settled the matter.
		question := slices.DeleteFunc(slices.Clone(one.groups[i]), func(other int) bool { return read(other) != read(clause) })
		one.seen[i].count(read(clause) == logic.Yes, decides(one.condition.Tree(), read, question))
	}
}

func (c *ClauseCovered) count(is, decided bool) {
	seen, decides := &c.False, &c.FalseDecides
	if is {
		seen, decides = &c.True, &c.TrueDecides
	}
	*seen++
	if decided {
		*decides++
	}
}

// asked returns the conditions that a run asked, in the order of the files.
func (m *measure) asked(o *engine.Outcome) []*measured {
	found := map[*engine.Condition]bool{}
	for _, one := range m.conditions {
		if one.asked != nil && one.asked(o) {
			m.follow(one.condition, o, found)
		}
	}
	return slices.DeleteFunc(slices.Clone(m.conditions), func(one *measured) bool { return !found[one.condition] })
}

// follow adds a condition, and those of the terms that its clauses read.
func (m *measure) follow(c *engine.Condition, o *engine.Outcome, found map[*engine.Condition]bool) {
	if c == nil || found[c] {
		return
	}
	found[c] = true
	for _, clause := range c.Clauses() {
		if o.Clause(clause.Index) == logic.Unknown {
			continue
		}
		names := m.book.ClauseNames(clause.Index)
		if shape, ok := m.book.ClauseComparison(clause.Index); ok && shape.Op == "known" {
			names = append(names, shape.Name)
		}
		for _, name := range names {
			if t, ok := m.book.Term(name); ok {
				m.follow(t.When, o, found)
				m.follow(t.TermCondition, o, found)
			}
		}
	}
}

// readings returns what each clause of the book came to in a run; nothing is
// known of one that came to an error.
func readings(o *engine.Outcome) func(clause int) logic.Truth {
	return func(clause int) logic.Truth {
		if is := o.Clause(clause); is != logic.Failed {
			return is
		}
		return logic.Unknown
	}
}

// decides reports whether the clauses of one question decide a condition by
// themselves: whether the condition would not stand if they were the other way
// about. Where it would then hang on a clause that cannot be read here, it does
// not stand either: the clause that can be read is what keeps the other from
// being asked.
func decides(tree *logic.Tree, read func(clause int) logic.Truth, question []int) bool {
	was := tree.Eval(read)
	return was != logic.Unknown && was != tree.Eval(func(clause int) logic.Truth {
		if slices.Contains(question, clause) {
			return read(clause).Not()
		}
		return read(clause)
	})
}
