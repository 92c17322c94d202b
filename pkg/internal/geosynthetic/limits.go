package geosynthetic

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// limit is the range in which a value may lie, with the document that sets it.
type limit struct {
	name     string
	unit     string
	least    float64
	most     float64
	openLow  bool // least itself is outside
	openHigh bool // most itself is outside
	document string
}

// check returns a [calculation.RangeError] unless x lies in the range. NaN and
// the infinities never do.
func (l limit) check(x float64) error {
	low := x > l.least || (!l.openLow && x == l.least)
	high := x < l.most || (!l.openHigh && x == l.most)
	if calculation.Finite(x) && low && high {
		return nil
	}
	return calculation.OutOfRange(l.name, x, l.unit, l.words(), l.document)
}

// words returns the range as a reader would write it.
func (l limit) words() string {
	low, high := "", ""
	if l.openLow {
		low = "above "
	}
	if l.openHigh {
		high = "below "
	}
	text := fmt.Sprintf("%s%g to %s%g", low, l.least, high, l.most)
	if l.unit != "" {
		text += " " + l.unit
	}
	return text
}

// firstError returns the first error that is not nil.
func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// unknownWord is the error for a word that its vocabulary does not hold.
func unknownWord(argument, got string, v value.Vocabulary) error {
	labels := make([]string, len(v.Words))
	for i, w := range v.Words {
		labels[i] = w.Label
	}
	return &calculation.RangeError{
		Value:    argument,
		Got:      fmt.Sprintf("%q", got),
		Range:    strings.Join(labels, ", "),
		Document: "the vocabulary " + v.Name,
	}
}

// The bounds of sense below are no document's range: they keep out values that
// can only be slips, such as a size given in the wrong unit.
const boundOfSense = "bound of sense, not from a publication"

// checkCBR checks a bearing ratio in percent of the standard crushed stone.
func checkCBR(name string, cbr float64) error {
	return limit{name: name, unit: "percent", least: 0, openLow: true, most: 100, document: boundOfSense}.check(cbr)
}

// checkFines checks a percentage passing the No. 200 sieve (0.075 mm).
func checkFines(percent float64) error {
	return limit{name: "fines", unit: "percent", least: 0, most: 100, document: "a percentage"}.check(percent)
}

// checkSize checks a particle size or an opening: 0.0001 mm, finer than any
// clay, to 1 m.
func checkSize(name string, size quantity.Length) error {
	return limit{name: name, unit: "mm", least: 0.0001, most: 1000, document: boundOfSense}.check(size.Millimeters())
}

// checkThickness checks a layer or a lift: above 0, to 10 m.
func checkThickness(name string, thickness quantity.Length) error {
	return limit{name: name, unit: "m", least: 0, openLow: true, most: 10, document: boundOfSense}.check(thickness.Meters())
}
