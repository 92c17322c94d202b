package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	growthRateBound = bound{"growth rate", "%", 0, 20, false, ownLimit}
	lifeBound       = bound{"life", "years", 0, 100, true, ownLimit}
	dailyBound      = bound{"daily traffic", "vehicles", 0, 1e6, false, ownLimit}
	truckBound      = bound{"truck share", "%", 0, 100, false, ownLimit}
	factorBound     = bound{"truck factor", "ESAL a truck", 0, 100, false, ownLimit}
	directionBound  = bound{"direction share", "", 0, 1, true, ownLimit}
	laneBound       = bound{"lane share", "", 0, 1, true, ownLimit}
	growthSumBound  = bound{"growth factor", "years", 0, 1e10, true, ownLimit}
)

// GrowthFactor returns how many times the first year's traffic comes over a life,
// when it grows by the same percentage every year: ((1+r)^n - 1)/r, and n where
// it does not grow. The rate is 0 to 20 % a year, the life above 0 up to 100
// years of 365.25 days.
//
// Huang, chapter 6 (relayed).
func GrowthFactor(rate float64, life quantity.Time) (float64, error) {
	years := life.Years()
	if err := first(growthRateBound.check(rate), lifeBound.check(years)); err != nil {
		return 0, err
	}
	// The rate is taken as the number that one and it add up to, so that the
	// rounding of that sum cancels.
	yearly := 1 + rate/100
	if yearly <= 1 {
		return years, nil
	}
	return (portable.Pow(yearly, years) - 1) / (yearly - 1), nil
}

// daysInYear is as the traffic formula has it.
const daysInYear = 365.0

// DesignESAL returns the 18,000 lbf single axles on the busiest lane over a life:
//
//	daily traffic * truck share * truck factor * growth factor * direction share * lane share * 365
//
// Daily traffic is in vehicles both ways, 0 to a million; the truck share in
// percent of it; the truck factor in ESAL for one truck, 0 to 100; the growth
// factor as [GrowthFactor] gives it; the direction share (0.5 on a two-way
// road) and the lane share above 0 up to 1.
//
// Huang, chapter 6 (relayed).
func DesignESAL(daily, trucks, truckFactor, growth, direction, lane float64) (float64, error) {
	err := first(dailyBound.check(daily), truckBound.check(trucks), factorBound.check(truckFactor),
		growthSumBound.check(growth), directionBound.check(direction), laneBound.check(lane))
	if err != nil {
		return 0, err
	}
	return daily * (trucks / 100) * truckFactor * growth * direction * lane * daysInYear, nil
}

func trafficCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "growth_factor",
			About: "How many times the first year's traffic comes over a life.",
			Params: []calculation.Param{
				{Name: "rate", About: "growth in percent a year, 0 to 20"},
				{Name: "life", About: "above 0 up to 100 years"},
			},
			Result:  calculation.Param{Name: "growth", About: "first years' traffic in the life"},
			Range:   "rate 0 to 20 %, life up to 100 years",
			Sources: []value.Source{sourceTraffic},
			Example: "growth_factor(4.0, years(20))",
			Go:      GrowthFactor,
		},
		{
			Name:  "design_esal",
			About: "The 18,000 lbf single axles on the busiest lane over a life.",
			Params: []calculation.Param{
				{Name: "daily", About: "vehicles a day, both ways, 0 to a million"},
				{Name: "trucks", About: "trucks in percent of the vehicles, 0 to 100"},
				{Name: "truck_factor", About: "18,000 lbf single axles for one truck, 0 to 100"},
				{Name: "growth", About: "growth factor of the life"},
				{Name: "direction", About: "share that goes the one way, above 0 up to 1; 0.5 on a two-way road"},
				{Name: "lane", About: "share of that on the busiest lane, above 0 up to 1"},
			},
			Result:  calculation.Param{Name: "esal", About: "18,000 lbf single axles over the life"},
			Range:   "shares above 0 up to 1",
			Sources: []value.Source{sourceTraffic},
			Example: "design_esal(4000.0, 25.0, 0.38, growth_factor(4.0, years(20)), 0.5, 1.0)",
			Go:      DesignESAL,
		},
	}
}
