package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
)

// A line is a heading or a fixed sentence of the sheets. What stands in braces is a
// hole, which the sheet fills; a line can be worded otherwise, but keeps its holes.

// holes lists what a text quotes in braces, each once, sorted.
func holes(text string) []string {
	var all []string
	runes := []rune(text)
	for i := 0; i < len(runes); i++ {
		switch {
		case runes[i] == '{' && i+1 < len(runes) && runes[i+1] == '{':
			i++
		case runes[i] == '{':
			end := closingBrace(runes, i+1)
			all = append(all, "{"+strings.TrimSpace(string(runes[i+1:end]))+"}")
			i = end
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// lines keeps the lines, and reports one that lost a hole or has another, or that an
// amendment retires: the sheet would print nothing.
func (c *compiler) lines() {
	for _, n := range c.in.of[lineSort] {
		e := c.r.open(n, "a line")
		says := e.Need("says")
		e.Done()
		c.book.lines = append(c.book.lines, rulebook.Line{Name: n.id(), Says: text(says), Place: n.place(), Chapter: n.chapter, Amended: n.amended})
		if n.first == nil || says == nil {
			continue
		}
		if was, is := holes(n.first.node.Field("says").Text()), holes(says.Text()); !slices.Equal(was, is) {
			fault(&c.faults, says, codeSentence, "the line does not have the holes that the sheet fills", strings.Join(is, ", "), cmp.Or(strings.Join(was, ", "), "no holes"))
		}
	}
	for name, e := range c.in.gone {
		if e.sort == lineSort {
			c.stillRead[name] = nil
		}
	}
}
