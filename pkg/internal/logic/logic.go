// Package logic is conditions as trees of clauses, and what such a tree comes to
// when some clauses are true, some false, and of some nothing is known.
package logic

import (
	"slices"
	"strings"
)

// Truth is what a clause or a condition comes to.
type Truth uint8

// What a clause can come to. The zero Truth is Unknown.
const (
	Unknown Truth = iota // not asked, or cannot be told
	Yes
	No
	Failed // an error
)

// Of returns Yes or No.
func Of(is bool) Truth {
	if is {
		return Yes
	}
	return No
}

// Not returns the opposite of Yes and of No, and anything else as it is.
func (t Truth) Not() Truth {
	switch t {
	case Yes:
		return No
	case No:
		return Yes
	}
	return t
}

// Op is how a tree joins its parts.
type Op uint8

// The ops.
const (
	Clause Op = iota
	All       // of the parts hold; of no parts, this holds
	Any       // of the parts holds
	Not       // the one part does not hold
)

// Tree is a condition: a clause, or trees joined. A nil *Tree is no condition,
// which holds.
type Tree struct {
	Op     Op
	Parts  []*Tree
	Clause int // the number of the clause, for a Clause
}

// Eval returns what the condition comes to. Clauses are asked in order, and no
// more of them than settle the matter. A clause that is Unknown or Failed gives
// way to one that settles it; where none does, the condition is Failed if a
// clause that was asked is, and else Unknown.
func (t *Tree) Eval(clause func(int) Truth) Truth {
	switch {
	case t == nil:
		return Yes
	case t.Op == Clause:
		return clause(t.Clause)
	case t.Op == Not:
		return t.Parts[0].Eval(clause).Not()
	}
	settles := Of(t.Op == Any)
	out := settles.Not()
	for _, part := range t.Parts {
		switch is := part.Eval(clause); {
		case is == settles:
			return settles
		case is == Failed, is == Unknown && out != Failed:
			out = is
		}
	}
	return out
}

// Deciding returns the clauses that make the condition come to what it does, in
// order: the first that settles it, or all of them together. Of a condition that
// is Unknown there are none.
func (t *Tree) Deciding(clause func(int) Truth) []int {
	if t == nil {
		return nil
	}
	is := t.Eval(clause)
	switch {
	case is == Unknown:
		return nil
	case t.Op == Clause:
		return []int{t.Clause}
	case t.Op == Not:
		return t.Parts[0].Deciding(clause)
	}
	var out []int
	for _, part := range t.Parts {
		if is != Of(t.Op == All) { // one part is enough to settle it
			if part.Eval(clause) == is {
				return part.Deciding(clause)
			}
			continue
		}
		out = append(out, part.Deciding(clause)...)
	}
	return out
}

// Clauses lists the clauses in order, each once.
func (t *Tree) Clauses() []int {
	return Fold(t, func(c int) []int { return []int{c} }, func(_ Op, parts [][]int) (out []int) {
		for _, c := range slices.Concat(parts...) {
			if !slices.Contains(out, c) {
				out = append(out, c)
			}
		}
		return out
	})
}

// Fold works its way up the tree: clause makes something of each clause, and
// join something of what the parts of All, Any and Not came to.
func Fold[T any](t *Tree, clause func(int) T, join func(op Op, parts []T) T) T {
	if t == nil {
		return join(All, nil)
	}
	if t.Op == Clause {
		return clause(t.Clause)
	}
	parts := make([]T, len(t.Parts))
	for i, part := range t.Parts {
		parts[i] = Fold(part, clause, join)
	}
	return join(t.Op, parts)
}

// Text writes the condition with &&, ||, ! and no more brackets than it needs.
func (t *Tree) Text(clause func(int) string) string {
	if t == nil {
		return "true"
	}
	if t.Op == Clause {
		return clause(t.Clause)
	}
	parts := make([]string, len(t.Parts))
	for i, part := range t.Parts {
		parts[i] = part.Text(clause)
		if part.Op == All || part.Op == Any {
			parts[i] = "(" + parts[i] + ")"
		}
	}
	switch t.Op {
	case Not:
		return "!" + parts[0]
	case Any:
		return strings.Join(parts, " || ")
	}
	return strings.Join(parts, " && ")
}

// At returns the tree with other numbers for its clauses.
func (t *Tree) At(number func(int) int) *Tree {
	return Fold(t, func(c int) *Tree { return &Tree{Clause: number(c)} }, func(op Op, parts []*Tree) *Tree { return &Tree{Op: op, Parts: parts} })
}
