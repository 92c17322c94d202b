// Package drainage works out what water and grains do in a paver section: how
// an aggregate is graded, whether one course holds another or the soil back,
// how deep a reservoir course must be, and how long it takes to empty.
//
// The functions are plain Go. They know nothing of rules, files or screens;
// [Calculations] describes those that a rule may call. Every measured value is
// a typed quantity; ratios are plain numbers.
//
// What the data do not tell is an error, [ErrCannotTell], and never a guess: a
// size finer than the finest tabulated sieve is not extrapolated. A value that
// makes no sense is a [calculation.RangeError]. No function returns NaN or an
// infinity.
package drainage

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/calculation"
)

// ErrCannotTell is wrapped by every error that says the data do not go far
// enough, such as a size outside the tabulated sieves. The answer is to measure
// more, not to extrapolate.
var ErrCannotTell = errors.New("cannot be told from what is known")

// ErrGradation is wrapped by every error about a gradation that cannot be.
var ErrGradation = errors.New("not a gradation")

// ownLimit is the document of a range that no publication sets. It lies far
// outside any pavement and catches a value given in the wrong unit.
const ownLimit = "limit of this library"

// Calculations describes every calculation of the package that a rule may call.
func Calculations() []calculation.Function {
	return slices.Concat(gradationCalculations(), filterCalculations(), reservoirCalculations(), barrierCalculations())
}

func param(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}
