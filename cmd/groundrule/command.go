package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// command is one subcommand.
type command struct {
	name string
	// usage is the command line, and about what it does in one line.
	usage, about string
	// text is the help in full; flags names the flags that the command takes.
	text  string
	flags []string
	run   func(*call) int
}

// commands is the table of all subcommands, in the order of the help.
func commands() []*command { return []*command{designCommand, whyCommand, calcCommand} }

func find(name string) *command {
	for _, c := range commands() {
		if c.name == name {
			return c
		}
	}
	return nil
}

func commandNames() []string {
	var out []string
	for _, c := range commands() {
		out = append(out, c.name)
	}
	return out
}

// call is one run of a command: its streams, flags and arguments.
type call struct {
	*command
	in       io.Reader
	out, err io.Writer

	args   []string
	json   bool
	list   bool
	rules  string
	system quantity.System
}

// The flags.
const (
	flagJSON  = "json"
	flagUnits = "units"
	flagRules = "rules"
	flagList  = "list"
)

// flagHelp says what each flag does, for the help.
var flagHelp = map[string][2]string{
	flagJSON:  {"--json", "write JSON for other programs instead of text"},
	flagUnits: {"--units us|si", "show inches and pounds (us, as without the flag) or millimetres (si)"},
	flagRules: {"--rules DIR", "use the rule files (.yaml) of a folder instead of the standard rulebook"},
	flagList:  {"--list", "list every function that an expression can call"},
}

func (c *call) flagSet() *flag.FlagSet {
	fs := flag.NewFlagSet(c.name, flag.ContinueOnError)
	fs.SetOutput(io.Discard)
	for _, name := range c.flags {
		switch name {
		case flagJSON:
			fs.BoolVar(&c.json, name, false, "")
		case flagList:
			fs.BoolVar(&c.list, name, false, "")
		case flagRules:
			fs.StringVar(&c.rules, name, "", "")
		case flagUnits:
			fs.Func(name, "", c.setUnits)
		}
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

// start reads flags, which may stand anywhere, and arguments, and runs.
func (c *call) start(args []string) int {
	c.system = quantity.US
	fs := c.flagSet()
	for {
		err := fs.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			return help([]string{c.name}, c.out, c.err)
		}
		if err != nil {
			return c.flagError(err)
		}
		rest := fs.Args()
		if read := len(args) - len(rest); read > 0 && args[read-1] == "--" {
			c.args = append(c.args, rest...) // all that follows is arguments
			break
		}
		if len(rest) == 0 {
			break
		}
		c.args = append(c.args, rest[0])
		args = rest[1:]
	}
	return c.run(c)
}

// flagError tells what is wrong with a flag.
func (c *call) flagError(err error) int {
	text := err.Error()
	if flag, ok := strings.CutPrefix(text, "flag provided but not defined: "); ok {
		var known []string
		for _, name := range c.flags {
			known = append(known, "--"+name)
		}
		text = fmt.Sprintf("there is no flag %s; there are %s (put -- before an argument that begins with -)", flag, strings.Join(known, ", "))
	}
	return c.usageError("%s", text)
}

// usageError tells what is wrong with the command line.
func (c *call) usageError(format string, args ...any) int {
	fmt.Fprintf(c.err, "groundrule %s: %s\n", c.name, fmt.Sprintf(format, args...))
	fmt.Fprintf(c.err, "usage: %s\nfor more: groundrule help %s\n", c.usage, c.name)
	return exitBadUse
}
