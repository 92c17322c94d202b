package ground

import (
	"cmp"

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

// onOrAboveALine: PI = 4 up to LL 25.5, then PI = 0.73 (LL - 20), in hundredths
// so that a point on the line is on it exactly.
func onOrAboveALine(ll, pi int) bool {
	return pi >= hatchedLow && 100*pi >= 73*(ll-20)
}

// aboveULine: LL = 16 up to PI 7, then PI = 0.9 (LL - 8), in tenths.
func aboveULine(ll, pi int) bool {
	return ll < uLineLL || 10*pi > 9*(ll-8)
}

// atterberg is a pair of limits as whole numbers, as D4318 reports them.
type atterberg struct {
	ll, pi int
	// nonplastic soils have PI 0, and may have no liquid limit.
	nonplastic bool
	organic    bool
}

// suspect returns the error for limits above the U-line, nil if there is none.
func (a atterberg) suspect() *SuspectError {
	if a.nonplastic || !aboveULine(a.ll, a.pi) {
		return nil
	}
	return &SuspectError{LL: float64(a.ll), PI: float64(a.pi)}
}

// symbol is where inorganic fines plot.
func (a atterberg) symbol() Group {
	above := onOrAboveALine(a.ll, a.pi)
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

// limits reads the Atterberg limits of a sample. known is false if they are not
// all given; what says which are not.
func (s Sample) limits() (a atterberg, what []string, err error) {
	for _, each := range []struct {
		name string
		x    float64
	}{{"liquid limit", s.LL}, {"plastic limit", s.PL}, {"oven-dried liquid limit", s.LLOvenDried}} {
		if each.x != 0 {
			if err := aLimit.Named(each.name).Check(each.x); err != nil {
				return a, nil, err
			}
		}
	}
	if s.LL == 0 && (!s.Nonplastic || s.LLOvenDried != 0) {
		what = append(what, "liquid limit")
	}
	if s.PL == 0 && !s.Nonplastic {
		what = append(what, "plastic limit")
	}
	if what != nil {
		return a, what, nil
	}
	a.ll = wholeNumber(s.LL)
	a.pi = a.ll - wholeNumber(s.PL)
	// D4318: a soil that cannot be rolled out, or whose plastic limit is at or
	// over its liquid limit, is nonplastic.
	if s.Nonplastic || a.pi <= 0 {
		a.nonplastic, a.pi = true, 0
	}
	a.organic = s.LLOvenDried != 0 && s.LLOvenDried < float64(organicRatio*s.LL)
	return a, nil, nil
}

// FinesKind is what fines of these limits are in a coarse soil. ll and pl in
// percent, above 0 to 1000; a plastic limit at or over the liquid limit is
// nonplastic. ASTM D2487 plasticity chart (from memory). A [SuspectError] above
// the U-line.
func FinesKind(ll, pl float64) (Fines, error) {
	a, err := limitsOf(ll, pl)
	if err != nil {
		return "", err
	}
	if s := a.suspect(); s != nil {
		return "", s
	}
	return a.fines(), nil
}

// limitsOf reads a pair of limits that must both be known.
func limitsOf(ll, pl float64) (atterberg, error) {
	if err := cmp.Or(aLimit.Named("liquid limit").Check(ll), aLimit.Named("plastic limit").Check(pl)); err != nil {
		return atterberg{}, err
	}
	a, _, err := Sample{LL: ll, PL: pl}.limits()
	return a, err
}

// PlasticityIndex is LL - PL in percent, 0 for a nonplastic soil, from limits
// rounded to whole numbers as ASTM D4318 reports them (from memory).
func PlasticityIndex(ll, pl float64) (float64, error) {
	a, err := limitsOf(ll, pl)
	return float64(a.pi), err
}
