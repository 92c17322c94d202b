package main

import "fmt"

var beginCommand = &command{
	name:  "begin",
	usage: "groundrule begin FILE [flags]",
	about: "a job file to begin with, in the words of the rulebook",
	text: `Writes a job file with all that a job may say: what it must say comes first,
filled in with an example, then what changes most, each with how it is found out
and what it may be. It designs as it stands; change it, and go on:

  groundrule begin job.yaml
  groundrule ask job.yaml
  groundrule design job.yaml

Nothing is written over: a file that is there already is left as it is.
`,
	flags: ofBook,
	exits: `Exit code: 0 done; 2 the file is there already, or a rule file or the command
line is wrong.
`,
	run: runBegin,
}

func runBegin(c *call) int {
	if len(c.args) != 1 {
		return c.usageError("one file is needed, and %d given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	if err := c.writeFile(c.args[0], book.Begin()); err != nil {
		return c.fail(err)
	}
	fmt.Fprintf(c.out, "wrote %s\n", plain(c.args[0]))
	return exitDone
}
