package trial

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// result is what came of a trial's job.
type result struct {
	inside.Ran
	// came is the outcome, and an empty one where the run came to no end.
	came *engine.Outcome
}

func resultOf(ran inside.Ran) *result {
	return &result{ran, cmp.Or(ran.Outcome, &engine.Outcome{})}
}

// limits returns the ids of the refusals.
func (r *result) limits() []string {
	if r.Status != section.Refused {
		return nil
	}
	return r.Why
}

// statusText returns the status with what led to it.
func (r *result) statusText() string {
	switch {
	case r.Status == "":
		return "no result: " + r.Err.Error()
	case r.Err != nil:
		return string(r.Status) + " by " + listText(r.Why) + ": " + r.Err.Error()
	case len(r.Why) > 0:
		return string(r.Status) + " by " + listText(r.Why)
	}
	return string(r.Status)
}

// decided returns what a decision came to, nil if it was not asked.
func (r *result) decided(d *engine.Decision) *engine.Decided {
	if r.Outcome == nil {
		return nil
	}
	if decided, came := r.Outcome.Came(d); came && decided.Asked {
		return decided
	}
	return nil
}

// answer returns what a decision answered, and whether it was asked.
func (r *result) answer(d *engine.Decision) (value.Value, bool) {
	if decided := r.decided(d); decided != nil {
		return decided.Answer, true
	}
	return value.Value{}, false
}

func (r *result) answerText(d *engine.Decision) string {
	was, asked := r.answer(d)
	switch {
	case asked:
		return written(was)
	case r.Outcome == nil:
		return "not asked, for the run came to no end"
	case r.Status == section.Refused:
		return "not asked, for the job was refused"
	}
	return "not asked"
}

// chosen returns the ids of the rules whose answers were taken.
func (r *result) chosen(d *engine.Decision) []string {
	decided := r.decided(d)
	switch {
	case decided == nil:
		return nil
	case decided.Override != nil:
		return []string{overrideID}
	}
	return differ.Chosen(decided)
}

// standing reports whether an answer is presumed.
func (r *result) standing(d *engine.Decision) string {
	if decided := r.decided(d); decided != nil && decided.Rule != nil && decided.Rule.Standing == rulebook.Presumed {
		return "presumed, to be confirmed"
	}
	return "not presumed"
}

// rule reports whether a rule of a decision holds.
func (r *result) rule(d *engine.Decision, id string) string {
	state := rulebook.NotReached
	if decided := r.decided(d); decided != nil {
		state = decided.States[slices.IndexFunc(d.Rules, func(rule *engine.Rule) bool { return rule.ID == id })]
	}
	switch state {
	case rulebook.NotReached:
		return "is not reached"
	case rulebook.NotHeld:
		return "does not hold"
	}
	return "holds"
}

// because notes the rule that decided with its reason.
func (r *result) because(f *Failure, d *engine.Decision) {
	decided := r.decided(d)
	switch {
	case decided == nil:
	case decided.Override != nil:
		f.Rule, f.Because = overrideID, decided.Override.Because
	case decided.Rule == nil:
		f.Rule = listText(r.chosen(d))
	default:
		f.Rule, f.RulePlace = decided.Rule.ID, decided.Rule.Place
		said, err := r.Outcome.Say(decided.Rule.Because)
		if f.Because = said.Text(quantity.US); err != nil {
			f.Because = err.Error()
		}
	}
}

func ids[T any](all []T, id func(T) string) []string {
	var out []string
	for _, each := range all {
		out = append(out, id(each))
	}
	return out
}

func (r *result) failed() []string {
	return ids(slices.DeleteFunc(slices.Clone(r.came.Checks), func(c *engine.Checked) bool { return c.Holds }), func(c *engine.Checked) string { return c.Check.ID })
}

func (r *result) crossed() []string {
	return ids(r.came.Crossed, func(c *engine.Crossed) string { return c.Limit.ID })
}

func (r *result) courses() []string {
	return ids(r.came.Courses, func(c *engine.Course) string { return c.Name })
}

func (r *result) course(name string) string {
	if slices.Contains(r.courses(), name) {
		return "laid"
	}
	return "not laid"
}

// check returns what a check came to.
func (r *result) check(id string) string {
	for _, c := range r.came.Checks {
		if c.Check.ID == id && c.Holds {
			return "holds"
		} else if c.Check.ID == id {
			return "fails"
		}
	}
	return "is not made"
}

// given reports whether a caution, a quantity, a step, a tolerance or a stop is given.
func (r *result) given(id string) string {
	if slices.ContainsFunc(r.came.Cautions, func(c *engine.Caution) bool { return c.ID == id }) || r.work(id) != nil {
		return "given"
	}
	return "not given"
}

// work returns the quantity, the step or the like of an id, nil if it is not given.
func (r *result) work(id string) *engine.Work {
	if at := slices.IndexFunc(r.came.Work, func(w *engine.Work) bool { return w.ID == id }); at >= 0 {
		return r.came.Work[at]
	}
	return nil
}

// said returns the sentences of a caution, a quantity, a step, a tolerance or a stop, with
// what a stop has the job say; "" if it is not given.
func (r *result) said(id string) string {
	var out []string
	say := func(t *engine.Template) {
		said, err := r.came.Say(t)
		out = append(out, said.Text(quantity.US))
		if err != nil {
			out = append(out, err.Error())
		}
	}
	for _, c := range r.came.Cautions {
		if c.ID == id {
			say(c.Says)
		}
	}
	if w := r.work(id); w != nil {
		for _, key := range w.Sayings() {
			if t := w.Says(key); t != nil {
				say(t)
			}
		}
		found, taken, err := r.came.Found(w)
		if err != nil {
			out = append(out, err.Error())
		}
		for _, f := range append(found, taken...) {
			out = append(out, f.Name+": "+f.Value.Text(quantity.US))
		}
	}
	return strings.Join(out, " ")
}

// measured tells what a quantity comes to, the amount first; nothing if it is not given.
func (r *result) measured(id string) []string {
	w := r.work(id)
	if w == nil || w.Amount == (rulebook.Text{}) {
		return nil
	}
	m, err := r.came.Measured(w)
	if err != nil {
		return []string{err.Error()}
	}
	out := []string{m.Amount.Text(quantity.US)}
	for _, v := range []value.Value{m.Item, m.Step, m.Weighs} {
		if !v.IsZero() {
			out = append(out, v.Text(quantity.US))
		}
	}
	return out
}
