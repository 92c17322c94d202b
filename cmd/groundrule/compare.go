package main

import (
	"bytes"
	"encoding/json"
	"errors"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
)

var compareCommand = &command{
	name:  "compare",
	usage: "groundrule compare JOB [OTHER] [flags]",
	about: "other ways to build a job side by side, or what differs between two",
	text: `Reads the job file JOB (- reads standard input) and shows it side by side with
the options that the rulebook offers for it: other bases, with and without the
geogrid, the published minimum. Of each it says whether it can be built or what
refuses it, how deep it is, what it takes, and what it gives and lacks; with
--prices FILE also what it costs, and what it adds to the price.

With OTHER, it tells what differs between the two: which layers, which rules,
which quantities, and what makes the difference. Each may be a job file or a
section that groundrule design --json wrote; of one written with --json=full it
can say what makes the difference.

An option decides as a person does who overrides a rule, and is held to the same
limits. The options are in rules/89-options.yaml; amendments may change them. A
job may have alternatives of its own, each with a name and any keys that differ:

  alternatives: [{name: clean stone on rock, base: open, soil: {word: rock}}]
`,
	flags: append([]string{flagIn, flagPrices, flagUnits, flagJSON}, ofBook...),
	exits: `Exit code: 0 done, also where an option is refused; 2 a file or the command line
is wrong.
`,
	run: runCompare,
}

func runCompare(c *call) int {
	c.forms = append(c.forms, section.Takeoff)
	switch len(c.args) {
	case 1:
		return c.options()
	case 2:
		return c.differences()
	}
	return c.usageError("a job file, or two files; %d given", len(c.args))
}

// option is the JSON form of an option.
type option struct {
	section.Otherwise
	Loads int           `json:"loads,omitempty"`
	Cost  *takeoff.Cost `json:"cost,omitempty"`
}

// options shows a job beside its options.
func (c *call) options() int {
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return c.fail(err)
	}
	options, costs, err := c.offered(book, job)
	if err != nil {
		return c.fail(err)
	}
	if c.json {
		told := make([]option, len(options))
		for i, o := range options {
			told[i].Otherwise = o
			if off, err := takeoff.Of(o.Section); err == nil {
				told[i].Loads = off.Loads()
			}
			if len(costs) > 0 {
				told[i].Cost = costs[i]
			}
		}
		err = c.encode(struct {
			Schema  string   `json:"schema"`
			Version int      `json:"version"`
			Options []option `json:"options"`
		}{"groundrule/options", 1, told})
	} else {
		err = sheet.Options(c.out, options, costs, c.system)
	}
	if err != nil {
		return c.fail(err)
	}
	return exitDone
}

// offered designs the options of a job, and by the price list of the flag what each
// costs: nil for one that is not built, and no costs at all without a list.
func (c *call) offered(book *groundrule.Book, job *jobFile) ([]section.Otherwise, []*takeoff.Cost, error) {
	prices, list, err := c.priceList(book)
	if err != nil {
		return nil, nil, err
	}
	options, err := book.Options(job.site, c.forms...)
	if err != nil {
		return nil, nil, &located{err: err, job: job, files: &c.files}
	}
	var costs []*takeoff.Cost
	for _, o := range options {
		if prices == nil {
			break
		}
		var cost *takeoff.Cost
		off, err := takeoff.Of(o.Section)
		if err == nil {
			cost, err = prices.Cost(off, c.day)
		}
		if err != nil && !errors.Is(err, takeoff.ErrNone) {
			return nil, nil, &located{err: err, job: list}
		}
		costs = append(costs, cost)
	}
	return options, costs, nil
}

// differences tells what differs between two jobs or sections.
func (c *call) differences() int {
	var both [2]*section.Section
	for i, path := range c.args {
		var err error
		if both[i], err = c.either(path); err != nil {
			return c.fail(err)
		}
	}
	return c.changes(both[0], both[1], nil)
}

// changes tells what differs between two sections.
func (c *call) changes(was, is *section.Section, found *section.Otherwise) int {
	var err error
	switch {
	case c.json && found != nil:
		err = c.encode(found)
	case c.json:
		err = c.encode(struct {
			Schema  string           `json:"schema"`
			Version int              `json:"version"`
			Effects []section.Effect `json:"effects"`
		}{"groundrule/effects", 1, was.Effects(is)})
	default:
		err = sheet.Changes(c.out, was, is, found, c.system)
	}
	if err != nil {
		return c.fail(err)
	}
	return exitDone
}

// either reads a section, or designs the job of a file.
func (c *call) either(path string) (*section.Section, error) {
	f, err := c.file("job file or section", path)
	if err != nil {
		return nil, err
	}
	var head struct{ Schema string }
	if json.Unmarshal(f.data, &head) == nil && head.Schema == section.Schema {
		return section.Read(f.data)
	}
	if path == "-" {
		c.in = bytes.NewReader(f.data)
	}
	_, s, err := c.section(path)
	return s, err
}
