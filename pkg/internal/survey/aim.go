package survey

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// aim is one thing that a job may show: that a rule applies, that a decision has
// no answer. An aim whose region is empty no job can show; that is proof. Any
// other needs a witness.
type aim struct {
	subject *subject
	what    aimed
	// rule and other are places in the decision's list of rules.
	rule, other int
	// region holds every abstract job that may show it; free is the same with
	// the clauses that read settings alone left open.
	region, free node
	// walked is false where the cells were too many to walk; region is then
	// every job.
	walked bool
	shows  func(*seen) bool

	// by are the rules that hide a rule whose answer is never taken.
	by []int

	hits  int
	best  draft // the job of fewest entries that shows it
	tried int   // jobs that were aimed at it
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
)

// open reports whether a job is still looked for.
func (a *aim) open() bool { return a.region != never && a.hits == 0 }

// proven reports whether no job can show it.
func (a *aim) proven() bool { return a.walked && a.region == never }

// subject is what is asked about: a decision, check, caution, course or refusal.
type subject struct {
	what, name, chapter string
	place               diagnostic.Place
	decision            *engine.Decision
	check               *engine.Check
	caution             *engine.Caution
	course              *engine.Course
	refusal             *engine.Refusal
	when                *engine.Condition
	aims                []*aim
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
		out = append(out, &subject{what: "refusal", name: r.ID, chapter: r.Chapter, place: r.Place, refusal: r, when: r.When()})
	}
	for _, d := range b.Decisions() {
		out = append(out, &subject{what: "decision", name: d.Name, chapter: d.Chapter, place: d.Place, decision: d, when: d.When()})
	}
	for _, c := range b.Courses() {
		out = append(out, &subject{what: "course", name: c.Name, chapter: c.Chapter, place: c.Place, course: c, when: c.When()})
	}
	for _, c := range b.Checks() {
		out = append(out, &subject{what: "check", name: c.ID, chapter: c.Chapter, place: c.Place, check: c, when: c.When()})
	}
	for _, c := range b.Cautions() {
		out = append(out, &subject{what: "caution", name: c.ID, chapter: c.Chapter, place: c.Place, caution: c, when: c.When()})
	}
	return out
}

// asker makes the aims of subjects.
type asker struct {
	m   *model
	eye *eye
	w   *drafter
	// domain holds the abstract jobs that can be, and that the survey is about.
	domain, refused node
	// stand holds the abstract jobs in which the settings stand, as far as the
	// first so many variables tell.
	stand      node
	standKnows int
}

// settingsStand is the set of abstract jobs in which every clause that reads
// settings alone comes to what it comes to. Such clauses are met as the
// questions are asked.
func (q *asker) settingsStand() node {
	if q.standKnows != len(q.m.variables) {
		q.stand, q.standKnows = q.m.settingsStand(), len(q.m.variables)
	}
	return q.stand
}

// guarded works out a set; ok is false, and the set holds every job, if there
// were too many cells.
func guarded(work func() node) (n node, ok bool) { return guardedOr(always, work) }

func guardedOr(instead node, work func() node) (n node, ok bool) {
	defer func() {
		if r := recover(); r != nil {
			if r != any(errTooLarge) {
				panic(r)
			}
			n, ok = instead, false
		}
	}()
	return work(), true
}

// prepare works out what all questions have in common.
func (q *asker) prepare() {
	m := q.m
	// Where there are too many cells more jobs are left in than can be, which
	// makes fewer proofs and no wrong one.
	q.refused, _ = guardedOr(never, func() node {
		out := never
		for _, r := range m.book.Refusals() {
			out = m.d.or(out, m.condition(r.When()))
		}
		return out
	})
	q.domain, _ = guarded(func() node { return m.possible(q.w) })
	for _, p := range q.w.fixed {
		q.domain, _ = guardedOr(q.domain, func() node { return m.d.and(q.domain, m.d.in(m.input(p.input), oneCell(p.cell))) })
	}
}

// ask makes the aims of one subject.
func (q *asker) ask(s *subject) {
	switch {
	case s.decision != nil:
		q.askDecision(s, s.decision)
	case s.refusal != nil:
		q.presence(s, func() node { return always }, (*seen).answered)
	case s.check != nil:
		q.askCheck(s, s.check)
	default:
		q.presence(s, q.designs, (*seen).designed)
	}
}

// designs is the set of jobs that are not refused.
func (q *asker) designs() node { return q.m.d.not(q.refused) }

// add makes an aim. The region is worked out of the set and of the domain.
func (q *asker) add(s *subject, what aimed, rule, other int, shows func(*seen) bool, set func() node) *aim {
	a := &aim{subject: s, what: what, rule: rule, other: other, shows: shows}
	a.free, a.walked = guarded(func() node { return q.m.d.and(set(), q.domain) })
	a.region = a.free
	if a.walked {
		a.region, a.walked = guarded(func() node { return q.m.d.and(a.free, q.settingsStand()) })
	}
	s.aims = append(s.aims, a)
	return a
}

// presence asks whether a condition ever holds and whether it always does.
func (q *asker) presence(s *subject, among func() node, counts func(*seen) bool) {
	m := q.m
	q.add(s, applies, 0, 0, func(x *seen) bool { return x.has(s) }, func() node { return m.d.and(among(), m.condition(s.when)) })
	if s.when != nil {
		q.add(s, lapses, 0, 0, func(x *seen) bool { return counts(x) && !x.has(s) },
			func() node { return m.d.and(among(), m.d.not(m.condition(s.when))) })
	}
}

func (q *asker) askCheck(s *subject, c *engine.Check) {
	m := q.m
	q.presence(s, q.designs, (*seen).designed)
	met := func() node {
		if c.Holds() != nil {
			return m.condition(c.Holds())
		}
		return m.compared(c)
	}
	q.add(s, fails, 0, 0, func(x *seen) bool { r, is := x.checked(c); return is && !r.Holds },
		func() node { return m.d.and(q.designs(), m.condition(s.when), m.d.not(met())) })
	q.add(s, passes, 0, 0, func(x *seen) bool { r, is := x.checked(c); return is && r.Holds },
		func() node { return m.d.and(q.designs(), m.condition(s.when), met()) })
}

// among is the set of jobs in which a decision is asked. One that a refusal
// needs is asked of every job, any other of jobs that are not refused.
func (q *asker) among(d *engine.Decision) node {
	asked := q.m.condition(d.When())
	if !q.eye.early[d.Name] {
		asked = q.m.d.and(asked, q.designs())
	}
	return asked
}

func (q *asker) askDecision(s *subject, d *engine.Decision) {
	m := q.m
	// part works out a part of the decision's model among the jobs that ask it.
	part := func(of func(*decisionModel) node) func() node {
		return func() node { return m.d.and(q.among(d), of(m.decision(d))) }
	}
	if d.Take != rulebook.All {
		q.add(s, noAnswer, 0, 0, func(x *seen) bool { return x.failsWith(d, rulebook.ErrNoAnswer) },
			part(func(dm *decisionModel) node { return dm.none }))
	}
	for i := range d.Rules {
		shows := func(x *seen) bool { return x.chose(d, i) }
		if d.Take == rulebook.Only {
			shows = func(x *seen) bool { return x.held(d, i) }
		}
		a := q.add(s, applies, i, 0, shows, part(func(dm *decisionModel) node { return dm.taken(i) }))
		if a.proven() && d.Take != rulebook.Only && d.Take != rulebook.All {
			q.askHidden(s, a)
		}
		for j := range i {
			if d.Take == rulebook.Only {
				q.askBoth(s, d, j, i)
			}
		}
	}
}

// askBoth asks whether two rules of an "only" decision clash.
func (q *asker) askBoth(s *subject, d *engine.Decision, first, second int) {
	m := q.m
	shows := func(x *seen) bool { return x.clash(d, d.Rules[first], d.Rules[second]) }
	q.add(s, twoAnswers, first, second, shows, func() node {
		dm := m.decision(d)
		return m.d.and(q.among(d), dm.holds[first], dm.holds[second], dm.differ(first, second))
	})
}

// taken is the set of abstract jobs in which a rule's answer may be taken.
func (dm *decisionModel) taken(rule int) node {
	switch dm.d.Take {
	case rulebook.First:
		return dm.fires[rule]
	case rulebook.Largest, rulebook.Smallest:
		return dm.governs(rule)
	}
	return dm.holds[rule]
}

// compared is the set of jobs in which a check that compares is met.
func (m *model) compared(c *engine.Check) node {
	checked, limit, ok := m.book.CheckFormulas(c)
	if !ok {
		return always
	}
	if v, fixed := m.constant(limit); fixed {
		op := ">="
		if c.AtMost {
			op = "<="
		}
		if n, ok := m.comparison(engine.Comparison{Name: checked.Text(), Op: op, Values: []value.Value{v}}); ok {
			return n
		}
	}
	f := calculated{key: "check " + c.ID, reads: m.notSettings(append(checked.Names(), limit.Names()...))}
	return m.d.in(m.open(f, variable{role: checkOpen, check: c}, newCells(value.BoolKind, nil)), oneCell(1))
}
