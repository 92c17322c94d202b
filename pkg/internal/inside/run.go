package inside

import (
	"cmp"
	"errors"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// Ran is what a rulebook came to for one job.
type Ran struct {
	// Status is that of the section; "" where a rule came to no answer.
	Status section.Status
	// Why has the ids of the limits that refused the job, or of the checks that
	// stopped it.
	Why []string
	// Outcome is nil where the run ended in an error.
	Outcome *engine.Outcome
	// Err is the error of a rule that came to no answer, or of a calculation that
	// refused the job.
	Err error
}

// Run answers everything for a job, without any telling. A calculation that does
// not reach the job refuses it, under the id of the rule that asked for it.
func Run(b *engine.Book, job *site.Site) Ran { return came(b.Run(job, Overrides(job))) }

// Otherwise is [Run] for another job, beside one that ran already.
func (r Ran) Otherwise(b *engine.Book, job *site.Site) Ran {
	if r.Outcome == nil {
		return Run(b, job)
	}
	return came(r.Outcome.Otherwise(job, Overrides(job)))
}

func came(outcome *engine.Outcome, err error) Ran {
	if err != nil {
		_, refuses := engine.NotCalculated(err)
		var at *rulebook.RunError
		if !refuses || !errors.As(err, &at) {
			return Ran{Err: err}
		}
		return Ran{Status: section.Refused, Why: []string{RefusedBy(at)}, Err: err}
	}
	status, why := Status(outcome)
	return Ran{Status: status, Why: why, Outcome: outcome}
}

// Status returns the status of a section, and the ids of the refusals, limits or
// checks that made it so.
func Status(o *engine.Outcome) (status section.Status, why []string) {
	for _, r := range o.Refusals {
		why = append(why, r.Refusal.ID)
	}
	if len(why) > 0 {
		return section.Refused, why
	}
	for _, c := range o.Crossed {
		if c.Variance == nil {
			why = append(why, c.Limit.ID)
		}
	}
	for _, c := range o.Checks {
		if !c.Holds && c.Check.Failing == rulebook.Stops {
			why = append(why, c.Check.ID)
		}
	}
	if len(why) > 0 {
		return section.Stopped, why
	}
	return section.Designed, nil
}

// RefusedBy returns the id of the refusal of a job that a calculation does not reach:
// that of what asked for it, if it has one.
func RefusedBy(at *rulebook.RunError) string {
	if at.Sort != "" && at.Sort != "course" { // a course has a name, and no id
		return at.In
	}
	return cmp.Or(at.Rule, NotCalculated)
}
