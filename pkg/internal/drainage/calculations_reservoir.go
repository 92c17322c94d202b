package drainage

import "example.com/groundrule/pkg/calculation"

func reservoirCalculations() []calculation.Function {
	ontario := param("target", "runoff volume control target, as a depth of rain")
	return []calculation.Function{
		{
			Name: "reservoir_depth", About: "Gives the depth of stone that holds a storm until the ground has taken it, all rain on the area that runs on being shed.",
			Params: []calculation.Param{paramRain, paramRunOn, paramRate, paramFilling, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceOntario2010), Example: "reservoir_depth(inches(2.4), 1.0, in_per_hour(0.5), hours(2), 0.40)", Go: ReservoirDepth,
		},
		{
			Name: "reservoir_depth_with_runoff", About: "Gives the depth of stone that holds a storm and a depth of runoff until the ground has taken them.",
			Params: []calculation.Param{paramRain, paramRunoff, paramRunOn, paramRate, paramFilling, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceOntario2010), Example: "reservoir_depth_with_runoff(inches(2.4), inches(2.2), 1.0, in_per_hour(0.5), hours(2), 0.40)", Go: ReservoirDepthWithRunoff,
		},
		{
			Name: "reservoir_depth_cap", About: "Gives the deepest reservoir that the ground empties in the time allowed.",
			Params: []calculation.Param{paramRate, paramDrain, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceOntario2010), Example: "reservoir_depth_cap(in_per_hour(0.27), hours(48), 0.40)", Go: ReservoirDepthCap,
		},
		{
			Name: "reservoir_depth_ontario", About: "Gives the reservoir depth of the later Ontario form, from a runoff volume control target.",
			Params: []calculation.Param{ontario, paramRunOn, paramRate, param("duration", "duration of the storm"), paramVoids}, Result: resultDepth, Range: "run-on ratio 0 to 2; " + ofVoids,
			Sources: from(sourceOntarioLater), Example: "reservoir_depth_ontario(mm(25), 1.0, mm_per_hour(3), hours(4), 0.40)", Go: ReservoirDepthOntario,
		},
		{
			Name: "reservoir_footprint_ontario", About: "Gives the area of pavement that a drained area needs, for a reservoir of a depth.",
			Params: []calculation.Param{param("duration", "duration of the storm"), param("intensity", "intensity of the rain"), paramRate, param("drained", "area drained"), paramDepth, paramVoids},
			Result: param("area", "area of pavement, 0 where the ground takes all"), Range: "depth more than 0; " + ofVoids,
			Sources: from(sourceOntarioLater), Example: "reservoir_footprint_ontario(hours(4), mm_per_hour(10), mm_per_hour(3), sq_m(150), mm(350), 0.40)", Go: ReservoirFootprintOntario,
		},
	}
}

func stateReservoirCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name: "reservoir_depth_virginia", About: "Gives the reservoir depth of Virginia DEQ Spec No. 7, half of the infiltration counted.",
			Params: []calculation.Param{paramRunoff, paramRunOn, paramRain, paramRate, paramFilling, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceVirginia), Example: "reservoir_depth_virginia(inches(0.95), 1.0, inches(1), in_per_hour(0.5), hours(2), 0.40)", Go: ReservoirDepthVirginia,
		},
		{
			Name: "reservoir_depth_virginia_underdrain", About: "Gives the reservoir depth of Virginia DEQ Spec No. 7 with an underdrain.",
			Params: []calculation.Param{paramRunoff, paramRunOn, paramRain, paramRate, param("outflow", "outflow of the underdrain, as a depth of water in a time"), paramFilling, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceVirginia), Example: "reservoir_depth_virginia_underdrain(inches(0.95), 1.0, inches(1), in_per_hour(0.1), in_per_hour(0.25), hours(2), 0.40)", Go: ReservoirDepthVirginiaUnderdrain,
		},
		{
			Name: "reservoir_depth_cap_virginia", About: "Gives the deepest reservoir that empties in the time allowed, half of the infiltration counted.",
			Params: []calculation.Param{paramRate, paramDrain, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceVirginia), Example: "reservoir_depth_cap_virginia(in_per_hour(0.5), hours(48), 0.40)", Go: ReservoirDepthCapVirginia,
		},
		{
			Name: "underdrain_outflow_virginia", About: "Gives the outflow of an underdrain from the permeability of the stone and the slope of the pipe.",
			Params: []calculation.Param{param("permeability", "permeability of the stone, 100 ft/day for small stone"), paramSlope},
			Result: param("outflow", "a depth of water in a time"), Range: "slope 0 to 1",
			Sources: from(sourceVirginia), Example: "underdrain_outflow_virginia(ft_per_day(100), 0.005)", Go: UnderdrainOutflowVirginia,
		},
		{
			Name: "reservoir_depth_north_carolina", About: "Gives the reservoir depth of NCDENR Ch. 18, no infiltration counted.",
			Params: []calculation.Param{paramRain, paramRunOn, paramVoids}, Result: resultDepth, Range: ofVoids,
			Sources: from(sourceNorthCarolina), Example: "reservoir_depth_north_carolina(inches(1.5), 1.0, 0.40)", Go: ReservoirDepthNorthCarolina,
		},
		{
			Name: "drawdown_north_carolina", About: "Gives the drawdown time of NCDENR Ch. 18, a fifth of the infiltration counted.",
			Params: []calculation.Param{paramRain, paramRunOn, paramRate}, Result: param("time", "time until the ground has taken the storm"), Range: "infiltration more than 0",
			Sources: from(sourceNorthCarolina), Example: "drawdown_north_carolina(inches(1), 1.0, in_per_hour(0.5))", Go: DrawdownNorthCarolina,
		},
		{
			Name: "volume_credit_minnesota", About: "Gives the water that a bed holds between its overflow and its bottom.",
			Params: []calculation.Param{param("overflow", "area at the overflow"), param("bottom", "area of the bottom"), paramDepth, paramVoids},
			Result: param("volume", "volume of water"), Range: ofVoids,
			Sources: from(sourceMinnesotaCredit), Example: "volume_credit_minnesota(sq_ft(400), sq_ft(400), feet(1), 0.40)", Go: VolumeCreditMinnesota,
		},
	}
}
