package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/logic"
)

// holds reports whether a condition holds. Each clause is worked out once in a
// run, whatever number of conditions share it. As in CEL, an error on one side
// of && or || gives way to the other side where that settles the matter; it is
// then kept among the absorbed errors and shown.
func (r *run) holds(c *Condition, in place) (bool, error) {
	if c == nil {
		return true, nil
	}
	before := len(r.failures)
	is := c.root.Eval(r.ask)
	failures := slices.Clone(r.failures[before:])
	r.failures = r.failures[:before]
	if is == logic.Failed {
		return false, r.failure(c, c.root.Deciding(r.state)[0], in)
	}
	for _, clause := range failures {
		r.absorb(r.failure(c, clause, in))
	}
	return is == logic.Yes, nil
}

// askClause works out a clause, and notes if it came to an error.
func (r *run) askClause(clause int) logic.Truth {
	is := r.clause(clause)
	if is == logic.Failed {
		r.failures = append(r.failures, clause)
	}
	return is
}

// absorb keeps an error that did not decide the matter, once: a condition may
// be asked several times in a run.
func (r *run) absorb(err error) {
	if !slices.ContainsFunc(r.absorbed, func(each error) bool { return each.Error() == err.Error() }) {
		r.absorbed = append(r.absorbed, err)
	}
}

// clause works out a clause, if it was not yet.
func (r *run) clause(i int) logic.Truth {
	if r.states[i] == logic.Unknown {
		is, err := r.book.clauses[i].Holds(r.frame)
		r.states[i] = logic.Of(is)
		if err != nil {
			r.states[i] = logic.Failed
			if r.clauseErrors == nil {
				r.clauseErrors = map[int]error{}
			}
			r.clauseErrors[i] = err
		}
	}
	return r.states[i]
}

// state returns what a clause came to, and works nothing out.
func (r *run) state(clause int) logic.Truth { return r.states[clause] }

// failure is the error that a clause came to, where it stands in a condition.
func (r *run) failure(c *Condition, clause int, in place) error {
	return r.fail(in, c.placeOf(clause), r.book.clauses[clause].Text, r.book.clauses[clause].Names, r.clauseErrors[clause])
}
