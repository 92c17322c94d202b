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
	cbrForHeukelom = calculation.Range{Low: 0, High: 10, Above: true, Unit: "%", Document: "AASHTO 1993, 1500 CBR"}
	cbrForNCHRP    = calculation.Range{Low: 1, High: 100, Unit: "%", Document: "NCHRP 1-37A, 2555 CBR^0.64 (range from memory)"}
	cbrForLR1132   = calculation.Range{Low: 2, High: 12, Unit: "%", Document: "TRRL LR 1132, 17.6 CBR^0.64 MPa (range from memory)"}
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

// ResilientModulus is the modulus of a subgrade of the given CBR in percent. The
// range of CBR is that of the correlation: above 0 to 10 for 1500 CBR, 1 to 100
// for 2555 CBR^0.64, 2 to 12 for 17.6 CBR^0.64 MPa.
func ResilientModulus(cbr float64, by ModulusCorrelation) (quantity.Pressure, error) {
	if err := calculation.CheckWord("by", by); err != nil {
		return 0, err
	}
	within, atOne, exponent := by.form()
	if err := within.Named("cbr").Check(cbr); err != nil {
		return 0, err
	}
	return quantity.Pressure(float64(atOne) * portable.Pow(cbr, exponent)), nil
}

// CBRFromModulus turns [ResilientModulus] round. It refuses a modulus whose CBR
// would be outside the correlation's range.
func CBRFromModulus(mr quantity.Pressure, by ModulusCorrelation) (float64, error) {
	if err := cmp.Or(calculation.CheckWord("by", by), aModulus.Named("modulus").Check(mr.PSI())); err != nil {
		return 0, err
	}
	within, atOne, exponent := by.form()
	cbr := portable.Pow(float64(mr/atOne), 1/exponent)
	if err := within.Named("cbr of the modulus").Check(cbr); err != nil {
		return 0, err
	}
	return cbr, nil
}

// RValueCorrelation is the choice of correlation from R-value to modulus.
type RValueCorrelation string

// The correlations, both from memory.
const (
	RValueAASHTO  RValueCorrelation = "1000 + 555 R"
	RValueAsphalt RValueCorrelation = "1155 + 555 R"
)

// Vocabulary lists the correlations.
func (RValueCorrelation) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "r_value_correlation",
		About: "correlations from R-value to resilient modulus, from memory",
		Words: []value.WordEntry{
			{Name: "r_value_aashto", Label: string(RValueAASHTO), About: "AASHTO 1993: R up to 20, psi"},
			{Name: "r_value_asphalt_institute", Label: string(RValueAsphalt), About: "Asphalt Institute, NCHRP 1-37A: psi; too high for R above about 20"},
		},
	}
}

const (
	rValueSlope         = 555
	rValueAASHTOBase    = 1000
	rValueInstituteBase = 1155
)

var (
	rForAASHTO    = calculation.Range{Low: 0, High: 20, Document: "AASHTO 1993, 1000 + 555 R"}
	rForInstitute = calculation.Range{Low: 0, High: 100, Document: "Asphalt Institute, 1155 + 555 R"}
)

// ModulusFromRValue is the modulus of a subgrade of the given R-value: 0 to 20
// for AASHTO 1993, the whole scale of the test, 0 to 100, for the Asphalt
// Institute's, which is too high above about 20. From memory.
func ModulusFromRValue(r float64, by RValueCorrelation) (quantity.Pressure, error) {
	if err := calculation.CheckWord("by", by); err != nil {
		return 0, err
	}
	within, base := rForInstitute, float64(rValueInstituteBase)
	if by == RValueAASHTO {
		within, base = rForAASHTO, rValueAASHTOBase
	}
	if err := within.Named("r_value").Check(r); err != nil {
		return 0, err
	}
	return quantity.PSI(base + float64(rValueSlope*r)), nil
}
