package rulebook

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook/internal/language"
	"example.com/groundrule/pkg/value"
)

// Text writes the sentence in one system of units.
func (s Said) Text(system quantity.System) string {
	var b strings.Builder
	for _, p := range s.Parts {
		if p.Value.IsZero() {
			b.WriteString(p.Text)
		} else {
			b.WriteString(p.Value.Text(system))
		}
	}
	return b.String()
}

// Calculate works out one expression for a site. What the site lacks and the
// expression reads is an error that says so. The error is an [*Error] if the
// expression is not well formed, and a [*RunError] if it comes to no value.
func (b *Book) Calculate(text string, site Site) (value.Value, []Described, []NamedValue, error) {
	r := b.newRun(site)
	given := language.Given{}
	for name := range b.byName {
		given[name] = true // asked when it is read: a missing one is an error then
	}
	x, err := b.calculable(text, given)
	if err != nil {
		return value.Value{}, nil, nil, err
	}
	v, err := x.work(r.frame)
	if err != nil {
		return value.Value{}, nil, nil, r.fail(place{name: "the expression"}, diagnostic.Place{File: expressionFile, Line: 1, Column: 1}, text, x.names, err)
	}
	var called []Described
	for _, f := range b.env.Functions() {
		if f.Function != nil && slices.Contains(x.calls, f.Name) {
			called = append(called, f)
		}
	}
	return v, called, r.values(x.names), nil
}

// expressionFile stands for a file in the places of an expression that stands in
// none.
const expressionFile = "expression"

// calculable is an expression or a condition, ready to be worked out.
type calculable struct {
	names, calls []string
	work         func(*language.Frame) (value.Value, error)
}

func (b *Book) calculable(text string, given language.Given) (*calculable, error) {
	x, faults := b.env.Expression(text, value.NoKind, given)
	switch {
	case len(faults) == 0:
		return &calculable{names: x.Names, calls: x.Calls, work: x.Eval}, nil
	case faults[0].Code != "hidden-logic":
		return nil, expressionError(text, faults)
	}
	c, faults := b.env.Condition(text, given)
	if len(faults) > 0 {
		return nil, expressionError(text, faults)
	}
	return &calculable{names: c.Names, calls: c.Calls, work: func(f *language.Frame) (value.Value, error) {
		is, err := evalNode(c.Root, f)
		return value.Bool(is), err
	}}, nil
}

// evalNode works out a condition that belongs to no rule.
func evalNode(n *language.Node, f *language.Frame) (bool, error) {
	switch n.Op {
	case language.Leaf:
		return n.Clause.Eval(f)
	case language.Not:
		is, err := evalNode(n.Kids[0], f)
		return !is, err
	}
	settled := n.Op == language.Or
	var failure error
	for _, kid := range n.Kids {
		is, err := evalNode(kid, f)
		if err == nil && is == settled {
			return settled, nil
		}
		if err != nil && failure == nil {
			failure = err
		}
	}
	return !settled, failure
}

func expressionError(text string, faults []language.Fault) error {
	var list diagnostic.List
	runes := []rune(text)
	for _, f := range faults {
		before := string(runes[:min(f.Offset, len(runes))])
		at := diagnostic.Place{File: expressionFile, Line: 1 + strings.Count(before, "\n")}
		at.Column = len([]rune(before[strings.LastIndexByte(before, '\n')+1:])) + 1
		list.Add(&diagnostic.Diagnostic{Place: at, Width: f.Width, Code: f.Code, Message: f.Message, Found: f.Found, Wanted: f.Wanted, Nearest: f.Nearest})
	}
	return &Error{Faults: list}
}
