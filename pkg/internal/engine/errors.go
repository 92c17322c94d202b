package engine

import (
	"errors"
	"fmt"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/value"
)

// noOrder says that neither of two values is the larger.
func noOrder(v, w value.Value) error {
	return fmt.Errorf("%s and %s cannot be compared", v, w)
}

// SetupError is what is wrong with what a rulebook is compiled against, such as a
// calculation; whoever wrote the program must act.
type SetupError struct{ Err error }

func (e *SetupError) Error() string { return e.Err.Error() }

// Unwrap returns the cause.
func (e *SetupError) Unwrap() error { return e.Err }

// ErrOverride is wrapped by an override that cannot be followed; whoever wrote the
// job must act.
var ErrOverride = errors.New("the override cannot be followed")

// OverrideRule stands for the rule in the error of an override.
const OverrideRule = "override"

// ErrThickness is wrapped when a course comes to a thickness below zero.
var ErrThickness = errors.New("a course cannot be thinner than nothing")

// ErrInput is wrapped when a site gives a value of another kind than was
// declared.
var ErrInput = errors.New("the site gives a value of another kind")

// CallError is a calculation that refused the arguments that a rule gave it:
// out of range, or not enough to tell.
type CallError = language.CallError

// NotCalculated finds, in an error of a run, the calculation that refused the
// job: a job that such a calculation does not reach is refused, not failed. A
// calculation that is itself at fault does not count.
func NotCalculated(err error) (*CallError, bool) {
	var call *CallError
	if !errors.As(err, &call) || errors.Is(err, language.ErrCalculation) {
		return nil, false
	}
	return call, true
}
