package impact

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// firstJobs is how many jobs a turn names.
const firstJobs = 3

// gather makes the groups of the changes of all jobs, and counts the jobs of
// each edit.
func (r *Report) gather(c *comparer) {
	g := gatherer{index: map[string]*building{}}
	effects := map[string]*Effect{}
	for i, e := range c.edits {
		r.Edits[i] = Effect{Edit: e}
		effects[e.ID] = &r.Edits[i]
	}
	for _, job := range r.Changed {
		for _, id := range job.Causes {
			effects[id].Jobs++
		}
		for _, id := range job.Possible {
			effects[id].Possible++
		}
		for _, change := range job.Changes {
			g.add(job.Number, change)
		}
	}
	r.Groups = g.groups(c)
}

// building is a group that is being gathered.
type building struct {
	Group
	turns  map[string]int
	causes map[string]int
}

type gatherer struct {
	order []*building
	index map[string]*building
}

func (g *gatherer) add(number int, change Change) {
	key := fmt.Sprintf("%s|%s|%s", change.What, change.Course, change.Name)
	b := g.index[key]
	if b == nil {
		b = &building{Group: Group{What: change.What, Course: change.Course, Label: change.Label, Name: change.Name},
			turns: map[string]int{}, causes: map[string]int{}}
		g.index[key] = b
		g.order = append(g.order, b)
	}
	b.Jobs++
	for _, id := range change.Causes {
		b.causes[id]++
	}
	before, after := change.Before, change.After
	if change.What == differ.Reason {
		before, after = value.Text(change.RuleBefore), value.Text(change.RuleAfter)
	}
	turn := exactly(before) + "|" + exactly(after)
	i, ok := b.turns[turn]
	if !ok {
		i = len(b.Turns)
		b.turns[turn] = i
		b.Turns = append(b.Turns, Turn{Before: before, After: after})
	}
	b.Turns[i].Jobs++
	if len(b.Turns[i].First) < firstJobs {
		b.Turns[i].First = append(b.Turns[i].First, number)
	}
}

// exactly tells values apart, and takes together those that read the same in
// both systems of units.
func exactly(v value.Value) string {
	return string(v.Kind()) + ":" + v.Text(quantity.US) + "/" + v.Text(quantity.SI)
}

// groups puts them in order: by the courses from the bottom up, for each whether
// it is laid, then its attributes in their order, then checks and cautions.
func (g *gatherer) groups(c *comparer) []Group {
	whats := []differ.What{differ.Laid, differ.Attribute, differ.Reason, differ.Check, differ.Caution, differ.Quantity, differ.Step, differ.Tolerance, differ.Stop, differ.Option, differ.Remedy, differ.Client}
	rank := func(b *building) []int {
		what := slices.Index(whats, b.What)
		i := slices.IndexFunc(c.courses, func(course *engine.Course) bool { return course.Name == b.Course })
		if i < 0 {
			return []int{len(c.courses), what}
		}
		attributes := c.courses[i].Attributes
		j := slices.IndexFunc(attributes, func(a rulebook.Attribute) bool { return a.Name == b.Name })
		if j < 0 {
			j = len(attributes)
		}
		return []int{i, what, j}
	}
	slices.SortStableFunc(g.order, func(a, b *building) int {
		return cmp.Or(slices.Compare(rank(a), rank(b)), cmp.Compare(a.Name, b.Name))
	})
	out := make([]Group, 0, len(g.order))
	for _, b := range g.order {
		slices.SortStableFunc(b.Turns, func(a, b Turn) int { return cmp.Compare(b.Jobs, a.Jobs) })
		for _, e := range c.edits {
			if n := b.causes[e.ID]; n > 0 {
				b.Causes = append(b.Causes, Cause{e.ID, n})
			}
		}
		out = append(out, b.Group)
	}
	return out
}
