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

// help writes the help of everything, or of the command that the words name.
func help(words []string, stdout, stderr io.Writer) int {
	if len(words) == 0 || isHelp(words[0]) {
		io.WriteString(stdout, introduction+"Commands:\n"+summary(commands())+moreHelp("groundrule help COMMAND")+firstSteps)
		return exitDone
	}
	cmd, _, unknown := find(words)
	if unknown != "" {
		return noCommand(cmd, unknown, stderr)
	}
	io.WriteString(stdout, cmd.help())
	return exitDone
}

// summary lists commands, each in one line.
func summary(list []*command) string {
	var b strings.Builder
	for _, c := range list {
		fmt.Fprintf(&b, "  %-8s %s\n", lastWord(c.name), c.about)
	}
	return b.String()
}

func moreHelp(usage string) string {
	return fmt.Sprintf("  %-8s this text; more of one command: %s\n", "help", usage)
}

func (c *command) help() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n\n%s\n", c.usage, c.text)
	if c.under != nil {
		b.WriteString("Commands:\n" + summary(c.under) + moreHelp("groundrule help "+c.name+" COMMAND"))
		return b.String()
	}
	if len(c.flags) > 0 {
		b.WriteString("Flags, before or after the arguments:\n" + c.helpFlags() + "\n")
	}
	if c.exits != "" {
		b.WriteString(c.exits)
	} else {
		b.WriteString(exitHelp)
	}
	return b.String()
}

const exitHelp = `Exit code: 0 done; 1 the job is refused or a check stops its design; 2 the job file, a
rule file or the command line is wrong.
`
