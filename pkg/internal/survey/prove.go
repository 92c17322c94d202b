package survey

import (
	"context"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/section"
)

// UsualTries is how many jobs a proof tries if it is not told, for the promises
// that it cannot prove.
const UsualTries = 20000

// Prove settles every promise of a rulebook. A promise about one job at a time is
// proven where the walk of the cells leaves no job that breaks it and gets past the
// refusals, the checks that stop and the limits of answers; else a job that
// breaks it is looked for. The error is the context's if that is done.
func Prove(ctx context.Context, rules *engine.Book, o Options) (*Proof, error) {
	report := o.Progress
	if report == nil {
		report = func(string, int, int) {}
	}
	if o.Budget <= 0 {
		o.Budget = UsualTries
	}
	var all []*subject
	for _, p := range rules.Promises() {
		all = append(all, &subject{what: "promise", name: p.ID, chapter: p.Chapter, place: p.Place, promise: p, when: p.When(), amended: p.Amended})
	}
	scope, err := narrowTo(rules, o.Within, all, "a promise")
	if err != nil {
		return nil, err
	}
	report("walking the cells", 0, len(scope.subjects))
	m := newModel(rules, mostNodes)
	m.limited = true
	q, err := walk(ctx, m, scope, report)
	if err != nil {
		return nil, err
	}
	s := &searcher{ctx: ctx, w: q.w, m: q.m, eye: q.eye, seed: o.Seed, budget: o.Budget, troubles: map[string]*trouble{}, report: report}
	for _, each := range scope.subjects {
		s.aims = append(s.aims, each.aims...)
	}
	s.w.findUsed(q.names(scope))
	s.traceUpstream()
	jobs := given(o.Jobs)
	if err := s.search(jobs); err != nil {
		return nil, err
	}
	if len(s.disagree) > 0 {
		return nil, fmt.Errorf("%w: promise %s is broken, though the walk of the cells ruled it out", ErrDisagree, s.disagree[0].subject.name)
	}
	c := &conclusion{s: s, q: q, scope: scope}
	out := &Proof{Seed: o.Seed, Jobs: s.ran, Given: len(jobs), Verdicts: make([]Verdict, len(scope.subjects))}
	err = s.parallel(len(scope.subjects), func(i int) { out.Verdicts[i] = c.verdict(scope.subjects[i]) })
	if err != nil {
		return nil, err
	}
	for i, each := range scope.subjects {
		out.Verdicts[i].InTheWay = c.inTheWay(each, out.Verdicts[i].How)
	}
	return out, nil
}

// askPromise asks for a section that breaks a promise. Guards are brought in one by
// one until none is left, and those that are not needed left out again.
func (q *asker) askPromise(s *subject, p *engine.Promise) {
	m := q.m
	if name, _ := p.As(); name != "" {
		return
	}
	a := q.add(s, broken, 0, 0, func(x *seen) bool {
		is, err := false, x.Err
		if err == nil && x.Status == section.Designed {
			is, err = x.Outcome.Breaks(p)
		}
		return is && err == nil
	}, func() cells.Node {
		if p.Never() != nil {
			return m.d.And(m.condition(p.When()), m.condition(p.Never()))
		}
		return m.d.And(m.condition(p.When()), m.d.Not(m.condition(p.Always())))
	})
	var with []guard
	for _, g := range q.relevant(append(p.When().Names(), append(p.Always().Names(), p.Never().Names()...)...)) {
		if a.region == cells.Never || !a.walked {
			break
		}
		n, ok := cells.Guarded(a.region, func() cells.Node { return m.d.And(a.region, g.passes()) })
		if ok && n != a.region {
			a.region = n
			with = append(with, g)
		}
	}
	if a.proven() {
		a.guards = q.needed(a, with)
	}
}

// relevant lists the guards that read something from which names are worked out,
// those that read the names themselves first.
func (q *asker) relevant(names []string) []guard {
	under := map[string]bool{}
	var visit func([]string)
	visit = func(names []string) {
		for _, n := range names {
			if !under[n] {
				under[n] = true
				visit(q.m.book.Reads(n))
			}
		}
	}
	visit(names)
	var out []guard
	for _, near := range []bool{true, false} {
		for _, g := range q.guards {
			direct := slices.ContainsFunc(g.names, func(n string) bool { return slices.Contains(names, n) })
			if near == direct && slices.ContainsFunc(g.names, func(n string) bool { return under[n] }) {
				out = append(out, g)
			}
		}
	}
	return out
}

// needed leaves out the guards without which the region is empty too.
func (q *asker) needed(a *aim, with []guard) []guard {
	for i := len(with) - 1; i >= 0; i-- {
		fewer := slices.Delete(slices.Clone(with), i, i+1)
		n, ok := cells.Guarded(cells.Always, func() cells.Node {
			out := q.m.d.And(a.free, q.settingsStand())
			for _, g := range fewer {
				out = q.m.d.And(out, g.passes())
			}
			return out
		})
		if ok && n == cells.Never {
			with = fewer
		}
	}
	return with
}

// verdict tells what became of a promise.
func (c *conclusion) verdict(s *subject) Verdict {
	p := s.promise
	out := Verdict{Promise: p.ID, Chapter: p.Chapter, Place: p.Place, Says: promised(p), Because: p.Promise.Because.Text}
	if p.Amended != nil {
		out.Amended = p.Amended.By.Name
	}
	for _, a := range s.aims {
		out.Tried, out.Jobs = a.tried, c.s.ran
		for _, g := range a.guards {
			out.By = append(out.By, Guard{g.what, g.by})
		}
		switch {
		case a.proven():
			out.How = Proven
		case a.hits > 0:
			if job, ok := c.s.witness(a.best, a.whole, a.shows); ok {
				out.How, out.Job = Refuted, &job
				out.Values = c.values(p, job.seen)
				continue
			}
			fallthrough
		default:
			out.How = Searched
		}
	}
	return out
}

// promised writes a promise as one line.
func promised(p *engine.Promise) string {
	out := ""
	if p.Promise.When.Text != "" {
		out = "where " + p.Promise.When.Text + ", "
	}
	switch {
	case p.Promise.Always.Text != "":
		return out + "always " + p.Promise.Always.Text
	case p.Promise.Never.Text != "":
		return out + "never " + p.Promise.Never.Text
	}
	return out + "as " + p.Promise.As.Text + ", " + p.Promise.Then.Text
}

// values are what the promise reads of a job.
func (c *conclusion) values(p *engine.Promise, jobs ...*seen) []Valued {
	names := slices.Concat(p.When().Names(), p.Always().Names(), p.Never().Names())
	if name, _ := p.As(); name != "" {
		then, _ := c.q.m.book.Then(p)
		names = append(append([]string{name}, names...), then.Names()...)
	}
	var out []Valued
	for _, name := range c.q.m.notSettings(names) {
		one := Valued{Name: name}
		for _, x := range jobs {
			text := "none"
			if v, ok := x.value(name); ok {
				text = cells.Text(v)
			}
			one.Is = append(one.Is, text)
		}
		out = append(out, one)
	}
	return out
}

// inTheWay lists what the walk left open in what was only searched.
func (c *conclusion) inTheWay(s *subject, how How) []Unanalyzed {
	if how != Searched {
		return nil
	}
	r := c.report
	defer func() { c.report = r }()
	c.report = &Report{}
	of := *c
	of.scope = &scope{subjects: []*subject{s}}
	of.unanalyzed()
	return c.report.Unanalyzed
}
