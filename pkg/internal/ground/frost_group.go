package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const tm5_822_5 = "TM 5-822-5 Table 18-2"

// FrostGroup is a frost design soil group. The order is that of falling thaw
// strength (seen in TM 5-822-12).
type FrostGroup string

// The groups.
const (
	NFS FrostGroup = "NFS"
	PFS FrostGroup = "PFS"
	S1  FrostGroup = "S1"
	S2  FrostGroup = "S2"
	F1  FrostGroup = "F1"
	F2  FrostGroup = "F2"
	F3  FrostGroup = "F3"
	F4  FrostGroup = "F4"
)

// Vocabulary lists the groups in the order of falling thaw strength.
func (FrostGroup) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "frost_group",
		About: "frost design soil groups, the strongest in thaw first",
		Words: []value.WordEntry{
			{Name: "NFS", Label: string(NFS), About: "not frost-susceptible"},
			{Name: "PFS", Label: string(PFS), About: "possibly frost-susceptible: a laboratory frost test tells"},
			{Name: "S1", Label: string(S1), About: "gravel with 3 to 6 % finer than 0.02 mm"},
			{Name: "S2", Label: string(S2), About: "sand with 3 to 6 % finer than 0.02 mm"},
			{Name: "F1", Label: string(F1), About: "gravel with 6 to 10 % finer than 0.02 mm"},
			{Name: "F2", Label: string(F2), About: "gravel with 10 to 20 %, sand with 6 to 15 % finer than 0.02 mm"},
			{Name: "F3", Label: string(F3), About: "gravel with over 20 %, sand with over 15 % finer than 0.02 mm, clay of PI over 12"},
			{Name: "F4", Label: string(F4), About: "silt, very fine silty sand, clay of PI to 12, banded soils"},
		},
	}
}

// Percent finer than 0.02 mm, and PI, at which the groups change. TM 5-822-5
// Table 18-2, from memory; that 3 % makes most soils frost-susceptible was seen
// in TI 850-02 (2000). The table lists an edge under both of its neighbors: here
// it goes to the weaker, but 20 and 15 themselves are not over 20 and 15.
const (
	gravelPFSFrom = 1.5
	gravelS1From  = 3
	gravelF1From  = 6
	gravelF2From  = 10
	gravelF3Over  = 20
	sandS2From    = 3
	sandF2From    = 6
	sandF3Over    = 15
	clayF3OverPI  = 12
)

// checkFiner refuses more finer than 0.02 mm than a coarse group can hold: its
// most fines, ASTM D2487, with the half percent that rounds down.
func (g Group) checkFiner(finer quantity.Share) error {
	return calculation.Range{Name: "finer than 0.02 mm", Low: 0, High: g.mostFines(), Unit: "%",
		Document: "ASTM D2487, fines of " + string(g)}.CheckMeasure(finer)
}

// FrostGroupOfGravel returns the frost group of a gravel, GW to GC, from the
// share by mass of the whole soil that is finer than 0.02 mm, no more than the
// group can hold. The table lists GC under F3 alone and GC-GM under nothing
// better than F2, so less than that share makes neither better. From memory.
func FrostGroupOfGravel(g Group, finer quantity.Share) (FrostGroup, error) {
	if err := cmp.Or(g.among(tm5_822_5, Group.gravel), g.checkFiner(finer)); err != nil {
		return "", err
	}
	switch finer := finer.Percent(); {
	case finer > gravelF3Over || g == GC:
		return F3, nil
	case finer >= gravelF2From || g == GCGM:
		return F2, nil
	case finer >= gravelF1From:
		return F1, nil
	case finer >= gravelS1From:
		return S1, nil
	case finer >= gravelPFSFrom:
		return PFS, nil
	}
	return NFS, nil
}

// FrostGroupOfSand returns the frost group of a sand, SW to SC, from the share
// finer than 0.02 mm, no more than the group can hold; veryFine says that it is a
// very fine silty sand, which is F4 over 15 %.
//
// The table lists SW and SP of 3 to 10 % as PFS too, for a laboratory frost test
// to decide; without the test the susceptible group is returned, which is the
// safe side. It lists SC under F3 alone; SC-SM, which it does not list, counts as
// SC. From memory.
func FrostGroupOfSand(g Group, finer quantity.Share, veryFine bool) (FrostGroup, error) {
	if err := cmp.Or(g.among(tm5_822_5, Group.sand), g.checkFiner(finer)); err != nil {
		return "", err
	}
	switch finer := finer.Percent(); {
	case finer > sandF3Over && veryFine:
		return F4, nil
	case finer > sandF3Over || g == SC || g == SCSM:
		return F3, nil
	case finer >= sandF2From:
		return F2, nil
	case finer >= sandS2From:
		return S2, nil
	}
	return NFS, nil
}

func (g Group) inorganicFine() bool { return !g.gravel() && !g.sand() && !g.organic() }

// FrostGroupOfFines returns the frost group of ML, MH, CL, CL-ML or CH from its
// plasticity index in percent, 0 to 1000. All silts are F4; a clay is F3 if its
// PI is over 12; banded (varved) soils are F4 whatever their PI. A PI of 12
// itself, which the table leaves out, is F4, the weaker. From memory.
func FrostGroupOfFines(g Group, pi float64, banded bool) (FrostGroup, error) {
	if err := cmp.Or(g.among(tm5_822_5, Group.inorganicFine), aPI.Named("plasticity index").Check(pi)); err != nil {
		return "", err
	}
	if silt := g == ML || g == MH; silt || banded || pi <= clayF3OverPI {
		return F4, nil
	}
	return F3, nil
}

// FrostGroupFromClass returns the weakest frost group that a soil group allows,
// when nothing is known of what is finer than 0.02 mm nor of the plasticity: the
// safe side. It takes a soil that is not banded. Organic soils are in no group.
// Worked out from TM 5-822-5 Table 18-2, from memory.
func FrostGroupFromClass(g Group) (FrostGroup, error) {
	if err := g.among(tm5_822_5, func(g Group) bool { return !g.organic() }); err != nil {
		return "", err
	}
	switch {
	case g.gravel():
		return FrostGroupOfGravel(g, quantity.Percent(g.mostFines()))
	case g.sand():
		// Only a silty sand can be a very fine silty sand.
		return FrostGroupOfSand(g, quantity.Percent(g.mostFines()), g == SM || g == SCSM)
	case g == CH:
		// On the A-line a fat clay has PI of 22 and more.
		return F3, nil
	}
	return FrostGroupOfFines(g, 0, false)
}
