package document

import (
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// The codes of what an [Entry] reports.
const (
	CodeNotMapping   diagnostic.Code = "not-a-mapping"     // a list or a single value where a mapping is wanted
	CodeNotList      diagnostic.Code = "not-a-list"        // a mapping or a single value where a list is wanted
	CodeNotSingle    diagnostic.Code = "not-a-value"       // a mapping or a list where a single value is wanted
	CodeNotBool      diagnostic.Code = "not-true-or-false" // something else where true or false is wanted
	CodeNotNumber    diagnostic.Code = "not-a-number"      // something else where a finite number is wanted
	CodeMissingKey   diagnostic.Code = "missing-key"       // a key that is needed is not there
	CodeMissingValue diagnostic.Code = "missing-value"     // a key that is needed is there, without a value
	CodeUnknownKey   diagnostic.Code = "unknown-key"       // a key that nobody asked for
)

// Entry reads a mapping strictly: what is asked for is known, and Done reports
// every key that was not asked for, with the nearest that was.
//
// The Entry of a node that is no mapping is empty, and reports nothing further.
type Entry struct {
	node   *Node // nil if it was no mapping
	what   string
	faults *diagnostic.List
	asked  []string
	lacks  map[string]*diagnostic.Diagnostic // by the key that is missing
}

// Entry opens n as a mapping. what names it for messages, such as "a rule".
// If n is not a mapping that is reported and the Entry is empty. Of a nil node,
// and of one that Read refused, nothing is reported, since that was done where
// it went missing.
func (n *Node) Entry(what string, faults *diagnostic.List) *Entry {
	e := &Entry{what: what, faults: faults}
	switch n.Shape() {
	case Mapping:
		e.node = n
	case NoShape:
	default:
		d := faults.Addf(n.Place(), CodeNotMapping, "%s must be keys with values", what)
		d.Found, d.Wanted, d.Width = n.describe(), `lines such as "key: value" under it`, n.Width()
	}
	return e
}

// ask notes that key is known, and gives its field.
func (e *Entry) ask(key string) (Field, bool) {
	if !slices.Contains(e.asked, key) {
		e.asked = append(e.asked, key)
	}
	for _, f := range e.node.Fields() {
		if f.Key.text == key {
			return f, true
		}
	}
	return Field{}, false
}

// Get returns the node under key, or nil if the key is absent or null.
func (e *Entry) Get(key string) *Node {
	if f, ok := e.ask(key); ok && !f.Value.Null() {
		return f.Value
	}
	return nil
}

// Key returns the node of the key itself, or nil if it is absent, for its place.
func (e *Entry) Key(key string) *Node {
	f, _ := e.ask(key)
	return f.Key
}

// Need is Get, and reports it if the key is absent or null.
func (e *Entry) Need(key string) *Node {
	n := e.Get(key)
	if n == nil {
		e.missing(key)
	}
	return n
}

// missing reports that key has no value.
func (e *Entry) missing(key string) {
	if e.node == nil {
		return
	}
	if f, ok := e.ask(key); ok {
		d := e.faults.Addf(f.Key.Place(), CodeMissingValue, "%q of %s has no value", key, e.what)
		d.Wanted, d.Width = "a value", f.Key.Width()
		return
	}
	d := e.faults.Addf(e.node.Place(), CodeMissingKey, "%s needs the key %q", e.what, key)
	d.Wanted = key
	if e.lacks == nil {
		e.lacks = map[string]*diagnostic.Diagnostic{}
	}
	e.lacks[key] = d
}

// wrong reports the value under key.
func (e *Entry) wrong(key string, n *Node, code diagnostic.Code, what, wanted string) *diagnostic.Diagnostic {
	d := e.faults.Addf(n.Place(), code, "%q of %s must be %s", key, e.what, what)
	d.Found, d.Wanted, d.Width = n.describe(), wanted, n.Width()
	return d
}

// Text returns the scalar text under key, "" if absent; one that is blank, or is not
// a scalar, is reported.
func (e *Entry) Text(key string) string {
	n := e.Get(key)
	switch n.Shape() {
	case Mapping, Sequence:
		e.wrong(key, n, CodeNotSingle, "a single value", "")
	case Scalar:
		if strings.TrimSpace(n.text) == "" {
			e.missing(key)
			return ""
		}
	}
	return n.Text()
}

// NeedText is Text, and reports it if absent.
func (e *Entry) NeedText(key string) string {
	if e.Get(key) == nil {
		e.missing(key)
		return ""
	}
	return e.Text(key)
}

// Bool reports whether true stands under key. Only the plain words true and false will
// do: yes, on and "true" are reported.
func (e *Entry) Bool(key string) bool {
	n := e.Get(key)
	plainly := n.Shape() == Scalar && n.style == plain
	switch {
	case n.Shape() == NoShape, plainly && n.text == "false":
		return false
	case plainly && n.text == "true":
		return true
	}
	d := e.wrong(key, n, CodeNotBool, "true or false", "true or false")
	d.Nearest = diagnostic.Nearest(n.text, []string{"true", "false"})
	return false
}

// Items returns the items of the sequence under key, nil if absent; a single
// value where a sequence is wanted is reported, and so is a mapping.
func (e *Entry) Items(key string) []*Node {
	n := e.Get(key)
	switch n.Shape() {
	case Sequence:
		return n.items
	case Mapping, Scalar:
		e.wrong(key, n, CodeNotList, "a list", "a list, each item after a dash")
	}
	return nil
}

// Done reports the keys that nobody asked for.
func (e *Entry) Done() {
	for _, f := range e.node.Fields() {
		if slices.Contains(e.asked, f.Key.text) {
			continue
		}
		d := e.faults.Addf(f.Key.Place(), CodeUnknownKey, "unknown key %s in %s", quote(f.Key.text), e.what)
		d.Found, d.Width = quote(f.Key.text), f.Key.Width()
		d.Wanted = known(e.asked)
		if e.commaIn(f, d) {
			continue
		}
		// The nearest is looked for only if the key is of the length of a key:
		// the search takes time with the length of both.
		if utf8.RuneCountInString(f.Key.text) <= 100 {
			d.Nearest = diagnostic.Nearest(f.Key.text, e.asked)
		}
		if lacks := e.lacks[d.Nearest]; lacks != nil { // one slip is told once
			*e.faults = slices.DeleteFunc(*e.faults, func(d *diagnostic.Diagnostic) bool { return d == lacks })
		}
	}
}

// commaIn reports whether a field is the rest of the text before it, which a comma
// between braces ended, and tells so.
func (e *Entry) commaIn(rest Field, d *diagnostic.Diagnostic) bool {
	var text *Node
	for _, f := range e.node.Fields() {
		if n := f.Value; n.Shape() == Scalar && n.line == rest.Key.line && n.column < rest.Key.column && (text == nil || n.column > text.column) {
			text = n
		}
	}
	if text == nil || text.Quoted() || rest.Key.Quoted() || rest.Value.Text() != "" || !rest.Value.Null() {
		return false
	}
	line := text.origin.line(text.line)
	from, to := text.column-1, rest.Key.column-1+rest.Key.Width()
	if to > len(line) || !strings.Contains(string(line[from:to]), ",") {
		return false
	}
	d.Message, d.Wanted = "a comma ends a text between { }", "quotes around a text that has one"
	d.Place, d.Width = text.Place(), to-from
	d.Found = quote(string(line[from:to]))
	d.Repaired = string(line[:from]) + inQuotes(string(line[from:to])) + string(line[to:])
	return true
}

func known(keys []string) string {
	if len(keys) < 2 {
		return strings.Join(keys, "")
	}
	last := len(keys) - 1
	return strings.Join(keys[:last], ", ") + " or " + keys[last]
}
