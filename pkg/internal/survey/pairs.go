package survey

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// pairing looks for two jobs that break a promise about how a value moves. They
// are alike but for the moving value: what the job tells of an input, or the answer
// that is given in place of the rules.
type pairing struct {
	s     *searcher
	p     *engine.Promise
	as    string
	rises bool // the moving value, from the first job to the second
	entry int  // of the input; -1 for a decision
	kind  value.Kind
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
	out := &pairing{s: s, p: p, as: as, rises: rises, entry: -1, rng: s.rng(7, uint64(number))}
	if i, ok := s.w.index[as]; ok {
		out.entry = i
	}
	out.kind, _, _ = s.m.book.NameKind(as)
	return out
}

// job makes the job of a draft with a value of what moves.
func (g *pairing) job(d draft, x float64) (*site.Site, bool) {
	if g.entry >= 0 {
		return g.s.w.site(d.with(g.entry, x))
	}
	job, ok := g.s.w.site(d)
	if ok {
		job.Overrides = []site.Override{{Decision: g.as, Answer: answered(g.kind, x), By: "promise", Because: "to see what moves with it"}}
		ok = job.Validate() == nil
	}
	return job, ok
}

// answered writes a value as the rule language does.
func answered(kind value.Kind, si float64) string {
	dim, isDimension := quantity.DimensionNamed(string(kind))
	if !isDimension || dim == quantity.DimRatio {
		return strconv.FormatFloat(si, 'f', -1, 64)
	}
	u := dim.Units()[0]
	x, err := quantity.Quantity{Dim: dim, SI: si}.In(u.Symbol)
	if err != nil {
		return ""
	}
	return u.Builder + "(" + strconv.FormatFloat(x, 'f', -1, 64) + ")"
}

// reach runs the job and returns what the promise looks at.
func (g *pairing) reach(d draft, x float64) (*seen, value.Value, bool) {
	job, ok := g.job(d, x)
	if !ok {
		return nil, value.Value{}, false
	}
	g.ran++
	seen := g.s.eye.lookAt(d, job)
	return g.looks(seen)
}

func (g *pairing) looks(x *seen) (*seen, value.Value, bool) {
	if !x.answered() || x.Status != section.Designed {
		return x, value.Value{}, false
	}
	v, ok := x.Outcome.Reach(g.p)
	return x, v, ok
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
	if p.was == p.is || (p.is > p.was) != g.rises {
		return false
	}
	_, a, ok := g.reach(p.draft, p.was)
	if !ok {
		return false
	}
	_, b, ok := g.reach(p.draft, p.is)
	return ok && g.breaks(a, b)
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
			d = g.s.nudged(g.good[g.rng.IntN(len(g.good))], g.rng)
		case n < len(drafts) && n%2 == 0:
			d = slices.Clone(drafts[(n/2*37)%len(drafts)])
		case len(drafts) > 0 && n%3 == 0:
			d = g.s.nudged(drafts[g.rng.IntN(len(drafts))], g.rng)
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

// nudged changes one thing that a job tells.
func (s *searcher) nudged(d draft, rng *rand.Rand) draft {
	out := slices.Clone(d)
	movable := s.w.movable()
	i := movable[rng.IntN(len(movable))]
	choices := s.w.choices(i)
	s.w.tell(out, i, choices[rng.IntN(len(choices))], rng)
	return s.w.mend(out, rng)
}

// row tries several values in one job, and every two of them against each other.
func (g *pairing) row(d draft) (pair, bool) {
	type at struct {
		x float64
		v value.Value
	}
	var got []at
	for _, x := range g.values(d) {
		if _, v, ok := g.reach(d, x); ok {
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
	var out []float64
	if g.entry >= 0 {
		choices := g.s.w.choices(g.entry)
		for range atOnce {
			next := slices.Clone(d)
			if cell := choices[g.rng.IntN(len(choices))]; cell >= 0 {
				g.s.w.tell(next, g.entry, cell, g.rng)
			}
			if x, told := next[g.entry].(float64); told {
				out = append(out, x)
			}
		}
		if x, told := d[g.entry].(float64); told {
			out = append(out, x)
		}
	} else if job, ok := g.s.w.site(d); ok {
		x := g.s.eye.lookAt(d, job)
		g.ran++
		if now, known := x.now(g.as); known {
			out = append(out, now)
			cs := g.s.m.cells[g.as]
			for range atOnce {
				switch g.rng.IntN(3) {
				case 0:
					out = append(out, now*g.rng.Float64())
				case 1:
					out = append(out, now*(1+g.rng.Float64()*g.rng.Float64()*4))
				default:
					out = append(out, g.s.w.drawIn(cs, g.rng.IntN(cs.Count()), 0, math.Inf(1), now, g.rng))
				}
			}
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	if !g.rises {
		slices.Reverse(out)
	}
	return out
}

// now returns the number that a name came to in a job.
func (s *seen) now(name string) (float64, bool) {
	if !s.answered() {
		return 0, false
	}
	v, ok := s.value(name)
	if !ok {
		return 0, false
	}
	_, measured := v.Measure()
	return cells.NumberOf(v), measured
}

// smallest makes both jobs of a pair smaller while they still break the promise.
func (g *pairing) smallest(p pair) pair {
	if g.entry >= 0 {
		p.draft = p.draft.with(g.entry, nil)
	}
	p.draft = g.s.smaller(p.draft, func(d draft) bool { return g.holds(pair{d, p.was, p.is}) }, g.entry)
	for _, which := range []*float64{&p.was, &p.is} {
		e := g.kindEntry()
		for digits := 1; digits <= 6; digits++ {
			old := *which
			if x, ok := e.rounded(old, digits); ok {
				if *which = x; g.holds(p) {
					break
				}
			}
			*which = old
		}
	}
	return p
}

// kindEntry is an entry by whose unit values of what moves are rounded.
func (g *pairing) kindEntry() entry {
	if g.entry >= 0 {
		return g.s.w.entries[g.entry]
	}
	e := entry{}
	if dim, ok := quantity.DimensionNamed(string(g.kind)); ok && dim != quantity.DimRatio {
		e.Dim, e.unit = dim, dim.Units()[0].Symbol
	}
	return e
}

// written writes both jobs as job files, reads them back and runs them once more.
func (g *pairing) written(p pair) (was, is Job, ok bool) {
	var out [2]Job
	var reached [2]value.Value
	for n, x := range []float64{p.was, p.is} {
		job, possible := g.job(p.draft, x)
		if !possible {
			return Job{}, Job{}, false
		}
		data, err := site.Write(job)
		if err != nil {
			return Job{}, Job{}, false
		}
		back, err := site.Read("job.yaml", data)
		if err != nil {
			return Job{}, Job{}, false
		}
		seen, v, designed := g.looks(g.s.eye.lookAt(p.draft, back))
		if !designed {
			return Job{}, Job{}, false
		}
		out[n], reached[n] = Job{Text: string(data), Entries: p.draft.told() + 1, Status: string(seen.Status), seen: seen}, v
	}
	return out[0], out[1], g.breaks(reached[0], reached[1])
}
