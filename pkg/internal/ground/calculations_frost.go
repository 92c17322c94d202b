package ground

import "example.com/groundrule/pkg/calculation"

var (
	givesFrost  = result("frost_group", "frost design soil group")
	givesLength = result("depth", "depth or thickness")
	givesIndex  = result("index", "freezing index")
	givesK      = result("k", "thermal conductivity")
)

func frostGroupCalculations() []calculation.Function {
	table := sources(sourceFrostTable)
	veryFine := calculation.Param{Name: "very_fine", About: "whether it is a very fine silty sand"}
	banded := calculation.Param{Name: "banded", About: "whether it is varved or banded"}
	faa := calculation.Param{Name: "group", About: "older frost group"}
	return []calculation.Function{
		{Name: "frost_group_of_gravel", About: "Frost group of a gravel from what is finer than 0.02 mm.", Params: params(argGroup, argFiner), Result: givesFrost,
			Range: "gravels", Sources: table, Example: "frost_group_of_gravel(GW_GM, 4.0)", Go: FrostGroupOfGravel},
		{Name: "frost_group_of_sand", About: "Frost group of a sand from what is finer than 0.02 mm, on the safe side without a frost test.", Params: params(argGroup, argFiner, veryFine), Result: givesFrost,
			Range: "sands", Sources: table, Example: "frost_group_of_sand(SM, 8.0, false)", Go: FrostGroupOfSand},
		{Name: "frost_group_of_fines", About: "Frost group of a silt or a clay from its plasticity index.", Params: params(argGroup, argPI, banded), Result: givesFrost,
			Range: "ML, MH, CL, CL-ML and CH", Sources: table, Example: "frost_group_of_fines(CL, 18.0, false)", Go: FrostGroupOfFines},
		{Name: "frost_group_from_class", About: "The weakest frost group that a soil group allows, when nothing more is known.", Params: params(argGroup), Result: givesFrost,
			Range: "not OL, OH or PT", Sources: sources(sourceFrostTable, sourceOwnSafe), Example: "frost_group_from_class(SM)", Go: FrostGroupFromClass},
		{Name: "weaker_frost_group", About: "The one of two frost groups that is weaker in thaw.", Params: params(argFrost, calculation.Param{Name: "other", About: "another frost group"}),
			Result: givesFrost, Sources: table, Example: "weaker_frost_group(S2, F1)", Go: WeakerFrostGroup},
		{Name: "finer_002_of_gravel", About: "About what is finer than 0.02 mm in a gravel, without a hydrometer: half of p200.", Params: params(argP200),
			Result: result("finer_002", "percent by mass finer than 0.02 mm"), Range: "p200 under 18", Sources: sources(sourceKaplar),
			Example: "finer_002_of_gravel(5.0)", Go: FinerThanPointZeroTwo},
		{Name: "frost_soil_support", About: "Frost-area soil support index, used as if it were a CBR in thaw.", Params: params(argFrost), Result: result("index", "index, as a CBR in percent"),
			Range: "not NFS or PFS", Sources: sources(sourceFASSI), Example: "frost_soil_support(F2)", Go: FrostSoilSupport},
		{Name: "thaw_governing_cbr", About: "The lower of the design CBR and the frost-area soil support index.", Params: params(argCBR, argFrost), Result: result("cbr", "CBR in percent that governs"),
			Range: "not PFS", Sources: sources(sourceFASSI), Example: "thaw_governing_cbr(4.0, F2)", Go: ThawGoverningCBR},
		{Name: "thaw_modulus_factor", About: "The part of its normal modulus that a soil keeps in thaw.", Params: params(argFrost), Result: result("factor", "part, above 0 to 1"),
			Sources: sources(sourceThaw), Example: "thaw_modulus_factor(F3)", Go: ThawModulusFactor},
		{Name: "faa_frost_group", About: "The older frost group of a newer one.", Params: params(argFrost), Result: result("group", "older frost group"),
			Range: "not NFS or PFS", Sources: sources(sourceFAA), Example: "faa_frost_group(F2)", Go: FAAFrostGroupOf},
		{Name: "faa_reduced_cbr", About: "CBR to design with in thaw, by the FAA's reduced strength method.", Params: params(faa), Result: givesCBR,
			Range: "not FG-4", Sources: sources(sourceFAA), Example: "faa_reduced_cbr(FG_3)", Go: FAAReducedCBR},
		{Name: "faa_limited_penetration_cover", About: "Depth of section by the FAA's limited penetration method, 65 % of the frost depth.", Params: params(argDepth), Result: givesLength,
			Range: "0 to 1000 in", Sources: sources(sourceFAA), Example: "faa_limited_penetration_cover(inches(40))", Go: FAALimitedPenetrationCover},
	}
}

func frostDepthCalculations() []calculation.Function {
	surface := calculation.Param{Name: "surface_index", About: "freezing index at the surface"}
	k := calculation.Param{Name: "k", About: "mean of frozen and unfrozen conductivity"}
	season := calculation.Param{Name: "season", About: "how long freezing lasts, 1 to 366 days"}
	mean := calculation.Param{Name: "mean_annual", About: "mean annual temperature, 0 to 40 C"}
	soil := calculation.Param{Name: "soil", About: "kind of soil"}
	unit := calculation.Param{Name: "unit", About: "the unit in which the winters are written, such as one F day"}
	winters := calculation.Param{Name: "winters", About: "freezing index of each winter, in that unit, the oldest first"}
	const kRange = "moisture from 7 % for silt and clay, 1 % for sand and gravel"
	depths, exact := sources(sourceBerggren), sources(sourceBerggren, sourceNeumann)
	return []calculation.Function{
		{Name: "design_freezing_index", About: "Mean of the 3 coldest of the latest 30 winters, or the coldest of the latest 10.", Params: params(unit, winters), Result: givesIndex,
			Range: "10 winters at least", Sources: sources(sourceDesignFI),
			Example: "design_freezing_index(f_days(1), [1199.0, 2209.0, 1061.0, 2123.0, 1696.0, 2154.0, 841.0, 1616.0, 1858.0, 1350.0])", Go: DesignFreezingIndex},
		{Name: "mean_of_coldest_winters", About: "Mean freezing index of the coldest of a record of winters.", Params: params(unit, winters, calculation.Param{Name: "count", About: "how many of the coldest, a whole number"}),
			Result: givesIndex, Range: "count from 1 to the winters on record", Sources: sources(sourceDesignFI),
			Example: "mean_of_coldest_winters(f_days(1), [2144.0, 2074.0, 2294.0], 2.0)", Go: MeanOfColdest},
		{Name: "n_factor", About: "Surface freezing index over air freezing index.", Params: params(calculation.Param{Name: "surface", About: "what lies at the surface"}), Result: result("n", "n-factor"),
			Sources: sources(sourceNTable), Example: "n_factor(surface_concrete)", Go: NFactor},
		{Name: "surface_freezing_index", About: "Freezing index at the surface from that of the air.", Params: params(calculation.Param{Name: "air_index", About: "air freezing index, 0 to 20,000 F days"},
			calculation.Param{Name: "surface", About: "what lies at the surface"}), Result: givesIndex, Range: "0 to 20,000 F days", Sources: sources(sourceNTable),
			Example: "surface_freezing_index(f_days(1000), surface_concrete)", Go: SurfaceFreezingIndex},
		{Name: "conductivity_us", About: "A conductivity from Btu per foot, hour and degree F.", Params: params(calculation.Param{Name: "x", About: "Btu/ft-hr-F, above 0 to 5.8"}), Result: givesK,
			Range: "above 0 to 5.8", Sources: sources(sourceBerggren), Example: "conductivity_us(0.76)", Go: ConductivityUS},
		{Name: "conductivity_si", About: "A conductivity from watts per meter and kelvin.", Params: params(calculation.Param{Name: "x", About: "W/m-K, above 0 to 10"}), Result: givesK,
			Range: "above 0 to 10", Sources: sources(sourceBerggren), Example: "conductivity_si(1.3)", Go: ConductivitySI},
		{Name: "frozen_conductivity", About: "Kersten's conductivity of frozen soil.", Params: params(soil, argDry, argMoist), Result: givesK, Range: kRange,
			Sources: sources(sourceKersten), Example: "frozen_conductivity(thermal_silt_clay, pcf(100), 15.0)", Go: FrozenConductivity},
		{Name: "thawed_conductivity", About: "Kersten's conductivity of unfrozen soil.", Params: params(soil, argDry, argMoist), Result: givesK, Range: kRange,
			Sources: sources(sourceKersten), Example: "thawed_conductivity(thermal_silt_clay, pcf(100), 15.0)", Go: ThawedConductivity},
		{Name: "mean_conductivity", About: "Mean of Kersten's frozen and unfrozen conductivity.", Params: params(soil, argDry, argMoist), Result: givesK, Range: kRange,
			Sources: sources(sourceKersten, sourceBerggren), Example: "mean_conductivity(thermal_silt_clay, pcf(100), 15.0)", Go: MeanConductivity},
		{Name: "stefan_frost_depth", About: "Frost depth by Stefan's equation, no less than the true depth.", Params: params(surface, k, argDry, argMoist), Result: givesLength,
			Range: "depth up to 30 m", Sources: depths, Example: "stefan_frost_depth(f_days(2500), conductivity_us(0.76), pcf(100), 15.0)", Go: StefanDepth},
		{Name: "berggren_frost_depth", About: "Frost depth by the modified Berggren equation.", Params: params(surface, k, argDry, argMoist, mean, season), Result: givesLength,
			Range: "mean annual temperature at or above freezing", Sources: exact,
			Example: "berggren_frost_depth(f_days(2500), conductivity_us(0.76), pcf(100), 15.0, fahrenheit(37.2), days(160))", Go: BerggrenDepth},
		{Name: "berggren_lambda", About: "Berggren's correction to Stefan's depth.", Params: params(calculation.Param{Name: "alpha", About: "thermal ratio"}, calculation.Param{Name: "mu", About: "fusion parameter"}),
			Result: result("lambda", "correction, above 0 to 1"), Range: "alpha 0 to 1e6, mu 1e-9 to 10", Sources: sources(sourceNeumann), Example: "berggren_lambda(0.33, 0.2)", Go: BerggrenLambda},
		{Name: "thermal_ratio", About: "Mean annual temperature above freezing, over how far the surface is below it while it freezes.", Params: params(surface, season, mean), Result: result("alpha", "thermal ratio"),
			Range: "mean annual temperature 0 to 40 C", Sources: depths, Example: "thermal_ratio(f_days(2500), days(160), fahrenheit(37.2))", Go: ThermalRatio},
		{Name: "fusion_parameter", About: "Heat given up by cooling, over that given up by freezing.", Params: params(surface, season, argDry, argMoist), Result: result("mu", "fusion parameter"),
			Range: "up to 10", Sources: depths, Example: "fusion_parameter(f_days(2500), days(160), pcf(100), 15.0)", Go: FusionParameter},
	}
}

func frostSectionCalculations() []calculation.Function {
	limited := params(calculation.Param{Name: "frost_depth", About: "frost depth if all were frost-free base, 0 to 1000 in"},
		calculation.Param{Name: "surface", About: "thickness of the surface course"},
		calculation.Param{Name: "subgrade_moisture", About: "moisture of the subgrade in percent"}, calculation.Param{Name: "base_moisture", About: "moisture of the base in percent"},
		calculation.Param{Name: "cap", About: "the greatest ratio of the two that counts"})
	const within = "depths 0 to 1000 in, moistures above 0 to 300 %"
	fit := sources(sourceLSFP, sourceLSFPCap)
	return []calculation.Function{
		{Name: "limited_frost_base", About: "Frost-free base that lets frost only a little into the subgrade.", Params: limited, Result: givesLength, Range: within,
			Sources: fit, Example: "limited_frost_base(inches(45), inches(5), 18.0, 3.0, ratio_cap_2)", Go: LimitedFrostBase},
		{Name: "limited_frost_in_subgrade", About: "How far frost goes into the subgrade under such a base.", Params: limited, Result: givesLength, Range: within,
			Sources: fit, Example: "limited_frost_in_subgrade(inches(45), inches(5), 18.0, 3.0, ratio_cap_2)", Go: LimitedFrostInSubgrade},
		{Name: "subgrade_preparation", About: "How deep below its top the subgrade is to be prepared against frost.",
			Params: params(argDepth, calculation.Param{Name: "section", About: "thickness of pavement, base and subbase"}, calculation.Param{Name: "roads", About: "range of road classes"}),
			Result: givesLength, Range: "0 to 24 in", Sources: sources(sourcePrep), Example: "subgrade_preparation(inches(45), inches(20), roads_d_to_f)", Go: SubgradePreparation},
	}
}
