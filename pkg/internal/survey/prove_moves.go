package survey

import (
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// moved is how far a promise of what moves was proven.
type moved struct {
	number   int
	proven   bool
	restsOn  []string
	inTheWay []Unanalyzed
}

// moves proves the promises of what moves, as far as it can: those of one moving
// value together, since a decision that is given takes a model of its own.
func (c *conclusion) moves() (map[*subject]*moved, error) {
	out, of := map[*subject]*moved{}, map[string][]*subject{}
	var groups []string
	for i, s := range c.scope.subjects {
		as, _ := s.promise.As()
		switch {
		case as == "":
			continue
		case c.q.m.isInput(as):
			as = ""
		}
		if of[as] == nil {
			groups = append(groups, as)
		}
		of[as] = append(of[as], s)
		out[s] = &moved{number: i}
	}
	c.s.report("following what moves", 0, len(out))
	wrong := make([]error, len(groups))
	err := c.s.parallel(len(groups), func(i int) {
		q := c.q
		if groups[i] != "" {
			if q, wrong[i] = c.modelOf(groups[i]); wrong[i] != nil {
				return
			}
		}
		for _, s := range of[groups[i]] {
			proveMove(q, s.promise, out[s])
		}
	})
	c.s.report("following what moves", len(out), len(out))
	return out, errors.Join(append(wrong, err)...)
}

// modelOf returns a model in which a decision is given like an input.
func (c *conclusion) modelOf(decision string) (*asker, error) {
	m := newModel(c.q.m.book, mostNodes)
	m.inputs[decision] = rulebook.Input{Name: decision, Kind: m.cells[decision].Kind()}
	return walk(c.s.ctx, m, &scope{fixed: c.scope.fixed}, func(string, int, int) {})
}

// mostInTheWay is how much is told of what keeps one promise from being proven.
const mostInTheWay = 6

func proveMove(q *asker, p *engine.Promise, out *moved) {
	as, rises := p.As()
	v := newMover(q, as, p.When())
	then, neverRises := q.m.book.Then(p)
	if neverRises {
		rises = !rises
	}
	if c, ok := then.Comparison(); ok {
		if set, ok := q.m.comparison(c); ok {
			out.proven = v.lasting(q.m.known(c.Name), set, rises)
		}
	}
	out.proven = out.proven || v.up(v.tree(then.Text()), rises)
	if out.restsOn = v.restsOn(); !out.proven {
		slices.Reverse(v.obstacles) // what the promise is about first, what that rests on behind it
		out.restsOn, out.inTheWay = nil, v.obstacles[:min(len(v.obstacles), mostInTheWay)]
	}
}

// moveVerdict settles a promise of what moves. Also one that is proven is tried, a
// little, so that a fault of this package is found.
func (c *conclusion) moveVerdict(out *Verdict, p *engine.Promise, move *moved, budget int) error {
	g := c.s.pairing(p, move.number)
	budget /= 6
	if move.proven {
		budget /= 10
	}
	found, ok := g.hunt(budget)
	out.Jobs, out.Tried, out.RestsOn, out.InTheWay = g.ran, g.ran, move.restsOn, move.inTheWay
	switch {
	case ok && move.proven:
		return fmt.Errorf("%w: promise %s is broken, though it was proven", ErrDisagree, p.ID)
	case move.proven:
		out.How = Proven
	case ok:
		out.How = Refuted
		for _, each := range []pair{g.smallest(found), found} {
			if was, is, ok := g.written(each); ok {
				out.Job, out.Then, out.InTheWay = &was, &is, nil
				out.Values = c.values(p, was.seen, is.seen)
				return nil
			}
		}
		out.How = Searched
	default:
		out.How = Searched
	}
	return nil
}
