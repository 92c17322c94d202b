package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// StrengthDivisor is the choice of divisor from undrained strength to CBR. The
// two published ones differ by a third: a strength of 90 kPa is CBR 3.0 or 3.9.
type StrengthDivisor string

// The divisors. The third takes the first up to the edge of stiff clay and the
// second from the middle of stiff up.
const (
	Divisor30          StrengthDivisor = "30 kPa"
	Divisor23          StrengthDivisor = "23 kPa"
	DivisorByStiffness StrengthDivisor = "30 kPa, for stiff clay 23 kPa"
)

// Vocabulary lists the divisors.
func (StrengthDivisor) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "strength_divisor",
		About: "undrained strength for each percent of CBR",
		Words: []value.WordEntry{
			{Name: "divisor_30_kpa", Label: string(Divisor30), About: "Giroud and Noiray 1981: the lower CBR of the two"},
			{Name: "divisor_23_kpa", Label: string(Divisor23), About: "Black and Lister 1979, TRRL LR 889"},
			{Name: "divisor_by_stiffness", Label: string(DivisorByStiffness), About: "30 kPa up to 50 kPa, where clay becomes stiff, 23 kPa from 75 kPa, the middle of stiff, and a straight line between"},
		},
	}
}

// The undrained strength for one percent of CBR: Giroud and Noiray 1981 (from
// memory); Black and Lister 1979 (value relayed, document from memory). The first
// is the convention for weak ground, the second was found on undisturbed stiff
// clay. Where one gives way to the other is this library's own choice.
var (
	perWeakPoint  = quantity.Kilopascals(30)
	perStiffPoint = quantity.Kilopascals(23)
	stiffFrom     = quantity.Kilopascals(50)
	middleOfStiff = quantity.Kilopascals(75)
)

// cbr returns the CBR in percent of an undrained strength.
func (d StrengthDivisor) cbr(cu quantity.Pressure) float64 {
	switch {
	case d == Divisor30, d == DivisorByStiffness && cu <= stiffFrom:
		return float64(cu / perWeakPoint)
	case d == Divisor23, cu >= middleOfStiff:
		return float64(cu / perStiffPoint)
	}
	low, high := float64(stiffFrom/perWeakPoint), float64(middleOfStiff/perStiffPoint)
	return low + float64((high-low)*float64((cu-stiffFrom)/(middleOfStiff-stiffFrom)))
}

// Unconfined strength is twice the undrained strength.
const unconfinedOverUndrained = 2

// Both ranges end where the last closed band of consistency ends, 4 tsf
// unconfined: harder clay is past what a pocket penetrometer reads and past what
// the divisors were found for.
var (
	hardestUnconfined = tonsPerSquareFoot(4)
	anUnconfined      = calculation.Range{Name: "unconfined strength", Low: 0, High: hardestUnconfined.Kilopascals(), Above: true, Unit: "kPa",
		Document: "TM 5-818-1 Table 2-2, unconfined strength up to 4 tsf"}
	anUndrained = calculation.Range{Name: "undrained strength", Low: 0, High: hardestUnconfined.Kilopascals() / unconfinedOverUndrained, Above: true, Unit: "kPa",
		Document: "TM 5-818-1 Table 2-2, unconfined strength up to 4 tsf"}
)

// CBRFromUndrainedStrength returns the CBR in percent of a clay of undrained strength
// cu, above 0 to 2 tsf (192 kPa), by the chosen divisor.
func CBRFromUndrainedStrength(cu quantity.Pressure, divisor StrengthDivisor) (float64, error) {
	return onlyIf(divisor.cbr(cu), cmp.Or(calculation.CheckWord("divisor", divisor), anUndrained.CheckMeasure(cu)))
}

// CBRFromPocketPenetrometer returns the CBR in percent of a clay on which a pocket
// penetrometer read the unconfined strength qu, above 0 to 4 tsf (383 kPa):
// half of it is the undrained strength, which the divisor turns into CBR. A
// reading off the scale has no number; use the consistency "hard" for it.
func CBRFromPocketPenetrometer(qu quantity.Pressure, divisor StrengthDivisor) (float64, error) {
	return onlyIf(divisor.cbr(quantity.Pressure(qu/unconfinedOverUndrained)),
		cmp.Or(calculation.CheckWord("divisor", divisor), anUnconfined.CheckMeasure(qu)))
}
