package impact

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

const (
	turnsShown  = 6
	longestText = 200
)

// Tell writes the report as text: the edits, how many jobs change, what changes
// in them and by how much, and so many of the changed jobs in full.
func (r *Report) Tell(p *page.Page, system quantity.System, shown int) {
	t := &text{p, r, system}
	t.edits()
	t.jobs()
	t.groups()
	t.sums()
	t.changed(min(max(shown, 0), len(r.Changed)))
	t.unreadable()
}

// OK reports whether every job could be read.
func (r *Report) OK() bool { return len(r.Unreadable) == 0 }

// Summary returns in one line how many jobs change, and how many could not be
// read.
func (r *Report) Summary() string {
	out := fmt.Sprintf("%d of %s change", len(r.Changed), count(r.Jobs.All, "job"))
	if !r.OK() {
		out += fmt.Sprintf("; %d could not be read", len(r.Unreadable))
	}
	return out
}

type text struct {
	*page.Page
	r      *Report
	system quantity.System
}

func (t *text) edits() {
	t.Line(0, "%s between the rulebooks, tried on %s", count(len(t.r.Edits), "edit"), count(t.r.Jobs.All, "job"))
	for _, e := range t.r.Edits {
		t.Blank()
		t.Line(2, "%s %s%s", e.ID, e.Done, either(e.WordsOnly, ", in words only", ""))
		if e.After != nil {
			t.Line(4, "at %s", e.After)
		} else if e.Before != nil {
			t.Line(4, "at %s, before", e.Before)
		}
		for _, f := range e.Fields {
			t.Line(4, "%s: %s -> %s", f.Name, cut(f.Before), cut(f.After))
		}
		switch {
		case e.WordsOnly:
		case e.Jobs > 0:
			t.Line(4, "changes %s", count(e.Jobs, "job"))
		case e.Possible == 0:
			t.Line(4, "changes none of these jobs")
		}
		if e.Possible > 0 {
			t.Line(4, "may have a part in %s", count(e.Possible, "more job"))
		}
	}
}

// cut shortens a long text, and says "(none)" for an empty one.
func cut(s string) string {
	runes := []rune(s)
	switch {
	case len(runes) == 0:
		return "(none)"
	case len(runes) > longestText:
		return string(runes[:longestText]) + " ..."
	}
	return s
}

func (t *text) jobs() {
	j := t.r.Jobs
	t.Heading("Of " + count(j.All, "job"))
	for _, each := range []struct {
		n    int
		what string
	}{
		{j.Same, "answered as before"},
		{j.Section, "with another section"},
		{j.NewlyRefused, "now refused"},
		{j.NewlyStopped, "now stopped by a check"},
		{j.NewlyDesigned, "now designed"},
		{j.NewlyFailed, "for which a rule now comes to no answer"},
		{j.Otherwise, "refused or stopped as before, by another limit or check"},
		{j.NoticesOnly, "with the same section, and other failed checks, cautions or work of the crew"},
		{j.ReasonsOnly, "with the same section, decided by other rules"},
		{j.Unreadable, "unreadable"},
	} {
		if each.n > 0 {
			t.Verbatim(2, fmt.Sprintf("%6s %s", grouped(each.n), each.what))
		}
	}
}

func (t *text) groups() {
	if len(t.r.Groups) == 0 {
		return
	}
	t.Heading("What changes in sections")
	for _, g := range t.r.Groups {
		var causes []string
		for _, c := range g.Causes {
			causes = append(causes, c.Edit)
		}
		t.Blank()
		t.Line(2, "%s: %s%s", title(g.What, g.Label, g.Name), count(g.Jobs, "job"), by(causes))
		for i, turn := range g.Turns {
			if i == turnsShown && len(g.Turns) > turnsShown+1 {
				t.Line(4, "and %s", count(len(g.Turns)-i, "other change"))
				break
			}
			var first []string
			for _, n := range turn.First {
				first = append(first, grouped(n))
			}
			t.Line(4, "%s: %s, such as no. %s", t.turn(g.What, turn.Before, turn.After), count(turn.Jobs, "job"), strings.Join(first, "; "))
		}
	}
}

// title names what changed.
func title(what differ.What, label, name string) string {
	name = strings.ReplaceAll(name, "_", " ")
	switch what {
	case differ.Laid:
		return label
	case differ.Attribute:
		return label + ", " + name
	case differ.Reason:
		return label + ", " + name + ", the same by another rule"
	}
	return string(what) + " " + name
}

// turn tells a change from one value to another.
func (t *text) turn(what differ.What, before, after value.Value) string {
	is, asked := after.Bool()
	switch what {
	case differ.Laid:
		return either(is, "now laid", "no longer laid")
	case differ.Check:
		return either(asked && !is, "now fails", "no longer fails")
	case differ.Attribute, differ.Reason:
	default:
		return either(is, "now given", "no longer given")
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

func (t *text) value(v value.Value) string        { return cut(v.Text(t.system)) }
func (t *text) measure(m quantity.Measure) string { return m.Quantity().Text(t.system) }

func by(ids []string) string {
	if len(ids) == 0 {
		return ""
	}
	return ", by " + strings.Join(ids, ", ")
}

func (t *text) sums() {
	if t.r.Jobs.DesignedByBoth == 0 {
		return
	}
	t.Heading("Over the " + count(t.r.Jobs.DesignedByBoth, "job") + " designed by both")
	d := t.r.Depth
	if d.Deeper+d.Shallower == 0 {
		t.Line(2, "no section is deeper or shallower")
	}
	if d.Deeper > 0 {
		t.Line(2, "%s deeper, by %s at most (no. %s)", grouped(d.Deeper), t.measure(d.Most), grouped(d.MostJob))
	}
	if d.Shallower > 0 {
		t.Line(2, "%s shallower, by %s at most (no. %s)", grouped(d.Shallower), t.measure(-d.Least), grouped(d.LeastJob))
	}
	for _, v := range t.r.Volumes {
		delta := v.Delta()
		if delta == 0 {
			continue
		}
		t.Line(2, "%s: %s -> %s, %s%s (compacted, without waste and what extends beyond the edge)", v.Label,
			t.measure(v.Before), t.measure(v.After), either(delta > 0, "+", ""), t.measure(delta))
	}
}

func (t *text) changed(shown int) {
	if shown == 0 {
		return
	}
	t.Heading(fmt.Sprintf("Jobs that change, %s of %s", grouped(shown), grouped(len(t.r.Changed))))
	for _, j := range t.r.Changed[:shown] {
		t.job(j)
	}
}

func (t *text) job(j *Job) {
	name := ""
	if j.Name != "" {
		name = ", " + cut(j.Name)
	}
	t.Blank()
	t.Line(2, "no. %s%s: %s%s", grouped(j.Number), name, t.what(j), by(j.Causes))
	if len(j.Possible) > 0 {
		t.Line(4, "perhaps%s", strings.TrimPrefix(by(j.Possible), ","))
	}
	for _, c := range j.Changes {
		rules, turn := "", t.turn(c.What, c.Before, c.After)
		switch {
		case c.What == differ.Reason:
			turn = c.RuleBefore + " -> " + c.RuleAfter
		case c.What == differ.Attribute && c.RuleBefore != c.RuleAfter:
			rules = fmt.Sprintf(" (%s -> %s)", cut(c.RuleBefore), cut(c.RuleAfter))
		case c.What == differ.Attribute:
			rules = fmt.Sprintf(" (%s)", c.RuleAfter)
		}
		t.Line(4, "%s: %s%s", title(c.What, c.Label, c.Name), turn, rules)
	}
}

func (t *text) what(j *Job) string {
	switch j.Kind {
	case Status, Otherwise:
		return sideText(j.Before) + " -> " + sideText(j.After)
	case NoticesOnly:
		return "the same section"
	case ReasonsOnly:
		return "the same section by other rules"
	}
	before, after, _ := j.depths()
	if same(before, after) {
		return t.measure(before) + " deep as before"
	}
	return t.measure(before) + " -> " + t.measure(after) + " deep"
}

func sideText(s Side) string {
	if s.Status == section.Designed {
		return "designed"
	}
	return fmt.Sprintf("%s (%s)", s.Status, cut(strings.Join(s.Why, ", ")))
}

func (t *text) unreadable() {
	if t.r.OK() {
		return
	}
	t.Heading("Not read")
	for _, u := range t.r.Unreadable {
		t.Line(2, "no. %s: %s", grouped(u.Number), cut(strings.ReplaceAll(u.Why, "\n", "; ")))
	}
}

// count writes a number with what it counts.
func count(n int, what string) string { return grouped(n) + " " + page.Noun(n, what) }

// grouped sets thousands apart.
func grouped(n int) string { return value.Number(float64(n)).Text(quantity.US) }
