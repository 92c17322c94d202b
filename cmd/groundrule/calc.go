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

func runCalc(c *call) error {
	switch {
	case c.list && len(c.args) > 0:
		return misused("--list takes no expression")
	case c.list && c.json:
		return misused("--list has no JSON form")
	case !c.list && len(c.args) == 0:
		return misused("no expression given; write one in quotes")
	case len(c.args) > 2:
		return misused("an expression in quotes and a job file, and no more; %d arguments given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return err
	}
	if c.list {
		return sheet.Functions(c.out, book.Rules())
	}
	job := &jobFile{}
	if len(c.args) == 2 {
		if job, err = c.job(book, c.args[1]); err != nil {
			return err
		}
	}
	return c.calculate(book, job.site)
}

// expressionName is what places call the expression of a command line.
const expressionName = "expression"

func (c *call) calculate(book *groundrule.Book, job *site.Site) error {
	text := c.args[0]
	done, err := book.Calculate(text, job)
	switch {
	case errors.Is(err, rulebook.ErrMissing) && job == nil:
		return misused("%s is worked out from a job; add a job file: groundrule calc '%s' JOB", text, text)
	case err != nil:
		expression := &jobFile{name: expressionName, data: []byte(text)}
		return c.failCalculation(&located{err: err, job: expression, files: &c.files})
	}
	if c.json {
		return c.encode(struct {
			formed
			Expression string         `json:"expression"`
			Value      value.Value    `json:"value"`
			Values     []section.Used `json:"values,omitempty"`
		}{formed{"groundrule/calculation", 1}, text, done.Value, done.Values}, "  ")
	}
	return sheet.CalculationText(c.out, sheet.Calculation{Text: text, Value: done.Value, Functions: done.Functions, Values: done.Values}, c.system)
}

// failCalculation shows what is wrong in an expression, and where the functions
// are listed if one is called wrongly.
func (c *call) failCalculation(err error) error {
	code := c.fail(err)
	var faults diagnostic.List
	if errors.As(err, &faults) && !c.json && slices.ContainsFunc(faults, func(d *diagnostic.Diagnostic) bool {
		return d.Code == rulebook.CodeUnknownFunction || d.Code == rulebook.CodeWrongArguments
	}) {
		fmt.Fprintf(c.err, "\nevery function with its arguments: groundrule calc --list\n")
	}
	return exit(code)
}
