package main

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/rulebook"
)

func runBookCheck(c *call) error {
	book, err := c.book()
	if err != nil || c.json {
		return err
	}
	rules := book.Rules()
	fmt.Fprintf(c.out, "no faults: %s\n", holds(rules))
	for _, line := range append(amended(rules), inLanguage(rules, c.shown)...) {
		fmt.Fprintln(c.out, plain(line))
	}
	return nil
}

// inLanguage tells what a language gives of the texts, and what it lacks.
func inLanguage(b rulebook.Contents, most int) []string {
	if b.Language == "" {
		return nil
	}
	out := []string{fmt.Sprintf("%d of %d texts are given in %s", b.Texts-len(b.Missing), b.Texts, b.Language)}
	shown := min(len(b.Missing), most)
	for _, name := range b.Missing[:shown] {
		out = append(out, "missing: "+name)
	}
	if more := len(b.Missing) - shown; more > 0 {
		out = append(out, fmt.Sprintf("missing: %d more", more))
	}
	return out
}

// amended tells which amendments are in force, what they take away or change that
// would have spoken, and what of them is not in force on the day.
func amended(b rulebook.Contents) []string {
	var out []string
	for _, a := range b.Amendments {
		out = append(out, fmt.Sprintf("in force: %s of %s (%s, %s): %s", a.Name, a.Company, a.Who, a.When, a.Why))
	}
	for _, l := range b.Lifted {
		how := "taken away"
		if l.Replaced {
			how = "changed"
		}
		out = append(out, fmt.Sprintf("%s: the %s %s, by %s of %s, at %s: %s", how, l.Sort, l.ID, l.Amended.By.Name, l.Amended.By.Company, l.Amended.Place, l.Amended.Because))
	}
	for _, i := range b.Idle {
		days := ", from " + i.From.String()
		if i.From.IsZero() {
			days = ""
		}
		if !i.Until.IsZero() {
			days += ", through " + i.Until.String()
		}
		out = append(out, fmt.Sprintf("not in force on %s: %s%s", b.AsOf, i.What, days))
	}
	return out
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
		{len(b.Promises), "promise", "promises", false},
		{count(b.Work, "quantity"), "quantity", "quantities", false},
		{count(b.Work, "step"), "step", "steps", false},
		{count(b.Work, "tolerance"), "tolerance", "tolerances", false},
		{count(b.Work, "stop"), "stop", "stops", false},
		{count(b.Work, "option"), "option", "options", false},
		{count(b.Work, "remedy"), "remedy", "remedies", false},
		{count(b.Work, "client"), "sentence for the client", "sentences for the client", false},
		{len(b.Amendments), "amendment in force", "amendments in force", false},
		{len(b.Variances), "variance in use", "variances in use", false},
		{len(b.Lifted), "entry taken away or changed", "entries taken away or changed", false},
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

// count returns how many are of a sort.
func count(work []rulebook.Work, sort string) (n int) {
	for _, w := range work {
		if w.Sort == sort {
			n++
		}
	}
	return n
}
