package main

import (
	"errors"
	"fmt"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

var whyCommand = &command{
	name:  "why",
	usage: "groundrule why JOB [NAME] [flags]",
	about: "the full reasoning for one layer or one decision",
	text: `Designs the job file JOB (- reads standard input) and shows everything behind a
layer of the section, such as base, or behind one decision, such as support_cbr:
the rule that answered with its place in the rule files, the values that made it
hold and where each comes from, and every other rule with the clause that failed
in it. A value that was assumed and not measured is marked PRESUMED.

NAME may also be the id of a step, a tolerance or a stop on the crew's sheet, or
of a quantity of the take-off.
Without NAME it lists the layers and the decisions that can be asked about.

A job that is refused has neither; the limits that it crossed are shown instead.
`,
	flags: append([]string{flagIn, flagUnits, flagJSON}, ofBook...),
	run:   runWhy,
}

func runWhy(c *call) int {
	switch {
	case len(c.args) == 0:
		return c.usageError("no job file given")
	case len(c.args) > 2:
		return c.usageError("a job file and one name; %d arguments given", len(c.args))
	case len(c.args) == 1 && c.json:
		return c.usageError("--json needs the name of a layer or a decision; groundrule design --json has all of them")
	}
	if len(c.args) == 2 {
		c.forms = append(c.forms, section.Crew, section.Client, section.Takeoff) // a step, a sentence for the client and a quantity have reasons too
	}
	book, s, err := c.section(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	switch {
	case s.Status == section.Refused:
		return c.writeAreas(book, &section.Areas{Sections: []*section.Section{s}})
	case len(c.args) == 1:
		return c.done(s.Status, sheet.Asked(c.out, s, c.system))
	}
	name := c.args[1]
	if c.json {
		err = sheet.ReasonJSON(c.out, s, name, c.forms...)
	} else {
		err = sheet.Reason(c.out, s, name, c.system)
	}
	var missing *sheet.NoCourseError
	if errors.As(err, &missing) {
		err = fmt.Errorf("%w%s", err, elsewhere(book.Rules(), name, c.args[0]))
	}
	return c.done(s.Status, err)
}

// elsewhere says what a name is that a section has no reason for.
func elsewhere(rules rulebook.Contents, name, job string) string {
	for _, each := range rules.Terms {
		if each.Name == name {
			return fmt.Sprintf("\n%s is a term; its value: groundrule calc '%s' %s", name, name, job)
		}
	}
	for _, each := range rules.Settings {
		if each.Name == name {
			return fmt.Sprintf("\n%s is a setting; its value: groundrule calc '%s'", name, name)
		}
	}
	for _, each := range rules.Work {
		if each.ID == name {
			return fmt.Sprintf("\n%s is a %s, which this job does not have", name, each.Sort)
		}
	}
	return fmt.Sprintf("\nall that can be asked: groundrule why %s", job)
}
