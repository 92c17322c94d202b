package document

import "unicode/utf8"

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
		for c.offset < offset && c.step() {
		}
		out[i] = mark{line: int32(c.line), column: int32(c.column)}
	}
	return out
}

// findOffsets returns the byte offset in the file of each character of the text
// and of its end, in rising order, or nil.
func (n *Node) findOffsets() []int {
	s, at := n.origin.data, n.offset
	switch n.style {
	case plain:
		return plainOffsets(s, at, n.text)
	case singleQuoted, doubleQuoted, jsonText:
		return quotedOffsets(s, at, n.text, n.style)
	}
	return blockOffsets(s, at, n.text, n.style == literal)
}

// tracer rebuilds the text of a scalar and notes where each character is from.
type tracer struct {
	source  string
	want    string // the text to be rebuilt
	done    int    // bytes of want that have been
	offsets []int
	end     int // just after the last character that did not come of a line break
	failed  bool
}

func newTracer(source, want string, start int) *tracer {
	return &tracer{
		source: source, want: want, end: start,
		offsets: make([]int, 0, utf8.RuneCountInString(want)+1),
	}
}

// emit notes that text, of one character, is from the bytes from..to.
func (t *tracer) emit(text string, from, to int) {
	if t.failed || len(t.want)-t.done < len(text) || t.want[t.done:t.done+len(text)] != text {
		t.failed = true
		return
	}
	t.done += len(text)
	t.offsets = append(t.offsets, from)
	if text != "\n" {
		t.end = to
	}
}

// copy emits the character at i as it stands and gives where the next begins.
func (t *tracer) copy(i int) int {
	_, w := utf8.DecodeRuneInString(t.source[i:])
	t.emit(t.source[i:i+w], i, i+w)
	return i + w
}

func (t *tracer) complete() bool { return t.done == len(t.want) }

// result returns the offsets if all of the text was rebuilt.
func (t *tracer) result() []int {
	if t.failed || !t.complete() {
		return nil
	}
	end := t.end
	// Of line breaks at the end, the last is where the text ends.
	if n := len(t.offsets); n > 0 && t.offsets[n-1] > end {
		end = t.offsets[n-1]
	}
	return append(t.offsets, end)
}

// lineBreak is a line break of the file.
type lineBreak struct {
	text     string
	from, to int
}

func (t *tracer) breakAt(i int) lineBreak {
	return lineBreak{text: breakText(t.source, i), from: i, to: i + breakWidth(t.source, i)}
}

func (t *tracer) emitBreaks(breaks []lineBreak) {
	for _, b := range breaks {
		t.emit(b.text, b.from, b.to)
	}
}

// gap reads the blanks and line breaks at i inside a plain or quoted scalar:
// blanks within a line stand as they are; around line breaks they fall away,
// one break becomes a space, and of more the first falls away. escaped tells
// that a break was just escaped, so that none is left to become a space. It
// gives the place of the next character that is neither.
func (t *tracer) gap(i int, escaped bool) int {
	start, from := i, i
	var first lineBreak
	var rest []lineBreak
	broken := escaped
	for !(i >= len(t.source)) && isGap(t.source, i) {
		if isBlank(t.source, i) {
			i++
			continue
		}
		b := t.breakAt(i)
		if !broken {
			first, broken = b, true
		} else {
			rest = append(rest, b)
		}
		i = b.to
	}
	switch {
	case !broken:
		for ; from < i; from++ {
			t.emit(t.source[from:from+1], from, from+1)
		}
	case first.text == "\n" && len(rest) == 0:
		t.emit(" ", start, start)
	case first.text == "\n":
		t.emitBreaks(rest)
	default:
		if first.text != "" {
			t.emit(first.text, first.from, first.to)
		}
		t.emitBreaks(rest)
	}
	return i
}

// plainOffsets reads a plain scalar. Where it ends depends on what stands
// around it; here the text says it.
func plainOffsets(source string, at int, want string) []int {
	t := newTracer(source, want, at)
	i := at
	for !t.failed && !t.complete() && i < len(source) {
		if isGap(source, i) {
			i = t.gap(i, false)
		} else {
			i = t.copy(i)
		}
	}
	return t.result()
}
