package document

import (
	"strings"
	"unicode/utf8"
)

// marks hold the place of each character of a scalar's text, and one more for
// the end. They are empty if the text could not be found again in the file.
type marks []mark

type mark struct{ line, column int32 }

// places finds the characters of the scalar in the file, once.
//
// The YAML parser says only where a scalar starts. So the scalar is read again
// from there by the same rules, and what that gives is held against the text
// that the parser gave. Only if they agree to the last character is a place
// claimed.
func (n *Node) places() marks {
	if m := n.marks.Load(); m != nil {
		return *m
	}
	m := n.findPlaces()
	n.marks.Store(&m)
	return m
}

func (n *Node) findPlaces() marks {
	offsets := n.findOffsets()
	if offsets == nil {
		return nil
	}
	c := cursor{data: n.origin.data, offset: n.offset, line: n.line, column: n.column}
	out := make(marks, len(offsets))
	for i, offset := range offsets {
		c.to(offset)
		out[i] = mark{line: int32(c.line), column: int32(c.column)}
	}
	return out
}

// findOffsets returns the byte offset in the file of each character of the text
// and of its end, in rising order, or nil.
func (n *Node) findOffsets() []int {
	t := &tracer{source: n.origin.data, want: n.text, end: n.offset, offsets: make([]int, 0, utf8.RuneCountInString(n.text)+1)}
	quote := map[style]byte{singleQuoted: '\'', doubleQuoted: '"', jsonText: '"'}[n.style]
	switch {
	case n.style == literal || n.style == folded:
		return t.block()
	case quote == 0:
		t.flow(n.offset, 0, false)
	case t.source[n.offset:] == "" || t.source[n.offset] != quote:
		return nil
	default:
		t.end++
		t.flow(t.end, quote, n.style == jsonText)
	}
	return t.result()
}

// tracer rebuilds the text of a scalar and notes where each character is from.
type tracer struct {
	source  string
	want    string // what is left of the text to be rebuilt
	offsets []int
	end     int // just after the last character that did not come of a line break
	failed  bool
}

// emit notes that text, of one character, is from the bytes from..to.
func (t *tracer) emit(text string, from, to int) {
	rest, ok := strings.CutPrefix(t.want, text)
	if t.failed = t.failed || !ok; t.failed {
		return
	}
	t.want = rest
	t.offsets = append(t.offsets, from)
	if text != "\n" {
		t.end = to
	}
}

// copy emits the character at i as it stands and returns where the next begins.
func (t *tracer) copy(i int) int {
	_, w := utf8.DecodeRuneInString(t.source[i:])
	t.emit(t.source[i:i+w], i, i+w)
	return i + w
}

// breaks emits the line breaks at some offsets.
func (t *tracer) breaks(at []int) {
	for _, i := range at {
		t.emit(breakText(t.source, i), i, i+breakWidth(t.source, i))
	}
}

// result returns the offsets if all of the text was rebuilt.
func (t *tracer) result() []int {
	if t.failed || t.want != "" {
		return nil
	}
	end := t.end
	// Of line breaks at the end, the last is where the text ends.
	if n := len(t.offsets); n > 0 {
		end = max(end, t.offsets[n-1])
	}
	return append(t.offsets, end)
}

// flow reads a scalar as far as its quote. Where one without quotes ends depends on
// what stands around it; here the text says it.
func (t *tracer) flow(i int, quote byte, isJSON bool) {
	for i < len(t.source) && !t.failed && (quote != 0 || t.want != "") {
		switch c := t.source[i]; {
		case !isJSON && isGap(t.source, i):
			i = t.gap(i, false)
		case quote == '\'' && strings.HasPrefix(t.source[i:], "''"):
			t.emit("'", i, i+2)
			i += 2
		case quote != 0 && c == quote:
			return
		case c == '\\' && quote == '"':
			if w := breakWidth(t.source, i+1); w > 0 && !isJSON {
				i = t.gap(i+1+w, true)
				break
			}
			text, w := escape(t.source[i:])
			t.emit(text, i, i+w)
			i += w
		default:
			i = t.copy(i)
		}
	}
	t.failed = t.failed || quote != 0
}

// gap reads the blanks and line breaks at i inside a plain or quoted scalar:
// blanks within a line stand as they are; around line breaks they fall away,
// one break becomes a space, and of more the first falls away. escaped tells
// that a break was just escaped, so that none is left to become a space. It
// returns the place of the next character that is neither.
func (t *tracer) gap(start int, escaped bool) int {
	var breaks []int
	i := start
	for i < len(t.source) && isGap(t.source, i) {
		w := breakWidth(t.source, i)
		if w > 0 {
			breaks = append(breaks, i)
		}
		i += max(w, 1)
	}
	switch {
	case escaped || len(breaks) > 0 && breakText(t.source, breaks[0]) != "\n":
		t.breaks(breaks)
	case len(breaks) == 0:
		for from := start; from < i; from++ {
			t.copy(from)
		}
	case len(breaks) == 1:
		t.emit(" ", start, start)
	default:
		t.breaks(breaks[1:])
	}
	return i
}
