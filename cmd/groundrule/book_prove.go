package main

import "example.com/groundrule/pkg/review"

var bookProveCommand = &command{
	name:  "book prove",
	usage: "groundrule book prove [JOBS...] [flags]",
	about: "settle what the rulebook promises: proven, refuted or searched",
	text: `Settles every promise of the rulebook over the whole range of jobs. A promise is
proven for every job; or refuted, with the smallest job or pair of jobs that
breaks it, as the rules themselves design it; or searched without a
counterexample, with what stands in the way of a proof.

A company's amendments are held to the promises of the standard:

  groundrule book prove --amend ours

The jobs of the trials beside the rules and the amendments are tried too, and
those of JOBS: folders of job files, files of JSON lines (.jsonl), or job files.
`,
	flags: append([]string{flagWithin, flagSeed, flagJobs, flagJSON}, ofBook...),
	exits: `Exit code: 0 no promise is refuted; 1 a promise is refuted; 2 a rule file or the
command line is wrong.
`,
	run: func(c *call) int { return c.searched(review.Prove) },
}
