package diagnostic

import (
	"strconv"
	"strings"
	"unicode"
)

const (
	lineWidth = 100 // columns of a quoted line, at most
	tabWidth  = 4   // columns between tab stops
	ellipsis  = "..."
)

// cell is what one character of a line is shown as.
type cell struct {
	text  string
	width int // columns that it takes
}

// row is a line of a file, character by character.
type row struct {
	cells []cell
	width int // columns in all
}

// layOut returns the line as it is shown, and the mark to put under it: a ^ at
// the column, which counts characters from 1, and a ~ under each further
// column of width characters. A column of 0 has no mark. Of a long line the
// part about the mark is shown.
func (r row) layOut(column, width int) (shown, mark string) {
	cells := r.cells
	from := min(max(column-1, 0), len(cells))
	to := min(from+max(width, 1), len(cells))
	first, last := r.window(from)
	var text, under strings.Builder
	if first > 0 {
		text.WriteString(ellipsis)
		under.WriteString(strings.Repeat(" ", len(ellipsis)))
	}
	for i := first; i < last; i++ {
		text.WriteString(cells[i].text)
		sign := " "
		if i >= from && i < to {
			sign = "~"
		}
		under.WriteString(strings.Repeat(sign, cells[i].width))
	}
	if last < len(cells) {
		text.WriteString(ellipsis)
	}
	if column < 1 {
		return text.String(), ""
	}
	mark = strings.TrimRight(under.String(), " ")
	if mark == "" { // just after the end of the line, or under characters that take no column
		return text.String(), under.String() + "^"
	}
	return text.String(), strings.Replace(mark, "~", "^", 1)
}

// window returns the cells first..last of the line that are shown: all if they
// fit, else those about the cell from, where the mark begins, more after it
// than before.
func (r row) window(from int) (first, last int) {
	cells := r.cells
	if r.width <= lineWidth {
		return 0, len(cells)
	}
	const before = lineWidth / 3
	room := lineWidth - 2*len(ellipsis)
	first, last = from, from
	used := 0
	for first > 0 && used+cells[first-1].width <= before {
		first--
		used += cells[first].width
	}
	for last < len(cells) && used+cells[last].width <= room {
		used += cells[last].width
		last++
	}
	for first > 0 && used+cells[first-1].width <= room {
		first--
		used += cells[first].width
	}
	return first, last
}

// rowOf returns the cell of each character of the line. A tab takes the columns
// to the next stop.
func rowOf(line string) row {
	cells := make([]cell, 0, len(line))
	at := 0
	for _, r := range line {
		c := cell{text: string(r), width: runeWidth(r)}
		switch {
		case r == '\t':
			c.width = tabWidth - at%tabWidth
			c.text = strings.Repeat(" ", c.width)
		case !shows(r):
			c = cell{text: "\ufffd", width: 1}
		}
		at += c.width
		cells = append(cells, c)
	}
	return row{cells: cells, width: at}
}

// shows reports a character that is seen and does not act on the terminal.
// Those that change the direction of writing do.
func shows(r rune) bool {
	return unicode.IsGraphic(r) && r != unicode.ReplacementChar && r != '\u2028' && r != '\u2029'
}

// printable returns the text with escapes for what does not show.
func printable(s string) string {
	var b strings.Builder
	for _, r := range s {
		if shows(r) {
			b.WriteRune(r)
			continue
		}
		q := strconv.QuoteRuneToASCII(r)
		b.WriteString(q[1 : len(q)-1])
	}
	return b.String()
}

// wide are the characters that a terminal shows two columns wide: the main
// blocks of the classes W and F of Unicode Standard Annex 11. From memory; a
// character missing here moves a mark by a column.
var wide = &unicode.RangeTable{
	R16: []unicode.Range16{
		{Lo: 0x1100, Hi: 0x115F, Stride: 1},
		{Lo: 0x231A, Hi: 0x231B, Stride: 1},
		{Lo: 0x2E80, Hi: 0x303E, Stride: 1},
		{Lo: 0x3041, Hi: 0x4DBF, Stride: 1},
		{Lo: 0x4E00, Hi: 0xA4CF, Stride: 1},
		{Lo: 0xA960, Hi: 0xA97F, Stride: 1},
		{Lo: 0xAC00, Hi: 0xD7A3, Stride: 1},
		{Lo: 0xF900, Hi: 0xFAFF, Stride: 1},
		{Lo: 0xFE30, Hi: 0xFE6F, Stride: 1},
		{Lo: 0xFF00, Hi: 0xFF60, Stride: 1},
		{Lo: 0xFFE0, Hi: 0xFFE6, Stride: 1},
	},
	R32: []unicode.Range32{
		{Lo: 0x1F300, Hi: 0x1F64F, Stride: 1},
		{Lo: 0x1F680, Hi: 0x1F6FF, Stride: 1},
		{Lo: 0x1F900, Hi: 0x1FAFF, Stride: 1},
		{Lo: 0x20000, Hi: 0x3FFFD, Stride: 1},
	},
}

// runeWidth returns the columns that a terminal takes for the character.
func runeWidth(r rune) int {
	switch {
	case unicode.In(r, unicode.Mn, unicode.Me):
		return 0
	case unicode.Is(wide, r):
		return 2
	}
	return 1
}
