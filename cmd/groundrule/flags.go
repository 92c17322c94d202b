package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// call is one run of a command: its streams, flags and arguments.
type call struct {
	*command
	in       io.Reader
	out, err io.Writer

	args   []string
	json   bool
	forms  []section.Form
	sheet  string // "" for the page
	format string // "" for text
	list   bool
	// found is what the dig shows, and area where.
	found []string
	area  string
	// several is set where a job may have several areas.
	several bool
	// stream is set for many jobs, one a line.
	stream bool
	// draw is set for pictures of layouts.
	draw bool
	// system is that of the flag, quantity.EitherSystem without one.
	system quantity.System
	// read is the job that was designed last.
	read *jobFile
	// files are those of the rulebook that the flags name; before are those of
	// the one that it is compared with.
	files, before rulebookFiles

	// prices is the file of a price list, and day the one on which it must hold.
	prices string
	day    rulebook.Date

	coverage bool
	within   []string
	count    int
	seed     uint64
	jobs     int
	shown    int

	html, expressions, over, prove bool
	// into is the file to write, "" for standard output.
	into string
}

// values says where the value of each flag goes. An error says what the value must
// be.
func (c *call) values() *flag.FlagSet {
	f := flag.NewFlagSet("", flag.ContinueOnError)
	for name, to := range map[string]*bool{"list": &c.list, "coverage": &c.coverage, "html": &c.html, "expressions": &c.expressions,
		"prove": &c.prove, "draw": &c.draw, "stream": &c.stream, "over": &c.over} {
		f.BoolVar(to, name, *to, "")
	}
	for name, to := range map[string]*string{"rules": &c.files.rules, "language": &c.files.language, "before-rules": &c.before.rules,
		"o": &c.into, "sheet": &c.sheet, "format": &c.format, "in": &c.area, "prices": &c.prices} {
		f.StringVar(to, name, *to, "")
	}
	for name, to := range map[string]*[]string{"amend": &c.files.amend, "before-amend": &c.before.amend, "within": &c.within} {
		f.Func(name, "", func(value string) error { *to = append(*to, value); return nil })
	}
	for name, to := range map[string]*int{"count": &c.count, "jobs": &c.jobs, "shown": &c.shown} {
		f.Func(name, "", func(value string) error { return number(to, value, strconv.Atoi) })
	}
	f.Func("seed", "", func(value string) error {
		return number(&c.seed, value, func(text string) (uint64, error) { return strconv.ParseUint(text, 10, 64) })
	})
	f.Func("json", "", c.setJSON)
	f.Func("units", "", c.setUnits)
	f.Func("as-of", "", c.files.setDay)
	f.Func("before-as-of", "", c.before.setDay)
	f.Func("found", "", c.setFound)
	return f
}

// dashed is a flag as people write it.
func dashed(name string) string {
	if len(name) == 1 {
		return "-" + name
	}
	return "--" + name
}

// setFlag sets the flag of an argument, which has its value behind a = or in the
// argument that follows; it returns the arguments that are left.
func (c *call) setFlag(arg string, rest []string) ([]string, error) {
	name, value, given := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(arg, "-"), "-"), "=")
	if !slices.Contains(c.Flags, name) {
		var shown []string
		for _, each := range c.Flags {
			shown = append(shown, dashed(each))
		}
		text := fmt.Sprintf("there is no flag %s%s", dashed(name), didYouMean(dashed(name), shown))
		if len(shown) > 0 {
			text += "; the flags are " + strings.Join(shown, ", ")
		}
		return nil, errors.New(text + " (put -- before an argument that begins with -)")
	}
	takes := told.Flags[name][0]
	switch {
	case takes == "" && name == "json":
	case takes == "" && given:
		return nil, fmt.Errorf("%s takes no value, and %q was given", dashed(name), value)
	case takes == "":
		value = "true"
	case !given && len(rest) == 0:
		return nil, fmt.Errorf("%[1]s needs a value: %[1]s %[2]s", dashed(name), takes)
	case !given:
		value, rest = rest[0], rest[1:]
	}
	if takes != "" && value == "" {
		return nil, fmt.Errorf("%s has an empty value; it takes %s", dashed(name), takes)
	}
	if err := c.values().Set(name, value); err != nil {
		return nil, fmt.Errorf("%s takes %w, and %q was given", dashed(name), err, value)
	}
	return rest, nil
}

func number[N int | uint64](n *N, value string, read func(string) (N, error)) error {
	v, err := read(value)
	if err != nil || v < 0 {
		return errors.New("a whole number from 0 up")
	}
	*n = v
	return nil
}

// setJSON reads the forms behind --json=, which a section alone has.
func (c *call) setJSON(value string) error {
	c.json = true
	if value == "" {
		return nil
	}
	if c.Name != "design" && c.Name != "why" {
		return errors.New("no value here")
	}
	for _, form := range strings.Split(value, ",") {
		if !slices.Contains([]section.Form{section.Full, section.Crew, section.Client, section.Takeoff, section.Questions, section.Indented}, section.Form(form)) {
			return errors.New("full, crew, client, takeoff, questions, indented or several with commas between")
		}
		c.forms = append(c.forms, section.Form(form))
	}
	return nil
}

func (c *call) setUnits(value string) error {
	system, known := map[string]quantity.System{"us": quantity.US, "si": quantity.SI}[strings.ToLower(value)]
	if !known {
		return errors.New("us or si")
	}
	c.system = system
	return nil
}

func (c *call) setFound(value string) error {
	if !strings.Contains(value, "=") {
		return errors.New("KEY=VALUE, such as soil.cbr=1.5")
	}
	c.found = append(c.found, value)
	return nil
}
