package paper

import (
	"cmp"
	"fmt"
	"io"
	"slices"
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

// block writes a block at an indent, and what stands under it further in; depth is how
// many parts it stands in.
func (t *texts) block(b *Block, depth, indent int) {
	if !b.Says() {
		return
	}
	text := b.Text
	if b.Lead != "" {
		text = b.Lead + ": " + text
	}
	under := indent + 2
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
		depth, under = depth+1, 0
	case IsText, IsNote:
		t.Put(indent, "", text)
	case IsWarn:
		t.Put(indent, "! ", text)
	case IsItem, IsBox:
		mark := ""
		if b.Mark != "" {
			mark = fmt.Sprintf("%2s. ", b.Mark)
		}
		if b.Is == IsBox {
			mark = "[ ] " + mark
		}
		mark = cmp.Or(mark, "- ")
		t.Put(indent, mark, text)
		under = indent + utf8.RuneCountInString(mark)
	case IsRows:
		t.rows(b, indent)
	case IsWrite:
		label := text + " "
		t.Verbatim(indent, label+strings.Repeat("_", max(10, t.Wide()-indent-utf8.RuneCountInString(label)))+"\n")
	case IsFigure: // its words are said by the rest of the sheet
	}
	for _, each := range b.Under {
		t.block(each, depth, under)
	}
}

// rows writes a table in the width that there is; what is too long for its column goes
// on below.
func (t *texts) rows(b *Block, indent int) {
	all := b.Rows
	if len(b.Head) > 0 {
		all = append([][]string{b.Head}, b.Rows...)
	}
	wide := widths(all, t.Wide()-indent)
	for _, row := range all {
		cells, high := make([][]string, len(row)), 0
		for i, text := range row {
			cells[i] = page.Lines(text, wide[i])
			high = max(high, len(cells[i]))
		}
		for n := range high {
			var line strings.Builder
			for i, cell := range cells {
				text := ""
				if n < len(cell) {
					text = cell[n]
				}
				line.WriteString(text + strings.Repeat(" ", max(0, wide[i]-utf8.RuneCountInString(text))+gap))
			}
			t.Verbatim(indent, line.String()+"\n")
		}
	}
}

// gap is how far the columns of a table are apart, and narrowest what none is made
// narrower than.
const gap, narrowest = 2, 12

// widths returns how wide each column is: as its longest text, unless all do not fit;
// then the widest ones are narrowed.
func widths(rows [][]string, room int) []int {
	wide := make([]int, len(rows[0]))
	all := gap * (len(wide) - 1)
	for i := range wide {
		for _, row := range rows {
			wide[i] = max(wide[i], utf8.RuneCountInString(row[i]))
		}
		all += wide[i]
	}
	for widest := slices.Max(wide); all > room && widest > narrowest; widest = slices.Max(wide) {
		wide[slices.Index(wide, widest)]--
		all--
	}
	return wide
}
