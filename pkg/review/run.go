package review

import (
	"context"
	"errors"
	"fmt"
	"iter"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/survey"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// ErrNoTrials is returned where there is no trial to run: a rulebook that nothing
// was tried on does not pass.
var ErrNoTrials = errors.New("there are no trials here")

// ErrWithin is wrapped where a survey is narrowed to something that is not there.
var ErrWithin = survey.ErrWithin

// Trials runs the trials of some folders: the .yaml and .yml files in the folder
// named trials of each, or in the folder itself if it has none. A folder that is
// given twice is run once.
//
// The error is a [diagnostic.List] of what is wrong in the files of trials,
// [ErrNoTrials], or wraps the context's; it is a [*groundrule.UseError] for a book
// that was not opened, as in every review.
func Trials(ctx context.Context, book *groundrule.Book, folders ...rulebook.Layer) (*Report, error) {
	return trials(ctx, book, folders, trial.Options{})
}

// Coverage is [Trials], and tells also which rules and clauses of the rulebook
// the trials do not reach.
func Coverage(ctx context.Context, book *groundrule.Book, folders ...rulebook.Layer) (*Report, error) {
	return trials(ctx, book, folders, trial.Options{Coverage: true})
}

func trials(ctx context.Context, book *groundrule.Book, folders []rulebook.Layer, o trial.Options) (*Report, error) {
	if err := opened(book); err != nil {
		return nil, err
	}
	all, err := trial.Load(folders...)
	if err != nil {
		return nil, err
	}
	if len(all) == 0 {
		return nil, ErrNoTrials
	}
	r, err := trial.Run(ctx, inside.Rules(book), all, o)
	if err != nil {
		return nil, err
	}
	return &Report{r}, nil
}

// SurveyOptions are how a survey is done. The zero SurveyOptions survey
// everything.
type SurveyOptions struct {
	// Names and Chapters narrow the survey to some decisions, checks, cautions,
	// courses and refusals, and to those of some chapters.
	Names, Chapters []string
	// Inputs holds inputs at a value, as a job file writes it: base at "open",
	// frost.depth at "40 in", or at "not told".
	Inputs map[string]string
	// Trials are folders of trials, as [Trials] takes them, and Examples some jobs,
	// such as past ones. Each of their jobs is tried as it is but for overrides, and
	// the values that it tells are tried in other jobs too. A trial's settings and
	// what it expects do not matter.
	Trials   []rulebook.Layer
	Examples iter.Seq2[*site.Site, error]
	// Seed of the search. One rulebook with one seed always has the same report.
	Seed uint64
	// Jobs is how many jobs may be tried beside those of Trials and Examples, 0 for
	// 60,000. More take longer and find more.
	Jobs int
	// Progress, if there is one, is called now and then from the goroutine of the
	// caller.
	Progress func(stage string, done, total int)
}

// Survey searches the whole range of jobs for what is wrong with a rulebook: a
// question that no rule answers, one that two rules answer differently, a rule
// that never applies or is always hidden by an earlier one, a check that cannot
// be met. Each finding has a job that shows it, or a proof that no job can. The
// report begins with what was proven, what was only searched, and what was not
// looked at. It may take minutes.
//
// The error wraps [ErrWithin] or the context's, is a [diagnostic.List] of what is
// wrong in the files of trials, or that of an example that could not be read.
func Survey(ctx context.Context, book *groundrule.Book, o SurveyOptions) (*Report, error) {
	return search(ctx, book, o, survey.Run)
}

// Prove settles every promise of a rulebook, or those that o names, over the whole
// range of jobs: it is proven, or refuted by the smallest job or pair of jobs that
// breaks it, which the rules themselves design so, or searched without a
// counterexample, with what stands in the way of a proof. It may take a minute.
// The errors are those of [Survey].
func Prove(ctx context.Context, book *groundrule.Book, o SurveyOptions) (*Report, error) {
	return search(ctx, book, o, survey.Prove)
}

func search[R findings](ctx context.Context, book *groundrule.Book, o SurveyOptions, run func(context.Context, *engine.Book, survey.Options) (R, error)) (*Report, error) {
	if err := opened(book); err != nil {
		return nil, err
	}
	within := survey.Within{Decisions: o.Names, Chapters: o.Chapters, Fixed: o.Inputs}
	options := survey.Options{Within: within, Seed: o.Seed, Budget: o.Jobs, Progress: o.Progress}
	var err error
	if options.Jobs, err = o.jobs(); err != nil {
		return nil, err
	}
	r, err := run(ctx, inside.Rules(book), options)
	if err != nil {
		return nil, err
	}
	return &Report{r}, nil
}

// jobs returns the jobs of the trials and the examples.
func (o SurveyOptions) jobs() ([]*site.Site, error) {
	all, err := trial.Load(o.Trials...)
	if err != nil {
		return nil, err
	}
	var out []*site.Site
	for _, t := range all {
		out = append(out, t.Job)
	}
	if o.Examples == nil {
		return out, nil
	}
	for job, err := range o.Examples {
		if err != nil {
			return nil, fmt.Errorf("the examples: %w", err)
		}
		out = append(out, job)
	}
	return out, nil
}

// ImpactOptions are how the impact of an edit is told.
type ImpactOptions struct {
	// Shown is how many changed jobs the text tells in full, one by one. The JSON
	// has them all.
	Shown int
	// Progress, if there is one, is called now and then from the goroutine of the
	// caller with how many jobs are done.
	Progress func(done int)
}

// Impact designs every job by the rulebook before an edit and by that after it,
// and tells what differs: the edits, how many jobs change, from what to what, and
// which edit brought it about. A job that comes with an error is listed as one
// that could not be read.
//
// The error wraps the context's. Once that is done Impact returns at once, even
// while it waits for the next job.
func Impact(ctx context.Context, before, after *groundrule.Book, jobs iter.Seq2[*site.Site, error], o ImpactOptions) (*Report, error) {
	if err := opened(before, after); err != nil {
		return nil, err
	}
	r, err := impact.Run(ctx, inside.Rules(before), inside.Rules(after), jobs, impact.Options{Progress: o.Progress})
	if err != nil {
		return nil, err
	}
	return &Report{impactOf{r, o.Shown}}, nil
}

// opened returns an error if a book was not opened.
func opened(books ...*groundrule.Book) error {
	for _, b := range books {
		if b.Table() == nil {
			return &groundrule.UseError{Err: errors.New("the book was not opened: open one with groundrule.Open, OpenStandard or Standard")}
		}
	}
	return nil
}

// impactOf is an impact with how it is told.
type impactOf struct {
	*impact.Report
	shown int
}

func (r impactOf) Tell(p *page.Page, system quantity.System) { r.Report.Tell(p, system, r.shown) }
