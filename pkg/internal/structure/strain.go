package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/value"
)

const strainDocument = "TM 5-822-13 / AFJMAN 32-1018, Oct 1994, Eq. 5-4"

// A = strainSlope*log10(coverages) + strainStart, TM 5-822-13 Eq. 5-4 (seen).
const (
	strainSlope = 0.1408
	strainStart = 2.408
)

// The manual prints no range that was seen; these ends are this library's own.
var strainCoveragesBound = bound{"coverages", "", 100, 1e7, false, ownLimit}

// SubgradeStrainLimit returns the vertical strain that the top of a subgrade may
// take for a number of coverages, 100 to ten million: 10^-A with A =
// 0.1408*log10(coverages) + 2.408. The strain is a plain number, not
// microstrain.
//
// TM 5-822-13 Eq. 5-4 (seen); the range is this library's own.
func SubgradeStrainLimit(coverages float64) (float64, error) {
	if err := strainCoveragesBound.check(coverages); err != nil {
		return 0, err
	}
	return strainLimit(coverages), nil
}

func strainLimit(coverages float64) float64 {
	return portable.Pow(10, -(float64(strainSlope*portable.Log10(coverages)) + strainStart))
}

// SubgradeStrainCoverages is [SubgradeStrainLimit] turned round: the coverages
// that a strain allows. The strain must be one that 100 to ten million
// coverages allow, 0.000404 to 0.002044.
//
// TM 5-822-13 Eq. 5-4, turned round by algebra (computed).
func SubgradeStrainCoverages(strain float64) (float64, error) {
	b := bound{"strain", "", strainLimit(strainCoveragesBound.high), strainLimit(strainCoveragesBound.low), false, strainDocument}
	if err := b.check(strain); err != nil {
		return 0, err
	}
	return portable.Pow(10, -(strainStart+portable.Log10(strain))/strainSlope), nil
}

// The range is this library's own: about ten to a thousand million repetitions.
var ruttingBound = bound{"strain", "", 1e-4, 6e-3, false, ownLimit}

// RuttingRepetitions returns the repetitions of a vertical strain on top of the
// subgrade until the section has rutted: 1.365e-9 * strain^-4.477. Strain
// 0.0001 to 0.006, a plain number.
//
// Asphalt Institute (memory); the range is this library's own.
func RuttingRepetitions(strain float64) (float64, error) {
	if err := ruttingBound.check(strain); err != nil {
		return 0, err
	}
	return 1.365e-9 * portable.Pow(strain, -4.477), nil
}

func strainCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:    "subgrade_strain_limit",
			About:   "The vertical strain that the top of a subgrade may take for a number of coverages.",
			Params:  []calculation.Param{{Name: "coverages", About: "number of coverages, 100 to ten million"}},
			Result:  calculation.Param{Name: "strain", About: "vertical strain, a plain number"},
			Range:   "coverages 100 to ten million",
			Sources: []value.Source{sourceStrain},
			Example: "subgrade_strain_limit(10000.0)",
			Go:      SubgradeStrainLimit,
		},
		{
			Name:    "subgrade_strain_coverages",
			About:   "The coverages that a vertical strain on top of the subgrade allows.",
			Params:  []calculation.Param{{Name: "strain", About: "vertical strain, a plain number, 0.000404 to 0.002044"}},
			Result:  calculation.Param{Name: "coverages", About: "number of coverages"},
			Range:   "strain 0.000404 to 0.002044",
			Sources: []value.Source{sourceStrain, sourceStrainInverse},
			Example: "subgrade_strain_coverages(0.001)",
			Go:      SubgradeStrainCoverages,
		},
		{
			Name:    "rutting_repetitions",
			About:   "The repetitions of a vertical strain on top of the subgrade until the section has rutted.",
			Params:  []calculation.Param{{Name: "strain", About: "vertical strain, a plain number, 0.0001 to 0.006"}},
			Result:  calculation.Param{Name: "repetitions", About: "number of repetitions"},
			Range:   "strain 0.0001 to 0.006",
			Sources: []value.Source{sourceRutting},
			Example: "rutting_repetitions(0.0005)",
			Go:      RuttingRepetitions,
		},
	}
}
