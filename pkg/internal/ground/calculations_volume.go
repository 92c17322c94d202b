package ground

import "example.com/groundrule/pkg/calculation"

func swellCalculations() []calculation.Function {
	givesSwell := result("swell", "how much it may swell")
	ei := calculation.Param{Name: "ei", About: "expansion index, 0 to 1000"}
	return []calculation.Function{
		{Name: "potential_swell", About: "How much a soil may swell, from its limits; where bands overlap the higher.", Params: params(argLL, argPI, calculation.Param{Name: "set", About: "which published limits"}),
			Result: givesSwell, Range: "pi up to ll", Sources: sources(sourceSnethen, sourceChen, sourceUSBR, sourceClosed, sourceOwnSafe),
			Example: "potential_swell(55.0, 30.0, swell_by_snethen)", Go: PotentialSwell},
		{Name: "swell_from_shrinkage_limit", About: "How much a soil may swell, from its shrinkage limit; where bands overlap the higher.", Params: params(calculation.Param{Name: "sl", About: "shrinkage limit in percent"}),
			Result: givesSwell, Range: "above 0 to 100 %", Sources: sources(sourceUSBR, sourceOwnSafe), Example: "swell_from_shrinkage_limit(12.0)", Go: SwellFromShrinkageLimit},
		{Name: "swell_from_expansion_index", About: "How much a soil may swell, by its expansion index.", Params: params(ei), Result: givesSwell, Range: "0 to 1000",
			Sources: sources(sourceD4829), Example: "swell_from_expansion_index(60.0)", Go: SwellFromExpansionIndex},
		{Name: "expansive_by_index", About: "Whether a soil is expansive by its expansion index alone.", Params: params(ei), Result: result("expansive", "true over 20"), Range: "0 to 1000",
			Sources: sources(sourceIBC), Example: "expansive_by_index(35.0)", Go: ExpansiveByIndex},
		{Name: "expansive_by_limits", About: "Whether a soil is to be taken as expansive while its expansion index is not known.",
			Params: params(argPI, argP200, calculation.Param{Name: "finer_5um", About: "percent by mass finer than 5 micrometers, up to p200"}),
			Result: result("expansive", "true if all three limits are passed, the safe side"), Range: "finer_5um up to p200", Sources: sources(sourceIBC, sourceOwnSafe),
			Example: "expansive_by_limits(18.0, 60.0, 25.0)", Go: ExpansiveByLimits},
	}
}

func earthworkCalculations() []calculation.Function {
	givesVolume := result("volume", "volume")
	return []calculation.Function{
		{Name: "earth_volume", About: "Volume that earth takes in one state, from its volume in another.",
			Params: params(calculation.Param{Name: "volume", About: "volume in the first state"}, calculation.Param{Name: "from", About: "how it lies"},
				calculation.Param{Name: "to", About: "how it is to lie"}, calculation.Param{Name: "earth", About: "kind of earth"}),
			Result: givesVolume, Range: "0 to 1e9 m3", Sources: sources(sourceFM5_434), Example: "earth_volume(cu_yd(100), in_bank, dug_loose, earth_sand)", Go: EarthVolume},
		{Name: "loose_from_bank", About: "Loose volume of a bank volume, by its swell.", Params: params(calculation.Param{Name: "bank", About: "volume in place"},
			calculation.Param{Name: "swell", About: "swell in percent, 0 to 200"}), Result: givesVolume, Range: "0 to 1e9 m3", Sources: sources(sourceVolumes),
			Example: "loose_from_bank(cu_yd(1000), 30.0)", Go: LooseFromBank},
		{Name: "bank_from_compacted", About: "Bank volume that makes a compacted volume, by its shrinkage factor.", Params: params(calculation.Param{Name: "compacted", About: "volume placed and compacted"},
			calculation.Param{Name: "shrinkage", About: "compacted over bank volume in percent, above 0 to 200"}), Result: givesVolume, Range: "0 to 1e9 m3", Sources: sources(sourceVolumes),
			Example: "bank_from_compacted(cu_yd(500), 95.0)", Go: BankFromCompacted},
		{Name: "swell_percent", About: "How much more room earth takes loose than in the bank, from its unit weights.", Params: params(calculation.Param{Name: "bank", About: "unit weight in place"},
			calculation.Param{Name: "loose", About: "unit weight loose, no more than in place"}), Result: result("swell", "swell in percent"), Range: "up to 200 %", Sources: sources(sourceVolumes),
			Example: "swell_percent(pcf(126), pcf(100))", Go: SwellPercent},
	}
}
