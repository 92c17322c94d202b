package main

import "example.com/groundrule/pkg/review"

var bookNamesCommand = &command{
	name:  "book names",
	usage: "groundrule book names [flags]",
	about: "what a rule may read, and settings with their limits",
	text: `Lists what a rule may read: what a job says, settings with their limits, terms
and decisions, each with its kind and where it stands, then the words and
properties of each kind:

  groundrule book names --amend ours

A rule must ask known(NAME) before it reads what may be missing. The functions
are listed by groundrule calc --list.
`,
	flags: append([]string{flagUnits, flagJSON}, ofBook...),
	exits: `Exit code: 0 done; 2 a rule file or the command line is wrong.
`,
	run: runBookNames,
}

func runBookNames(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given; a folder goes behind --rules or --amend", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	r, err := review.Names(book)
	return c.reviewed(r, err, exitFailed)
}
