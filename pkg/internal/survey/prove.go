package survey

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// UsualTries is how many jobs a proof tries if it is not told, for the promises
// that it cannot prove.
const UsualTries = 12000

// Prove settles every promise of a rulebook. A promise about one job at a time is
// proven where the walk of the cells leaves no job that breaks it and gets past the
// refusals, the checks that stop and the limits of answers; else a job that
// breaks it is looked for. The error is the context's if that is done.
func Prove(ctx context.Context, rules *engine.Book, o Options) (*Proof, error) {
	return prove(ctx, rules, o, mostNodes)
}

func prove(ctx context.Context, rules *engine.Book, o Options, most int) (*Proof, error) {
	scope, err := narrow(rules, o.Within, promises(rules), "a promise")
	if err != nil {
		return nil, err
	}
	scope.met = subjects(rules)
	o.Budget = cmp.Or(max(o.Budget, 0), UsualTries)
	m := newModel(rules, most)
	m.limited = true
	c, err := look(ctx, m, scope, o)
	if err != nil {
		return nil, err
	}
	moves, err := c.moves()
	if err != nil {
		return nil, err
	}
	out := &Proof{Seed: o.Seed, Jobs: c.s.ran, Given: c.given, Verdicts: make([]Verdict, len(scope.subjects))}
	wrong := make([]error, len(scope.subjects))
	err = c.s.parallel(len(scope.subjects), func(i int) {
		out.Verdicts[i], wrong[i] = c.verdict(i, moves[i], o.Budget)
	})
	if err := errors.Join(append(wrong, err)...); err != nil {
		return nil, err
	}
	for i, each := range scope.subjects {
		if v := &out.Verdicts[i]; v.How == Refuted {
			v.Changed = m.changed(m.promised(each.promise))
		} else if v.How == Searched && moves[i] == nil {
			v.InTheWay = c.inTheWay(each)
		}
	}
	return out, nil
}

// The nodes that it may take to bring in one guard, and those that are brought in
// for one promise. A guard that takes more is left out, which makes fewer proofs
// and no wrong one.
const (
	mostForGuard   = 10000
	mostForPromise = 40000
)

// askPromise asks for a section that breaks a promise. Guards are brought in one by
// one until none is left, and those that are not needed left out again.
func (q *asker) askPromise(s *subject, p *engine.Promise) {
	m := q.m
	if name, _ := p.As(); name != "" {
		return
	}
	a := q.add(s, broken, 0, 0, func(x *seen) bool {
		if x.Status != section.Designed {
			return false
		}
		is, err := x.Outcome.Breaks(p)
		return is && err == nil
	}, func() []cells.Node {
		if p.Never != nil {
			return []cells.Node{m.condition(p.When), m.condition(p.Never)}
		}
		return []cells.Node{m.condition(p.When), m.d.Not(m.condition(p.Always))}
	})
	var with []guard
	size := m.d.Size()
	for _, g := range q.relevant(append(m.promised(p), p.When.Names()...)) {
		if !a.open() || m.d.Size() > size+mostForPromise {
			break
		}
		n, ok := m.d.Briefly(mostForGuard, a.region, func() cells.Node { return m.d.And(a.region, g.passes()) })
		if ok && n != a.region {
			a.region = n
			with = append(with, g)
		}
	}
	if a.proven() {
		a.guards = q.needed(a, with)
	}
}

// relevant lists the guards that read something from which names are worked out:
// first those that read one of the names, and of these first those that read least
// besides.
func (q *asker) relevant(names []string) []guard {
	under := q.m.under(names)
	besides := func(g guard) int {
		n := 0
		for _, name := range g.names {
			if !slices.Contains(names, name) {
				n++
			}
		}
		if n == len(g.names) {
			n += len(under)
		}
		return n
	}
	out := slices.DeleteFunc(slices.Clone(q.guards), func(g guard) bool {
		return !slices.ContainsFunc(g.names, func(n string) bool { return slices.Contains(under, n) })
	})
	slices.SortStableFunc(out, func(a, b guard) int { return besides(a) - besides(b) })
	return out
}

// needed leaves out the guards without which the region is empty too.
func (q *asker) needed(a *aim, with []guard) []guard {
	return fewest(with, func(fewer []guard) bool {
		n, ok := q.m.d.Briefly(mostForGuard, cells.Always, func() cells.Node {
			out := []cells.Node{a.free, q.m.settingsStand()}
			for _, g := range fewer {
				out = append(out, g.passes())
			}
			return q.m.d.And(out...)
		})
		return ok && n == cells.Never
	})
}

// verdict tells what became of a promise.
func (c *conclusion) verdict(number int, move *moved, budget int) (Verdict, error) {
	s := c.scope.subjects[number]
	p := s.promise
	out := Verdict{Promise: p.ID, Chapter: p.Chapter, Place: p.Place, Says: inWords(p), Because: p.Promise.Because.Text}
	if p.Amended != nil {
		out.Amended = p.Amended.By.Name
	}
	if move != nil {
		err := c.moveVerdict(&out, p, number, move, budget)
		return out, err
	}
	a := s.aims[0]
	out.How, out.Tried, out.Jobs = Searched, a.tried, c.s.ran
	for _, g := range a.guards {
		out.By = append(out.By, g.Guard)
	}
	if a.proven() {
		out.How = Proven
	} else if job, ok := c.s.witness(a); ok {
		out.How, out.Job, out.Values = Refuted, &job, c.values(p, job.seen)
	}
	return out, nil
}

// inWords writes a promise as one line.
func inWords(p *engine.Promise) string {
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

// promised lists the names that a promise is about, beside its when.
func (m *model) promised(p *engine.Promise) []string {
	if as, _ := p.As(); as != "" {
		then, _ := m.book.Then(p)
		return append([]string{as}, then.Names()...)
	}
	return slices.Concat(p.Always.Names(), p.Never.Names())
}

// changed lists what amendments changed of that from which names are worked out.
func (m *model) changed(names []string) []Named {
	var out []Named
	note := func(what string, a *rulebook.Amended) {
		if a != nil {
			out = append(out, Named{what, a.Place})
		}
	}
	for _, name := range m.under(names) {
		if s, ok := m.book.Setting(name); ok {
			note("setting "+name, s.Amended)
		}
		if t, ok := m.book.Term(name); ok {
			note("term "+name, t.Amended)
		}
		if d, ok := m.book.Decision(name); ok {
			note("decision "+name, d.Amended)
			for _, r := range d.Rules {
				note("rule "+r.ID, r.Amended)
			}
		}
	}
	for _, l := range m.book.Lifted() {
		if !l.Replaced {
			note(l.Sort+" "+l.ID, &l.Amended)
		}
	}
	return out
}

// values are what the promise reads of a job.
func (c *conclusion) values(p *engine.Promise, jobs ...*seen) []Valued {
	var out []Valued
	for _, name := range c.q.m.notSettings(append(c.q.m.promised(p), p.When.Names()...)) {
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

// inTheWay lists what the walk left open of what the promise reads itself; of a
// promise that reads nothing of that, all that it left open.
func (c *conclusion) inTheWay(s *subject) []Unanalyzed {
	names := c.q.m.promised(s.promise)
	isOwn := func(n string) bool { return slices.Contains(names, n) }
	own := c.q.m.leftOpen([]*subject{s}, func(v variable) bool { return isOwn(v.name) || slices.ContainsFunc(v.reads, isOwn) })
	if len(own) > 0 {
		return own
	}
	return c.q.m.leftOpen([]*subject{s}, func(variable) bool { return true })
}

// guard is what keeps a job from getting a section: a refusal, a check that
// stops, a limit of an answer. Every section passes every guard.
type guard struct {
	Guard
	names  []string // that it reads
	passes func() cells.Node
}

// guards lists the guards of the book: refusals first, which are the cheapest.
func (m *model) guards() []guard {
	var out []guard
	for _, r := range m.book.Refusals() {
		out = append(out, guard{Guard{"refusal", Named{r.ID, r.Place}}, r.When.Names(), func() cells.Node { return m.d.Not(m.condition(r.When)) }})
	}
	for _, c := range m.book.Checks() {
		if c.Failing == rulebook.Stops {
			out = append(out, guard{Guard{"check", Named{c.ID, c.Place}}, append(c.When.Names(), m.checked(c)...), func() cells.Node {
				return m.d.Or(m.d.Not(m.condition(c.When)), m.met(c))
			}})
		}
	}
	for _, d := range m.book.Decisions() {
		for _, l := range d.Limits() {
			if !l.Permitted() {
				limit, _ := m.book.LimitFormula(l)
				out = append(out, guard{Guard{"limit", Named{l.ID, l.Place}}, slices.Concat([]string{d.Name}, l.When.Names(), limit.Names()), func() cells.Node {
					return m.d.Or(m.d.Not(m.d.And(m.condition(d.When), m.condition(l.When))), m.within(d, l))
				}})
			}
		}
	}
	return out
}

// met is the set of jobs in which a check that applies is met.
func (m *model) met(c *engine.Check) cells.Node {
	if c.Holds != nil {
		return m.condition(c.Holds)
	}
	if compares, ok := m.checkComparison(c); ok {
		if n, ok := m.comparison(compares); ok {
			return n
		}
	}
	f := &calculated{key: "check " + c.ID, reads: m.notSettings(m.checked(c))}
	return m.d.In(m.open(f, leftOpen, f.key, m.newCells(value.BoolKind)), cells.One(1))
}

// checked lists the names that a check looks at where it applies.
func (m *model) checked(c *engine.Check) []string {
	if checked, limit, ok := m.book.CheckFormulas(c); ok {
		return append(checked.Names(), limit.Names()...)
	}
	return c.Holds.Names()
}

// within is the set of jobs in which an answer may be within a limit.
func (m *model) within(d *engine.Decision, l *engine.Limit) cells.Node {
	if c, ok := m.limitComparison(d, l); ok {
		if n, ok := m.comparison(c); ok {
			return n
		}
	}
	if words := slices.Concat(l.OneOf, l.NoneOf); len(words) > 0 && d.Take != rulebook.All {
		return m.where(d.Name, func(cs *cells.Cells, cell int) bool {
			v, _ := cs.Single(cell)
			return slices.ContainsFunc(words, func(w value.Word) bool { return v.Is(value.OfWord(&w)) }) == (len(l.OneOf) > 0)
		})
	}
	return cells.Always
}

// limitComparison returns the comparison that a limit makes of an answer.
func (m *model) limitComparison(d *engine.Decision, l *engine.Limit) (engine.Comparison, bool) {
	limit, ok := m.book.LimitFormula(l)
	if !ok || d.Take == rulebook.All {
		return engine.Comparison{}, false
	}
	return m.sides(m.book.NameFormula(d.Name), bound[l.AtMost != (rulebook.Text{})], limit)
}
