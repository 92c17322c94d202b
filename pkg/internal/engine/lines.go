package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// A line is a heading or a fixed sentence of the sheets. What stands in braces is a
// hole, which the sheet fills; a line can be worded otherwise, but keeps its holes.

type lineEntry struct {
	*entry
	rulebook.Line
	says *document.Node
}

func (r *reader) line(n *entry) *lineEntry {
	e := r.open(n, "a line")
	l := &lineEntry{entry: n, says: e.Need("says")}
	l.Line = rulebook.Line{Name: n.id(), Says: text(l.says), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return l
}

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
	for _, l := range c.in.lines {
		c.book.lines = append(c.book.lines, l.Line)
		if l.first == nil || l.says == nil {
			continue
		}
		if was, is := holes(l.first.node.Field("says").Text()), holes(l.Says.Text); !slices.Equal(was, is) {
			fault(&c.faults, l.says, codeSentence, "the line does not have the holes that the sheet fills", strings.Join(is, ", "), cmp.Or(strings.Join(was, ", "), "no holes"))
		}
	}
	for name, e := range c.in.gone {
		if e.sort == lineSort {
			c.stillRead[name] = nil
		}
	}
}
