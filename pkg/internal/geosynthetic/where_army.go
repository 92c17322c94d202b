package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// ArmyAdvice is what the Army would lay on ground of some CBR.
type ArmyAdvice string

// The pieces of advice.
const (
	PlatformWithBoth ArmyAdvice = "geotextile and geogrid in a designed platform"
	BothAdvised      ArmyAdvice = "geotextile and geogrid"
	FabricUsual      ArmyAdvice = "geotextile usual, geogrid considered"
	GridConsidered   ArmyAdvice = "geotextile not warranted, geogrid considered"
)

// Vocabulary lists the advice.
func (ArmyAdvice) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "army_advice",
		About: "What the Army would lay on ground of some CBR, under a surfaced road.",
		Words: []value.WordEntry{
			{Name: "platform_with_both", Label: string(PlatformWithBoth), About: "CBR to 0.5."},
			{Name: "fabric_and_grid_advised", Label: string(BothAdvised), About: "CBR above 0.5, to 2."},
			{Name: "fabric_usual", Label: string(FabricUsual), About: "CBR above 2, below 4."},
			{Name: "grid_considered", Label: string(GridConsidered), About: "CBR 4 and more; no benefit under an aggregate surface."},
		},
	}
}

// Bounds of ETL 1110-1-189: that at CBR 4 a geotextile is not warranted and a
// geogrid considered is seen, the rest from memory. TM 5-818-8 (seen) limits
// geotextile reinforcement to CBR below 4.
const (
	armyPlatformTo     = 0.5
	armyBothTo         = 2.0
	armyFabricBelow    = 4.0
	reinforcementFrom  = 3.0   // CBR
	reinforcementTo    = 8.0   // CBR
	reinforcementBase  = 150.0 // mm, the thinnest base of the table
	reinforcementThick = 300.0 // mm, above it the grid lies at mid-depth
)

// ArmyAdviceFor is what the Army would lay under a surfaced road on ground of
// the given CBR (percent, above 0 to 100). ETL 1110-1-189 (2003) Table 6: seen
// at CBR 4, the other bounds from memory.
func ArmyAdviceFor(cbr float64) (ArmyAdvice, error) {
	if err := checkCBR("cbr", cbr); err != nil {
		return "", err
	}
	switch {
	case cbr <= armyPlatformTo:
		return PlatformWithBoth, nil
	case cbr <= armyBothTo:
		return BothAdvised, nil
	case cbr < armyFabricBelow:
		return FabricUsual, nil
	}
	return GridConsidered, nil
}

// ArmyFabricReinforces reports whether a geotextile reinforces a surfaced road on
// soft cohesive ground of the given CBR (percent, above 0 to 100): below 4. TM
// 5-818-8, seen. AASHTO M 288 puts the bound of stabilization at 3.
func ArmyFabricReinforces(cbr float64) (bool, error) {
	if err := checkCBR("cbr", cbr); err != nil {
		return false, err
	}
	return cbr < armyFabricBelow, nil
}

// BaseReinforcement is whether a grid in the base is usual.
type BaseReinforcement string

// The answers.
const (
	StabilizeFirst       BaseReinforcement = "stabilize first"
	ReinforcementUsual   BaseReinforcement = "geogrid usual"
	ReinforcementMiddle  BaseReinforcement = "geogrid at mid-depth, smaller benefit"
	ReinforcementUnusual BaseReinforcement = "not usual"
)

// Vocabulary lists the answers.
func (BaseReinforcement) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "base_reinforcement",
		About: "Whether a geosynthetic is usually laid to reinforce the base.",
		Words: []value.WordEntry{
			{Name: "stabilize_first", Label: string(StabilizeFirst), About: "CBR below 3: yes, but the ground is stabilized first."},
			{Name: "reinforcement_usual", Label: string(ReinforcementUsual), About: "CBR 3 to 8, base to 300 mm."},
			{Name: "reinforcement_at_mid_depth", Label: string(ReinforcementMiddle), About: "CBR 3 to 8, base above 300 mm."},
			{Name: "reinforcement_unusual", Label: string(ReinforcementUnusual), About: "CBR above 8."},
		},
	}
}

// BaseReinforcementFor reports whether a geosynthetic is usually laid to
// reinforce a base of the given thickness (150 mm to 10 m) on ground of the
// given CBR (percent, above 0 to 100). GMA White Paper II (2000) and FHWA
// NHI-07-092, from memory.
func BaseReinforcementFor(cbr float64, base quantity.Length) (BaseReinforcement, error) {
	table := calculation.Range{Name: "base", Unit: "mm", Low: reinforcementBase, High: 10000, Document: "GMA White Paper II (2000)"}
	if err := cmp.Or(checkCBR("cbr", cbr), table.Check(base.Millimeters())); err != nil {
		return "", err
	}
	switch {
	case cbr < reinforcementFrom:
		return StabilizeFirst, nil
	case cbr > reinforcementTo:
		return ReinforcementUnusual, nil
	case base.Millimeters() > reinforcementThick:
		return ReinforcementMiddle, nil
	}
	return ReinforcementUsual, nil
}
