package document

// blockOffsets reads a | or > scalar. How far its lines are indented may
// depend on what stands around it, so each indent that is possible is tried;
// the text tells which is right.
func blockOffsets(source string, at int, want string, isLiteral bool) []int {
	body, ok := skipBlockHeader(source, at)
	if !ok {
		return nil
	}
	// Deeper than this nobody indents; a hostile file could make the trying slow.
	const deepest = 400
	found := leadingSpaces(source, body)
	for indent := found; indent >= 1 && indent > found-deepest; indent-- {
		b := block{tracer: newTracer(source, want, at), indent: indent, literal: isLiteral}
		if out := b.read(body); out != nil {
			return out
		}
	}
	return nil
}

// skipBlockHeader returns the start of the line below the | or > at i.
func skipBlockHeader(source string, i int) (int, bool) {
	if source[i] != '|' && source[i] != '>' {
		return 0, false
	}
	for i < len(source) && breakWidth(source, i) == 0 {
		i++
	}
	return i + breakWidth(source, i), true
}

// leadingSpaces returns the most spaces before the first line that holds
// something, that line counted; at least 1.
func leadingSpaces(source string, i int) int {
	most := 1
	for {
		n := 0
		for i < len(source) && source[i] == ' ' {
			i++
			n++
		}
		most = max(most, n)
		w := breakWidth(source, i)
		if w == 0 {
			return most
		}
		i += w
	}
}

// block reads the lines of a | or > scalar.
type block struct {
	*tracer
	indent  int
	literal bool
	pending []lineBreak // the break of the last line, if it had one
	empty   []lineBreak // of the empty lines since
}

func (b *block) read(i int) []int {
	i, column := b.skipEmpty(i)
	afterBlank := false
	for !b.failed && !b.complete() && column == b.indent && i < len(b.source) {
		blank := isBlank(b.source, i)
		b.join(afterBlank || blank)
		if b.complete() { // the line is of what comes after the scalar
			break
		}
		afterBlank = blank
		for i < len(b.source) && breakWidth(b.source, i) == 0 {
			i = b.copy(i)
		}
		if i < len(b.source) {
			b.pending = append(b.pending, b.breakAt(i))
			i = b.pending[0].to
		}
		i, column = b.skipEmpty(i)
	}
	// What is left of the text is the breaks that the chomping kept.
	for _, br := range append(b.pending, b.empty...) {
		if !b.complete() {
			b.emit(br.text, br.from, br.to)
		}
	}
	return b.result()
}

// join emits the breaks between two lines, folding them where > does: not
// beside a line that starts with a blank.
func (b *block) join(besideBlank bool) {
	fold := !b.literal && !besideBlank && len(b.pending) > 0 && b.pending[0].text == "\n"
	switch {
	case !fold:
		b.emitBreaks(b.pending)
	case len(b.empty) == 0:
		b.emit(" ", b.pending[0].from, b.pending[0].from)
	}
	b.emitBreaks(b.empty)
	b.pending, b.empty = b.pending[:0], b.empty[:0]
}

// skipEmpty goes past empty lines and the indent of the next, and gives the
// column there, from 0.
func (b *block) skipEmpty(i int) (next, column int) {
	for {
		column = 0
		for i < len(b.source) && column < b.indent && b.source[i] == ' ' {
			i++
			column++
		}
		if breakWidth(b.source, i) == 0 {
			return i, column
		}
		br := b.breakAt(i)
		b.empty = append(b.empty, br)
		i = br.to
	}
}
