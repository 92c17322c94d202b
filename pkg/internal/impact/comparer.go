package impact

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// edition is one of the two rulebooks, with its entries by their ids.
type edition struct {
	*engine.Book
	table   *site.Table
	entries map[string]*entry
}

// comparer compares what two rulebooks come to. It is not changed while it
// works, so that many goroutines may share it.
type comparer struct {
	before, after *edition
	edits         []Edit
	byID          map[string]int
	// entries are those of both rulebooks, by their names.
	entries map[string][]*entry
	// courses are those of the later rulebook, then those that were removed.
	courses []*engine.Course
	kinds   []CourseKind
}

// CourseKind is a sort of course.
type CourseKind struct {
	Name  string `json:"name"`
	Label string `json:"label"`
}

func newComparer(before, after *engine.Book) *comparer {
	old, now := entriesOf(before), entriesOf(after)
	c := &comparer{before: &edition{before, inside.Table(before), byID(old)}, after: &edition{after, inside.Table(after), byID(now)},
		byID: map[string]int{}, entries: map[string][]*entry{}}
	for _, e := range slices.Concat(old, now) {
		c.entries[e.name] = append(c.entries[e.name], e)
	}
	c.edits = differences(old, now)
	for i, e := range c.edits {
		c.byID[e.ID] = i
	}
	c.courses = differ.Either(after.Courses(), before.Courses(), func(course *engine.Course) string { return course.Name })
	for _, course := range differ.Either(after.Courses(), before.Courses(), func(course *engine.Course) string { return course.Is.Name }) {
		c.kinds = append(c.kinds, CourseKind{course.Is.Name, course.Is.Label})
	}
	return c
}

// edit finds the edit of an entry that answers can depend on.
func (c *comparer) edit(sort Entry, name string) (int, bool) {
	i, ok := c.byID[string(sort)+" "+name]
	return i, ok && !c.edits[i].WordsOnly
}

// reaches lists every edit that the entries of some names can depend on at all.
func (c *comparer) reaches(names ...string) []int {
	var found []int
	seen := map[string]bool{}
	for todo := slices.Clone(names); len(todo) > 0; todo = todo[1:] {
		if seen[todo[0]] {
			continue
		}
		seen[todo[0]] = true
		for _, e := range c.entries[todo[0]] {
			if i, ok := c.edit(e.sort, e.name); ok {
				found = append(found, i)
			}
			todo = append(todo, e.reads()...)
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// side is what one rulebook came to for a job.
type side struct {
	inside.Ran
	told Side
}

func (e *edition) ran(job *site.Site) side {
	closed, err := e.table.Close(job)
	out := side{Ran: inside.Ran{Err: err}}
	if err == nil {
		out.Ran = inside.Run(e.Book, closed)
	}
	switch out.Status {
	case "":
		out.Status, out.Why = Failed, []string{out.Err.Error()}
	case section.Designed:
		out.told.Depth = value.Measured(differ.Depth(out.Outcome))
	}
	out.told.Status, out.told.Why = out.Status, out.Why
	return out
}

// compared is what came of one job.
type compared struct {
	err     error // of an entry that is not a job
	job     *Job  // nil for a job that is answered the same
	volumes []volumes
}

// volumes are those of one kind of course, by both rulebooks, in m3.
type volumes struct{ before, after float64 }

// compare designs a job by both rulebooks, unless it comes with an error.
func (c *comparer) compare(number int, job *site.Site, err error) compared {
	if err != nil {
		return compared{err: err}
	}
	before, after := c.before.ran(job), c.after.ran(job)
	if wrong := new(site.Error); errors.As(before.Err, &wrong) && before.Outcome == nil && errors.As(after.Err, &wrong) {
		return compared{err: wrong} // neither takes it for a job
	}
	var out compared
	found := &Job{Number: number, Name: job.Job, Before: before.told, After: after.told}
	switch {
	case before.Status != after.Status:
		found.Kind = Status
		c.traceStatus(found, before, after)
	case before.Status != section.Designed:
		if slices.Equal(before.Why, after.Why) {
			return out
		}
		found.Kind = Otherwise
		c.traceStatus(found, before, after)
	default:
		out.volumes = c.volumes(job, before.Outcome, after.Outcome)
		found.Changes = differ.Changes(c.courses, before.Outcome, after.Outcome)
		if len(found.Changes) == 0 {
			return out
		}
		found.Kind = heaviest(found.Changes)
		c.traceChanges(found, before.Outcome, after.Outcome)
	}
	out.job = found
	return out
}

func heaviest(changes []Change) Kind {
	out := ReasonsOnly
	for _, each := range changes {
		switch each.What {
		case differ.Laid, differ.Attribute:
			return Section
		case differ.Reason:
		default:
			out = NoticesOnly
		}
	}
	return out
}

// volumes works out thickness by area for each kind of course.
func (c *comparer) volumes(job *site.Site, before, after *engine.Outcome) []volumes {
	out := make([]volumes, len(c.kinds))
	x, _ := job.Input("area")
	area, _ := x.(quantity.Area)
	add := func(o *engine.Outcome, to func(*volumes) *float64) {
		for _, course := range o.Courses {
			if thickness, ok := differ.Thickness(o, course); ok {
				i := slices.IndexFunc(c.kinds, func(k CourseKind) bool { return k.Name == course.Is.Name })
				sum := to(&out[i])
				*sum = float64(thickness*quantity.Length(area)) + *sum
			}
		}
	}
	add(before, func(v *volumes) *float64 { return &v.before })
	add(after, func(v *volumes) *float64 { return &v.after })
	return out
}
