// Package mutation, which holds nothing but a test, measures how well the trials of a rulebook guard it: it
// changes one condition or number at a time, and asks whether any trial notices.
//
// What no trial notices is either a rule that the trials do not hold, or a
// change that makes no difference for any job; the report lists each, with its
// place, for a person to tell which.
package mutation

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/inside"
)

// mutant is one change of a rule file.
type mutant struct {
	Place diagnostic.Place
	// Kind of change: comparison, number or word.
	Kind string
	// Key is the entry that is changed, such as when.
	Key      string
	From, To string
	// Rule names the rule, check or setting in which it stands.
	Rule string

	file    string
	offset  int  // bytes into the file
	promise bool // it is of a promise
}

// String tells the change in one line.
func (m mutant) String() string {
	return fmt.Sprintf("%s: %s, %s: %s became %s", m.Place, m.Rule, m.Key, m.From, m.To)
}

// apply makes the change in the file's bytes.
func (m mutant) apply(data []byte) []byte {
	return slices.Concat(data[:m.offset], []byte(m.To), data[m.offset+len(m.From):])
}

// keys whose texts are conditions or values of the rulebook.
var keys = []string{"when", "answer", "holds", "value", "at_least", "at_most", "amount", "item", "step", "weighs"}

// mutantsOf lists every change of a rulebook's files, in the order of the text:
// each comparison turned to its neighbor, each number nudged, each word swapped
// for the next of its vocabulary.
func mutantsOf(fsys fs.FS, book *groundrule.Book) ([]mutant, error) {
	names, err := fs.Glob(fsys, "*.yaml")
	if err != nil {
		return nil, err
	}
	swaps := swapsOf(book)
	var out []mutant
	for _, name := range names {
		data, err := fs.ReadFile(fsys, name)
		if err != nil {
			return nil, err
		}
		root, faults := document.Read(name, data, document.Limits{})
		if err := faults.Err(); err != nil {
			return nil, err
		}
		w := &walker{file: name, lines: lineStarts(data), data: data, swaps: swaps}
		w.walk(root, path.Base(name))
		out = append(out, w.out...)
	}
	return out, nil
}

// swapsOf gives, for each word, the next of its vocabulary.
func swapsOf(book *groundrule.Book) map[string]string {
	out := map[string]string{}
	for _, kind := range inside.Rules(book).Vocabularies() {
		words := inside.Rules(book).Words(kind)
		for i, w := range words {
			if len(words) > 1 {
				out[w.Name] = words[(i+1)%len(words)].Name
			}
		}
	}
	return out
}

type walker struct {
	file  string
	data  []byte
	lines []int
	swaps map[string]string
	out   []mutant
}

func lineStarts(data []byte) []int {
	out := []int{0}
	for i, b := range data {
		if b == '\n' {
			out = append(out, i+1)
		}
	}
	return out
}

// walk looks for conditions and values below a node. owner names the nearest
// rule, check or setting.
func (w *walker) walk(n *document.Node, owner string) {
	switch n.Shape() {
	case document.Sequence:
		for _, item := range n.Items() {
			w.walk(item, owner)
		}
	case document.Mapping:
		for _, f := range n.Fields() {
			if slices.Contains([]string{"rule", "limit", "check", "caution", "refusal", "course", "quantity"}, f.Key.Text()) && f.Value.Shape() == document.Scalar {
				owner = f.Value.Text()
			}
		}
		for _, f := range n.Fields() {
			key := f.Key.Text()
			switch {
			case key == "rows":
				for _, row := range f.Value.Fields() {
					w.cells(orCells(row.Value), row.Key.Text())
				}
			case key == "promises":
				before := len(w.out)
				w.walk(f.Value, key)
				for i := range w.out[before:] {
					w.out[before+i].promise = true
				}
			case key == "materials" || key == "sources" || key == "vocabularies" || key == "kinds":
			case f.Value.Shape() != document.Scalar:
				name := owner
				if f.Value.Shape() == document.Mapping {
					name = key
				}
				w.walk(f.Value, name)
			case slices.Contains(keys, key):
				w.text(f.Value, key, owner)
			}
		}
	}
}

// orCells are the cells of a row, which may have more keys.
func orCells(row *document.Node) *document.Node {
	if row.Shape() == document.Mapping {
		return row.Field("cells")
	}
	return row
}

// cells changes what the cells of a row say.
func (w *walker) cells(n *document.Node, owner string) {
	for _, cell := range n.Items() {
		if cell.Shape() == document.Sequence {
			w.cells(cell, owner)
			continue
		}
		w.text(cell, "cell", owner)
	}
}

// token finds what may be changed: a quoted text is passed over.
var token = regexp.MustCompile(`'[^']*'|"[^"]*"|<=|>=|==|!=|<|>|[A-Za-z_][A-Za-z0-9_.]*|[0-9]+(?:\.[0-9]+)?`)

var turned = map[string]string{"<": "<=", "<=": "<", ">": ">=", ">=": ">", "==": "!=", "!=": "=="}

func (w *walker) text(n *document.Node, key, owner string) {
	text := n.Text()
	for _, m := range token.FindAllStringIndex(text, -1) {
		from := text[m[0]:m[1]]
		kind, to := w.change(from)
		if to == "" {
			continue
		}
		at := n.At(utf8.RuneCountInString(text[:m[0]]))
		offset := w.offset(at)
		if !strings.HasPrefix(string(w.data[offset:]), from) {
			continue // an escape stands there; such a text is left alone
		}
		w.out = append(w.out, mutant{Place: at, Kind: kind, Key: key, From: from, To: to, Rule: owner, file: w.file, offset: offset})
	}
}

// change returns what a token becomes, "" if it is left alone.
func (w *walker) change(from string) (kind, to string) {
	if to, ok := turned[from]; ok {
		return "comparison", to
	}
	if to, ok := map[string]string{"yes": "no", "no": "yes", "below": "over"}[from]; ok {
		return "word", to
	}
	if from == "true" {
		return "word", "false"
	}
	if from == "false" {
		return "word", "true"
	}
	if to, ok := w.swaps[from]; ok {
		return "word", to
	}
	if x, err := strconv.ParseFloat(from, 64); err == nil && from[0] >= '0' && from[0] <= '9' {
		return "number", nudged(x)
	}
	return "", ""
}

// nudge is the part by which a number is raised.
const nudge = 0.1

// nudged raises a number by a tenth, and zero to one.
func nudged(x float64) string {
	if x == 0 {
		return "1"
	}
	return strconv.FormatFloat(x+x*nudge, 'f', -1, 64)
}

// offset turns a place into bytes of the file.
func (w *walker) offset(at diagnostic.Place) int {
	line := w.data[w.lines[at.Line-1]:]
	offset := 0
	for range at.Column - 1 {
		_, size := utf8.DecodeRune(line[offset:])
		offset += size
	}
	return w.lines[at.Line-1] + offset
}
