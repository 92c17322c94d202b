package rulebook

import (
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
// expression is not well formed.
func (b *Book) Calculate(text string, site Site) (value.Value, []Described, []NamedValue, error) {
	r := b.newRun(site)
	given := language.Given{}
	for name := range b.byName {
		given[name] = true // asked when it is read: a missing one is an error then
	}
	v, names, err := b.calculate(r, text, given)
	if err != nil {
		return value.Value{}, nil, nil, err
	}
	var called []Described
	for _, f := range b.env.Functions() {
		if f.Function != nil && calls(text, f.Name) {
			called = append(called, f)
		}
	}
	return v, called, r.values(names), nil
}

func (b *Book) calculate(r *run, text string, given language.Given) (value.Value, []string, error) {
	if x, faults := b.env.Expression(text, value.NoKind, given); len(faults) == 0 {
		v, err := x.Eval(r.frame)
		if err != nil {
			return value.Value{}, nil, r.fail(place{name: "the expression"}, diagnostic.Place{File: "expression", Line: 1, Column: 1}, text, x.Names, err)
		}
		return v, x.Names, nil
	} else if faults[0].Code != "hidden-logic" {
		return value.Value{}, nil, expressionError(text, faults)
	}
	lc, faults := b.env.Condition(text, given)
	if len(faults) > 0 {
		return value.Value{}, nil, expressionError(text, faults)
	}
	is, err := evalNode(lc.Root, r.frame)
	if err != nil {
		return value.Value{}, nil, r.fail(place{name: "the expression"}, diagnostic.Place{File: "expression", Line: 1, Column: 1}, text, lc.Names, err)
	}
	return value.Bool(is), lc.Names, nil
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
	for _, f := range faults {
		list.Add(&diagnostic.Diagnostic{Place: diagnostic.Place{File: "expression", Line: 1, Column: f.Offset + 1}, Width: f.Width,
			Code: f.Code, Message: f.Message, Found: f.Found, Wanted: f.Wanted, Nearest: f.Nearest})
	}
	return &Error{Faults: list}
}

// calls tells whether the text calls a function of that name.
func calls(text, name string) bool {
	for i := 0; ; {
		at := strings.Index(text[i:], name+"(")
		if at < 0 {
			return false
		}
		at += i
		if at == 0 || !isNameByte(text[at-1]) {
			return true
		}
		i = at + 1
	}
}

func isNameByte(b byte) bool {
	return b == '_' || b >= '0' && b <= '9' || b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z'
}
