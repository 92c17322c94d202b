package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// RatioCap is the greatest ratio of subgrade to base moisture that counts when
// frost is let into the subgrade.
type RatioCap string

// The caps: 2.0 seen for an airfield of type B traffic, 3.0 for light traffic
// from memory.
const (
	RatioCap2 RatioCap = "2.0"
	RatioCap3 RatioCap = "3.0"
)

// Vocabulary lists the caps.
func (RatioCap) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "moisture_ratio_cap",
		About: "the greatest ratio of subgrade to base moisture that counts in limited subgrade frost penetration",
		Words: []value.WordEntry{
			{Name: "ratio_cap_2", Label: string(RatioCap2), About: "UFC 3-260-02 ch. 20, type B traffic"},
			{Name: "ratio_cap_3", Label: string(RatioCap3), About: "light traffic, from memory; the thinner base of the two"},
		},
	}
}

func (c RatioCap) ratio() float64 {
	if c == RatioCap3 {
		return 3
	}
	return 2
}

// lsfpSubgradePart is the part of the base thickness to which frost may go into
// the subgrade, the rule behind Chart 20-6 of UFC 3-260-02 (from memory).
const lsfpSubgradePart = 0.25

var aWater = calculation.Range{Low: 0, High: 300, Above: true, Unit: "%", Document: "UFC 3-260-02 ch. 20, moisture"}

// LimitedFrostBase returns the thickness of frost-free base that lets frost only a
// quarter of that thickness into the subgrade: b = c/(1 + r/4), where c is the
// frost depth with no frost in the subgrade less the surface thickness, and r is
// the moisture of the subgrade over that of the base, up to the cap. Depths 0 to
// 1000 in; moistures above 0 to 300 %. Where the surface is as thick
// as the frost is deep it is 0.
//
// The closed form is a fit to a chart (computed; the rule behind it from
// memory), which agrees with the one printed example.
func LimitedFrostBase(frostDepth, surface quantity.Length, subgradeMoisture, baseMoisture quantity.Share, most RatioCap) (quantity.Length, error) {
	if err := cmp.Or(calculation.CheckWord("cap", most), aThickness.Named("frost depth").CheckMeasure(frostDepth),
		aThickness.Named("surface thickness").CheckMeasure(surface), aWater.Named("subgrade moisture").CheckMeasure(subgradeMoisture),
		aWater.Named("base moisture").CheckMeasure(baseMoisture)); err != nil {
		return 0, err
	}
	c := max(0, frostDepth-surface)
	r := min(float64(subgradeMoisture/baseMoisture), most.ratio())
	return c / quantity.Length(1+float64(lsfpSubgradePart*r)), nil
}
