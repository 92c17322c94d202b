package trial

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
)

// questions finds the clauses that ask one and the same thing. known(a) and
// known(b) do, where a and b are given under conditions that come to the same:
// no job can have the one without the other, so neither can decide anything
// alone, and both are turned together.
type questions struct {
	book *engine.Book
	done map[string]string
}

// when returns the condition under which a decision or a term is given, nil of what is
// always given.
func (q *questions) when(name string) *engine.Condition {
	if d, ok := q.book.Decision(name); ok {
		return d.When
	}
	if t, ok := q.book.Term(name); ok {
		return t.When
	}
	return nil
}

// of returns what a clause asks: itself, or for known(a) the clauses, joined by
// &&, under which a is given.
func (q *questions) of(clause int) string {
	text := q.book.ClauseText(clause)
	shape, ok := q.book.ClauseComparison(clause)
	if !ok || shape.Op != "known" {
		return text
	}
	return q.givenUnder(shape.Name, text)
}

func (q *questions) givenUnder(name, text string) string {
	when := q.when(name)
	if when == nil {
		return text
	}
	if done, ok := q.done[name]; ok {
		return done
	}
	out := strings.Join(slices.Compact(slices.Sorted(slices.Values(q.conjuncts(when.Tree())))), " && ")
	q.done[name] = out
	return out
}

// conjuncts returns the clauses that a condition joins by &&, each as what it
// asks; a part that is joined otherwise stays as it is.
func (q *questions) conjuncts(p *logic.Tree) []string {
	switch p.Op {
	case logic.Clause:
		return strings.Split(q.of(p.Clause), " && ")
	case logic.All:
		var out []string
		for _, part := range p.Parts {
			out = append(out, q.conjuncts(part)...)
		}
		return out
	}
	return []string{q.text(p)}
}

func (q *questions) text(p *logic.Tree) string {
	return logic.Fold(p, q.of, func(op logic.Op, parts []string) string {
		if op == logic.Not {
			return "!(" + parts[0] + ")"
		}
		return "(" + strings.Join(parts, map[logic.Op]string{logic.All: " && ", logic.Any: " || "}[op]) + ")"
	})
}

// group returns the clauses of a condition that ask what one of them asks, that
// one included.
func (q *questions) group(all []int, clause int) []int {
	var out []int
	asks := q.of(clause)
	for _, i := range all {
		if i == clause || q.of(i) == asks {
			out = append(out, i)
		}
	}
	return out
}
