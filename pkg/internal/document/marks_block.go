package document

// block reads a | or > scalar. How far its lines are indented may depend on what
// stands around it, so each indent that is possible is tried; the text tells which
// is right.
func (t *tracer) block() []int {
	body := t.end
	if sign := t.source[body]; sign != '|' && sign != '>' {
		return nil
	}
	for body < len(t.source) && breakWidth(t.source, body) == 0 {
		body++
	}
	body += breakWidth(t.source, body)
	// Deeper than this nobody indents; a hostile file could make the trying slow.
	const deepest = 400
	found := leadingSpaces(t.source, body)
	for indent := found; indent >= 1 && indent > found-deepest; indent-- {
		tried := *t
		tried.lines(body, indent)
		if out := tried.result(); out != nil {
			return out
		}
	}
	return nil
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

// lines reads lines that are indented so far. How many of the breaks between two of
// them are left, and whether one became a space, the text says: > folds them, but
// not beside a line that begins with a blank. Of those at the end the first are left.
func (t *tracer) lines(i, indent int) {
	var breaks []int // since the last character
	for i < len(t.source) && !t.failed && t.want != "" {
		line := i
		for i < min(line+indent, len(t.source)) && t.source[i] == ' ' {
			i++
		}
		if w := breakWidth(t.source, i); w > 0 {
			breaks = append(breaks, i)
			i += w
			continue
		}
		n, size := leadingBreaks(t.want)
		if i < line+indent || size == len(t.want) {
			break // the line is of what comes after the scalar
		}
		if n == 0 && len(breaks) > 0 {
			t.emit(" ", breaks[0], breaks[0])
		} else {
			t.breaks(breaks[max(0, len(breaks)-n):])
		}
		for i < len(t.source) && breakWidth(t.source, i) == 0 {
			i = t.copy(i)
		}
		breaks = []int{i}
		i += breakWidth(t.source, i)
	}
	n, _ := leadingBreaks(t.want)
	t.breaks(breaks[:min(n, len(breaks))])
}

// leadingBreaks counts the line breaks that a text begins with, and their bytes.
func leadingBreaks(text string) (n, size int) {
	for {
		w := breakWidth(text, size)
		if w == 0 {
			return n, size
		}
		n, size = n+1, size+w
	}
}
