package engine

import (
	"slices"

	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Tree returns the condition as a tree of clauses by their index in the book.
// Clauses that read the same have the same index, wherever they stand.
func (c *Condition) Tree() *logic.Tree {
	if c == nil {
		return nil
	}
	return c.root
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
	return b.comparison(&b.clauses[index].Expression)
}

// AnswerNames lists the names that the rule's answer reads.
func (r *Rule) AnswerNames() []string { return r.answer.Names() }

// Uses lists the terms and decisions that a term or a decision needs, directly.
func (b *Book) Uses(name string) []string { return b.uses(b.byName[name]) }

// Reads lists everything that a term or a decision reads directly: inputs,
// settings, terms and decisions, in the order of the text.
func (b *Book) Reads(name string) []string { return reads(b.byName[name]) }

// TermCondition returns the condition of a term that is a yes or no, nil for any
// other.
func (t *Term) TermCondition() *Condition { return t.condition }

// When returns the condition under which the term has a value, nil if always.
func (t *Term) When() *Condition { return t.when }

// Clause returns what one clause of the book came to, by its index. What no
// condition needed is Unknown.
func (o *Outcome) Clause(index int) logic.Truth { return o.run.states[index] }

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
		if o.run.states[at.index] == logic.Unknown && (shape.Op == "known" || o.run.allKnown(clause.Names)) {
			o.run.clause(at.index)
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
