package drainage

import (
	"errors"

	"example.com/groundrule/pkg/calculation"
)

// ErrCannotTell is wrapped by every error that says the data do not go far
// enough: a size outside the tabulated sieves, a table that gives only a bound.
// The answer is to measure more, not to extrapolate.
var ErrCannotTell = errors.New("cannot be told from what is known")

// ErrGradation is wrapped by every error about a gradation that cannot be.
var ErrGradation = errors.New("not a gradation")

// unitSlip is the document of bounds that no publication sets. They lie far
// outside any pavement and catch a value given in the wrong unit.
const unitSlip = "no document; a bound against slips of unit"

// within checks that x, in the unit named, lies from least to most.
func within(name string, x float64, unit string, least, most float64, words, document string) error {
	if calculation.Finite(x) && x >= least && x <= most {
		return nil
	}
	return calculation.OutOfRange(name, x, unit, words, document)
}
