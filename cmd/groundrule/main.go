// Command groundrule designs the base under a paver patio, walk or driveway,
// layer by layer, and says why.
//
// It is thin: it reads files and flags, asks the library, and writes sheets. No
// rule, number or calculation lives here. Run it without arguments for help.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
)

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

// The exit codes.
const (
	exitDone   = 0 // designed, or otherwise done
	exitNo     = 1 // refused, stopped by a check, or a review that found something
	exitBadUse = 2 // a job file, a rule file or a command line is wrong
	exitFailed = 3 // nobody's bad input: the output cannot be written, or the program fails
)

// run is the whole command, for main and for tests.
func run(args []string, stdin io.Reader, stdout, stderr io.Writer) (code int) {
	out := &output{w: stdout}
	defer func() {
		if r := recover(); r != nil {
			fmt.Fprintf(stderr, "groundrule: the program failed, which is not your fault: %s\nplease report it with this command line and its files\n%s",
				plain(fmt.Sprint(r)), debug.Stack())
			code = exitFailed
		}
		if out.err != nil {
			fmt.Fprintf(stderr, "groundrule: the output cannot be written: %s\n", plain(out.err.Error()))
			code = exitFailed
		}
	}()
	if len(args) == 0 || isHelp(args[0]) {
		return help(args[min(1, len(args)):], out, stderr)
	}
	if slices.Contains([]string{"--version", "-version"}, args[0]) {
		args = append([]string{"version"}, args[1:]...)
	}
	cmd, rest := find(args)
	switch {
	case cmd == nil:
		return noCommand(nil, args[0], stderr)
	case cmd.Under != nil && (len(rest) == 0 || isHelp(rest[0])):
		return help(append(strings.Fields(cmd.Name), rest[min(1, len(rest)):]...), out, stderr)
	case cmd.Under != nil:
		return noCommand(cmd, rest[0], stderr)
	}
	c := &call{command: cmd, in: stdin, out: out, err: stderr, before: rulebookFiles{prefix: "before-"}}
	return c.start(rest)
}

func isHelp(word string) bool {
	return slices.Contains([]string{"help", "-h", "-help", "--help"}, word)
}

// output is standard output; it keeps the first error of writing.
type output struct {
	w   io.Writer
	err error
}

func (o *output) Write(p []byte) (int, error) {
	if o.err != nil {
		return 0, o.err
	}
	var n int
	n, o.err = o.w.Write(p)
	return n, o.err
}

// noCommand says that a group has no command of that name; a nil group is the
// whole.
func noCommand(group *command, name string, stderr io.Writer) int {
	list, whole := told.Commands, "groundrule"
	if group != nil {
		list, whole = group.Under, "groundrule "+group.Name
	}
	names := []string{"help"}
	for _, c := range list {
		names = append(names, lastWord(c.Name))
	}
	fmt.Fprintf(stderr, "%s: there is no command %q%s; the commands are %s\n", whole, name, didYouMean(name, names), strings.Join(names, ", "))
	return exitBadUse
}

// didYouMean proposes the nearest of some names, or nothing.
func didYouMean(name string, names []string) string {
	if near := diagnostic.Nearest(name, names); near != "" {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// plain shows a text on a terminal: what would act on it is shown as an escape.
func plain(text string) string {
	var b strings.Builder
	for _, r := range text {
		if unicode.IsPrint(r) || r == '\n' {
			b.WriteRune(r)
			continue
		}
		q := strconv.QuoteRuneToASCII(r)
		b.WriteString(q[1 : len(q)-1])
	}
	return b.String()
}

// runVersion tells the version of the program and of the standard rulebook.
func runVersion(c *call, book *groundrule.Book) error {
	version, commit := groundrule.Version, ""
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				commit = ", commit " + s.Value
			}
		}
		version += ", " + info.GoVersion
	}
	fmt.Fprintf(c.out, "groundrule %s%s\nstandard rulebook:\n", version, commit)
	for _, f := range book.Rules().Files {
		fmt.Fprintf(c.out, "  %s  %s\n", f.SHA256, f.Name)
	}
	return nil
}
