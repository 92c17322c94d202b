package calculation

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Range is the values that an argument may have: from Low to High, both included
// unless Above or Below leaves one out. An infinite bound leaves that side open.
//
// A value on a bound, in whatever unit it was written, is on it: values compare
// within the tolerance of [quantity.Quantity.Compare], as the conditions of rules do.
// NaN and the infinities are in no range.
type Range struct {
	// Name is the argument that is held to the range, such as "cbr".
	Name string
	// Unit is the unit of Low and High: the symbol of a unit of package
	// quantity, such as "in"; other words that follow a number, such as "blows
	// per foot"; or "" for a plain number.
	Unit string
	// Low and High are the bounds.
	Low, High float64
	// Above leaves out Low itself, Below leaves out High.
	Above, Below bool
	// Document is the source that sets the bounds.
	Document string
}

// Named returns r for another argument.
func (r Range) Named(name string) Range {
	r.Name = name
	return r
}

// Holds reports whether x, in r's unit, is in the range.
func (r Range) Holds(x float64) bool {
	low, high := r.order(x, r.Low), r.order(x, r.High)
	return portable.Finite(x) && (low > 0 || low == 0 && !r.Above) && (high < 0 || high == 0 && !r.Below)
}

// absolute is what each temperature scale reads at absolute zero, where a
// relative tolerance means something.
var absolute = map[string]float64{"C": -273.15, "F": -459.67}

// order returns the sign of x - bound, and 0 within the tolerance.
func (r Range) order(x, bound float64) int {
	if math.IsInf(bound, 0) {
		return int(-math.Copysign(1, bound))
	}
	zero := absolute[r.Unit]
	order, _ := plain(x - zero).Compare(plain(bound - zero)) // fails where Holds is false anyway
	return order
}

func plain(x float64) quantity.Quantity {
	return quantity.Quantity{Dim: quantity.DimRatio, SI: x}
}

// Check returns a [*RangeError] unless x, in r's unit, is in the range.
func (r Range) Check(x float64) error {
	if r.Holds(x) {
		return nil
	}
	return &RangeError{Got: x, Want: r}
}

// CheckMeasure is [Range.Check] of a measured value, which it turns into r's
// unit. A value that cannot be turned is in no range.
func (r Range) CheckMeasure(m quantity.Measure) error {
	x, err := m.Quantity().In(r.Unit)
	if err != nil {
		x = math.NaN()
	}
	return r.Check(x)
}

// Text returns the range in words, such as "above 0 and at most 10 in". Bounds
// are in r's own unit, unless the unit belongs to another system than the one
// asked for; [quantity.EitherSystem] always keeps it.
func (r Range) Text(system quantity.System) string {
	low, high := r.number(r.Low, system), r.number(r.High, system)
	noLow, noHigh := math.IsInf(r.Low, -1), math.IsInf(r.High, 1)
	atLeast, atMost := "at least ", "at most "
	if r.Above {
		atLeast = "above "
	}
	if r.Below {
		atMost = "below "
	}
	switch {
	case noLow && noHigh:
		return "a finite number"
	case noHigh:
		return atLeast + low
	case noLow:
		return atMost + high
	}
	_, unit, _ := strings.Cut(high, " ")
	low = strings.TrimSuffix(low, " "+unit) // the unit is said once
	if absolute[r.Unit] == 0 && r.Low == 0 {
		low = "0" // of any unit, but for a temperature
	}
	if !r.Above && !r.Below {
		return low + " to " + high
	}
	return atLeast + low + " and " + atMost + high
}

// number writes x, which is in r's unit.
func (r Range) number(x float64, system quantity.System) string {
	text := plain(x).Text(system)
	if !portable.Finite(x) {
		text = strconv.FormatFloat(x, 'g', -1, 64)
	}
	if r.Unit == "" {
		return text
	}
	unit, known := quantity.UnitNamed(r.Unit, quantity.NoDimension)
	if known && system.Base() != quantity.EitherSystem && unit.System != quantity.EitherSystem && unit.System != system.Base() {
		if q, err := unit.Quantity(x); err == nil {
			return q.Text(system)
		}
	}
	return text + " " + r.Unit
}

// RangeError is what a calculation returns for a value outside the range in
// which its document holds. It is never answered by extrapolating.
type RangeError struct {
	// Got is the value as given, in the unit of Want; it may be NaN or infinite.
	Got float64
	// Want is the range that it must lie in.
	Want Range
}

// Error returns the value, the range and the document, in the range's own unit.
func (e *RangeError) Error() string { return e.Text(quantity.EitherSystem) }

// Text is [RangeError.Error] in one system of units.
func (e *RangeError) Text(system quantity.System) string {
	return fmt.Sprintf("%s is %s; it must be %s (%s)", e.Want.Name, e.got(system), e.Want.Text(system), e.Want.Document)
}

// got writes the value with as many figures as it takes to show it outside.
func (e *RangeError) got(system quantity.System) string {
	r := e.Want
	text := r.number(e.Got, system)
	if text != r.number(r.Low, system) && text != r.number(r.High, system) {
		return text
	}
	for figures := 5; figures <= 17; figures++ {
		text = strconv.FormatFloat(e.Got, 'g', figures, 64)
		if x, err := strconv.ParseFloat(text, 64); err == nil && !r.Holds(x) {
			break
		}
	}
	return strings.TrimSpace(text + " " + r.Unit)
}

// WordError is what a calculation returns for a word that it does not take.
type WordError struct {
	// Name is the argument, such as "soil group".
	Name string
	// Got is the word as given, Want the words that would do.
	Got  string
	Want []string
	// Document is the source that says so.
	Document string
}

// Error returns the word, those that would do, and the document.
func (e *WordError) Error() string {
	return fmt.Sprintf("%s is %q; it must be %s (%s)", e.Name, e.Got, either(e.Want), e.Document)
}

// either writes "a", "a or b", "a, b or c".
func either(words []string) string {
	if n := len(words); n > 1 {
		return strings.Join(words[:n-1], ", ") + " or " + words[n-1]
	}
	return strings.Join(words, "")
}

// CheckWord returns [UnknownWord] unless w is a word of its vocabulary.
func CheckWord[T worded](argument string, w T) error {
	for _, each := range w.Vocabulary().Words {
		if each.GoValue() == string(w) {
			return nil
		}
	}
	return UnknownWord(argument, w)
}

// UnknownWord is the error for a word that is not of its vocabulary. Only a Go
// caller can pass one: a rule that does is refused when it is read.
func UnknownWord[T worded](argument string, w T) error {
	v := w.Vocabulary()
	e := &WordError{Name: argument, Got: string(w), Document: "the words of " + v.Name}
	for _, each := range v.Words {
		e.Want = append(e.Want, each.GoValue())
	}
	return e
}

type worded interface {
	~string
	value.Worded
}
