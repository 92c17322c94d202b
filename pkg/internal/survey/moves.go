package survey

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// moved is how far a promise of what moves was proven.
type moved struct {
	proven   bool
	restsOn  []string
	inTheWay []Unanalyzed
}

// moves proves the promises of what moves, as far as it can, and returns nil for the
// others: those of one moving value together, since a decision that is given takes a model
// of its own, and those of all inputs.
func (c *conclusion) moves() ([]*moved, error) {
	of := map[string][]int{}
	for i, s := range c.scope.subjects {
		if as, _ := s.promise.As(); c.q.m.isInput(as) {
			of[""] = append(of[""], i)
		} else if as != "" {
			of[as] = append(of[as], i)
		}
	}
	groups, out := slices.Sorted(maps.Keys(of)), make([]*moved, len(c.scope.subjects))
	c.s.report("following what moves", 0, len(groups))
	wrong := make([]error, len(groups))
	err := c.s.parallel(len(groups), func(i int) {
		q := c.q
		if groups[i] != "" {
			if q, wrong[i] = c.modelOf(groups[i]); wrong[i] != nil {
				return
			}
		}
		for _, n := range of[groups[i]] {
			p := c.scope.subjects[n].promise
			many := &moved{inTheWay: []Unanalyzed{{Text: "promise " + p.ID, Places: []diagnostic.Place{p.Place}, Why: tooMany}}}
			out[n], _ = cells.Guarded(many, func() *moved { return proveMove(q, p) })
		}
	})
	c.s.report("following what moves", len(groups), len(groups))
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

func proveMove(q *asker, p *engine.Promise) *moved {
	as, rises := p.As()
	v := newMover(q, as, p.When)
	then, neverRises := q.m.book.Then(p)
	rises = rises != neverRises
	is := false
	if c, ok := then.Comparison(); ok {
		if set, ok := q.m.comparison(c); ok {
			is = v.lasting(q.m.known(c.Name), set, rises)
		}
	}
	if is || v.up(v.tree(then.Text()), rises) {
		return &moved{proven: true, restsOn: slices.Sorted(maps.Keys(v.calls))}
	}
	slices.Reverse(v.obstacles) // what the promise is about first, what that rests on behind it
	return &moved{inTheWay: v.obstacles[:min(len(v.obstacles), mostInTheWay)]}
}

// moveVerdict settles a promise of what moves. Also one that is proven is tried, a
// little, so that a fault of this package is found.
func (c *conclusion) moveVerdict(out *Verdict, p *engine.Promise, number int, move *moved, budget int) error {
	g := c.s.pairing(p, number)
	budget /= 6
	if out.How = Searched; move.proven {
		out.How = Proven
		budget /= 10
	}
	found, broken := g.hunt(budget)
	out.Jobs, out.Tried, out.RestsOn, out.InTheWay = g.ran, g.ran, move.restsOn, move.inTheWay
	switch {
	case broken && move.proven:
		return fmt.Errorf("%w: promise %s is broken, though it was proven", ErrDisagree, p.ID)
	case !broken:
		return nil
	}
	for _, each := range []pair{g.smallest(found), found} {
		if was, is, ok := g.written(each); ok {
			out.How, out.Job, out.Then, out.InTheWay, out.Values = Refuted, &was, &is, nil, c.values(p, was.seen, is.seen)
			break
		}
	}
	return nil
}

// pairing looks for two jobs that break a promise about how a value moves. They
// are alike but for the moving value: what the job tells of an input, or the answer
// that is given in place of the rules, which is an entry of its own here.
type pairing struct {
	s     *searcher
	p     *engine.Promise
	rises bool // the moving value, from the first job to the second
	entry int  // of it
	rng   *rand.Rand
	ran   int
	good  []draft // jobs that have what the promise looks at
}

// pair is a job with the two values of what moves in it.
type pair struct {
	draft draft
	was   float64
	is    float64
}

func (s *searcher) pairing(p *engine.Promise, number int) *pairing {
	as, rises := p.As()
	i, isEntry := s.w.index[as]
	if !isEntry {
		i, s = len(s.w.entries), s.answering(as)
	}
	return &pairing{s: s, p: p, rises: rises, entry: i, rng: s.rng(7, uint64(number))}
}

// answering returns a searcher whose jobs have one entry more: an answer that is given
// in place of the rules.
func (s *searcher) answering(decision string) *searcher {
	out, w := *s, *s.w
	e := entry{Field: site.Field{Path: decision, Form: site.NumberForm}, usual: 1.0, high: math.Inf(1), overrides: true}
	kind, _, _ := s.m.book.NameKind(decision)
	if dim, measured := quantity.DimensionNamed(string(kind)); measured && dim != quantity.DimRatio {
		e.Dim, e.unit = dim, dim.Units()[0].Symbol
	}
	w.entries, w.used = append(slices.Clip(w.entries), e), append(slices.Clip(w.used), false)
	w.worth = append(slices.Clip(w.worth), make([][]float64, s.m.cells[decision].Count()))
	out.w, out.drafts = &w, nil
	for _, d := range s.drafts {
		out.drafts = append(out.drafts, append(slices.Clip(d), nil))
	}
	return &out
}

// reach runs the job and returns what the promise looks at.
func (g *pairing) reach(d draft, x float64) (value.Value, bool) {
	g.ran++
	seen, ok := g.s.w.look(d.with(g.entry, x))
	if !ok {
		return value.Value{}, false
	}
	return g.looks(seen)
}

func (g *pairing) looks(x *seen) (value.Value, bool) {
	if x.Status != section.Designed {
		return value.Value{}, false
	}
	return x.Outcome.Reach(g.p)
}

// breaks reports whether going from one value to another breaks the promise.
func (g *pairing) breaks(was, is value.Value) bool {
	_, neverRises := g.s.m.book.Then(g.p)
	if a, isBool := was.Bool(); isBool {
		b, _ := is.Bool()
		return a != b && a != neverRises
	}
	order, ok := is.Compare(was)
	return ok && (order < 0 && !neverRises || order > 0 && neverRises)
}

// holds reports whether a pair breaks the promise.
func (g *pairing) holds(p pair) bool {
	if (p.is > p.was) != g.rises {
		return false
	}
	was, before := g.reach(p.draft, p.was)
	is, after := g.reach(p.draft, p.is)
	return before && after && g.breaks(was, is)
}

// mostGood is how many jobs that have what is looked at are kept to change.
const mostGood = 200

// atOnce is how many values of what moves are tried in one job.
const atOnce = 7

// hunt tries values in row upon row of jobs that are alike otherwise.
func (g *pairing) hunt(budget int) (pair, bool) {
	drafts := g.s.drafts
	for n := 0; g.ran < budget; n++ {
		var d draft
		switch {
		case len(g.good) > 0 && n%2 == 1:
			d = g.nudged(g.good)
		case n < len(drafts) && n%2 == 0:
			d = drafts[(n/2*37)%len(drafts)]
		case len(drafts) > 0 && n%3 == 0:
			d = g.nudged(drafts)
		default:
			d = g.s.w.randomDraft(g.rng)
		}
		if found, ok := g.row(d); ok {
			return found, true
		}
		g.ran++ // so that jobs that cannot be end too
	}
	return pair{}, false
}

// nudged changes one thing that one of some jobs tells.
func (g *pairing) nudged(some []draft) draft {
	w, out := g.s.w, slices.Clone(some[g.rng.IntN(len(some))])
	movable := w.movable()
	i := movable[g.rng.IntN(len(movable))]
	choices := w.choices(i)
	w.tell(out, i, choices[g.rng.IntN(len(choices))], g.rng)
	return w.mend(out, g.rng)
}

// row tries several values in one job, and every two of them against each other.
func (g *pairing) row(d draft) (pair, bool) {
	type at struct {
		x float64
		v value.Value
	}
	var got []at
	for _, x := range g.values(d) {
		if v, ok := g.reach(d, x); ok {
			got = append(got, at{x, v})
		}
	}
	if len(got) > 1 && len(g.good) < mostGood {
		g.good = append(g.good, d)
	}
	for i, a := range got {
		for _, b := range got[i+1:] {
			if a.x != b.x && g.breaks(a.v, b.v) {
				return pair{d, a.x, b.x}, true
			}
		}
	}
	return pair{}, false
}

// values are those to try of what moves, in the order in which it moves.
func (g *pairing) values(d draft) []float64 {
	e := &g.s.w.entries[g.entry]
	if e.overrides {
		x, ok := g.s.w.look(d)
		g.ran++
		if !ok || !x.answered() {
			return nil
		}
		now, _ := x.value(e.Path)
		if _, measured := now.Measure(); !measured {
			return nil
		}
		e.usual = cells.NumberOf(now)
		d = d.with(g.entry, e.usual)
	}
	choices, tried := g.s.w.choices(g.entry), []draft{d}
	for range atOnce {
		next := slices.Clone(d)
		if cell := choices[g.rng.IntN(len(choices))]; cell >= 0 {
			g.s.w.tell(next, g.entry, cell, g.rng)
		}
		tried = append(tried, next)
	}
	var out []float64
	for _, d := range tried {
		if x, told := d[g.entry].(float64); told {
			out = append(out, x)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	if !g.rises {
		slices.Reverse(out)
	}
	return out
}

// smallest makes both jobs of a pair smaller while they still break the promise.
func (g *pairing) smallest(p pair) pair {
	p.draft = g.s.smaller(p.draft.with(g.entry, nil), func(d draft) bool { return g.holds(pair{d, p.was, p.is}) })
	for _, which := range []*float64{&p.was, &p.is} {
		old := *which
		for _, x := range g.s.w.entries[g.entry].rounded(old) {
			if *which = x; g.holds(p) {
				break
			}
			*which = old
		}
	}
	return p
}

// written writes both jobs as job files, reads them back and runs them once more.
func (g *pairing) written(p pair) (was, is Job, ok bool) {
	was, before := g.s.written(p.draft.with(g.entry, p.was), nil)
	is, after := g.s.written(p.draft.with(g.entry, p.is), nil)
	if !before || !after {
		return was, is, false
	}
	a, before := g.looks(was.seen)
	b, after := g.looks(is.seen)
	return was, is, before && after && g.breaks(a, b)
}
