package trial

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
)

// Report is what came of trials.
type Report struct {
	// Results in the order of the trials.
	Results        []Result
	Passed, Failed int
	Coverage       *Coverage
}

// Result is what came of one trial.
type Result struct {
	Name, Why string
	Place     diagnostic.Place
	// Status is what the design came to; "" if it came to nothing.
	Status section.Status
	// Expected is how many expectations the trial has.
	Expected int
	// Failures are the expectations that were not met; none if the trial passes.
	Failures []Failure
}

// Failure is an expectation that was not met.
type Failure struct {
	// What was expected of: a decision, a check, the status.
	What  string
	Place diagnostic.Place
	// Was and Wanted as a trial would write them.
	Was, Wanted string
	// Rule decided what was, Because is its reason; RulePlace is where it stands.
	Rule, Because string
	RulePlace     diagnostic.Place
}

// Run runs the trials and measures how much of the rulebook they reach.
//
// The error is an [*Error] if a trial names what the rulebook does not have, or
// writes a value of the wrong kind; then no trial is run.
func Run(book *groundrule.Book, trials []Trial) (*Report, error) {
	rules := book.Rules()
	b := newBinder(rules)
	all := make([]bound, len(trials))
	for i := range trials {
		all[i] = b.bind(&trials[i])
	}
	if err := errorOf(once(b.faults)); err != nil {
		return nil, err
	}
	m := newMeasure(rules)
	out := &Report{}
	for i := range all {
		r := all[i].runJob()
		one := all[i].judge(r)
		out.Results = append(out.Results, one)
		if len(one.Failures) == 0 {
			out.Passed++
		} else {
			out.Failed++
		}
		m.add(r.outcome)
	}
	out.Coverage = m.coverage()
	return out, nil
}

// once leaves out what was found again in each case of a trial: settings are
// shared by the cases.
func once(faults diagnostic.List) diagnostic.List {
	var out diagnostic.List
	seen := map[string]bool{}
	for _, d := range faults {
		if text := d.Error(); !seen[text] {
			seen[text] = true
			out.Add(d)
		}
	}
	return out
}

// judge holds a result to the expectations.
func (b *bound) judge(r *result) Result {
	out := Result{Name: b.trial.Name(), Why: b.trial.Why, Place: b.trial.Place, Status: r.status, Expected: len(b.wants)}
	for _, w := range b.wants {
		was, wanted, ok := w.met(r)
		if ok {
			continue
		}
		f := Failure{What: w.what, Place: w.at, Was: was, Wanted: wanted}
		if w.decision != nil {
			f.Rule, f.Because = r.because(w.decision)
			if rule := r.ruleOf(w.decision); rule != nil {
				f.RulePlace = rule.Place
			}
		}
		out.Failures = append(out.Failures, f)
	}
	return out
}
