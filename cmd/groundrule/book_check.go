package main

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
)

func runBookCheck(c *call, book *groundrule.Book) error {
	if c.json {
		return nil
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

// holds counts what a rulebook holds: what every rulebook has, and what else is
// there.
func holds(b rulebook.Contents) string {
	rules, work := 0, map[string]int{}
	for _, d := range b.Decisions {
		rules += len(d.Rules)
	}
	for _, w := range b.Work {
		work[w.Sort]++
	}
	all := []counted{{len(b.Files), "file"}, {len(b.Chapters), "chapter"}, {len(b.Decisions), "decision"}, {rules, "rule"}, {len(b.Settings), "setting"},
		{len(b.Terms), "term"}, {len(b.Materials), "material"}, {len(b.Courses), "course"}, {len(b.Checks), "check"}, {len(b.Cautions), "caution"}, {len(b.Refusals), "refusal"}}
	some := []counted{{len(b.Promises), "promise"}, {work["quantity"], "quantity"}, {work["step"], "step"}, {work["tolerance"], "tolerance"}, {work["stop"], "stop"},
		{work["option"], "option"}, {work["remedy"], "remedy"}, {work["client"], "sentence for the client"}, {len(b.Amendments), "amendment in force"},
		{len(b.Variances), "variance in use"}, {len(b.Lifted), "entry taken away or changed"}}
	var parts []string
	for _, each := range append(all, slices.DeleteFunc(some, func(c counted) bool { return c.n == 0 })...) {
		parts = append(parts, each.String())
	}
	return strings.Join(parts, ", ")
}

// counted is how many of something there are.
type counted struct {
	n   int
	one string
}

// String says the number with the noun, the first word of which is that of many.
func (c counted) String() string {
	first, rest, _ := strings.Cut(c.one, " ")
	if stem, ies := strings.CutSuffix(first, "y"); ies && c.n != 1 {
		first = stem + "ies"
	} else if c.n != 1 {
		first += "s"
	}
	return strings.TrimSpace(fmt.Sprintf("%d %s %s", c.n, first, rest))
}
