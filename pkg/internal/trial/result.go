package trial

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// result is what came of a trial's job.
type result struct {
	status   section.Status // "" if the run came to no result
	refusals []string
	outcome  *engine.Outcome // empty if the run ended in an error
	err      error           // of a run that came to no result, or to no end
}

// runJob answers everything for the trial's job. A calculation that does not
// reach the job refuses it, as it does in a design.
func (b *bound) runJob() *result {
	outcome, err := b.book.Run(b.trial.Job, inside.Overrides(b.trial.Job))
	if err != nil {
		_, refuses := engine.NotCalculated(err)
		var at *rulebook.RunError
		if !refuses || !errors.As(err, &at) {
			return &result{err: err}
		}
		id := inside.NotCalculated
		if at.Rule != "" {
			id = at.Rule
		}
		return &result{status: section.Refused, refusals: []string{id}, err: err}
	}
	r := &result{status: section.Designed, outcome: outcome}
	for _, each := range outcome.Refusals {
		r.status = section.Refused
		r.refusals = append(r.refusals, each.Refusal.ID)
	}
	for _, c := range outcome.Checks {
		if !c.Holds && c.Check.Failing == rulebook.Stops {
			r.status = section.Stopped
		}
	}
	return r
}

// limits returns the ids of the refusals.
func (r *result) limits() []string { return r.refusals }

// statusText returns the status with what led to it.
func (r *result) statusText() string {
	switch {
	case r.err != nil && r.status == "":
		return "no result: " + r.err.Error()
	case r.err != nil:
		return string(r.status) + " by " + listText(r.refusals) + ": " + r.err.Error()
	case r.status == section.Refused:
		return string(r.status) + " by " + listText(r.refusals)
	case r.status == section.Stopped:
		return string(r.status) + " by " + listText(r.failed())
	}
	return string(r.status)
}

// decided returns what a decision came to, nil if it was not asked.
func (r *result) decided(d *engine.Decision) *engine.Decided {
	if r.outcome == nil {
		return nil
	}
	if decided, came := r.outcome.Came(d); came && decided.Asked {
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
	case r.outcome == nil:
		return "not asked, for the run came to no end"
	case len(r.refusals) > 0:
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
	var out []string
	for i, state := range decided.States {
		if state == rulebook.Chosen {
			out = append(out, d.Rules[i].ID)
		}
	}
	return out
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
		said, err := r.outcome.Say(decided.Rule.Because())
		if f.Because = said.Text(quantity.US); err != nil {
			f.Because = err.Error()
		}
	}
}

func (r *result) failed() []string {
	var out []string
	for _, c := range r.checks() {
		if !c.Holds {
			out = append(out, c.Check.ID)
		}
	}
	return out
}

func (r *result) checks() []*engine.Checked {
	if r.outcome == nil {
		return nil
	}
	return r.outcome.Checks
}

// check returns what a check came to.
func (r *result) check(id string) string {
	for _, c := range r.checks() {
		if c.Check.ID == id && c.Holds {
			return "holds"
		} else if c.Check.ID == id {
			return "fails"
		}
	}
	return "is not made"
}

func (r *result) caution(id string) string {
	if r.outcome != nil && slices.ContainsFunc(r.outcome.Cautions, func(c *engine.Caution) bool { return c.ID == id }) {
		return "given"
	}
	return "not given"
}

func (r *result) courses() []string {
	var out []string
	if r.outcome != nil {
		for _, c := range r.outcome.Courses {
			out = append(out, c.Name)
		}
	}
	return out
}

func (r *result) course(name string) string {
	if slices.Contains(r.courses(), name) {
		return "laid"
	}
	return "not laid"
}
