package paper

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/internal/page"
)

// WriteText writes a sheet as plain text, in lines of so many columns; 0 is 80.
//
// The only error is that of w.
func WriteText(w io.Writer, sheet *Block, columns int) error {
	t := &texts{}
	t.Columns = columns
	t.block(sheet, 0, 0)
	return t.Write(w)
}

type texts struct{ page.Page }

// block writes a block at an indent; depth is how many parts it stands in.
func (t *texts) block(b *Block, depth, indent int) {
	if !b.Says() {
		return
	}
	text := b.Text
	if b.Lead != "" {
		text = b.Lead + ": " + text
	}
	switch b.Is {
	case IsPart:
		switch {
		case depth == 0:
			t.Put(0, "", text)
		case depth == 1:
			t.Heading(strings.ToUpper(text))
		default:
			t.Heading(text)
		}
		for _, each := range b.Under {
			t.block(each, depth+1, 0)
		}
		return
	case IsText, IsNote:
		t.Put(indent, "", text)
	case IsWarn:
		t.Put(indent, "! ", text)
	case IsItem:
		mark := "- "
		if b.Mark != "" {
			mark = fmt.Sprintf("%2s. ", b.Mark)
		}
		t.under(b, depth, indent, mark, text)
		return
	case IsBox:
		mark := "[ ] "
		if b.Mark != "" {
			mark += fmt.Sprintf("%2s. ", b.Mark)
		}
		t.under(b, depth, indent, mark, text)
		return
	case IsRows:
		t.rows(b, indent)
	case IsWrite:
		for i := range b.Lines {
			label := text + " "
			if i > 0 {
				label = strings.Repeat(" ", utf8.RuneCountInString(label))
			}
			t.Verbatim(indent, label+strings.Repeat("_", max(10, t.width()-indent-utf8.RuneCountInString(label)))+"\n")
		}
	case IsFigure: // its words are said by the rest of the sheet
	}
	for _, each := range b.Under {
		t.block(each, depth, indent+2)
	}
}

// under writes an item, and what stands under it below its text.
func (t *texts) under(b *Block, depth, indent int, mark, text string) {
	t.Put(indent, mark, text)
	for _, each := range b.Under {
		t.block(each, depth, indent+utf8.RuneCountInString(mark))
	}
}

func (t *texts) width() int {
	if t.Columns > 0 {
		return t.Columns
	}
	return page.Width
}

// rows writes a table: every column but the last is as wide as it needs, and the last
// goes on below.
func (t *texts) rows(b *Block, indent int) {
	all := b.Rows
	if len(b.Head) > 0 {
		all = append([][]string{b.Head}, b.Rows...)
	}
	wide := make([]int, len(all[0])-1)
	for _, row := range all {
		for i := range wide {
			wide[i] = max(wide[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, row := range all {
		var mark strings.Builder
		for i, w := range wide {
			mark.WriteString(row[i] + strings.Repeat(" ", w-utf8.RuneCountInString(row[i])+2))
		}
		t.Put(indent, mark.String(), row[len(wide)])
	}
}
