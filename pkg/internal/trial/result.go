package trial

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// result is what came of a trial's job.
type result struct {
	status   section.Status // "" if the run came to no result
	refusals []string
	outcome  *engine.Outcome // nil if the run ended in an error
	err      error           // of a run that came to no result, or to no end
}

// runJob answers everything for the trial's job. A calculation that does not
// reach the job refuses it, as it does in a design.
func (b *bound) runJob() *result {
	outcome, err := b.book.Run(b.trial.Job, groundrule.Overrides(b.trial.Job))
	if err != nil {
		_, refuses := engine.NotCalculated(err)
		var at *engine.RunError
		if !refuses || !errors.As(err, &at) {
			return &result{err: err}
		}
		id := groundrule.NotCalculated
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
		if !c.Holds && c.Check.Failing == engine.Stops {
			r.status = section.Stopped
		}
	}
	return r
}

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

func (r *result) decided(d *engine.Decision) *engine.Decided {
	if r.outcome == nil {
		return nil
	}
	decided, _ := r.outcome.Came(d)
	return decided
}

// answer returns what a decision answered, and whether it was asked.
func (r *result) answer(d *engine.Decision) (value.Value, bool) {
	decided := r.decided(d)
	if decided == nil || !decided.Asked {
		return value.Value{}, false
	}
	return decided.Answer, true
}

func (r *result) answerText(d *engine.Decision) string {
	was, asked := r.answer(d)
	switch {
	case r.outcome == nil:
		return "not asked, for the run came to no end"
	case r.decided(d) == nil:
		return "not asked, for the job was refused"
	case !asked:
		return "not asked"
	}
	return written(was)
}

// chosen returns the ids of the rules whose answers were taken.
func (r *result) chosen(d *engine.Decision) []string {
	decided := r.decided(d)
	if decided == nil || !decided.Asked {
		return nil
	}
	if decided.Override != nil {
		return []string{overrideID}
	}
	var out []string
	for i, state := range decided.States {
		if state == engine.Chosen {
			out = append(out, d.Rules[i].ID)
		}
	}
	return out
}

// ruleOf returns the one rule that decided, nil if none did.
func (r *result) ruleOf(d *engine.Decision) *engine.Rule {
	if decided := r.decided(d); decided != nil && decided.Asked {
		return decided.Rule
	}
	return nil
}

func (r *result) stateOf(d *engine.Decision, id string) engine.RuleState {
	decided := r.decided(d)
	if decided == nil || !decided.Asked {
		return engine.NotReached
	}
	i := slices.IndexFunc(d.Rules, func(rule *engine.Rule) bool { return rule.ID == id })
	return decided.States[i]
}

// because returns the rule that decided with its reason, "" if no rule did.
func (r *result) because(d *engine.Decision) (id, because string) {
	decided := r.decided(d)
	switch {
	case decided == nil || !decided.Asked:
		return "", ""
	case decided.Override != nil:
		return overrideID, decided.Override.Because
	case decided.Rule == nil:
		return listText(r.chosen(d)), ""
	}
	said, err := r.outcome.Say(decided.Rule.Because)
	if err != nil {
		return decided.Rule.ID, err.Error()
	}
	return decided.Rule.ID, said.Text(quantity.US)
}

func (r *result) failed() []string {
	var out []string
	if r.outcome != nil {
		for _, c := range r.outcome.Checks {
			if !c.Holds {
				out = append(out, c.Check.ID)
			}
		}
	}
	return out
}

// check returns what a check came to.
func (r *result) check(id string) string {
	if r.outcome != nil {
		for _, c := range r.outcome.Checks {
			switch {
			case c.Check.ID != id:
			case c.Holds:
				return "holds"
			default:
				return "fails"
			}
		}
	}
	return "is not made"
}

func (r *result) cautioned(id string) bool {
	return r.outcome != nil && slices.ContainsFunc(r.outcome.Cautions, func(c *engine.Caution) bool { return c.ID == id })
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
