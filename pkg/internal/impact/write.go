package impact

import (
	"fmt"
	"io"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

const (
	shownByDefault = 20
	turnsShown     = 6
	longestText    = 200
)

// Write writes the report as text: the edits, how many jobs change, what changes
// in them and by how much, and the first changed jobs in full. The error is the
// writer's.
func (r *Report) Write(w io.Writer) error {
	t := &text{r: r}
	t.edits()
	t.jobs()
	t.groups()
	t.sums()
	t.changed()
	t.unreadable()
	_, err := io.WriteString(w, t.String())
	return err
}

type text struct {
	strings.Builder
	r *Report
}

func (t *text) line(format string, args ...any) { fmt.Fprintf(t, format+"\n", args...) }

func (t *text) edits() {
	t.line("%s between the rulebooks, tried on %s", count(len(t.r.Edits), "edit"), count(t.r.Jobs.All, "job"))
	for _, e := range t.r.Edits {
		words := ""
		if e.WordsOnly {
			words = ", in words only"
		}
		t.line("\n  %s %s%s", e.ID, e.Done, words)
		if at := e.After; at != nil {
			t.line("    at %s", at)
		} else if at := e.Before; at != nil {
			t.line("    at %s, before", at)
		}
		for _, f := range e.Fields {
			t.line("    %s: %s -> %s", f.Name, cut(f.Before), cut(f.After))
		}
		switch {
		case e.WordsOnly:
		case e.Jobs == 0 && e.Possible == 0:
			t.line("    changes none of these jobs")
		case e.Jobs > 0:
			t.line("    changes %s", count(e.Jobs, "job"))
		}
		if e.Possible > 0 {
			t.line("    may have a part in %s", count(e.Possible, "more job"))
		}
	}
}

// cut keeps a long text to a line, and shows that there is none.
func cut(s string) string {
	runes := []rune(strings.Join(strings.Fields(s), " "))
	switch {
	case len(runes) == 0:
		return "(none)"
	case len(runes) > longestText:
		return string(runes[:longestText]) + " ..."
	}
	return string(runes)
}

func (t *text) jobs() {
	j := t.r.Jobs
	t.line("\nOf %s", count(j.All, "job"))
	for _, each := range []struct {
		n    int
		what string
	}{
		{j.Same, "answered as before"},
		{j.Section, "with another section"},
		{j.NewlyRefused, "newly refused"},
		{j.NewlyStopped, "newly stopped by a check"},
		{j.NewlyDesigned, "newly designed"},
		{j.NewlyFailed, "for which a rule newly comes to no answer"},
		{j.Otherwise, "refused or stopped as before, by another limit or check"},
		{j.NoticesOnly, "with the same section, and other failed checks or cautions"},
		{j.ReasonsOnly, "with the same section, decided by other rules"},
		{j.Unreadable, "unreadable"},
	} {
		if each.n > 0 {
			t.line("  %6s %s", grouped(each.n), each.what)
		}
	}
}

func (t *text) groups() {
	if len(t.r.Groups) == 0 {
		return
	}
	t.line("\nWhat changes in sections")
	for _, g := range t.r.Groups {
		t.line("\n  %s: %s%s", g.title(), count(g.Jobs, "job"), by(g.Causes))
		for i, turn := range g.Turns {
			if i == turnsShown && len(g.Turns) > turnsShown+1 {
				t.line("    and %s", count(len(g.Turns)-i, "other change"))
				break
			}
			t.line("    %s: %s, such as no. %s", t.turn(g.What, turn.Before, turn.After), count(turn.Jobs, "job"), numbers(turn.First))
		}
	}
}

func (g *Group) title() string {
	switch g.What {
	case Laid:
		return g.Label
	case Attribute:
		return g.Label + ", " + plain(g.Name)
	case Reason:
		return g.Label + ", " + plain(g.Name) + ", the same by another rule"
	}
	return string(g.What) + " " + g.Name
}

// turn tells a change from one value to another.
func (t *text) turn(what What, before, after value.Value) string {
	is, _ := after.Bool()
	switch what {
	case Laid:
		return either(is, "laid, and was not", "no longer laid")
	case Check:
		if holds, asked := after.Bool(); asked && !holds {
			return "fails, and did not"
		}
		return "no longer fails"
	case Caution:
		return either(is, "given, and was not", "no longer given")
	}
	from, to := t.value(before), t.value(after)
	if from == to {
		from, to = precisely(before), precisely(after)
	}
	return from + " -> " + to
}

func either(is bool, yes, no string) string {
	if is {
		return yes
	}
	return no
}

func (t *text) value(v value.Value) string { return cut(v.Text(t.r.options.System)) }

func by(causes []Cause) string {
	var all []string
	for _, c := range causes {
		all = append(all, c.Edit)
	}
	return byEdits(all)
}

func byEdits(ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	return ", by " + strings.Join(ids, ", ")
}

func (t *text) sums() {
	system := t.r.options.System
	if t.r.Jobs.DesignedByBoth == 0 {
		return
	}
	t.line("\nOver the %s designed by both", count(t.r.Jobs.DesignedByBoth, "job"))
	d := t.r.Depth
	if d.Deeper+d.Shallower == 0 {
		t.line("  no section is deeper or shallower")
	} else {
		t.line("  %s deeper, %s shallower, %s in sum", grouped(d.Deeper), grouped(d.Shallower), signed(d.Sum.Quantity().Text(system)))
	}
	if d.MostJob > 0 {
		t.line("  %s at the most, no. %s", signed(d.Most.Quantity().Text(system)), grouped(d.MostJob))
	}
	if d.LeastJob > 0 {
		t.line("  %s at the most, no. %s", d.Least.Quantity().Text(system), grouped(d.LeastJob))
	}
	for _, v := range t.r.Volumes {
		if delta := v.Delta(); delta != 0 {
			t.line("  %s: %s -> %s, %s (compacted; waste and what lies beyond the edge not counted)", v.Label,
				v.Before.Quantity().Text(system), v.After.Quantity().Text(system), signed(delta.Quantity().Text(system)))
		}
	}
}

func signed(s string) string {
	if strings.HasPrefix(s, "-") {
		return s
	}
	return "+" + s
}

func (t *text) changed() {
	shown := t.r.options.Shown
	if shown == 0 {
		shown = shownByDefault
	}
	shown = min(max(shown, 0), len(t.r.Changed))
	if shown == 0 {
		return
	}
	t.line("\nJobs that change, %s of %s", grouped(shown), grouped(len(t.r.Changed)))
	for _, j := range t.r.Changed[:shown] {
		t.job(j)
	}
}

func (t *text) job(j *Job) {
	t.line("\n  no. %s%s: %s%s", grouped(j.Number), named(j.Name), t.what(j), byEdits(j.Causes))
	if len(j.Possible) > 0 {
		t.line("    perhaps by %s", strings.Join(j.Possible, ", "))
	}
	for _, c := range j.Changes {
		g := Group{What: c.What, Course: c.Course, Label: c.Label, Name: c.Name}
		switch {
		case c.What == Reason:
			t.line("    %s: %s -> %s", g.title(), c.RuleBefore, c.RuleAfter)
		case c.RuleBefore != c.RuleAfter && c.What == Attribute:
			t.line("    %s: %s (%s -> %s)", g.title(), t.turn(c.What, c.Before, c.After), cut(c.RuleBefore), cut(c.RuleAfter))
		case c.What == Attribute:
			t.line("    %s: %s (%s)", g.title(), t.turn(c.What, c.Before, c.After), c.RuleAfter)
		default:
			t.line("    %s: %s", g.title(), t.turn(c.What, c.Before, c.After))
		}
	}
}

func named(name string) string {
	if name == "" {
		return ""
	}
	return ", " + cut(name)
}

func (t *text) what(j *Job) string {
	switch j.Kind {
	case Status, Otherwise:
		return t.side(j.Before) + " -> " + t.side(j.After)
	case NoticesOnly:
		return "the same section"
	case ReasonsOnly:
		return "the same section by other rules"
	}
	before, after, _ := j.depths()
	system := t.r.options.System
	if same(before, after) {
		return before.Quantity().Text(system) + " deep as before"
	}
	return before.Quantity().Text(system) + " -> " + after.Quantity().Text(system) + " deep"
}

func (t *text) side(s Side) string {
	if s.Status == section.Designed {
		return "designed"
	}
	return fmt.Sprintf("%s (%s)", s.Status, cut(strings.Join(s.Why, ", ")))
}

func (t *text) unreadable() {
	if len(t.r.Unreadable) == 0 {
		return
	}
	t.line("\nNot read")
	for _, u := range t.r.Unreadable {
		t.line("  no. %s: %s", grouped(u.Number), cut(u.Why))
	}
}

// count writes a number with what it counts.
func count(n int, what string) string {
	if n != 1 {
		what += "s"
	}
	return grouped(n) + " " + what
}

// grouped sets thousands apart.
func grouped(n int) string { return value.Number(float64(n)).Text(quantity.US) }

func numbers(all []int) string {
	out := make([]string, len(all))
	for i, n := range all {
		out[i] = grouped(n)
	}
	return strings.Join(out, "; ")
}

// plain writes a name of the rule language as words.
func plain(name string) string { return strings.ReplaceAll(name, "_", " ") }
