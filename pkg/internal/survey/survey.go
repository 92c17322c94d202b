// Package survey searches the whole range of jobs for what is wrong with a
// rulebook: decisions without an answer, decisions with two different ones, and
// rules that never apply or are always hidden by an earlier one.
//
// It does so in two ways that check each other. First it splits every name at
// every value that any condition compares it with, and walks the cells as
// decision diagrams, so that cells that no rule tells apart are walked together.
// Every job that the engine can answer lies in one of the cells; what holds for
// no cell is therefore proven for all jobs. What is calculated is left open in
// that walk, so a cell that is left may hold no job in the world. So, second,
// what is left is looked for with jobs that the engine itself runs: jobs at the
// values where conditions meet, random jobs, and jobs changed step by step toward a
// cell, by bisection where a calculated value must come to lie. Nothing is reported that the engine does not do with the very job that is
// reported; and what was neither proven nor shown is listed as such.
//
// What a survey does not look at stands in [Report.NotLookedAt].
package survey

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/site"
)

// Options are how a survey is done. The zero Options survey everything.
type Options struct {
	// Within narrows the survey.
	Within Within
	// Seed of the search. The same rulebook, options and seed give the same
	// report.
	Seed uint64
	// Budget is how many jobs may be run, 0 for [UsualBudget]. Making findings
	// smaller takes some hundred more for each.
	Budget int
	// Jobs of trials and examples, which are run beside those of the budget. Their
	// overrides are left out.
	Jobs []*site.Site
	// Progress, if there is one, is called now and then from the goroutine of the
	// caller with the stage and how far it is.
	Progress func(stage string, done, total int)
}

// UsualBudget is how many jobs a survey runs if it is not told.
const UsualBudget = 60000

// mostNodes bounds the memory of the walk to about four gigabytes.
const mostNodes = 8000000

// tooMany says why a walk that takes more was given up.
const tooMany = "there are too many cells to walk"

// Run surveys a rulebook. The error wraps [ErrWithin] if the survey is narrowed
// to something that is not there, and is the context's if that is done.
func Run(ctx context.Context, book *engine.Book, o Options) (*Report, error) {
	return run(ctx, book, o, mostNodes)
}

func run(ctx context.Context, rules *engine.Book, o Options, most int) (*Report, error) {
	scope, err := narrow(rules, o.Within, subjects(rules), "a decision, check, caution, course, refusal, step, tolerance or stop")
	if err != nil {
		return nil, err
	}
	o.Budget = cmp.Or(max(o.Budget, 0), UsualBudget)
	c, err := look(ctx, newModel(rules, most), scope, o)
	if err != nil {
		return nil, err
	}
	c.report = &Report{Within: o.Within.String(), Seed: o.Seed, Jobs: c.s.ran, Possible: c.s.possible, Given: c.given}
	if err := c.conclude(); err != nil {
		return nil, err
	}
	if len(scope.subjects) == len(subjects(rules)) {
		c.report.UnaskedWords, c.report.PassedBy = unasked(rules), passedBy(rules)
	}
	return c.report, nil
}

// look walks the cells for the subjects of a scope, and searches for jobs that show what
// the walk leaves open.
func look(ctx context.Context, m *model, scope *scope, o Options) (*conclusion, error) {
	if o.Progress == nil {
		o.Progress = func(string, int, int) {}
	}
	q, err := walk(ctx, m, scope, o.Progress)
	if err != nil {
		return nil, err
	}
	s := &searcher{ctx: ctx, w: q.w, m: m, seed: o.Seed, budget: o.Budget, troubles: map[string]*aim{}, report: o.Progress}
	for _, each := range scope.subjects {
		s.aims = append(s.aims, each.aims...)
	}
	s.w.findUsed(q.names(scope))
	given := s.w.given(o.Jobs)
	if err := s.search(given); err != nil {
		return nil, err
	}
	if len(s.disagree) > 0 {
		a := s.disagree[0]
		return nil, fmt.Errorf("%w: %s %s: %s, though the walk of the cells ruled it out", ErrDisagree, a.subject.What, a.subject.Name, a.asks())
	}
	return &conclusion{s: s, q: q, scope: scope, given: len(given)}, nil
}

// walk makes the model and the aims of every subject.
func walk(ctx context.Context, m *model, scope *scope, report func(string, int, int)) (*asker, error) {
	w := newDrafter(m)
	q := &asker{m: m, w: w}
	m.splitAll(scope.fixed)
	for _, p := range scope.fixed {
		p, err := m.pinned(p)
		if err != nil {
			return nil, err
		}
		w.fixed = append(w.fixed, p)
	}
	// A first round sets the order of the variables by what the rulebook asks about.
	for _, s := range slices.Concat(scope.met, scope.subjects) {
		_, _ = cells.Guarded(cells.Always, func() cells.Node {
			for _, c := range s.conditions() {
				q.m.condition(c)
			}
			return cells.Always
		})
	}
	q.prepare()
	report("walking the cells", 0, len(scope.subjects))
	for i, s := range scope.subjects {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		q.ask(s)
		report("walking the cells", i+1, len(scope.subjects))
	}
	return q, nil
}

// names lists the names that the questions of a scope read.
func (q *asker) names(scope *scope) []string {
	var out []string
	for _, r := range q.m.book.Refusals() {
		out = append(out, r.When.Names()...)
	}
	for _, s := range scope.subjects {
		out = append(out, s.when.Names()...)
		switch {
		case s.decision != nil:
			out = append(out, q.m.book.Reads(s.Name)...)
		case s.promise != nil:
			out = append(out, q.m.promised(s.promise)...)
		case s.check != nil:
			out = append(out, q.m.checked(s.check)...)
		}
	}
	return out
}

// The shares of the budget that are spent on jobs made for no aim in particular.
const (
	randomShare   = 0.35
	boundaryShare = 0.1
)

// search runs jobs in stages: those that are given, as they are and as drafts;
// those that tell one number at a value where conditions may meet; random ones; and
// those aimed at what no other showed.
func (s *searcher) search(given []*site.Site) error {
	for _, job := range given {
		for _, d := range s.w.draftsOf(job) {
			s.w.hold(d, s.rng(5))
			s.drafts = append(s.drafts, d)
		}
	}
	s.w.gather(s.drafts)
	meeting := s.share(boundaryShare, s.w.boundaries(s.rng(4)))
	drafted := func(drafts []draft) func(int) shown {
		return func(i int) shown { return s.try(drafts[i]) }
	}
	for _, stage := range []struct {
		name  string
		total int
		try   func(i int) shown
	}{
		{"the jobs of trials and examples", len(given), func(i int) shown { return s.tryWhole(given[i]) }},
		{"the values of trials and examples", len(s.drafts), drafted(s.drafts)},
		{"jobs at the values where conditions meet", len(meeting), drafted(meeting)},
		{"random jobs", int(randomShare * float64(s.budget)), func(i int) shown { return s.try(s.w.randomDraft(s.rng(3, uint64(i)))) }},
	} {
		if err := s.run(stage.name, stage.total, stage.try); err != nil {
			return err
		}
	}
	s.budget += len(given) + len(s.drafts)
	return s.hunt()
}

// share takes no more drafts than a share of the budget, evenly out of all.
func (s *searcher) share(share float64, drafts []draft) []draft {
	out := make([]draft, min(len(drafts), int(share*float64(s.budget))))
	for i := range out {
		out[i] = drafts[i*len(drafts)/len(out)]
	}
	return out
}

// ErrDisagree is wrapped when the engine did with some job what the walk of the
// cells had ruled out. It is a fault of this package, never of a rulebook.
var ErrDisagree = errors.New("the survey disagrees with the engine")

// ErrWithin is wrapped when a survey is narrowed to something that is not there.
var ErrWithin = errors.New("the survey cannot be narrowed so")

// Within narrows a survey. The zero Within narrows to nothing.
type Within struct {
	// Decisions names decisions, checks, cautions, courses and refusals;
	// Chapters names chapters. With both empty everything is asked about, else
	// what either names.
	Decisions, Chapters []string
	// Fixed holds inputs at a value, written as in a job file: base at "open",
	// frost.depth at "40 in". The value [NotTold] leaves an input untold.
	Fixed map[string]string
}

// NotTold fixes an input at not being told.
const NotTold = "not told"

// String says in words to what the survey is narrowed.
func (w Within) String() string {
	var parts []string
	if len(w.Decisions) > 0 {
		parts = append(parts, strings.Join(w.Decisions, ", "))
	}
	if len(w.Chapters) > 0 {
		parts = append(parts, "chapter "+strings.Join(w.Chapters, ", "))
	}
	for _, name := range slices.Sorted(maps.Keys(w.Fixed)) {
		parts = append(parts, name+" = "+w.Fixed[name])
	}
	return strings.Join(parts, "; ")
}

// scope is what a survey asks about.
type scope struct {
	subjects []*subject
	met      []*subject // whose conditions are met before, for the order of variables
	fixed    []pin
}

// narrow narrows some subjects, which are of a sort.
func narrow(b *engine.Book, w Within, all []*subject, sort string) (*scope, error) {
	out := &scope{}
	var names, chapters []string
	for _, s := range all {
		names = append(names, s.Name)
	}
	for _, c := range b.Chapters() {
		chapters = append(chapters, c.Name)
	}
	if err := allThere(sort, w.Decisions, names); err != nil {
		return nil, err
	}
	if err := allThere("a chapter", w.Chapters, chapters); err != nil {
		return nil, err
	}
	everything := len(w.Decisions) == 0 && len(w.Chapters) == 0
	for _, s := range all {
		if everything || slices.Contains(w.Decisions, s.Name) || slices.Contains(w.Chapters, s.Chapter) {
			out.subjects = append(out.subjects, s)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(w.Fixed)) {
		f, err := fixedAt(b, name, w.Fixed[name])
		if err != nil {
			return nil, err
		}
		out.fixed = append(out.fixed, f)
	}
	return out, nil
}

func allThere(what string, wanted, names []string) error {
	for _, w := range wanted {
		if !slices.Contains(names, w) {
			return withinError("%q is not the name of %s%s", w, what, nearest(w, names))
		}
	}
	return nil
}

func nearest(name string, names []string) string {
	if near := diagnostic.Nearest(name, names); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

func withinError(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrWithin, fmt.Sprintf(format, args...))
}

func fixedAt(b *engine.Book, name, text string) (pin, error) {
	var names []string
	for _, in := range b.Inputs() {
		names = append(names, in.Name)
		if in.Name != name {
			continue
		}
		if text == NotTold {
			if in.Required {
				return pin{}, withinError("every job tells %s", name)
			}
			return pin{input: name}, nil
		}
		v, fault := b.Literal(text, in.Kind)
		if fault != nil {
			return pin{}, withinError("%s = %q: %v", name, text, fault)
		}
		return pin{input: name, value: v}, nil
	}
	return pin{}, withinError("%q is not an input%s", name, nearest(name, names))
}

// pinned finds the cell in which an input is held.
func (m *model) pinned(p pin) (pin, error) {
	cell, ok := m.cells[p.input].Of(p.value)
	if p.value.IsZero() {
		cell, ok = m.notTold(p.input), true
	}
	if p.cell = cell; !ok {
		return pin{}, withinError("%s cannot be held at %s", p.input, cells.Text(p.value))
	}
	return p, nil
}
