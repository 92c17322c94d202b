package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
)

// command is one subcommand.
type command struct {
	// name is how it is called, such as "design" or "book check".
	name string
	// usage is the command line, and about what it does in one line.
	usage, about string
	// text is the help in full; flags names the flags that the command takes;
	// exits tells the exit codes, "" for the usual ones.
	text  string
	flags []string
	exits string
	run   func(*call) int
	// under are the commands of a group, which does nothing itself.
	under []*command
}

// commands is the table of all subcommands, in the order of the help.
func commands() []*command {
	return []*command{designCommand, whyCommand, calcCommand, bookCommand}
}

// find follows the words of a command line to a command, and gives what is
// left of it. Of words that name no command it gives the group that they were
// looked for in, nil for the whole, and the word.
func find(words []string) (cmd *command, rest []string, unknown string) {
	list := commands()
	for len(words) > 0 && list != nil {
		at := slices.IndexFunc(list, func(c *command) bool { return lastWord(c.name) == words[0] })
		if at < 0 {
			return cmd, words, words[0]
		}
		cmd, list, words = list[at], list[at].under, words[1:]
	}
	return cmd, words, ""
}

func lastWord(name string) string { return name[strings.LastIndex(name, " ")+1:] }

// call is one run of a command: its streams, flags and arguments.
type call struct {
	*command
	in       io.Reader
	out, err io.Writer

	args   []string
	json   bool
	list   bool
	system quantity.System
	// files are those of the rulebook that the flags name; before are those of
	// the one that it is compared with.
	files, before rulebookFiles

	coverage bool
	within   []string
	count    int
	seed     uint64
	jobs     int
	shown    int
}

// start reads flags, which may stand anywhere, and arguments, and runs.
func (c *call) start(args []string) int {
	c.system = quantity.US
	fs := c.flagSet()
	for {
		err := fs.Parse(args)
		if errors.Is(err, flag.ErrHelp) {
			return help(strings.Fields(c.name), c.out, c.err)
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
