package ground

import (
	"cmp"
	"fmt"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

const m145 = "AASHTO M 145"

// AASHTOGroup is a soil group of AASHTO M 145 (ASTM D3282), as it is printed:
// "A-7-6".
type AASHTOGroup string

// The groups. A-8, peat and muck, is told by eye and never worked out.
const (
	A1a AASHTOGroup = "A-1-a"
	A1b AASHTOGroup = "A-1-b"
	A3  AASHTOGroup = "A-3"
	A24 AASHTOGroup = "A-2-4"
	A25 AASHTOGroup = "A-2-5"
	A26 AASHTOGroup = "A-2-6"
	A27 AASHTOGroup = "A-2-7"
	A4  AASHTOGroup = "A-4"
	A5  AASHTOGroup = "A-5"
	A6  AASHTOGroup = "A-6"
	A75 AASHTOGroup = "A-7-5"
	A76 AASHTOGroup = "A-7-6"
	A8  AASHTOGroup = "A-8"
)

var aashtoNames = []struct {
	group AASHTOGroup
	about string
}{
	{A1a, "stone fragments, gravel and sand"},
	{A1b, "coarse sand with few fines"},
	{A3, "fine sand"},
	{A24, "silty gravel and sand"},
	{A25, "silty gravel and sand, high liquid limit"},
	{A26, "clayey gravel and sand"},
	{A27, "clayey gravel and sand, high liquid limit"},
	{A4, "silty soil"},
	{A5, "silty soil, high liquid limit"},
	{A6, "clayey soil"},
	{A75, "clayey soil, high liquid limit, moderate plasticity for it"},
	{A76, "clayey soil, high liquid limit, high plasticity for it"},
	{A8, "peat and muck, told by eye"},
}

// Vocabulary lists the groups; A-7-6 is the word A_7_6.
func (AASHTOGroup) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "aashto", About: "soil groups of AASHTO M 145"}
	for _, each := range aashtoNames {
		v.Words = append(v.Words, value.WordEntry{
			Name:  strings.ReplaceAll(string(each.group), "-", "_"),
			Label: string(each.group),
			About: each.about,
		})
	}
	return v
}

// AASHTOSample is what the M 145 class is worked out from, percentages passing
// the No. 10 (2 mm), No. 40 (0.425 mm) and No. 200 (0.075 mm) sieves and the
// limits in percent. P10 and P40 do not count where P200 is over 35.
type AASHTOSample struct {
	P10, P40, P200 float64
	// LL and PL of the part finer than the No. 40; a plastic limit at or over
	// the liquid limit is nonplastic.
	LL, PL float64
	// Nonplastic says that no thread could be rolled; the limits are not needed.
	Nonplastic bool
}

// AASHTOClass is a group with its index.
type AASHTOClass struct {
	Group AASHTOGroup
	// Index is the group index, a whole number from 0.
	Index int
}

// String returns the class as it is printed: "A-7-6(8)".
func (c AASHTOClass) String() string { return fmt.Sprintf("%s(%d)", c.Group, c.Index) }

// Limits of M 145 (seen as relayed by lecture slides and a textbook), in whole
// percent.
const (
	granularTo  = 35 // P200 to which a soil is granular
	lowLLTo     = 40
	lowPITo     = 10
	a1PITo      = 6
	a1aP10To    = 50
	a1aP40To    = 30
	a1aP200To   = 15
	a1bP40To    = 50
	a1bP200To   = 25
	a3P40From   = 51
	a3P200To    = 10
	a75Constant = 30 // A-7-5 if PI <= LL - 30
)

// ClassifyAASHTO returns the M 145 group and group index. The table is read from
// left to right and the first that fits is taken, A-3 before A-2. Percentages
// and limits are rounded to whole numbers first, a half upwards. A nonplastic
// soil without a liquid limit is taken as of low liquid limit.
//
// The index is that of M 145 as it stands, without the caps of the index used
// before 1966.
func ClassifyAASHTO(s AASHTOSample) (AASHTOClass, error) {
	if err := cmp.Or(aPercentage.Named("p10").Check(s.P10), aPercentage.Named("p40").Check(s.P40), aPercentage.Named("p200").Check(s.P200)); err != nil {
		return AASHTOClass{}, err
	}
	if s.P40 > s.P10 {
		return AASHTOClass{}, calculation.OutOfRange("p40", s.P40, "%", fmt.Sprintf("at most the %g %% that passes the No. 10 sieve", s.P10), m145)
	}
	if s.P200 > s.P40 {
		return AASHTOClass{}, calculation.OutOfRange("p200", s.P200, "%", fmt.Sprintf("at most the %g %% that passes the No. 40 sieve", s.P40), m145)
	}
	a, missing, err := Sample{LL: s.LL, PL: s.PL, Nonplastic: s.Nonplastic}.limits()
	if err != nil {
		return AASHTOClass{}, err
	}
	if missing != nil {
		return AASHTOClass{}, &MissingError{What: missing, Because: "every group turns on the limits", Document: m145}
	}
	p200 := wholeNumber(s.P200)
	g := aashtoGroup(wholeNumber(s.P10), wholeNumber(s.P40), p200, a)
	return AASHTOClass{Group: g, Index: groupIndex(g, p200, a)}, nil
}

func aashtoGroup(p10, p40, p200 int, a atterberg) AASHTOGroup {
	switch {
	case p10 <= a1aP10To && p40 <= a1aP40To && p200 <= a1aP200To && a.pi <= a1PITo:
		return A1a
	case p40 <= a1bP40To && p200 <= a1bP200To && a.pi <= a1PITo:
		return A1b
	case p40 >= a3P40From && p200 <= a3P200To && a.nonplastic:
		return A3
	}
	of := [4]AASHTOGroup{A4, A5, A6, A76}
	if a.pi <= a.ll-a75Constant {
		of[3] = A75
	}
	if p200 <= granularTo {
		of = [4]AASHTOGroup{A24, A25, A26, A27}
	}
	i := 0
	if a.ll > lowLLTo {
		i++
	}
	if a.pi > lowPITo {
		i += 2
	}
	return of[i]
}

// groupIndex is the index of a group: the whole formula for silts and clays, the
// plasticity part alone for A-2-6 and A-2-7, 0 for the other granular groups.
// In thousandths, so that a half is a half.
func groupIndex(g AASHTOGroup, p200 int, a atterberg) int {
	var thousandths int
	switch g {
	case A26, A27:
		thousandths = plasticityPart(p200, a)
	case A4, A5, A6, A75, A76:
		thousandths = liquidPart(p200, a) + plasticityPart(p200, a)
	}
	return (max(thousandths, 0) + 500) / 1000
}

// liquidPart is (F - 35)[0.2 + 0.005(LL - 40)] in thousandths.
func liquidPart(p200 int, a atterberg) int { return (p200 - 35) * (200 + 5*(a.ll-40)) }

// plasticityPart is 0.01(F - 15)(PI - 10) in thousandths.
func plasticityPart(p200 int, a atterberg) int { return 10 * (p200 - 15) * (a.pi - 10) }

// AASHTOGroupOf is the group of [ClassifyAASHTO] from both limits, each above 0.
func AASHTOGroupOf(p10, p40, p200, ll, pl float64) (AASHTOGroup, error) {
	c, err := classifyAASHTOByLimits(p10, p40, p200, ll, pl)
	return c.Group, err
}

// AASHTOClassOf is the class of [ClassifyAASHTO] as it is printed, "A-7-6(8)".
func AASHTOClassOf(p10, p40, p200, ll, pl float64) (string, error) {
	c, err := classifyAASHTOByLimits(p10, p40, p200, ll, pl)
	if err != nil {
		return "", err
	}
	return c.String(), nil
}

// GroupIndex is the index of [ClassifyAASHTO], a whole number.
func GroupIndex(p10, p40, p200, ll, pl float64) (float64, error) {
	c, err := classifyAASHTOByLimits(p10, p40, p200, ll, pl)
	return float64(c.Index), err
}

func classifyAASHTOByLimits(p10, p40, p200, ll, pl float64) (AASHTOClass, error) {
	if _, err := limitsOf(ll, pl); err != nil {
		return AASHTOClass{}, err
	}
	return ClassifyAASHTO(AASHTOSample{P10: p10, P40: p40, P200: p200, LL: ll, PL: pl})
}

// AASHTOGroupNonplastic is the group of [ClassifyAASHTO] for a soil of which no
// thread can be rolled.
func AASHTOGroupNonplastic(p10, p40, p200 float64) (AASHTOGroup, error) {
	c, err := ClassifyAASHTO(AASHTOSample{P10: p10, P40: p40, P200: p200, Nonplastic: true})
	return c.Group, err
}

// GroupIndexUnrounded is the whole group index formula of M 145,
// (F - 35)[0.2 + 0.005(LL - 40)] + 0.01(F - 15)(PI - 10), before it is rounded
// and before a negative value is put to 0. It holds for, so p200
// runs from 36 to 100.
func GroupIndexUnrounded(p200, ll, pl float64) (float64, error) {
	a, err := limitsOf(ll, pl)
	if err != nil {
		return 0, err
	}
	if err := aPercentage.Named("p200").Check(p200); err != nil {
		return 0, err
	}
	f := wholeNumber(p200)
	if f <= granularTo {
		return 0, calculation.OutOfRange("p200", p200, "%", fmt.Sprintf("%d to 100 %%", granularTo+1), m145)
	}
	return float64(liquidPart(f, a)+plasticityPart(f, a)) / 1000, nil
}
