package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// The flags.
const (
	flagJSON        = "json"
	flagUnits       = "units"
	flagRules       = "rules"
	flagAmend       = "amend"
	flagAsOf        = "as-of"
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
)

// ofBook are the flags that name a rulebook.
var ofBook = []string{flagRules, flagAmend, flagAsOf}

// flags says of each flag how it is written and what it does, and ties it to
// a call.
var flags = map[string]struct {
	shown, about string
	bind         func(c *call, fs *flag.FlagSet, name string)
}{
	flagJSON: {"--json", "write JSON for other programs instead of text",
		func(c *call, fs *flag.FlagSet, name string) { fs.BoolVar(&c.json, name, false, "") }},
	flagUnits: {"--units us|si", "show inches and pounds (us, as without the flag) or millimeters (si)",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", c.setUnits) }},
	flagRules: {"--rules DIR", "use the rule files (.yaml) of a folder instead of the standard rulebook",
		func(c *call, fs *flag.FlagSet, name string) { fs.StringVar(&c.files.rules, name, "", "") }},
	flagAmend: {"--amend DIR", "lay the amendments of a folder over the rulebook; may be given several times",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", into(&c.files.amend)) }},
	flagAsOf: {"--as-of DAY", "go by the rules of a day, such as 2026-03-01",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", c.files.setDay) }},
	flagBeforeRules: {"--before-rules DIR", "the rule files before the edit, instead of the standard rulebook",
		func(c *call, fs *flag.FlagSet, name string) { fs.StringVar(&c.before.rules, name, "", "") }},
	flagBeforeAmend: {"--before-amend DIR", "the amendments before the edit; may be given several times",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", into(&c.before.amend)) }},
	flagBeforeAsOf: {"--before-as-of DAY", "the day before the edit, if it is another than that of --as-of",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", c.before.setDay) }},
	flagList: {"--list", "list every function that an expression can call",
		func(c *call, fs *flag.FlagSet, name string) { fs.BoolVar(&c.list, name, false, "") }},
	flagCoverage: {"--coverage", "tell also which rules and clauses the trials do not reach",
		func(c *call, fs *flag.FlagSet, name string) { fs.BoolVar(&c.coverage, name, false, "") }},
	flagWithin: {"--within WHAT", "survey a part only: NAME, chapter=NAME or INPUT=VALUE; may be given several times",
		func(c *call, fs *flag.FlagSet, name string) { fs.Func(name, "", into(&c.within)) }},
	flagCount: {"--count N", "how many jobs, 100 without the flag",
		func(c *call, fs *flag.FlagSet, name string) { fs.IntVar(&c.count, name, 100, "") }},
	flagSeed: {"--seed N", "the seed, 1 without the flag; one seed always gives the same",
		func(c *call, fs *flag.FlagSet, name string) { fs.Uint64Var(&c.seed, name, 1, "") }},
	flagJobs: {"--jobs N", "how many jobs may be tried; more take longer and find more",
		func(c *call, fs *flag.FlagSet, name string) { fs.IntVar(&c.jobs, name, 0, "") }},
	flagShown: {"--shown N", "how many changed jobs are told in full, 20 without the flag, 0 for none",
		func(c *call, fs *flag.FlagSet, name string) { fs.IntVar(&c.shown, name, 20, "") }},
}

// into gathers what a flag that may be given several times is given.
func into(list *[]string) func(string) error {
	return func(text string) error { *list = append(*list, text); return nil }
}

func (c *call) flagSet() *flag.FlagSet {
	fs := flag.NewFlagSet(c.name, flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	for _, name := range c.flags {
		flags[name].bind(c, fs, name)
	}
	return fs
}

func (c *call) setUnits(text string) error {
	switch strings.ToLower(text) {
	case "us":
		c.system = quantity.US
	case "si":
		c.system = quantity.SI
	default:
		return errors.New("units are us or si")
	}
	return nil
}

// helpFlags lists the flags of a command.
func (c *command) helpFlags() string {
	var b strings.Builder
	column := 0
	for _, name := range c.flags {
		column = max(column, len(flags[name].shown))
	}
	for _, name := range c.flags {
		fmt.Fprintf(&b, "  %-*s  %s\n", column, flags[name].shown, flags[name].about)
	}
	return b.String()
}
