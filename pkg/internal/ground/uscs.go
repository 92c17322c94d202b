package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// The functions in this file return the soil group of a sample to ASTM D2487,
// one for each set of what is known, so that nothing needs a value for "not
// known". They speak of the part finer than 75 mm (3 in): p4 and p200 are the
// shares by mass passing the No. 4 (4.75 mm) and No. 200 (0.075 mm) sieves,
// ll and pl the liquid and the plastic limit, each above 0 to 1000; a plastic
// limit at or over the liquid limit is a nonplastic soil. Percentages and limits
// are rounded to whole numbers first, a half upwards. Limits above the U-line
// are refused: the tests should be verified.

// Fines content in whole percent, ASTM D2487: "5 to 12" and "50 or more" from
// memory, "over 12" seen in the 1998 edition.
const (
	dualFrom  = 5
	dirtyFrom = 13
	fineFrom  = 50
	allFines  = 101
)

// FinesMost returns the share by mass below which the part of a soil group that passes
// the No. 200 sieve stays: 4.5 % for GW, GP, SW and SP, 12.5 % for the sands and gravels
// of two groups but GC-GM and SC-SM, 49.5 % for the others; 100 % for all that is no
// sand or gravel. The half percent is what rounds down. ASTM D2487, from memory in part.
func FinesMost(g Group) (quantity.Share, error) {
	return onlyIf(quantity.Percent(g.mostFines()), g.check())
}

func (g Group) mostFines() float64 {
	below := fineFrom
	switch first, second := g.parts(); {
	case !g.gravel() && !g.sand():
		return 100
	case g == GW || g == GP || g == SW || g == SP:
		below = dualFrom
	case first != second && g != GCGM && g != SCSM:
		below = dirtyFrom
	}
	return float64(below) - 0.5
}

// sieve is the whole percentages of gravel, sand and fines.
type sieve struct{ gravel, sand, fines int }

// sieveOf reads the two percentages; p200 rounds to low and more, and to less than
// below.
func sieveOf(p4, p200 quantity.Share, low, below int, otherwise string) (sieve, error) {
	fines := calculation.Range{Name: "p200", Unit: "%", Low: max(0, float64(low)-0.5), High: min(100, float64(below)-0.5),
		Below: below < allFines, Document: d2487 + otherwise}
	finer := calculation.Range{Name: "p200", Unit: "%", Low: 0, High: p4.Percent(), Document: "no more than passes the No. 4 sieve"}
	if err := cmp.Or(aPercentage.Named("p4").CheckMeasure(p4), fines.CheckMeasure(p200), finer.CheckMeasure(p200)); err != nil {
		return sieve{}, err
	}
	a, b := wholeNumber(p4.Percent()), wholeNumber(p200.Percent())
	return sieve{gravel: 100 - a, sand: a - b, fines: b}, nil
}

func (z sieve) isGravel() bool { return z.gravel > z.sand }

// coarse puts a symbol together, of "W", "P" or "" for the gradation and of the
// fines, "" if they do not count. Silty, clayey fines of 5 to 12 % make the
// clayey dual symbol; over 12 % they make GC-GM or SC-SM.
func (z sieve) coarse(graded string, kind Fines) Group {
	letter := "S"
	if z.isGravel() {
		letter = "G"
	}
	switch {
	case graded == "" && kind == SiltyClayeyFines:
		return Group(letter + "C-" + letter + "M")
	case graded == "" && kind == SiltyFines:
		return Group(letter + "M")
	case graded == "":
		return Group(letter + "C")
	case kind == "":
		return Group(letter + graded)
	case kind == SiltyFines:
		return Group(letter + graded + "-" + letter + "M")
	}
	return Group(letter + graded + "-" + letter + "C")
}

// byGradation is the group of a coarse soil with whatever fines.
func (z sieve) byGradation(cu, cc float64, kind Fines) (Group, error) {
	well, err := wellGraded(z.isGravel(), cu, cc)
	graded := "P"
	switch {
	case z.fines >= dirtyFrom:
		graded = ""
	case well:
		graded = "W"
	}
	if z.fines < dualFrom {
		kind = ""
	}
	return onlyIf(z.coarse(graded, kind), err)
}

// USCSFineOvenDried returns the group of a fine-grained soil, p200 from 50, with
// the liquid limit after oven drying: below 0.75 of the limit not dried the soil
// is organic, OL or OH.
func USCSFineOvenDried(p4, p200 quantity.Share, ll, pl, llOven float64) (Group, error) {
	_, outside := sieveOf(p4, p200, fineFrom, allFines, "; a coarse soil has no organic group")
	a, err := limitsOf(ll, pl)
	if err := cmp.Or(outside, err, aLimit.Named("oven-dried liquid limit").Check(llOven), a.verified()); err != nil {
		return "", err
	}
	switch organic := llOven < float64(organicRatio*ll); {
	case organic && a.ll >= highPlasticityLL:
		return OH, nil
	case organic:
		return OL, nil
	}
	return a.symbol(), nil
}

// USCSFineNonplastic returns the group of a fine-grained soil, p200 from 50, of
// which no thread can be rolled.
func USCSFineNonplastic(p4, p200 quantity.Share) (Group, error) {
	_, err := sieveOf(p4, p200, fineFrom, allFines, "; for fewer fines see uscs_silty_or_clayey and uscs_coarse")
	return onlyIf(ML, err)
}

// USCSClean returns the group of a coarse soil, p200 under 5, from Cu, from 1,
// and Cc, between 1/Cu and Cu.
func USCSClean(p4, p200 quantity.Share, cu, cc float64) (Group, error) {
	z, err := sieveOf(p4, p200, 0, dualFrom, "; for more fines see uscs_coarse and uscs_by_limits")
	if err != nil {
		return "", err
	}
	return z.byGradation(cu, cc, "")
}

// USCSCoarse returns the group of any coarse soil, p200 under 50, from Cu, Cc and
// what its fines are.
func USCSCoarse(p4, p200 quantity.Share, cu, cc float64, fines Fines) (Group, error) {
	z, err := sieveOf(p4, p200, 0, fineFrom, "; for more fines see uscs_by_limits and uscs_fine_nonplastic")
	if err := cmp.Or(err, calculation.CheckWord("fines", fines)); err != nil {
		return "", err
	}
	return z.byGradation(cu, cc, fines)
}

// USCSSiltyOrClayey returns the group of a coarse soil, p200 over 12 and under 50,
// for which no gradation is needed.
func USCSSiltyOrClayey(p4, p200 quantity.Share, fines Fines) (Group, error) {
	z, err := sieveOf(p4, p200, dirtyFrom, fineFrom, "; for fewer fines see uscs_clean and uscs_coarse, for more uscs_by_limits and uscs_fine_nonplastic")
	return onlyIf(z.coarse("", fines), cmp.Or(err, calculation.CheckWord("fines", fines)))
}

// USCSByLimits returns the group of any inorganic soil, p200 over 12, from its
// limits; no gradation is needed.
func USCSByLimits(p4, p200 quantity.Share, ll, pl float64) (Group, error) {
	z, outside := sieveOf(p4, p200, dirtyFrom, allFines, "; for fewer fines see uscs_clean and uscs_from_sieve")
	a, err := limitsOf(ll, pl)
	if err := cmp.Or(outside, err, a.verified()); err != nil {
		return "", err
	}
	if z.fines >= fineFrom {
		return a.symbol(), nil
	}
	return z.coarse("", a.fines()), nil
}

// USCSFromSieve returns the group of any inorganic soil from a full sieve and
// both limits. Sizes above 0 to 3 m in rising order, in agreement with the
// sieve.
func USCSFromSieve(p4, p200 quantity.Share, d10, d30, d60 quantity.Length, ll, pl float64) (Group, error) {
	z, outside := sieveOf(p4, p200, 0, allFines, "")
	a, err := limitsOf(ll, pl)
	if err := cmp.Or(outside, err, rising(d10, d30, d60), sizesAgree(p4, p200, d10, d30, d60)); err != nil {
		return "", err
	}
	if z.fines >= dirtyFrom {
		return USCSByLimits(p4, p200, ll, pl)
	}
	if z.fines >= dualFrom {
		if err := a.verified(); err != nil {
			return "", err
		}
	}
	cu, _ := UniformityCoefficient(d10, d60)
	cc, _ := CurvatureCoefficient(d10, d30, d60)
	return z.byGradation(cu, cc, a.fines())
}
