package rulebook

import (
	"fmt"

	"example.com/groundrule/pkg/value"
)

// RuleState is what a rule came to for one site.
type RuleState uint8

// What a rule can come to.
const (
	NotReached RuleState = iota // an earlier rule had answered
	NotHeld
	Held   // it holds, and its answer was not the one taken
	Chosen // its answer was taken
)

// Decided is one decision for one site.
type Decided struct {
	Decision *Decision
	// Asked tells whether the question is asked here at all.
	Asked  bool
	Answer value.Value
	// Rule is the rule whose answer was taken; nil for a list, and for an
	// override.
	Rule *Rule
	// Override is set if a person decided.
	Override *Override
	// States has one entry for each rule, in the order of the file, and Answers
	// the answers of those that held.
	States  []RuleState
	Answers []value.Value
}

// decide answers a decision once.
func (r *run) decide(d *Decision) (*Decided, error) {
	if done := r.decided[d.index]; done != nil {
		return done, nil
	}
	out := &Decided{Decision: d}
	asked, err := r.holds(d.when, place{name: d.Name})
	if err != nil {
		return nil, err
	}
	out.Asked = asked
	if asked {
		if err := r.answer(d, out); err != nil {
			return nil, err
		}
	}
	r.decided[d.index] = out
	return out, nil
}

func (r *run) answer(d *Decision, out *Decided) error {
	out.States = make([]RuleState, len(d.Rules))
	out.Answers = make([]value.Value, len(d.Rules))
	ruleErr := r.byRules(d, out)
	if o := r.overrides[d.Name]; o != nil {
		v, err := o.expr.Eval(r.frame)
		if err != nil {
			return r.fail(place{name: d.Name, rule: "override"}, o.Place, o.Answer, o.expr.Names, err)
		}
		for i, s := range out.States {
			if s == Chosen {
				out.States[i] = Held
			}
		}
		out.Rule, out.Answer, out.Override = nil, v, &o.Override
		return nil
	}
	return ruleErr
}

// byRules asks the rules in their order and takes the answer.
func (r *run) byRules(d *Decision, out *Decided) error {
	best := -1
	for i, rule := range d.Rules {
		in := place{name: d.Name, rule: rule.ID}
		holds, err := r.holds(rule.when, in)
		if err != nil {
			return err
		}
		out.States[i] = NotHeld
		if !holds {
			continue
		}
		out.States[i] = Held
		if out.Answers[i], err = r.eval(rule.answer, in); err != nil {
			return err
		}
		switch {
		case d.Take == First:
			best = i
		case best < 0:
			best = i
		case d.Take == Largest && compareValues(out.Answers[i], out.Answers[best]) > 0,
			d.Take == Smallest && compareValues(out.Answers[i], out.Answers[best]) < 0:
			best = i
		case d.Take == Only && !out.Answers[i].Equal(out.Answers[best]):
			return &RunError{In: d.Name, Rule: rule.ID, Place: rule.Place,
				Err: fmt.Errorf("%w: rule %s at %s answers otherwise", ErrTwoAnswers, d.Rules[best].ID, d.Rules[best].Place)}
		}
		if d.Take == First {
			break
		}
	}
	return r.take(d, out, best)
}

func (r *run) take(d *Decision, out *Decided, best int) error {
	if d.Take == All {
		element, _ := d.Kind.Element()
		var all []value.Value
		for i, s := range out.States {
			if s == Held {
				out.States[i] = Chosen
				all = append(all, out.Answers[i])
			}
		}
		out.Answer = value.List(element, all)
		return nil
	}
	if best < 0 {
		return &RunError{In: d.Name, Place: d.Place, Err: fmt.Errorf("%w: %s", ErrNoAnswer, d.Asks), Values: r.values(r.book.inputsUnder(d))}
	}
	out.States[best] = Chosen
	out.Rule, out.Answer = d.Rules[best], out.Answers[best]
	return nil
}

// inputsUnder lists the names that a decision's conditions read, in the order
// of the file, for the error that none of them holds.
func (b *Book) inputsUnder(d *Decision) []string {
	var out []string
	seen := map[string]bool{}
	for _, rule := range d.Rules {
		if rule.when == nil {
			continue
		}
		for _, n := range rule.when.source.Names {
			if !seen[n] {
				seen[n] = true
				out = append(out, n)
			}
		}
	}
	return out
}
