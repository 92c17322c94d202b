package main

import (
	"fmt"
	"io"
	"strings"
)

const introduction = `Groundrule designs the base under a paver patio, walk or driveway, layer by
layer, and gives the reason for every choice.

Write what you know of the job to a file, job.yaml:

  job: Maple Court patio
  area: 400 sq ft
  use: foot
  base: dense
  soil:
    word: clay

and ask for its section, and why a layer is as it is:

  groundrule design job.yaml
  groundrule why job.yaml base

What you do not know, leave out; what is assumed in its place is listed for you
to confirm. More jobs to start from are in the folder examples/jobs.

`

const warning = `
A section is no substitute for local codes and licensed practice.
`

// help writes the help of everything, or of the command that the words name.
func help(words []string, out, stderr io.Writer) int {
	if len(words) == 0 || isHelp(words[0]) {
		io.WriteString(out, introduction+"Commands:\n"+summary(commands())+moreHelp("groundrule help COMMAND")+"\n"+exitHelp+warning)
		return exitDone
	}
	cmd, rest := find(words)
	if cmd == nil || cmd.under != nil && len(rest) > 0 {
		return noCommand(cmd, rest[0], stderr)
	}
	io.WriteString(out, cmd.help())
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
	return fmt.Sprintf("  %-8s this text; for one command: %s\n", "help", usage)
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
		b.WriteString(c.exits + exitFailedHelp)
	} else {
		b.WriteString(exitHelp)
	}
	return b.String()
}

const (
	exitHelp = `Exit code: 0 done; 1 the job is refused, or a check stops its design; 2 the job
file, a rule file or the command line is wrong; 3 the output cannot be written,
or the program fails.
`
	// exitFailedHelp goes behind the exit codes of a command's own.
	exitFailedHelp = "Or 3: the output cannot be written, or the program fails.\n"
)
