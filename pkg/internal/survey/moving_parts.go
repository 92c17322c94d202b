package survey

import (
	"math"
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
func (v *mover) up(n *language.Node, rises bool) bool {
	all := func(parts []*language.Node) bool {
		return !slices.ContainsFunc(parts, func(p *language.Node) bool { return !v.up(p, rises) })
	}
	still := func(parts []*language.Node) bool {
		return !slices.ContainsFunc(parts, func(p *language.Node) bool { return !v.still(p) })
	}
	switch {
	case n == nil:
		return false
	case n.Call == "known":
		return v.lastingSet(cells.Always, v.m.known(n.Name), rises)
	case n.Name != "":
		return v.nameUp(n.Name, rises)
	case n.Call == "":
		return true // a literal or a word
	}
	if v.still(n) {
		return true
	}
	args := n.Args
	switch n.Call {
	case "+", "larger", "smaller", "least", "greatest", "whole_up", "list":
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
	case "round_up", "round_down":
		return v.up(args[0], rises) && v.still(args[1])
	case "count":
		return v.up(args[0], true) || v.up(args[0], false) // as many as before
	case "<", "<=":
		return v.up(args[0], !rises) && v.up(args[1], rises)
	case ">", ">=":
		return v.up(args[0], rises) && v.up(args[1], !rises)
	case "==", "!=", "in", ".":
		return still(args)
	}
	if _, isUnit := v.functions[n.Call]; isUnit && v.functions[n.Call] == nil && len(args) == 1 {
		return all(args) // a unit
	}
	return v.callUp(n, rises)
}

// still reports whether a part stays as it is.
func (v *mover) still(n *language.Node) bool {
	switch {
	case n == nil:
		return false
	case n.Name != "":
		return !v.far[n.Name] || n.Call == "" && v.nameUp(n.Name, true) && v.nameUp(n.Name, false)
	}
	return !slices.ContainsFunc(n.Args, func(p *language.Node) bool { return !v.still(p) })
}

// factorUp reports whether a product never falls for what one factor does, where the
// other is over or under it.
func (v *mover) factorUp(factor, other *language.Node, rises, over bool) bool {
	if v.still(factor) {
		return true
	}
	return v.span(other).low >= 0 && v.up(factor, rises == over)
}

// span is the least and the most that a value may be, in SI.
type span struct{ low, high float64 }

var anything = span{math.Inf(-1), math.Inf(1)}

// span bounds a part of an expression, whatever the job is.
func (v *mover) span(n *language.Node) span {
	switch {
	case n == nil || n.Call == "known":
		return anything
	case n.Name != "":
		return v.nameSpan(n.Name)
	case n.Call == "":
		return spanOf(n.Value)
	}
	var of []span
	for _, arg := range n.Args {
		of = append(of, v.span(arg))
	}
	switch n.Call {
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
	case "list":
		out := of[0]
		for _, s := range of[1:] {
			out = span{min(out.low, s.low), max(out.high, s.high)}
		}
		return out
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
	if of := n.Args; v.functions[n.Call] == nil && len(of) == 1 {
		return v.unitSpan(n.Call, v.span(of[0]))
	}
	if n.Call == "." && n.Args[0].Name == "" {
		if w, ok := n.Args[0].Value.Word(); ok {
			return spanOf(w.Properties()[n.Property])
		}
	}
	return anything
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
func (v *mover) atMost(a, b *language.Node, rises bool, deep int) bool {
	if a == nil || b == nil || deep < 0 {
		return false
	}
	either := func(parts []*language.Node, is func(*language.Node) bool) bool { return slices.ContainsFunc(parts, is) }
	each := func(parts []*language.Node, is func(*language.Node) bool) bool {
		return !slices.ContainsFunc(parts, func(p *language.Node) bool { return !is(p) })
	}
	under := func(p *language.Node) bool { return v.atMost(p, b, rises, deep) }
	over := func(p *language.Node) bool { return v.atMost(a, p, rises, deep) }
	switch {
	case a.Text == b.Text && v.up(a, rises):
		return true
	case v.span(a).high <= v.span(b).low && !math.IsInf(v.span(a).high, 0):
		return true
	case wordsOf(a) != "" && wordsOf(a) == wordsOf(b):
		return true
	case a.Call == "larger" && each(a.Args, under), b.Call == "smaller" && each(b.Args, over):
		return true
	case a.Call == "smaller" && either(a.Args, under), b.Call == "larger" && either(b.Args, over):
		return true
	case a.Call == "*" && b.Call == "*" && a.Args[1].Text == b.Args[1].Text && v.up(a.Args[1], rises) && v.span(a.Args[1]).low >= 0 &&
		v.span(b.Args[0]).low >= 0 && v.atMost(a.Args[0], b.Args[0], rises, deep):
		return true
	case v.termsAtMost(summands(a), summands(b), rises, deep):
		return true
	}
	return v.expanded(a, func(p *language.Node) bool { return v.atMost(p, b, rises, deep-1) }, true) ||
		v.expanded(b, func(p *language.Node) bool { return v.atMost(a, p, rises, deep-1) }, false)
}

func wordsOf(n *language.Node) string {
	if w, ok := n.Value.Word(); ok {
		return w.Name
	}
	return ""
}

// expanded asks the same of what a name stands for: of every answer that it may
// have, but for the upper one of two of which one alone is enough.
func (v *mover) expanded(n *language.Node, is func(*language.Node) bool, _ bool) bool {
	if n.Name == "" || n.Call != "" || n.Name == v.as {
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
func summands(n *language.Node) []*language.Node {
	if n.Call == "+" {
		return append(summands(n.Args[0]), summands(n.Args[1])...)
	}
	return []*language.Node{n}
}

// termsAtMost pairs each part of one sum with a part of another that is no less;
// what is left of the other must not be below zero.
func (v *mover) termsAtMost(a, b []*language.Node, rises bool, deep int) bool {
	if len(a) == 1 && len(b) == 1 {
		return false
	}
	b = slices.Clone(b)
	for _, part := range a {
		i := slices.IndexFunc(b, func(other *language.Node) bool { return v.atMost(part, other, rises, deep) })
		if i < 0 {
			return false
		}
		b = slices.Delete(b, i, i+1)
	}
	return !slices.ContainsFunc(b, func(other *language.Node) bool { return v.span(other).low < 0 })
}
