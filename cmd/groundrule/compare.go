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
	c.several = true
	book, job, _, err := c.opened(c.args[0])
	if err != nil {
		return err
	}
	areas, err := c.offered(book, job)
	if err != nil {
		return err
	}
	out := struct {
		formed
		Options []option      `json:"options,omitempty"`
		Areas   []areaOptions `json:"areas,omitempty"`
	}{formed: formed{"groundrule/options", 1}}
	for i, a := range areas {
		if !c.json {
			if i > 0 {
				fmt.Fprintln(c.out)
			}
			if err := sheet.Options(c.out, a.options, a.costs, c.system); err != nil {
				return err
			}
			continue
		}
		for i, o := range a.options {
			one := option{Otherwise: o}
			if off, err := takeoff.Of(o.Section); err == nil {
				one.Loads = off.Loads()
			}
			if len(a.costs) > 0 {
				one.Cost = a.costs[i]
			}
			a.Options = append(a.Options, one)
		}
		if out.Areas = append(out.Areas, a); a.Area == "" {
			out.Options, out.Areas = a.Options, nil
		}
	}
	if !c.json {
		return nil
	}
	return c.encode(out, "")
}

// areaOptions are the options of one area, with their costs.
type areaOptions struct {
	Area    string   `json:"area"`
	Options []option `json:"options"`

	options []section.Otherwise
	costs   []*takeoff.Cost
}

// offered designs the options of each area of a job, and by the price list of the flag
// what each costs: nil for one that is not built, and no costs at all without a list.
func (c *call) offered(book *groundrule.Book, job *jobFile) ([]areaOptions, error) {
	prices, list, err := c.priceList(book)
	if err != nil {
		return nil, err
	}
	var out []areaOptions
	for _, part := range job.site.Parts() {
		a := areaOptions{Area: part.Part}
		if a.options, err = book.Options(part, c.forms...); err != nil {
			return nil, &located{err: err, job: job, files: &c.files}
		}
		if a.costs, err = c.costsOf(a.options, prices); err != nil {
			return nil, &located{err: err, job: list}
		}
		out = append(out, a)
	}
	return out, nil
}

// costsOf works out what options cost.
func (c *call) costsOf(options []section.Otherwise, prices *takeoff.Prices) (costs []*takeoff.Cost, err error) {
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
			return nil, err
		}
		costs = append(costs, cost)
	}
	return costs, nil
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
