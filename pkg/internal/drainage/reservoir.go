package drainage

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	waters  = calculation.Range{Name: "rain", Unit: "m", Low: 0, High: 100, Document: ownLimit}
	runOns  = calculation.Range{Name: "run-on ratio", Low: 0, High: 1000, Document: ownLimit}
	rates   = calculation.Range{Name: "infiltration", Unit: "in/h", Low: 0, High: 100_000, Document: ownLimit}
	soaking = calculation.Range{Name: "infiltration", Unit: "in/h", Low: 0.001, High: 100_000, Document: ownLimit}
	times   = calculation.Range{Name: "time of filling", Unit: "years", Low: 0, High: 10, Document: ownLimit}
	// Loose single-sized stone has some 45 % of voids, well-graded stone some 20 %.
	porosities = calculation.Range{Name: "share of voids", Unit: "%", Low: 10, High: 60, Document: ownLimit}
	beds       = waters.Named("reservoir depth")
)

// ReservoirDepth returns the depth of stone that holds a storm until the ground
// has taken it, where the area that runs on is paved and sheds all its rain:
//
//	d = (P R + P - q T) / n
//
// P rain, R area that runs on over area of pavement, q infiltration of the
// ground, T time of filling (about 2 h), n voids: the porosity of the stone, the
// share of its volume that water can fill. The manuals call 0.40 a "void ratio";
// the true void ratio of such stone is 0.67. A depth that comes out negative,
// because the ground takes the water faster than it comes, is returned as 0:
// other needs then govern the thickness.
//
// Rain is 0 to 100 m, the ratio 0 to 1,000, infiltration 0 to 100,000 in/h, the
// time 0 to 10 years and voids 10 to 60 %.
//
// Source: TRCA/CVC LID Guide 2010 sec. 4.7, relayed.
func ReservoirDepth(rain quantity.Length, runOn float64, infiltration quantity.Rate, filling quantity.Time, voids quantity.Share) (quantity.Length, error) {
	err := cmp.Or(waters.CheckMeasure(rain), runOns.Check(runOn), rates.CheckMeasure(infiltration),
		times.CheckMeasure(filling), porosities.CheckMeasure(voids))
	if err != nil {
		return 0, err
	}
	in := float64(float64(rain)*runOn) + float64(rain)
	return quantity.Length(max(in-taken(infiltration, filling), 0) / voids.Fraction()), nil
}

// taken is the depth of water, in meters, that the ground takes in a time.
func taken(infiltration quantity.Rate, time quantity.Time) float64 {
	return float64(float64(infiltration) * float64(time))
}

// DrainTime returns the time in which ground of a steady infiltration f empties a
// flat-bottomed reservoir: t = n d / f. The depth is 0 to 100 m, voids 10 to
// 60 %, infiltration 0.001 to 100,000 in/h.
//
// Source: water balance, computed.
func DrainTime(depth quantity.Length, voids quantity.Share, infiltration quantity.Rate) (quantity.Time, error) {
	err := cmp.Or(beds.CheckMeasure(depth), porosities.CheckMeasure(voids), soaking.CheckMeasure(infiltration))
	if err != nil {
		return 0, err
	}
	return quantity.Time(float64(depth) * voids.Fraction() / float64(infiltration)), nil
}

// UnderdrainNeededToDrain reports whether the ground alone would take longer than
// the longest time allowed to empty the reservoir. Ground that takes no water
// needs an underdrain under any reservoir that has a depth. The depth is 0 to
// 100 m, voids 10 to 60 %, infiltration 0 to 100,000 in/h, the time 0 to 10
// years.
//
// Source: FHWA-HIF-19-021, an underdrain where not infiltrated within 48 to 72 h, seen.
func UnderdrainNeededToDrain(depth quantity.Length, voids quantity.Share, infiltration quantity.Rate, longest quantity.Time) (bool, error) {
	err := cmp.Or(beds.CheckMeasure(depth), porosities.CheckMeasure(voids), rates.CheckMeasure(infiltration),
		times.Named("longest time to drain").CheckMeasure(longest))
	if err != nil {
		return false, err
	}
	return float64(depth)*voids.Fraction() > taken(infiltration, longest), nil
}

func reservoirCalculations() []calculation.Function {
	depth := param("depth", "depth of the reservoir, 0 to 100 m")
	voids := param("voids", "porosity of the stone, such as 40 %; 10 to 60 %")
	rate := param("infiltration", "infiltration of the ground, 0 to 100,000 in/h")
	return []calculation.Function{
		{
			Name:  "reservoir_depth",
			About: "The depth of stone that holds a storm until the ground has taken it, paved areas running on.",
			Params: []calculation.Param{
				param("rain", "depth of rain on the pavement, 0 to 100 m"),
				param("run_on_ratio", "area that runs on over area of pavement, 0 to 1,000"), rate,
				param("filling", "time of filling, generally 2 h; 0 to 10 years"), voids,
			},
			Result:   param("depth", "depth of stone, 0 where none is needed"),
			Range:    "voids 10 to 60 %",
			Sources:  []value.Source{sourceOntario2010},
			Example:  "reservoir_depth(inches(2.4), 1.0, in_per_hour(0.5), hours(2), percent(40))",
			Go:       ReservoirDepth,
			Moves:    "++---",
			Positive: true,
		},
		{
			Name:     "drain_time",
			About:    "The time in which the ground empties a reservoir.",
			Params:   []calculation.Param{depth, voids, param("infiltration", "infiltration of the ground, 0.001 to 100,000 in/h")},
			Result:   param("time", "time to empty"),
			Range:    "infiltration from 0.001 in/h, voids 10 to 60 %",
			Sources:  []value.Source{sourceWaterBalance},
			Example:  "drain_time(inches(12), percent(40), in_per_hour(0.5))",
			Go:       DrainTime,
			Moves:    "++-",
			Positive: true,
		},
		{
			Name:    "underdrain_needed_to_drain",
			About:   "Whether the ground alone would take too long to empty the reservoir.",
			Params:  []calculation.Param{depth, voids, rate, param("longest", "longest time allowed, 0 to 10 years")},
			Result:  param("needed", "true or false"),
			Range:   "voids 10 to 60 %",
			Sources: []value.Source{sourceFHWA19021},
			Example: "underdrain_needed_to_drain(inches(12), percent(40), in_per_hour(0.05), hours(72))",
			Go:      UnderdrainNeededToDrain,
		},
	}
}
