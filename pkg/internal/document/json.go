package document

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// isJSON reports whether the file is read as JSON by the letter.
func isJSON(o *original) bool {
	if !strings.HasSuffix(strings.ToLower(o.file), ".json") {
		return false
	}
	start := strings.TrimLeft(o.data, " \t\r\n")
	return strings.HasPrefix(start, "{") || strings.HasPrefix(start, "[")
}

// jsonReader reads JSON (RFC 8259), keeping places.
type jsonReader struct {
	cursor
	origin *original
	limits Limits
	faults *diagnostic.List
	nodes  int
}

func readJSON(o *original, limits Limits, faults *diagnostic.List) *Node {
	r := &jsonReader{
		cursor: cursor{data: o.data, line: 1, column: 1},
		origin: o, limits: limits, faults: faults,
	}
	root, ok := r.value(1)
	if !ok {
		return nil
	}
	r.space()
	if r.offset < len(r.data) {
		r.wrong("the end of the file")
		return nil
	}
	return root
}

func (r *jsonReader) here() diagnostic.Place {
	return diagnostic.Place{File: r.origin.file, Line: r.line, Column: r.column}
}

// wrong reports the character that stands here; it is always false.
func (r *jsonReader) wrong(wanted string) bool {
	d := r.faults.Addf(r.here(), CodeSyntax, "this is not JSON")
	d.Found, d.Wanted = "the end of the file", wanted
	if r.offset < len(r.data) {
		c, _ := utf8.DecodeRuneInString(r.data[r.offset:])
		d.Found = fmt.Sprintf("%q", c)
	}
	return false
}

func (r *jsonReader) space() {
	for r.offset < len(r.data) && strings.IndexByte(" \t\r\n", r.data[r.offset]) >= 0 {
		r.step()
	}
}

// next is the byte that comes, or 0 at the end.
func (r *jsonReader) next() byte {
	if r.offset < len(r.data) {
		return r.data[r.offset]
	}
	return 0
}

// advance goes past n bytes.
func (r *jsonReader) advance(n int) {
	for end := r.offset + n; r.offset < end && r.step(); {
	}
}

// sign goes past one of the characters in signs, or reports what is wrong.
func (r *jsonReader) sign(signs, wanted string) (byte, bool) {
	r.space()
	c := r.next()
	if c == 0 || strings.IndexByte(signs, c) < 0 {
		return 0, r.wrong(wanted)
	}
	r.step()
	return c, true
}

// value reads any value. It is false if reading must end.
func (r *jsonReader) value(depth int) (*Node, bool) {
	r.space()
	n := &Node{origin: r.origin, offset: r.offset, line: r.line, column: r.column}
	r.nodes++
	switch {
	case depth > r.limits.Depth:
		reportTooDeep(n.Place(), r.limits, r.faults)
		return nil, false
	case r.nodes > r.limits.Nodes:
		reportTooMany(n.Place(), r.limits, r.faults)
		return nil, false
	}
	ok := false
	switch r.next() {
	case '{':
		n.shape = Mapping
		ok = r.object(n, depth)
	case '[':
		n.shape = Sequence
		ok = r.array(n, depth)
	case '"':
		ok = r.text(n)
	default:
		ok = r.bare(n)
	}
	if ok && len(n.text) > r.limits.Text {
		reportTooLong(n.Place(), len(n.text), r.limits, r.faults)
		ok = false
	}
	return n, ok
}

func (r *jsonReader) array(n *Node, depth int) bool {
	n.items = []*Node{}
	r.step()
	if r.space(); r.next() == ']' {
		r.step()
		return true
	}
	for {
		item, ok := r.value(depth + 1)
		if !ok {
			return false
		}
		n.items = append(n.items, item)
		if c, ok := r.sign(",]", "a comma or ]"); !ok || c == ']' {
			return ok
		}
	}
}

func (r *jsonReader) object(n *Node, depth int) bool {
	n.fields = []Field{}
	first := map[string]*Node{}
	r.step()
	if r.space(); r.next() == '}' {
		r.step()
		return true
	}
	for {
		if r.space(); r.next() != '"' {
			return r.wrong("a key in double quotes")
		}
		key, ok := r.value(depth + 1)
		if !ok {
			return false
		}
		good := checkKey(key, false, first, r.faults)
		if _, ok := r.sign(":", "a colon"); !ok {
			return false
		}
		value, ok := r.value(depth + 1)
		if !ok {
			return false
		}
		if good {
			n.fields = append(n.fields, Field{Key: key, Value: value})
		}
		if c, ok := r.sign(",}", "a comma or }"); !ok || c == '}' {
			return ok
		}
	}
}

// bareJSON is a number or a word that JSON knows.
var bareJSON = regexp.MustCompile(`^(?:-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?|true|false|null)`)

// bareEnd ends a run of characters that can only be meant as one value.
var bareEnd = regexp.MustCompile(`^[^\s,:\[\]{}"]*`)

func (r *jsonReader) bare(n *Node) bool {
	rest := r.data[r.offset:]
	text := bareJSON.FindString(rest)
	if text == "" || text != bareEnd.FindString(rest) {
		return r.wrong("a value")
	}
	n.shape, n.text = Scalar, text
	r.advance(len(text))
	return true
}

func (r *jsonReader) text(n *Node) bool {
	n.shape, n.style = Scalar, jsonText
	var b strings.Builder
	r.step()
	for {
		piece, width, wanted := jsonPiece(r.data, r.offset)
		switch {
		case wanted != "":
			return r.wrong(wanted)
		case width == 0:
			r.step()
			n.text = b.String()
			return true
		}
		b.WriteString(piece)
		r.advance(width)
	}
}

// jsonEscapes are the escapes of one letter.
var jsonEscapes = map[byte]string{
	'"': `"`, '\\': `\`, '/': "/", 'b': "\b", 'f': "\f", 'n': "\n", 'r': "\r", 't': "\t",
}

// jsonPiece returns the character of a JSON string at i and its width in bytes,
// which is 0 at the closing quote. If there is none, wanted says what is.
func jsonPiece(s string, i int) (piece string, width int, wanted string) {
	if i >= len(s) {
		return "", 0, "a closing quote"
	}
	switch c := s[i]; {
	case c == '"':
		return "", 0, ""
	case c < ' ':
		return "", 0, "no control character in a string"
	case c != '\\':
		_, w := utf8.DecodeRuneInString(s[i:])
		return s[i : i+w], w, ""
	}
	if i+1 < len(s) && s[i+1] != 'u' {
		if text, ok := jsonEscapes[s[i+1]]; ok {
			return text, 2, ""
		}
	}
	r, ok := jsonUnit(s, i)
	if !ok {
		return "", 0, `an escape of JSON, such as \n or \u00b2`
	}
	if !utf16.IsSurrogate(r) {
		return string(r), 6, ""
	}
	low, ok := jsonUnit(s, i+6)
	if pair := utf16.DecodeRune(r, low); ok && pair != utf8.RuneError {
		return string(pair), 12, ""
	}
	return "", 0, "both halves of a surrogate pair"
}

// jsonUnit reads the \uXXXX at i.
func jsonUnit(s string, i int) (rune, bool) {
	if !strings.HasPrefix(s[min(i, len(s)):], `\u`) {
		return 0, false
	}
	return hexRune(s, i+2, 4)
}

// jsonOffsets returns the offset of each character of a JSON string.
func jsonOffsets(source string, at int, want string) []int {
	if at >= len(source) || source[at] != '"' {
		return nil
	}
	t := newTracer(source, want, at+1)
	for i := at + 1; !t.failed; {
		piece, width, wanted := jsonPiece(source, i)
		switch {
		case wanted != "":
			return nil
		case width == 0:
			return t.result()
		}
		t.emit(piece, i, i+width)
		i += width
	}
	return nil
}
