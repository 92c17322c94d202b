package survey

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// conclusion makes the report of what was walked and searched.
type conclusion struct {
	s      *searcher
	q      *asker
	scope  *scope
	given  int // jobs of trials and examples
	report *Report
}

func (c *conclusion) conclude() error {
	c.report.Questions, c.report.NotLookedAt = map[How]int{}, notLookedAt
	for _, cs := range c.q.m.cells {
		c.report.Names++
		c.report.Cells += cs.Count()
	}
	var sketches []sketch
	for _, s := range c.scope.subjects {
		sketches = append(sketches, c.sketches(s)...)
	}
	for _, t := range c.s.sortedTroubles() {
		if k, ok := c.trouble(t); ok {
			sketches = append(sketches, k)
		}
	}
	found := make([]*Finding, len(sketches))
	for from := 0; from < len(sketches); from += huntersAtOnce {
		n := min(huntersAtOnce, len(sketches)-from)
		if err := c.s.parallel(n, func(i int) { found[from+i] = c.finish(sketches[from+i]) }); err != nil {
			return err
		}
		c.s.report("making the jobs smaller", from+n, len(sketches))
	}
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
	c.unanalyzed()
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

func (s *subject) finding(k Kind) Finding {
	return Finding{Kind: k, What: s.what, Name: s.name, Chapter: s.chapter, Place: s.place}
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
	job, ok := c.s.witness(k.aim.best, k.aim.whole, k.aim.shows)
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

// sketches makes the findings about one subject, but for their jobs.
func (c *conclusion) sketches(s *subject) []sketch {
	var out []sketch
	for _, a := range s.aims {
		k, ok := c.sketch(a)
		if !ok {
			continue
		}
		if a.proven() {
			k.f.Settings = c.settingsBehind(a)
			if k.instead != nil {
				k.instead.Settings = k.f.Settings
			}
		}
		out = append(out, k)
	}
	return out
}

func (c *conclusion) sketch(a *aim) (sketch, bool) {
	s := a.subject
	switch a.what {
	case noAnswer:
		f := s.finding(NoAnswer)
		f.Says = fmt.Sprintf("No rule answers: %s", s.decision.Asks)
		return shownBy(f, a)
	case twoAnswers:
		f := s.finding(TwoAnswers)
		first, second := s.decision.Rules[a.rule], s.decision.Rules[a.other]
		rule := ruleNamed(second)
		f.Rule, f.Place, f.By = &rule, rule.Place, []Named{ruleNamed(first)}
		f.Says = fmt.Sprintf("Two rules hold and answer differently: %s", s.decision.Asks)
		return shownBy(f, a)
	case applies:
		if !a.proven() {
			return sketch{}, false
		}
		if s.decision != nil {
			return c.neverTaken(a), true
		}
		f := s.finding(NeverApplies)
		f.Says = fmt.Sprintf("No job has this %s.", s.what)
		f.Against = c.against(s, s.when)
		return sketch{f: f}, true
	}
	return c.bySides(a)
}

// bySides makes the findings about a condition that always holds, and about a
// check that is always met or never.
func (c *conclusion) bySides(a *aim) (sketch, bool) {
	s := a.subject
	there := s.aim(applies, 0, 0)
	if !a.proven() || there == nil || there.hits == 0 {
		return sketch{}, false
	}
	switch a.what {
	case lapses:
		f := s.finding(Always)
		f.Says = fmt.Sprintf("The condition of this %s holds for every job.", s.what)
		return sketch{f: f}, true
	case fails:
		f := s.finding(NeverFails)
		f.Says = "Every job to which the check applies meets it."
		return sketch{f: f}, true
	case passes:
		f := s.finding(NeverMet)
		f.Says = "No job to which the check applies meets it."
		return shownBy(f, s.aim(fails, 0, 0))
	}
	return sketch{}, false
}

// neverTaken makes the finding about a rule whose answer is never taken.
func (c *conclusion) neverTaken(a *aim) sketch {
	s, d := a.subject, a.subject.decision
	rule := ruleNamed(d.Rules[a.rule])
	held := s.aim(holds, a.rule, 0)
	if held == nil || held.proven() || d.Take == rulebook.Only || d.Take == rulebook.All {
		f := s.finding(NeverApplies)
		f.Rule, f.Place = &rule, rule.Place
		f.Says = "The rule's condition holds for no job."
		f.Against = c.against(s, s.when, d.Rules[a.rule].When())
		return sketch{f: f}
	}
	f := s.finding(Hidden)
	f.Rule, f.Place, f.By = &rule, rule.Place, namesOf(d, a.by)
	f.Says = "Whenever the rule's condition holds, an earlier rule has already answered."
	if d.Take == rulebook.Largest || d.Take == rulebook.Smallest {
		f.Kind, f.Says = NeverGoverns, fmt.Sprintf("The rule holds for some jobs, and its answer is never the %s.", d.Take)
	}
	instead := f
	instead.Kind = NeverApplies
	instead.Says += " No job was found for which it holds."
	k, ok := shownBy(f, held)
	if !ok {
		return sketch{f: instead}
	}
	k.instead = &instead
	return k
}

// settingsBehind names the settings without whose values a proof fails; where
// several together keep it, all that it reads.
func (c *conclusion) settingsBehind(a *aim) []string {
	if a.free == cells.Never {
		return nil
	}
	var read, needed []int
	for _, v := range c.q.m.d.Support(a.free) {
		if c.q.m.variables[v].role == settingClause {
			read = append(read, v)
		}
	}
	for _, v := range read {
		rest, ok := cells.Guarded(cells.Always, func() cells.Node {
			rest := a.free
			for _, other := range read {
				if other != v {
					rest = c.q.m.d.And(rest, c.q.m.stands(other))
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
		for _, n := range c.q.m.book.ClauseNames(c.q.m.variables[v].clauses[0]) {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	return out
}

// trouble makes the finding of a job that the engine did not answer, if it lies in what
// the survey asks about.
func (c *conclusion) trouble(a *aim) (sketch, bool) {
	f, at := Finding{Kind: Breaks, What: "job", Name: "as a whole"}, a.trouble.at
	if a.trouble.outOfRange() {
		f.Kind = OutOfRange
	}
	if at == nil {
		return shownBy(f, a)
	}
	f.What, f.Name, f.Place = "rule", at.In, at.Place
	if at.Rule != "" {
		f.Rule = &Named{at.Rule, at.Place}
	}
	concerns := func(s *subject) bool {
		reads := s.when.Names() // directly
		if s.decision != nil {
			reads = c.q.m.book.Uses(s.name)
		}
		return s.name == at.In || s.name == at.Rule || "course "+s.name == at.In || slices.Contains(reads, at.In)
	}
	k, shown := shownBy(f, a)
	return k, shown && slices.ContainsFunc(c.scope.subjects, concerns)
}
