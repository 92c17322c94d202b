// Package diagnostic says what is wrong in a file that a person wrote: where,
// what was found, what was wanted, and the nearest right name.
//
// It is for rule files and job files alike, and knows the language of neither.
package diagnostic

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Place is a position in a file. Lines and columns count from 1, columns in
// characters. A zero Line means the whole file.
type Place struct {
	// File by its name.
	File string `json:"file"`
	// Line of the file, counted from 1.
	Line int `json:"line,omitempty"`
	// Column of the line in characters, counted from 1.
	Column int `json:"column,omitempty"`
}

// String returns file:line:column, as editors read it.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Column == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// before puts the place before a message, if there is a place.
func (p Place) before(message string) string {
	if p == (Place{}) {
		return message
	}
	return p.String() + ": " + message
}

// Compare orders places by file, line and column.
func (p Place) Compare(q Place) int {
	return cmp.Or(strings.Compare(p.File, q.File), p.Line-q.Line, p.Column-q.Column)
}

// Code is a short stable name of a kind of fault, such as "unknown-name". Every
// code is a constant of the package that finds the fault; CODES.md lists them.
type Code string

// Diagnostic is one thing wrong at one place.
type Diagnostic struct {
	Place Place `json:"place"`
	// Width is how many characters the mark covers; 0 is read as 1.
	Width int `json:"width,omitempty"`
	// Path is what the fault is about, as a path of keys such as soil.cbr[2] or
	// overrides[0].answer; it is "" where there is none. A form finds the field
	// by it.
	Path string `json:"path,omitempty"`
	// Code is the kind of fault.
	Code Code `json:"code"`
	// Message says in lower case what is wrong.
	Message string `json:"message"`
	// Found and Wanted say what stood there and what would do; either may be "".
	Found  string `json:"found,omitempty"`
	Wanted string `json:"wanted,omitempty"`
	// Nearest is the nearest right name, or "".
	Nearest string `json:"nearest,omitempty"`
	// Repaired is the whole line of the place as it would be right, or "".
	Repaired string `json:"repaired,omitempty"`
	// Related are other places that have a part in it.
	Related []Related `json:"related,omitempty"`
}

// Related is another place that has a part in a fault.
type Related struct {
	Place Place `json:"place"`
	// Path is what stands there, as in [Diagnostic]; it is "" where there is none.
	Path    string `json:"path,omitempty"`
	Message string `json:"message"`
}

// Error returns the diagnostic in one line, without a place where there is none.
func (d *Diagnostic) Error() string {
	if d == nil {
		return "<nil>"
	}
	var b strings.Builder
	b.WriteString(d.Place.before(d.Message))
	if d.Found != "" {
		fmt.Fprintf(&b, "; found %s", d.Found)
	}
	if d.Wanted != "" {
		fmt.Fprintf(&b, "; wanted %s", d.Wanted)
	}
	if d.Nearest != "" {
		fmt.Fprintf(&b, "; did you mean %q?", d.Nearest)
	}
	if d.Repaired != "" {
		fmt.Fprintf(&b, "; write %s", strings.TrimSpace(d.Repaired))
	}
	for _, r := range d.Related {
		b.WriteString("; " + r.Place.before(r.Message))
	}
	return b.String()
}

// List is everything wrong, found in one run. It is an error if not empty; use
// [List.Err] to hand it on, so that an empty list becomes nil.
type List []*Diagnostic

// Add appends a diagnostic.
func (l *List) Add(d *Diagnostic) { *l = append(*l, d) }

// Addf appends a diagnostic with a formatted message.
func (l *List) Addf(at Place, code Code, format string, args ...any) *Diagnostic {
	d := &Diagnostic{Place: at, Code: code, Message: fmt.Sprintf(format, args...)}
	l.Add(d)
	return d
}

// Sort orders the list by place, keeping the order of equals.
func (l List) Sort() {
	slices.SortStableFunc(l, func(a, b *Diagnostic) int { return a.Place.Compare(b.Place) })
}

// Err returns the list, sorted, as an error, or nil if it is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	l.Sort()
	return l
}

// Error returns each diagnostic on a line of its own.
func (l List) Error() string {
	lines := make([]string, len(l))
	for i, d := range l {
		lines[i] = d.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find each diagnostic.
func (l List) Unwrap() []error {
	out := make([]error, len(l))
	for i, d := range l {
		out[i] = d
	}
	return out
}
