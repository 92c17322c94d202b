package impact

import (
	"errors"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// comparer compares what two rulebooks come to. It is not changed while it
// works, so that many goroutines may share it.
type comparer struct {
	before, after *groundrule.Book
	edits         []Edit
	byID          map[string]int
	// materials are the names of those that were edited.
	materials map[string]bool
	// courses are those of the later rulebook, then those that were removed.
	courses []*engine.Course
	kinds   []CourseKind
}

// CourseKind is a sort of course.
type CourseKind struct {
	Name  string `json:"name"`
	Label string `json:"label"`
}

func newComparer(before, after *groundrule.Book) *comparer {
	c := &comparer{before: before, after: after, edits: Differences(inside.Rules(before), inside.Rules(after)),
		byID: map[string]int{}, materials: map[string]bool{}}
	for i, e := range c.edits {
		c.byID[e.ID] = i
		if e.Entry == MaterialEntry && e.bears() {
			c.materials[e.Name] = true
		}
	}
	for _, course := range slices.Concat(inside.Rules(after).Courses(), inside.Rules(before).Courses()) {
		if !slices.ContainsFunc(c.courses, func(each *engine.Course) bool { return each.Name == course.Name }) {
			c.courses = append(c.courses, course)
		}
		kind := CourseKind{course.Is.Name, course.Is.Label}
		if !slices.ContainsFunc(c.kinds, func(k CourseKind) bool { return k.Name == kind.Name }) {
			c.kinds = append(c.kinds, kind)
		}
	}
	return c
}

// side is what one rulebook came to for a job.
type side struct {
	Side
	book *groundrule.Book
	// outcome is nil for a job that is not designed.
	outcome *engine.Outcome
	err     error
}

// design designs a job without any telling. The error is that of a job that is
// none.
func design(b *groundrule.Book, job *site.Site) (side, error) {
	out := side{book: b}
	d, err := b.Design(job)
	var refused *groundrule.Refused
	var impossible *site.Error
	switch {
	case err == nil:
		out.Status, out.outcome = section.Designed, inside.Outcome(d)
		out.Depth = value.Measured(depthOf(out.outcome))
	case errors.As(err, &impossible):
		return out, err
	case errors.As(err, &refused):
		out.Status, out.Why = refused.Section.Status, limits(refused.Section)
	default:
		out.Status, out.Why, out.err = Failed, []string{err.Error()}, err
	}
	return out, nil
}

func limits(s *section.Section) []string {
	var out []string
	for _, r := range s.Refusals {
		out = append(out, r.ID)
	}
	for _, c := range s.Failed() {
		if c.Failing == rulebook.Stops {
			out = append(out, c.ID)
		}
	}
	return out
}

// thicknessOf returns how thick a course is; false for one without thickness.
func thicknessOf(o *engine.Outcome, c *engine.Course) (quantity.Length, bool) {
	for _, a := range c.Attributes {
		if a.Name == inside.Thickness {
			return answer(o, a.Decision).Length()
		}
	}
	return 0, false
}

func depthOf(o *engine.Outcome) quantity.Length {
	var depth quantity.Length
	for i := len(o.Courses) - 1; i >= 0; i-- {
		thickness, _ := thicknessOf(o, o.Courses[i])
		depth += thickness
	}
	return depth
}

// answer returns what a decision came to; the zero value if it was not asked.
func answer(o *engine.Outcome, decision string) value.Value {
	decided, err := o.DecidedBy(decision)
	if err != nil || !decided.Asked {
		return value.Value{}
	}
	return decided.Answer
}

// ruleOf names the rule that decided.
func ruleOf(o *engine.Outcome, decision string) string {
	decided, err := o.DecidedBy(decision)
	switch {
	case err != nil || !decided.Asked:
		return ""
	case decided.Override != nil:
		return "override"
	case decided.Rule != nil:
		return decided.Rule.ID
	}
	var all []string
	for i, s := range decided.States {
		if s == rulebook.Chosen {
			all = append(all, decided.Decision.Rules[i].ID)
		}
	}
	return strings.Join(all, ", ")
}

// compared is what came of one job.
type compared struct {
	err     error // of a job that is none
	before  section.Status
	after   section.Status
	kind    Kind
	job     *Job // nil for one that is answered the same
	volumes []volumes
}

// volumes are those of one kind of course, by both rulebooks, in m3.
type volumes struct{ before, after float64 }

// compare designs a job by both rulebooks.
func (c *comparer) compare(number int, job *site.Site) compared {
	before, err := design(c.before, job)
	if err != nil {
		return compared{err: err}
	}
	after, err := design(c.after, job)
	if err != nil {
		return compared{err: err}
	}
	out := compared{before: before.Status, after: after.Status, kind: Same}
	found := &Job{Number: number, Name: job.Job, Before: before.Side, After: after.Side}
	switch {
	case before.Status != after.Status:
		found.Kind = Status
		c.traceStatus(found, job, before, after)
	case before.outcome == nil:
		if slices.Equal(before.Why, after.Why) {
			return out
		}
		found.Kind = Otherwise
		c.traceStatus(found, job, before, after)
	default:
		out.volumes = c.volumes(job, before.outcome, after.outcome)
		found.Changes = c.changes(before.outcome, after.outcome)
		if len(found.Changes) == 0 {
			return out
		}
		found.Kind = heaviest(found.Changes)
		c.traceChanges(found, job, before.outcome, after.outcome)
	}
	out.kind, out.job = found.Kind, found
	return out
}

func heaviest(changes []Change) Kind {
	out := ReasonsOnly
	for _, each := range changes {
		switch each.What {
		case Laid, Attribute:
			return Section
		case Check, Caution:
			out = NoticesOnly
		}
	}
	return out
}

// volumes works out thickness by area for each kind of course.
func (c *comparer) volumes(job *site.Site, before, after *engine.Outcome) []volumes {
	out := make([]volumes, len(c.kinds))
	add := func(o *engine.Outcome, to func(*volumes) *float64) {
		for _, course := range o.Courses {
			if thickness, ok := thicknessOf(o, course); ok {
				i := slices.IndexFunc(c.kinds, func(k CourseKind) bool { return k.Name == course.Is.Name })
				sum := to(&out[i])
				*sum = float64(thickness*quantity.Length(job.Area)) + *sum
			}
		}
	}
	add(before, func(v *volumes) *float64 { return &v.before })
	add(after, func(v *volumes) *float64 { return &v.after })
	return out
}
