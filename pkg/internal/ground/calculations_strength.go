package ground

import "example.com/groundrule/pkg/calculation"

var (
	argDivisor   = calculation.Param{Name: "divisor", About: "undrained strength for each percent of CBR; 30 kPa gives the lower CBR"}
	argConsist   = calculation.Param{Name: "consistency", About: "how firm the clay is to the hand"}
	argTable     = calculation.Param{Name: "table", About: "which published table"}
	argRelation  = calculation.Param{Name: "by", About: "which correlation"}
	givesCBR     = result("cbr", "CBR in percent")
	givesModulus = result("modulus", "resilient modulus")
)

func fieldTestCalculations() []calculation.Function {
	divisors := sources(sourceGiroud, sourceBlack)
	hand := sources(sourceTM5_818_1, sourceGiroud, sourceBlack)
	return []calculation.Function{
		{Name: "penetration_per_blow", About: "Penetration of a run of blows over their number.",
			Params: params(calculation.Param{Name: "penetration", About: "depth gained, above 0"}, calculation.Param{Name: "blows", About: "number of blows, above 0"}),
			Result: result("per_blow", "penetration per blow"), Range: "up to 1000 mm per blow", Sources: sources(sourceDCP),
			Example: "penetration_per_blow(mm(70), 15.0)", Go: PenetrationPerBlow},
		{Name: "cbr_from_dcp", About: "CBR from the dynamic cone penetrometer.",
			Params: params(calculation.Param{Name: "per_blow", About: "penetration per blow, as read"},
				calculation.Param{Name: "curve", About: "which correlation; dcp_ch only for soil known to be CH"},
				calculation.Param{Name: "hammer", About: "which hammer"}),
			Result: givesCBR, Range: "a resulting CBR of 0.5 to 100", Sources: sources(sourceDCP, sourceTRLDCP, sourceDCPHammer),
			Example: "cbr_from_dcp(mm(20), dcp_general, hammer_8kg)", Go: CBRFromDCP},
		{Name: "cbr_from_undrained_strength", About: "CBR of a clay from its undrained strength.",
			Params: params(calculation.Param{Name: "cu", About: "undrained strength"}, argDivisor), Result: givesCBR, Range: "cu above 0 to 2 tsf (192 kPa)",
			Sources: divisors, Example: "cbr_from_undrained_strength(kpa(60), divisor_30_kpa)", Go: CBRFromUndrainedStrength},
		{Name: "undrained_strength_from_cbr", About: "Undrained strength of a clay from its CBR.", Params: params(argCBR, argDivisor),
			Result: result("cu", "undrained strength"), Range: "a resulting cu up to 2 tsf (192 kPa)", Sources: divisors,
			Example: "undrained_strength_from_cbr(3.0, divisor_30_kpa)", Go: UndrainedStrengthFromCBR},
		{Name: "cbr_from_pocket_penetrometer", About: "CBR of a clay from a pocket penetrometer's reading.",
			Params: params(calculation.Param{Name: "qu", About: "unconfined strength as read, twice the undrained strength"}, argDivisor), Result: givesCBR,
			Range: "qu above 0 to 4 tsf (383 kPa)", Sources: divisors, Example: "cbr_from_pocket_penetrometer(kpa(100), divisor_30_kpa)", Go: CBRFromPocketPenetrometer},
		{Name: "consistency_strength_low", About: "Unconfined strength at the low edge of a band of consistency.", Params: params(argConsist),
			Result: result("qu", "unconfined strength"), Range: "not very soft, which has no low edge", Sources: sources(sourceTM5_818_1),
			Example: "consistency_strength_low(stiff)", Go: UnconfinedStrengthLow},
		{Name: "consistency_strength_high", About: "Unconfined strength at the high edge of a band of consistency.", Params: params(argConsist),
			Result: result("qu", "unconfined strength"), Range: "not hard, which has no high edge", Sources: sources(sourceTM5_818_1),
			Example: "consistency_strength_high(stiff)", Go: UnconfinedStrengthHigh},
		{Name: "cbr_low_from_consistency", About: "CBR at the low edge of a band of consistency, the one to design with.", Params: params(argConsist, argDivisor),
			Result: givesCBR, Range: "not very soft, which has no low edge", Sources: hand, Example: "cbr_low_from_consistency(stiff, divisor_30_kpa)", Go: CBRLowFromConsistency},
		{Name: "cbr_high_from_consistency", About: "CBR at the high edge of a band of consistency.", Params: params(argConsist, argDivisor),
			Result: givesCBR, Range: "not hard, which has no high edge", Sources: hand, Example: "cbr_high_from_consistency(stiff, divisor_30_kpa)", Go: CBRHighFromConsistency},
		{Name: "consistency_from_strength", About: "The band of consistency of an unconfined strength.", Params: params(calculation.Param{Name: "qu", About: "unconfined strength"}),
			Result: result("consistency", "band of consistency; an edge belongs to the firmer band"), Range: "0 to 10 MPa", Sources: sources(sourceTM5_818_1),
			Example: "consistency_from_strength(kpa(100))", Go: ConsistencyFromUnconfinedStrength},
		{Name: "consistency_from_blow_count", About: "The band of consistency of a clay by the standard penetration test.", Params: params(calculation.Param{Name: "n", About: "blows per foot, 0 to 500"}),
			Result: result("consistency", "band of consistency; an edge belongs to the softer band"), Range: "n 0 to 500", Sources: sources(sourceTxDOT),
			Example: "consistency_from_blow_count(9.0)", Go: ConsistencyFromBlowCount},
	}
}

func cbrCalculations() []calculation.Function {
	readings := calculation.Param{Name: "readings", About: "CBR readings in percent, in any order"}
	esals := calculation.Param{Name: "esals", About: "equivalent single axle loads in the design life, from 0"}
	tables := sources(sourceTM3_357, sourceNAVFAC, sourceNHI, sourceOwnSafe)
	return []calculation.Function{
		{Name: "cbr_low_from_class", About: "The low end of the CBR that a table gives for a soil group; of a dual symbol the lower part.", Params: params(argGroup, argTable),
			Result: givesCBR, Range: "groups with a low end in the table", Sources: tables, Example: "cbr_low_from_class(SC, table_tm_3_357)", Go: CBRLowFromClass},
		{Name: "cbr_high_from_class", About: "The high end of the CBR that a table gives for a soil group; of a dual symbol the lower part.", Params: params(argGroup, argTable),
			Result: givesCBR, Range: "not peat", Sources: tables, Example: "cbr_high_from_class(SC, table_tm_3_357)", Go: CBRHighFromClass},
		{Name: "cbr_from_plasticity", About: "CBR of a plastic soil from its fines and plasticity.", Params: params(argP200, argPI), Result: givesCBR, Range: "p200 and pi above 0",
			Sources: sources(sourceIndex), Example: "cbr_from_plasticity(60.0, 15.0)", Go: CBRFromPlasticity},
		{Name: "cbr_from_grain_size", About: "CBR of a clean coarse soil from its D60.", Params: params(argD60), Result: givesCBR, Range: "d60 of 0.01 to 30 mm",
			Sources: sources(sourceIndex), Example: "cbr_from_grain_size(mm(2))", Go: CBRFromGrainSize},
		{Name: "design_percentile", About: "Percent of readings that must reach the design value, by traffic.", Params: params(esals),
			Result: result("percent", "60, 75 or 87.5"), Range: "esals from 0", Sources: sources(sourcePercent), Example: "design_percentile(50000.0)", Go: DesignPercentile},
		{Name: "reading_at_percentile", About: "The value that a percent of readings reach, on straight lines between them; of one reading that reading.",
			Params: params(readings, calculation.Param{Name: "percent", About: "percent of readings at or above, 0 to 100"}), Result: givesCBR,
			Range: "1 to 10,000 readings, each above 0 to 200", Sources: sources(sourcePercent), Example: "reading_at_percentile([7.0, 5.0, 4.0], 75.0)", Go: ReadingAtPercentile},
		{Name: "design_cbr", About: "The CBR to design with, of several readings, by traffic; of one reading that reading.", Params: params(readings, esals), Result: givesCBR,
			Range: "1 to 10,000 readings, each above 0 to 200", Sources: sources(sourcePercent), Example: "design_cbr([7.0, 5.0, 4.0], 50000.0)", Go: DesignCBR},
	}
}

func modulusCalculations() []calculation.Function {
	modulus := calculation.Param{Name: "modulus", About: "resilient modulus"}
	correlations := sources(sourceHeukelom, sourceNCHRPCBR, sourceLR1132)
	defaults := sources(sourceMrDef, sourceOwnSafe)
	const cbrRanges = "CBR above 0 to 10 for 1500 CBR, 1 to 100 for 2555 CBR^0.64, 2 to 12 for 17.6 CBR^0.64 MPa"
	const unsoaked = ", at optimum moisture: not soaked, not in thaw"
	return []calculation.Function{
		{Name: "resilient_modulus", About: "Resilient modulus of a subgrade from its CBR.", Params: params(argCBR, argRelation), Result: givesModulus, Range: cbrRanges,
			Sources: correlations, Example: "resilient_modulus(4.0, modulus_1500_cbr)", Go: ResilientModulus},
		{Name: "cbr_from_modulus", About: "CBR of a subgrade from its resilient modulus.", Params: params(modulus, argRelation), Result: givesCBR, Range: cbrRanges,
			Sources: correlations, Example: "cbr_from_modulus(psi(6000), modulus_1500_cbr)", Go: CBRFromModulus},
		{Name: "modulus_from_r_value", About: "Resilient modulus of a subgrade from its R-value.", Params: params(calculation.Param{Name: "r", About: "R-value"}, argRelation),
			Result: givesModulus, Range: "R 0 to 20 for AASHTO, 0 to 100 for the Asphalt Institute", Sources: sources(sourceRValue),
			Example: "modulus_from_r_value(10.0, r_value_aashto)", Go: ModulusFromRValue},
		{Name: "default_modulus_low", About: "Low end of the default modulus of a soil group" + unsoaked + ".", Params: params(argGroup), Result: givesModulus, Range: "not OL, OH or PT",
			Sources: defaults, Example: "default_modulus_low(CL)", Go: DefaultModulusLow},
		{Name: "default_modulus_typical", About: "Typical default modulus of a soil group" + unsoaked + ".", Params: params(argGroup), Result: givesModulus, Range: "not OL, OH or PT",
			Sources: defaults, Example: "default_modulus_typical(CL)", Go: DefaultModulusTypical},
		{Name: "default_modulus_low_aashto", About: "Low end of the default modulus of an AASHTO group" + unsoaked + ".", Params: params(argAASHTO), Result: givesModulus, Range: "not A-8",
			Sources: sources(sourceMrDef), Example: "default_modulus_low_aashto(A_6)", Go: DefaultModulusLowAASHTO},
		{Name: "default_modulus_typical_aashto", About: "Typical default modulus of an AASHTO group" + unsoaked + ".", Params: params(argAASHTO), Result: givesModulus, Range: "not A-8",
			Sources: sources(sourceMrDef), Example: "default_modulus_typical_aashto(A_6)", Go: DefaultModulusTypicalAASHTO},
		{Name: "roadbed_damage", About: "Relative damage of a season with a roadbed modulus.", Params: params(modulus), Result: result("uf", "relative damage"),
			Range: "100 to 1,000,000 psi", Sources: sources(sourceFig24), Example: "roadbed_damage(psi(7000))", Go: RoadbedDamage},
		{Name: "modulus_from_damage", About: "Roadbed modulus of a relative damage.", Params: params(calculation.Param{Name: "uf", About: "relative damage"}), Result: givesModulus,
			Range: "1.4e-6 to 2710", Sources: sources(sourceFig24), Example: "modulus_from_damage(0.31)", Go: ModulusFromDamage},
		{Name: "effective_roadbed_modulus", About: "The one modulus that does the damage of a year's seasons of equal length.",
			Params: params(calculation.Param{Name: "normal", About: "modulus of which the seasons are parts"},
				calculation.Param{Name: "factors", About: "each season's part of the normal modulus, such as 0.5 in thaw"}),
			Result: givesModulus, Range: "1 to 1000 seasons, each 100 to 1,000,000 psi", Sources: sources(sourceFig24),
			Example: "effective_roadbed_modulus(psi(7000), [1.0, 1.0, 0.5, 0.7])", Go: EffectiveRoadbedModulus},
	}
}
