package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Join is how a part of a condition joins its own parts.
type Join string

// The joins.
const (
	OneClause Join = "clause"
	AllOf     Join = "all"
	AnyOf     Join = "any"
	NotOf     Join = "not"
)

// Part is a part of a condition: a clause, or parts joined.
type Part struct {
	Join  Join
	Parts []Part
	// Clause is the index of the clause in the book, for OneClause. Clauses that
	// read the same have the same index, wherever they stand.
	Clause int
}

var joins = map[language.Op]Join{language.Leaf: OneClause, language.And: AllOf, language.Or: AnyOf, language.Not: NotOf}

// Parts returns the condition as a tree. A nil condition is AllOf nothing, which
// holds.
func (c *Condition) Parts() Part {
	if c == nil {
		return Part{Join: AllOf}
	}
	return partOf(c.root)
}

func partOf(n *node) Part {
	out := Part{Join: joins[n.op], Clause: n.clause}
	for _, kid := range n.kids {
		out.Parts = append(out.Parts, partOf(kid))
	}
	return out
}

// Index is the index of the clause in the book.
func (c ClauseAt) Index() int { return c.index }

// ClauseCount is how many different clauses the book has.
func (b *Book) ClauseCount() int { return len(b.clauses) }

// ClauseText returns a clause by its index.
func (b *Book) ClauseText(index int) string { return b.clauses[index].Text }

// ClauseNames lists the names that a clause reads.
func (b *Book) ClauseNames(index int) []string {
	return append([]string(nil), b.clauses[index].Names...)
}

// Comparison is a comparison of a name with a value that does not change from
// job to job: a literal, a word, or a setting.
type Comparison struct {
	Name string
	Op   string // ==, !=, <, <=, >, >=, in, or known
	// Values has one value, several for in, none for known.
	Values []value.Value
}

// ClauseComparison returns the comparison that a clause makes, and false for a
// clause that is none: one that compares calculated values, say.
func (b *Book) ClauseComparison(index int) (Comparison, bool) {
	shape, ok := b.clauses[index].Comparison()
	if !ok {
		return Comparison{}, false
	}
	out := Comparison{Name: shape.Name, Op: shape.Op}
	for _, operand := range shape.Operands {
		switch {
		case operand.Setting == "":
			out.Values = append(out.Values, operand.Value)
		default:
			s, isSetting := b.byName[operand.Setting].(*Setting)
			if !isSetting {
				return Comparison{}, false
			}
			out.Values = append(out.Values, s.Value)
		}
	}
	return out, true
}

// Names lists the names that a condition reads, in the order of the text.
func (c *Condition) Names() []string {
	if c == nil {
		return nil
	}
	return append([]string(nil), c.source.Names...)
}

// AnswerNames lists the names that the rule's answer reads.
func (r *Rule) AnswerNames() []string { return append([]string(nil), r.answer.source.Names...) }

// Uses lists the terms and decisions that a term or a decision needs, directly.
func (b *Book) Uses(name string) []string { return b.uses(b.byName[name]) }

// Reads lists everything that a term or a decision reads directly: inputs,
// settings, terms and decisions, in the order of the text.
func (b *Book) Reads(name string) []string {
	var out []string
	seen := map[string]bool{}
	add := func(names []string) {
		for _, n := range names {
			if !seen[n] {
				seen[n] = true
				out = append(out, n)
			}
		}
	}
	switch e := b.byName[name].(type) {
	case *Term:
		add(e.when.Names())
		add(e.condition.Names())
		if e.expr != nil {
			add(e.expr.source.Names)
		}
	case *Decision:
		add(e.when.Names())
		for _, r := range e.Rules {
			add(r.when.Names())
			add(r.AnswerNames())
		}
	}
	return out
}

// TermCondition returns the condition of a term that is a yes or no, nil for any
// other.
func (t *Term) TermCondition() *Condition { return t.condition }

// When returns the condition under which the term has a value, nil if always.
func (t *Term) When() *Condition { return t.when }

// ClauseState is what a clause came to in a run.
type ClauseState uint8

// What a clause can come to.
const (
	Unasked ClauseState = iota
	ClauseTrue
	ClauseFalse
	ClauseFailed
)

// ClauseStates returns what every clause of the book came to, by its index. What
// no condition needed was not asked.
func (o *Outcome) ClauseStates() []ClauseState {
	out := make([]ClauseState, len(o.run.states))
	for i, s := range o.run.states {
		out[i] = ClauseState(s)
	}
	return out
}

// AskAll asks every clause of a condition that was not asked yet, so that a
// coverage measure sees what each would have come to. A clause that reads a
// value that is missing here stays unasked; known(name) is answered with no.
func (o *Outcome) AskAll(c *Condition) {
	if c == nil {
		return
	}
	for _, at := range c.clauses {
		clause := o.run.book.clauses[at.index]
		shape, _ := clause.Comparison()
		if o.run.states[at.index] == unseen && (shape.Op == "known" || o.run.allKnown(clause.Names)) {
			_, _ = o.run.clause(c, at.index, place{name: "coverage"})
		}
	}
}

func (r *run) allKnown(names []string) bool {
	for _, n := range names {
		if !r.isKnown(n) {
			return false
		}
	}
	return true
}

// Holds reports whether a condition holds in this run.
func (o *Outcome) Holds(c *Condition) (bool, error) {
	return o.run.holds(c, place{name: "a condition"})
}

// ValueOf makes a value of what a site gives.
func (b *Book) ValueOf(x any) (value.Value, error) { return value.Of(x, b.env.WordLabeled) }

// Vocabularies lists the vocabularies and kinds of material that have words,
// sorted.
func (b *Book) Vocabularies() []value.Kind { return b.env.Vocabularies() }

// Cautions returns every caution in the order of the files.
func (b *Book) Cautions() []*Caution { return slices.Clone(b.cautions) }

// Refusals returns every refusal in the order of the files.
func (b *Book) Refusals() []*Refusal { return slices.Clone(b.refusals) }

// Properties lists the properties of a kind of material, by name; none for a
// kind of anything else.
func (b *Book) Properties(kind value.Kind) []rulebook.Property { return b.env.Properties(kind) }
