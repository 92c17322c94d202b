package survey

import (
	"math"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

type diagnosticPlace = diagnostic.Place

// up reports whether a part of an expression never falls; of a yes or no, whether it
// never lapses; of a list, whether as many readings are there and none falls.
func (v *mover) up(n *language.Outline, rises bool) bool {
	all := func(parts []*language.Outline) bool {
		return !slices.ContainsFunc(parts, func(p *language.Outline) bool { return !v.up(p, rises) })
	}
	still := func(parts []*language.Outline) bool {
		return !slices.ContainsFunc(parts, func(p *language.Outline) bool { return !v.still(p) })
	}
	switch {
	case n == nil:
		return false
	case n.Call == "known":
		return v.knownUp(n.Parts[0], rises)
	case n.Name != "":
		return v.nameUp(n.Name, rises)
	case len(n.Parts) == 0:
		return true // a literal or a word
	}
	if v.still(n) {
		return true
	}
	args := n.Parts
	if n.Call == "least" || n.Call == "greatest" {
		if d, ok := v.m.book.Decision(args[0].Name); ok && d.Take == rulebook.All {
			return v.once(question{n.Call + " of " + d.Name, rises}, func() bool { return v.extremeUp(d, n.Call == "greatest", rises) })
		}
	}
	switch n.Op + n.Call {
	case "+", "larger", "smaller", "least", "greatest", "whole_up":
		return all(args)
	case "-":
		if len(args) == 1 {
			return v.up(args[0], !rises)
		}
		return v.up(args[0], rises) && v.up(args[1], !rises)
	case "*":
		return v.factorUp(args[0], args[1], rises, true) && v.factorUp(args[1], args[0], rises, true)
	case "/":
		return v.span(args[1]).low >= 0 && v.factorUp(args[0], args[1], rises, true) && v.factorUp(args[1], args[0], rises, false)
	case "round_up", "round_down", "round_near":
		return v.up(args[0], rises) && v.still(args[1])
	case "count":
		return v.up(args[0], true) || v.up(args[0], false) // as many as before
	case "<", "<=":
		return v.up(args[0], !rises) && v.up(args[1], rises)
	case ">", ">=":
		return v.up(args[0], rises) && v.up(args[1], !rises)
	case "":
		return n.Property == "" && all(args) // a list
	case "==", "!=", "in":
		return still(args)
	}
	if _, isUnit := v.functions[n.Call]; isUnit && v.functions[n.Call] == nil && len(args) == 1 {
		return all(args) // a unit
	}
	return v.callUp(n, rises)
}

// still reports whether a part stays as it is.
func (v *mover) still(n *language.Outline) bool {
	switch {
	case n == nil:
		return false
	case n.Name != "":
		return v.nameUp(n.Name, true) && v.nameUp(n.Name, false)
	case n.Call == "known":
		return v.knownUp(n.Parts[0], true) && v.knownUp(n.Parts[0], false)
	}
	return !slices.ContainsFunc(n.Parts, func(p *language.Outline) bool { return !v.still(p) })
}

// factorUp reports whether a product never falls for what one factor does, where the
// other is over or under it.
func (v *mover) factorUp(factor, other *language.Outline, rises, over bool) bool {
	if v.still(factor) {
		return true
	}
	return v.span(other).low >= 0 && v.up(factor, rises == over)
}

// span is the least and the most that a value may be, in SI.
type span struct{ low, high float64 }

var anything = span{math.Inf(-1), math.Inf(1)}

// span bounds a part of an expression, whatever the job is.
func (v *mover) span(n *language.Outline) span {
	switch {
	case n == nil || n.Call == "known":
		return anything
	case n.Name != "":
		return v.nameSpan(n.Name)
	case len(n.Parts) == 0:
		return spanOf(n.Value)
	case n.Property != "":
		return v.propertySpan(n.Parts[0], n.Property)
	}
	var of []span
	for _, arg := range n.Parts {
		of = append(of, v.span(arg))
	}
	switch n.Op + n.Call {
	case "+":
		return span{of[0].low + of[1].low, of[0].high + of[1].high}
	case "-":
		if len(of) == 2 {
			return span{of[0].low - of[1].high, of[0].high - of[1].low}
		}
		return span{-of[0].high, -of[0].low}
	case "*":
		return times(of[0], of[1])
	case "/":
		if of[1].low > 0 {
			return times(of[0], span{1 / of[1].high, 1 / of[1].low})
		}
		if of[0].low >= 0 && of[1].low >= 0 {
			return span{0, math.Inf(1)}
		}
	case "larger":
		return span{max(of[0].low, of[1].low), max(of[0].high, of[1].high)}
	case "smaller":
		return span{min(of[0].low, of[1].low), min(of[0].high, of[1].high)}
	case "least", "greatest":
		return of[0]
	case "":
		out := of[0]
		for _, s := range of[1:] {
			out = span{min(out.low, s.low), max(out.high, s.high)}
		}
		return out
	case "round_near":
		if of[0].low >= 0 {
			return span{0, math.Inf(1)}
		}
	case "round_up", "whole_up":
		if of[0].low >= 0 {
			return span{of[0].low, math.Inf(1)}
		}
	case "round_down":
		if of[0].low >= 0 {
			return span{0, of[0].high}
		}
	case "count":
		return span{0, math.Inf(1)}
	}
	if f := v.functions[n.Call]; f != nil && f.Positive {
		v.calls[n.Call] = true
		return span{0, math.Inf(1)}
	}
	if of := n.Parts; v.functions[n.Call] == nil && len(of) == 1 {
		return v.unitSpan(n.Call, v.span(of[0]))
	}
	return anything
}

// propertySpan is the span of a property, of a word or of all words that a name may
// have.
func (v *mover) propertySpan(of *language.Outline, property string) span {
	words := v.m.book.Words(v.kindOf(of.Name))
	if w, ok := of.Value.Word(); ok {
		words = []*value.Word{&w}
	}
	out := span{math.Inf(1), math.Inf(-1)}
	for _, w := range words {
		one := spanOf(w.Properties()[property])
		out = span{min(out.low, one.low), max(out.high, one.high)}
	}
	if len(words) == 0 {
		return anything
	}
	return out
}

func (v *mover) kindOf(name string) value.Kind {
	kind, _, _ := v.m.book.NameKind(name)
	return kind
}

// knownUp reports whether a name, or a property, that has a value in x has one in y.
func (v *mover) knownUp(n *language.Outline, rises bool) bool {
	if n.Name == "" {
		return v.still(n)
	}
	return v.lasting(cells.Always, v.m.known(n.Name), rises)
}

// unitSpan is the span of a number with a unit behind it.
func (v *mover) unitSpan(builder string, s span) span {
	for _, u := range quantity.Units() {
		if u.Builder == builder && s.low >= 0 {
			if low, err := u.Quantity(s.low); err == nil && u.Dim != quantity.DimTemperature {
				return span{low.SI, math.Inf(1)}
			}
		}
	}
	return anything
}

// times is the span of a product; of nothing and without end it is not known.
func times(a, b span) span {
	out := span{math.Inf(1), math.Inf(-1)}
	for _, x := range []float64{a.low, a.high} {
		for _, y := range []float64{b.low, b.high} {
			p := x * y
			if math.IsNaN(p) {
				p = 0
			}
			out = span{min(out.low, p), max(out.high, p)}
		}
	}
	return out
}

func spanOf(v value.Value) span {
	if items, ok := v.List(); ok || v.IsZero() {
		_ = items
		return anything
	}
	if is, ok := v.Bool(); ok && is {
		return span{1, 1}
	} else if ok {
		return span{}
	}
	if _, ok := v.Measure(); !ok {
		return anything
	}
	x := cells.NumberOf(v)
	return span{x, x}
}

// nameSpan bounds the value of a name.
func (v *mover) nameSpan(name string) span {
	if s, done := v.bounds[name]; done {
		return s
	}
	v.bounds[name] = anything // while it is worked out
	s := anything
	kind, _, _ := v.m.book.NameKind(name)
	if element, isList := kind.Element(); isList {
		kind = element
	}
	if !v.m.newCells(kind).Ordered() && kind != value.BoolKind {
		return s
	}
	if f, isInput := v.q.w.inputs[name]; isInput && kind != value.BoolKind {
		low, high := f.Bounds()
		s = span{low, high}
	} else if set, ok := v.m.book.Setting(name); ok {
		s = spanOf(set.Value)
	} else if t, ok := v.m.book.Term(name); ok {
		if f, ok := v.m.book.TermFormula(t); ok {
			s = v.span(v.tree(f.Text()))
		}
	} else if d, ok := v.m.book.Decision(name); ok && name != v.as && d.Take != rulebook.All {
		s = span{math.Inf(1), math.Inf(-1)}
		for _, r := range d.Rules {
			one := v.span(v.answer(r))
			s = span{min(s.low, one.low), max(s.high, one.high)}
		}
	}
	v.bounds[name] = s
	return s
}

// mostDeep is how many definitions deep two expressions are compared.
const mostDeep = 5

// atMost reports whether one expression in x is surely no more than another in y.
func (v *mover) atMost(a, b *language.Outline, rises bool, deep int) bool {
	if a == nil || b == nil || deep < 0 {
		return false
	}
	either := func(parts []*language.Outline, is func(*language.Outline) bool) bool {
		return slices.ContainsFunc(parts, is)
	}
	each := func(parts []*language.Outline, is func(*language.Outline) bool) bool {
		return !slices.ContainsFunc(parts, func(p *language.Outline) bool { return !is(p) })
	}
	under := func(p *language.Outline) bool { return v.atMost(p, b, rises, deep) }
	over := func(p *language.Outline) bool { return v.atMost(a, p, rises, deep) }
	switch {
	case reflect.DeepEqual(a, b) && v.up(a, rises):
		return true
	case v.span(a).high <= v.span(b).low && !math.IsInf(v.span(a).high, 0):
		return true
	case wordsOf(a) != "" && wordsOf(a) == wordsOf(b):
		return true
	case a.Call == "larger" && each(a.Parts, under), b.Call == "smaller" && each(b.Parts, over):
		return true
	case a.Call == "smaller" && either(a.Parts, under), b.Call == "larger" && either(b.Parts, over):
		return true
	case a.Op == "*" && b.Op == "*" && reflect.DeepEqual(a.Parts[1], b.Parts[1]) && v.up(a.Parts[1], rises) && v.span(a.Parts[1]).low >= 0 &&
		v.span(b.Parts[0]).low >= 0 && v.atMost(a.Parts[0], b.Parts[0], rises, deep):
		return true
	case v.termsAtMost(summands(a), summands(b), rises, deep):
		return true
	}
	return v.expanded(a, func(p *language.Outline) bool { return v.atMost(p, b, rises, deep-1) }, true) ||
		v.expanded(b, func(p *language.Outline) bool { return v.atMost(a, p, rises, deep-1) }, false)
}

func wordsOf(n *language.Outline) string {
	if w, ok := n.Value.Word(); ok {
		return w.Name
	}
	return ""
}

// expanded asks the same of what a name stands for: of every answer that it may
// have, but for the upper one of two of which one alone is enough.
func (v *mover) expanded(n *language.Outline, is func(*language.Outline) bool, _ bool) bool {
	if n.Name == "" || n.Name == v.as {
		return false
	}
	if t, ok := v.m.book.Term(n.Name); ok {
		f, ok := v.m.book.TermFormula(t)
		return ok && is(v.tree(f.Text()))
	}
	d, ok := v.m.book.Decision(n.Name)
	if !ok || d.Take == rulebook.All {
		return false
	}
	for _, r := range d.Rules {
		if !is(v.answer(r)) {
			return false
		}
	}
	return true
}

// summands are the parts of a sum.
func summands(n *language.Outline) []*language.Outline {
	if n.Op == "+" {
		return append(summands(n.Parts[0]), summands(n.Parts[1])...)
	}
	return []*language.Outline{n}
}

// termsAtMost pairs each part of one sum with a part of another that is no less;
// what is left of the other must not be below zero.
func (v *mover) termsAtMost(a, b []*language.Outline, rises bool, deep int) bool {
	if len(a) == 1 && len(b) == 1 {
		return false
	}
	b = slices.Clone(b)
	for _, part := range a {
		i := slices.IndexFunc(b, func(other *language.Outline) bool { return v.atMost(part, other, rises, deep) })
		if i < 0 {
			return false
		}
		b = slices.Delete(b, i, i+1)
	}
	return !slices.ContainsFunc(b, func(other *language.Outline) bool { return v.span(other).low < 0 })
}
