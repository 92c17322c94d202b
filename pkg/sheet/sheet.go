// Package sheet shows a section to people: the crew that builds it, and whoever
// asks later why it was built so.
//
// A sheet shows only what is in the [section.Section]; it decides and calculates
// nothing. Each form of sheet is a file of its own: text.go is the plain
// text of a terminal, reason.go the whole reason of one course. Sheets have no
// color and need no more than ASCII, but for what a rulebook or a job itself
// writes.
package sheet

import (
	"io"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Text writes a section as plain text in one system of units. A job that was
// refused has no section: the sheet then shows the limits that it crossed and
// who should design it. One that a check stopped begins with the warning not to
// build it.
//
// The only error is that of w.
func Text(w io.Writer, s *section.Section, system quantity.System) error {
	t := &text{page: page{system: system}, s: s, told: map[string]string{}, noted: map[string]bool{},
		amends: map[string]bool{}}
	switch s.Status {
	case section.Refused:
		t.refused()
	case section.Stopped:
		t.stopped()
	default:
		t.designed()
	}
	return t.writeTo(w)
}
