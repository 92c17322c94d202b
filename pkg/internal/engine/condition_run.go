package engine

import (
	"example.com/groundrule/pkg/internal/language"
)

// state is what a clause came to during one run.
type state uint8

const (
	unseen state = iota
	isTrue
	isFalse
	failed
)

// holds reports whether a condition holds. Each clause is worked out once in a
// run, whatever number of conditions share it. As in CEL, an error on one side
// of && or || gives way to the other side where that settles the matter; it is
// then kept among the absorbed errors and shown.
func (r *run) holds(c *Condition, in place) (bool, error) {
	if c == nil {
		return true, nil
	}
	s, err := r.node(c, c.root, in)
	return s == isTrue, err
}

func (r *run) node(c *Condition, n *node, in place) (state, error) {
	switch n.op {
	case language.Leaf:
		return r.clause(c, n.clause, in)
	case language.Not:
		s, err := r.node(c, n.kids[0], in)
		return not(s), err
	case language.And:
		return r.joined(c, n, in, isFalse, isTrue)
	}
	return r.joined(c, n, in, isTrue, isFalse)
}

// joined works out && and ||: settled ends it, otherwise is the answer if
// nothing does.
func (r *run) joined(c *Condition, n *node, in place, settled, otherwise state) (state, error) {
	var failure error
	for _, kid := range n.kids {
		s, err := r.node(c, kid, in)
		if s == settled {
			if failure != nil {
				r.absorb(failure)
			}
			return settled, nil
		}
		if err != nil && failure == nil {
			failure = err
		}
	}
	if failure != nil {
		return failed, failure
	}
	return otherwise, nil
}

// absorb keeps an error that did not decide the matter, once: a condition may
// be asked several times in a run.
func (r *run) absorb(err error) {
	for _, each := range r.absorbed {
		if each.Error() == err.Error() {
			return
		}
	}
	r.absorbed = append(r.absorbed, err)
}

func not(s state) state {
	switch s {
	case isTrue:
		return isFalse
	case isFalse:
		return isTrue
	}
	return s
}

func (r *run) clause(c *Condition, i int, in place) (state, error) {
	if r.states[i] == unseen {
		is, err := r.book.clauses[i].Eval(r.frame)
		switch {
		case err != nil:
			r.states[i] = failed
			if r.clauseErrors == nil {
				r.clauseErrors = map[int]error{}
			}
			r.clauseErrors[i] = err
		case is:
			r.states[i] = isTrue
		default:
			r.states[i] = isFalse
		}
	}
	if r.states[i] == failed {
		return failed, r.fail(in, c.placeOf(i), r.book.clauses[i].Text, r.book.clauses[i].Names, r.clauseErrors[i])
	}
	return r.states[i], nil
}
