package drainage

import "example.com/groundrule/pkg/calculation"

func bedCalculations() []calculation.Function {
	barrier := param("barrier", "height of the barriers across the slope")
	return []calculation.Function{
		{
			Name: "drain_time", About: "Gives the time in which the ground empties a reservoir.",
			Params: []calculation.Param{paramDepth, paramVoids, paramRate}, Result: param("time", "time to empty"), Range: "infiltration more than 0; " + ofVoids,
			Sources: from(sourceWaterBalance), Example: "drain_time(inches(12), 0.40, in_per_hour(0.5))", Go: DrainTime,
		},
		{
			Name: "underdrain_needed", About: "Tells whether the ground takes water slower than a threshold.",
			Params: []calculation.Param{paramRate, param("threshold", "rate below which an underdrain is laid")}, Result: param("needed", "true or false"),
			Sources: from(sourceCoastal), Example: "underdrain_needed(in_per_hour(0.2), in_per_hour(0.3))", Go: UnderdrainNeeded,
		},
		{
			Name: "underdrain_needed_to_drain", About: "Tells whether the ground alone would take too long to empty the reservoir.",
			Params: []calculation.Param{paramDepth, paramVoids, paramRate, param("longest", "longest time allowed")}, Result: param("needed", "true or false"), Range: ofVoids,
			Sources: from(sourceFHWA19021), Example: "underdrain_needed_to_drain(inches(12), 0.40, in_per_hour(0.05), hours(72))", Go: UnderdrainNeededToDrain,
		},
		{
			Name: "runoff_volume", About: "Gives the water that rain on an area brings, all of it shed.",
			Params: []calculation.Param{paramRain, param("area", "area rained on")}, Result: param("volume", "volume of water"),
			Sources: from(sourceBucks), Example: "runoff_volume(inches(2.04), sq_ft(824))", Go: RunoffVolume,
		},
		{
			Name: "stone_volume", About: "Gives the stone whose voids hold a volume of water.",
			Params: []calculation.Param{param("water", "volume of water"), paramVoids}, Result: param("volume", "volume of stone"), Range: "voids between 0 and 1",
			Sources: from(sourceBucks), Example: "stone_volume(runoff_volume(inches(2.04), sq_ft(824)), 0.40)", Go: StoneVolume,
		},
		{
			Name: "trench_area", About: "Gives the bottom area of an infiltration trench that holds a volume of water.",
			Params: []calculation.Param{param("water", "volume of water"), paramVoids, param("depth", "depth of the trench, more than 0"), paramRate, paramFilling},
			Result: param("area", "bottom area"), Range: "depth more than 0; " + ofVoids,
			Sources: from(sourceTrench), Example: "trench_area(runoff_volume(inches(1), sq_ft(1000)), 0.40, feet(3), in_per_hour(0.5), hours(2))", Go: TrenchArea,
		},
		{
			Name: "usable_depth_on_slope", About: "Gives the mean depth of stone that water fills behind barriers on a sloped subgrade.",
			Params: []calculation.Param{barrier, paramSlope, param("spacing", "distance from barrier to barrier")}, Result: param("depth", "usable mean depth"), Range: "slope 0 to 1",
			Sources: from(sourceTerrace), Example: "usable_depth_on_slope(inches(12), 0.02, feet(20))", Go: UsableDepthOnSlope,
		},
		{
			Name: "barrier_spacing_denver", About: "Gives the largest spacing of barriers on a sloped subgrade, two thirds of their height being usable.",
			Params: []calculation.Param{barrier, paramSlope}, Result: param("spacing", "largest distance from barrier to barrier"), Range: "slope more than 0, up to 1",
			Sources: from(sourceDenver), Example: "barrier_spacing_denver(inches(12), 0.02)", Go: BarrierSpacingDenver,
		},
		{
			Name: "barrier_height_denver", About: "Gives the height of stone behind such barriers that holds as much as a level depth.",
			Params: []calculation.Param{param("level", "depth of stone that would do on level ground")}, Result: param("height", "height of the barriers and of the stone behind them"),
			Range: "0 to 100 m", Sources: from(sourceDenver), Example: "barrier_height_denver(inches(8))", Go: BarrierHeightDenver,
		},
		{
			Name: "voids_from_density", About: "Gives the porosity of stone from its dry density and the specific gravity of its solids.",
			Params: []calculation.Param{param("dry_density", "dry density in place"), param("specific_gravity", "of the solids, such as 2.65")}, Result: param("voids", "porosity, 0 to 1"),
			Range: "density more than 0 and less than that of the solids; specific gravity 1 to 6", Sources: from(sourceSolids), Example: "voids_from_density(pcf(100), 2.65)", Go: VoidsFromDensity,
		},
		{
			Name: "void_ratio", About: "Gives the true void ratio, voids over solids, of a porosity.",
			Params: []calculation.Param{paramVoids}, Result: resultRatio, Range: "voids between 0 and 1",
			Sources: from(sourceSolids), Example: "void_ratio(0.40)", Go: VoidRatio,
		},
	}
}

func infiltrationCalculations() []calculation.Function {
	rate := param("rate", "infiltration of the ground")
	group := param("group", "hydrologic soil group")
	return []calculation.Function{
		{
			Name: "infiltration_minnesota", About: "Gives the design infiltration rate of a soil texture in the Minnesota manual.",
			Params: []calculation.Param{paramTexture}, Result: rate, Range: "refuses clay loam and tighter, for which only a bound is given, and textures not listed",
			Sources: from(sourceMinnesotaRates), Example: "infiltration_minnesota(texture_loam)", Go: InfiltrationMinnesota,
		},
		{
			Name: "infiltration_minnesota_by_group", About: "Gives the slower of the design rates that the Minnesota manual lists for a hydrologic group.",
			Params: []calculation.Param{paramGroup}, Result: rate, Range: "refuses D, for which only a bound is given, and dual groups",
			Sources: from(sourceMinnesotaRates), Example: "infiltration_minnesota_by_group(hsg_b)", Go: InfiltrationMinnesotaByGroup,
		},
		{
			Name: "hydrologic_group_minnesota", About: "Gives the hydrologic group that the Minnesota manual sets beside a texture.",
			Params: []calculation.Param{paramTexture}, Result: group, Range: "refuses textures not listed",
			Sources: from(sourceMinnesotaRates), Example: "hydrologic_group_minnesota(texture_sand)", Go: HydrologicGroupMinnesota,
		},
		{
			Name: "infiltration_least_tr55", About: "Gives the lower end of the minimum infiltration of a hydrologic group, older TR-55 set.",
			Params: []calculation.Param{paramGroup}, Result: rate, Range: "refuses dual groups",
			Sources: from(sourceTR55), Example: "infiltration_least_tr55(hsg_b)", Go: InfiltrationLeastTR55,
		},
		{
			Name: "infiltration_most_tr55", About: "Gives the upper end of the minimum infiltration of a hydrologic group, older TR-55 set.",
			Params: []calculation.Param{paramGroup}, Result: rate, Range: "refuses dual groups",
			Sources: from(sourceTR55), Example: "infiltration_most_tr55(hsg_b)", Go: InfiltrationMostTR55,
		},
		{
			Name: "conductivity_rawls", About: "Gives the saturated conductivity of a USDA soil texture.",
			Params: []calculation.Param{paramTexture}, Result: rate, Range: "refuses gravel",
			Sources: from(sourceRawls), Example: "conductivity_rawls(texture_sandy_loam)", Go: ConductivityRawls,
		},
		{
			Name: "drained_group", About: "Gives the hydrologic group of the ground once drained: the first letter of a dual group.",
			Params: []calculation.Param{paramGroup}, Result: group,
			Sources: from(sourceDualGroups), Example: "drained_group(hsg_b_d)", Go: DrainedGroup,
		},
		{
			Name: "undrained_group", About: "Gives the hydrologic group of the ground as it lies: D for a dual group.",
			Params: []calculation.Param{paramGroup}, Result: group,
			Sources: from(sourceDualGroups), Example: "undrained_group(hsg_b_d)", Go: UndrainedGroup,
		},
	}
}
