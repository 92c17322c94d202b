package impact

import (
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/value"
)

// settled tells what a condition of the earlier rulebook comes to by those of
// its clauses that come to the same on the values of both runs, and unknown if
// they do not settle it.
func (t *trace) settled(c *engine.Condition) logic.Truth {
	if c == nil {
		return logic.Yes
	}
	t.before.AskAll(c)
	return c.Tree().Eval(func(clause int) logic.Truth {
		now := t.clauseNow(clause)
		if t.before.Clause(clause) != now {
			return logic.Unknown
		}
		return now
	})
}

// nowHolds tells what a condition of the earlier rulebook comes to on the values
// of the later run.
func (t *trace) nowHolds(c *engine.Condition) logic.Truth { return c.Tree().Eval(t.clauseNow) }

// clauseNow works out a clause of the earlier rulebook on the values of the
// later run.
func (t *trace) clauseNow(clause int) logic.Truth {
	is, err := t.c.before.ClauseOn(clause, t.now)
	if err != nil {
		return logic.Unknown
	}
	return logic.Of(is)
}

// now returns the values of the later run.
func (t *trace) now(name string) (value.Value, bool) {
	v, err := t.after.Value(name)
	return v, err == nil
}
