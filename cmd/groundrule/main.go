// Command groundrule decides what goes between the soil and the pavers of a
// patio, walk or driveway, and says why.
//
// It is thin: it reads files and flags, asks the library, and writes sheets. No
// rule, number or calculation lives here. Run it without arguments for help.
package main

import (
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// The exit codes.
const (
	exitDone   = 0 // designed, or otherwise done
	exitNo     = 1 // refused, stopped by a check, or a review that found something
	exitBadUse = 2 // a job file, a rule file or a command line is wrong
)

// run is the whole command, for main and for tests.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 || isHelp(args[0]) {
		return help(args[min(1, len(args)):], stdout, stderr)
	}
	cmd, rest, unknown := find(args)
	switch {
	case cmd != nil && cmd.under != nil && (unknown == "" || isHelp(unknown)):
		return help(append(strings.Fields(cmd.name), rest[min(1, len(rest)):]...), stdout, stderr)
	case unknown != "":
		return noCommand(cmd, unknown, stderr)
	}
	c := &call{command: cmd, in: stdin, out: stdout, err: stderr}
	return c.start(rest)
}

func isHelp(word string) bool {
	return slices.Contains([]string{"help", "-h", "-help", "--help"}, word)
}

// noCommand says that a group has no command of that name; a nil group is the
// whole.
func noCommand(group *command, name string, stderr io.Writer) int {
	list, whole := commands(), "groundrule"
	if group != nil {
		list, whole = group.under, "groundrule "+group.name
	}
	var names []string
	for _, c := range list {
		names = append(names, lastWord(c.name))
	}
	fmt.Fprintf(stderr, "%s: there is no command %q; there are %s and help\n", whole, name, strings.Join(names, ", "))
	if near := diagnostic.Nearest(name, append(names, "help")); near != "" {
		fmt.Fprintf(stderr, "did you mean %q?\n", near)
	}
	return exitBadUse
}
