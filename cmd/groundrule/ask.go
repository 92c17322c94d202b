package main

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

var askCommand = &command{
	name:  "ask",
	usage: "groundrule ask JOB [KEY=ANSWER ...] [flags]",
	about: "the next question worth asking, and what each answer changes",
	text: `Reads the job file JOB (YAML or JSON; - reads standard input) and writes the
next question whose answer may change its section: how to find it out, and what
comes of each answer. Answers go behind the file, and the next question follows:

  groundrule ask job.yaml
  groundrule ask job.yaml soil.consistency=stiff
  groundrule ask job.yaml soil.consistency=stiff frost.depth=unknown

An answer is written as in a job file, in quotes if it has a blank. What nobody
can tell is unknown: it stays assumed, and is not asked again. It ends where no
answer that is likely changes more than a trifle of thickness.

Each question tells what its answer may save or add, in thickness and weight
and, with --prices FILE, in money by a company's price list; what may change
most comes first.

The job file is never changed. With -o FILE the job is written to a new file
with its answers. With --json all that is worth asking is written, what may
change most first.
`,
	flags: append([]string{flagIn, flagPrices, flagUnits, flagOut, flagJSON}, ofBook...),
	exits: `Exit code: 0 done; 2 the job file, an answer, a rule file or the command line
is wrong.
`,
	run: runAsk,
}

// unknown is the answer of who cannot tell.
const unknown = "unknown"

func runAsk(c *call) int {
	if len(c.args) == 0 {
		return c.usageError("no job file given")
	}
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	prices, list, err := c.priceList(book)
	if err != nil {
		return c.fail(err)
	}
	var unknowns []string
	for _, arg := range c.args[1:] {
		key, answer, ok := strings.Cut(arg, "=")
		switch {
		case !ok:
			return c.usageError("an answer is KEY=ANSWER, such as soil.consistency=stiff, and %q was given", arg)
		case answer == unknown && book.Table().Check(key, answer) != nil && book.Table().Check(key, "") == nil:
			unknowns = append(unknowns, key)
		default:
			if err := job.site.Set(key, answer); err != nil {
				return c.fail(fmt.Errorf("the answer %s: %w", arg, err))
			}
		}
	}
	c.setJobDay(job.site)
	questions, err := book.AskPriced(job.site, prices, c.day, unknowns...)
	if err != nil {
		return c.fail(&located{err: err, job: job, files: &c.files, list: list})
	}
	if c.into != "" {
		data, err := site.Write(job.site)
		if err == nil {
			err = c.writeFile(c.into, data)
		}
		if err != nil {
			return c.fail(err)
		}
	}
	if c.json {
		c.writeJSON(asked{Schema: "groundrule/questions", Version: 1, Questions: append([]section.Question{}, questions...)})
		return exitDone
	}
	_ = sheet.Questions(c.out, questions, c.system) // output keeps its error
	if len(questions) > 0 {
		in := ""
		if c.area != "" {
			in = fmt.Sprintf(" --in %q", c.area)
		}
		fmt.Fprintf(c.out, "\nAnswer with: groundrule ask %s%s %s=ANSWER\n", plain(strings.Join(c.args, " ")), plain(in), questions[0].Key)
	}
	return exitDone
}

// asked is the JSON form of what is worth asking.
type asked struct {
	Schema    string             `json:"schema"`
	Version   int                `json:"version"`
	Questions []section.Question `json:"questions"`
}
