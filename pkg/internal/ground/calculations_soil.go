package ground

import "example.com/groundrule/pkg/calculation"

const suspectRange = "whole samples only: percentages in falling order; limits above the U-line are refused as suspect"

var (
	givesGroup = result("group", "soil group")
	givesName  = result("name", "group name with what the sieve adds, such as sandy lean clay")
)

func groupCalculations() []calculation.Function {
	d2487Only := sources(sourceD2487)
	return []calculation.Function{
		{Name: "is_gravel", About: "Whether a soil group is a gravel.", Params: params(argGroup), Result: result("is", "true for GW to GC, single or dual"),
			Sources: d2487Only, Example: "is_gravel(GW_GM)", Go: IsGravel},
		{Name: "is_sand", About: "Whether a soil group is a sand.", Params: params(argGroup), Result: result("is", "true for SW to SC, single or dual"),
			Sources: d2487Only, Example: "is_sand(SC)", Go: IsSand},
		{Name: "is_fine_grained", About: "Whether half or more of a soil group passes the No. 200 sieve.", Params: params(argGroup), Result: result("is", "true for CL, ML, CL-ML, CH, MH, OL and OH"),
			Sources: d2487Only, Example: "is_fine_grained(CL_ML)", Go: IsFineGrained},
		{Name: "is_organic", About: "Whether a soil group is organic and so not fit to build on.", Params: params(argGroup), Result: result("is", "true for OL, OH and PT"),
			Sources: sources(sourceD2487, sourceTM3_357), Example: "is_organic(OH)", Go: IsOrganic},
		{Name: "first_symbol", About: "The first symbol of a dual symbol, GW of GW-GM, or the group itself.", Params: params(argGroup), Result: givesGroup,
			Sources: d2487Only, Example: "first_symbol(GW_GM)", Go: FirstSymbol},
		{Name: "second_symbol", About: "The second symbol of a dual symbol, GM of GW-GM, or the group itself.", Params: params(argGroup), Result: givesGroup,
			Sources: d2487Only, Example: "second_symbol(GW_GM)", Go: SecondSymbol},
		{Name: "soil_name", About: "The plain name of a soil group.", Params: params(argGroup), Result: result("name", "name, such as lean clay"),
			Sources: d2487Only, Example: "soil_name(CL)", Go: PlainName},
		{Name: "plasticity_index", About: "The plasticity index of a pair of limits, each rounded to a whole number.", Params: params(argLL, argPL),
			Result: result("pi", "plasticity index in percent, 0 if nonplastic"), Range: "limits above 0 to 1000 %",
			Sources: sources(sourceD4318), Example: "plasticity_index(38.0, 26.0)", Go: PlasticityIndex},
		{Name: "fines_kind", About: "What the fines of a coarse soil are, from their limits.", Params: params(argLL, argPL), Result: result("fines", "kind of fines"),
			Range: "limits above the U-line are refused as suspect", Sources: d2487Only, Example: "fines_kind(23.0, 19.0)", Go: FinesKind},
		{Name: "uniformity_coefficient", About: "Cu, D60 over D10.", Params: params(argD10, argD60), Result: result("cu", "coefficient of uniformity"),
			Range: "sizes above 0 to 3 m, in rising order", Sources: d2487Only, Example: "uniformity_coefficient(mm(0.18), mm(1.5))", Go: UniformityCoefficient},
		{Name: "curvature_coefficient", About: "Cc, the square of D30 over D10 times D60.", Params: params(argD10, argD30, argD60), Result: result("cc", "coefficient of curvature"),
			Range: "sizes above 0 to 3 m, in rising order", Sources: d2487Only, Example: "curvature_coefficient(mm(0.18), mm(0.61), mm(1.5))", Go: CurvatureCoefficient},
	}
}

func uscsCalculations() []calculation.Function {
	from := sources(sourceD2487, sourceD4318)
	fine, oven := params(argP4, argP200, argLL, argPL), params(argP4, argP200, argLL, argPL,
		calculation.Param{Name: "ll_oven", About: "liquid limit after oven drying, in percent; below 0.75 of ll the soil is organic"})
	coarse, dirty := params(argP4, argP200, argCu, argCc, argFines), params(argP4, argP200, argFines)
	full := params(argP4, argP200, argD10, argD30, argD60, argLL, argPL)
	of := func(name, about string, p []calculation.Param, within, example string, group, named any) []calculation.Function {
		out := []calculation.Function{{Name: name, About: "The soil group of " + about, Params: p, Result: givesGroup,
			Range: within + "; " + suspectRange, Sources: from, Example: name + example, Go: group}}
		if named != nil {
			out = append(out, calculation.Function{Name: name + "_name", About: "The group name of " + about, Params: p, Result: givesName,
				Range: within + "; " + suspectRange, Sources: from, Example: name + "_name" + example, Go: named})
		}
		return out
	}
	var out []calculation.Function
	for _, each := range [][]calculation.Function{
		of("uscs_fine", "a fine-grained soil from its limits.", fine, "p200 from 50", "(100.0, 58.0, 30.0, 20.0)", USCSFine, USCSFineName),
		of("uscs_fine_oven_dried", "a fine-grained soil that may be organic.", oven, "p200 from 50", "(100.0, 100.0, 32.0, 22.0, 21.0)", USCSFineOvenDried, USCSFineOvenDriedName),
		of("uscs_fine_nonplastic", "a fine-grained soil of which no thread can be rolled.", params(argP4, argP200), "p200 from 50", "(100.0, 60.0)", USCSFineNonplastic, nil),
		of("uscs_clean", "a coarse soil with under 5 % fines.", params(argP4, argP200, argCu, argCc), "p200 under 5", "(27.0, 4.0, 12.4, 2.7)", USCSClean, nil),
		of("uscs_coarse", "a coarse soil from its gradation and what its fines are.", coarse, "p200 under 50", "(97.0, 5.0, 3.9, 0.91, silty_fines)", USCSCoarse, USCSCoarseName),
		of("uscs_silty_or_clayey", "a coarse soil with over 12 % fines, for which no gradation is needed.", dirty, "p200 over 12 and under 50", "(82.0, 40.0, clayey_fines)", USCSSiltyOrClayey, USCSSiltyOrClayeyName),
		of("uscs_by_limits", "a soil with over 12 % fines, from its limits alone.", fine, "p200 over 12", "(95.0, 40.0, 63.0, 48.0)", USCSByLimits, USCSByLimitsName),
		of("uscs_from_sieve", "any inorganic soil from a full sieve and both limits.", full, "sizes in rising order, in agreement with the sieve", "(90.0, 8.0, mm(0.18), mm(0.61), mm(1.5), 22.0, 20.0)", USCSFromSieve, USCSFromSieveName),
	} {
		out = append(out, each...)
	}
	return out
}

func aashtoCalculations() []calculation.Function {
	all := params(argP10, argP40, argP200, argLL, argPL)
	const within = "percentages in falling order, limits above 0 to 1000 %"
	return []calculation.Function{
		{Name: "aashto_group", About: "The AASHTO M 145 group of a soil.", Params: all, Result: result("group", "AASHTO group"), Range: within,
			Sources: sources(sourceM145), Example: "aashto_group(100.0, 80.0, 58.0, 30.0, 20.0)", Go: AASHTOGroupOf},
		{Name: "aashto_group_nonplastic", About: "The AASHTO M 145 group of a soil of which no thread can be rolled.", Params: params(argP10, argP40, argP200),
			Result: result("group", "AASHTO group"), Range: "percentages in falling order", Sources: sources(sourceM145),
			Example: "aashto_group_nonplastic(97.0, 59.4, 1.2)", Go: AASHTOGroupNonplastic},
		{Name: "aashto_class", About: "The AASHTO M 145 group with its index, as it is printed.", Params: all, Result: result("class", "group and index, such as A-7-6(8)"), Range: within,
			Sources: sources(sourceM145), Example: "aashto_class(100.0, 80.0, 64.0, 41.0, 27.0)", Go: AASHTOClassOf},
		{Name: "group_index", About: "The AASHTO M 145 group index.", Params: all, Result: result("index", "whole number from 0"), Range: within,
			Sources: sources(sourceM145), Example: "group_index(100.0, 80.0, 58.0, 38.0, 26.0)", Go: GroupIndex},
		{Name: "group_index_unrounded", About: "The group index formula of A-4 to A-7, before rounding.", Params: params(argP200, argLL, argPL),
			Result: result("index", "group index, which may be below 0"), Range: "p200 from 36", Sources: sources(sourceM145),
			Example: "group_index_unrounded(58.0, 38.0, 26.0)", Go: GroupIndexUnrounded},
	}
}
