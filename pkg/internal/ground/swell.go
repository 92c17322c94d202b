package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// SwellClass is how much a soil may swell. Which words are used depends on the
// set of limits.
type SwellClass string

// The classes, the least first.
const (
	SwellLow      SwellClass = "low"
	SwellMarginal SwellClass = "marginal"
	SwellMedium   SwellClass = "medium"
	SwellHigh     SwellClass = "high"
	SwellVeryHigh SwellClass = "very high"
)

// Vocabulary lists the classes, the least first.
func (SwellClass) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "swell",
		About: "how much a soil may swell, the least first",
		Words: []value.WordEntry{
			{Name: "swell_low", Label: string(SwellLow), About: "low"},
			{Name: "swell_marginal", Label: string(SwellMarginal), About: "marginal, by TM 5-818-7 only"},
			{Name: "swell_medium", Label: string(SwellMedium), About: "medium"},
			{Name: "swell_high", Label: string(SwellHigh), About: "high"},
			{Name: "swell_very_high", Label: string(SwellVeryHigh), About: "very high"},
		},
	}
}

// SwellSet is the choice of a published set of limits of potential swell.
type SwellSet string

// The sets.
const (
	SwellBySnethen    SwellSet = "Snethen 1977"
	SwellByUSBRClosed SwellSet = "USBR without overlap"
)

// Vocabulary lists the sets.
func (SwellSet) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "swell_set",
		About: "published limits of potential swell",
		Words: []value.WordEntry{
			{Name: "swell_by_snethen", Label: string(SwellBySnethen), About: "TM 5-818-7 Table 4-1, FHWA-RD-77-94: liquid limit and plasticity index"},
			{Name: "swell_by_usbr_closed", Label: string(SwellByUSBRClosed), About: "plasticity index, bands of 15, 28 and 41, in a 2021 journal under the name of Chen"},
		},
	}
}

// swellFrom is a class with the value from which it holds, at it or, if over,
// above it.
type swellFrom struct {
	class SwellClass
	from  float64
	over  bool
}

// classOf returns the last class that holds.
func classOf(x float64, from []swellFrom) SwellClass {
	class := SwellLow
	for _, each := range from {
		if x > each.from || (x == each.from && !each.over) {
			class = each.class
		}
	}
	return class
}

// Limits by plasticity index and liquid limit, in percent.
var (
	// TM 5-818-7 (1983) Table 4-1, after Snethen, FHWA-RD-77-94; from memory.
	snethenPI = []swellFrom{{SwellMarginal, 25, false}, {SwellHigh, 35, true}}
	snethenLL = []swellFrom{{SwellMarginal, 50, false}, {SwellHigh, 60, true}}
	// A 2021 journal's table: under 15, 15-28, 28-41, over 41; seen there, its
	// origin in the USBR set from memory. An edge goes to the higher class, which
	// is this library's own safe side.
	usbrClosedPI = []swellFrom{{SwellMedium, 15, false}, {SwellHigh, 28, false}, {SwellVeryHigh, 41, true}}
)

// PotentialSwell returns the swell class by a set of limits, from the liquid
// limit, above 0 to 1000, and the plasticity index, 0 to the liquid limit. Only
// Snethen's set uses the liquid limit: the higher of its two classes is taken.
func PotentialSwell(ll, pi float64, set SwellSet) (SwellClass, error) {
	upTo := calculation.Range{Name: "plasticity index", Low: 0, High: ll, Document: "no more than the liquid limit"}
	if err := cmp.Or(calculation.CheckWord("set", set), aLimit.Named("liquid limit").Check(ll), upTo.Check(pi)); err != nil {
		return "", err
	}
	if set == SwellByUSBRClosed {
		return classOf(pi, usbrClosedPI), nil
	}
	byPI, byLL := classOf(pi, snethenPI), classOf(ll, snethenLL)
	for _, class := range []SwellClass{SwellHigh, SwellMarginal} {
		if byPI == class || byLL == class {
			return class, nil
		}
	}
	return SwellLow, nil
}
