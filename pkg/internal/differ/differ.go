// Package differ tells what differs between two sections of one job: by two
// rulebooks, or by one with something in the job otherwise.
package differ

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Change is one thing that changed in a section.
type Change struct {
	What What `json:"what"`
	// Course and Label name the course, for what changed of a course.
	Course string `json:"course,omitempty"`
	Label  string `json:"label,omitempty"`
	// Name is the attribute, check, caution, step, tolerance or stop.
	Name string `json:"name,omitempty"`
	// Before and After are the values of an attribute, or say whether a course is
	// laid, a check holds or a caution is given; null where there is no value.
	Before value.Value `json:"before"`
	After  value.Value `json:"after"`
	// Decision decided the attribute, by the rules named; "override" is a
	// person.
	Decision   string `json:"decision,omitempty"`
	RuleBefore string `json:"rule_before,omitempty"`
	RuleAfter  string `json:"rule_after,omitempty"`
	// Causes names the edits that brought it about.
	Causes []string `json:"causes,omitempty"`
}

// What is what a change is of.
type What string

// What a change can be of.
const (
	Laid      What = "laid"      // whether a course is laid
	Attribute What = "attribute" // an attribute of a course
	Reason    What = "reason"    // the rule that decided an attribute, its value the same
	Check     What = "check"
	Caution   What = "caution"
	Quantity  What = "quantity"
	Step      What = "step"
	Tolerance What = "tolerance"
	Stop      What = "stop"
	Option    What = "option"
	Remedy    What = "remedy"
	Client    What = "client"
)

// Changes lists what differs between two sections of one job, in the order of
// the courses given, which are from the bottom up, then of the checks, the cautions
// and what the crew works by.
func Changes(courses []*engine.Course, before, after *engine.Outcome) []Change {
	var out []Change
	for _, course := range courses {
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
	return append(out, given(before, after)...)
}

// Either lists what is in one of two lists or in both, each name once: what the later
// list has, in its order, then what it does not have any more.
func Either[T any](later, earlier []T, name func(T) string) []T {
	seen := map[string]bool{}
	return slices.DeleteFunc(slices.Concat(later, earlier), func(x T) bool {
		again := seen[name(x)]
		seen[name(x)] = true
		return again
	})
}

func laid(o *engine.Outcome, name string) *engine.Course {
	if i := slices.IndexFunc(o.Courses, func(c *engine.Course) bool { return c.Name == name }); i >= 0 {
		return o.Courses[i]
	}
	return nil
}

// Attributed returns the decision of an attribute of a course, "" if it has none of
// that name.
func Attributed(c *engine.Course, name string) string {
	if i := slices.IndexFunc(c.Attributes, func(a rulebook.Attribute) bool { return a.Name == name }); i >= 0 {
		return c.Attributes[i].Decision
	}
	return ""
}

// attributes lists what differs between two courses of one name, in the order of
// the later one, then what it does not have any more.
func attributes(before, after *engine.Outcome, was, is *engine.Course) []Change {
	var out []Change
	for _, a := range Either(is.Attributes, was.Attributes, func(a rulebook.Attribute) string { return a.Name }) {
		change := Change{What: Attribute, Course: is.Name, Label: is.Label, Name: a.Name, Decision: a.Decision}
		if d := Attributed(was, a.Name); d != "" {
			change.Before, change.RuleBefore = Answer(before, d), ruleOf(before, d)
		}
		if d := Attributed(is, a.Name); d != "" {
			change.After, change.RuleAfter = Answer(after, d), ruleOf(after, d)
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
	for _, c := range Either(after.Checks, before.Checks, func(c *engine.Checked) string { return c.Check.ID }) {
		if id := c.Check.ID; fails(was[id]) != fails(is[id]) {
			out = append(out, Change{What: Check, Name: id, Before: was[id], After: is[id]})
		}
	}
	return out
}

// given lists the cautions, quantities, steps, tolerances and stops that are given by one
// rulebook only: first those that are new.
func given(before, after *engine.Outcome) []Change {
	all := func(o *engine.Outcome) (list []Change) {
		for _, c := range o.Cautions {
			list = append(list, Change{What: Caution, Name: c.ID})
		}
		for _, w := range o.Work {
			list = append(list, Change{What: What(w.Sort), Name: w.ID})
		}
		return list
	}
	var out []Change
	add := func(these, others []Change, given bool) {
		for _, c := range these {
			if !slices.ContainsFunc(others, func(o Change) bool { return o.Name == c.Name }) {
				c.Before, c.After = value.Bool(!given), value.Bool(given)
				out = append(out, c)
			}
		}
	}
	was, is := all(before), all(after)
	add(is, was, true)
	add(was, is, false)
	return out
}

// Thickness returns how thick a course is; false for one without thickness.
func Thickness(o *engine.Outcome, c *engine.Course) (quantity.Length, bool) {
	if d := Attributed(c, inside.Thickness); d != "" {
		return Answer(o, d).Length()
	}
	return 0, false
}

// Depth returns how deep the dig is, from finish grade.
func Depth(o *engine.Outcome) quantity.Length {
	var depth quantity.Length
	for _, course := range slices.Backward(o.Courses) {
		thickness, _ := Thickness(o, course)
		depth += thickness
	}
	return depth
}

// Answer returns what a decision came to; the zero value if it was not asked.
func Answer(o *engine.Outcome, decision string) value.Value {
	if decided, err := o.DecidedBy(decision); err == nil && decided.Asked {
		return decided.Answer
	}
	return value.Value{}
}

// ruleOf names the rule that decided, or all of them.
func ruleOf(o *engine.Outcome, decision string) string {
	decided, err := o.DecidedBy(decision)
	switch {
	case err != nil || !decided.Asked:
		return ""
	case decided.Override != nil:
		return "override"
	}
	return strings.Join(Chosen(decided), ", ")
}

// Chosen returns the ids of the rules whose answers were taken.
func Chosen(d *engine.Decided) []string {
	var out []string
	for i, s := range d.States {
		if s == rulebook.Chosen {
			out = append(out, d.Decision.Rules[i].ID)
		}
	}
	return out
}
