package main

import "example.com/groundrule/pkg/review"

var bookJobsCommand = &command{
	name:  "book jobs",
	usage: "groundrule book jobs [flags]",
	about: "made-up jobs to try a rulebook on, where there are no past ones",
	text: `Writes made-up jobs, each a line of JSON that is a job file of its own: mostly
patios, walks and driveways, some permeable ones, a few heavier ones, and now
and then a job that no rulebook should accept. They stand in for past jobs:

  groundrule book jobs --count 1000 | groundrule book impact --amend ours -
`,
	flags: []string{flagCount, flagSeed},
	exits: `Exit code: 0 done; 2 the command line is wrong.
`,
	run: runBookJobs,
}

func runBookJobs(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given", len(c.args))
	}
	_ = review.WriteJobs(c.out, review.Jobs(c.count, c.seed)) // output keeps its error
	return exitDone
}
