package ground

import (
	"fmt"
	"strings"
)

// MissingError says that what is known does not decide the answer, and what
// would decide it.
type MissingError struct {
	// What is needed, such as "liquid limit".
	What []string
	// Because says why it decides.
	Because string
	// Document sets the need.
	Document string
}

// Error names what is missing, why, and the document.
func (e *MissingError) Error() string {
	return fmt.Sprintf("not known and needed: %s, because %s (%s)",
		strings.Join(e.What, ", "), e.Because, e.Document)
}

// SuspectError says that a pair of limits plots above or left of the U-line, so
// that the tests should be verified before the result is used.
type SuspectError struct {
	// LL and PI in percent, as whole numbers.
	LL, PI float64
}

// Error names the limits and what to do.
func (e *SuspectError) Error() string {
	return fmt.Sprintf("liquid limit %g with plasticity index %g plots above or left of the U-line: verify the tests (%s)",
		e.LL, e.PI, d2487)
}

// NoEntryError says that a table has no value for what was asked.
type NoEntryError struct {
	// Table and Entry name the table and the entry that it lacks.
	Table, Entry string
	// Because says why, or what to do instead.
	Because string
}

// Error names the table, the entry and the reason.
func (e *NoEntryError) Error() string {
	return fmt.Sprintf("%s has no value for %s: %s", e.Table, e.Entry, e.Because)
}
