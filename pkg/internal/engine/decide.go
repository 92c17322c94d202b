package engine

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Decided is one decision for one site.
type Decided struct {
	Decision *Decision
	// Asked reports whether the question is asked here at all.
	Asked  bool
	Answer value.Value
	// Rule is the rule whose answer was taken; nil for a list, and for an
	// override.
	Rule *Rule
	// Override is set if a person decided; Instead is then what the rules would
	// have answered, zero if nothing.
	Override *Override
	Instead  value.Value
	// States has one entry for each rule, in the order of the file, and Answers
	// the answers of those that held.
	States  []rulebook.State
	Answers []value.Value
}

// decide answers a decision once.
func (r *run) decide(d *Decision) (*Decided, error) {
	if done := r.decided[d.index]; done != nil {
		return done, nil
	}
	asked, err := r.holds(d.When, place{name: d.Name})
	out := &Decided{Decision: d, Asked: asked}
	if err == nil && asked {
		err = r.answer(d, out)
	}
	if err != nil {
		return nil, err
	}
	r.decided[d.index] = out
	return out, nil
}

func (r *run) answer(d *Decision, out *Decided) error {
	o := r.overrides[d.Name]
	if o == nil {
		return r.byRules(d, out)
	}
	if err := r.circle(d, o); err != nil {
		return err
	}
	v, err := o.expr.Eval(r.frame)
	if err != nil {
		return r.fail(place{name: d.Name, rule: OverrideRule}, o.Place, o.Answer, o.expr.Names, err)
	}
	out.Answer, out.Override = v, &o.Override
	r.decided[d.index] = out // the rules may come to read it by way of another override
	r.besides(d, out)
	return nil
}

// besides asks the rules of an overridden decision all the same, so that what
// they would have said stands beside what a person said. An error of theirs
// decides nothing and is kept; that they answer nothing, or two things, may be
// why a person did.
func (r *run) besides(d *Decision, out *Decided) {
	rules := &Decided{Decision: d}
	err := r.byRules(d, rules)
	if err != nil && !errors.Is(err, rulebook.ErrNoAnswer) && !errors.Is(err, rulebook.ErrTwoAnswers) {
		r.absorb(err)
	}
	if err == nil {
		out.Instead = rules.Answer
	}
	for i, s := range rules.States {
		if s == rulebook.Chosen {
			rules.States[i] = rulebook.Held
		}
	}
	out.States, out.Answers = rules.States, rules.Answers
}

// byRules asks the rules in their order and takes the answer.
func (r *run) byRules(d *Decision, out *Decided) error {
	out.States = slices.Repeat([]rulebook.State{rulebook.NotReached}, len(d.Rules))
	out.Answers = make([]value.Value, len(d.Rules))
	best := -1
	for i, rule := range d.Rules {
		in := place{name: d.Name, rule: rule.ID}
		holds, err := r.holds(rule.When, in)
		if err != nil {
			return err
		}
		out.States[i] = rulebook.NotHeld
		if !holds {
			continue
		}
		out.States[i] = rulebook.Held
		if out.Answers[i], err = r.eval(rule.answer, in); err != nil {
			return err
		}
		switch {
		case best < 0:
			best = i
		case d.Take == rulebook.Largest || d.Take == rulebook.Smallest:
			order, ok := out.Answers[i].Compare(out.Answers[best])
			if !ok {
				return r.fail(in, rule.Place, rule.answer.Text(), conditionNames(d), noOrder(out.Answers[i], out.Answers[best]))
			}
			if order != 0 && (order > 0) == (d.Take == rulebook.Largest) {
				best = i
			}
		case d.Take == rulebook.Only && !out.Answers[i].Equal(out.Answers[best]):
			first := d.Rules[best]
			return &rulebook.RunError{In: d.Name, Rule: rule.ID, Place: rule.Place, Text: rule.answer.Text(), Against: first.ID,
				Err: fmt.Errorf("%w: this one %s, rule %s at %s %s", rulebook.ErrTwoAnswers, out.Answers[i].Text(quantity.US),
					first.ID, first.Place, out.Answers[best].Text(quantity.US)),
				Values: r.values(conditionNames(d))}
		}
		if d.Take == rulebook.First {
			break
		}
	}
	return r.take(d, out, best)
}

func (r *run) take(d *Decision, out *Decided, best int) error {
	if d.Take == rulebook.All {
		element, _ := d.Kind.Element()
		var all []value.Value
		for i, s := range out.States {
			if s == rulebook.Held {
				out.States[i] = rulebook.Chosen
				all = append(all, out.Answers[i])
			}
		}
		out.Answer = value.List(element, all)
		return nil
	}
	if best < 0 {
		return &rulebook.RunError{In: d.Name, Place: d.Place, Err: fmt.Errorf("%w: %s", rulebook.ErrNoAnswer, d.Asks), Values: r.values(conditionNames(d))}
	}
	out.States[best] = rulebook.Chosen
	out.Rule, out.Answer = d.Rules[best], out.Answers[best]
	return nil
}

// circle refuses an override that needs, through other decisions and overrides,
// the answer that it takes the place of. A book has no circles; only an override
// can close one.
func (r *run) circle(d *Decision, o *override) error {
	seen := map[string]bool{}
	var find func(name string, way []string) []string
	find = func(name string, way []string) []string {
		way = append(way[:len(way):len(way)], name)
		if name == d.Name {
			return way
		}
		if seen[name] {
			return nil
		}
		seen[name] = true
		used := r.book.uses(r.book.byName[name])
		if other := r.overrides[name]; other != nil {
			used = other.expr.Names // its rules do not decide
		}
		for _, each := range used {
			if whole := find(each, way); whole != nil {
				return whole
			}
		}
		return nil
	}
	for _, name := range o.expr.Names {
		if way := find(name, []string{d.Name}); way != nil {
			return &rulebook.RunError{In: d.Name, Rule: OverrideRule, Place: o.Place, Text: o.Answer,
				Err: fmt.Errorf("%w: these need each other: %s", ErrOverride, strings.Join(way, " needs "))}
		}
	}
	return nil
}

// conditionNames lists the names that a decision's conditions read, for the error
// that none of them holds.
func conditionNames(d *Decision) []string {
	var whens []reading
	for _, rule := range d.Rules {
		whens = append(whens, rule.When)
	}
	return namesOf(whens...)
}
