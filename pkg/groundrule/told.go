package groundrule

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// withoutEffect tells each value of the job without which everything is the same:
// the courses, what was checked, what is cautioned, and what is assumed. It is
// found by designing the job without it.
func (t *teller) withoutEffect(b *Book, job *site.Site) {
	if len(t.o.Refusals) > 0 {
		return // nothing was designed that it could have an effect on
	}
	for _, f := range site.Fields() {
		if _, given := job.Input(f.Path); f.Required || f.Rules && !given || strings.Contains(f.Path, "[]") {
			continue
		}
		if !f.Rules && (f.Form != site.ListForm || f.Path == "overrides") {
			continue
		}
		without := deep.Copy(job)
		if err := without.Set(f.Path, ""); err != nil || without.Validate() != nil {
			continue
		}
		if rest, err := json.Marshal(without); err != nil || bytes.Equal(t.s.Job.Input, rest) {
			continue // a list that is not given
		}
		o, err := b.rules.Run(without, inside.Overrides(without))
		if err == nil && alike(t.o, o) {
			t.notThere("input", f.Path, f.Label, t.o.PassedBy(f.Path))
		}
	}
}

// alike reports whether two outcomes of a book come to the same for whoever builds.
func alike(a, b *engine.Outcome) bool {
	return slices.Equal(a.Refusals, b.Refusals) && slices.Equal(a.Courses, b.Courses) && slices.Equal(a.Cautions, b.Cautions) &&
		slices.EqualFunc(a.Checks, b.Checks, sameCheck) && slices.EqualFunc(a.Crossed, b.Crossed, sameCrossing) &&
		slices.EqualFunc(attributes(a), attributes(b), value.Value.Equal) &&
		!slices.ContainsFunc(a.Decided, func(d *engine.Decided) bool { return a.Presumed(d.Decision.Name) != b.Presumed(d.Decision.Name) })
}

func sameCheck(a, b *engine.Checked) bool {
	return a.Check == b.Check && a.Holds == b.Holds && a.Value.Equal(b.Value) && a.Limit.Equal(b.Limit)
}

func sameCrossing(a, b *engine.Crossed) bool {
	return a.Limit == b.Limit && a.Variance == b.Variance
}

// attributes lists the answers that the courses of an outcome show.
func attributes(o *engine.Outcome) []value.Value {
	answers := map[string]value.Value{}
	for _, d := range o.Decided {
		if d.Asked {
			answers[d.Decision.Name] = d.Answer
		}
	}
	var out []value.Value
	for _, c := range o.Courses {
		for _, a := range c.Attributes {
			out = append(out, answers[a.Decision])
		}
	}
	return out
}
