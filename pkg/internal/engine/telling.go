package engine

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// ClauseTold is one clause of a condition with what it came to and the values
// that it read.
type ClauseTold struct {
	Text  string
	Place diagnostic.Place
	// Column is that of the table in whose row the clause is a cell, "" if none.
	Column string
	// Reached is false for a clause that did not need to be asked.
	Reached bool
	Holds   bool
	Values  []rulebook.NamedValue
	// Amended tells how the entry was changed whose condition it is, where that is
	// asked why something is not there.
	Amended *rulebook.Amended
}

// Clauses tells what the clauses of a condition came to in this run. Clauses
// that were not asked, because others settled the matter, are marked so.
func (o *Outcome) Clauses(c *Condition) []ClauseTold {
	if c == nil {
		return nil
	}
	out := make([]ClauseTold, 0, len(c.clauses))
	for _, at := range c.clauses {
		s := o.run.states[at.Index]
		out = append(out, ClauseTold{Text: at.Text, Place: at.Place, Column: at.Column, Reached: s == logic.Yes || s == logic.No, Holds: s == logic.Yes,
			Values: o.run.values(o.run.book.clauses[at.Index].Names)})
	}
	return out
}

// Deciding tells the clauses that settle what a condition came to: those that
// made it hold, or those that made it fail. Of a condition that was not asked,
// or that came to an error, nothing is told.
func (o *Outcome) Deciding(c *Condition) []ClauseTold {
	if c == nil || c.root.Eval(o.run.state) == logic.Failed {
		return nil
	}
	marks := c.root.Deciding(o.run.state)
	var out []ClauseTold
	for i, told := range o.Clauses(c) {
		if slices.Contains(marks, c.clauses[i].Index) {
			out = append(out, told)
		}
	}
	return out
}

// WhyNot tells the clauses by which a condition does not hold. Where that is for
// want of a value, it tells those by which the value is not there. amended is how the
// entry was changed whose condition it is, nil if it was not.
func (o *Outcome) WhyNot(c *Condition, amended *rulebook.Amended) []ClauseTold {
	var out []ClauseTold
	seen := map[string]bool{}
	var visit func(c *Condition, amended *rulebook.Amended)
	visit = func(c *Condition, amended *rulebook.Amended) {
		if c == nil {
			return
		}
		marks := c.root.Deciding(o.run.state)
		for i, told := range o.Clauses(c) {
			index := c.clauses[i].Index
			if !slices.Contains(marks, index) || seen[told.Text] {
				continue
			}
			seen[told.Text] = true
			shape, _ := o.run.book.clauses[index].Comparison()
			when, changed := o.run.whenOf(shape.Name)
			if shape.Op == "known" && !told.Holds && when != nil {
				visit(when, changed)
				continue
			}
			if amended != nil && len(amended.Replaced) > 0 { // what was added has no other condition
				told.Amended = amended
			}
			out = append(out, told)
		}
	}
	visit(c, amended)
	return out
}

// PassedBy tells why what an input says makes no difference: the clauses by which
// the first entry that reads it does not apply. Nothing is told where nothing reads
// it, or where what does comes to the same.
func (o *Outcome) PassedBy(input string) []ClauseTold {
	b := o.run.book
	through := map[string]bool{input: true} // and the terms that rest on it
	reading := make([]bool, len(b.sequence))
	b.touch(input, reading)
	for at, name := range b.sequence {
		if _, is := b.Term(name); is && reading[at] {
			through[name] = true
			b.touch(name, reading)
		}
	}
	for _, d := range o.Decided {
		for i, r := range d.Decision.Rules {
			if !reading[d.Decision.at] || !readsAny(through, r.When, r.answer) {
				continue
			}
			switch {
			case !d.Asked:
				return o.WhyNot(d.Decision.When, nil)
			case d.States[i] == rulebook.NotReached && d.Rule != nil:
				return o.Deciding(d.Rule.When)
			case d.States[i] != rulebook.NotHeld:
				return nil
			}
		}
	}
	for _, c := range b.checks {
		if readsAny(through, c.When, c.Holds, c.value, c.limit) {
			if made, err := o.Holds(c.When); made || err != nil {
				return nil
			}
			return o.WhyNot(c.When, nil)
		}
	}
	return nil
}

// whenOf returns the condition under which a term or a decision has a value, and
// how that was amended.
func (r *run) whenOf(name string) (*Condition, *rulebook.Amended) {
	switch e := r.book.byName[name].(type) {
	case *Term:
		return e.When, e.Amended
	case *Decision:
		return e.When, e.Amended
	}
	return nil, nil
}

// Say writes a sentence with its values. An expression that comes to no value
// is an error.
func (o *Outcome) Say(t *Template) (Said, error) {
	if t == nil {
		return Said{}, nil
	}
	var out Said
	for _, p := range t.parts {
		if p.expr == nil {
			out.Parts = append(out.Parts, SaidPart{Text: p.text})
			continue
		}
		v, err := p.expr.Eval(o.run.frame)
		if err != nil {
			return Said{}, o.run.fail(place{name: "a sentence"}, t.node.At(p.at), p.expr.Text, p.expr.Names, err)
		}
		out.Parts = append(out.Parts, SaidPart{Value: v})
	}
	return out, nil
}

// Used lists the values that a rule read: in its condition and in its answer.
func (o *Outcome) Used(r *Rule) []rulebook.NamedValue {
	var names []string
	for _, told := range o.Clauses(r.When) {
		for _, v := range told.Values {
			if told.Reached && !slices.Contains(names, v.Name) {
				names = append(names, v.Name)
			}
		}
	}
	for _, n := range r.answer.source.Names {
		if !slices.Contains(names, n) {
			names = append(names, n)
		}
	}
	return o.run.values(names)
}

// Value returns the value of a name in this run.
func (o *Outcome) Value(name string) (value.Value, error) {
	if !o.run.isKnown(name) {
		return value.Value{}, rulebook.ErrMissing
	}
	return o.run.frame.Value(name)
}

// Presumed reports whether the value under a name was presumed and not measured:
// a decision answered by a rule that presumes, or a term that reads one.
func (o *Outcome) Presumed(name string) bool {
	switch e := o.run.book.byName[name].(type) {
	case *Decision:
		return o.run.decided[e.index].presumed()
	case *Term:
		return slices.ContainsFunc(o.run.book.uses(e), o.Presumed)
	}
	return false
}

func (d *Decided) presumed() bool {
	return d != nil && d.Rule != nil && d.Rule.Standing == rulebook.Presumed
}

// Clause returns what one clause of the book came to, by its index. What no
// condition needed is Unknown.
func (o *Outcome) Clause(index int) logic.Truth { return o.run.states[index] }

// AskAll asks every clause of a condition that was not asked yet, so that a
// coverage measure sees what each would have come to. A clause that reads a
// value that is missing here stays unasked; known(name) is answered with no.
func (o *Outcome) AskAll(c *Condition) {
	lacks := func(name string) bool { return !o.run.isKnown(name) }
	for _, at := range c.Clauses() {
		clause := o.run.book.clauses[at.Index]
		shape, _ := clause.Comparison()
		if o.run.states[at.Index] == logic.Unknown && (shape.Op == "known" || !slices.ContainsFunc(clause.Names, lacks)) {
			o.run.clause(at.Index)
		}
	}
}
