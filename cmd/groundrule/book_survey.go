package main

import (
	"context"
	"encoding/json"
	"os"
	"os/signal"
	"strings"

	"example.com/groundrule/pkg/review"
)

var bookSurveyCommand = &command{
	name:  "book survey",
	usage: "groundrule book survey [flags]",
	about: "a search of the whole range of jobs for questions with no answer, or with two",
	text: `Searches every job that could be for what is wrong with the rulebook: a question that no
rule answers, one that two rules answer differently, a rule that never applies or always
stands behind another, a check that cannot be met. Each finding has a job that shows it,
or a proof that no job can.

It may take minutes. To survey a part of the rulebook, or some jobs only:

  groundrule book survey --within grid_kind
  groundrule book survey --within chapter=geogrid --within base=open
  groundrule book survey --within 'frost.depth=40 in' --within 'soil.word=not told'
`,
	flags: append([]string{flagWithin, flagSeed, flagJobs, flagJSON}, ofBook...),
	exits: `Exit code: 0 no fault was found; 1 a fault was found; 2 a rule file or the command line is
wrong.
`,
}

func init() { bookSurveyCommand.run = runBookSurvey }

func runBookSurvey(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given; a part of the rulebook stands behind --within", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	line := c.progress()
	report, err := review.RunSurvey(ctx, book, review.SurveyOptions{Within: withinOf(c.within), Seed: c.seed, Budget: c.jobs,
		Progress: func(p review.SurveyProgress) { line.show(p.Stage, p.Done, p.Total) }})
	line.end()
	if err != nil {
		return c.fail(err)
	}
	if c.json {
		enc := json.NewEncoder(c.out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		err = enc.Encode(report)
	} else {
		err = report.Write(c.out)
	}
	switch {
	case err != nil:
		return c.fail(err)
	case report.Faults() > 0:
		return exitNo
	}
	return exitDone
}

// withinOf reads what a survey is narrowed to: NAME, chapter=NAME, INPUT=VALUE.
func withinOf(parts []string) review.Within {
	var out review.Within
	for _, part := range parts {
		name, value, fixed := strings.Cut(part, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		switch {
		case !fixed:
			out.Decisions = append(out.Decisions, name)
		case name == "chapter":
			out.Chapters = append(out.Chapters, value)
		default:
			if out.Fixed == nil {
				out.Fixed = map[string]string{}
			}
			out.Fixed[name] = value
		}
	}
	return out
}
