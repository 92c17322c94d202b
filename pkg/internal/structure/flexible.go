package structure

import (
	"cmp"

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
	structuralNumbers = calculation.Range{Name: "structural number", Low: leastSN, High: greatestSN, Document: nomograph}
	// The nomograph starts at 50,000; lighter traffic is let in because a filed
	// design that cites the Guide (example A4 of the published rows) solves the
	// equation at 6,500.
	esals      = calculation.Range{Name: "esal", Low: 1, High: 50e6, Document: nomograph}
	deviations = calculation.Range{Name: "deviation", Low: 0.2, High: 0.6, Document: nomograph}
	losses     = calculation.Range{Name: "serviceability loss", Low: 0.5, High: 3, Document: nomograph}
	moduli     = calculation.Range{Name: "modulus", Unit: "psi", Low: 1000, High: 40000, Document: nomograph}
)

// equation is the flexible equation with all but the structural number put in:
// fixed is what does not depend on it, and loss is log10(loss/2.7).
type equation struct{ fixed, loss float64 }

func newEquation(reliability quantity.Share, deviation, loss float64, modulus quantity.Pressure) (equation, error) {
	z, err := NormalDeviate(reliability)
	err = cmp.Or(err, deviations.Check(deviation), losses.Check(loss), moduli.CheckMeasure(modulus))
	if err != nil {
		return equation{}, err
	}
	const (
		perModulus = 2.32
		wholeLoss  = 2.7 // 4.2 less 1.5
	)
	return equation{
		fixed: float64(z*deviation) - 0.20 - 8.07 + float64(perModulus*portable.Log10(modulus.PSI())),
		loss:  portable.Log10(loss / wholeLoss),
	}, nil
}

// logTraffic is log10 of the traffic that a structural number carries:
//
//	ZR*So + 9.36*log10(SN+1) - 0.20 + log10(loss/2.7)/(0.40 + 1094/(SN+1)^5.19) + 2.32*log10(MR) - 8.07
//
// It rises with SN for every loss above 0.15: the slope of the second term in SN
// times (SN+1) is 9.36/ln 10 = 4.06, and that of the fourth is at least
// 5.19*0.625*log10(loss/2.7), which at 0.5, the least loss let in, is -2.38.
func (e equation) logTraffic(sn float64) float64 {
	const (
		perSN      = 9.36
		lossFloor  = 0.40
		lossGrowth = 1094
		lossPower  = 5.19
	)
	return e.fixed + float64(perSN*portable.Log10(sn+1)) + e.loss/(lossFloor+lossGrowth/portable.Pow(sn+1, lossPower))
}

// TrafficCapacity returns the number of 18,000 lbf single axles that a section of
// the given structural number carries before its serviceability has fallen by
// the given loss.
//
// The structural number is 0.44 to 9, the reliability a level of
// [NormalDeviate], the deviation 0.2 to 0.6, the loss 0.5 to 3.0, the modulus of
// the ground 1,000 to 40,000 psi. The result is what the equation says and may
// lie outside the traffic that [RequiredSN] takes.
//
// AASHTO 1993, Part II, Figure 3.1 (relayed); ends of the ranges from memory.
func TrafficCapacity(sn float64, reliability quantity.Share, deviation, loss float64, modulus quantity.Pressure) (float64, error) {
	e, err := newEquation(reliability, deviation, loss, modulus)
	if err := cmp.Or(err, structuralNumbers.Check(sn)); err != nil {
		return 0, err
	}
	return portable.Pow(10, e.logTraffic(sn)), nil
}

// RequiredSN returns the structural number that carries the traffic, from 0.44 to
// 9. Traffic that the thinnest section of the range already carries needs no
// more than that section, so the result is 0.44. Traffic that no section of the
// range carries is a range error that tells how much the thickest carries.
// Ranges and source are those of [TrafficCapacity], with traffic from 1 to 50
// million.
func RequiredSN(esal float64, reliability quantity.Share, deviation, loss float64, modulus quantity.Pressure) (float64, error) {
	e, err := newEquation(reliability, deviation, loss, modulus)
	if err := cmp.Or(err, esals.Check(esal)); err != nil {
		return 0, err
	}
	wanted := portable.Log10(esal)
	if e.logTraffic(leastSN) >= wanted {
		return leastSN, nil
	}
	if most := e.logTraffic(greatestSN); most < wanted {
		carried := esals
		carried.High = portable.Pow(10, most)
		carried.Document = "what a structural number of 9 carries here, the most in " + nomograph
		return 0, &calculation.RangeError{Got: esal, Want: carried}
	}
	return leastRoot(func(sn float64) float64 { return e.logTraffic(sn) - wanted }, leastSN, greatestSN), nil
}

// leastRoot finds where a rising function crosses zero between low and high, by
// bisection down to neighboring numbers. The caller has proven that f(low) < 0
// and f(high) >= 0 and that f rises. The result is the end at which f is not
// below zero.
func leastRoot(f func(float64) float64, low, high float64) float64 {
	for {
		middle := low + float64((high-low)/2)
		if middle <= low || middle >= high {
			return high
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
}

var (
	reliabilityParam = param("reliability", "chance that the section lasts its life: 50, 60, 70, 75, 80, 85, 90, 95, 98, 99, 99.9 or 99.99 %")
	deviationParam   = param("deviation", "overall standard deviation, 0.2 to 0.6; 0.45 is usual for flexible sections")
	lossParam        = param("serviceability_loss", "fall in serviceability over the life, 0.5 to 3.0")
	modulusParam     = param("modulus", "resilient modulus of what lies beneath, 1,000 to 40,000 psi")
)

func flexibleCalculations() []calculation.Function {
	sources := []value.Source{sourceFlexible, sourceDeviate, sourceNomographRange}
	return []calculation.Function{
		{
			Name:  "required_sn",
			About: "The structural number that carries the traffic over ground of the given modulus.",
			Params: []calculation.Param{
				param("esal", "18,000 lbf single axles over the life, 1 to 50 million"),
				reliabilityParam, deviationParam, lossParam, modulusParam,
			},
			Result:   param("sn", "structural number, 0.44 to 9; 0.44 where the thinnest section of the range already carries the traffic"),
			Range:    "refuses traffic that a structural number of 9 does not carry",
			Sources:  sources,
			Example:  "required_sn(50000, percent(75), 0.45, 1.7, psi(7500))",
			Go:       RequiredSN,
			Moves:    "+.+--",
			Positive: true,
		},
		{
			Name:  "traffic_capacity",
			About: "The 18,000 lbf single axles that a section of the given structural number carries.",
			Params: []calculation.Param{
				param("sn", "structural number of the section, 0.44 to 9"),
				reliabilityParam, deviationParam, lossParam, modulusParam,
			},
			Result:   param("esal", "18,000 lbf single axles"),
			Range:    "structural number 0.44 to 9, modulus 1,000 to 40,000 psi",
			Sources:  sources,
			Example:  "traffic_capacity(2.375, percent(75), 0.45, 1.7, psi(7500))",
			Go:       TrafficCapacity,
			Moves:    "+.-++",
			Positive: true,
		},
	}
}
