package review

import (
	"io"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/printed"
	"example.com/groundrule/pkg/internal/survey"
)

// PrintOptions are how a rulebook is printed. The zero PrintOptions print it as it
// is, in Markdown.
type PrintOptions struct {
	// Before is an earlier rulebook, or the one without amendments. What differs
	// from it is marked, and what it had and is no more is struck through.
	Before *groundrule.Book
	// OnlyChanges prints what differs from Before, clause by clause, and no more.
	OnlyChanges bool
	// HTML writes one file of HTML that needs no other, for a screen, for paper and
	// for a screen reader.
	HTML bool
	// Expressions puts beside each sentence the expression that it was made from.
	Expressions bool
	// Proof, if it is given, is what [Prove] found for this rulebook. Each promise
	// then has beside it how it is settled.
	Proof *Report
}

// Print writes a rulebook for people to read: every entry as a numbered clause,
// its condition in plain English, with where it comes from. The error is the
// writer's, or a [*groundrule.UseError].
func Print(w io.Writer, book *groundrule.Book, o PrintOptions) error {
	if err := opened(book); err != nil {
		return err
	}
	now := inside.Rules(book)
	before := now
	if o.Before != nil {
		if err := opened(o.Before); err != nil {
			return err
		}
		before = inside.Rules(o.Before)
	}
	form := printed.Options{Expressions: o.Expressions}
	if o.Proof != nil {
		if proof, is := o.Proof.of.(*survey.Proof); is {
			form.Proof = proof.Settled()
		}
	}
	var d *printed.Document
	switch {
	case o.OnlyChanges:
		d = printed.Diff(before, now, form)
	case before == now:
		d = printed.Of(now, form)
	default:
		d = printed.Merge(before, now, form)
	}
	if o.HTML {
		return d.HTML(w, form)
	}
	return d.Markdown(w, form)
}
