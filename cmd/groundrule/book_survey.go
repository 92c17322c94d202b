package main

import (
	"context"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
)

var bookSurveyCommand = &command{
	name:  "book survey",
	usage: "groundrule book survey [JOBS...] [flags]",
	about: "a search for jobs that no rule answers, or two answer differently",
	text: `Searches every job that could be for what is wrong with the rulebook: a question
that no rule answers, one that two rules answer differently, a rule that never
applies or always stands behind another, a check that cannot be met. Each
finding has a job that shows it, or a proof that no job can. The report begins
with what was proven, what was only searched, and what was not looked at.

The jobs of the trials beside the rules and the amendments are tried too, and
those of JOBS: folders of job files, files of JSON lines (.jsonl), or job files.

It may take minutes. To survey a part of the rulebook, or some jobs only:

  groundrule book survey --within grid_kind
  groundrule book survey --within chapter=geogrid --within base=open
  groundrule book survey --within 'frost.depth=40 in'
`,
	flags: append([]string{flagWithin, flagSeed, flagJobs, flagJSON}, ofBook...),
	exits: `Exit code: 0 no fault was found; 1 a fault was found; 2 a rule file or the
command line is wrong.
`,
	run: func(c *call) int { return c.searched(review.Survey) },
}

// searched runs a review that searches the whole range of jobs.
func (c *call) searched(search func(context.Context, *groundrule.Book, review.SurveyOptions) (*review.Report, error)) int {
	if err := c.jobsThere(); err != nil {
		return c.usageError("%v; a part of the rulebook stands behind --within", err)
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	layers, err := c.files.layers()
	if err != nil {
		return c.fail(err)
	}
	o := review.SurveyOptions{Seed: c.seed, Jobs: c.jobs, Inputs: map[string]string{}, Trials: withTrials(layers), Examples: c.readJobs}
	for _, part := range c.within {
		name, value, fixed := strings.Cut(part, "=")
		switch name, value = strings.TrimSpace(name), strings.TrimSpace(value); {
		case !fixed:
			o.Names = append(o.Names, name)
		case name == "chapter":
			o.Chapters = append(o.Chapters, value)
		default:
			o.Inputs[name] = value
		}
	}
	ctx, stop := interruptible()
	defer stop()
	line := c.progress()
	o.Progress = line.show
	report, err := search(ctx, book, o)
	line.end()
	if err != nil {
		err = &located{err: err, trials: o.Trials}
	}
	return c.reviewed(report, err, exitNo)
}
