package structure

import (
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

const axleDocument = aashto1993 + ", Appendix D tables (ends from memory)"

// The ranges are those of the Guide's printed equivalence tables (memory).
var (
	singleLoadBound = bound{"axle load", "kip", 2, 50, false, axleDocument}
	groupLoadBound  = bound{"axle load", "kip", 2, 90, false, axleDocument}
	axleSNBound     = bound{"structural number", "", 1, 6, false, axleDocument}
	terminalBound   = bound{"terminal serviceability", "", 2, 3, false, axleDocument}
)

const (
	standardAxle  = 18.0 // kip, single
	poundsPerKip  = 1000.0
	startService  = 4.2
	failedService = 1.5
)

// code is the axle code L2 of the equation.
func (a Axle) code() (float64, error) {
	switch a {
	case SingleAxle:
		return 1, nil
	case TandemAxle:
		return 2, nil
	case TridemAxle:
		return 3, nil
	}
	return 0, wordError("axle", string(a), a.Vocabulary(), aashto1993+", Appendix MM")
}

// AxleEquivalence returns how many 18,000 lbf single axles do the harm of one
// pass of an axle group, on a flexible section. The load is that of the whole
// group: 2 to 50 kip on a single axle, 2 to 90 kip on a tandem or tridem. The
// structural number is 1 to 6, the terminal serviceability 2.0 to 3.0.
//
//	log10(Wx/W18) = 4.79*log10(18+1) - 4.79*log10(Lx+L2) + 4.33*log10(L2) + Gt/Bx - Gt/B18
//	Gt = log10((4.2-pt)/(4.2-1.5))
//	B  = 0.40 + 0.081*(Lx+L2)^3.23 / ((SN+1)^5.19 * L2^3.23)
//
// AASHTO 1993, Appendix MM (memory; agrees with two relayed factors); the ends
// of the ranges from memory.
func AxleEquivalence(load quantity.Force, axle Axle, sn, terminal float64) (float64, error) {
	group, err := axle.code()
	if err != nil {
		return 0, err
	}
	loadRange := groupLoadBound
	if axle == SingleAxle {
		loadRange = singleLoadBound
	}
	kip := load.PoundsForce() / poundsPerKip
	if err := first(loadRange.check(kip), axleSNBound.check(sn), terminalBound.check(terminal)); err != nil {
		return 0, err
	}
	fall := portable.Log10((startService - terminal) / (startService - failedService))
	ratio := float64(4.79*portable.Log10(standardAxle+1)) - float64(4.79*portable.Log10(kip+group)) +
		float64(4.33*portable.Log10(group)) + fall/fallRate(kip, group, sn) - fall/fallRate(standardAxle, 1, sn)
	return portable.Pow(10, -ratio), nil
}

// fallRate is B of the equation.
func fallRate(kip, group, sn float64) float64 {
	return 0.40 + float64(0.081*portable.Pow((kip+group)/group, 3.23)/portable.Pow(sn+1, 5.19))
}

// FourthPowerEquivalence is the rule of thumb for a single axle: the fourth
// power of its load over 18,000 lbf. Load 2 to 50 kip. It is good near 18,000
// lbf and low for light axles. Common practice.
func FourthPowerEquivalence(load quantity.Force) (float64, error) {
	kip := load.PoundsForce() / poundsPerKip
	if err := singleLoadBound.check(kip); err != nil {
		return 0, err
	}
	return portable.Pow(kip/standardAxle, 4), nil
}

func axleCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "axle_equivalence",
			About: "How many 18,000 lbf single axles do the harm of one pass of an axle group.",
			Params: []calculation.Param{
				{Name: "load", About: "load of the whole group: 2 to 50 kip single, 2 to 90 kip tandem or tridem"},
				{Name: "axle", About: "single, tandem or tridem"},
				{Name: "sn", About: "structural number of the section, 1 to 6"},
				{Name: "terminal", About: "serviceability at the end of the life, 2.0 to 3.0"},
			},
			Result:  calculation.Param{Name: "equivalence", About: "18,000 lbf single axles for one pass"},
			Range:   "load 2 to 50 kip single and 2 to 90 kip tandem or tridem, structural number 1 to 6, terminal serviceability 2.0 to 3.0",
			Sources: []value.Source{sourceAxle},
			Example: "axle_equivalence(lbf(20000), single_axle, 5.0, 2.5)",
			Go:      AxleEquivalence,
		},
		{
			Name:    "fourth_power_equivalence",
			About:   "The fourth-power rule of thumb for the harm of one single axle, in 18,000 lbf single axles.",
			Params:  []calculation.Param{{Name: "load", About: "load of the axle, 2 to 50 kip"}},
			Result:  calculation.Param{Name: "equivalence", About: "18,000 lbf single axles for one pass"},
			Range:   "load 2 to 50 kip",
			Sources: []value.Source{sourceFourthPower},
			Example: "fourth_power_equivalence(lbf(24000))",
			Go:      FourthPowerEquivalence,
		},
	}
}
