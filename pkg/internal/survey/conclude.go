package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// conclusion makes the report of what was walked and searched.
type conclusion struct {
	s      *searcher
	q      *asker
	scope  *scope
	given  int // jobs of trials and examples
	report *Report
	aimed  []int // jobs at each question that could be walked and was only searched
}

func (c *conclusion) conclude() error {
	c.report.Questions, c.report.NotLookedAt = map[How]int{}, notLookedAt
	for _, cs := range c.q.m.cells {
		c.report.Names++
		c.report.Cells += cs.Count()
	}
	var sketches []sketch
	for _, s := range c.scope.subjects {
		for _, a := range s.aims {
			if k, ok := c.sketch(a); ok {
				sketches = append(sketches, k)
			}
		}
	}
	for _, t := range c.s.sortedTroubles() {
		if k, ok := c.trouble(t); ok {
			sketches = append(sketches, k)
		}
	}
	found := make([]*Finding, len(sketches))
	if err := c.s.parallel(len(sketches), func(i int) { found[i] = c.finish(sketches[i]) }); err != nil {
		return err
	}
	c.s.report("making the jobs smaller", len(sketches), len(sketches))
	for i, f := range found {
		if f != nil {
			f.Cell = c.where(sketches[i].aim, f.Job)
			c.report.Findings = append(c.report.Findings, *f)
		}
	}
	c.report.Findings = append(c.report.Findings, c.unread()...)
	slices.SortStableFunc(c.report.Findings, func(a, b Finding) int { return slices.Index(kindOrder, a.Kind) - slices.Index(kindOrder, b.Kind) })
	for _, s := range c.scope.subjects {
		c.settle(s)
	}
	if len(c.aimed) > 0 {
		c.report.Aimed = slices.Min(c.aimed)
	}
	c.report.Unanalyzed = c.q.m.leftOpen(c.scope.subjects, func(variable) bool { return true })
	return nil
}

// notLookedAt says what no part of a survey looks at.
var notLookedAt = []string{
	"jobs with overrides",
	"jobs with several readings of one kind, or sieve curves at other sieves than rules read, but for those of trials and examples",
	"settings and materials other than those of the rulebook",
	"whether a limit of a decision ever applies",
	"what sentences say",
}

var kindOrder = []Kind{NoAnswer, TwoAnswers, NeverApplies, Hidden, NeverMet, Breaks, Unread, NeverGoverns, Always, NeverFails, OutOfRange}

// of says which rule a finding is about, and by which others.
func (f *Finding) of(d *engine.Decision, rule int, by ...int) {
	named := ruleNamed(d.Rules[rule])
	f.Rule, f.Place = &named, named.Place
	for _, other := range by {
		f.By = append(f.By, ruleNamed(d.Rules[other]))
	}
}

func ruleNamed(r *engine.Rule) Named { return Named{r.ID, r.Place} }

// sketch is a finding whose job is still to be made smaller. The walk of the
// cells is done when it is made, so that many can be finished at once.
type sketch struct {
	f Finding
	// aim is what a job shows; nil if the finding needs none.
	aim *aim
	// instead is what is left to say if the job turns out not to show it.
	instead *Finding
}

// shownBy returns a sketch that a job shows; ok is false if there is none.
func shownBy(f Finding, a *aim) (sketch, bool) {
	return sketch{f: f, aim: a}, a != nil && a.hits > 0
}

// finish makes the job of a sketch, and tells what the engine made of it.
func (c *conclusion) finish(k sketch) *Finding {
	if k.aim == nil {
		return &k.f
	}
	job, ok := c.s.witness(k.aim)
	if !ok {
		return k.instead
	}
	k.f.Job = &job
	if d, isDecision := c.q.m.book.Decision(k.f.Name); isDecision {
		if decided, asked := job.seen.decided(d); asked && decided.Rule != nil {
			job.Took = decided.Rule.ID
		}
	}
	if k.aim.trouble != nil {
		err := job.seen.Err
		if job.seen.at != nil {
			err = job.seen.at.Err
		}
		k.f.Says, _, _ = strings.Cut(err.Error(), "\n")
	}
	return &k.f
}

// sketch makes the finding that an aim is about, but for its job; ok is false if there is
// none.
func (c *conclusion) sketch(a *aim) (k sketch, ok bool) {
	s, d := a.subject, a.subject.decision
	f := Finding{About: s.About}
	say := func(kind Kind, format string, args ...any) { f.Kind, f.Says = kind, fmt.Sprintf(format, args...) }
	switch {
	case a.what == noAnswer:
		say(NoAnswer, "No rule answers: %s", d.Asks)
		return shownBy(f, a)
	case a.what == twoAnswers:
		say(TwoAnswers, "Two rules hold and answer differently: %s", d.Asks)
		f.of(d, a.other, a.rule)
		return shownBy(f, a)
	case !a.proven():
		return sketch{}, false
	}
	f.Settings = c.settingsBehind(a)
	there := s.aim(applies, 0, 0)
	always := d == nil && there != nil && there.hits > 0
	switch {
	case a.what == applies && d != nil:
		return c.neverTaken(a, f)
	case a.what == applies:
		say(NeverApplies, "No job has this %s.", s.What)
		f.Against = c.against(s, s.when)
	case !always:
		return sketch{}, false
	case a.what == lapses:
		say(Always, "The condition of this %s holds for every job.", s.What)
	case a.what == fails:
		say(NeverFails, "Every job to which the check applies meets it.")
	default: // passes
		say(NeverMet, "No job to which the check applies meets it.")
		return shownBy(f, s.aim(fails, 0, 0))
	}
	return sketch{f: f}, true
}

// neverTaken makes the finding about a rule whose answer is never taken.
func (c *conclusion) neverTaken(a *aim, f Finding) (sketch, bool) {
	s, d := a.subject, a.subject.decision
	held := s.aim(holds, a.rule, 0)
	if held == nil || held.proven() {
		f.of(d, a.rule)
		f.Kind, f.Says = NeverApplies, "The rule's condition holds for no job."
		f.Against = c.against(s, s.when, d.Rules[a.rule].When)
		return sketch{f: f}, true
	}
	f.of(d, a.rule, a.by...)
	f.Kind, f.Says = Hidden, "Whenever the rule's condition holds, an earlier rule has already answered."
	if d.Take != rulebook.First {
		f.Kind, f.Says = NeverGoverns, fmt.Sprintf("The rule holds for some jobs, and its answer is never the %s.", d.Take)
	}
	instead := f
	instead.Kind = NeverApplies
	instead.Says += " No job was found for which it holds."
	if k, ok := shownBy(f, held); ok {
		k.instead = &instead
		return k, true
	}
	return sketch{f: instead}, true
}

// settingsBehind names the settings without whose values a proof fails; where
// several together keep it, all that it reads.
func (c *conclusion) settingsBehind(a *aim) []string {
	m := c.q.m
	var read, needed []int
	for _, v := range m.d.Support(a.free) {
		if m.variables[v].role == settingClause {
			read = append(read, v)
		}
	}
	for _, v := range read {
		rest, ok := cells.Guarded(cells.Always, func() cells.Node {
			rest := a.free
			for _, other := range read {
				if other != v {
					rest = m.d.And(rest, m.stands(other))
				}
			}
			return rest
		})
		if ok && rest != cells.Never {
			needed = append(needed, v)
		}
	}
	if len(needed) == 0 {
		needed = read
	}
	var out []string
	for _, v := range needed {
		out = append(out, m.book.ClauseNames(m.variables[v].clauses[0])...)
	}
	return unique(out)
}

// trouble makes the finding of a job that the engine did not answer, if it lies in what
// the survey asks about.
func (c *conclusion) trouble(a *aim) (sketch, bool) {
	f, at := Finding{Kind: Breaks, About: About{What: "job", Name: "as a whole"}}, a.trouble.at
	if a.trouble.Status == section.Refused { // a calculation does not reach the job
		f.Kind = OutOfRange
	}
	if at == nil {
		return shownBy(f, a)
	}
	d, isDecision := c.q.m.book.Decision(at.In)
	switch {
	case at.Sort != "":
		f.About = About{What: at.Sort, Name: at.In, Place: at.Place}
	case isDecision:
		f.About = About{"decision", d.Name, d.Chapter, at.Place}
		if at.Rule != "" {
			f.Rule = &Named{at.Rule, at.Place}
		}
	default:
		f.About = About{What: "term", Name: at.In, Place: at.Place}
	}
	concerns := func(s *subject) bool {
		reads := s.when.Names() // directly
		if s.decision != nil {
			reads = c.q.m.book.Uses(s.Name)
		}
		return s.Name == f.Name || slices.Contains(reads, at.In)
	}
	k, shown := shownBy(f, a)
	return k, shown && slices.ContainsFunc(c.scope.subjects, concerns)
}

// against finds parts of conditions that never hold together: as few as make a
// rule's condition hold for no job.
func (c *conclusion) against(s *subject, conditions ...*engine.Condition) []Named {
	m := c.q.m
	var parts []part
	for _, cond := range conditions {
		for _, p := range topParts(cond) {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return m.tree(p) }); ok {
				parts = append(parts, part{n, p.Text(m.book.ClauseText), placeOf(cond, p)})
			}
		}
	}
	slices.Reverse(parts) // the last that is left out stands first
	if s.refusal == nil && (s.decision == nil || !c.q.w.early[s.Name]) {
		for _, r := range slices.Backward(m.book.Refusals()) {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return m.d.Not(m.condition(r.When)) }); ok {
				parts = append(parts, part{n, "not refused by " + r.ID, r.Place})
			}
		}
	}
	never := func(parts []part) bool { return c.q.none(func() []cells.Node { return setsOf(parts) }) }
	if !never(parts) {
		return nil
	}
	var out []Named
	for _, p := range slices.Backward(fewest(parts, never)) {
		out = append(out, Named{p.says, p.place})
	}
	return out
}

// topParts are the parts of a condition that must each hold for it to hold.
func topParts(c *engine.Condition) []*logic.Tree {
	switch {
	case c == nil:
		return nil
	case c.Tree().Op != logic.All:
		return []*logic.Tree{c.Tree()}
	}
	return c.Tree().Parts
}

// placeOf returns where the first clause of a part stands.
func placeOf(c *engine.Condition, p *logic.Tree) diagnostic.Place {
	for len(p.Parts) > 0 {
		p = p.Parts[0]
	}
	for _, at := range c.Clauses() {
		if at.Index == p.Clause {
			return at.Place
		}
	}
	return c.Place
}

// settle tells how far the questions about a subject are settled.
func (c *conclusion) settle(s *subject) {
	out := Settled{About: s.About, Exactly: true}
	for _, a := range s.aims {
		if a.what == holds {
			continue
		}
		how := Searched
		switch {
		case a.proven():
			how = Proven
		case a.hits > 0:
			how = Shown
		}
		out.Points = append(out.Points, Point{a.asks(), how})
		c.report.Questions[how]++
		if how == Searched {
			out.Exactly = false
			if a.walked {
				c.aimed = append(c.aimed, a.tried)
			}
		}
	}
	c.report.Settled = append(c.report.Settled, out)
}

// asks tells what an aim looks for.
func (a *aim) asks() string {
	d := a.subject.decision
	switch {
	case a.what == twoAnswers:
		return fmt.Sprintf("a job for which %s and %s answer differently", d.Rules[a.rule].ID, d.Rules[a.other].ID)
	case a.what == applies && d != nil && (d.Take == rulebook.Largest || d.Take == rulebook.Smallest):
		return "a job for which " + d.Rules[a.rule].ID + " governs"
	case a.what == applies && d != nil:
		return "a job for which " + d.Rules[a.rule].ID + " answers"
	}
	return [...]string{noAnswer: "a job without an answer", applies: "a job to which it applies", holds: "a job in which its condition holds",
		lapses: "a job to which it does not apply", fails: "a job that fails it", passes: "a job that meets it", broken: "a section that breaks it"}[a.what]
}

// leftOpen lists what the walk left open in what subjects ask, as far as it counts.
func (m *model) leftOpen(subjects []*subject, counts func(variable) bool) []Unanalyzed {
	var out []Unanalyzed
	open := map[int]bool{}
	for _, s := range subjects {
		for _, a := range s.aims {
			if !a.walked {
				out = append(out, Unanalyzed{s.What + " " + s.Name + ": " + a.asks(), []diagnostic.Place{s.Place}, tooMany})
			}
			for _, v := range m.d.Support(a.region) {
				open[v] = true
			}
		}
	}
	for i, v := range m.variables {
		if u, ok := m.describe(v); ok && open[i] && counts(v) {
			out = append(out, u)
		}
	}
	slices.SortStableFunc(out, func(a, b Unanalyzed) int { return a.Places[0].Compare(b.Places[0]) })
	return out
}

// describe tells what was left open, and where it stands.
func (m *model) describe(v variable) (Unanalyzed, bool) {
	if v.role != leftOpen {
		return Unanalyzed{}, false
	}
	u := Unanalyzed{v.text, slices.Clone(v.places), cmp.Or(v.why, "it is calculated from") + " " + strings.Join(v.reads, ", ")}
	for _, clause := range v.clauses {
		u.Places = append(u.Places, m.places[clause]...)
	}
	slices.SortFunc(u.Places, diagnostic.Place.Compare)
	return u, len(u.Places) > 0
}
