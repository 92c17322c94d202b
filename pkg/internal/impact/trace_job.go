package impact

import (
	"cmp"
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

func (c *comparer) ids(edits []int) []string {
	var out []string
	for _, i := range edits {
		out = append(out, c.edits[i].ID)
	}
	return out
}

// traceChanges names the causes of each change of a job designed by both.
func (c *comparer) traceChanges(j *Job, before, after *engine.Outcome) {
	t := &trace{c: c, before: before, after: after}
	var all []int
	var names []string
	for i := range j.Changes {
		change := &j.Changes[i]
		found := t.causes(func() { t.change(change) })
		change.Causes = c.ids(found)
		names = append(names, change.Decision)
		all = append(all, found...)
	}
	slices.Sort(all)
	if j.Causes = c.ids(slices.Compact(all)); len(all) == 0 {
		j.Possible = c.possible(names)
	}
}

// possible names the edits that some names can depend on; every edit that
// answers depend on, if there are none.
func (c *comparer) possible(names []string) []string {
	found := c.reaches(names...)
	if len(found) == 0 {
		for i := range c.edits {
			if !c.edits[i].WordsOnly {
				found = append(found, i)
			}
		}
	}
	return c.ids(found)
}

func (t *trace) change(change *Change) {
	switch change.What {
	case differ.Laid:
		t.when("course", change.Course, "when")
	case differ.Attribute, differ.Reason:
		t.blame("course", change.Course, "attribute "+change.Name)
		t.decision(change.Decision)
	case differ.Check:
		t.check(change.Name)
	default:
		t.when(Entry(change.What), change.Name)
	}
}

// both returns an entry of both rulebooks, empty where one does not have it.
func (t *trace) both(sort Entry, name string) (was, is *entry) {
	id := string(sort) + " " + name
	return cmp.Or(t.c.before.entries[id], &entry{}), cmp.Or(t.c.after.entries[id], &entry{})
}

// when follows the condition of a course, a caution or a refusal.
func (t *trace) when(sort Entry, name string, fields ...string) {
	t.blame(sort, name, fields...)
	was, is := t.both(sort, name)
	t.condition(was.when, is.when)
}

func (t *trace) check(id string) {
	t.blame("check", id)
	was, is := t.both("check", id)
	if was.name == "" || is.name == "" {
		return
	}
	t.condition(was.when, is.when)
	t.condition(was.holds, is.holds)
	t.follow(was.compares)
	t.follow(is.compares)
}

// traceStatus names the causes of a job that is refused, stopped or failed by
// one rulebook, and otherwise by the other.
func (c *comparer) traceStatus(j *Job, before, after side) {
	if before.Outcome != nil && after.Outcome != nil {
		t := &trace{c: c, before: before.Outcome, after: after.Outcome}
		j.Causes = c.ids(t.causes(func() {
			t.limits(before, after)
			t.limits(after, before)
		}))
	}
	if len(j.Causes) == 0 {
		j.Possible = c.possible(slices.Concat(failing(before), failing(after)))
	}
}

// limits follows the refusals and checks that one rulebook names and the other
// does not.
func (t *trace) limits(one, other side) {
	for _, id := range one.Why {
		switch {
		case slices.Contains(other.Why, id):
		case one.Status == section.Refused:
			t.when("refusal", id, "when")
		case one.Status == section.Stopped:
			t.check(id)
		}
	}
}

// failing names the decision, term, check or rule at which a job failed.
func failing(s side) []string {
	var at *rulebook.RunError
	if errors.As(s.Err, &at) {
		return []string{at.In, at.Rule}
	}
	return s.Why
}
