package main

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/rulebook"
)

var bookCheckCommand = &command{
	name:  "book check",
	usage: "groundrule book check [flags]",
	about: "whether the rule files and amendments are without faults",
	text: `Reads every rule file of the rulebook and compiles it: each expression with its
units and words, each sentence with the values that it quotes, the limits of the
settings, and what the amendments change. Every fault is shown at once, its line
quoted and marked; without faults, it tells what the rulebook holds.

  groundrule book check --amend ours --as-of 2026-03-01

With --json each fault is a line of JSON on standard output, for an editor:
place, width, code, message, found, wanted, nearest and related. Without faults
there is no line.
`,
	flags: append([]string{flagJSON}, ofBook...),
	exits: `Exit code: 0 no faults; 2 there are faults, or the command line is wrong.
`,
	run: runBookCheck,
}

func runBookCheck(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given; a folder stands behind --rules or --amend", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	if !c.json {
		fmt.Fprintf(c.out, "no faults: %s\n", holds(book.Rules()))
	}
	return exitDone
}

// holds counts what a rulebook holds.
func holds(b rulebook.Contents) string {
	rules := 0
	for _, d := range b.Decisions {
		rules += len(d.Rules)
	}
	var parts []string
	for _, each := range []struct {
		n         int
		one, many string
		always    bool
	}{
		{len(b.Files), "file", "files", true},
		{len(b.Chapters), "chapter", "chapters", true},
		{len(b.Decisions), "decision", "decisions", true},
		{rules, "rule", "rules", true},
		{len(b.Settings), "setting", "settings", true},
		{len(b.Terms), "term", "terms", true},
		{len(b.Materials), "material", "materials", true},
		{len(b.Courses), "course", "courses", true},
		{len(b.Checks), "check", "checks", true},
		{len(b.Cautions), "caution", "cautions", true},
		{len(b.Refusals), "refusal", "refusals", true},
		{len(b.Amendments), "amendment in force", "amendments in force", false},
		{len(b.Variances), "variance in use", "variances in use", false},
	} {
		switch {
		case each.n == 1:
			parts = append(parts, "1 "+each.one)
		case each.n > 0 || each.always:
			parts = append(parts, fmt.Sprintf("%d %s", each.n, each.many))
		}
	}
	return strings.Join(parts, ", ")
}
