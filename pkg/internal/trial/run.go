package trial

import (
	"context"
	"fmt"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/section"
)

// Report is what came of trials.
type Report struct {
	Passed int `json:"passed"`
	Failed int `json:"failed"`
	// Results in the order of the trials.
	Results  []Result  `json:"results"`
	Coverage *Coverage `json:"coverage,omitempty"`
}

// Result is what came of one trial.
type Result struct {
	Name  string           `json:"name"`
	Why   string           `json:"why"`
	Place diagnostic.Place `json:"place"`
	// Status is what the design came to; "" if it came to nothing.
	Status section.Status `json:"status"`
	// Expected is how many expectations the trial has.
	Expected int `json:"expected"`
	// Failures are the expectations that were not met; none if the trial passes.
	Failures []Failure `json:"failures,omitempty"`
}

// Failure is an expectation that was not met.
type Failure struct {
	// What was expected of: a decision, a check, the status.
	What  string           `json:"what"`
	Place diagnostic.Place `json:"place"`
	// Was and Wanted as a trial would write them.
	Was    string `json:"was"`
	Wanted string `json:"wanted"`
	// Rule decided what was, Because is its reason; RulePlace is where it stands.
	Rule      string           `json:"rule,omitempty"`
	Because   string           `json:"because,omitempty"`
	RulePlace diagnostic.Place `json:"rule_place,omitzero"`
}

// Options say how trials are run. The zero Options run them all and measure
// nothing.
type Options struct {
	// Coverage measures how much of the rulebook the trials reach.
	Coverage bool
	// UntilFailure stops after the first trial that fails.
	UntilFailure bool
}

// Run runs the trials.
//
// The error is a [diagnostic.List] if a trial names what the rulebook does not
// have, or writes a value of the wrong kind; then no trial is run. It wraps the
// context's if that is done.
func Run(ctx context.Context, book *engine.Book, trials []Trial, o Options) (*Report, error) {
	b := newBinder(book)
	all := make([]bound, len(trials))
	for i := range trials {
		all[i] = b.bind(&trials[i])
	}
	if err := once(b.faults).Err(); err != nil {
		return nil, err
	}
	out := &Report{}
	var m *measure
	if o.Coverage {
		m = newMeasure(book)
	}
	for i := range all {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("after %d of %d trials: %w", i, len(all), err)
		}
		r := resultOf(inside.Run(all[i].book, all[i].job))
		one := all[i].judge(r)
		out.Results = append(out.Results, one)
		if len(one.Failures) == 0 {
			out.Passed++
		} else {
			out.Failed++
		}
		if m != nil && r.Outcome != nil {
			m.add(r.Outcome)
		}
		if o.UntilFailure && out.Failed > 0 {
			break
		}
	}
	if m != nil {
		out.Coverage = m.coverage()
	}
	return out, nil
}

// once leaves out what was found again in each case of a trial: its job and its
// settings are shared by the cases.
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
	out := Result{Name: b.trial.Name(), Why: b.trial.Why, Place: b.trial.Place, Status: r.Status, Expected: len(b.wants)}
	for _, w := range b.wants {
		f := Failure{What: w.what, Place: w.at, Was: w.was(r), Wanted: w.wanted}
		if w.met == nil && f.Was == f.Wanted || w.met != nil && w.met(r) {
			continue
		}
		if w.decision != nil {
			r.because(&f, w.decision)
		}
		out.Failures = append(out.Failures, f)
	}
	return out
}
