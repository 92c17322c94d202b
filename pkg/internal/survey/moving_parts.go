package survey

import (
	"math"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// moves tells, for what the language has of itself, which way it goes as one of what it
// takes rises: + it never falls, - it never rises. What is not here may go anywhere. The
// last sign is that of all that follow.
var moves = map[string]string{
	"":  "+", // a list, of which no reading falls
	"+": "+", "larger": "+", "smaller": "+", "least": "+", "greatest": "+", "whole_up": "+",
	"round_up": "+.", "round_down": "+.", "round_near": "+.",
	"-": "+-", "<": "-+", "<=": "-+", ">": "+-", ">=": "+-",
}

// way returns which way an expression goes as one of its parts rises.
func (v *mover) way(n *language.Outline, part int) byte {
	of := n.Parts
	below := func(part int) bool { return v.span(of[part]).low < 0 }
	signs := moves[n.Op+n.Call]
	f, isFunction := v.functions[n.Call]
	switch {
	case n.Property != "" || n.Op == "*" && below(1-part) || n.Op == "/" && (below(1) || part == 1 && below(0)):
		return '.'
	case n.Op == "*" || n.Op == "/" && part == 0, isFunction && f == nil && signs == "" && len(of) == 1: // the last is a unit
		return '+'
	case n.Op == "/" || n.Op == "-" && len(of) == 1:
		return '-'
	case signs == "" && f != nil:
		signs = f.Moves + "."
	case signs == "":
		return '.'
	}
	return signs[min(part, len(signs)-1)]
}

// up reports whether a part of an expression never falls; of a yes or no, whether it
// never lapses; of a list, whether as many readings are there and none falls.
func (v *mover) up(n *language.Outline, rises bool) bool {
	switch {
	case n == nil:
		return false
	case n.Call == "known" && n.Parts[0].Name != "":
		return v.lasting(cells.Always, v.m.known(n.Parts[0].Name), rises)
	case n.Name != "":
		return v.nameUp(n.Name, rises)
	case n.Call == "count" && (v.up(n.Parts[0], true) || v.up(n.Parts[0], false)):
		return true // as many as before
	case n.Call == "least" || n.Call == "greatest":
		d, ok := v.m.book.Decision(n.Parts[0].Name)
		if ok && d.Take == rulebook.All && v.once(question{n.Call + " of " + d.Name, rises}, func() bool { return v.extremeUp(d, n.Call == "greatest", rises) }) {
			return true
		}
	}
	for i, part := range n.Parts {
		if v.still(part) {
			continue
		}
		if way := v.way(n, i); way == '.' || !v.up(part, rises == (way == '+')) {
			return false
		} else if v.functions[n.Call] != nil && moves[n.Call] == "" {
			v.calls[n.Call] = true
		}
	}
	return true
}

// still reports whether a part stays as it is.
func (v *mover) still(n *language.Outline) bool {
	if n == nil || n.Name != "" || n.Call == "known" && n.Parts[0].Name != "" {
		return v.up(n, true) && v.up(n, false)
	}
	return !slices.ContainsFunc(n.Parts, func(p *language.Outline) bool { return !v.still(p) })
}

// span is the least and the most that a value may be, in SI.
type span struct{ low, high float64 }

var (
	anything = span{math.Inf(-1), math.Inf(1)}
	positive = span{0, math.Inf(1)}
)

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
	of := make([]span, len(n.Parts))
	for i, arg := range n.Parts {
		of[i] = v.span(arg)
	}
	f := v.functions[n.Call]
	switch a, b := of[0], of[len(of)-1]; n.Op + n.Call {
	case "+":
		return span{a.low + b.low, a.high + b.high}
	case "-":
		if len(of) == 1 {
			a = span{}
		}
		return span{a.low - b.high, a.high - b.low}
	case "*":
		return times(a, b)
	case "/":
		if b.low > 0 {
			return times(a, span{1 / b.high, 1 / b.low})
		} else if a.low >= 0 && b.low >= 0 {
			return positive
		}
	case "larger":
		return span{max(a.low, b.low), max(a.high, b.high)}
	case "smaller":
		return span{min(a.low, b.low), min(a.high, b.high)}
	case "", "least", "greatest":
		return hull(of)
	case "round_up", "round_down", "round_near", "whole_up", "count":
		if a.low >= 0 || n.Call == "count" {
			return positive
		}
	default:
		if f != nil && f.Positive {
			v.calls[n.Call] = true
			return positive
		} else if f == nil && len(of) == 1 {
			return unitSpan(n.Call, a)
		}
	}
	return anything
}

// hull is the span of what lies in some of others.
func hull(of []span) span {
	out := span{math.Inf(1), math.Inf(-1)}
	for _, s := range of {
		out = span{min(out.low, s.low), max(out.high, s.high)}
	}
	if len(of) == 0 {
		return anything
	}
	return out
}

// propertySpan is the span of a property, of a word or of all words that a name may
// have.
func (v *mover) propertySpan(of *language.Outline, property string) span {
	kind, _, _ := v.m.book.NameKind(of.Name)
	words := v.m.book.Words(kind)
	if w, ok := of.Value.Word(); ok {
		words = []*value.Word{&w}
	}
	var each []span
	for _, w := range words {
		each = append(each, spanOf(w.Properties()[property]))
	}
	return hull(each)
}

// unitSpan is the span of a number with a unit behind it.
func unitSpan(builder string, s span) span {
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
	var ends []span
	for _, p := range []float64{a.low * b.low, a.low * b.high, a.high * b.low, a.high * b.high} {
		if math.IsNaN(p) {
			p = 0
		}
		ends = append(ends, span{p, p})
	}
	return hull(ends)
}

func spanOf(v value.Value) span {
	_, measured := v.Measure()
	is, yesNo := v.Bool()
	switch x := cells.NumberOf(v); {
	case measured:
		return span{x, x}
	case yesNo && is:
		return span{1, 1}
	case yesNo:
		return span{}
	}
	return anything
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
		s.low, s.high = f.Bounds()
	} else if set, ok := v.m.book.Setting(name); ok {
		s = spanOf(set.Value)
	} else {
		var each []span
		for _, n := range v.standsFor(name) {
			each = append(each, v.span(n))
		}
		s = hull(each)
	}
	v.bounds[name] = s
	return s
}

// standsFor returns the expressions that a name may have the value of: of a term its
// own, of a decision every answer; none where it is given, or told.
func (v *mover) standsFor(name string) []*language.Outline {
	if t, ok := v.m.book.Term(name); ok {
		if f, ok := v.m.book.TermFormula(t); ok {
			return []*language.Outline{v.tree(f.Text())}
		}
	}
	var out []*language.Outline
	if d, ok := v.m.book.Decision(name); ok && name != v.as && d.Take != rulebook.All {
		for _, r := range d.Rules {
			out = append(out, v.answer(r))
		}
	}
	return out
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
	return v.expanded(a, func(p *language.Outline) bool { return v.atMost(p, b, rises, deep-1) }) ||
		v.expanded(b, func(p *language.Outline) bool { return v.atMost(a, p, rises, deep-1) })
}

func wordsOf(n *language.Outline) string {
	if w, ok := n.Value.Word(); ok {
		return w.Name
	}
	return ""
}

// expanded asks the same of everything that a name may stand for.
func (v *mover) expanded(n *language.Outline, is func(*language.Outline) bool) bool {
	all := v.standsFor(n.Name)
	return len(all) > 0 && !slices.ContainsFunc(all, func(p *language.Outline) bool { return !is(p) })
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
