// Package document reads one YAML or JSON file that a person wrote, under
// limits, and keeps the place of everything in it, down to each character of a
// scalar, so that what is wrong can be shown where it stands.
package document

import "example.com/groundrule/pkg/diagnostic"

// Shape is the shape of a node.
type Shape uint8

// The shapes of a node.
const (
	NoShape Shape = iota
	Mapping
	Sequence
	Scalar
)

// Limits bound what a file may hold. A zero field takes the default.
type Limits struct {
	Bytes int // size of the file; default 1 MiB
	Depth int // nesting of nodes; default 40
	Nodes int // nodes in all; default 100,000
	Text  int // bytes of one scalar; default 64 KiB
}

// Node is a mapping, a sequence or a scalar.
type Node struct{}

// Field is one entry of a mapping.
type Field struct {
	Key   *Node
	Value *Node
}

// Read parses the file. Anchors, aliases, tags, merge keys, several documents
// in one file and duplicate keys are refused, each with its own diagnostic.
// The node is nil if the file cannot be parsed at all or is empty.
func Read(file string, data []byte, limits Limits) (*Node, diagnostic.List) { panic("stub") }

func (n *Node) Shape() Shape { panic("stub") }

// Place of the node's first character.
func (n *Node) Place() diagnostic.Place { panic("stub") }

// Null reports an empty or null scalar that was written plain.
func (n *Node) Null() bool { panic("stub") }

// Text is a scalar's text after YAML's unquoting and folding.
func (n *Node) Text() string { panic("stub") }

// At gives the place in the file of the character at the given rune offset of
// Text, in plain, quoted, | and > scalars alike. An offset past the end gives
// the place just after the last character.
func (n *Node) At(runeOffset int) diagnostic.Place { panic("stub") }

// Quoted reports a scalar that was written in quotes.
func (n *Node) Quoted() bool { panic("stub") }

// Fields of a mapping, in file order.
func (n *Node) Fields() []Field { panic("stub") }

// Items of a sequence, in file order.
func (n *Node) Items() []*Node { panic("stub") }

// Entry reads a mapping strictly: what is asked for is known, and Done reports
// every key that was not asked for, with the nearest that was.
type Entry struct{}

// Entry opens n as a mapping. what names it for messages, such as "a rule".
// If n is not a mapping that is reported and the Entry is empty.
func (n *Node) Entry(what string, faults *diagnostic.List) *Entry { panic("stub") }

// Get gives the node under key, or nil if the key is absent or null.
func (e *Entry) Get(key string) *Node { panic("stub") }

// Need is Get, and reports it if the key is absent or null.
func (e *Entry) Need(key string) *Node { panic("stub") }

// Text gives the scalar text under key, "" if absent; not a scalar is reported.
func (e *Entry) Text(key string) string { panic("stub") }

// NeedText is Text, and reports it if absent or empty.
func (e *Entry) NeedText(key string) string { panic("stub") }

// Bool gives true or false under key, reporting anything else; absent is the fallback.
func (e *Entry) Bool(key string, fallback bool) bool { panic("stub") }

// Number gives the plain number under key and whether it was there; anything
// that is not a finite number is reported.
func (e *Entry) Number(key string) (float64, bool) { panic("stub") }

// Items gives the items of the sequence under key, nil if absent; a single
// value where a sequence is wanted is reported.
func (e *Entry) Items(key string) []*Node { panic("stub") }

// Place of the mapping.
func (e *Entry) Place() diagnostic.Place { panic("stub") }

// Keys gives every key written, in file order, without counting it as asked for.
func (e *Entry) Keys() []string { panic("stub") }

// Done reports the keys that nobody asked for.
func (e *Entry) Done() { panic("stub") }
