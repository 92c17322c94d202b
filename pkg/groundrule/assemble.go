package groundrule

import (
	"fmt"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// teller makes a section of an outcome.
type teller struct {
	rules *engine.Book
	o     *engine.Outcome
	s     *section.Section
	err   error // the first
}

func begin(b *Book, job *site.Site) *section.Section {
	s := &section.Section{Schema: section.Schema, Version: section.Version,
		Job:     section.Job{Name: job.Job, Client: job.Client, Place: job.Place, Area: value.Measured(job.Area)},
		Courses: []section.Course{}, Checks: []section.Check{}, Cautions: []section.Caution{}, Confirm: []section.Presumed{}, Reasons: []*section.Reason{}}
	s.Files, s.AsOf, s.Amendments, s.Variances = b.rules.Files(), b.rules.AsOf(), b.rules.Amendments(), b.rules.Variances()
	return s
}

func assemble(b *Book, job *site.Site, o *engine.Outcome) (*section.Section, error) {
	t := &teller{rules: b.rules, o: o, s: begin(b, job)}
	t.s.Status = statusOf(o)
	t.refusals()
	t.reasons()
	t.courses()
	t.checks()
	t.cautions()
	for _, err := range o.Absorbed {
		t.s.Absorbed = append(t.s.Absorbed, err.Error())
	}
	return t.s, t.err
}

// say writes a sentence and keeps the first error.
func (t *teller) say(template *engine.Template) section.Sentence {
	out, err := sentence(t.o, template)
	if err != nil && t.err == nil {
		t.err = err
	}
	return out
}

func (t *teller) refusals() {
	for _, each := range t.o.Refusals {
		r := each.Refusal
		t.s.Refusals = append(t.s.Refusals, section.Refusal{ID: r.ID, Says: t.say(r.Says()), Who: t.say(r.Who()), Source: r.Source,
			SourceText: sourceText(r.Source), Place: r.Place, Clauses: t.clauses(t.o.Deciding(r.When()))})
	}
}

func (t *teller) reasons() {
	for _, d := range t.o.Decided {
		if !d.Asked {
			continue
		}
		t.s.Reasons = append(t.s.Reasons, t.reason(d))
		if d.Override != nil {
			instead := value.Value{}
			for i, state := range d.States {
				if state == rulebook.Held && instead.IsZero() {
					instead = d.Answers[i]
				}
			}
			t.s.Overrides = append(t.s.Overrides, section.Override{Decision: d.Decision.Name, Answer: d.Answer, Instead: instead,
				By: d.Override.By, Because: d.Override.Because})
		}
		if d.Rule != nil && d.Rule.Standing == rulebook.Presumed {
			t.s.Confirm = append(t.s.Confirm, section.Presumed{Name: d.Decision.Name, Asks: d.Decision.Asks, Value: d.Answer,
				How: t.say(d.Rule.Because()), Confirm: d.Rule.Confirm, Rule: d.Rule.ID})
		}
	}
}

func (t *teller) reason(d *engine.Decided) *section.Reason {
	out := &section.Reason{Decision: d.Decision.Name, Asks: d.Decision.Asks, Answer: d.Answer, Take: d.Decision.Take}
	if d.Override != nil {
		out.Taken = append(out.Taken, section.Rule{ID: "override", State: rulebook.Chosen, Place: d.Override.Place, Answer: &d.Answer,
			Because: section.Plain(d.Override.Because), By: d.Override.By,
			Source: value.Source{ID: "override", Document: "override on this job by " + d.Override.By, Known: value.Company}, SourceText: "override on this job by " + d.Override.By})
	}
	for i, rule := range d.Decision.Rules {
		told := t.rule(rule, d.States[i], d.Answers[i])
		if d.States[i] == rulebook.Chosen {
			out.Taken = append(out.Taken, told)
		} else {
			out.Passed = append(out.Passed, told)
		}
	}
	return out
}

func (t *teller) rule(r *engine.Rule, state rulebook.State, answer value.Value) section.Rule {
	out := section.Rule{ID: r.ID, State: state, Place: r.Place, Chapter: r.Chapter, Source: r.Source,
		SourceText: sourceText(r.Source), Standing: r.Standing, Amended: r.Amended}
	if state == rulebook.NotReached {
		return out
	}
	out.Clauses = t.clauses(t.o.Deciding(r.When()))
	if state == rulebook.NotHeld {
		return out
	}
	out.Answer = &answer
	out.Because = t.say(r.Because())
	out.Used = used(t.rules, t.o, t.o.Used(r))
	return out
}

func (t *teller) clauses(told []engine.ClauseTold) []section.Clause {
	var out []section.Clause
	for _, c := range told {
		out = append(out, section.Clause{Text: c.Text, Place: c.Place, Holds: c.Holds, Values: used(t.rules, t.o, c.Values)})
	}
	return out
}

// used tells values with where they come from, and which were presumed.
func used(rules *engine.Book, o *engine.Outcome, values []rulebook.NamedValue) []section.Used {
	var out []section.Used
	for _, v := range values {
		origin, _ := rules.OriginOf(v.Name)
		u := section.Used{Name: v.Name, Value: v.Value, Origin: origin}
		if setting, ok := rules.Setting(v.Name); ok {
			u.Amended = setting.Amended
		}
		u.Presumed = o != nil && o.Presumed(v.Name)
		out = append(out, u)
	}
	return out
}

func (t *teller) courses() {
	for _, c := range t.o.Courses {
		t.s.Reasons = append(t.s.Reasons, t.presence(c))
		course := section.Course{Name: c.Name, Label: c.Label, Is: c.Is.Name, Presence: "course " + c.Name, Attributes: []section.Attribute{}}
		for _, a := range c.Attributes {
			course.Attributes = append(course.Attributes, t.attribute(a))
		}
		t.s.Courses = append(t.s.Courses, course)
	}
	t.depths()
}

// presence is the reason for which a course is there.
func (t *teller) presence(c *engine.Course) *section.Reason {
	yes := value.Bool(true)
	rule := section.Rule{ID: "COURSE-" + c.Name, State: rulebook.Chosen, Place: c.Place, Chapter: c.Chapter, Answer: &yes,
		Because: t.say(c.Because()), Source: c.Source, SourceText: sourceText(c.Source), Clauses: t.clauses(t.o.Deciding(c.When()))}
	return &section.Reason{Decision: "course " + c.Name, Asks: fmt.Sprintf("Is there a course %q?", c.Label), Answer: yes, Take: rulebook.First,
		Taken: []section.Rule{rule}}
}

func (t *teller) attribute(a rulebook.Attribute) section.Attribute {
	out := section.Attribute{Name: a.Name, Decision: a.Decision}
	if r := t.s.Reason(a.Decision); r != nil {
		out.Value = r.Answer
		if len(r.Taken) > 0 {
			out.Rule, out.Because, out.Source = r.Taken[0].ID, r.Taken[0].Because, r.Taken[0].SourceText
		}
	}
	return out
}

// depths works out how deep each course lies below the finished surface, from
// the thicknesses of those above it.
func (t *teller) depths() {
	var depth quantity.Length
	for i := len(t.s.Courses) - 1; i >= 0; i-- {
		c := &t.s.Courses[i]
		c.Top = value.Measured(depth)
		if a := c.Attribute(inside.Thickness); a != nil {
			thickness, _ := a.Value.Length()
			depth += thickness
		}
		c.Bottom = value.Measured(depth)
	}
	t.s.Depth = value.Measured(depth)
}

func (t *teller) checks() {
	for _, each := range t.o.Checks {
		c := each.Check
		out := section.Check{ID: c.ID, Asks: c.Asks, Holds: each.Holds, Failing: c.Failing, Says: t.say(c.Says()), Because: t.say(c.Because()),
			Source: c.Source, SourceText: sourceText(c.Source), Place: c.Place, Clauses: t.clauses(t.o.Deciding(c.Holds()))}
		if !each.Value.IsZero() {
			out.Value, out.Limit = &each.Value, &each.Limit
			out.Margin = margin(each)
			out.Bound = "at least"
			if c.AtMost {
				out.Bound = "at most"
			}
		}
		t.s.Checks = append(t.s.Checks, out)
	}
}

// margin is how far the value is on the right side of the limit, as a share of
// the limit; nil for a limit of zero.
func margin(c *engine.Checked) *float64 {
	v, _ := c.Value.Measure()
	limit, _ := c.Limit.Measure()
	if limit.SI == 0 {
		return nil
	}
	m := value.Figures((v.SI - limit.SI) / limit.SI)
	if c.Check.AtMost {
		m = -m
	}
	return &m
}

func (t *teller) cautions() {
	for _, c := range t.o.Cautions {
		t.s.Cautions = append(t.s.Cautions, section.Caution{ID: c.ID, Says: t.say(c.Says()), Source: c.Source, SourceText: sourceText(c.Source), Place: c.Place})
	}
}

func sourceText(s value.Source) string { return s.String() }
