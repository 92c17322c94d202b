package ground

import (
	"cmp"
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// d2487 is the document of the classification; its logic is from memory, except
// where the source list says that an edition was seen.
const d2487 = "ASTM D2487"

// Fines is what the fines of a coarse soil are, found by their limits or by eye.
type Fines string

// The kinds of fines.
const (
	SiltyFines       Fines = "silty"
	ClayeyFines      Fines = "clayey"
	SiltyClayeyFines Fines = "silty, clayey"
)

// Vocabulary lists the kinds of fines.
func (Fines) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fines",
		About: "what the fines of a coarse soil are",
		Words: []value.WordEntry{
			{Name: "silty_fines", Label: string(SiltyFines), About: "fines that classify as ML or MH: little or no plasticity"},
			{Name: "clayey_fines", Label: string(ClayeyFines), About: "fines that classify as CL or CH: plastic"},
			{Name: "silty_clayey_fines", Label: string(SiltyClayeyFines), About: "fines that classify as CL-ML: in the hatched zone"},
		},
	}
}

// Limits of the plasticity chart, ASTM D2487 (from memory), in whole percent.
const (
	highPlasticityLL = 50 // LL at and above which fines are CH, MH or OH
	hatchedLow       = 4  // PI of the level part of the A-line
	hatchedHigh      = 7  // PI above which fines above the A-line are CL
	uLineLL          = 16 // LL of the upright part of the U-line
	organicRatio     = 0.75
)

// atterberg is a pair of limits as whole numbers, as D4318 reports them. A
// nonplastic soil has PI 0.
type atterberg struct{ ll, pi int }

// limitsOf reads a pair of limits, each above 0 to 1000. A soil whose plastic
// limit is at or over its liquid limit is nonplastic (D4318).
func limitsOf(ll, pl float64) (atterberg, error) {
	if err := cmp.Or(aLimit.Named("liquid limit").Check(ll), aLimit.Named("plastic limit").Check(pl)); err != nil {
		return atterberg{}, err
	}
	a := atterberg{ll: wholeNumber(ll)}
	a.pi = max(0, a.ll-wholeNumber(pl))
	return a, nil
}

// verified refuses limits above or left of the U-line, past which no soil was
// ever found: LL = 16 up to PI 7, then PI = 0.9 (LL - 8).
func (a atterberg) verified() error {
	if a.pi == 0 {
		return nil
	}
	const document = "the U-line of " + d2487 + "; verify the tests"
	return cmp.Or(
		calculation.Range{Name: "liquid limit", Low: uLineLL, High: math.Inf(1), Document: document}.Check(float64(a.ll)),
		calculation.Range{Name: "plasticity index", Low: 0, High: float64(9*(a.ll-8)) / 10,
			Document: fmt.Sprintf("at liquid limit %d, %s", a.ll, document)}.Check(float64(a.pi)),
	)
}

// symbol is where inorganic fines plot. The A-line is PI = 4 up to LL 25.5, then
// PI = 0.73 (LL - 20), here in hundredths so that a point on the line is on it
// exactly.
func (a atterberg) symbol() Group {
	above := a.pi >= hatchedLow && 100*a.pi >= 73*(a.ll-20)
	switch {
	case a.ll >= highPlasticityLL && above:
		return CH
	case a.ll >= highPlasticityLL:
		return MH
	case above && a.pi > hatchedHigh:
		return CL
	case above:
		return CLML
	}
	return ML
}

// fines is the kind of fines that the limits show in a coarse soil.
func (a atterberg) fines() Fines {
	switch a.symbol() {
	case CL, CH:
		return ClayeyFines
	case CLML:
		return SiltyClayeyFines
	}
	return SiltyFines
}
