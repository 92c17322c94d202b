package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// The ranges of the two correlations are the parts of the Guide's figures that
// granular layers fill (memory).
var (
	baseModulusBound    = bound{"base modulus", "psi", 15000, 45000, false, aashto1993 + ", Figure 2.6 (from memory)"}
	subbaseModulusBound = bound{"subbase modulus", "psi", 10000, 25000, false, aashto1993 + ", Figure 2.7 (from memory)"}
)

// BaseCoefficient returns the layer coefficient a2, per inch, of a granular base
// of the given resilient modulus, 15,000 to 45,000 psi:
//
//	a2 = 0.249*log10(E) - 0.977
//
// AASHTO 1993, II-2.3.5, Figure 2.6 (memory).
func BaseCoefficient(modulus quantity.Pressure) (float64, error) {
	if err := baseModulusBound.check(modulus.PSI()); err != nil {
		return 0, err
	}
	return float64(0.249*portable.Log10(modulus.PSI())) - 0.977, nil
}

// SubbaseCoefficient returns the layer coefficient a3, per inch, of a granular
// subbase of the given resilient modulus, 10,000 to 25,000 psi:
//
//	a3 = 0.227*log10(E) - 0.839
//
// AASHTO 1993, II-2.3.5, Figure 2.7 (memory).
func SubbaseCoefficient(modulus quantity.Pressure) (float64, error) {
	if err := subbaseModulusBound.check(modulus.PSI()); err != nil {
		return 0, err
	}
	return float64(0.227*portable.Log10(modulus.PSI())) - 0.839, nil
}

func coefficientCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:    "base_coefficient",
			About:   "The layer coefficient of a granular base from its resilient modulus.",
			Params:  []calculation.Param{{Name: "modulus", About: "resilient modulus of the base, 15,000 to 45,000 psi"}},
			Result:  calculation.Param{Name: "coefficient", About: "layer coefficient per inch"},
			Range:   "modulus 15,000 to 45,000 psi",
			Sources: []value.Source{sourceCoefficients},
			Example: "base_coefficient(psi(30000))",
			Go:      BaseCoefficient,
		},
		{
			Name:    "subbase_coefficient",
			About:   "The layer coefficient of a granular subbase from its resilient modulus.",
			Params:  []calculation.Param{{Name: "modulus", About: "resilient modulus of the subbase, 10,000 to 25,000 psi"}},
			Result:  calculation.Param{Name: "coefficient", About: "layer coefficient per inch"},
			Range:   "modulus 10,000 to 25,000 psi",
			Sources: []value.Source{sourceCoefficients},
			Example: "subbase_coefficient(psi(15000))",
			Go:      SubbaseCoefficient,
		},
	}
}
