package ground

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const (
	ufc260_02 = "UFC 3-260-02 Table 3-5"
	ufc260_03 = "UFC 3-260-03 Table 7-4"
)

// soilSupport is the frost-area soil support index, in place of CBR. UFC
// 3-260-02 (30 Jun 2001) Table 3-5, seen.
var soilSupport = map[FrostGroup]float64{S1: 9.0, F1: 9.0, S2: 6.5, F2: 6.5, F3: 3.5, F4: 3.5}

// thawFactor is the modulus in thaw over the normal modulus. UFC 3-260-03 (15
// Apr 2001) Table 7-4, seen.
var thawFactor = map[FrostGroup]float64{
	NFS: 1.00, PFS: 0.90, S1: 0.75, S2: 0.70, F1: 0.60, F2: 0.50, F3: 0.30, F4: 0.30,
}

// FrostSoilSupport is the frost-area soil support index, used as if it were a
// CBR in percent for the weeks of thaw; it is not a CBR. NFS and PFS have none:
// a [NoEntryError].
func FrostSoilSupport(g FrostGroup) (float64, error) {
	if err := calculation.CheckWord("g", g); err != nil {
		return 0, err
	}
	index, ok := soilSupport[g]
	if !ok {
		because := "it does not weaken in thaw; use the CBR"
		if g == PFS {
			because = "a laboratory frost test must first show which group it is"
		}
		return 0, &NoEntryError{Table: ufc260_02, Entry: string(g), Because: because}
	}
	return index, nil
}

// ThawGoverningCBR is the lower of the design CBR in percent, above 0 to 200,
// and the frost-area soil support index of the group; of NFS it is the CBR. For
// PFS a [NoEntryError]: a laboratory frost test must first show which group it
// is.
func ThawGoverningCBR(cbr float64, g FrostGroup) (float64, error) {
	if err := aCBR.Named("cbr").Check(cbr); err != nil {
		return 0, err
	}
	if g == NFS {
		return cbr, nil
	}
	index, err := FrostSoilSupport(g)
	return onlyIf(min(cbr, index), err)
}

// ThawModulusFactor is the part of its normal modulus that a soil of the group
// keeps in thaw.
func ThawModulusFactor(g FrostGroup) (float64, error) {
	return onlyIf(thawFactor[g], calculation.CheckWord("g", g))
}

// FAAFrostGroup is a group of the older four-group frost classification.
type FAAFrostGroup string

// The groups.
const (
	FG1 FAAFrostGroup = "FG-1"
	FG2 FAAFrostGroup = "FG-2"
	FG3 FAAFrostGroup = "FG-3"
	FG4 FAAFrostGroup = "FG-4"
)

// Vocabulary lists the groups; FG-1 is the word FG_1.
func (FAAFrostGroup) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "faa_frost_group",
		About: "the older four frost groups, FAA AC 150/5320-6, from memory",
		Words: []value.WordEntry{
			{Name: "FG_1", Label: string(FG1), About: "gravel with 3 to 10 % finer than 0.02 mm"},
			{Name: "FG_2", Label: string(FG2), About: "gravel with 10 to 20 %, sand with 3 to 15 %"},
			{Name: "FG_3", Label: string(FG3), About: "gravel with over 20 %, sand with over 15 %, clay of PI over 12"},
			{Name: "FG_4", Label: string(FG4), About: "very fine silty sand, all silts, clay of PI to 12, banded soils"},
		},
	}
}

// faaGroups: the limits of the older groups are those of these newer ones, taken
// together. FAA AC 150/5320-6, from memory.
var faaGroups = map[FrostGroup]FAAFrostGroup{S1: FG1, F1: FG1, S2: FG2, F2: FG2, F3: FG3, F4: FG4}

// FAAFrostGroupOf is the older frost group of a newer one. NFS and PFS have
// none: a [NoEntryError]. From memory.
func FAAFrostGroupOf(g FrostGroup) (FAAFrostGroup, error) {
	if err := calculation.CheckWord("g", g); err != nil {
		return "", err
	}
	f, ok := faaGroups[g]
	if !ok {
		return "", &NoEntryError{Table: "FAA AC 150/5320-6", Entry: string(g), Because: "it is not frost-susceptible, or not shown to be"}
	}
	return f, nil
}

// Reduced strength and limited penetration of the FAA, from memory.
var faaReducedCBR = map[FAAFrostGroup]float64{FG1: 9, FG2: 7, FG3: 4}

const faaLimitedPart = 0.65

// FAAReducedCBR is the CBR in percent to design with in thaw. FG-4 may not be
// designed so: a [NoEntryError]. FAA AC 150/5320-6, from memory.
func FAAReducedCBR(g FAAFrostGroup) (float64, error) {
	if err := calculation.CheckWord("g", g); err != nil {
		return 0, err
	}
	cbr, ok := faaReducedCBR[g]
	if !ok {
		return 0, &NoEntryError{Table: "FAA AC 150/5320-6", Entry: string(g), Because: "the reduced strength method is not allowed for it"}
	}
	return cbr, nil
}

// FAALimitedPenetrationCover is 65 % of the frost depth, 0 to 1000 in: the depth
// of section that limited subgrade frost penetration asks for. FAA AC
// 150/5320-6, from memory.
func FAALimitedPenetrationCover(frostDepth quantity.Length) (quantity.Length, error) {
	if err := aThickness.Named("frost depth").Check(frostDepth.Inches()); err != nil {
		return 0, err
	}
	return faaLimitedPart * frostDepth, nil
}
