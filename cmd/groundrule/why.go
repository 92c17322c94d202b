package main

import (
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

var whyCommand = &command{
	name:  "why",
	usage: "groundrule why JOB COURSE [flags]",
	about: "the full reasoning for one layer",
	text: `Designs the job file JOB (- reads standard input) and tells everything behind
the course COURSE, such as base: why it is there and, for each of its
attributes, the rule that answered with its place in the rule files, the values
that made it hold and where each comes from, and every other rule with the
clause that failed in it. A value that was presumed and not measured is marked
PRESUMED.

A job that is refused has no courses; its limits are told instead.
`,
	flags: append([]string{flagUnits, flagJSON}, ofBook...),
}

func init() { whyCommand.run = runWhy }

func runWhy(c *call) int {
	if len(c.args) != 2 {
		return c.usageError("a job file and a course are needed, and %d arguments given", len(c.args))
	}
	book, s, err := c.section(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	if s.Status == section.Refused {
		return c.write(s)
	}
	if c.json {
		err = sheet.ReasonJSON(c.out, s, c.args[1], c.forms...)
	} else {
		err = sheet.Reason(c.out, s, c.args[1], c.system)
	}
	var missing *sheet.NoCourseError
	if errors.As(err, &missing) && has(book, missing.Name) {
		err = fmt.Errorf("%w\nthe rulebook has a course %s, but this job does not call for it", err, missing.Name)
	}
	return c.done(s, err)
}

// has reports whether the rulebook has a course of that name, laid or not.
func has(book *groundrule.Book, name string) bool {
	return slices.ContainsFunc(book.Rules().Courses, func(c rulebook.Course) bool { return c.Name == name })
}
