// Package calculation describes a calculation once, so that whoever calls it
// needs to know nothing of how it is written.
//
// A [Function] holds the name by which the rule language calls it, what each
// argument and the result mean, the range in which it holds, the sources, and
// the Go function itself. The dimension of each argument is read from the Go
// type: a [quantity.Length] is a length, a float64 a plain number, a type with
// a Vocabulary method a word. No type of the rule language appears here; the
// rulebook binds what is described, and an embedder describes its own functions
// the same way.
package calculation

import (
	"errors"

	"example.com/groundrule/pkg/value"
)

// Function describes one calculation.
type Function struct {
	// Name is what the rule language calls it: lower case words joined by "_".
	Name string
	// About says in one sentence what it works out.
	About string
	// Params describes the arguments, in order.
	Params []Param
	// Result describes what comes back.
	Result Param
	// Range says in words where the function refuses, or "" if nowhere.
	Range string
	// Sources says where the method comes from; at least one.
	Sources []value.Source
	// Moves says which way the result goes as one argument rises and the others stay,
	// with a sign for each argument in order: + never falls, - never rises, . goes
	// either way, or is not known to; of a list each reading. "" is . for all.
	// Positive says that the result is never below zero. Proofs of promises rest on
	// both.
	Moves    string
	Positive bool
	// Example is a call in the rule language that a reader can try.
	Example string
	// Go is the function: func(args...) T or func(args...) (T, error).
	Go any
}

// Param describes an argument or a result.
type Param struct {
	// Name as a reader would write it, such as "cbr".
	Name string
	// About says what it means, and for a plain number its unit and range.
	About string
}

// ErrShape is wrapped by every error about a description that does not fit its
// Go function.
var ErrShape = errors.New("calculation is not described as it is written")
