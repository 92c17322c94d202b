package main

import "example.com/groundrule/pkg/review"

var bookJobsCommand = &command{
	name:  "book jobs",
	usage: "groundrule book jobs [flags]",
	about: "made-up jobs to try a rulebook on, where there are no past ones",
	text: `Writes made-up jobs, each a line of JSON that is a job file of its own: mostly
patios, walks and driveways, some permeable ones, a few heavier ones, and now
and then a job that no rulebook should accept. They stand in for past jobs, in
the words of the rulebook:

  groundrule book jobs --count 1000 | groundrule book impact --amend ours -
  groundrule book jobs --amend ours
`,
	flags: append([]string{flagCount, flagSeed}, ofBook...),
	exits: `Exit code: 0 done; 2 a rule file or the command line is wrong.
`,
	run: runBookJobs,
}

func runBookJobs(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	_ = review.WriteJobs(c.out, review.Jobs(book, c.count, c.seed)) // output keeps its error
	return exitDone
}
