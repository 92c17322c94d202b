package ground

import (
	"math"

	"example.com/groundrule/pkg/calculation"
)

// Ranges that follow from what the value is, not from a publication. They keep
// slips of unit out of the formulas and the results finite.
var (
	aPercentage = calculation.Range{Low: 0, High: 100, Unit: "%", Document: "a percentage by mass"}
	// The stiffest natural clays stay under a liquid limit of 1000.
	aLimit = calculation.Range{Low: 0, High: 1000, Above: true, Document: "Atterberg limit"}
	aPI    = calculation.Range{Low: 0, High: 1000, Document: "plasticity index"}
	// What is softer than CBR 0.1 flows.
	aCBR       = calculation.Range{Low: 0.1, High: 200, Document: "California bearing ratio"}
	aThickness = calculation.Range{Low: 0, High: 1000, Unit: "in", Document: "thickness or depth"}
)

// onlyIf returns x if err is nil, else nothing: a refused value goes no further.
func onlyIf[T any](x T, err error) (T, error) {
	if err != nil {
		var nothing T
		return nothing, err
	}
	return x, nil
}

// wholeNumber rounds to the nearest whole number, a half upwards, as the class
// systems report percentages and limits. A half is one within the tolerance of
// a [calculation.Range]. x must have passed a range.
func wholeNumber(x float64) int {
	const tolerance = 1e-9
	return int(math.Floor(x + 0.5 + float64(tolerance*x)))
}
