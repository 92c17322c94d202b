package main

import (
	"fmt"
	"io"
	"strings"
)

const introduction = `groundrule decides what goes between the soil and the pavers of a patio, walk or
driveway, course by course, and gives the reason of every choice.

`

const firstSteps = `
To begin, write what you know of the job to a file, job.yaml:

  job: Maple Court patio
  area: 400 sq ft
  use: foot
  base: dense
  soil:
    word: clay

and ask for its section:

  groundrule design job.yaml

What you do not know, leave out; what is presumed in its place is listed for you to
confirm. Then ask why a course is as it is, by the name that stands in the sheet:

  groundrule why job.yaml base

A section is no substitute for local codes and licensed practice.
`

// help writes the help of everything, or of one command.
func help(args []string, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		io.WriteString(stdout, introduction+"Commands:\n"+summary()+firstSteps)
		return exitDone
	}
	cmd := find(args[0])
	switch {
	case args[0] == "help":
		return help(nil, stdout, stderr)
	case cmd == nil:
		return noCommand(args[0], stderr)
	}
	io.WriteString(stdout, cmd.help())
	return exitDone
}

func summary() string {
	var b strings.Builder
	for _, c := range commands() {
		fmt.Fprintf(&b, "  %-8s %s\n", c.name, c.about)
	}
	fmt.Fprintf(&b, "  %-8s %s\n", "help", "this text; with the name of a command, more of that command")
	return b.String()
}

func (c *command) help() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\nFlags, before or after the arguments:\n", c.usage, c.text)
	for _, name := range c.flags {
		fmt.Fprintf(&b, "  %-15s %s\n", flagHelp[name][0], flagHelp[name][1])
	}
	b.WriteString(exitHelp)
	return b.String()
}

const exitHelp = `
Exit code: 0 done; 1 the job is refused or a check stops its design; 2 the job file, a
rule file or the command line is wrong.
`
