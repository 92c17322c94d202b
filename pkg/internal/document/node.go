package document

import (
	"slices"
	"sync/atomic"

	"example.com/groundrule/pkg/diagnostic"
)

// Shape is the shape of a node.
type Shape uint8

// The shapes of a node. NoShape is a node that was refused, or a nil one.
const (
	NoShape Shape = iota
	Mapping
	Sequence
	Scalar
)

// String names the shape for messages.
func (s Shape) String() string {
	switch s {
	case Mapping:
		return "a mapping"
	case Sequence:
		return "a list"
	case Scalar:
		return "a single value"
	}
	return "nothing"
}

// style is how a scalar is written.
type style uint8

const (
	plain style = iota
	singleQuoted
	doubleQuoted
	literal
	folded
	jsonText
)

// Node is a mapping, a sequence or a scalar. Its methods may be called on a nil
// Node, which has no shape, and from many goroutines.
type Node struct {
	origin *original
	offset int // of its first byte
	line   int
	column int
	shape  Shape
	style  style
	text   string
	fields []Field
	items  []*Node
	marks  atomic.Pointer[marks]
}

// Field is one entry of a mapping.
type Field struct {
	Key   *Node
	Value *Node
}

// Shape of the node.
func (n *Node) Shape() Shape {
	if n == nil {
		return NoShape
	}
	return n.shape
}

// Place of the node's first character: of a quoted scalar its quote, of a | or
// > scalar that sign, of a block mapping its first key. Of a value that was
// left empty it is where the value would have begun.
func (n *Node) Place() diagnostic.Place {
	if n == nil {
		return diagnostic.Place{}
	}
	return diagnostic.Place{File: n.origin.file, Line: n.line, Column: n.column}
}

// Null reports an empty or null scalar that was written plain.
func (n *Node) Null() bool {
	if n.Shape() != Scalar || n.style != plain {
		return false
	}
	switch n.text {
	case "", "~", "null", "Null", "NULL":
		return true
	}
	return false
}

// Text is a scalar's text after YAML's unquoting and folding.
func (n *Node) Text() string {
	if n == nil {
		return ""
	}
	return n.text
}

// Quoted reports a scalar that was written in quotes.
func (n *Node) Quoted() bool {
	return n != nil && (n.style == singleQuoted || n.style == doubleQuoted || n.style == jsonText)
}

// Fields of a mapping, in file order.
func (n *Node) Fields() []Field {
	if n == nil {
		return nil
	}
	return n.fields
}

// With returns the mapping with other fields laid over it: each takes the place
// of the field of its name, or stands behind the rest; what stands under the keys
// of within is laid over what stood there in the same way. It is placed where over
// is. n and over stay as they are.
func (n *Node) With(over *Node, within ...string) *Node {
	fields := slices.Clone(n.Fields())
	for _, f := range over.Fields() {
		i := slices.IndexFunc(fields, func(have Field) bool { return have.Key.text == f.Key.text })
		if i < 0 {
			fields = append(fields, f)
			continue
		}
		if have := fields[i].Value; slices.Contains(within, f.Key.text) && have.Shape() == Mapping && f.Value.Shape() == Mapping {
			f.Value = have.With(f.Value)
		}
		fields[i] = f
	}
	return &Node{origin: over.origin, offset: over.offset, line: over.line, column: over.column, shape: Mapping, fields: fields}
}

// Field returns what stands under a key of the mapping, nil if nothing does.
func (n *Node) Field(key string) *Node {
	for _, f := range n.Fields() {
		if f.Key.text == key && !f.Value.Null() {
			return f.Value
		}
	}
	return nil
}

// Items of a sequence, in file order.
func (n *Node) Items() []*Node {
	if n == nil {
		return nil
	}
	return n.items
}

// At returns the place in the file of the character at the given rune offset of
// Text, in plain, quoted, | and > scalars alike. An escape is at its backslash,
// a space or line break that came of folding is where the folded line ended.
//
// An offset past the end gives the place just after the last character, or, if
// the text ends in a line break, the place of that break, so that it is never
// below the text. An offset below 0 is read as 0. If the node is no scalar, or
// its characters cannot be told apart for certain, it is the place of the node.
func (n *Node) At(runeOffset int) diagnostic.Place {
	p := n.Place()
	if n.Shape() != Scalar {
		return p
	}
	if m := n.places(); len(m) > 0 {
		at := m[min(max(runeOffset, 0), len(m)-1)]
		p.Line, p.Column = int(at.line), int(at.column)
	}
	return p
}

// Width is how many characters of its first line the scalar takes in the file,
// its quotes counted; at least 1. For a mapping or a list it is 1.
func (n *Node) Width() int {
	if n.Shape() != Scalar || n.style == literal || n.style == folded {
		return 1
	}
	m := n.places()
	if len(m) == 0 {
		return 1
	}
	end, quote := n.column, 0
	for _, at := range m {
		if int(at.line) == n.line {
			end = int(at.column)
		}
	}
	if n.Quoted() && int(m[len(m)-1].line) == n.line {
		quote = 1
	}
	return max(1, end-n.column+quote)
}

// Fault returns a diagnostic of what is wrong with the node, marked under all of
// it.
func (n *Node) Fault(code diagnostic.Code, message string) *diagnostic.Diagnostic {
	return &diagnostic.Diagnostic{Place: n.Place(), Width: n.Width(), Code: code, Message: message}
}

// describe says in a few words what the node is, for messages.
func (n *Node) describe() string {
	switch {
	case n.Shape() != Scalar:
		return n.Shape().String()
	case n.text == "" && n.style == plain:
		return "nothing"
	}
	return quote(n.text)
}
