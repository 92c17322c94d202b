package main

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// The flags.
const (
	flagJSON        = "json"
	flagUnits       = "units"
	flagRules       = "rules"
	flagAmend       = "amend"
	flagAsOf        = "as-of"
	flagLanguage    = "language"
	flagBeforeRules = "before-rules"
	flagBeforeAmend = "before-amend"
	flagBeforeAsOf  = "before-as-of"
	flagList        = "list"
	flagCoverage    = "coverage"
	flagWithin      = "within"
	flagCount       = "count"
	flagSeed        = "seed"
	flagJobs        = "jobs"
	flagShown       = "shown"
	flagHTML        = "html"
	flagExpressions = "expressions"
	flagOut         = "o"
	flagOver        = "over"
	flagProve       = "prove"
	flagSheet       = "sheet"
	flagFormat      = "format"
	flagPrices      = "prices"
	flagStream      = "stream"
	flagFound       = "found"
	flagIn          = "in"
	flagDraw        = "draw"
)

// ofBook are the flags that name a rulebook.
var ofBook = []string{flagRules, flagAmend, flagAsOf, flagLanguage}

// flags says of each flag which value it takes, "" for none, and what it does,
// and sets it. An error says what the value must be.
var flags = map[string]struct {
	takes, about string
	set          func(c *call, value string) error
}{
	flagJSON: {"", "write JSON for other programs, faults too",
		func(c *call, value string) error { return c.setJSON(value) }},
	flagUnits: {"us|si", "inches and pounds (us, the default) or millimeters (si)",
		func(c *call, value string) error { return c.setUnits(value) }},
	flagRules: {"DIR", "use the rule files of a folder, not the standard rulebook",
		func(c *call, value string) error { c.files.rules = value; return nil }},
	flagAmend: {"DIR", "lay a folder of amendments over the rules; may be repeated",
		func(c *call, value string) error { c.files.amend = append(c.files.amend, value); return nil }},
	flagAsOf: {"DAY", "use the rules in force on a date, such as 2026-03-01",
		func(c *call, value string) error { return c.files.setDay(value) }},
	flagLanguage: {"TAG", "texts in a language that --amend gives, such as fr",
		func(c *call, value string) error { c.files.language = value; return nil }},
	flagBeforeRules: {"DIR", "the rule files before the edit",
		func(c *call, value string) error { c.before.rules = value; return nil }},
	flagBeforeAmend: {"DIR", "the amendments before the edit; may be repeated",
		func(c *call, value string) error { c.before.amend = append(c.before.amend, value); return nil }},
	flagBeforeAsOf: {"DAY", "the date before the edit, if not that of --as-of",
		func(c *call, value string) error { return c.before.setDay(value) }},
	flagList: {"", "list every function that an expression can call",
		func(c *call, _ string) error { c.list = true; return nil }},
	flagCoverage: {"", "show also which rules and clauses no trial reaches",
		func(c *call, _ string) error { c.coverage = true; return nil }},
	flagWithin: {"WHAT", "a part: NAME, chapter=NAME or INPUT=VALUE; may be repeated",
		func(c *call, value string) error { c.within = append(c.within, value); return nil }},
	flagCount: {"N", "how many jobs (default 100)",
		func(c *call, value string) error { return setNumber(&c.count, value) }},
	flagSeed: {"N", "the seed (default 1); the same seed gives the same jobs",
		func(c *call, value string) (err error) {
			if c.seed, err = strconv.ParseUint(value, 10, 64); err != nil {
				return errors.New("a whole number from 0 up")
			}
			return nil
		}},
	flagJobs: {"N", "how many jobs may be tried; more take longer and find more",
		func(c *call, value string) error { return setNumber(&c.jobs, value) }},
	flagHTML: {"", "one file of HTML that needs no other, not Markdown",
		func(c *call, _ string) error { c.html = true; return nil }},
	flagExpressions: {"", "each sentence with the expression that it was made from",
		func(c *call, _ string) error { c.expressions = true; return nil }},
	flagOut: {"FILE", "write to a file, which must not be there yet",
		func(c *call, value string) error { c.into = value; return nil }},
	flagProve: {"", "settle the promises first, and print how; takes up to a minute",
		func(c *call, _ string) error { c.prove = true; return nil }},
	flagSheet: {"WHICH", "page (the default), crew, client, audit, full or all",
		func(c *call, value string) error { c.sheet = value; return nil }},
	flagFormat: {"FORM", "text (the default), markdown, html or svg",
		func(c *call, value string) error { c.format = value; return nil }},
	flagFound: {"KEY=VALUE", "what the dig shows; may be repeated",
		func(c *call, value string) error {
			if !strings.Contains(value, "=") {
				return errors.New("KEY=VALUE, such as soil.cbr=1.5")
			}
			c.found = append(c.found, value)
			return nil
		}},
	flagIn: {"AREA", "one area, of a job of several",
		func(c *call, value string) error { c.area = value; return nil }},
	flagDraw: {"", "draw how rolls and panels are laid",
		func(c *call, _ string) error { c.draw = true; return nil }},
	flagStream: {"", "read many jobs, one a line, and write a section for each",
		func(c *call, _ string) error { c.stream = true; return nil }},
	flagPrices: {"FILE", "the company's price list, a YAML file",
		func(c *call, value string) error { c.prices = value; return nil }},
	flagOver: {"", "write over a file that is there already",
		func(c *call, _ string) error { c.over = true; return nil }},
	flagShown: {"N", "how many jobs or missing texts are shown (20; 0 for none)",
		func(c *call, value string) error { return setNumber(&c.shown, value) }},
}

// setFlag sets the flag of an argument, which has its value behind a = or in the
// argument that follows; it returns the arguments that are left.
func (c *call) setFlag(arg string, rest []string) ([]string, error) {
	name, value, given := strings.Cut(strings.TrimPrefix(strings.TrimPrefix(arg, "-"), "-"), "=")
	if !slices.Contains(c.flags, name) {
		var shown []string
		for _, each := range c.flags {
			shown = append(shown, "--"+each)
		}
		text := fmt.Sprintf("there is no flag --%s%s", name, didYouMean("--"+name, shown))
		if len(shown) > 0 {
			text += "; the flags are " + strings.Join(shown, ", ")
		}
		return nil, errors.New(text + " (put -- before an argument that begins with -)")
	}
	f := flags[name]
	switch {
	case f.takes == "" && given && name != flagJSON:
		return nil, fmt.Errorf("--%s takes no value, and %q was given", name, value)
	case f.takes != "" && !given && len(rest) == 0:
		return nil, fmt.Errorf("--%s needs a value: --%s %s", name, name, f.takes)
	case f.takes != "" && !given:
		value, rest = rest[0], rest[1:]
	}
	if f.takes != "" && value == "" {
		return nil, fmt.Errorf("--%s has an empty value; it takes %s", name, f.takes)
	}
	if err := f.set(c, value); err != nil {
		return nil, fmt.Errorf("--%s takes %w, and %q was given", name, err, value)
	}
	return rest, nil
}

func setNumber(n *int, value string) error {
	v, err := strconv.Atoi(value)
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
	if c.name != designCommand.name && c.name != whyCommand.name {
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
	switch strings.ToLower(value) {
	case "us":
		c.system = quantity.US
	case "si":
		c.system = quantity.SI
	default:
		return errors.New("us or si")
	}
	return nil
}

// helpFlags lists the flags of a command.
func (c *command) helpFlags() string {
	var b strings.Builder
	column := 0
	shown := func(name string) string {
		dashes := "--"
		if len(name) == 1 {
			dashes = "-"
		}
		return strings.TrimSpace(dashes + name + " " + flags[name].takes)
	}
	for _, name := range c.flags {
		column = max(column, len(shown(name)))
	}
	for _, name := range c.flags {
		fmt.Fprintf(&b, "  %-*s  %s\n", column, shown(name), flags[name].about)
	}
	return b.String()
}
