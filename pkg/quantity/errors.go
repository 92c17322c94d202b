package quantity

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

var (
	// ErrNotFinite is wrapped where a value is NaN or infinite, or where
	// working it out would make it so.
	ErrNotFinite = errors.New("value is not a finite number")
	// ErrDimension is wrapped where dimensions do not fit one another, or a
	// value has none.
	ErrDimension = errors.New("dimensions do not fit")
)

// ParseError says what is wrong in a text that should be a quantity.
type ParseError struct {
	// Text is the whole text.
	Text string
	// Offset is where in Text the fault stands, in runes from 0.
	Offset int
	// Problem says in lower case what is wrong there.
	Problem string
	// Wanted lists what would do, such as the units of the wanted dimension;
	// it may be empty.
	Wanted []string
	// Nearest is the spelling that was most likely meant, or "".
	Nearest string

	cause error
}

// Error tells the text, the problem, the nearest unit and what would do.
func (e *ParseError) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%q at character %d: %s", e.Text, e.Offset+1, e.Problem)
	if e.Nearest != "" {
		fmt.Fprintf(&b, "; did you mean %q?", e.Nearest)
	}
	if len(e.Wanted) > 0 {
		fmt.Fprintf(&b, "; wanted one of: %s", strings.Join(e.Wanted, ", "))
	}
	return b.String()
}

// Unwrap returns [ErrDimension] for a unit of the wrong dimension, [ErrNotFinite]
// for a number that is too large, and nil for a fault of spelling.
func (e *ParseError) Unwrap() error { return e.cause }

// check refuses a value that has no dimension or is not finite.
func (q Quantity) check() error {
	if !q.Dim.Valid() {
		return fmt.Errorf("%w: value has no dimension", ErrDimension)
	}
	if math.IsNaN(q.SI) || math.IsInf(q.SI, 0) {
		return fmt.Errorf("%s: %w", q.Dim, ErrNotFinite)
	}
	return nil
}

// checkBoth is check for the two sides of an operation.
func checkBoth(a, b Quantity) error {
	if err := a.check(); err != nil {
		return err
	}
	return b.check()
}

// article puts "a" or "an" before the words of a dimension.
func article(d Dimension) string {
	if strings.ContainsRune("aeiou", rune(d.String()[0])) {
		return "an " + d.String()
	}
	return "a " + d.String()
}
