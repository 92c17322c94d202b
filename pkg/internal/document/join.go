package document

import (
	"slices"
	"strings"
)

// Piece is a part of a text, with the node in whose place it stands.
type Piece struct {
	Text string
	At   *Node
}

// Join returns a scalar made of pieces that stand apart in the file, such as the
// cells of a row: each of its characters is where the node of its piece begins.
// It returns nil for no pieces.
func Join(pieces []Piece, between string) *Node {
	if len(pieces) == 0 {
		return nil
	}
	var text strings.Builder
	var at marks
	for i, p := range pieces {
		if i > 0 {
			p.Text = between + p.Text
		}
		text.WriteString(p.Text)
		for range p.Text {
			at = append(at, mark{line: int32(p.At.line), column: int32(p.At.column)})
		}
	}
	last := pieces[len(pieces)-1].At
	at = append(at, mark{line: int32(last.line), column: int32(last.column + last.Width())})
	first := pieces[0].At
	out := &Node{origin: first.origin, offset: first.offset, line: first.line, column: first.column, shape: Scalar, text: text.String()}
	out.marks.Store(&at)
	return out
}

// Gather returns a mapping of fields that stand apart in the file. Its place is
// that of the first key; fields without a value are left out.
func Gather(fields ...Field) *Node {
	first := fields[0].Key
	out := &Node{origin: first.origin, offset: first.offset, line: first.line, column: first.column, shape: Mapping}
	for _, f := range fields {
		if f.Value != nil {
			out.fields = append(out.fields, f)
		}
	}
	return out
}

// Key returns a key of a gathered mapping, in the place of a node.
func Key(name string, at *Node) *Node {
	return &Node{origin: at.origin, offset: at.offset, line: at.line, column: at.column, shape: Scalar, text: name}
}

// Put returns the mapping with another value at a path of keys with points between
// them, in the place of the mapping. A scalar becomes a mapping of that key alone, and
// a path that leads nowhere leaves the mapping as it is.
func (n *Node) Put(path string, value *Node) *Node {
	out := &Node{origin: n.origin, offset: n.offset, line: n.line, column: n.column, shape: Mapping, fields: slices.Clone(n.fields)}
	if n.shape == Scalar {
		out.fields = []Field{{Key(path, n), value}}
	}
	for i, f := range out.fields {
		if rest, within := strings.CutPrefix(path, f.Key.text+"."); within {
			out.fields[i].Value = f.Value.Put(rest, value)
		} else if f.Key.text == path {
			out.fields[i].Value = value
		}
	}
	return out
}
