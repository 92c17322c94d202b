package ground

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/groundrule/pkg/calculation"
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

// FrostGroups lists the groups, the strongest in thaw first.
func FrostGroups() []FrostGroup { return []FrostGroup{NFS, PFS, S1, S2, F1, F2, F3, F4} }

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

func (g FrostGroup) rank() int { return slices.Index(FrostGroups(), g) }

// Percent finer than 0.02 mm, and PI, at which the groups change. TM 5-822-5
// Table 18-2, from memory; that 3 % makes most soils frost-susceptible was seen
// in TI 850-02 (2000). The table gives an edge to both of its neighbors: here
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

// finerRoom is the most that can be finer than 0.02 mm in a coarse group: its
// most fines, ASTM D2487, with the half percent that rounds down.
func finerRoom(g Group) float64 {
	switch {
	case g == GW || g == GP || g == SW || g == SP:
		return dualFrom - 0.5
	case g.First() != g.Second() && g != GCGM && g != SCSM:
		return dualTo + 0.5
	}
	return fineGrainedFrom - 0.5
}

func checkFiner(g Group, finer float64) error {
	return calculation.Range{Low: 0, High: finerRoom(g), Unit: "%", Document: fmt.Sprintf("ASTM D2487, fines of %s", g)}.Named("percent finer than 0.02 mm").Check(finer)
}

func wrongKind(g Group, range_ string) error {
	return &calculation.WordError{Name: "soil group", Got: string(g), Want: []string{range_}, Document: tm5_822_5}
}

// FrostGroupOfGravel is the frost group of a gravel, GW to GC, from the percent
// by mass of the whole soil that is finer than 0.02 mm, no more than the group
// can hold. The percentage decides, whatever the symbol. From memory.
func FrostGroupOfGravel(g Group, finer float64) (FrostGroup, error) {
	gravel, err := IsGravel(g)
	if err != nil {
		return "", err
	}
	if !gravel {
		return "", wrongKind(g, "a gravel")
	}
	if err := checkFiner(g, finer); err != nil {
		return "", err
	}
	switch {
	case finer > gravelF3Over:
		return F3, nil
	case finer >= gravelF2From:
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

// FrostGroupOfSand is the frost group of a sand, SW to SC, from the percent
// finer than 0.02 mm, no more than the group can hold; veryFine tells of a very
// fine silty sand, which is F4 over 15 %.
//
// The table lists SW and SP of 3 to 10 % as PFS too, for a laboratory frost test
// to decide; without the test the susceptible group is given, which is the safe
// side. From memory.
func FrostGroupOfSand(g Group, finer float64, veryFine bool) (FrostGroup, error) {
	sand, err := IsSand(g)
	if err != nil {
		return "", err
	}
	if !sand {
		return "", wrongKind(g, "a sand")
	}
	if err := checkFiner(g, finer); err != nil {
		return "", err
	}
	switch {
	case finer > sandF3Over && veryFine:
		return F4, nil
	case finer > sandF3Over:
		return F3, nil
	case finer >= sandF2From:
		return F2, nil
	case finer >= sandS2From:
		return S2, nil
	}
	return NFS, nil
}

// FrostGroupOfFines is the frost group of ML, MH, CL, CL-ML or CH from its
// plasticity index in percent, 0 to 1000. All silts are F4; a clay is F3 if its
// PI is over 12; banded (varved) soils are F4 whatever their PI. A PI of 12
// itself, which the table leaves out, is F4, the weaker. Organic soils are in no
// group: a [NoEntryError]. From memory.
func FrostGroupOfFines(g Group, pi float64, banded bool) (FrostGroup, error) {
	if err := cmp.Or(calculation.CheckWord("g", g), aPI.Named("pi").Check(pi)); err != nil {
		return "", err
	}
	switch g {
	case ML, MH:
		return F4, nil
	case CL, CH, CLML:
		if pi > clayF3OverPI && !banded {
			return F3, nil
		}
		return F4, nil
	case OL, OH, PT:
		return "", &NoEntryError{Table: tm5_822_5, Entry: string(g), Because: "organic soil is to be removed"}
	}
	return "", wrongKind(g, "ML, MH, CL, CL-ML or CH")
}

// FrostGroupFromClass is the weakest frost group that a soil group allows, when
// nothing is known of what is finer than 0.02 mm nor of the plasticity: the safe
// side. It takes a soil that is not banded. Organic soils are in no group: a
// [NoEntryError]. Worked out from TM 5-822-5 Table 18-2, from memory.
func FrostGroupFromClass(g Group) (FrostGroup, error) {
	gravel, err := IsGravel(g)
	if err != nil {
		return "", err
	}
	sand, _ := IsSand(g)
	switch {
	case gravel:
		return FrostGroupOfGravel(g, finerRoom(g))
	case sand:
		// Only a silty sand can be a very fine silty sand.
		return FrostGroupOfSand(g, finerRoom(g), g == SM || g == SCSM)
	case g == CH:
		// On the A-line a fat clay has PI of 22 and more.
		return F3, nil
	}
	return FrostGroupOfFines(g, 0, false)
}

// WeakerFrostGroup is the one of two groups with the lower thaw strength.
func WeakerFrostGroup(a, b FrostGroup) (FrostGroup, error) {
	if err := cmp.Or(calculation.CheckWord("a", a), calculation.CheckWord("b", b)); err != nil {
		return "", err
	}
	if a.rank() > b.rank() {
		return a, nil
	}
	return b, nil
}

// Kaplar 1974, in CRREL SR 97-13 (seen): in gravels about half of what passes
// the No. 200 is finer than 0.02 mm, while under 18 % passes.
const (
	kaplarPart      = 0.5
	kaplarP200Below = 18
)

// FinerThanPointZeroTwo is about what is finer than 0.02 mm in a gravel, in
// percent, when there is no hydrometer: half of p200, 0 to under 18 %.
func FinerThanPointZeroTwo(p200 float64) (float64, error) {
	if !(p200 >= 0 && p200 < kaplarP200Below) {
		return 0, calculation.OutOfRange("p200", p200, "%", fmt.Sprintf("0 to under %d %%", kaplarP200Below), "Kaplar 1974, CRREL SR 97-13")
	}
	return kaplarPart * p200, nil
}
