package main

import (
	"errors"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

var calcCommand = &command{
	name:  "calc",
	usage: "groundrule calc 'EXPRESSION' [JOB] [flags], or groundrule calc --list",
	about: "work out one expression of the rule language, or list its functions",
	text: `Works out an expression as rules write them, and tells the value, the sources of
the calculations in it and what was read. With a job file JOB (- reads standard
input) the expression may read the job and whatever the rulebook works out from
it:

  groundrule calc 'round_up(mm(155), inches(0.5))'
  groundrule calc 'area / feet(20)' job.yaml --units si

Set the expression in quotes, and put -- before one that begins with a minus
sign.
`,
	flags: append([]string{flagIn, flagList, flagUnits, flagJSON}, ofBook...),
	run:   runCalc,
}

func runCalc(c *call) int {
	switch {
	case c.list && len(c.args) > 0:
		return c.usageError("--list takes no expression")
	case c.list && c.json:
		return c.usageError("--list has no JSON form")
	case !c.list && len(c.args) == 0:
		return c.usageError("no expression given; write one in quotes")
	case len(c.args) > 2:
		return c.usageError("an expression in quotes and a job file, and no more; %d arguments given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	if c.list {
		_ = sheet.Functions(c.out, book.Rules()) // output keeps its error
		return exitDone
	}
	job := &jobFile{}
	if len(c.args) == 2 {
		if job, err = c.job(book, c.args[1]); err != nil {
			return c.fail(err)
		}
	}
	return c.calculate(book, job.site)
}

// expressionName is what places call the expression of a command line.
const expressionName = "expression"

func (c *call) calculate(book *groundrule.Book, job *site.Site) int {
	text := c.args[0]
	done, err := book.Calculate(text, job)
	switch {
	case errors.Is(err, rulebook.ErrMissing) && job == nil:
		return c.usageError("%s is worked out from a job; add a job file: groundrule calc '%s' JOB", text, text)
	case err != nil:
		expression := &jobFile{name: expressionName, data: []byte(text)}
		return c.failCalculation(&located{err: err, job: expression, files: &c.files})
	}
	if c.json {
		c.writeJSON(calculated{Schema: "groundrule/calculation", Version: 1, Expression: text, Value: done.Value, Values: done.Values})
	} else {
		_ = sheet.CalculationText(c.out, sheet.Calculation{Text: text, Value: done.Value, Functions: done.Functions, Values: done.Values}, c.system)
	}
	return exitDone
}

// calculated is the JSON form of a calculation.
type calculated struct {
	Schema     string         `json:"schema"`
	Version    int            `json:"version"`
	Expression string         `json:"expression"`
	Value      value.Value    `json:"value"`
	Values     []section.Used `json:"values,omitempty"`
}

// failCalculation shows what is wrong in an expression, and where the functions
// are listed if one is called wrongly.
func (c *call) failCalculation(err error) int {
	code := c.fail(err)
	var faults diagnostic.List
	if errors.As(err, &faults) && !c.json && slices.ContainsFunc(faults, func(d *diagnostic.Diagnostic) bool {
		return d.Code == rulebook.CodeUnknownFunction || d.Code == rulebook.CodeWrongArguments
	}) {
		fmt.Fprintf(c.err, "\nevery function with its arguments: groundrule calc --list\n")
	}
	return code
}
