package impact

import (
	"example.com/groundrule/pkg/rulebook"
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
func (t *trace) settled(c *rulebook.Condition) truth {
	if c == nil {
		return yes
	}
	t.before.AskAll(c)
	return joined(c.Parts(), func(clause int) truth {
		then := t.before.ClauseStates()[clause]
		now := t.clauseNow(clause)
		if then == rulebook.ClauseTrue && now == yes || then == rulebook.ClauseFalse && now == no {
			return now
		}
		return unknown
	})
}

// nowHolds tells what a condition of the earlier rulebook comes to on the values
// of the later run.
func (t *trace) nowHolds(p rulebook.Part) truth { return joined(p, t.clauseNow) }

// clauseNow works out a clause of the earlier rulebook on the values of the
// later run.
func (t *trace) clauseNow(clause int) truth {
	is, err := t.c.before.Rules().ClauseOn(clause, t.now)
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
func joined(p rulebook.Part, clause func(int) truth) truth {
	switch p.Join {
	case rulebook.OneClause:
		return clause(p.Clause)
	case rulebook.NotOf:
		return joined(p.Parts[0], clause).not()
	}
	settles := no
	if p.Join == rulebook.AnyOf {
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
