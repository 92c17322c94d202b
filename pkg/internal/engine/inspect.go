package engine

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
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

// AnswerReads lists these with the properties of each that the answer reads behind it,
// as NAME.PROPERTY; read only.
func (r *Rule) AnswerReads() []string { return slices.Clip(r.answer.source.Reads) }

// Uses lists the terms and decisions that a term or a decision needs, directly.
func (b *Book) Uses(name string) []string { return b.uses(b.byName[name]) }

// Reads lists everything that a term or a decision reads directly: inputs,
// settings, terms and decisions, in the order of the text.
func (b *Book) Reads(name string) []string { return reads(b.byName[name]) }

// ValueOf makes a value of a wanted kind of what a site gives; a word is its text.
func (b *Book) ValueOf(x any, kind value.Kind) (value.Value, error) {
	text, isText := x.(string)
	if !isText || len(b.env.Words(kind)) == 0 {
		return value.Of(x, b.env.WordLabeled)
	}
	w, ok := b.env.WordLabeled(kind, text)
	if !ok {
		return value.Value{}, fmt.Errorf("%q is not a word of %s", text, kind)
	}
	return value.OfWord(w), nil
}

// Outline returns how an expression of the book is built, nil for a text that is
// not one.
func (b *Book) Outline(text string) *language.Outline { return b.env.Outline(text) }

// Telling returns the sentence with something said in the place of each
// expression that it quotes.
func (t *Template) Telling(say func(expression string) string) string {
	var b strings.Builder
	if t == nil {
		return ""
	}
	for _, p := range t.parts {
		if p.expr != nil {
			p.text = say(p.expr.Text)
		}
		b.WriteString(p.text)
	}
	return b.String()
}
