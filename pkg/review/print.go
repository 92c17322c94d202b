package review

import (
	"io"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/printed"
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
	var d *printed.Document
	switch {
	case o.OnlyChanges:
		d = printed.Diff(before, now)
	case before == now:
		d = printed.Of(now)
	default:
		d = printed.Merge(before, now)
	}
	form := printed.Options{Expressions: o.Expressions}
	if o.HTML {
		return d.HTML(w, form)
	}
	return d.Markdown(w, form)
}
