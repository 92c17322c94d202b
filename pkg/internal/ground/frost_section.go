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

// LimitedFrostBase is the thickness of frost-free base that lets frost only a
// quarter of that thickness into the subgrade: b = c/(1 + r/4), where c is the
// frost depth with no frost in the subgrade less the surface thickness, and r is
// the moisture of the subgrade over that of the base, up to the cap. Depths 0 to
// 1000 in; moistures in percent, above 0 to 300. Where the surface is as thick
// as the frost is deep it is 0.
//
// The closed form is a fit to a chart (computed; the rule behind it from
// memory), which agrees with the one printed example.
func LimitedFrostBase(frostDepth, surface quantity.Length, subgradeMoisture, baseMoisture float64, most RatioCap) (quantity.Length, error) {
	if err := cmp.Or(calculation.CheckWord("most", most), aThickness.Named("frost depth").Check(frostDepth.Inches()),
		aThickness.Named("surface thickness").Check(surface.Inches()), aWater.Named("subgrade moisture").Check(subgradeMoisture),
		aWater.Named("base moisture").Check(baseMoisture)); err != nil {
		return 0, err
	}
	c := max(0, frostDepth-surface)
	r := min(subgradeMoisture/baseMoisture, most.ratio())
	return c / quantity.Length(1+float64(lsfpSubgradePart*r)), nil
}

// LimitedFrostInSubgrade is how far frost goes into the subgrade under a
// [LimitedFrostBase]: a quarter of its thickness.
func LimitedFrostInSubgrade(frostDepth, surface quantity.Length, subgradeMoisture, baseMoisture float64, most RatioCap) (quantity.Length, error) {
	b, err := LimitedFrostBase(frostDepth, surface, subgradeMoisture, baseMoisture, most)
	return lsfpSubgradePart * b, err
}

// RoadClass is a range of the Army's road classes, for the depth to which the
// subgrade is prepared against frost.
type RoadClass string

// The ranges.
const (
	RoadsAToC RoadClass = "A to C"
	RoadsDToF RoadClass = "D to F"
)

// Vocabulary lists the ranges.
func (RoadClass) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "frost_road_class",
		About: "road classes of TM 5-822-5, for subgrade preparation against frost",
		Words: []value.WordEntry{
			{Name: "roads_a_to_c", Label: string(RoadsAToC), About: "main roads, and parking beside them: two thirds of the frost depth"},
			{Name: "roads_d_to_f", Label: string(RoadsDToF), About: "lightly used roads: half of the frost depth"},
		},
	}
}

// TM 5-822-5 (12 Jun 1992), frost chapter, seen.
const (
	preparationPartAToC = 2.0 / 3
	preparationPartDToF = 1.0 / 2
)

var deepestPreparation = quantity.Inches(24)

// SubgradePreparation is how deep below its top the subgrade is to be prepared
// against frost: two thirds of the frost depth for road classes A to C, half of
// it for D to F, less the thickness of pavement, base and subbase; 24 in at most
// and 0 at least. Depths 0 to 1000 in. TM 5-822-5 (1992), seen.
func SubgradePreparation(frostDepth, section quantity.Length, class RoadClass) (quantity.Length, error) {
	if err := cmp.Or(calculation.CheckWord("class", class), aThickness.Named("frost depth").Check(frostDepth.Inches()),
		aThickness.Named("section thickness").Check(section.Inches())); err != nil {
		return 0, err
	}
	part := preparationPartAToC
	if class == RoadsDToF {
		part = preparationPartDToF
	}
	return max(0, min(deepestPreparation, quantity.Length(part*float64(frostDepth))-section)), nil
}
