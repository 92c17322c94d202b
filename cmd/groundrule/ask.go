package main

import (
	"errors"
	"fmt"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/site"
)

// unknown is the answer of who cannot tell.
const unknown = "unknown"

func runAsk(c *call) error {
	if len(c.args) == 0 {
		return noJob
	}
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return err
	}
	prices, list, err := c.priceList(book)
	if err != nil {
		return err
	}
	var unknowns []string
	for _, arg := range c.args[1:] {
		key, answer, ok := strings.Cut(arg, "=")
		switch {
		case !ok:
			return misused("an answer is KEY=ANSWER, such as soil.consistency=stiff, and %q was given", arg)
		case answer == unknown && book.Table().Check(key, answer) != nil && book.Table().Check(key, "") == nil:
			unknowns = append(unknowns, key)
		default:
			if err := job.site.Set(key, answer); err != nil {
				return fmt.Errorf("the answer %s: %w", arg, err)
			}
		}
	}
	c.setJobDay(job.site)
	questions, err := book.AskPriced(job.site, prices, c.day, unknowns...)
	var refused *groundrule.Refused
	if err != nil && !errors.As(err, &refused) {
		return &located{err: err, job: job, files: &c.files, list: list}
	}
	if c.into != "" {
		data, err := site.Write(job.site)
		if err == nil {
			err = c.writeFile(c.into, data)
		}
		if err != nil {
			return err
		}
	}
	var refusals []section.Refusal
	if refused != nil { // no answer can be weighed; those given are written all the same
		refusals = refused.Section.Refusals
		for _, each := range refusals {
			fmt.Fprintln(c.err, each.Says.In(c.system))
		}
	}
	switch {
	case c.json:
		err := c.encode(struct {
			formed
			Questions []section.Question `json:"questions"`
			Refusals  []section.Refusal  `json:"refusals,omitempty"`
		}{formed{"groundrule/questions", 1}, append([]section.Question{}, questions...), refusals}, "  ")
		if err != nil {
			return err
		}
	case refused == nil:
		_ = sheet.Questions(c.out, questions, c.system) // output keeps its error
		if len(questions) > 0 {
			in := ""
			if c.area != "" {
				in = fmt.Sprintf(" --in %q", c.area)
			}
			fmt.Fprintf(c.out, "\nAnswer with: groundrule ask %s%s %s=ANSWER\n", plain(strings.Join(c.args, " ")), plain(in), questions[0].Key)
		}
	}
	if refused != nil {
		return exit(exitNo)
	}
	return nil
}

// formed begins every JSON form but that of a section.
type formed struct {
	Schema  string `json:"schema"`
	Version int    `json:"version"`
}

func runBegin(c *call, book *groundrule.Book) error {
	if err := c.writeFile(c.args[0], book.Begin()); err != nil {
		return err
	}
	fmt.Fprintf(c.out, "wrote %s\n", plain(c.args[0]))
	return nil
}
