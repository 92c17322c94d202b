package diagnostic

import (
	"encoding/json"
	"io"
	"slices"
)

// WriteJSONLines writes the list for a program to read: one JSON object a line,
// in file order, with its fields in the order of [Diagnostic]. It gives the
// first error of w.
func (l List) WriteJSONLines(w io.Writer) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	for _, d := range l.inOrder() {
		if err := e.Encode(d); err != nil {
			return err
		}
	}
	return nil
}

// inOrder returns the list in file order and leaves l as it is.
func (l List) inOrder() List {
	out := slices.DeleteFunc(slices.Clone(l), func(d *Diagnostic) bool { return d == nil })
	out.Sort()
	return out
}
