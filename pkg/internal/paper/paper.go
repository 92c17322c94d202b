// Package paper is what a sheet says before it has a form: parts, paragraphs, lists,
// tables, boxes to tick and figures. Each form writes the same tree: text for a
// terminal, Markdown, or one HTML file that needs nothing else.
package paper

import (
	"slices"
	"strings"
)

// Is says what a block is.
type Is int

// What a block can be.
const (
	IsPart   Is = iota // a heading with what stands under it; nothing where that is nothing
	IsText             // a paragraph
	IsWarn             // a paragraph that nobody may overlook
	IsNote             // a paragraph set small, such as a source
	IsItem             // an item of a list, numbered where it has a mark
	IsBox              // an item to tick off, numbered where it has a mark
	IsRows             // a table
	IsWrite            // a place to write something by hand
	IsFigure           // a drawing
)

// Block is one piece of a sheet. What stands under an item is its notes; what stands
// under a part is the part.
type Block struct {
	Is Is
	// ID is by what the block is linked to; "" if by nothing.
	ID string
	// To is the ID of the block that the text leads to; "" if to none.
	To string
	// Language of a whole sheet, as a tag of BCP 47; "" is en-US.
	Language string
	// Mark is the number of an item or a box.
	Mark string
	// Lead is what the text begins with, set off: "Hold".
	Lead string
	// Text of the block; the heading of a part, the label of a place to write, what a
	// figure shows in words.
	Text string
	// Folds is set for a part that can be folded away on a screen.
	Folds bool
	// Breaks is set for a part that starts on a page of its own.
	Breaks bool
	// Head and Rows are those of a table. The last column takes the width that is left.
	Head []string
	Rows [][]string
	// SVG is the drawing of a figure.
	SVG   string
	Under []*Block
}

// Add puts blocks under this one and returns it. Nil ones are left out, and under
// no block there is nothing.
func (b *Block) Add(more ...*Block) *Block {
	for _, each := range more {
		if b != nil && each != nil {
			b.Under = append(b.Under, each)
		}
	}
	return b
}

// Part returns a part with a heading.
func Part(id, heading string, under ...*Block) *Block {
	return (&Block{Is: IsPart, ID: id, Text: heading}).Add(under...)
}

// Text, Warn, Note and Item return a block with a text, nil where there is none.
func Text(text string) *Block { return with(IsText, text) }
func Warn(text string) *Block { return with(IsWarn, text) }
func Note(text string) *Block { return with(IsNote, text) }
func Item(text string, under ...*Block) *Block {
	return with(IsItem, text).Add(under...)
}

// Box returns an item to tick off, with its number if it has one.
func Box(mark, text string, under ...*Block) *Block {
	b := with(IsBox, text).Add(under...)
	if b != nil {
		b.Mark = mark
	}
	return b
}

// Led returns the block with what its text begins with, set off.
func (b *Block) Led(lead string) *Block {
	if b != nil {
		b.Lead = lead
	}
	return b
}

// Leads returns the block with the ID that its text leads to.
func (b *Block) Leads(to string) *Block {
	if b != nil {
		b.To = to
	}
	return b
}

// Rows returns a table, nil where it has no rows.
func Rows(head []string, rows [][]string) *Block {
	if len(rows) == 0 {
		return nil
	}
	return &Block{Is: IsRows, Head: head, Rows: rows}
}

// Write returns a place to write, of one line.
func Write(label string) *Block { return &Block{Is: IsWrite, Text: label} }

// Figure returns a drawing, with what it shows in words.
func Figure(svg, shows string) *Block { return &Block{Is: IsFigure, SVG: svg, Text: shows} }

func with(is Is, text string) *Block {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	return &Block{Is: is, Text: text}
}

// Says reports whether a block says anything: a part does if anything in it does.
func (b *Block) Says() bool {
	return b.Is != IsPart || slices.ContainsFunc(b.Under, (*Block).Says)
}
