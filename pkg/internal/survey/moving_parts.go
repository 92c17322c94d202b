package survey

import (
	"math"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/language"
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
	case n == nil || n.Call == "known" || n.Property != "":
		return anything
	case n.Name != "":
		return v.nameSpan(n.Name)
	case len(n.Parts) == 0:
		return spanOf(n.Value)
	}
	of := make([]span, len(n.Parts))
	for i, arg := range n.Parts {
		of[i] = v.span(arg)
	}
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
	case "", "least", "greatest", "larger", "smaller":
		return hull(of)
	case "round_up", "round_down", "round_near", "whole_up", "count":
		if a.low >= 0 || n.Call == "count" {
			return positive
		}
	default:
		if f := v.functions[n.Call]; f != nil && f.Positive {
			v.calls[n.Call] = true
			return positive
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
	return out
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
	} else if t, ok := v.m.book.Term(name); ok {
		if f, ok := v.m.book.TermFormula(t); ok {
			s = v.span(v.tree(f.Text()))
		}
	} else if d, ok := v.m.book.Decision(name); ok && name != v.as && d.Take != rulebook.All {
		var each []span
		for _, r := range d.Rules {
			each = append(each, v.span(v.answer(r)))
		}
		s = hull(each)
	}
	v.bounds[name] = s
	return s
}

// atMost reports whether one expression in x is surely no more than another in y: they
// are the same, or the most of the one is no more than the least of the other.
func (v *mover) atMost(a, b *language.Outline, rises bool) bool {
	if reflect.DeepEqual(a, b) {
		return v.up(a, rises)
	}
	high := v.span(a).high
	return !math.IsInf(high, 0) && high <= v.span(b).low
}
