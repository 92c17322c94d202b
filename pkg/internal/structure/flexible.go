package structure

import (
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// The range in which the flexible equation is used here. The ends are those of
// the scales of the Guide's nomograph (Figure 3.1, memory), but for the least
// SN and the least traffic.
const (
	// leastSN is the thinnest section of the road test behind the equation: one
	// inch of asphalt at 0.44 an inch, on no base (memory).
	leastSN = 0.44
	// greatestSN ends the scale of the nomograph.
	greatestSN = 9
)

const nomograph = aashto1993 + ", Figure 3.1 (ends of the scales, from memory)"

var (
	snBound = bound{"structural number", "", leastSN, greatestSN, false, nomograph}
	// The nomograph starts at 50,000; lighter traffic is let in because a filed
	// design that cites the Guide (example A4 of the published rows) solves the
	// equation at 6,500.
	esalBound      = bound{"esal", "", 1, 50e6, false, nomograph}
	deviationBound = bound{"deviation", "", 0.2, 0.6, false, nomograph}
	lossBound      = bound{"serviceability loss", "", 0.5, 3, false, nomograph}
	modulusBound   = bound{"modulus", "psi", 1000, 40000, false, nomograph}
)

// Demand is what the flexible equation asks of a section, apart from the ground
// beneath it.
type Demand struct {
	// ESAL is the number of 18,000 lbf single axles over the life, 1 to 50 million.
	ESAL float64
	// Reliability is the chance that the section lasts, 50 to 99.99 %.
	Reliability float64
	// Deviation is the overall standard deviation So, 0.2 to 0.6; for flexible
	// sections the Guide gives 0.40 to 0.50 (memory).
	Deviation float64
	// Loss is the fall in serviceability over the life, 0.5 to 3.0.
	Loss float64
	// Deviate says how the reliability becomes a normal deviate.
	Deviate Deviate
}

// equation is the flexible equation with all but SN and modulus put in.
type equation struct{ deviate, deviation, loss float64 }

func newEquation(reliability, deviation, loss float64, from Deviate) (equation, error) {
	z, err := NormalDeviate(reliability, from)
	if err := first(err, deviationBound.check(deviation), lossBound.check(loss)); err != nil {
		return equation{}, err
	}
	return equation{z, deviation, loss}, nil
}

// withoutModulus is log10 of the traffic, less the term of the modulus:
//
//	ZR*So + 9.36*log10(SN+1) - 0.20 + log10(loss/2.7)/(0.40 + 1094/(SN+1)^5.19) - 8.07
//
// It rises with SN for every loss above 0.15: the slope of the first term in SN
// times (SN+1) is 9.36/ln 10 = 4.06, and that of the second is at least
// 5.19*0.625*log10(loss/2.7), which at 0.5, the least loss let in, is -2.38.
func (e equation) withoutModulus(sn float64) float64 {
	const (
		perSN      = 9.36
		wholeLoss  = 2.7 // 4.2 less 1.5
		lossFloor  = 0.40
		lossGrowth = 1094
		lossPower  = 5.19
	)
	loss := portable.Log10(e.loss/wholeLoss) / (lossFloor + lossGrowth/portable.Pow(sn+1, lossPower))
	return float64(e.deviate*e.deviation) + float64(perSN*portable.Log10(sn+1)) - 0.20 + loss - 8.07
}

// perModulus is the factor of log10 of the modulus in psi.
const perModulus = 2.32

func (e equation) logTraffic(sn, modulusPSI float64) float64 {
	return e.withoutModulus(sn) + float64(perModulus*portable.Log10(modulusPSI))
}

// TrafficCapacity returns the number of 18,000 lbf single axles that a section of
// the given structural number carries before its serviceability has fallen by
// the given loss.
//
// The structural number is 0.44 to 9, the reliability 50 to 99.99 %, the
// deviation 0.2 to 0.6, the loss 0.5 to 3.0, the modulus of the ground 1,000 to
// 40,000 psi; outside these it returns a [calculation.RangeError]. The result
// is what the equation says and may lie outside the traffic that
// [RequiredSN] takes.
//
// AASHTO 1993, Part II, Figure 3.1 (relayed); ends of the ranges from memory.
func TrafficCapacity(sn, reliability, deviation, loss float64, modulus quantity.Pressure, from Deviate) (float64, error) {
	e, err := newEquation(reliability, deviation, loss, from)
	if err := first(err, snBound.check(sn), modulusBound.check(modulus.PSI())); err != nil {
		return 0, err
	}
	return portable.Pow(10, e.logTraffic(sn, modulus.PSI())), nil
}

// RequiredSN returns the structural number that carries the traffic, from 0.44 to
// 9. Traffic that the thinnest section of the range already carries needs no
// more than that section, so 0.44 is given. Traffic that no section of the
// range carries is an error that wraps [ErrNoAnswer] and tells how much the
// thickest carries. Ranges and source are those of [TrafficCapacity], with
// traffic from 1 to 50 million.
func RequiredSN(esal, reliability, deviation, loss float64, modulus quantity.Pressure, from Deviate) (float64, error) {
	e, err := newEquation(reliability, deviation, loss, from)
	if err := first(err, esalBound.check(esal), modulusBound.check(modulus.PSI())); err != nil {
		return 0, err
	}
	wanted, psi := portable.Log10(esal), modulus.PSI()
	if e.logTraffic(leastSN, psi) >= wanted {
		return leastSN, nil
	}
	if most := e.logTraffic(greatestSN, psi); most < wanted {
		carried := portable.Pow(10, most)
		return 0, fmt.Errorf("%w: %w", ErrNoAnswer, calculation.OutOfRange("esal", esal, "",
			fmt.Sprintf("up to %.0f, which is what a structural number of %d carries here", carried, greatestSN), nomograph))
	}
	return leastRoot(func(sn float64) float64 { return e.logTraffic(sn, psi) - wanted }, leastSN, greatestSN), nil
}

// RequiredSN returns the structural number that d needs over ground of the given
// modulus; see the function of the same name.
func (d Demand) RequiredSN(modulus quantity.Pressure) (float64, error) {
	return RequiredSN(d.ESAL, d.Reliability, d.Deviation, d.Loss, modulus, d.Deviate)
}

// RequiredModulus returns the least modulus of the ground on which a section of
// the given structural number carries the traffic, from 1,000 to 40,000 psi.
// If softer ground would do as well, 1,000 psi is given. If 40,000 psi would
// not do, the error wraps [ErrNoAnswer]. Ranges and source are those of
// [TrafficCapacity], with traffic from 1 to 50 million.
func RequiredModulus(esal, sn, reliability, deviation, loss float64, from Deviate) (quantity.Pressure, error) {
	e, err := newEquation(reliability, deviation, loss, from)
	if err := first(err, esalBound.check(esal), snBound.check(sn)); err != nil {
		return 0, err
	}
	// The logarithm is compared, because the power of ten could overflow.
	log := (portable.Log10(esal) - e.withoutModulus(sn)) / perModulus
	if log > portable.Log10(modulusBound.high) {
		return 0, fmt.Errorf("%w: %w", ErrNoAnswer, calculation.OutOfRange("esal", esal, "",
			fmt.Sprintf("up to %.0f, which is what a structural number of %g carries on %g psi",
				portable.Pow(10, e.logTraffic(sn, modulusBound.high)), sn, modulusBound.high), nomograph))
	}
	return quantity.PSI(max(modulusBound.low, portable.Pow(10, log))), nil
}

var (
	reliabilityParam = calculation.Param{Name: "reliability", About: "chance that the section lasts its life, in percent, 50 to 99.99"}
	deviationParam   = calculation.Param{Name: "deviation", About: "overall standard deviation, 0.2 to 0.6; 0.45 is usual for flexible sections"}
	lossParam        = calculation.Param{Name: "serviceability_loss", About: "fall in serviceability over the life, 0.5 to 3.0"}
	modulusParam     = calculation.Param{Name: "modulus", About: "resilient modulus of what lies beneath, 1,000 to 40,000 psi"}
	esalParam        = calculation.Param{Name: "esal", About: "18,000 lbf single axles over the life, 1 to 50 million"}
)

func flexibleCalculations() []calculation.Function {
	sources := []value.Source{sourceFlexible, sourceDeviate, sourceNomographRange}
	return []calculation.Function{
		{
			Name:  "required_sn",
			About: "The structural number that carries the traffic over ground of the given modulus.",
			Params: []calculation.Param{
				esalParam, reliabilityParam, deviationParam, lossParam, modulusParam, deviateParam,
			},
			Result:  calculation.Param{Name: "sn", About: "structural number, 0.44 to 9; 0.44 where the thinnest section of the range already carries the traffic"},
			Range:   "refuses traffic that a structural number of 9 does not carry",
			Sources: sources,
			Example: "required_sn(50000.0, 75.0, 0.45, 1.7, psi(7500), printed_deviate)",
			Go:      RequiredSN,
		},
		{
			Name:  "traffic_capacity",
			About: "The 18,000 lbf single axles that a section of the given structural number carries.",
			Params: []calculation.Param{
				{Name: "sn", About: "structural number of the section, 0.44 to 9"},
				reliabilityParam, deviationParam, lossParam, modulusParam, deviateParam,
			},
			Result:  calculation.Param{Name: "esal", About: "18,000 lbf single axles"},
			Range:   "structural number 0.44 to 9, modulus 1,000 to 40,000 psi",
			Sources: sources,
			Example: "traffic_capacity(2.375, 75.0, 0.45, 1.7, psi(7500), printed_deviate)",
			Go:      TrafficCapacity,
		},
		{
			Name:  "required_modulus",
			About: "The least modulus of the ground on which a section carries the traffic.",
			Params: []calculation.Param{
				esalParam, {Name: "sn", About: "structural number of the section, 0.44 to 9"},
				reliabilityParam, deviationParam, lossParam, deviateParam,
			},
			Result:  calculation.Param{Name: "modulus", About: "resilient modulus, 1,000 to 40,000 psi; 1,000 where softer ground would do as well"},
			Range:   "refuses traffic that the section does not carry even on 40,000 psi",
			Sources: sources,
			Example: "required_modulus(50000.0, 2.375, 75.0, 0.45, 1.7, printed_deviate)",
			Go:      RequiredModulus,
		},
	}
}
