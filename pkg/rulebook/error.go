package rulebook

import (
	"errors"
	"fmt"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Codes by which a program can help whoever must act. CODES.md of package
// diagnostic lists every code.
const (
	CodeNoDay           diagnostic.Code = "no-day"           // something holds on some days only, and no day was told
	CodeNoAnswer        diagnostic.Code = "no-answer"        // a rule came to no answer on this job
	CodeUnknownFunction diagnostic.Code = "unknown-function" // no function has the name
	CodeWrongArguments  diagnostic.Code = "wrong-arguments"  // a function does not take these arguments
)

// Error is what is wrong in rule files; whoever wrote them must act. It holds
// everything found in one run.
type Error struct {
	// Faults are in the order of the files.
	Faults diagnostic.List
	// More is how many faults there are beside those listed: see [Limits].
	More int
}

// Error returns each fault on a line of its own.
func (e *Error) Error() string {
	if e.More > 0 {
		return fmt.Sprintf("%s\nand %d more", e.Faults.Error(), e.More)
	}
	return e.Faults.Error()
}

// Unwrap returns the diagnostics.
func (e *Error) Unwrap() error { return e.Faults }

// RunError is a rule that came to no answer for one site.
type RunError struct {
	// In names what was worked out, such as a decision or a check; Rule the rule of
	// a decision, if it was one. Sort is check, course, caution and so on, "" of a
	// decision or a term.
	Sort, In, Rule string
	Place          diagnostic.Place
	// Text is the expression or clause, Values the values that it read.
	Text   string
	Values []NamedValue
	// Against names the rule that answered differently, for an error that wraps
	// [ErrTwoAnswers].
	Against string
	Err     error
}

// NamedValue is a value under the name by which an expression reads it.
type NamedValue struct {
	Name  string
	Value value.Value
}

// Asked names what was worked out with its sort or its rule: base_thickness, rule
// THIN; check DEEP.
func (e *RunError) Asked() string {
	out := strings.TrimSpace(e.Sort + " " + e.In)
	if e.Rule != "" {
		out += ", rule " + e.Rule
	}
	return out
}

// Error says where, what, and with which values.
func (e *RunError) Error() string {
	out := fmt.Sprintf("%s: %s: %v", e.Place, e.Asked(), e.Err)
	var with []string
	for _, v := range e.Values {
		with = append(with, v.Name+" = "+v.Value.Text(quantity.US))
	}
	if len(with) > 0 {
		out += " (with " + strings.Join(with, ", ") + ")"
	}
	return out
}

// Unwrap returns the cause.
func (e *RunError) Unwrap() error { return e.Err }

// ErrNoAnswer is wrapped when no rule of a decision holds.
var ErrNoAnswer = errors.New("no rule answers")

// ErrTwoAnswers is wrapped when two rules of an "only" decision answer
// differently.
var ErrTwoAnswers = errors.New("two rules answer differently")

// ErrCrossed is wrapped when a rule of the rulebook itself answers beyond a limit
// of its decision.
var ErrCrossed = errors.New("the answer is beyond a limit of its decision")

// ErrMissing is wrapped when a value is read that the site does not give; a
// checked rulebook never does.
var ErrMissing = errors.New("the value is missing")
