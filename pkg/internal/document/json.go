package document

import (
	"encoding/json"
	"errors"
	"io"
	"regexp"
	"strings"

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

// jsonReader makes nodes of the tokens of JSON (RFC 8259).
type jsonReader struct {
	guard
	*json.Decoder
	cursor
}

func readJSON(o *original, limits Limits, faults *diagnostic.List) *Node {
	r := &jsonReader{guard: guard{origin: o, limits: limits, faults: faults}, Decoder: json.NewDecoder(strings.NewReader(o.data)), cursor: newCursor(o.data)}
	r.UseNumber()
	root, ok := r.value(1)
	if !ok {
		return nil
	}
	if _, err := r.Token(); !errors.Is(err, io.EOF) {
		r.syntax(err)
		return nil
	}
	return root
}

// wrong reports what is wrong here.
func (r *jsonReader) wrong(what string) {
	r.faults.Addf(r.origin.at(r.cursor), CodeSyntax, "this is not JSON: %s", what)
}

// syntax reports what the reader of a whole file finds wrong: that of tokens
// does not say where.
func (r *jsonReader) syntax(err error) {
	var syntax *json.SyntaxError
	if errors.As(json.Unmarshal([]byte(r.data), new(json.RawMessage)), &syntax) {
		err = syntax
		if at := int(syntax.Offset); strings.HasPrefix(syntax.Error(), "unexpected end") {
			r.to(at)
		} else {
			r.to(at - 1)
		}
	}
	r.wrong(err.Error())
}

// token reads the next token, and goes to where it begins; it is false after a
// fault.
func (r *jsonReader) token() (json.Token, bool) {
	at := int(r.InputOffset())
	for at < len(r.data) && strings.IndexByte(" \t\r\n,:", r.data[at]) >= 0 {
		at++
	}
	r.to(at)
	token, err := r.Token()
	if err != nil {
		r.syntax(err)
	}
	return token, err == nil
}

// value reads any value. It is false if reading must end.
func (r *jsonReader) value(depth int) (*Node, bool) {
	token, ok := r.token()
	if !ok {
		return nil, false
	}
	n := r.origin.node(r.cursor)
	n.shape = Scalar
	switch token := token.(type) {
	case json.Delim:
		n.shape = Sequence
		if token == '{' {
			n.shape = Mapping
		}
	case string:
		n.style, n.text = jsonText, token
	default:
		n.text = r.data[r.offset:r.InputOffset()]
	}
	switch {
	case !r.within(n, len(n.text), depth) || n.style == jsonText && r.halfPair():
		return nil, false
	case n.shape != Scalar:
		return n, r.inside(n, depth+1)
	}
	return n, true
}

// inside reads what a list or a mapping holds, and its end.
func (r *jsonReader) inside(n *Node, depth int) bool {
	n.items, n.fields = []*Node{}, []Field{}
	first := map[string]*Node{}
	for r.More() {
		item, ok := r.value(depth)
		if !ok {
			return false
		}
		if n.shape == Sequence {
			n.items = append(n.items, item)
			continue
		}
		good := checkKey(item, false, first, r.faults)
		value, ok := r.value(depth)
		if !ok {
			return false
		}
		if good {
			n.fields = append(n.fields, Field{Key: item, Value: value})
		}
	}
	_, ok := r.token()
	return ok
}

// jsonEscape is an escape of a JSON string, or two for one character.
var jsonEscape = regexp.MustCompile(`\\(?:u[dD][89abAB]..\\u[dD][c-fC-F]..|u....|[^u])`)

// halfPair reports half of a surrogate pair in the string that was just read,
// for which the decoder silently puts another character.
func (r *jsonReader) halfPair() bool {
	start := r.offset
	for _, m := range jsonEscape.FindAllStringIndex(r.data[start:r.InputOffset()], -1) {
		e := r.data[start+m[0] : start+m[1]]
		if len(e) == 6 && e[2]|0x20 == 'd' && e[3] >= '8' {
			r.to(start + m[0])
			r.wrong("an escape is half of a surrogate pair, which is no character")
			return true
		}
	}
	return false
}
