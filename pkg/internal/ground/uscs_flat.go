package ground

import (
	"cmp"
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// The functions in this file are [Classify] for the rule language, where every
// argument is a number that is known: one function for each set of what is
// known, so that nothing needs a value for "not known". All refuse limits above
// the U-line with a [SuspectError].

// verified is Classify for a caller that has no place for a second answer.
func verified(s Sample) (Classification, error) {
	c, err := Classify(s)
	if err != nil {
		return Classification{}, err
	}
	if c.Suspect != nil {
		return Classification{}, c.Suspect
	}
	return c, nil
}

// finesWithin refuses a fines content for which another function serves. lo and
// hi are whole percent.
func finesWithin(p200 float64, lo, hi int, instead string) error {
	if err := aPercentage.Named("p200").Check(p200); err != nil {
		return err
	}
	if f := wholeNumber(p200); f < lo || f > hi {
		return calculation.OutOfRange("p200", p200, "%", fmt.Sprintf("%d to %d %%; otherwise use %s", lo, hi, instead), d2487)
	}
	return nil
}

// ClassifyFine returns the class of a fine-grained soil from its limits. p4 and
// p200 in percent passing, p200 from 50; ll and pl in percent, both above 0; a
// plastic limit at or over the liquid limit is a nonplastic soil.
func ClassifyFine(p4, p200, ll, pl float64) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, fineGrainedFrom, 100, "uscs_coarse"),
		aLimit.Named("liquid limit").Check(ll), aLimit.Named("plastic limit").Check(pl)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, LL: ll, PL: pl})
}

// ClassifyFineOvenDried is [ClassifyFine] with the liquid limit after oven
// drying, llOven in percent: below 0.75 of the limit not dried the soil is
// organic, OL or OH.
func ClassifyFineOvenDried(p4, p200, ll, pl, llOven float64) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, fineGrainedFrom, 100, "uscs_coarse"), aLimit.Named("liquid limit").Check(ll),
		aLimit.Named("plastic limit").Check(pl), aLimit.Named("oven-dried liquid limit").Check(llOven)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, LL: ll, PL: pl, LLOvenDried: llOven})
}

// ClassifyFineNonplastic returns the class of a fine-grained soil of which no
// thread can be rolled.
func ClassifyFineNonplastic(p4, p200 float64) (Classification, error) {
	if err := finesWithin(p200, fineGrainedFrom, 100, "uscs_coarse"); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, Nonplastic: true})
}

// ClassifyClean returns the class of a coarse soil with under 5 % fines from Cu,
// from 1, and Cc, above 0.
func ClassifyClean(p4, p200, cu, cc float64) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, 0, dualFrom-1, "uscs_coarse"), aCu.Named("Cu").Check(cu), aCc.Named("Cc").Check(cc)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, Cu: cu, Cc: cc})
}

// ClassifyCoarse returns the class of any coarse soil, under 50 % fines, from Cu,
// Cc and what its fines are, by eye or by [FinesKind].
func ClassifyCoarse(p4, p200, cu, cc float64, fines Fines) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, 0, fineGrainedFrom-1, "uscs_fine"), aCu.Named("Cu").Check(cu), aCc.Named("Cc").Check(cc),
		calculation.CheckWord("fines", fines)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, Cu: cu, Cc: cc, Fines: fines})
}

// ClassifySiltyOrClayey returns the class of a coarse soil with over 12 % and
// under 50 % fines, for which no gradation is needed.
func ClassifySiltyOrClayey(p4, p200 float64, fines Fines) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, dualTo+1, fineGrainedFrom-1, "uscs_clean, uscs_coarse or uscs_fine"),
		calculation.CheckWord("fines", fines)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, Fines: fines})
}

// ClassifyByLimits returns the class of any inorganic soil with over 12 % fines,
// fine-grained or coarse, from its limits; no gradation is needed. A plastic
// limit at or over the liquid limit is a nonplastic soil.
func ClassifyByLimits(p4, p200, ll, pl float64) (Classification, error) {
	if err := cmp.Or(finesWithin(p200, dualTo+1, 100, "uscs_clean, uscs_coarse or uscs_from_sieve"),
		aLimit.Named("liquid limit").Check(ll), aLimit.Named("plastic limit").Check(pl)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, LL: ll, PL: pl})
}

// ClassifySieve returns the class of any inorganic soil from a full sieve and
// both limits. Sizes above 0 to 3 m in rising order, in agreement with the
// sieve; a plastic limit at or over the liquid limit is a nonplastic soil.
func ClassifySieve(p4, p200 float64, d10, d30, d60 quantity.Length, ll, pl float64) (Classification, error) {
	if err := cmp.Or(aLimit.Named("liquid limit").Check(ll), aLimit.Named("plastic limit").Check(pl), rising(d10, d30, d60)); err != nil {
		return Classification{}, err
	}
	return verified(Sample{P4: p4, P200: p200, D10: d10, D30: d30, D60: d60, LL: ll, PL: pl})
}

// group and name pick one answer out of a classification.
func group(c Classification, err error) (Group, error) { return c.Group, err }
func name(c Classification, err error) (string, error) { return c.Name, err }

// USCSFine is the group of [ClassifyFine].
func USCSFine(p4, p200, ll, pl float64) (Group, error) { return group(ClassifyFine(p4, p200, ll, pl)) }

// USCSFineName is the name of [ClassifyFine].
func USCSFineName(p4, p200, ll, pl float64) (string, error) {
	return name(ClassifyFine(p4, p200, ll, pl))
}

// USCSFineOvenDried is the group of [ClassifyFineOvenDried].
func USCSFineOvenDried(p4, p200, ll, pl, llOven float64) (Group, error) {
	return group(ClassifyFineOvenDried(p4, p200, ll, pl, llOven))
}

// USCSFineOvenDriedName is the name of [ClassifyFineOvenDried].
func USCSFineOvenDriedName(p4, p200, ll, pl, llOven float64) (string, error) {
	return name(ClassifyFineOvenDried(p4, p200, ll, pl, llOven))
}

// USCSFineNonplastic is the group of [ClassifyFineNonplastic].
func USCSFineNonplastic(p4, p200 float64) (Group, error) {
	return group(ClassifyFineNonplastic(p4, p200))
}

// USCSClean is the group of [ClassifyClean].
func USCSClean(p4, p200, cu, cc float64) (Group, error) {
	return group(ClassifyClean(p4, p200, cu, cc))
}

// USCSCoarse is the group of [ClassifyCoarse].
func USCSCoarse(p4, p200, cu, cc float64, fines Fines) (Group, error) {
	return group(ClassifyCoarse(p4, p200, cu, cc, fines))
}

// USCSCoarseName is the name of [ClassifyCoarse].
func USCSCoarseName(p4, p200, cu, cc float64, fines Fines) (string, error) {
	return name(ClassifyCoarse(p4, p200, cu, cc, fines))
}

// USCSSiltyOrClayey is the group of [ClassifySiltyOrClayey].
func USCSSiltyOrClayey(p4, p200 float64, fines Fines) (Group, error) {
	return group(ClassifySiltyOrClayey(p4, p200, fines))
}

// USCSSiltyOrClayeyName is the name of [ClassifySiltyOrClayey].
func USCSSiltyOrClayeyName(p4, p200 float64, fines Fines) (string, error) {
	return name(ClassifySiltyOrClayey(p4, p200, fines))
}

// USCSByLimits is the group of [ClassifyByLimits].
func USCSByLimits(p4, p200, ll, pl float64) (Group, error) {
	return group(ClassifyByLimits(p4, p200, ll, pl))
}

// USCSByLimitsName is the name of [ClassifyByLimits].
func USCSByLimitsName(p4, p200, ll, pl float64) (string, error) {
	return name(ClassifyByLimits(p4, p200, ll, pl))
}

// USCSFromSieve is the group of [ClassifySieve].
func USCSFromSieve(p4, p200 float64, d10, d30, d60 quantity.Length, ll, pl float64) (Group, error) {
	return group(ClassifySieve(p4, p200, d10, d30, d60, ll, pl))
}

// USCSFromSieveName is the name of [ClassifySieve].
func USCSFromSieveName(p4, p200 float64, d10, d30, d60 quantity.Length, ll, pl float64) (string, error) {
	return name(ClassifySieve(p4, p200, d10, d30, d60, ll, pl))
}
