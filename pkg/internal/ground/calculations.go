package ground

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Calculations describes every calculation of the package that a rule may call.
func Calculations() []calculation.Function {
	return slices.Concat(
		groupCalculations(),
		uscsCalculations(),
		fieldTestCalculations(),
		cbrCalculations(),
		frostGroupCalculations(),
		frostDepthCalculations(),
		swellCalculations(),
	)
}

// Arguments that many calculations share.
var (
	argGroup   = param("group", "soil group, ASTM D2487")
	argP4      = param("p4", "share by mass passing the No. 4 (4.75 mm) sieve, 0 to 100 %")
	argP200    = param("p200", "share by mass passing the No. 200 (0.075 mm) sieve, up to p4")
	argLL      = param("ll", "liquid limit in percent, above 0 to 1000")
	argPL      = param("pl", "plastic limit in percent, above 0 to 1000; at or over the liquid limit the soil is nonplastic")
	argPI      = param("pi", "plasticity index in percent")
	argD10     = param("d10", "size than which 10 % by mass is finer, above 0 to 3 m")
	argD30     = param("d30", "size than which 30 % by mass is finer, d10 to 3 m")
	argD60     = param("d60", "size than which 60 % by mass is finer, d30 to 3 m")
	argFrost   = param("frost_group", "frost design soil group")
	argFiner   = param("finer_002", "share by mass finer than 0.02 mm, no more than the group holds")
	argDivisor = param("divisor", "undrained strength for each percent of CBR; 30 kPa makes the lowest CBR")
	argConsist = param("consistency", "how firm the clay is to the hand")
	argESAL    = param("esals", "equivalent single axle loads in the design life, 0 to 1e12")
	argDry     = param("dry_density", "dry density, 50 to 160 pcf")
	argMoist   = param("moisture", "moisture over dry mass, up to what the pores hold")
	argSurface = param("surface_index", "freezing index at the surface, above 0 to 20,000 F-days")
	argSeason  = param("season", "how long freezing lasts, 1 to 366 days")
	argMean    = param("mean_annual", "mean annual temperature, 0 to 40 C")

	resultGroup = param("group", "soil group")
	resultCBR   = param("cbr", "CBR in percent")
	resultFrost = param("frost_group", "frost design soil group")
	resultDepth = param("depth", "depth or thickness")
)

func param(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}

func params(p ...calculation.Param) []calculation.Param { return p }
func sources(s ...value.Source) []value.Source          { return s }

func groupCalculations() []calculation.Function {
	from := sources(sourceD2487)
	return []calculation.Function{
		{Name: "is_fine_grained", About: "Whether half or more of a soil group passes the No. 200 sieve.", Params: params(argGroup),
			Result: param("is", "true for CL, ML, CL-ML, CH, MH, OL and OH"), Sources: from, Example: "is_fine_grained(CL_ML)", Go: IsFineGrained},
		{Name: "is_organic", About: "Whether a soil group is organic and so not fit to build on.", Params: params(argGroup),
			Result: param("is", "true for OL, OH and PT"), Sources: sources(sourceD2487, sourceTM3_357), Example: "is_organic(OH)", Go: IsOrganic},
		{Name: "fines_most", About: "The most of a soil group that passes the No. 200 sieve.", Params: params(argGroup),
			Result: param("fines", "share below which its fines stay; all of a silt, a clay or an organic soil"), Sources: from, Example: "fines_most(SP)", Go: FinesMost},
		{Name: "soil_name", About: "The plain name of a soil group.", Params: params(argGroup), Result: param("name", "name, such as lean clay"),
			Sources: from, Example: "soil_name(CL)", Go: PlainName},
		{Name: "uniformity_coefficient", About: "The uniformity coefficient Cu, D60 over D10.", Params: params(argD10, argD60), Result: param("cu", "coefficient of uniformity"),
			Range: "sizes above 0 to 3 m, in rising order, d60 up to 1,000,000 d10", Sources: from, Example: "uniformity_coefficient(mm(0.18), mm(1.5))", Go: UniformityCoefficient},
		{Name: "curvature_coefficient", About: "The curvature coefficient Cc, the square of D30 over D10 times D60.", Params: params(argD10, argD30, argD60), Result: param("cc", "coefficient of curvature"),
			Range: "sizes above 0 to 3 m, in rising order, d60 up to 1,000,000 d10", Sources: from, Example: "curvature_coefficient(mm(0.18), mm(0.61), mm(1.5))", Go: CurvatureCoefficient},
	}
}

func uscsCalculations() []calculation.Function {
	cu, cc := param("cu", "coefficient of uniformity, 1 to 1,000,000"), param("cc", "coefficient of curvature, from 1/cu to cu within 5 %")
	fines := param("fines", "what the fines are")
	oven := param("ll_oven", "liquid limit after oven drying, in percent, above 0 to 1000; below 0.75 of ll the soil is organic")
	of := func(name, about, within, arguments string, function any, p ...calculation.Param) calculation.Function {
		return calculation.Function{Name: name, About: "The soil group of " + about, Params: p, Result: resultGroup, Range: within,
			Sources: sources(sourceD2487, sourceD4318), Example: name + arguments, Go: function}
	}
	const suspect = "; limits above the U-line are refused as suspect"
	return []calculation.Function{
		of("uscs_fine_oven_dried", "a fine-grained soil that may be organic.", "p200 that rounds to 50 and more"+suspect, "(percent(100), percent(100), 32.0, 22.0, 21.0)",
			USCSFineOvenDried, argP4, argP200, argLL, argPL, oven),
		of("uscs_fine_nonplastic", "a fine-grained soil of which no thread can be rolled.", "p200 that rounds to 50 and more", "(percent(100), percent(60))", USCSFineNonplastic, argP4, argP200),
		of("uscs_clean", "a coarse soil with under 5 % fines.", "p200 that rounds to under 5", "(percent(27), percent(4), 12.4, 2.7)", USCSClean, argP4, argP200, cu, cc),
		of("uscs_coarse", "a coarse soil from its gradation and what its fines are.", "p200 that rounds to under 50", "(percent(97), percent(5), 3.9, 0.91, silty_fines)",
			USCSCoarse, argP4, argP200, cu, cc, fines),
		of("uscs_silty_or_clayey", "a coarse soil with over 12 % fines, for which no gradation is needed.", "p200 that rounds to over 12 and under 50",
			"(percent(82), percent(40), clayey_fines)", USCSSiltyOrClayey, argP4, argP200, fines),
		of("uscs_by_limits", "a soil with over 12 % fines, from its limits alone.", "p200 that rounds to over 12"+suspect, "(percent(95), percent(40), 63.0, 48.0)",
			USCSByLimits, argP4, argP200, argLL, argPL),
		of("uscs_from_sieve", "any inorganic soil from a full sieve and both limits.", "sizes in rising order, in agreement with the sieve"+suspect,
			"(percent(90), percent(8), mm(0.18), mm(0.61), mm(1.5), 22.0, 20.0)", USCSFromSieve, argP4, argP200, argD10, argD30, argD60, argLL, argPL),
	}
}

func fieldTestCalculations() []calculation.Function {
	divisors, hand := sources(sourceGiroud, sourceBlack), sources(sourceTM5_818_1, sourceGiroud, sourceBlack)
	strength := param("qu", "unconfined strength")
	return []calculation.Function{
		{Name: "cbr_from_dcp", About: "CBR from the dynamic cone penetrometer.",
			Params: params(param("per_blow", "penetration per blow, as read"), param("curve", "which correlation; dcp_ch only for soil known to be CH"), param("hammer", "which hammer")),
			Result: resultCBR, Range: "a resulting CBR of 0.5 to 100", Sources: sources(sourceDCP, sourceTRLDCP, sourceDCPHammer),
			Example: "cbr_from_dcp(mm(20), dcp_general, hammer_8kg)", Go: CBRFromDCP},
		{Name: "cbrs_from_dcp", About: "CBR from each reading of the dynamic cone penetrometer.",
			Params: params(param("per_blow", "penetrations per blow in mm, as read"), param("curve", "which correlation; dcp_ch only for soil known to be CH"), param("hammer", "which hammer")),
			Result: param("cbrs", "CBR in percent, one for each penetration"), Range: "resulting CBRs from 0.5; one over 100 counts as 100",
			Sources: sources(sourceDCP, sourceTRLDCP, sourceDCPHammer), Example: "cbrs_from_dcp([20.0, 35.0], dcp_general, hammer_8kg)", Go: CBRsFromDCP, Moves: "-.."},
		{Name: "cbr_from_undrained_strength", About: "CBR of a clay from its undrained strength.", Params: params(param("cu", "undrained strength"), argDivisor),
			Result: resultCBR, Range: "cu above 0 to 2 tsf (192 kPa)", Sources: divisors,
			Example: "cbr_from_undrained_strength(kpa(60), divisor_30_kpa)", Go: CBRFromUndrainedStrength, Moves: "+.", Positive: true},
		{Name: "cbr_from_pocket_penetrometer", About: "CBR of a clay from a pocket penetrometer's reading.",
			Params: params(param("qu", "unconfined strength as read, twice the undrained strength"), argDivisor), Result: resultCBR,
			Range: "qu above 0 to 4 tsf (383 kPa)", Sources: divisors, Example: "cbr_from_pocket_penetrometer(kpa(100), divisor_30_kpa)", Go: CBRFromPocketPenetrometer, Moves: "+.", Positive: true},
		{Name: "consistency_strength_low", About: "Unconfined strength at the low edge of a band of consistency.", Params: params(argConsist), Result: strength,
			Range: "not very soft, which has no low edge", Sources: sources(sourceTM5_818_1), Example: "consistency_strength_low(stiff)", Go: UnconfinedStrengthLow},
		{Name: "consistency_strength_high", About: "Unconfined strength at the high edge of a band of consistency.", Params: params(argConsist), Result: strength,
			Range: "not hard, which has no high edge", Sources: sources(sourceTM5_818_1), Example: "consistency_strength_high(stiff)", Go: UnconfinedStrengthHigh},
		{Name: "cbr_from_consistency", About: "CBR at the middle of a band of consistency, the one to design with; of hard clay at its low edge.", Params: params(argConsist, argDivisor),
			Result: resultCBR, Sources: sources(sourceTM5_818_1, sourceBandsSI, sourceGiroud, sourceBlack), Example: "cbr_from_consistency(stiff, divisor_by_stiffness)", Go: CBRFromConsistency},
		{Name: "cbr_low_from_consistency", About: "CBR at the low edge of a band of consistency.", Params: params(argConsist, argDivisor),
			Result: resultCBR, Range: "not very soft, which has no low edge", Sources: hand, Example: "cbr_low_from_consistency(stiff, divisor_30_kpa)", Go: CBRLowFromConsistency},
		{Name: "cbr_high_from_consistency", About: "CBR at the high edge of a band of consistency.", Params: params(argConsist, argDivisor),
			Result: resultCBR, Range: "not hard, which has no high edge", Sources: hand, Example: "cbr_high_from_consistency(stiff, divisor_30_kpa)", Go: CBRHighFromConsistency},
		{Name: "consistency_from_blow_count", About: "The band of consistency of a clay by the standard penetration test.", Params: params(param("n", "blows per foot")),
			Result: param("consistency", "band of consistency; an edge belongs to the softer band"), Range: "n 0 to 500", Sources: sources(sourceTxDOT),
			Example: "consistency_from_blow_count(9.0)", Go: ConsistencyFromBlowCount},
	}
}

func cbrCalculations() []calculation.Function {
	tables := sources(sourceTM3_357, sourceNAVFAC, sourceNHI, sourceOwnSafe)
	return []calculation.Function{
		{Name: "cbr_low_from_class", About: "The low end of the CBR that a table gives for a soil group; of a dual symbol the lower part.",
			Params: params(argGroup, param("table", "which published table")), Result: resultCBR, Range: "groups with a low end in the table", Sources: tables,
			Example: "cbr_low_from_class(SC, table_tm_3_357)", Go: CBRLowFromClass},
		{Name: "cbr_from_plasticity", About: "CBR of a plastic soil from its fines and plasticity.", Params: params(argP200, argPI), Result: resultCBR,
			Range: "p200 above 0 to 100 %, pi above 0 to 1000", Sources: sources(sourceIndex), Example: "cbr_from_plasticity(percent(60), 15.0)", Go: CBRFromPlasticity, Moves: "--", Positive: true},
		{Name: "design_percentile", About: "Share of readings that must reach the design value, by traffic.", Params: params(argESAL),
			Result: param("share", "60, 75 or 87.5 %"), Range: "esals 0 to 1e12", Sources: sources(sourcePercent), Example: "design_percentile(50000.0)", Go: DesignPercentile},
		{Name: "design_cbr", About: "The CBR to design with, of several readings, by traffic; of one reading that reading.",
			Params: params(param("readings", "CBR readings in percent, in any order"), argESAL), Result: resultCBR,
			Range: "1 to 10,000 readings, each 0.1 to 200; esals 0 to 1e12", Sources: sources(sourcePercent), Example: "design_cbr([7.0, 5.0, 4.0], 50000.0)", Go: DesignCBR, Moves: "+-", Positive: true},
		{Name: "reached_by", About: "The CBR that at least so many readings reach; the least reading where there are fewer.",
			Params: params(param("readings", "CBR readings in percent, in any order"), param("count", "how many must reach it, from 1")), Result: resultCBR,
			Range: "1 to 10,000 readings, each 0 to 200; count 1 to 10,000", Sources: sources(sourceWeakArea), Example: "reached_by([7.0, 5.0, 4.0], 2.0)", Go: ReachedBy, Moves: "+-", Positive: true},
		{Name: "firm_readings", About: "The readings that are no soft spots: no less than a part of the middle reading.",
			Params: params(param("readings", "CBR readings in percent, in any order"), param("ratio", "the part of the middle reading, 0 to 1")),
			Result: param("firm", "the readings that are left, from the least up"), Range: "1 to 10,000 readings, each 0 to 200; ratio 0 to 1",
			Sources: sources(sourceWeakArea), Example: "firm_readings([0.3, 9.0, 9.0], 0.5)", Go: FirmReadings},
		{Name: "resilient_modulus", About: "Resilient modulus of a subgrade from its CBR.",
			Params: params(param("cbr", "California bearing ratio in percent"), param("by", "which correlation")), Result: param("modulus", "resilient modulus"),
			Range:   "CBR above 0 to 10 for 1500 CBR, 1 to 100 for 2555 CBR^0.64, 2 to 12 for 17.6 CBR^0.64 MPa",
			Sources: sources(sourceHeukelom, sourceNCHRPCBR, sourceLR1132), Example: "resilient_modulus(4.0, modulus_1500_cbr)", Go: ResilientModulus, Moves: "+.", Positive: true},
	}
}

func frostGroupCalculations() []calculation.Function {
	table := sources(sourceFrostTable)
	return []calculation.Function{
		{Name: "frost_group_of_gravel", About: "Frost group of a gravel from what is finer than 0.02 mm.", Params: params(argGroup, argFiner), Result: resultFrost,
			Range: "gravels", Sources: table, Example: "frost_group_of_gravel(GW_GM, percent(4))", Go: FrostGroupOfGravel},
		{Name: "frost_group_of_sand", About: "Frost group of a sand from what is finer than 0.02 mm, on the safe side without a frost test.",
			Params: params(argGroup, argFiner, param("very_fine", "whether it is a very fine silty sand")), Result: resultFrost,
			Range: "sands", Sources: table, Example: "frost_group_of_sand(SM, percent(8), false)", Go: FrostGroupOfSand},
		{Name: "frost_group_of_fines", About: "Frost group of a silt or a clay from its plasticity index.",
			Params: params(argGroup, argPI, param("banded", "whether it is varved or banded")), Result: resultFrost,
			Range: "ML, MH, CL, CL-ML and CH; pi 0 to 1000", Sources: table, Example: "frost_group_of_fines(CL, 18.0, false)", Go: FrostGroupOfFines},
		{Name: "frost_group_from_class", About: "The weakest frost group that a soil group allows, when nothing more is known.", Params: params(argGroup), Result: resultFrost,
			Range: "not OL, OH or PT", Sources: sources(sourceFrostTable, sourceOwnSafe), Example: "frost_group_from_class(SM)", Go: FrostGroupFromClass},
		{Name: "frost_soil_support", About: "Frost-area soil support index, used as if it were a CBR in thaw.", Params: params(argFrost),
			Result: param("index", "index, as a CBR in percent"), Range: "not NFS or PFS", Sources: sources(sourceFASSI), Example: "frost_soil_support(F2)", Go: FrostSoilSupport},
		{Name: "thaw_modulus_factor", About: "The part of its normal modulus that a soil keeps in thaw.", Params: params(argFrost), Result: param("factor", "part, above 0 to 1"),
			Sources: sources(sourceThaw), Example: "thaw_modulus_factor(F3)", Go: ThawModulusFactor},
	}
}

func frostDepthCalculations() []calculation.Function {
	onSurface := param("surface", "what lies at the surface")
	k := param("k", "mean of frozen and unfrozen conductivity, above 0 to 10 W/m-K")
	depths, exact := sources(sourceBerggren), sources(sourceBerggren, sourceNeumann)
	const example = "f_days(2500), mean_conductivity(thermal_silt_clay, pcf(100), percent(15)), pcf(100), percent(15)"
	return []calculation.Function{
		{Name: "n_factor", About: "Surface freezing index over air freezing index.", Params: params(onSurface), Result: param("n", "n-factor"),
			Sources: sources(sourceNTable), Example: "n_factor(surface_concrete)", Go: NFactor},
		{Name: "surface_freezing_index", About: "Freezing index at the surface from that of the air.",
			Params: params(param("air_index", "air freezing index"), onSurface), Result: param("index", "freezing index"),
			Range: "air index 0 to 20,000 F-days", Sources: sources(sourceNTable), Example: "surface_freezing_index(f_days(1000), surface_concrete)", Go: SurfaceFreezingIndex, Moves: "+.", Positive: true},
		{Name: "mean_conductivity", About: "Mean of Kersten's frozen and unfrozen conductivity.", Params: params(param("soil", "kind of soil"), argDry, argMoist),
			Result: param("k", "thermal conductivity"), Range: "moisture from 7 % for silt and clay, 1 % for sand and gravel",
			Sources: sources(sourceKersten, sourceBerggren), Example: "mean_conductivity(thermal_silt_clay, pcf(100), percent(15))", Go: MeanConductivity},
		{Name: "stefan_frost_depth", About: "Frost depth by Stefan's equation, no less than the true depth.", Params: params(argSurface, k, argDry, argMoist), Result: resultDepth,
			Range: "depth up to 30 m", Sources: depths, Example: "stefan_frost_depth(" + example + ")", Go: StefanDepth, Moves: "++--", Positive: true},
		{Name: "berggren_frost_depth", About: "Frost depth by the modified Berggren equation.", Params: params(argSurface, k, argDry, argMoist, argMean, argSeason), Result: resultDepth,
			Range: "mean annual temperature at or above freezing; Stefan's depth up to 30 m", Sources: exact,
			Example: "berggren_frost_depth(" + example + ", fahrenheit(37.2), days(160))", Go: BerggrenDepth, Moves: "++....", Positive: true},
		{Name: "berggren_lambda", About: "Berggren's correction to Stefan's depth.", Params: params(param("alpha", "thermal ratio"), param("mu", "fusion parameter")),
			Result: param("lambda", "correction, above 0 to 1"), Range: "alpha 0 to 1e6, mu 1e-9 to 10", Sources: sources(sourceNeumann), Example: "berggren_lambda(0.33, 0.2)", Go: BerggrenLambda},
		{Name: "thermal_ratio", About: "Mean annual temperature above freezing, over how far the surface is below it while it freezes.",
			Params: params(argSurface, argSeason, argMean), Result: param("alpha", "thermal ratio"), Range: "mean annual temperature 0 to 40 C", Sources: depths,
			Example: "thermal_ratio(f_days(2500), days(160), fahrenheit(37.2))", Go: ThermalRatio},
		{Name: "fusion_parameter", About: "Heat given up by cooling, over that given up by freezing.", Params: params(argSurface, argSeason, argDry, argMoist),
			Result: param("mu", "fusion parameter"), Range: "a result of 1e-9 to 10", Sources: depths, Example: "fusion_parameter(f_days(2500), days(160), pcf(100), percent(15))", Go: FusionParameter},
		{Name: "limited_frost_base", About: "Frost-free base that lets frost only a little into the subgrade.",
			Params: params(param("frost_depth", "frost depth if all were frost-free base"), param("surface", "thickness of the surface course"),
				param("subgrade_moisture", "moisture of the subgrade"), param("base_moisture", "moisture of the base"),
				param("cap", "the greatest ratio of the two that counts")),
			Result: resultDepth, Range: "depths 0 to 1000 in, moistures above 0 to 300 %", Sources: sources(sourceLSFP, sourceLSFPCap),
			Example: "limited_frost_base(inches(45), inches(5), percent(18), percent(3), ratio_cap_2)", Go: LimitedFrostBase, Moves: "+....", Positive: true},
	}
}

func swellCalculations() []calculation.Function {
	return []calculation.Function{
		{Name: "potential_swell", About: "How much a soil may swell, from its limits.", Params: params(argLL, argPI, param("set", "which published limits")),
			Result: param("swell", "how much it may swell"), Range: "pi up to ll", Sources: sources(sourceSnethen, sourceClosed, sourceOwnSafe),
			Example: "potential_swell(55.0, 30.0, swell_by_snethen)", Go: PotentialSwell},
	}
}
