package ground

import (
	"cmp"
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// SwellClass is how much a soil may swell. Which words are used depends on the
// set of limits.
type SwellClass string

// The classes, the least first.
const (
	SwellVeryLow  SwellClass = "very low"
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
			{Name: "swell_very_low", Label: string(SwellVeryLow), About: "very low, by expansion index only"},
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
	SwellByChen       SwellSet = "Chen 1988"
	SwellByUSBR       SwellSet = "USBR 1959"
	SwellByUSBRClosed SwellSet = "USBR without overlap"
)

// Vocabulary lists the sets.
func (SwellSet) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "swell_set",
		About: "published limits of potential swell",
		Words: []value.WordEntry{
			{Name: "swell_by_snethen", Label: string(SwellBySnethen), About: "TM 5-818-7 Table 4-1, FHWA-RD-77-94: liquid limit and plasticity index"},
			{Name: "swell_by_chen", Label: string(SwellByChen), About: "Chen 1988: plasticity index, bands that overlap"},
			{Name: "swell_by_usbr", Label: string(SwellByUSBR), About: "Holtz and Gibbs 1956, Holtz 1959: plasticity index, bands that overlap"},
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

// classOf is the last class that holds.
func classOf(x float64, lowest SwellClass, from []swellFrom) SwellClass {
	class := lowest
	for _, each := range from {
		if x > each.from || (x == each.from && !each.over) {
			class = each.class
		}
	}
	return class
}

// Limits by plasticity index and liquid limit, in percent. Where the bands of a
// set overlap the higher class is taken, which is this library's own safe side:
// each band here starts where the publication lets it start.
var (
	// TM 5-818-7 (1983) Table 4-1, after Snethen, FHWA-RD-77-94; from memory.
	snethenPI = []swellFrom{{SwellMarginal, 25, false}, {SwellHigh, 35, true}}
	snethenLL = []swellFrom{{SwellMarginal, 50, false}, {SwellHigh, 60, true}}
	// Chen 1988: 0-15, 10-35, 20-55, over 35; from memory.
	chenPI = []swellFrom{{SwellMedium, 10, false}, {SwellHigh, 20, false}, {SwellVeryHigh, 35, true}}
	// Holtz and Gibbs 1956, Holtz 1959: under 18, 15-28, 25-41, over 35; from
	// memory.
	usbrPI = []swellFrom{{SwellMedium, 15, false}, {SwellHigh, 25, false}, {SwellVeryHigh, 35, true}}
	// A 2021 journal's table: under 15, 15-28, 28-41, over 41; seen there, its
	// origin in the USBR set from memory.
	usbrClosedPI = []swellFrom{{SwellMedium, 15, false}, {SwellHigh, 28, false}, {SwellVeryHigh, 41, true}}
)

// PotentialSwell is the swell class by a set of limits, from the liquid limit,
// above 0 to 1000 %, and the plasticity index, 0 to the liquid limit. Only
// Snethen's set uses the liquid limit: the higher of its two classes is taken.
// Where bands overlap the higher class is taken.
func PotentialSwell(ll, pi float64, set SwellSet) (SwellClass, error) {
	if err := cmp.Or(calculation.CheckWord("set", set), aLimit.Named("liquid limit").Check(ll), aPI.Named("pi").Check(pi)); err != nil {
		return "", err
	}
	if pi > ll {
		return "", calculation.OutOfRange("pi", pi, "%", fmt.Sprintf("at most the liquid limit, %g %%", ll), "Atterberg limits")
	}
	switch set {
	case SwellByChen:
		return classOf(pi, SwellLow, chenPI), nil
	case SwellByUSBR:
		return classOf(pi, SwellLow, usbrPI), nil
	case SwellByUSBRClosed:
		return classOf(pi, SwellLow, usbrClosedPI), nil
	}
	byPI, byLL := classOf(pi, SwellLow, snethenPI), classOf(ll, SwellLow, snethenLL)
	for _, class := range []SwellClass{SwellHigh, SwellMarginal} {
		if byPI == class || byLL == class {
			return class, nil
		}
	}
	return SwellLow, nil
}

// Shrinkage limits of the USBR set, in percent: under 11, 7 to 12, 10 to 16,
// over 15; from memory.
const (
	veryHighShrinkageBelow = 11
	highShrinkageTo        = 12
	mediumShrinkageTo      = 16
)

// SwellFromShrinkageLimit is the USBR swell class by shrinkage limit, above 0 to
// 100 %. Where bands overlap the higher class is taken. Holtz and Gibbs 1956,
// Holtz 1959, from memory.
func SwellFromShrinkageLimit(sl float64) (SwellClass, error) {
	if err := (calculation.Range{Low: 0, High: 100, Above: true, Unit: "%", Document: "shrinkage limit"}).Named("sl").Check(sl); err != nil {
		return "", err
	}
	switch {
	case sl < veryHighShrinkageBelow:
		return SwellVeryHigh, nil
	case sl <= highShrinkageTo:
		return SwellHigh, nil
	case sl <= mediumShrinkageTo:
		return SwellMedium, nil
	}
	return SwellLow, nil
}

// ASTM D4829: 0 to 20 very low, 21 to 50 low, 51 to 90 medium, 91 to 130 high,
// over 130 very high; from memory. The index is a whole number.
var expansionIndex = []swellFrom{{SwellLow, 21, false}, {SwellMedium, 51, false}, {SwellHigh, 91, false}, {SwellVeryHigh, 130, true}}

var anEI = calculation.Range{Low: 0, High: 1000, Document: "ASTM D4829, expansion index"}

// SwellFromExpansionIndex is the class of ASTM D4829 by the expansion index, 0
// to 1000, rounded to a whole number, a half upwards. From memory.
func SwellFromExpansionIndex(ei float64) (SwellClass, error) {
	if err := anEI.Named("ei").Check(ei); err != nil {
		return "", err
	}
	return classOf(float64(wholeNumber(ei)), SwellVeryLow, expansionIndex), nil
}

// IBC 1803.5.3, from memory.
const (
	expansivePIFrom   = 15
	expansiveP200Over = 10
	expansiveFiveOver = 10
	expansiveEIOver   = 20
)

// ExpansiveByIndex reports whether a soil is expansive to IBC 1803.5.3 by its
// expansion index alone, 0 to 1000, which suffices. From memory.
func ExpansiveByIndex(ei float64) (bool, error) {
	return onlyIf(ei > expansiveEIOver, anEI.Named("ei").Check(ei))
}

// ExpansiveByLimits reports whether a soil is to be taken as expansive to IBC
// 1803.5.3 when its expansion index is not known: PI of 15 and more, over 10 %
// passing the No. 200 sieve and over 10 % finer than 5 micrometers. If one of
// them fails the soil is not expansive. If all hold the code asks for the index
// as well; without it the answer is true, the safe side. From memory.
func ExpansiveByLimits(pi, p200, finer5um float64) (bool, error) {
	if err := cmp.Or(aPI.Named("pi").Check(pi), aPercentage.Named("p200").Check(p200), aPercentage.Named("percent finer than 5 um").Check(finer5um)); err != nil {
		return false, err
	}
	if finer5um > p200 {
		return false, calculation.OutOfRange("percent finer than 5 um", finer5um, "%", fmt.Sprintf("at most the %g %% that passes the No. 200 sieve", p200), "IBC 1803.5.3")
	}
	return pi >= expansivePIFrom && p200 > expansiveP200Over && finer5um > expansiveFiveOver, nil
}
