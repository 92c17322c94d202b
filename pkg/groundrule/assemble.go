package groundrule

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// teller makes a section from an outcome.
type teller struct {
	b   *Book
	job *site.Site
	o   *engine.Outcome // nil if a calculation refused the job
	s   *section.Section
	err error // the first
}

// begin makes a section with whatever does not depend on the outcome.
func begin(b *Book, job *site.Site, o *engine.Outcome) (*teller, error) {
	input, err := json.Marshal(job)
	if err != nil {
		return nil, err
	}
	rules := b.rules
	area, _ := job.Input("area")
	paved, _ := area.(quantity.Area)
	s := &section.Section{Schema: section.Schema, Version: section.Version, Library: Version, Language: rules.Texts().Language,
		Job:   section.Job{Name: job.Job, Part: job.Part, Client: job.Client, Place: job.Place, Area: value.Measured(paved), Input: input},
		Files: list(rules.Files()), AsOf: rules.AsOf(), Amendments: list(deep.Copy(rules.Amendments())), Variances: list(rules.Variances()),
		Idle: list(rules.Idle()), Lifted: []section.Lifted{}, Crossed: []section.Crossed{}, Absent: []section.Absent{}, Accounts: []section.Account{},
		Refusals: []section.Refusal{}, Courses: []section.Course{}, Checks: []section.Check{}, Cautions: []section.Caution{},
		Confirm: []section.Presumed{}, Overrides: []section.Override{}, Absorbed: []string{}, Sources: []section.Source{}, Reasons: []section.Reason{}}
	if numbers := rules.Texts().Numbers; len(numbers) > 0 {
		s.Numbers = maps.Clone(numbers)
	}
	return &teller{b: b, job: job, o: o, s: s}, nil
}

// list returns a list that is there, if empty.
func list[T any](items []T) []T { return append([]T{}, items...) }

func assemble(b *Book, job *site.Site, o *engine.Outcome, forms []section.Form) (*section.Section, error) {
	t, err := begin(b, job, o)
	if err != nil {
		return nil, err
	}
	t.s.Status, _ = inside.Status(o)
	t.refusals()
	t.reasons()
	t.courses()
	t.checks()
	t.cautions()
	t.work(forms)
	if slices.Contains(forms, section.Questions) {
		t.questions()
	}
	t.crossed()
	t.lifted()
	t.overrides()
	t.absent()
	t.withoutEffect()
	t.accounts()
	for _, err := range o.Absorbed {
		t.s.Absorbed = append(t.s.Absorbed, err.Error())
	}
	if t.err == nil && t.s.Status == section.Designed {
		t.err = t.sound()
	}
	if t.err != nil {
		return nil, t.err
	}
	return t.s, nil
}

// ErrUnsound is wrapped by the error of a section that cannot be right and was
// not stopped: the library is at fault, not the job.
var ErrUnsound = errors.New("groundrule: this section cannot be right; please report it with the job")

// sound is the last guard over a section that is to be built: no course is thinner
// than nothing, each lies where the one over it ends, and no attribute is beyond a
// limit but by permission. The rules and their limits see to all of this; what is
// found here was overlooked by the library.
func (t *teller) sound() error {
	depth := quantity.Length(0)
	for i := len(t.s.Courses) - 1; i >= 0; i-- {
		c := &t.s.Courses[i]
		top, _ := c.Top.Length()
		bottom, _ := c.Bottom.Length()
		thickness, _ := c.Attribute(inside.Thickness).Value.Length()
		if level := c.Attribute(inside.Level).Value; !level.IsZero() && thickness == 0 && top >= 0 {
			continue // it lies among the others and takes no room of its own
		}
		if thickness < 0 || top != depth || bottom != top+thickness {
			return fmt.Errorf("%w: the course %s lies from %s to %s", ErrUnsound, c.Name, c.Top.Text(quantity.US), c.Bottom.Text(quantity.US))
		}
		depth = bottom
	}
	if said := t.s.Reason(inside.Depth).Answer; !said.IsZero() && !said.Equal(t.s.Depth) {
		return fmt.Errorf("%w: %s is %s, and the courses go %s deep", ErrUnsound, inside.Depth, said.Text(quantity.US), t.s.Depth.Text(quantity.US))
	}
	for _, decided := range t.o.Decided {
		switch limit, err := t.o.Beyond(decided); {
		case err != nil:
			return err
		case limit != nil:
			return fmt.Errorf("%w: %s is %s, beyond limit %s", ErrUnsound, decided.Decision.Name, decided.Answer.Text(quantity.US), limit.ID)
		}
	}
	return nil
}

// say writes a sentence.
func (t *teller) say(template *engine.Template) section.Sentence {
	said, err := t.o.Say(template)
	t.keep(err)
	return both(t.b.rules, said.Text)
}

// keep keeps the first error.
func (t *teller) keep(err error) {
	if t.err == nil {
		t.err = err
	}
}

// cite enters a source in the table, if it is not there yet, and returns its name.
func (t *teller) cite(s value.Source) string {
	name := s.ID
	if name == "" {
		name = s.Document
	}
	if s.Clause != "" {
		name += ", " + s.Clause
	}
	if t.s.Source(name).Name == "" {
		t.s.Sources = append(t.s.Sources, section.Source{Name: name, Text: s.String(), Source: s})
	}
	return name
}

func (t *teller) courses() {
	for _, c := range t.o.Courses {
		presence := t.presence(c)
		t.s.Reasons = append(t.s.Reasons, presence)
		why := presence.Taken[0]
		course := section.Course{Name: c.Name, Label: c.Label, Is: c.Is.Name, Presence: presence.Decision, Rule: why.ID, Because: why.Because,
			Source: why.Source, Place: why.Place, Attributes: []section.Attribute{}}
		for _, a := range c.Attributes {
			course.Attributes = append(course.Attributes, t.attribute(a))
		}
		t.s.Courses = append(t.s.Courses, course)
	}
	t.depths()
}

// presence is the reason for which a course is there.
func (t *teller) presence(c *engine.Course) section.Reason {
	yes := value.Bool(true)
	rule := section.Rule{ID: "COURSE-" + c.Name, State: rulebook.Chosen, Place: c.Place, Chapter: c.Chapter, Answer: yes,
		Because: t.say(c.Because), Source: t.cite(c.Source), Clauses: t.clauses(t.o.Deciding(c.When)), Used: []section.Used{}, Amended: deep.Copy(c.Amended)}
	return section.Reason{Decision: "course." + c.Name, Label: c.Label, Asks: t.b.told("asks_course", "what", c.Label).US, Answer: yes,
		Take: rulebook.First, Taken: []section.Rule{rule}, Passed: []section.Rule{}}
}

func (t *teller) attribute(a rulebook.Attribute) section.Attribute {
	r := t.s.Reason(a.Decision)
	out := section.Attribute{Name: a.Name, Label: label(t.b.rules, a.Name), Decision: a.Decision, Shown: a.Shown, Value: r.Answer, Presumed: t.passesOnPresumed(a.Decision)}
	if len(r.Taken) > 0 {
		out.Rule, out.Because, out.Source, out.Place = r.Taken[0].ID, r.Taken[0].Because, r.Taken[0].Source, r.Taken[0].Place
		out.RestsOn = r.Taken[0].RestsOn
		for _, u := range r.Taken[0].Used {
			if s, ok := t.b.rules.Setting(u.Name); ok && s.Amended != nil {
				out.Amended = append(out.Amended, section.AmendedValue{Setting: u.Name, Value: s.Value, By: s.Amended.By.Name, Source: t.cite(s.Source)})
			}
		}
	}
	return out
}

// depths computes how deep each course is below finish grade, from the
// thicknesses of those above it, or takes it from the attribute that says so. A
// section without courses has no depth.
func (t *teller) depths() {
	var depth quantity.Length
	for i := len(t.s.Courses) - 1; i >= 0; i-- {
		c := &t.s.Courses[i]
		if level := c.Attribute(inside.Level).Value; !level.IsZero() {
			c.Top, c.Bottom = level, level
			continue
		}
		c.Top = value.Measured(depth)
		thickness, _ := c.Attribute(inside.Thickness).Value.Length()
		depth += thickness
		c.Bottom = value.Measured(depth)
		t.s.Depth = c.Bottom
	}
}

func (t *teller) checks() {
	for _, each := range t.o.Checks {
		c := each.Check
		out := section.Check{ID: c.ID, Asks: c.Asks, Holds: each.Holds, Failing: c.Failing, Value: each.Value, Limit: each.Limit,
			Says: t.say(c.Says), Because: t.say(c.Because), Source: t.cite(c.Source), Place: c.Place, Clauses: t.clauses(t.o.Deciding(c.Holds)), Amended: deep.Copy(c.Amended)}
		if each.Holds {
			out.Passes = t.say(c.Passes)
		}
		if !each.Value.IsZero() {
			out.Margin, out.Bound = margin(each), section.AtLeast
			if c.AtMost {
				out.Bound = section.AtMost
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
		real := false
		if c.RealWhen != nil {
			var err error
			real, err = t.o.Holds(c.RealWhen)
			t.keep(err)
		}
		t.s.Cautions = append(t.s.Cautions, section.Caution{ID: c.ID, Says: t.say(c.Says), Short: t.say(c.Short), Usual: c.Owed, Real: real, Source: t.cite(c.Source), Place: c.Place, Amended: deep.Copy(c.Amended)})
	}
}
