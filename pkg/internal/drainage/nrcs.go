package drainage

import (
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// NRCS NEH 633 Chapter 26 (Oct 1994; Amend. 61, Aug 2017), Table 26-2. The
// values of categories 1 and 4 are relayed; those of categories 2 and 3, of
// dispersive soils, and the floor of category 3 are from memory.
const (
	nrcsCategory1Fines = 85.0 // category 1 above this percent of fines
	nrcsCategory2Fines = 40.0 // category 2 from here to 85 %
	nrcsCategory3Fines = 15.0 // category 3 from here to below 40 %

	nrcsCategory1Ratio      = 9.0 // D15F <= 9 d85
	nrcsCategory1Dispersive = 6.5 // D15F <= 6.5 d85
	nrcsCategory1LeastMM    = 0.2 // but a limit of not less than this
	nrcsCategory2MM         = 0.7 // D15F <= 0.7 mm
	nrcsCategory2Dispersive = 0.5 // D15F <= 0.5 mm
	nrcsCategory4Ratio      = 4.0 // D15F <= 4 d85
)

// The sieves of the NRCS categories, in mm: fines pass No. 200; categories 1 to
// 3 are worked on what passes No. 4.
const (
	finesOpening   = 0.075
	regradeOpening = 4.75
)

// BaseSoilCategory returns the category, 1 to 4, of a soil that a filter protects,
// by its percent of fines (passing No. 200, of what passes No. 4).
//
// Source: NRCS NEH 633 Table 26-2; categories 1 and 4 relayed, 2 and 3 from memory.
func BaseSoilCategory(fines float64) (float64, error) {
	if err := checkPercent("fines", fines); err != nil {
		return 0, err
	}
	switch {
	case fines > nrcsCategory1Fines:
		return 1, nil
	case fines >= nrcsCategory2Fines:
		return 2, nil
	case fines >= nrcsCategory3Fines:
		return 3, nil
	}
	return 4, nil
}

// RetentionLimitD15 returns the largest D15 that a filter may have over a soil that
// does not disperse, from its percent of fines and its d85 (both of what passes
// No. 4, in categories 1 to 3):
//
//	fines over 85 %   9 d85, but not less than 0.2 mm
//	40 to 85 %        0.7 mm
//	15 to 40 %        (40-A)/(40-15) (4 d85 - 0.7 mm) + 0.7 mm, A the fines; 0.7 mm where 4 d85 is less
//	under 15 %        4 d85
//
// Source: NRCS NEH 633 Table 26-2; categories 1 and 4 relayed, 2 and 3 from memory.
func RetentionLimitD15(fines float64, d85 quantity.Length) (quantity.Length, error) {
	category, err := BaseSoilCategory(fines)
	if err == nil {
		err = checkSize("d85", d85)
	}
	if err != nil {
		return 0, err
	}
	category2 := quantity.Millimeters(nrcsCategory2MM)
	switch category {
	case 1:
		return max(nrcsCategory1Ratio*d85, quantity.Millimeters(nrcsCategory1LeastMM)), nil
	case 2:
		return category2, nil
	case 3:
		share := (nrcsCategory2Fines - fines) / (nrcsCategory2Fines - nrcsCategory3Fines)
		above := max(quantity.Length(nrcsCategory4Ratio*d85)-category2, 0)
		return quantity.Length(quantity.Length(share)*above) + category2, nil
	}
	return nrcsCategory4Ratio * d85, nil
}

// RetentionLimitD15Dispersive is [RetentionLimitD15] for a dispersive soil with at
// least 40 % fines: 6.5 d85 (not less than 0.2 mm) over 85 %, else 0.5 mm. With
// fewer fines the table gives no value for a dispersive soil: a range error.
//
// Source: NRCS NEH 633 Table 26-2, from memory.
func RetentionLimitD15Dispersive(fines float64, d85 quantity.Length) (quantity.Length, error) {
	category, err := BaseSoilCategory(fines)
	if err == nil {
		err = checkSize("d85", d85)
	}
	if err != nil {
		return 0, err
	}
	switch category {
	case 1:
		return max(nrcsCategory1Dispersive*d85, quantity.Millimeters(nrcsCategory1LeastMM)), nil
	case 2:
		return quantity.Millimeters(nrcsCategory2Dispersive), nil
	}
	return 0, calculation.OutOfRange("fines of a dispersive soil", fines, "%", "40 to 100 %", sourceNRCS.Document)
}

// RetentionLimitD15ByFines is [RetentionLimitD15] for a soil whose d85 is not
// known: the smallest limit that the table can give for such fines, so 0.2 mm in
// category 1 and 0.7 mm in categories 2 and 3. In category 4 the limit rests on
// d85 alone, and the answer is [ErrCannotTell].
//
// Source: NRCS NEH 633 Table 26-2, from memory.
func RetentionLimitD15ByFines(fines float64) (quantity.Length, error) {
	category, err := BaseSoilCategory(fines)
	if err != nil {
		return 0, err
	}
	switch category {
	case 1:
		return quantity.Millimeters(nrcsCategory1LeastMM), nil
	case 2, 3:
		return quantity.Millimeters(nrcsCategory2MM), nil
	}
	return 0, cannotTell("largest D15 of a filter over soil with %g %% fines: its d85 is needed", fines)
}

// nrcsLimit works the limit out from a soil's gradation. Worst takes the smallest
// of the limits on the soil's coarse, mid and fine curves, because the limit does
// not simply fall as the soil gets finer.
func nrcsLimit(soil Gradation, worst bool) (quantity.Length, error) {
	if !worst {
		return nrcsLimitOn(soil, Mid)
	}
	var least quantity.Length
	for i, e := range []Edge{Coarse, Mid, Fine} {
		limit, err := nrcsLimitOn(soil, e)
		if err != nil {
			return 0, err
		}
		if i == 0 || limit < least {
			least = limit
		}
	}
	return least, nil
}

func nrcsLimitOn(soil Gradation, e Edge) (quantity.Length, error) {
	fail := func(err error) (quantity.Length, error) {
		return 0, fmt.Errorf("%s: protected: %w", NRCSRetention, err)
	}
	fines, err := soil.PercentPassing(e, quantity.Millimeters(finesOpening))
	if err != nil {
		return fail(err)
	}
	whole := 100.0
	coarse, err := soil.PercentPassing(e, quantity.Millimeters(regradeOpening))
	if err != nil {
		return fail(err)
	}
	// Categories 1 to 3 are worked on what passes No. 4; a soil that is in
	// category 4 only as a whole is regraded too.
	if coarse > 0 && fines/coarse*100 >= nrcsCategory3Fines {
		whole = coarse
		fines = min(fines/coarse*100, 100)
	}
	if category, err := BaseSoilCategory(fines); err != nil {
		return fail(err)
	} else if category == 2 {
		return RetentionLimitD15ByFines(fines)
	}
	d85, err := soil.SizeAt(e, 0.85*whole)
	if err != nil {
		return fail(err)
	}
	return RetentionLimitD15(fines, d85)
}

func judgeNRCS(filter, soil Gradation, worst bool) (Test, error) {
	edge := Mid
	if worst {
		edge = Coarse
	}
	d15, err := filter.SizeAt(edge, 15)
	if err != nil {
		return Test{}, fmt.Errorf("%s: filter: %w", NRCSRetention, err)
	}
	limit, err := nrcsLimit(soil, worst)
	if err != nil {
		return Test{}, err
	}
	share := quotient(d15, limit)
	return Test{Ratio: "D15F/limit by fines", Value: share, Limit: 1, Bound: AtMost, Holds: share <= 1, Source: sourceNRCS}, nil
}
