package structure

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Axle says how many axles share a load.
type Axle string

// The axle groups of the AASHTO equation.
const (
	SingleAxle Axle = "single"
	TandemAxle Axle = "tandem"
	TridemAxle Axle = "tridem"
)

// Vocabulary lists the axle groups.
func (Axle) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "axle",
		About: "how many axles share a load",
		Words: []value.WordEntry{
			{Name: "single_axle", Label: string(SingleAxle), About: "one axle"},
			{Name: "tandem_axle", Label: string(TandemAxle), About: "two axles close together"},
			{Name: "tridem_axle", Label: string(TridemAxle), About: "three axles close together"},
		},
	}
}

// The ranges are those of the Guide's printed equivalence tables (memory).
const axleDocument = aashto1993 + ", Appendix D tables (ends from memory)"

var (
	singleLoads = calculation.Range{Name: "axle load", Unit: "lbf", Low: 2000, High: 50e3, Document: axleDocument}
	groupLoads  = calculation.Range{Name: "axle load", Unit: "lbf", Low: 2000, High: 90e3, Document: axleDocument}
	axleSNs     = calculation.Range{Name: "structural number", Low: 1, High: 6, Document: axleDocument}
	terminals   = calculation.Range{Name: "terminal serviceability", Low: 2, High: 3, Document: axleDocument}
)

// form returns the axle code L2 of the equation and the loads that it takes.
func (a Axle) form() (code float64, within calculation.Range) {
	switch a {
	case TandemAxle:
		return 2, groupLoads
	case TridemAxle:
		return 3, groupLoads
	}
	return 1, singleLoads
}

// AxleEquivalence returns how many 18,000 lbf single axles do the harm of one
// pass of an axle group, on a flexible section. The load is that of the whole
// group: 2,000 to 50,000 lbf on a single axle, up to 90,000 lbf on a tandem or
// tridem. The structural number is 1 to 6, the terminal serviceability 2.0 to
// 3.0. With the loads in kip, W18 over Wx of
//
//	log10(Wx/W18) = 4.79*log10(18+1) - 4.79*log10(Lx+L2) + 4.33*log10(L2) + Gt/Bx - Gt/B18
//	Gt = log10((4.2-pt)/(4.2-1.5))
//	B  = 0.40 + 0.081*(Lx+L2)^3.23 / ((SN+1)^5.19 * L2^3.23)
//
// AASHTO 1993, Appendix MM (memory; agrees with two relayed factors); the ends
// of the ranges from memory.
func AxleEquivalence(load quantity.Force, axle Axle, sn, terminal float64) (float64, error) {
	group, within := axle.form()
	if err := cmp.Or(calculation.CheckWord("axle", axle), within.CheckMeasure(load), axleSNs.Check(sn), terminals.Check(terminal)); err != nil {
		return 0, err
	}
	const (
		standard      = 18.0 // kip, single
		startService  = 4.2
		failedService = 1.5
	)
	kip := load.PoundsForce() / 1000
	fall := portable.Log10((startService - terminal) / (startService - failedService))
	ratio := float64(4.79*portable.Log10((standard+1)/(kip+group))) + float64(4.33*portable.Log10(group)) +
		fall/fallRate(kip, group, sn) - fall/fallRate(standard, 1, sn)
	return portable.Pow(10, -ratio), nil
}

// fallRate is B of the equation.
func fallRate(kip, group, sn float64) float64 {
	return 0.40 + float64(0.081*portable.Pow((kip+group)/group, 3.23)/portable.Pow(sn+1, 5.19))
}

func axleCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:  "axle_equivalence",
		About: "How many 18,000 lbf single axles do the harm of one pass of an axle group.",
		Params: []calculation.Param{
			param("load", "load of the whole group: 2,000 to 50,000 lbf single, 2,000 to 90,000 lbf tandem or tridem"),
			param("axle", "how many axles share the load"),
			param("sn", "structural number of the section, 1 to 6"),
			param("terminal", "serviceability at the end of the life, 2.0 to 3.0"),
		},
		Result:  param("equivalence", "18,000 lbf single axles for one pass"),
		Range:   "structural number 1 to 6, terminal serviceability 2.0 to 3.0",
		Sources: []value.Source{sourceAxle},
		Example: "axle_equivalence(lbf(20000), single_axle, 5.0, 2.5)",
		Go:      AxleEquivalence,
	}}
}
