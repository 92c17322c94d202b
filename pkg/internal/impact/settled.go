package impact

import (
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/value"
)

// truth is what is known of a condition.
type truth uint8

const (
	unknown truth = iota
	yes
	no
)

func (a truth) not() truth { return [...]truth{unknown, no, yes}[a] }

func truthOf(is bool) truth {
	if is {
		return yes
	}
	return no
}

// settled tells what a condition of the earlier rulebook comes to by those of
// its clauses that come to the same on the values of both runs, and unknown if
// they do not settle it.
func (t *trace) settled(c *engine.Condition) truth {
	if c == nil {
		return yes
	}
	t.before.AskAll(c)
	return joined(c.Parts(), func(clause int) truth {
		then := t.before.ClauseStates()[clause]
		now := t.clauseNow(clause)
		if then == engine.ClauseTrue && now == yes || then == engine.ClauseFalse && now == no {
			return now
		}
		return unknown
	})
}

// nowHolds tells what a condition of the earlier rulebook comes to on the values
// of the later run.
func (t *trace) nowHolds(p engine.Part) truth { return joined(p, t.clauseNow) }

// clauseNow works out a clause of the earlier rulebook on the values of the
// later run.
func (t *trace) clauseNow(clause int) truth {
	is, err := t.c.before.ClauseOn(clause, t.now)
	if err != nil {
		return unknown
	}
	return truthOf(is)
}

// now returns the values of the later run.
func (t *trace) now(name string) (value.Value, bool) {
	v, err := t.after.Value(name)
	return v, err == nil
}

// joined works out a condition of which some clauses are unknown.
func joined(p engine.Part, clause func(int) truth) truth {
	switch p.Join {
	case engine.OneClause:
		return clause(p.Clause)
	case engine.NotOf:
		return joined(p.Parts[0], clause).not()
	}
	settles := no
	if p.Join == engine.AnyOf {
		settles = yes
	}
	out := settles.not()
	for _, part := range p.Parts {
		switch joined(part, clause) {
		case settles:
			return settles
		case unknown:
			out = unknown
		}
	}
	return out
}
