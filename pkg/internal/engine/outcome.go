package engine

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Outcome is everything that a book answers for one site. What is kept is
// small: the answers, and which rules held. The telling of it is worked out
// when asked for.
//
// An Outcome is not safe for concurrent use.
type Outcome struct {
	run      *run
	Refusals []*Refusal // the limits that the site crossed
	// Decided has every decision, in the order of use; empty if refused.
	Decided  []*Decided
	Courses  []*Course // those that are laid, from the bottom up
	Checks   []*Checked
	Cautions []*Caution
	Work     []*Work    // steps, tolerances and stops that apply
	Crossed  []*Crossed // answers beyond a limit of their decision
	// Unasked are the overrides of decisions that this job does not ask.
	Unasked []Override
	// Absorbed are errors on one side of && or || that the other side settled,
	// and errors of rules whose decision a person took over.
	Absorbed []error
}

// Checked is a check with what it came to.
type Checked struct {
	Check *Check
	Holds bool
	// Value and Limit are set for a check that compares a value with a limit.
	Value, Limit value.Value
}

// Run answers everything for a site. The refusals are asked first; if one
// holds, nothing else is.
//
// The error is a [*RunError] if a rule came to no answer, and wraps
// [ErrOverride] if an override cannot be followed.
func (b *Book) Run(site Site, overrides []Override) (*Outcome, error) {
	r := b.newRun(site)
	if err := r.compileOverrides(overrides); err != nil {
		return nil, err
	}
	return r.outcome(overrides)
}

func (r *run) outcome(overrides []Override) (*Outcome, error) {
	b, out := r.book, &Outcome{run: r}
	if err := r.allRefusals(out); err != nil {
		return nil, err
	}
	if len(out.Refusals) > 0 {
		out.Absorbed = r.absorbed
		return out, r.allWork(out)
	}
	for _, o := range overrides {
		if d, ok := b.Decision(o.Decision); ok {
			if asked, err := r.holds(d.When, place{name: d.Name}); err == nil && !asked {
				out.Unasked = append(out.Unasked, o)
			}
		}
	}
	steps := []func(*Outcome) error{r.allDecisions, r.allLimits, r.allCourses, r.allChecks, r.allCautions, r.allWork}
	for _, step := range steps {
		if err := step(out); err != nil {
			return nil, err
		}
	}
	out.Absorbed = r.absorbed
	return out, nil
}

// allRefusals finds the refusals that hold. Beside one that does, a calculation that
// does not reach the job no longer matters, unless its sentences quote what that would
// have come to.
func (r *run) allRefusals(out *Outcome) error {
	var beyond error
	for _, x := range r.book.refusals {
		holds, err := r.holds(x.When, place{sort: "refusal", name: x.ID})
		if _, refuses := NotCalculated(err); refuses {
			beyond = cmp.Or(beyond, err)
		} else if err != nil {
			return cmp.Or(beyond, err)
		}
		if holds {
			out.Refusals = append(out.Refusals, x)
		}
	}
	if beyond == nil {
		return nil
	}
	quotes := func(sentence *Template) bool {
		_, err := out.Say(sentence)
		_, refuses := NotCalculated(err)
		return refuses
	}
	out.Refusals = slices.DeleteFunc(out.Refusals, func(x *Refusal) bool { return quotes(x.Says) || quotes(x.Who) })
	if len(out.Refusals) == 0 {
		return beyond
	}
	return nil
}

func (r *run) allDecisions(out *Outcome) error {
	out.Decided = make([]*Decided, 0, len(r.book.order))
	for _, d := range r.book.order {
		decided, err := r.decide(d)
		if err != nil {
			return err
		}
		out.Decided = append(out.Decided, decided)
	}
	return nil
}

func (r *run) allCourses(out *Outcome) error {
	deep := 0.0
	for _, c := range r.book.courses {
		laid, err := r.holds(c.When, place{sort: "course", name: c.Name})
		if err != nil {
			return err
		}
		if !laid {
			continue
		}
		thick, err := r.thick(c)
		if err != nil && len(out.Crossed) == 0 {
			return err // an answer beyond its limit is told as that
		}
		deep += thick
		out.Courses = append(out.Courses, c)
	}
	r.asDeep(out, quantity.Length(deep))
	return nil
}

// asDeep holds the depth that the rules answer to that of the courses that are laid: an
// amendment may leave one out that is counted.
func (r *run) asDeep(out *Outcome, laid quantity.Length) {
	d, is := r.book.byName[r.book.depth].(*Decision)
	if !is || r.decided[d.index] == nil || slices.ContainsFunc(out.Crossed, func(c *Crossed) bool { return c.Variance == nil }) {
		return
	}
	for _, l := range d.limits {
		c := &Crossed{Decided: r.decided[d.index], Limit: l, Value: value.Measured(laid)}
		if l.limit != nil || !l.orders() || !l.beyond(c.Decided.Answer, c.Value, nil) {
			continue
		}
		for _, course := range r.book.courses {
			_, amended := r.causes(c.Decided, &Limit{When: course.When})
			c.Amended = append(c.Amended, amended...)
		}
		if len(c.Amended) > 0 { // else the library is wrong
			out.Crossed = append(out.Crossed, c)
		}
	}
}

// thick returns the thickness of a course, and refuses one that is thinner than nothing.
func (r *run) thick(c *Course) (float64, error) {
	for _, a := range c.Attributes {
		if a.Name != r.book.thickness {
			continue
		}
		v, err := r.frame.Value(a.Decision)
		q, _ := v.Quantity()
		if err == nil && q.SI < 0 {
			err = ErrThickness
		}
		if err != nil {
			return 0, r.fail(place{sort: "course", name: c.Name}, c.Place, a.Decision, []string{a.Decision}, err)
		}
		return q.SI, nil
	}
	return 0, nil
}

func (r *run) allChecks(out *Outcome) error {
	for _, c := range r.book.checks {
		if r.stays(c.When, c.Holds, c.value, c.limit) {
			if at := slices.IndexFunc(r.first.Checks, func(x *Checked) bool { return x.Check == c }); at >= 0 {
				out.Checks = append(out.Checks, r.first.Checks[at])
			}
			continue
		}
		checked, err := r.check(c)
		if err != nil {
			return err
		}
		if checked != nil {
			out.Checks = append(out.Checks, checked)
		}
	}
	return nil
}

// check works a check out; nil if it does not apply.
func (r *run) check(c *Check) (*Checked, error) {
	in := place{sort: "check", name: c.ID}
	applies, err := r.holds(c.When, in)
	if err != nil || !applies {
		return nil, err
	}
	checked := &Checked{Check: c}
	if c.Holds != nil {
		checked.Holds, err = r.holds(c.Holds, in)
		return checked, err
	}
	if checked.Value, err = r.eval(c.value, in); err != nil {
		return nil, err
	}
	if checked.Limit, err = r.eval(c.limit, in); err != nil {
		return nil, err
	}
	order, ok := checked.Value.Compare(checked.Limit)
	if !ok {
		return nil, r.fail(in, c.value.Place(), c.value.Text(), c.value.source.Names, noOrder(checked.Value, checked.Limit))
	}
	checked.Holds = order >= 0
	if c.AtMost {
		checked.Holds = order <= 0
	}
	return checked, nil
}

func (r *run) allCautions(out *Outcome) error {
	for _, x := range r.book.cautions {
		holds, err := r.holds(x.When, place{sort: "caution", name: x.ID})
		if err != nil {
			return err
		}
		if holds {
			out.Cautions = append(out.Cautions, x)
		}
	}
	return nil
}

// Came returns what a decision came to in this run, and false if the run had no
// need of it: a refused job asks no more than the refusals need. Unlike
// [Outcome.DecidedBy] it works nothing out.
func (o *Outcome) Came(d *Decision) (*Decided, bool) {
	decided := o.run.decided[d.index]
	return decided, decided != nil
}

// DecidedBy returns what the decision of a name came to in this run.
func (o *Outcome) DecidedBy(name string) (*Decided, error) {
	d, ok := o.run.book.Decision(name)
	if !ok {
		return nil, language.UnknownName(name)
	}
	return o.run.decide(d)
}

// Holds reports whether a condition holds in this run.
func (o *Outcome) Holds(c *Condition) (bool, error) {
	return o.run.holds(c, place{name: "a condition"})
}
