package structure

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	growthRates = calculation.Range{Name: "growth rate", Unit: "%", Low: 0, High: 10, Document: ownLimit}
	lives       = calculation.Range{Name: "life", Unit: "years", Low: 0, High: 50, Above: true, Document: ownLimit}
	daily       = calculation.Range{Name: "daily traffic", Unit: "vehicles", Low: 0, High: 1e6, Document: ownLimit}
	truckShares = calculation.Range{Name: "truck share", Unit: "%", Low: 0, High: 100, Document: ownLimit}
	truckFactor = calculation.Range{Name: "truck factor", Unit: "ESAL a truck", Low: 0, High: 100, Document: ownLimit}
	directions  = calculation.Range{Name: "direction share", Unit: "%", Low: 0, High: 100, Above: true, Document: ownLimit}
	lanes       = calculation.Range{Name: "lane share", Unit: "%", Low: 0, High: 100, Above: true, Document: ownLimit}
	// 1,164 is the growth at the ends of the two ranges above.
	growths = calculation.Range{Name: "growth factor", Low: 0, High: 1164, Above: true, Document: "growth of 10 % a year over 50 years"}
)

// GrowthFactor returns how many times the first year's traffic comes over a life,
// when it grows by the same percentage every year: ((1+r)^n - 1)/r, and n where
// it does not grow. The rate is 0 to 10 % a year, the life above 0 up to 50
// years of 365.25 days.
//
// Huang, chapter 6 (relayed).
func GrowthFactor(rate quantity.Share, life quantity.Time) (float64, error) {
	if err := cmp.Or(growthRates.CheckMeasure(rate), lives.CheckMeasure(life)); err != nil {
		return 0, err
	}
	// The rate is taken as the number that one and it add up to, so that the
	// rounding of that sum cancels.
	yearly := 1 + rate.Fraction()
	if yearly <= 1 {
		return life.Years(), nil
	}
	return (portable.Pow(yearly, life.Years()) - 1) / (yearly - 1), nil
}

// DesignESAL returns the 18,000 lbf single axles on the busiest lane over a life:
//
//	daily traffic * truck share * truck factor * growth factor * direction share * lane share * 365
//
// Daily traffic is in vehicles both ways, 0 to a million; the truck share of
// it 0 to 100 %; the truck factor in ESAL for one truck, 0 to 100; the growth
// factor as [GrowthFactor] returns it, above 0 up to 1,164; the direction share
// (50 % on a two-way road) and the lane share above 0 up to 100 %.
//
// Huang, chapter 6 (relayed).
func DesignESAL(dailyTraffic float64, trucks quantity.Share, factor, growth float64, direction, lane quantity.Share) (float64, error) {
	err := cmp.Or(daily.Check(dailyTraffic), truckShares.CheckMeasure(trucks), truckFactor.Check(factor),
		growths.Check(growth), directions.CheckMeasure(direction), lanes.CheckMeasure(lane))
	if err != nil {
		return 0, err
	}
	const daysInYear = 365 // as the formula has it
	return dailyTraffic * trucks.Fraction() * factor * growth * direction.Fraction() * lane.Fraction() * daysInYear, nil
}

func trafficCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "growth_factor",
			About: "How many times the first year's traffic comes over a life.",
			Params: []calculation.Param{
				param("rate", "growth a year, 0 to 10 %"),
				param("life", "above 0 up to 50 years"),
			},
			Result:  param("growth", "the traffic of the life over that of its first year"),
			Range:   "rate 0 to 10 %, life up to 50 years",
			Sources: []value.Source{sourceTraffic},
			Example: "growth_factor(percent(4), years(20))",
			Go:      GrowthFactor,
		},
		{
			Name:  "design_esal",
			About: "The 18,000 lbf single axles on the busiest lane over a life.",
			Params: []calculation.Param{
				param("daily", "vehicles a day, both ways, 0 to a million"),
				param("trucks", "share of the vehicles that are trucks, 0 to 100 %"),
				param("truck_factor", "18,000 lbf single axles for one truck, 0 to 100"),
				param("growth", "growth factor of the life, above 0 up to 1,164"),
				param("direction", "share that goes the one way, above 0 up to 100 %; 50 % on a two-way road"),
				param("lane", "share of that on the busiest lane, above 0 up to 100 %"),
			},
			Result:  param("esal", "18,000 lbf single axles over the life"),
			Range:   "shares above 0 up to 100 %",
			Sources: []value.Source{sourceTraffic},
			Example: "design_esal(4000, percent(25), 0.38, growth_factor(percent(4), years(20)), percent(50), percent(100))",
			Go:      DesignESAL,
		},
	}
}
