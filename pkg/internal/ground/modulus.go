package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// ModulusCorrelation is the choice of correlation from CBR to resilient modulus.
// The first two cross at CBR 4.39 (computed); above it the first is the higher.
type ModulusCorrelation string

// The correlations.
const (
	Modulus1500   ModulusCorrelation = "1500 CBR"
	Modulus2555   ModulusCorrelation = "2555 CBR^0.64"
	ModulusLR1132 ModulusCorrelation = "17.6 CBR^0.64 MPa"
)

// Vocabulary lists the correlations.
func (ModulusCorrelation) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "modulus_correlation",
		About: "correlations from CBR to resilient modulus",
		Words: []value.WordEntry{
			{Name: "modulus_1500_cbr", Label: string(Modulus1500), About: "Heukelom and Klomp 1962, AASHTO 1993: fine-grained soil, CBR up to 10, psi"},
			{Name: "modulus_2555_cbr_064", Label: string(Modulus2555), About: "NCHRP 1-37A 2004: CBR 1 to 100, psi"},
			{Name: "modulus_lr_1132", Label: string(ModulusLR1132), About: "Powell and others 1984, TRRL LR 1132: CBR 2 to 12, MPa"},
		},
	}
}

// Constants and ranges of the correlations. Formulas relayed. The range of the
// first is relayed; those of the two powers are from memory.
const (
	heukelomPSI   = 1500
	nchrpPSI      = 2555
	lr1132MPa     = 17.6
	powerExponent = 0.64
)

var (
	cbrForHeukelom = calculation.Range{Name: "cbr", Low: 0, High: 10, Above: true, Document: "AASHTO 1993, 1500 CBR"}
	cbrForNCHRP    = calculation.Range{Name: "cbr", Low: 1, High: 100, Document: "NCHRP 1-37A, 2555 CBR^0.64 (range from memory)"}
	cbrForLR1132   = calculation.Range{Name: "cbr", Low: 2, High: 12, Document: "TRRL LR 1132, 17.6 CBR^0.64 MPa (range from memory)"}
)

// form returns the range of CBR, the modulus at CBR 1 and the exponent.
func (c ModulusCorrelation) form() (calculation.Range, quantity.Pressure, float64) {
	switch c {
	case Modulus2555:
		return cbrForNCHRP, quantity.PSI(nchrpPSI), powerExponent
	case ModulusLR1132:
		return cbrForLR1132, quantity.Megapascals(lr1132MPa), powerExponent
	}
	return cbrForHeukelom, quantity.PSI(heukelomPSI), 1
}

// ResilientModulus returns the modulus of a subgrade of the given CBR in percent. The
// range of CBR is that of the correlation: above 0 to 10 for 1500 CBR, 1 to 100
// for 2555 CBR^0.64, 2 to 12 for 17.6 CBR^0.64 MPa.
func ResilientModulus(cbr float64, by ModulusCorrelation) (quantity.Pressure, error) {
	within, atOne, exponent := by.form()
	if err := cmp.Or(calculation.CheckWord("correlation", by), within.Check(cbr)); err != nil {
		return 0, err
	}
	return quantity.Pressure(float64(atOne) * portable.Pow(cbr, exponent)), nil
}
