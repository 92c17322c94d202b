package document

import (
	"strings"
	"unicode/utf8"
)

// cursor walks a file character by character and counts lines in two ways: as
// editors do (ending in LF, CR LF or CR), which is what places use, and as the
// YAML parser does, which also ends a line at U+0085, U+2028 and U+2029. A new one
// is at the start.
type cursor struct {
	data         string
	offset       int
	line, column int // as editors count, from 1
	yamlLine     int // as the parser counts, from 0
	yamlColumn   int
}

func newCursor(data string) cursor { return cursor{data: data, line: 1, column: 1} }

// to goes on to the character that starts at the byte offset.
func (c *cursor) to(offset int) {
	for c.offset < offset && c.step() {
	}
}

// step goes past one character, CR LF counting as one, and reports whether
// there was one.
func (c *cursor) step() bool {
	if c.offset >= len(c.data) {
		return false
	}
	if w := breakWidth(c.data, c.offset); w > 0 {
		first := c.data[c.offset]
		c.offset += w
		c.yamlLine++
		c.yamlColumn = 0
		if first == '\n' || first == '\r' {
			c.line++
			c.column = 1
		} else {
			c.column++
		}
		return true
	}
	_, w := utf8.DecodeRuneInString(c.data[c.offset:])
	c.offset += w
	c.column++
	c.yamlColumn++
	return true
}

// seek goes to the place that the YAML parser calls line and column, counted
// from 0. Nodes come in the order of the file, so it hardly ever goes back.
func (c *cursor) seek(line, column int) {
	if line < c.yamlLine || line == c.yamlLine && column < c.yamlColumn {
		*c = newCursor(c.data)
	}
	for c.yamlLine < line && c.step() {
	}
	for c.yamlLine == line && c.yamlColumn < column &&
		breakWidth(c.data, c.offset) == 0 && c.step() {
	}
}

// breakWidth returns the bytes of the YAML line break at i, or 0 if none is
// there.
func breakWidth(s string, i int) int {
	if i >= len(s) {
		return 0
	}
	switch s[i] {
	case '\n':
		return 1
	case '\r':
		if i+1 < len(s) && s[i+1] == '\n' {
			return 2
		}
		return 1
	case 0xC2:
		if strings.HasPrefix(s[i:], "\u0085") {
			return 2
		}
	case 0xE2:
		if strings.HasPrefix(s[i:], "\u2028") || strings.HasPrefix(s[i:], "\u2029") {
			return 3
		}
	}
	return 0
}

// breakText returns what a line break of YAML becomes in the text of a scalar.
func breakText(s string, i int) string {
	if s[i] == 0xE2 {
		return s[i : i+3]
	}
	return "\n"
}

// isGap reports a blank, a line break or the end of the file at i.
func isGap(s string, i int) bool {
	return i >= len(s) || s[i] == ' ' || s[i] == '\t' || breakWidth(s, i) > 0
}
