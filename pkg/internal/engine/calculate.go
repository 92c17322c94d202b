package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Calculated is what an expression came to, with the calculations that it calls
// and the values that it reads.
type Calculated struct {
	Value     value.Value
	Functions []rulebook.Function
	Values    []rulebook.NamedValue
}

// Calculate works out one expression for a site. What the site lacks and the
// expression reads is an error that says so. The error is a [diagnostic.List]
// if the expression is not well formed, and a [*rulebook.RunError] if it comes to
// no value.
func (b *Book) Calculate(text string, site Site) (*Calculated, error) {
	given := b.everyName()
	if b.env.IsJoined(text) {
		return b.calculateCondition(text, given, site)
	}
	x, faults := b.env.Expression(text, value.NoKind, given)
	if len(faults) > 0 {
		return nil, expressionError(text, faults)
	}
	r := b.newRun(site)
	v, err := x.Eval(r.frame)
	if err != nil {
		return nil, r.fail(place{name: "the expression"}, inExpression, text, x.Names, err)
	}
	return &Calculated{v, b.called(x.Calls), r.values(x.Names)}, nil
}

// everyName lets an expression read any name: a value that is missing is an error
// when it is read.
func (b *Book) everyName() language.Given {
	given := language.Given{}
	for name := range b.byName {
		given[name] = true
	}
	return given
}

// calculateCondition works out a condition that belongs to no rule: in a run of
// a book that has its clauses besides its own.
func (b *Book) calculateCondition(text string, given language.Given, site Site) (*Calculated, error) {
	source, faults := b.env.Condition(text, given)
	if len(faults) > 0 {
		return nil, expressionError(text, faults)
	}
	more := *b
	more.clauses = slices.Concat(b.clauses, source.Clauses)
	c := &Condition{source: source, root: source.Root.At(func(number int) int { return len(b.clauses) + number }), Place: inExpression}
	r := more.newRun(site)
	is, err := r.holds(c, place{name: "the expression"})
	if err != nil {
		return nil, err
	}
	return &Calculated{value.Bool(is), b.called(source.Calls), r.values(source.Names)}, nil
}

// called describes the calculations among the functions that were called.
func (b *Book) called(names []string) []rulebook.Function {
	var out []rulebook.Function
	for _, f := range b.env.Functions() {
		if f.Function != nil && slices.Contains(names, f.Name) {
			out = append(out, f)
		}
	}
	return out
}

// inExpression is the place of an expression that stands in no file.
var inExpression = diagnostic.Place{File: "expression", Line: 1, Column: 1}

func expressionError(text string, faults []language.Fault) error {
	var list diagnostic.List
	runes := []rune(text)
	for _, f := range faults {
		before := string(runes[:min(f.Offset, len(runes))])
		at := diagnostic.Place{File: inExpression.File, Line: 1 + strings.Count(before, "\n")}
		at.Column = len([]rune(before[strings.LastIndexByte(before, '\n')+1:])) + 1
		list.Add(&diagnostic.Diagnostic{Place: at, Width: f.Width, Code: f.Code, Message: f.Message, Found: f.Found, Wanted: f.Wanted, Nearest: f.Nearest})
	}
	return list.Err()
}
