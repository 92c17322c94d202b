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

// The divisors.
const (
	Divisor30 StrengthDivisor = "30 kPa"
	Divisor23 StrengthDivisor = "23 kPa"
)

// Vocabulary lists the divisors.
func (StrengthDivisor) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "strength_divisor",
		About: "undrained strength for each percent of CBR",
		Words: []value.WordEntry{
			{Name: "divisor_30_kpa", Label: string(Divisor30), About: "Giroud and Noiray 1981: the lower CBR of the two"},
			{Name: "divisor_23_kpa", Label: string(Divisor23), About: "Black and Lister 1979, TRRL LR 889"},
		},
	}
}

// per is the undrained strength for one percent of CBR: Giroud and Noiray 1981
// (from memory); Black and Lister 1979 (value relayed, document from memory).
func (d StrengthDivisor) per() quantity.Pressure {
	if d == Divisor23 {
		return quantity.Kilopascals(23)
	}
	return quantity.Kilopascals(30)
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
	return onlyIf(float64(cu/divisor.per()), cmp.Or(calculation.CheckWord("divisor", divisor), anUndrained.CheckMeasure(cu)))
}

// CBRFromPocketPenetrometer returns the CBR in percent of a clay on which a pocket
// penetrometer read the unconfined strength qu, above 0 to 4 tsf (383 kPa):
// half of it is the undrained strength, which the divisor turns into CBR. A
// reading off the scale has no number; use the consistency "hard" for it.
func CBRFromPocketPenetrometer(qu quantity.Pressure, divisor StrengthDivisor) (float64, error) {
	return onlyIf(float64(qu/unconfinedOverUndrained/divisor.per()),
		cmp.Or(calculation.CheckWord("divisor", divisor), anUnconfined.CheckMeasure(qu)))
}
