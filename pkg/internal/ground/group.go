package ground

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Group is a group symbol of the unified soil classification, ASTM D2487, as it
// is printed: "GW-GM". The Army writes GM-GC and SM-SC for GC-GM and SC-SM.
type Group string

// The group symbols.
const (
	GW   Group = "GW"
	GP   Group = "GP"
	GM   Group = "GM"
	GC   Group = "GC"
	GCGM Group = "GC-GM"
	GWGM Group = "GW-GM"
	GWGC Group = "GW-GC"
	GPGM Group = "GP-GM"
	GPGC Group = "GP-GC"
	SW   Group = "SW"
	SP   Group = "SP"
	SM   Group = "SM"
	SC   Group = "SC"
	SCSM Group = "SC-SM"
	SWSM Group = "SW-SM"
	SWSC Group = "SW-SC"
	SPSM Group = "SP-SM"
	SPSC Group = "SP-SC"
	CL   Group = "CL"
	ML   Group = "ML"
	CLML Group = "CL-ML"
	CH   Group = "CH"
	MH   Group = "MH"
	OL   Group = "OL"
	OH   Group = "OH"
	PT   Group = "PT"
)

// groupNames is each symbol with the plain name of its soil, in the order of
// the constants.
var groupNames = []struct {
	group Group
	name  string
}{
	{GW, "well-graded gravel"},
	{GP, "poorly graded gravel"},
	{GM, "silty gravel"},
	{GC, "clayey gravel"},
	{GCGM, "silty, clayey gravel"},
	{GWGM, "well-graded gravel with silt"},
	{GWGC, "well-graded gravel with clay"},
	{GPGM, "poorly graded gravel with silt"},
	{GPGC, "poorly graded gravel with clay"},
	{SW, "well-graded sand"},
	{SP, "poorly graded sand"},
	{SM, "silty sand"},
	{SC, "clayey sand"},
	{SCSM, "silty, clayey sand"},
	{SWSM, "well-graded sand with silt"},
	{SWSC, "well-graded sand with clay"},
	{SPSM, "poorly graded sand with silt"},
	{SPSC, "poorly graded sand with clay"},
	{CL, "lean clay"},
	{ML, "silt"},
	{CLML, "silty clay"},
	{CH, "fat clay"},
	{MH, "elastic silt"},
	{OL, "organic silt or clay of low plasticity"},
	{OH, "organic silt or clay of high plasticity"},
	{PT, "peat"},
}

// Groups lists every group symbol.
func Groups() []Group {
	out := make([]Group, len(groupNames))
	for i, each := range groupNames {
		out[i] = each.group
	}
	return out
}

// Vocabulary lists the symbols; GW-GM is the word GW_GM.
func (Group) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "uscs", About: "soil groups of the unified classification, ASTM D2487"}
	for _, each := range groupNames {
		v.Words = append(v.Words, value.WordEntry{
			Name:  strings.ReplaceAll(string(each.group), "-", "_"),
			Label: string(each.group),
			About: each.name,
		})
	}
	return v
}

// armyOrder is the ASTM symbol for the order in which older Army manuals
// write the silty, clayey soils (from memory).
var armyOrder = map[string]Group{"GM-GC": GCGM, "SM-SC": SCSM, "ML-CL": CLML}

// ParseGroup reads a group symbol in either case, with - or _ between the parts
// of a dual symbol, in the order of ASTM or of the Army. A symbol with a slash,
// such as CL/CH, is a borderline soil of two groups and is refused.
func ParseGroup(text string) (Group, error) {
	symbol := strings.ToUpper(strings.ReplaceAll(strings.TrimSpace(text), "_", "-"))
	if strings.Contains(symbol, "/") {
		return "", fmt.Errorf("%q is a borderline soil of two groups; give the symbol of the weaker", text)
	}
	if g, ok := armyOrder[symbol]; ok {
		return g, nil
	}
	return onlyIf(Group(symbol), Group(symbol).check())
}

// parts returns the two symbols of a dual symbol, GW and GM of GW-GM, and the
// group itself twice if it is single.
func (g Group) parts() (Group, Group) {
	head, tail, dual := strings.Cut(string(g), "-")
	if !dual {
		tail = head
	}
	return Group(head), Group(tail)
}

func (g Group) gravel() bool  { return strings.HasPrefix(string(g), "G") }
func (g Group) sand() bool    { return strings.HasPrefix(string(g), "S") }
func (g Group) organic() bool { return g == OL || g == OH || g == PT }

func (g Group) check() error { return calculation.CheckWord("soil group", g) }

// among refuses a group that is not of the kind that a document speaks of.
func (g Group) among(document string, is func(Group) bool) error {
	if g.check() == nil && is(g) {
		return nil
	}
	e := &calculation.WordError{Name: "soil group", Got: string(g), Document: document}
	for _, each := range Groups() {
		if is(each) {
			e.Want = append(e.Want, string(each))
		}
	}
	return e
}

// IsFineGrained reports whether half or more of a soil passes the No. 200 sieve.
// Peat is neither fine nor coarse.
func IsFineGrained(g Group) (bool, error) {
	return onlyIf(!g.gravel() && !g.sand() && g != PT, g.check())
}

// IsOrganic reports whether a soil is OL, OH or PT, which are not fit as
// subgrade, subbase or base (USACE WES TM 3-357 App. B, from memory).
func IsOrganic(g Group) (bool, error) { return onlyIf(g.organic(), g.check()) }

// PlainName returns the plain name of a group's soil, without what the sieve would add.
func PlainName(g Group) (string, error) {
	for _, each := range groupNames {
		if each.group == g {
			return each.name, nil
		}
	}
	return "", g.check()
}
