// Package document reads one YAML or JSON file that a person wrote, under
// limits, and keeps the place of everything in it, down to each character of a
// scalar, so that what is wrong can be shown where it stands.
//
// It is stricter than YAML. A file is one document of mappings, lists and
// scalars whose text is taken as written: anchors, aliases, tags, merge keys
// and duplicate keys are refused, because what a reader of the file sees must
// be what the program reads. No scalar is turned into a number, a date or a
// truth value until someone asks for one.
//
// A file whose name ends in .json and whose first character is { or [ is read
// as JSON by the letter (RFC 8259). In any other file JSON is read as YAML
// reads it, which differs in that \/ and surrogate pairs such as \uD83D\uDE00
// are refused there. A lone surrogate in a JSON string is refused too, since it
// is no character.
package document

import (
	"cmp"
	"fmt"
	"strings"
	"sync"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// Limits bound what a file may hold. A zero field takes the default.
type Limits struct {
	Bytes int // size of the file; default 1 MiB
	Depth int // nesting of nodes; default 40
	Nodes int // nodes in all, keys counted; default 100,000
	Text  int // bytes of one scalar; default 64 KiB
}

// The limits taken for a zero field of [Limits]. They are far above what a
// person writes and far below what strains a machine.
const (
	DefaultBytes = 1 << 20
	DefaultDepth = 40
	DefaultNodes = 100_000
	DefaultText  = 64 << 10
)

// The codes of what [Read] reports.
const (
	CodeTooLarge     diagnostic.Code = "file-too-large"    // more bytes than are read of one file
	CodeTooDeep      diagnostic.Code = "nested-too-deep"   // lists and mappings within each other, deeper than are read
	CodeTooMany      diagnostic.Code = "too-many-nodes"    // more entries than are read of one file
	CodeTooLong      diagnostic.Code = "text-too-long"     // one text longer than is read
	CodeEmpty        diagnostic.Code = "file-empty"        // nothing but space and comments
	CodeNotText      diagnostic.Code = "not-utf8"          // bytes that are not UTF-8
	CodeBadCharacter diagnostic.Code = "bad-character"     // a control character, which no text file should hold
	CodeSyntax       diagnostic.Code = "syntax"            // not YAML, or not JSON
	CodeSeveral      diagnostic.Code = "several-documents" // a second document in the file
	CodeAnchor       diagnostic.Code = "anchor"            // an anchor such as &name
	CodeAlias        diagnostic.Code = "alias"             // an alias such as *name
	CodeTag          diagnostic.Code = "tag"               // a tag such as !name
	CodeMergeKey     diagnostic.Code = "merge-key"         // the merge key <<
	CodeDuplicateKey diagnostic.Code = "duplicate-key"     // a key twice in one mapping
	CodeKeyNotText   diagnostic.Code = "key-not-text"      // a key that is empty, a list or a mapping
)

func (l Limits) filled() Limits {
	return Limits{Bytes: cmp.Or(max(l.Bytes, 0), DefaultBytes), Depth: cmp.Or(max(l.Depth, 0), DefaultDepth),
		Nodes: cmp.Or(max(l.Nodes, 0), DefaultNodes), Text: cmp.Or(max(l.Text, 0), DefaultText)}
}

// original is the file as it was given, which every node of it shares.
type original struct {
	file string
	data string // without a byte order mark
	// lines splits it once, when first a line is looked at.
	lines func() []string
}

func (o *original) whole() diagnostic.Place { return diagnostic.Place{File: o.file} }

// place of the character that starts at the byte offset. It reads the file
// from its start, so it is for what is reported once.
func (o *original) place(offset int) diagnostic.Place {
	c := newCursor(o.data)
	c.to(offset)
	return o.at(c)
}

// at is the place of a cursor in the file.
func (o *original) at(c cursor) diagnostic.Place {
	return diagnostic.Place{File: o.file, Line: c.line, Column: c.column}
}

// node makes a node that begins at a cursor.
func (o *original) node(c cursor) *Node {
	return &Node{origin: o, offset: c.offset, line: c.line, column: c.column}
}

// guard holds the nodes of a file against the limits.
type guard struct {
	origin *original
	limits Limits
	faults *diagnostic.List
	nodes  int
}

// within counts a node with a text of so many bytes, and reports whether it is
// within the limits.
func (g *guard) within(n *Node, text, depth int) bool {
	g.nodes++
	switch {
	case depth > g.limits.Depth:
		reportTooDeep(n.Place(), g.limits, g.faults)
	case g.nodes > g.limits.Nodes:
		d := g.faults.Addf(n.Place(), CodeTooMany, "the file holds too many entries to read")
		d.Wanted = fmt.Sprintf("at most %d keys, values, lists and mappings", g.limits.Nodes)
	case text > g.limits.Text:
		d := g.faults.Addf(n.Place(), CodeTooLong, "a text is too long to read")
		d.Found = bytesText(text)
		d.Wanted = "at most " + bytesText(g.limits.Text)
	default:
		return true
	}
	return false
}

func reportTooDeep(at diagnostic.Place, limits Limits, faults *diagnostic.List) {
	d := faults.Addf(at, CodeTooDeep, "the file is nested too deep to read")
	d.Wanted = fmt.Sprintf("at most %d levels", limits.Depth)
}

// byteOrderMark may stand at the start of a file; it is not a character of it.
const byteOrderMark = "\ufeff"

// Read parses the file. Anchors, aliases, tags, merge keys, several documents
// in one file and duplicate keys are refused, each with its own diagnostic.
//
// The node is nil if the file cannot be parsed at all, is empty (which is
// reported) or passes a limit. Otherwise the node stands even if something was
// reported, so that the rest of the file can be looked over in the same run: a
// refused alias has NoShape, and of two equal keys the first is kept.
func Read(file string, data []byte, limits Limits) (*Node, diagnostic.List) {
	limits = limits.filled()
	var faults diagnostic.List
	o := &original{file: file}
	o.lines = sync.OnceValue(func() []string {
		return strings.Split(strings.ReplaceAll(strings.ReplaceAll(o.data, "\r\n", "\n"), "\r", "\n"), "\n")
	})
	if len(data) > limits.Bytes {
		d := faults.Addf(o.whole(), CodeTooLarge, "the file is too large to read")
		d.Wanted = "at most " + bytesText(limits.Bytes) // how many more need not have been read
		return nil, faults
	}
	o.data = strings.TrimPrefix(string(data), byteOrderMark)
	if at := invalidUTF8(o.data); at >= 0 {
		d := faults.Addf(o.place(at), CodeNotText, "the file is not UTF-8 text")
		d.Found, d.Wanted = fmt.Sprintf("the byte 0x%02X", o.data[at]), "the file saved as UTF-8, as an editor offers"
		return nil, faults
	}
	read := readYAML
	if isJSON(o) {
		read = readJSON
	}
	root := read(o, limits, &faults)
	return root, faults
}

func invalidUTF8(s string) int {
	for i, r := range s {
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(s[i:]); size == 1 {
				return i
			}
		}
	}
	return -1
}
