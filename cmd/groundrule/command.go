package main

import (
	_ "embed"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
)

// command is one subcommand, as commands.yaml tells it.
type command struct {
	// Name is how it is called, such as "design" or "book check".
	Name string
	// Usage is the command line, and About what it does in one line.
	Usage, About string
	// Text is the help in full; Exits tells the exit codes, "" for the usual ones.
	Text, Exits string
	// Flags names the flags that the command takes.
	Flags []string
	// Takes are how many arguments there may be, any number if it is nil; Else says
	// that there are more or fewer.
	Takes []int
	Else  string
	// Under are the commands of a group, which does nothing itself.
	Under []*command
}

//go:embed commands.yaml
var commandsFile []byte

// told is what commands.yaml says.
var told = readCommands()

// texts are the commands, in the order of the help, with what else the help says.
type texts struct {
	Introduction, Warning, Exits string
	// Flags tells of each flag which value it takes, "" for none, and what it does.
	Flags    map[string][2]string
	Commands []*command
}

// readCommands reads commands.yaml. That it can be read is for a test to see.
func readCommands() (out texts) {
	if err := yaml.Unmarshal(commandsFile, &out); err != nil {
		panic(err)
	}
	for _, c := range out.Commands {
		for _, each := range append(c.Under, c) {
			each.Usage = strings.Replace(each.Usage, "KINDS", strings.Join(review.SchemaKinds(), "|"), 1)
			if at := slices.Index(each.Flags, "of-book"); at >= 0 {
				each.Flags = slices.Replace(each.Flags, at, at+1, "rules", "amend", "as-of", "language")
			}
		}
	}
	return out
}

// runs are what the commands do.
var runs = map[string]func(*call) error{
	"begin": onBook(runBegin), "design": runDesign, "compare": runCompare, "ask": runAsk, "why": runWhy, "takeoff": runTakeoff, "price": runPrice,
	"calc": runCalc, "version": onBook(runVersion),
	"book begin": runBookBegin, "book check": onBook(runBookCheck), "book trials": onBook(runBookTrials), "book impact": runBookImpact, "book jobs": onBook(runBookJobs),
	"book names": onBook(runBookNames), "book schema": runBookSchema, "book print": runBookPrint, "book diff": runBookDiff,
	"book survey": func(c *call) error { return c.searched(review.Survey) },
	"book prove":  func(c *call) error { return c.searched(review.Prove) },
}

// onBook has a command begin with the rulebook that its flags name.
func onBook(run func(*call, *groundrule.Book) error) func(*call) error {
	return func(c *call) error {
		book, err := c.book()
		if err != nil {
			return err
		}
		return run(c, book)
	}
}

// find follows the words of a command line to a command, and returns it with
// what is left of the line. The command is nil if the first word names none; it
// is a group if the word behind it names none of its commands.
func find(words []string) (cmd *command, rest []string) {
	for list := told.Commands; len(words) > 0 && list != nil; words = words[1:] {
		at := slices.IndexFunc(list, func(c *command) bool { return lastWord(c.Name) == words[0] })
		if at < 0 {
			break
		}
		cmd, list = list[at], list[at].Under
	}
	return cmd, words
}

func lastWord(name string) string { return name[strings.LastIndex(name, " ")+1:] }

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
			return help(strings.Fields(c.Name), c.out, c.err)
		default:
			var err error
			if args, err = c.setFlag(arg, args); err != nil {
				return c.ended(misused("%v", err))
			}
		}
	}
	if c.Takes != nil && !slices.Contains(c.Takes, len(c.args)) {
		return c.ended(misused(c.Else, len(c.args)))
	}
	return c.ended(runs[c.Name](c))
}

// misuse is the error of a wrong command line.
type misuse string

func (m misuse) Error() string { return string(m) }

func misused(format string, args ...any) error { return misuse(fmt.Sprintf(format, args...)) }

// exit is the error of a command that has told all, and ends with this code.
type exit int

func (e exit) Error() string { return fmt.Sprintf("exit code %d", int(e)) }

// ended tells what a command ended with, and returns its exit code.
func (c *call) ended(err error) int {
	var wrong misuse
	var code exit
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &code):
		return int(code)
	case errors.As(err, &wrong):
		fmt.Fprintf(c.err, "groundrule %s: %s\nusage: %s\nfor more: groundrule help %s\n", c.Name, plain(wrong.Error()), c.Usage, c.Name)
		return exitBadUse
	}
	return c.fail(err)
}

// help writes the help of everything, or of the command that the words name.
func help(words []string, out, stderr io.Writer) int {
	if len(words) == 0 || isHelp(words[0]) {
		io.WriteString(out, told.Introduction+"\nCommands:\n"+summary(told.Commands, "groundrule help COMMAND")+"\n"+told.Exits+"\n"+told.Warning)
		return exitDone
	}
	cmd, rest := find(words)
	if cmd == nil || cmd.Under != nil && len(rest) > 0 {
		return noCommand(cmd, rest[0], stderr)
	}
	io.WriteString(out, cmd.help())
	return exitDone
}

// summary lists commands, each in one line, and how more is told of one.
func summary(list []*command, more string) string {
	var b strings.Builder
	for _, c := range append(list[:len(list):len(list)], &command{Name: "help", About: "this text; for one command: " + more}) {
		fmt.Fprintf(&b, "  %-8s %s\n", lastWord(c.Name), c.About)
	}
	return b.String()
}

func (c *command) help() string {
	text := fmt.Sprintf("%s\n\n%s\n", c.Usage, c.Text)
	if c.Under != nil {
		return text + "Commands:\n" + summary(c.Under, "groundrule help "+c.Name+" COMMAND")
	}
	if len(c.Flags) > 0 {
		text += "Flags, before or after the arguments:\n" + c.helpFlags() + "\n"
	}
	if c.Exits == "" {
		return text + told.Exits
	}
	return text + c.Exits + "Or 3: the output cannot be written, or the program fails.\n"
}

// helpFlags lists the flags of a command.
func (c *command) helpFlags() string {
	var b strings.Builder
	column := 0
	shown := func(name string) string {
		return strings.TrimSpace(dashed(name) + " " + told.Flags[name][0])
	}
	for _, name := range c.Flags {
		column = max(column, len(shown(name)))
	}
	for _, name := range c.Flags {
		fmt.Fprintf(&b, "  %-*s  %s\n", column, shown(name), told.Flags[name][1])
	}
	return b.String()
}
