package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/value"
)

// span is what a cell lets through: of words some, of what has an order all between
// two cuts.
type span struct {
	cell            *document.Node
	any, known      bool // anything, or anything that is known
	unknown         bool
	words           []string
	ordered, isBand bool
	from, to        cut
}

// cut is a place in an order, just before a value or just after it; zero where there
// is no end.
type cut struct {
	value.Value
	after bool
}

func (c cut) below(d cut) bool {
	order, _ := c.Value.Compare(d.Value)
	return order < 0 || order == 0 && !c.after && d.after
}

// meet reports whether some job is in both rows, in all columns but one.
func meet(a, b []span, but int) bool {
	for k := range a {
		if k != but && !a[k].meets(b[k]) {
			return false
		}
	}
	return true
}

func sameSpan(a, b span) bool {
	return a.unknown == b.unknown && a.any == b.any && a.known == b.known && a.from.same(b.from) && a.to.same(b.to) && slices.Equal(slices.Sorted(slices.Values(a.words)), slices.Sorted(slices.Values(b.words)))
}

func (c cut) same(d cut) bool {
	return c.IsZero() && d.IsZero() || c.after == d.after && c.Equal(d.Value)
}

func (s span) meets(t span) bool {
	switch {
	case s.unknown || t.unknown:
		return (s.unknown || s.any) && (t.unknown || t.any)
	case !s.ordered:
		return (s.any || s.known) && (t.any || t.known) || slices.ContainsFunc(s.words, func(w string) bool { return slices.Contains(t.words, w) })
	}
	both := s.with(t)
	return both.from.IsZero() || both.to.IsZero() || both.from.below(both.to)
}

// with is what is in both spans.
func (s span) with(t span) span {
	out := s
	out.any = s.any && t.any
	out.words = slices.DeleteFunc(slices.Clone(s.words), func(w string) bool { return !slices.Contains(t.words, w) })
	if s.from.IsZero() || !t.from.IsZero() && s.from.below(t.from) {
		out.from = t.from
	}
	if s.to.IsZero() || !t.to.IsZero() && t.to.below(s.to) {
		out.to = t.to
	}
	return out
}

// but is what is in the span and not in the other, in parts.
func (s span) but(t span) []span {
	if !s.ordered {
		s.any, s.words = false, slices.DeleteFunc(slices.Clone(s.words), func(w string) bool { return slices.Contains(t.words, w) })
		if len(s.words) == 0 {
			return nil
		}
		return []span{s}
	}
	var out []span
	if !t.from.IsZero() && (s.from.IsZero() || s.from.below(t.from)) {
		out = append(out, span{ordered: true, from: s.from, to: t.from})
	}
	if !t.to.IsZero() && (s.to.IsZero() || t.to.below(s.to)) {
		out = append(out, span{ordered: true, from: t.to, to: s.to})
	}
	return out
}
