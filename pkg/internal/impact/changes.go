package impact

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// changes lists what differs between two sections of one job, in the order of
// the courses from the bottom up, then of the checks and the cautions.
func (c *comparer) changes(before, after *engine.Outcome) []Change {
	var out []Change
	for _, course := range c.courses {
		was, is := laid(before, course.Name), laid(after, course.Name)
		if (was == nil) != (is == nil) {
			out = append(out, Change{What: Laid, Course: course.Name, Label: course.Label, Before: value.Bool(was != nil), After: value.Bool(is != nil)})
			continue
		}
		if was != nil {
			out = append(out, attributes(before, after, was, is)...)
		}
	}
	out = append(out, checks(before, after)...)
	return append(out, cautions(before, after)...)
}

func laid(o *engine.Outcome, name string) *engine.Course {
	if i := slices.IndexFunc(o.Courses, func(c *engine.Course) bool { return c.Name == name }); i >= 0 {
		return o.Courses[i]
	}
	return nil
}

// attribute returns the decision of an attribute of a course, "" if it has none of
// that name.
func attribute(c *engine.Course, name string) string {
	if i := slices.IndexFunc(c.Attributes, func(a rulebook.Attribute) bool { return a.Name == name }); i >= 0 {
		return c.Attributes[i].Decision
	}
	return ""
}

// attributes lists what differs between two courses of one name, in the order of
// the later one, then what it does not have any more.
func attributes(before, after *engine.Outcome, was, is *engine.Course) []Change {
	var out []Change
	seen := map[string]bool{}
	for _, a := range slices.Concat(is.Attributes, was.Attributes) {
		if seen[a.Name] {
			continue
		}
		seen[a.Name] = true
		change := Change{What: Attribute, Course: is.Name, Label: is.Label, Name: a.Name, Decision: a.Decision}
		if d := attribute(was, a.Name); d != "" {
			change.Before, change.RuleBefore = answer(before, d), ruleOf(before, d)
		}
		if d := attribute(is, a.Name); d != "" {
			change.After, change.RuleAfter = answer(after, d), ruleOf(after, d)
		}
		if change.Before.Equal(change.After) {
			change.What = Reason
		}
		if change.What == Attribute || change.RuleBefore != change.RuleAfter {
			out = append(out, change)
		}
	}
	return out
}

// checks lists those that fail by one rulebook only: one that holds, or is not
// asked at all, asks nothing of anyone.
func checks(before, after *engine.Outcome) []Change {
	results := func(all []*engine.Checked) map[string]value.Value {
		out := map[string]value.Value{}
		for _, c := range all {
			out[c.Check.ID] = value.Bool(c.Holds)
		}
		return out
	}
	fails := func(v value.Value) bool { holds, asked := v.Bool(); return asked && !holds }
	was, is := results(before.Checks), results(after.Checks)
	var out []Change
	seen := map[string]bool{}
	for _, c := range slices.Concat(after.Checks, before.Checks) {
		if id := c.Check.ID; !seen[id] && fails(was[id]) != fails(is[id]) {
			out = append(out, Change{What: Check, Name: id, Before: was[id], After: is[id]})
		}
		seen[c.Check.ID] = true
	}
	return out
}

// cautions lists those that are given by one rulebook only: first those that are
// new.
func cautions(before, after *engine.Outcome) []Change {
	var out []Change
	add := func(these, others []*engine.Caution, given bool) {
		for _, c := range these {
			if !slices.ContainsFunc(others, func(o *engine.Caution) bool { return o.ID == c.ID }) {
				out = append(out, Change{What: Caution, Name: c.ID, Before: value.Bool(!given), After: value.Bool(given)})
			}
		}
	}
	add(after.Cautions, before.Cautions, true)
	add(before.Cautions, after.Cautions, false)
	return out
}
