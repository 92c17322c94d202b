package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// The bounds of sense below are no document's range: they keep out values that
// can only be slips, such as a size given in the wrong unit.
const boundOfSense = "bound of sense, not from a publication"

// checkCBR checks a bearing ratio in percent of the standard crushed stone.
func checkCBR(name string, cbr float64) error {
	return calculation.Range{Name: name, Unit: "percent", Low: 0, Above: true, High: 100, Document: boundOfSense}.Check(cbr)
}

// checkFines checks a percentage passing the No. 200 sieve (0.075 mm).
func checkFines(percent float64) error {
	return calculation.Range{Name: "fines", Unit: "percent", Low: 0, High: 100, Document: "a percentage"}.Check(percent)
}

// checkSize checks a particle size or an opening: 0.0001 mm, finer than any
// clay, to 1 m.
func checkSize(name string, size quantity.Length) error {
	return calculation.Range{Name: name, Unit: "mm", Low: 0.0001, High: 1000, Document: boundOfSense}.Check(size.Millimeters())
}

// checkThickness checks a layer or a lift: above 0, to 10 m.
func checkThickness(name string, thickness quantity.Length) error {
	return calculation.Range{Name: name, Unit: "m", Low: 0, Above: true, High: 10, Document: boundOfSense}.Check(thickness.Meters())
}
