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
	for _, c := range o.Courses {
		if c.Name == name {
			return c
		}
	}
	return nil
}

func attribute(c *engine.Course, name string) (rulebook.Attribute, bool) {
	for _, a := range c.Attributes {
		if a.Name == name {
			return a, true
		}
	}
	return rulebook.Attribute{}, false
}

func attributes(before, after *engine.Outcome, was, is *engine.Course) []Change {
	var out []Change
	for _, now := range is.Attributes {
		change := Change{Course: is.Name, Label: is.Label, Name: now.Name, Decision: now.Decision,
			After: answer(after, now.Decision), RuleAfter: ruleOf(after, now.Decision)}
		if old, ok := attribute(was, now.Name); ok {
			change.Before, change.RuleBefore = answer(before, old.Decision), ruleOf(before, old.Decision)
		}
		switch {
		case !change.Before.Equal(change.After):
			change.What = Attribute
		case change.RuleBefore != change.RuleAfter:
			change.What = Reason
		default:
			continue
		}
		out = append(out, change)
	}
	for _, old := range was.Attributes {
		if _, kept := attribute(is, old.Name); !kept {
			out = append(out, Change{What: Attribute, Course: is.Name, Label: is.Label, Name: old.Name, Decision: old.Decision,
				Before: answer(before, old.Decision), RuleBefore: ruleOf(before, old.Decision)})
		}
	}
	return out
}

// checks lists those that fail by one rulebook only: one that holds, or is not
// asked at all, asks nothing of anyone.
func checks(before, after *engine.Outcome) []Change {
	fails := func(v value.Value) bool { holds, asked := v.Bool(); return asked && !holds }
	result := func(all []*engine.Checked, id string) value.Value {
		for _, c := range all {
			if c.Check.ID == id {
				return value.Bool(c.Holds)
			}
		}
		return value.Value{}
	}
	var ids []string
	for _, c := range slices.Concat(after.Checks, before.Checks) {
		if !slices.Contains(ids, c.Check.ID) {
			ids = append(ids, c.Check.ID)
		}
	}
	var out []Change
	for _, id := range ids {
		was, is := result(before.Checks, id), result(after.Checks, id)
		if fails(was) != fails(is) {
			out = append(out, Change{What: Check, Name: id, Before: was, After: is})
		}
	}
	return out
}

func cautions(before, after *engine.Outcome) []Change {
	given := func(all []*engine.Caution, id string) bool {
		return slices.ContainsFunc(all, func(c *engine.Caution) bool { return c.ID == id })
	}
	var out []Change
	for _, c := range after.Cautions {
		if !given(before.Cautions, c.ID) {
			out = append(out, Change{What: Caution, Name: c.ID, Before: value.Bool(false), After: value.Bool(true)})
		}
	}
	for _, c := range before.Cautions {
		if !given(after.Cautions, c.ID) {
			out = append(out, Change{What: Caution, Name: c.ID, Before: value.Bool(true), After: value.Bool(false)})
		}
	}
	return out
}
