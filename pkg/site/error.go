package site

import (
	"fmt"

	"example.com/groundrule/pkg/diagnostic"
)

// Error is everything that is wrong with a job, found in one run. Whoever wrote
// the job must act. errors.As finds the [diagnostic.List] in it, and each
// [diagnostic.Diagnostic].
type Error struct {
	// Faults are in the order of the file, each with the path of its field. Those
	// of a site built in Go have no place.
	Faults diagnostic.List
	// More is how many faults there are beside those listed: see [Limits].
	More int
}

// Error returns each fault on a line of its own.
func (e *Error) Error() string {
	if e == nil {
		return "<nil>"
	}
	text := e.Faults.Error()
	if e.More > 0 {
		text += fmt.Sprintf("\nand %d more", e.More)
	}
	return text
}

// Unwrap returns the list.
func (e *Error) Unwrap() error {
	if e == nil {
		return nil
	}
	return e.Faults
}

// The codes of what can be wrong with a value. What is wrong with the file as
// YAML or JSON, with a key, or with the shape of a value has the codes of
// package document.
const (
	CodeQuantity      diagnostic.Code = "bad-quantity"  // not a number with a unit that fits
	CodeWord          diagnostic.Code = "unknown-word"  // not a word of the vocabulary
	CodeText          diagnostic.Code = "bad-text"      // a blank text, or one that cannot be printed
	CodeRange         diagnostic.Code = "out-of-range"  // a value that is not possible
	CodeContradiction diagnostic.Code = "contradiction" // two values that cannot both be so
	CodeShape         diagnostic.Code = "bad-shape"     // an outline or an edge that there cannot be
	CodeRepeated      diagnostic.Code = "given-twice"   // the same thing again
)
