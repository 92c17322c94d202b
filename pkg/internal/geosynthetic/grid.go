package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// GridPlace is where in the base a grid lies.
type GridPlace string

// The places.
const (
	BottomOfBase   GridPlace = "bottom of base"
	MidDepthOfBase GridPlace = "mid-depth of base"
)

// Vocabulary lists the places.
func (GridPlace) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "grid_place",
		About: "Where in the base a geogrid lies.",
		Words: []value.WordEntry{
			{Name: "grid_at_bottom", Label: string(BottomOfBase), About: "On the ground or subbase, under the whole base."},
			{Name: "grid_at_mid_depth", Label: string(MidDepthOfBase), About: "At half the height of the base."},
		},
	}
}

// gridMidDepthFrom is the base thickness from which the grid lies at
// mid-depth, in inches. ETL 1110-1-189, from memory.
const gridMidDepthFrom = 14.0

// GridPlaceFor is where in a base of the given thickness (above 0 to 10 m) a
// grid lies: at the bottom under 14 in, at mid-depth from 14 in. ETL
// 1110-1-189 (2003), from memory.
func GridPlaceFor(base quantity.Length) (GridPlace, error) {
	if err := checkThickness("base", base); err != nil {
		return "", err
	}
	if base < quantity.Inches(gridMidDepthFrom) {
		return BottomOfBase, nil
	}
	return MidDepthOfBase, nil
}

// GridHeight is the height of the grid above the bottom of the base, 0 or half
// the base, by [GridPlaceFor].
func GridHeight(base quantity.Length) (quantity.Length, error) {
	place, err := GridPlaceFor(base)
	if err != nil || place == BottomOfBase {
		return 0, err
	}
	return base / 2, nil
}

const (
	coverUnderPlant     = 6.0 // in; FHWA NHI-07-092 ch. 5, from memory
	stonePerFirstLift   = 0.5 // FHWA survivability table note, from memory
	percentOfAWhole     = 100.0
	reductionPercentMax = 99.0
)

// CoverUnderPlant is the least cover between a geosynthetic and tires or
// tracks, 6 in. FHWA NHI-07-092 ch. 5, from memory.
func CoverUnderPlant() quantity.Length { return quantity.Inches(coverUnderPlant) }

// LargestStoneInLift is the largest stone in the first compacted lift over a
// geosynthetic, half the lift (above 0 to 10 m). FHWA, from memory.
func LargestStoneInLift(firstLift quantity.Length) (quantity.Length, error) {
	if err := checkThickness("first lift", firstLift); err != nil {
		return 0, err
	}
	return stonePerFirstLift * firstLift, nil
}

// TrafficBenefitRatio is TBR, passes to a failure with the geosynthetic over
// passes to the same failure without; both 1 to 1e12. The definition is seen in
// Collin, Kinney & Fu (1996). No value holds for all products: it comes from
// tests of that product in like conditions.
func TrafficBenefitRatio(passesWith, passesWithout float64) (float64, error) {
	if err := cmp.Or(checkPasses("passes with", passesWith), checkPasses("passes without", passesWithout)); err != nil {
		return 0, err
	}
	return passesWith / passesWithout, nil
}

// PassesWithBenefit is the passes that a section stands with a geosynthetic of
// the given tested TBR (1 to 100); passes 1 to 1e12.
func PassesWithBenefit(passesWithout, benefitRatio float64) (float64, error) {
	tested := calculation.Range{Name: "traffic benefit ratio", Low: 1, High: 100, Document: boundOfSense}
	if err := cmp.Or(checkPasses("passes without", passesWithout), tested.Check(benefitRatio)); err != nil {
		return 0, err
	}
	return passesWithout * benefitRatio, nil
}

// BaseCourseReduction is BCR, the part of the base that the geosynthetic
// saves, in percent of the base without it. AASHTO R 50 and GMA White Paper II,
// from memory. Neither gives a value that holds for all products. A reinforced
// base above the unreinforced is refused.
func BaseCourseReduction(without, with quantity.Length) (float64, error) {
	if err := cmp.Or(
		checkThickness("base without", without),
		checkThickness("base with", with),
		calculation.Range{Name: "base with", Unit: "m", Low: 0, High: without.Meters(), Document: "a reduced base is no thicker than the base without"}.Check(with.Meters()),
	); err != nil {
		return 0, err
	}
	return percentOfAWhole * float64((without-with)/without), nil
}

// ReducedBase is the base that does with a geosynthetic of the given tested BCR
// in percent, 0 to 99.
func ReducedBase(without quantity.Length, reductionPercent float64) (quantity.Length, error) {
	tested := calculation.Range{Name: "base course reduction", Unit: "percent", Low: 0, High: reductionPercentMax, Document: boundOfSense}
	if err := cmp.Or(checkThickness("base without", without), tested.Check(reductionPercent)); err != nil {
		return 0, err
	}
	return without * quantity.Length(1-reductionPercent/percentOfAWhole), nil
}

func checkPasses(name string, passes float64) error {
	return calculation.Range{Name: name, Low: 1, High: 1e12, Document: boundOfSense}.Check(passes)
}
