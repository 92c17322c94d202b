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
	"strings"

	"example.com/groundrule/pkg/diagnostic"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// The exit codes.
const (
	exitDone   = 0 // designed, or otherwise done
	exitNo     = 1 // refused, or stopped by a check
	exitBadUse = 2 // a job file, a rule file or a command line is wrong
)

// run is the whole command, for main and for tests.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		return help(nil, stdout, stderr)
	}
	name := args[0]
	switch name {
	case "help", "-h", "-help", "--help":
		return help(args[1:], stdout, stderr)
	}
	cmd := find(name)
	if cmd == nil {
		return noCommand(name, stderr)
	}
	c := &call{command: cmd, in: stdin, out: stdout, err: stderr}
	return c.start(args[1:])
}

func noCommand(name string, stderr io.Writer) int {
	fmt.Fprintf(stderr, "groundrule: there is no command %q; there are %s and help\n", name, strings.Join(commandNames(), ", "))
	if near := diagnostic.Nearest(name, append(commandNames(), "help")); near != "" {
		fmt.Fprintf(stderr, "did you mean %q?\n", near)
	}
	return exitBadUse
}
