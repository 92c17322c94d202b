package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
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
	return []*command{beginCommand, designCommand, compareCommand, askCommand, whyCommand, takeoffCommand, priceCommand, calcCommand, bookCommand, versionCommand}
}

// find follows the words of a command line to a command, and returns it with
// what is left of the line. The command is nil if the first word names none; it
// is a group if the word behind it names none of its commands.
func find(words []string) (cmd *command, rest []string) {
	for list := commands(); len(words) > 0 && list != nil; words = words[1:] {
		at := slices.IndexFunc(list, func(c *command) bool { return lastWord(c.name) == words[0] })
		if at < 0 {
			break
		}
		cmd, list = list[at], list[at].under
	}
	return cmd, words
}

func lastWord(name string) string { return name[strings.LastIndex(name, " ")+1:] }

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

// start reads flags, which may stand anywhere, and arguments, and runs.
func (c *call) start(args []string) int {
	c.count, c.seed, c.shown = 100, 1, 20
	for len(args) > 0 {
		arg := args[0]
		args = args[1:]
		switch {
		case arg == "--":
			c.args, args = append(c.args, args...), nil
		case arg == "-" || !strings.HasPrefix(arg, "-"):
			c.args = append(c.args, arg)
		case isHelp(arg):
			return help(strings.Fields(c.name), c.out, c.err)
		default:
			var err error
			if args, err = c.setFlag(arg, args); err != nil {
				return c.usageError("%v", err)
			}
		}
	}
	return c.run(c)
}

// usageError tells what is wrong with the command line.
func (c *call) usageError(format string, args ...any) int {
	fmt.Fprintf(c.err, "groundrule %s: %s\n", c.name, plain(fmt.Sprintf(format, args...)))
	fmt.Fprintf(c.err, "usage: %s\nfor more: groundrule help %s\n", c.usage, c.name)
	return exitBadUse
}
