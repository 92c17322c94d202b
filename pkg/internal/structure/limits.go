package structure

import (
	"errors"
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// ErrNoAnswer is wrapped by the errors of calculations that were asked for a
// value that does not exist in range, such as an SN for more traffic than any
// section carries.
var ErrNoAnswer = errors.New("no answer in range")

// ownLimit is the document of a range that no publication sets.
const ownLimit = "limit of this library"

// slack lets a value through that lost a bound by rounding on its way through a
// unit, as 1,000 psi may on its way through pascals.
const slack = 1e-12

// bound is the range of one argument.
type bound struct {
	value     string
	unit      string
	low, high float64
	above     bool // low itself is outside
	document  string
}

func (b bound) words() string {
	unit := ""
	if b.unit != "" {
		unit = " " + b.unit
	}
	if b.above {
		return fmt.Sprintf("above %g up to %g%s", b.low, b.high, unit)
	}
	return fmt.Sprintf("%g to %g%s", b.low, b.high, unit)
}

// check returns a range error unless x, in the unit of b, is inside. NaN is outside.
func (b bound) check(x float64) error {
	low, high := b.low-slack*math.Abs(b.low), b.high+slack*math.Abs(b.high)
	if x >= low && x <= high && (!b.above || x > b.low) {
		return nil
	}
	return calculation.OutOfRange(b.value, x, b.unit, b.words(), b.document)
}

// first returns the first error, so that a list of checks reads as one.
func first(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// wordError is the error of a word that is not in its vocabulary.
func wordError(value, got string, v value.Vocabulary, document string) error {
	labels := make([]string, len(v.Words))
	for i, w := range v.Words {
		labels[i] = w.Label
	}
	return &calculation.WordError{Name: value, Got: got, Want: labels, Document: document}
}

// The bounds of geometry and load that no publication sets. They are far beyond
// any paver section and keep every result finite.
var (
	loadBound     = bound{"load", "lbf", 0, 1e6, true, ownLimit}
	pressureBound = bound{"pressure", "psi", 0, 1e4, true, ownLimit}
	depthBound    = bound{"depth", "m", 0, 100, false, ownLimit}
	radiusBound   = bound{"radius", "m", 1e-3, 100, false, ownLimit}
	sideBound     = bound{"side", "m", 1e-3, 100, false, ownLimit}
)

func checkLoad(p quantity.Force) error        { return loadBound.check(p.PoundsForce()) }
func checkPressure(q quantity.Pressure) error { return pressureBound.check(q.PSI()) }
func checkDepth(z quantity.Length) error      { return depthBound.check(z.Meters()) }
func checkRadius(a quantity.Length) error     { return radiusBound.check(a.Meters()) }
func checkSide(b quantity.Length) error       { return sideBound.check(b.Meters()) }

// leastRoot finds where a rising function crosses zero between low and high, by
// bisection down to neighboring numbers. The caller has proven that f(low) < 0
// and f(high) >= 0 and that f rises. The end on the far side is given, so that
// f of the result is never below zero.
func leastRoot(f func(float64) float64, low, high float64) float64 {
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return high
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
}
