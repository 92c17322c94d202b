package impact

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

func (c *comparer) ids(edits []int) []string {
	var out []string
	for _, i := range edits {
		out = append(out, c.edits[i].ID)
	}
	return out
}

// traceChanges names the causes of each change of a job designed by both.
func (c *comparer) traceChanges(j *Job, job *site.Site, before, after *engine.Outcome) {
	t := c.trace(before, after)
	all := map[int]bool{}
	for i := range j.Changes {
		change := &j.Changes[i]
		found := t.causes(func() { t.change(change) })
		change.Causes = c.ids(found)
		for _, each := range found {
			all[each] = true
		}
	}
	j.Causes = c.ids(slices.Sorted(maps.Keys(all)))
	if len(j.Causes) == 0 {
		var names []string
		for _, change := range j.Changes {
			names = append(names, change.Decision)
		}
		j.Possible = c.possible(names...)
	}
}

// possible names the edits that some names can depend on; every edit that bears
// on answers, if that gives none.
func (c *comparer) possible(names ...string) []string {
	found := c.reaches(names...)
	if len(found) == 0 {
		for i, e := range c.edits {
			if e.bears() {
				found = append(found, i)
			}
		}
	}
	return c.ids(found)
}

// change follows one change.
func (t *trace) change(change *Change) {
	switch change.What {
	case Laid:
		t.blame(CourseEntry, change.Course, "when")
		t.condition(courseWhen(t.c.before, change.Course), courseWhen(t.c.after, change.Course))
	case Attribute, Reason:
		t.blame(CourseEntry, change.Course, "attribute "+change.Name)
		t.decision(change.Decision)
	case Check:
		t.check(change.Name)
	case Caution:
		t.caution(change.Name)
	}
}

// courseWhen returns the condition of a course, nil if it is always laid or there
// is none of that name.
func courseWhen(b *groundrule.Book, name string) *engine.Condition {
	for _, c := range inside.Rules(b).Courses() {
		if c.Name == name {
			return c.When()
		}
	}
	return nil
}

func (t *trace) check(id string) {
	t.blame(CheckEntry, id)
	find := func(b *engine.Book) *engine.Check {
		for _, c := range b.Checks() {
			if c.ID == id {
				return c
			}
		}
		return nil
	}
	was, is := find(inside.Rules(t.c.before)), find(inside.Rules(t.c.after))
	if was == nil || is == nil {
		return
	}
	t.condition(was.When(), is.When())
	t.condition(was.Holds(), is.Holds())
	for _, each := range []struct {
		book  *engine.Book
		check *engine.Check
	}{{inside.Rules(t.c.before), was}, {inside.Rules(t.c.after), is}} {
		if value, limit, ok := each.book.CheckFormulas(each.check); ok {
			t.names(value.Names())
			t.names(limit.Names())
			t.materialsIn(each.check.Compares())
		}
	}
}

func (t *trace) caution(id string) {
	t.blame(CautionEntry, id)
	find := func(b *engine.Book) *engine.Condition {
		for _, c := range b.Cautions() {
			if c.ID == id {
				return c.When()
			}
		}
		return nil
	}
	t.condition(find(inside.Rules(t.c.before)), find(inside.Rules(t.c.after)))
}

func (t *trace) refusal(id string) {
	t.blame(RefusalEntry, id, "when")
	find := func(b *engine.Book) *engine.Condition {
		for _, r := range b.Refusals() {
			if r.ID == id {
				return r.When()
			}
		}
		return nil
	}
	t.condition(find(inside.Rules(t.c.before)), find(inside.Rules(t.c.after)))
}

// traceStatus names the causes of a job that is refused, stopped or failed by
// one rulebook, and otherwise by the other. What refused a job is run again,
// since a refusal keeps no answers.
func (c *comparer) traceStatus(j *Job, job *site.Site, before, after side) {
	was, is := c.outcome(before, job), c.outcome(after, job)
	if was == nil || is == nil {
		j.Possible = c.possible(append(failing(before), failing(after)...)...)
		return
	}
	t := c.trace(was, is)
	j.Causes = c.ids(t.causes(func() {
		for _, each := range []struct{ one, other side }{{before, after}, {after, before}} {
			for _, id := range each.one.Why {
				switch {
				case slices.Contains(each.other.Why, id):
				case each.one.Status == section.Refused:
					t.refusal(id)
				case each.one.Status == section.Stopped:
					t.check(id)
				}
			}
		}
	}))
	if len(j.Causes) == 0 {
		j.Possible = c.possible(append(failing(before), failing(after)...)...)
	}
}

func (c *comparer) outcome(s side, job *site.Site) *engine.Outcome {
	if s.outcome != nil {
		return s.outcome
	}
	out, err := inside.Rules(s.book).Run(job, inside.Overrides(job))
	if err != nil {
		return nil
	}
	return out
}

// failing names the decision, term, check or rule at which a job failed.
func failing(s side) []string {
	var at *rulebook.RunError
	if errors.As(s.err, &at) {
		return []string{strings.TrimPrefix(at.In, "course "), at.Rule}
	}
	return s.Why
}
