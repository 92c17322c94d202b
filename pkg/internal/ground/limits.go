package ground

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// unitTurn is how far, in parts of the value, the turning of units may move it:
// a value on the edge of a range, in whatever unit it is written, is on it.
const unitTurn = 1e-12

// Ranges that follow from what the value is, not from a publication. They keep
// slips of unit out of the formulas and the results finite.
var (
	aPercentage = calculation.Range{Low: 0, High: 100, Unit: "%", Document: "percentage by mass"}
	// The stiffest natural clays stay under 1000 % liquid limit.
	aLimit     = calculation.Range{Low: 0, High: 1000, Above: true, Unit: "%", Document: "Atterberg limit"}
	aPI        = calculation.Range{Low: 0, High: 1000, Unit: "%", Document: "plasticity index"}
	aCBR       = calculation.Range{Low: 0, High: 200, Above: true, Unit: "%", Document: "California bearing ratio"}
	anEsal     = calculation.Range{Low: 0, High: 1e12, Document: "axle load passes"}
	aModulus   = calculation.Range{Low: 0, High: 1e6, Above: true, Unit: "psi", Document: "modulus of a soil or stone"}
	aThickness = calculation.Range{Low: 0, High: 1000, Unit: "in", Document: "thickness or depth"}
	aVolume    = calculation.Range{Low: 0, High: 1e9, Unit: "m3", Document: "volume of earth"}
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
// systems report percentages and limits. x must have passed a limit.
func wholeNumber(x float64) int { return int(math.Floor(x + 0.5)) }

// tonsPerSquareFoot is a pressure in short tons-force per square foot.
func tonsPerSquareFoot(x float64) quantity.Pressure {
	const poundsPerTon, squareInchesPerSquareFoot = 2000, 144
	return quantity.PSI(x * poundsPerTon / squareInchesPerSquareFoot)
}
