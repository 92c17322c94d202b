package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// DCPCurve is the choice of correlation from the dynamic cone penetrometer to
// CBR.
type DCPCurve string

// The curves. The first three belong together; the fourth is another
// laboratory's.
const (
	DCPGeneral DCPCurve = "general"
	DCPCL      DCPCurve = "CL"
	DCPCH      DCPCurve = "CH"
	DCPTRL     DCPCurve = "TRL"
)

// Vocabulary lists the curves.
func (DCPCurve) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "dcp_curve",
		About: "correlations from the dynamic cone penetrometer to CBR",
		Words: []value.WordEntry{
			{Name: "dcp_general", Label: string(DCPGeneral), About: "all soils but CH, and CL of CBR under 10: CBR = 292/DPI^1.12"},
			{Name: "dcp_cl", Label: string(DCPCL), About: "lean clay: CBR = 1/(0.017019 DPI)^2 where that is under 10, else the general curve"},
			{Name: "dcp_ch", Label: string(DCPCH), About: "fat clay, known to be CH: CBR = 1/(0.002871 DPI); it lies above the general curve"},
			{Name: "dcp_trl", Label: string(DCPTRL), About: "60 degree cone: log CBR = 2.48 - 1.057 log DPI"},
		},
	}
}

// DCPHammer is the hammer of the penetrometer.
type DCPHammer string

// The hammers of ASTM D6951 (seen).
const (
	Hammer8kg  DCPHammer = "8 kg"
	Hammer46kg DCPHammer = "4.6 kg"
)

// Vocabulary lists the hammers.
func (DCPHammer) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "dcp_hammer",
		About: "hammers of the dynamic cone penetrometer",
		Words: []value.WordEntry{
			{Name: "hammer_8kg", Label: string(Hammer8kg), About: "8 kg (17.6 lb)"},
			{Name: "hammer_4_6kg", Label: string(Hammer46kg), About: "4.6 kg (10.1 lb): one blow counts as half a blow of the 8 kg hammer"},
		},
	}
}

// factor turns penetration per blow into that of the 8 kg hammer (a blow of the
// heavy hammer seen to go about twice as deep, FM 5-430-00-2 App. J; the factor
// 2 of D6951 from memory).
func (h DCPHammer) factor() float64 {
	if h == Hammer46kg {
		return 2
	}
	return 1
}

// Constants of the curves, DPI in mm per blow of the 8 kg hammer. Webster, Grau
// and Williams 1992, Webster, Brown and Porter 1994, ASTM D6951, and TRL, all
// from memory.
const (
	dcpGeneralScale    = 292
	dcpGeneralExponent = 1.12
	dcpCLFactor        = 0.017019
	dcpCLBelow         = 10 // CBR under which the CL curve holds
	dcpCHFactor        = 0.002871
	dcpTRLConstant     = 2.48
	dcpTRLSlope        = 1.057
)

var (
	aPenetration = calculation.Range{Name: "penetration per blow", Low: 0, High: 1000, Above: true, Unit: "mm", Document: "ASTM D6951"}
	// The table of the method runs from CBR 0.5 to 100 (from memory).
	aDCPCBR = calculation.Range{Name: "CBR from the penetrometer", Low: 0.5, High: 100, Document: "ASTM D6951, table of CBR by penetration index (from memory)"}
)

// CBRFromDCP returns the CBR in percent for a penetration per blow as read, of the
// given hammer, by the given curve. CBR falls as the penetration rises. It
// refuses a penetration whose CBR would lie outside 0.5 to 100.
//
// The CL curve holds under CBR 10, from about 18.6 mm per blow; below that the
// general curve serves, with a step between the two (from 11.1 to 10). The CH
// curve lies above the general one, so it is for soil known to be CH only.
func CBRFromDCP(perBlow quantity.Length, curve DCPCurve, hammer DCPHammer) (float64, error) {
	cbr, err := dcpCBR(perBlow, curve, hammer)
	return onlyIf(cbr, cmp.Or(err, aDCPCBR.Check(cbr)))
}

// CBRsFromDCP returns the CBR in percent for each of several penetrations per
// blow in mm, as [CBRFromDCP] does. Ground harder than CBR 100, where the table
// of the method ends, counts as 100.
func CBRsFromDCP(perBlow []float64, curve DCPCurve, hammer DCPHammer) ([]float64, error) {
	out := make([]float64, len(perBlow))
	for i, mm := range perBlow {
		cbr, err := dcpCBR(quantity.Millimeters(mm), curve, hammer)
		out[i] = min(cbr, aDCPCBR.High)
		if err := cmp.Or(err, aDCPCBR.Check(out[i])); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func dcpCBR(perBlow quantity.Length, curve DCPCurve, hammer DCPHammer) (float64, error) {
	if err := cmp.Or(calculation.CheckWord("curve", curve), calculation.CheckWord("hammer", hammer), aPenetration.CheckMeasure(perBlow)); err != nil {
		return 0, err
	}
	dpi := float64(perBlow.Millimeters() * hammer.factor())
	general := dcpGeneralScale / portable.Pow(dpi, dcpGeneralExponent)
	cbr := general
	switch curve {
	case DCPCL:
		root := float64(dcpCLFactor * dpi)
		if lean := 1 / float64(root*root); lean < dcpCLBelow {
			cbr = lean
		}
	case DCPCH:
		cbr = 1 / float64(dcpCHFactor*dpi)
	case DCPTRL:
		cbr = portable.Pow(10, dcpTRLConstant-float64(dcpTRLSlope*portable.Log10(dpi)))
	}
	return cbr, nil
}
