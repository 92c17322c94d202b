package survey

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// aim is one thing that a job may show: that a rule applies, that a decision has
// no answer. If its region is empty, it is proven that no job can show it; any other
// aim needs a witness.
type aim struct {
	subject *subject
	what    aimed
	// rule and other are places in the decision's list of rules.
	rule, other int
	// region holds every abstract job that may show it; free is the same with
	// the clauses that read settings alone left open.
	region, free cells.Node
	// walked is false where the cells were too many to walk; region then says
	// nothing.
	walked bool
	shows  func(*seen) bool

	// guards are those on which the proof of a promise rests.
	guards []guard
	// by are the rules that hide a rule whose answer is never taken.
	by []int

	// trouble is the first job that the engine did not answer in the way that is shown.
	trouble *seen

	hits  int
	best  draft      // the job of fewest entries that shows it
	whole *site.Site // a job that was given and shows it, where no draft does
	tried int        // jobs that were aimed at it
}

// keep keeps a job that shows it.
func (a *aim) keep(x *seen) {
	switch a.hits++; {
	case x.draft == nil:
		a.whole = x.site
	case a.best == nil || x.draft.told() < a.best.told():
		a.best = x.draft
	}
}

type aimed uint8

const (
	noAnswer   aimed = iota // no rule of the decision holds
	twoAnswers              // two rules hold and answer differently
	applies                 // the rule's answer is taken; the check, caution, course or refusal applies
	holds                   // the rule's condition holds, whatever comes before it
	lapses                  // the condition of a check, caution, course or refusal does not hold
	fails                   // the check fails
	passes                  // the check is met
	broken                  // the promise is
)

// open reports whether jobs are still to be aimed at it, which takes a region.
func (a *aim) open() bool { return a.walked && a.region != cells.Never && a.hits == 0 }

// proven reports whether no job can show it.
func (a *aim) proven() bool { return a.walked && a.region == cells.Never }

// subject is what is asked about: a decision, check, caution, course, refusal, step,
// tolerance or stop.
type subject struct {
	About
	decision *engine.Decision // one of these five, or none
	check    *engine.Check
	refusal  *engine.Refusal
	promise  *engine.Promise
	work     *engine.Work
	when     *engine.Condition
	in       func(*engine.Outcome) bool // whether it applies, but for decisions and promises
	amended  *rulebook.Amended
	aims     []*aim
}

func (s *subject) aim(what aimed, rule, other int) *aim {
	for _, a := range s.aims {
		if a.what == what && a.rule == rule && a.other == other {
			return a
		}
	}
	return nil
}

// subjects lists everything that a book asks, in the order of its files.
func subjects(b *engine.Book) []*subject {
	var out []*subject
	for _, r := range b.Refusals() {
		out = append(out, &subject{About: About{"refusal", r.ID, r.Chapter, r.Place}, refusal: r, when: r.When, amended: r.Amended,
			in: func(o *engine.Outcome) bool { return slices.Contains(o.Refusals, r) }})
	}
	for _, d := range b.Decisions() {
		out = append(out, &subject{About: About{"decision", d.Name, d.Chapter, d.Place}, decision: d, when: d.When, amended: d.Amended})
	}
	for _, c := range b.Courses() {
		out = append(out, &subject{About: About{"course", c.Name, c.Chapter, c.Place}, when: c.When, amended: c.Amended,
			in: func(o *engine.Outcome) bool { return slices.Contains(o.Courses, c) }})
	}
	for _, c := range b.Checks() {
		out = append(out, &subject{About: About{"check", c.ID, c.Chapter, c.Place}, check: c, when: c.When, amended: c.Amended,
			in: func(o *engine.Outcome) bool {
				return slices.ContainsFunc(o.Checks, func(each *engine.Checked) bool { return each.Check == c })
			}})
	}
	for _, c := range b.Cautions() {
		out = append(out, &subject{About: About{"caution", c.ID, c.Chapter, c.Place}, when: c.When, amended: c.Amended,
			in: func(o *engine.Outcome) bool { return slices.Contains(o.Cautions, c) }})
	}
	for _, w := range b.Work() {
		if w.When != nil { // else it is there where its course is, which is asked of that
			out = append(out, &subject{About: About{w.Sort, w.ID, w.Chapter, w.Place}, work: w, when: w.When, amended: w.Amended,
				in: func(o *engine.Outcome) bool { return slices.Contains(o.Work, w) }})
		}
	}
	return out
}

func promises(b *engine.Book) []*subject {
	var out []*subject
	for _, p := range b.Promises() {
		out = append(out, &subject{About: About{"promise", p.ID, p.Chapter, p.Place}, promise: p, when: p.When, amended: p.Amended})
	}
	return out
}

// asker makes the aims of subjects.
type asker struct {
	m *model
	w *drafter
	// domain holds the abstract jobs that can be, and that the survey is about.
	domain, refused cells.Node
	// guards are those that promises are proven by.
	guards []guard
}

// prepare works out what all questions have in common.
func (q *asker) prepare() {
	m := q.m
	// Where there are too many cells more jobs are left in than can be, which
	// makes fewer proofs and no wrong one.
	q.refused, _ = cells.Guarded(cells.Never, func() cells.Node {
		var refused []cells.Node
		for _, r := range m.book.Refusals() {
			refused = append(refused, m.condition(r.When))
		}
		return m.d.Or(refused...)
	})
	q.domain, _ = cells.Guarded(cells.Always, func() cells.Node { return m.possible(q.w) })
	if m.limited {
		q.guards = m.guards()
	}
	for _, p := range q.w.fixed {
		q.domain, _ = cells.Guarded(q.domain, func() cells.Node { return m.d.And(q.domain, m.d.In(m.input(p.input), cells.One(p.cell))) })
	}
}

// among is the set of jobs that come to a subject: a refusal is asked of every job, and so
// is a decision that a refusal needs, any other of jobs that are not refused. What keeps
// a job from breaking a promise is brought in one by one.
func (q *asker) among(s *subject) cells.Node {
	d, designs := q.m.d, q.m.d.Not(q.refused)
	switch {
	case s.refusal != nil || s.promise != nil:
		return cells.Always
	case s.decision != nil && q.w.early[s.Name]:
		return q.m.condition(s.when)
	case s.decision != nil:
		return d.And(q.m.condition(s.when), designs)
	case s.work != nil:
		courses, needs := s.work.About()
		laid := cells.Always
		if needs {
			laid = cells.Never
		}
		for _, c := range courses {
			laid = d.Or(laid, q.m.condition(c.When))
		}
		return d.And(designs, laid)
	}
	return designs
}

// ask makes the aims of one subject: whether it ever applies and whether it always does;
// of a check whether it fails and is met.
func (q *asker) ask(s *subject) {
	m := q.m
	switch {
	case s.decision != nil:
		q.askDecision(s, s.decision)
		return
	case s.promise != nil:
		q.askPromise(s, s.promise)
		return
	}
	q.add(s, applies, 0, 0, func(x *seen) bool { return x.has(s) }, func() []cells.Node { return []cells.Node{m.condition(s.when)} })
	if s.when != nil {
		q.add(s, lapses, 0, 0, func(x *seen) bool { return x.comesTo(s) && !x.has(s) },
			func() []cells.Node { return []cells.Node{m.d.Not(m.condition(s.when))} })
	}
	if c := s.check; c != nil {
		q.add(s, fails, 0, 0, func(x *seen) bool { r, is := x.checked(c); return is && !r.Holds },
			func() []cells.Node { return []cells.Node{m.condition(s.when), m.d.Not(m.met(c))} })
		q.add(s, passes, 0, 0, func(x *seen) bool { r, is := x.checked(c); return is && r.Holds },
			func() []cells.Node { return []cells.Node{m.condition(s.when), m.met(c)} })
	}
}

// add makes an aim. The region holds the jobs that can be, that come to the subject, and
// that lie in every set.
func (q *asker) add(s *subject, what aimed, rule, other int, shows func(*seen) bool, sets func() []cells.Node) *aim {
	a := &aim{subject: s, what: what, rule: rule, other: other, shows: shows}
	var walked bool
	a.free, walked = q.m.d.Briefly(mostNodes/4, cells.Always, func() cells.Node {
		set := q.m.d.And(sets()...)
		if set == cells.Never {
			return set
		}
		return q.m.d.And(set, q.m.d.And(q.among(s), q.domain))
	})
	a.region, a.walked = cells.Guarded(cells.Always, func() cells.Node { return q.m.d.And(a.free, q.m.settingsStand()) })
	a.walked = a.walked && walked
	s.aims = append(s.aims, a)
	return a
}

func (q *asker) askDecision(s *subject, d *engine.Decision) {
	if d.Take != rulebook.All {
		q.add(s, noAnswer, 0, 0, func(x *seen) bool { return x.failsWith(d, rulebook.ErrNoAnswer) },
			func() []cells.Node { return []cells.Node{q.m.decision(d).none, q.m.condition(s.when)} })
	}
	for i := range d.Rules {
		shows := func(x *seen) bool { return x.chose(d, i) }
		if d.Take == rulebook.Only {
			shows = func(x *seen) bool { return x.held(d, i) }
		}
		a := q.add(s, applies, i, 0, shows, func() []cells.Node { return []cells.Node{q.m.decision(d).taken(i)} })
		if d.Take == rulebook.All {
			continue
		} else if d.Take != rulebook.Only {
			q.askHidden(s, a)
			continue
		}
		for j := range i { // two that answer differently
			q.add(s, twoAnswers, j, i, func(x *seen) bool { return x.clash(d, d.Rules[j], d.Rules[i]) }, func() []cells.Node {
				dm := q.m.decision(d)
				return []cells.Node{dm.holds[j], dm.holds[i], dm.differ(j, i)}
			})
		}
	}
}

// none reports whether no job that can be is in every set, the settings being as they
// are; it is false too where there are too many cells to tell.
func (q *asker) none(sets func() []cells.Node) bool {
	n, ok := cells.Guarded(cells.Always, func() cells.Node {
		return q.m.d.And(append(sets(), q.domain, q.m.settingsStand())...)
	})
	return ok && n == cells.Never
}

// fewest leaves out, from the last to the first, whatever the rest is enough without.
func fewest[T any](all []T, enough func([]T) bool) []T {
	for i := len(all) - 1; i >= 0; i-- {
		if fewer := slices.Delete(slices.Clone(all), i, i+1); enough(fewer) {
			all = fewer
		}
	}
	return all
}

// part is one thing that conditions ask about: the set of jobs in which it is so, or
// as in the finding's job, and the words that say it.
type part struct {
	set   cells.Node
	says  string
	place diagnostic.Place
}

func setsOf(parts []part) []cells.Node {
	var out []cells.Node
	for _, p := range parts {
		out = append(out, p.set)
	}
	return out
}

// where tells what matters about a finding's job: the cells of the inputs and
// worked-out values that the conditions of its subject ask about. It leaves out
// those that may be any others in a job that shows the finding; where the walk
// cannot tell which, it leaves out none.
func (c *conclusion) where(a *aim, job *Job) []string {
	if a == nil || job == nil || !a.walked {
		return nil
	}
	parts := c.q.partsOf(a.subject, job.seen)
	shows := func(parts []part) bool {
		return c.q.none(func() []cells.Node {
			return append(setsOf(parts), c.q.among(a.subject), c.q.m.d.Not(a.region))
		})
	}
	if shows(parts) {
		parts = fewest(parts, shows)
	}
	var out []string
	for _, p := range parts {
		out = append(out, p.says)
	}
	return out
}

func (s *subject) conditions() []*engine.Condition {
	out := []*engine.Condition{s.when}
	switch {
	case s.decision != nil:
		for _, r := range s.decision.Rules {
			out = append(out, r.When)
		}
	case s.check != nil:
		out = append(out, s.check.Holds)
	case s.promise != nil:
		out = append(out, s.promise.Always, s.promise.Never)
	}
	return out
}

// partsOf returns what the conditions of a subject ask about in a job, each once.
func (q *asker) partsOf(s *subject, x *seen) []part {
	var names []string
	for _, condition := range s.conditions() {
		for _, clause := range condition.Clauses() {
			if c, ok := q.m.clauseComparison(clause.Index); ok {
				names = append(names, c.Name)
			}
		}
	}
	var out []part
	for _, name := range unique(names) {
		if p, known := q.m.partOfName(name, x); known {
			out = append(out, p)
		}
	}
	return out
}

// partOfName is the part of a name or of a worked value.
func (m *model) partOfName(name string, x *seen) (part, bool) {
	cs, w := m.cells[name], m.worked[name]
	if cs == nil || cs.Count() > cells.Most {
		return part{}, false
	}
	text, has := name, "asked"
	v, known := x.calculated(name)
	if m.isInput(name) {
		has = "told"
	} else if w != nil {
		found, err := w.on(x.calculated)
		v, known, text = found, err == nil, w.text
	}
	cell, inside := cs.Of(v)
	if known = known && inside; !known {
		set, _ := cells.Guarded(cells.Always, func() cells.Node { return m.d.Not(m.known(name)) })
		return part{set: set, says: name + ": not " + has}, w == nil
	}
	set, _ := cells.Guarded(cells.Always, func() cells.Node { return m.name(name, cells.One(cell)) })
	switch {
	case w != nil && len(w.parts) == 2:
		text = w.parts[0] + []string{": less than ", ": the same as ", ": more than "}[cell] + w.parts[1]
	case cs.Count() == 1:
		text += ": " + has
	default:
		text += ": " + cs.Says(cell)
	}
	return part{set: set, says: text}, true
}
