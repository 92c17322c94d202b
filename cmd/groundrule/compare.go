package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/takeoff"
)

func runCompare(c *call) error {
	c.forms = append(c.forms, section.Takeoff)
	if len(c.args) == 1 {
		return c.options()
	}
	return c.differences()
}

// option is the JSON form of an option.
type option struct {
	section.Otherwise
	Loads int           `json:"loads,omitempty"`
	Cost  *takeoff.Cost `json:"cost,omitempty"`
}

// options shows a job beside its options.
func (c *call) options() error {
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return err
	}
	options, costs, err := c.offered(book, job)
	if err != nil {
		return err
	}
	if !c.json {
		return sheet.Options(c.out, options, costs, c.system)
	}
	all := make([]option, len(options))
	for i, o := range options {
		all[i].Otherwise = o
		if off, err := takeoff.Of(o.Section); err == nil {
			all[i].Loads = off.Loads()
		}
		if len(costs) > 0 {
			all[i].Cost = costs[i]
		}
	}
	return c.encode(struct {
		formed
		Options []option `json:"options"`
	}{formed{"groundrule/options", 1}, all}, "")
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
func (c *call) differences() error {
	var both [2]*section.Section
	for i, path := range c.args {
		var err error
		if both[i], err = c.either(path); err != nil {
			return err
		}
	}
	return c.changes(both[0], both[1], nil)
}

// changes tells what differs between two sections.
func (c *call) changes(was, is *section.Section, found *section.Otherwise) error {
	switch {
	case c.json && found != nil:
		return c.encode(found, "")
	case c.json:
		return c.encode(struct {
			formed
			Effects []section.Effect `json:"effects"`
		}{formed{"groundrule/effects", 1}, was.Effects(is)}, "")
	}
	return sheet.Changes(c.out, was, is, found, c.system)
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

// foundThen tells what comes of a job with what the dig shows, beside what it was.
func (c *call) foundThen() error {
	switch {
	case len(c.args) != 1:
		return misused("one job file; %d given", len(c.args))
	case c.sheet != "" || c.format != "" || c.into != "":
		return misused("--found tells what differs, as text; write the new values to the job for its sheets")
	}
	c.forms = append(c.forms, section.Takeoff)
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return err
	}
	values := map[string]string{}
	for _, each := range c.found {
		key, value, _ := strings.Cut(each, "=")
		values[key] = value
	}
	var is section.Otherwise
	was, err := book.Otherwise(job.site, nil, c.forms...)
	if err == nil {
		is, err = book.Otherwise(job.site, values, c.forms...)
	}
	if err != nil {
		return &located{err: err, job: job, files: &c.files}
	}
	err = c.changes(was.Section, is.Section, &is)
	if err == nil && !c.json && is.Status == section.Refused {
		fmt.Fprintln(c.out, "  What the job says and the dig shows to be wrong can be left out: --found KEY=")
	}
	return err
}
