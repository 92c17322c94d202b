package diagnostic

import (
	"encoding/json"
	"io"
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
	out := make(List, 0, len(l))
	for _, d := range l {
		if d != nil {
			out = append(out, d)
		}
	}
	out.Sort()
	return out
}
