package main

import (
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
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
	flags: append([]string{flagList, flagUnits}, ofBook...),
}

func init() { calcCommand.run = runCalc }

func runCalc(c *call) int {
	switch {
	case c.list && len(c.args) > 0:
		return c.usageError("--list takes no expression")
	case !c.list && (len(c.args) < 1 || len(c.args) > 2):
		return c.usageError("an expression in quotes is needed, and a job file may follow; %d arguments given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	if c.list {
		if err := sheet.Functions(c.out, book.Rules().Functions); err != nil {
			return c.fail(err)
		}
		return exitDone
	}
	job := &jobFile{}
	if len(c.args) == 2 {
		if job, err = c.job(c.args[1]); err != nil {
			return c.fail(err)
		}
	}
	return c.calculate(book, job.site)
}

func (c *call) calculate(book *groundrule.Book, job *site.Site) int {
	text := c.args[0]
	done, err := book.Calculate(text, job)
	if err != nil {
		// Messages call the expression as a file of that name.
		expression := &jobFile{name: "expression", data: []byte(text)}
		return c.fail(&located{err: err, job: expression, files: &c.files})
	}
	out := sheet.Calculation{Text: text, Value: done.Value, Functions: done.Functions, Values: done.Values}
	if err := sheet.CalculationText(c.out, out, c.system); err != nil {
		return c.fail(err)
	}
	return exitDone
}
