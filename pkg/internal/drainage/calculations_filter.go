package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const examplePair = exampleNo57 + ", " + exampleSand

// allCriteriaSources are the documents of all sets.
func allCriteriaSources() []value.Source {
	return from(sourceHoronjeff, sourceRiprap, sourceOpenGraded, sourceOlderChoke, sourceTerzaghi, sourceNRCSRelayed, sourceNRCS)
}

func filterCalculations() []calculation.Function {
	ratio := func(name, about string, f func(filter, protected Gradation) (float64, error)) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{paramFilter, paramProtected},
			Result: resultRatio, Range: beyondSieves, Sources: from(sourceHoronjeff, sourceLogLinear),
			Example: name + "(" + examplePair + ")", Go: f}
	}
	limit := func(name, about string, f func(CriteriaSet) (float64, error)) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{paramSet},
			Result: resultRatio, Range: "refuses a set without such a limit", Sources: allCriteriaSources(),
			Example: name + "(pavement_drainage_with_flow)", Go: f}
	}
	verdict := func(name, about string, f func(CriteriaSet, Gradation, Gradation) (bool, error)) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{paramSet, paramFilter, paramProtected},
			Result: param("holds", "true or false"), Range: beyondSieves, Sources: allCriteriaSources(),
			Example: name + "(pavement_drainage, " + examplePair + ")", Go: f}
	}
	return []calculation.Function{
		ratio("retention_ratio", "Gives D15 of the filter over D85 of what it protects, on the mids.", RetentionRatio),
		ratio("retention_ratio_worst", "Gives D15 of the filter's coarse edge over D85 of the protected fine edge.", RetentionRatioWorst),
		ratio("parallel_ratio", "Gives D50 of the filter over D50 of what it protects, on the mids.", ParallelRatio),
		ratio("parallel_ratio_worst", "Gives D50 of the filter's coarse edge over D50 of the protected fine edge.", ParallelRatioWorst),
		ratio("permeability_ratio", "Gives D15 of the filter over D15 of what it protects, on the mids.", PermeabilityRatio),
		ratio("permeability_ratio_worst", "Gives D15 of the filter's fine edge over D15 of the protected coarse edge.", PermeabilityRatioWorst),
		limit("retention_ratio_limit", "Gives the most that a set allows D15F/D85B to be.", RetentionRatioLimit),
		limit("parallel_ratio_limit", "Gives the most that a set allows D50F/D50B to be.", ParallelRatioLimit),
		limit("permeability_ratio_limit", "Gives the least that a set asks D15F/D15B to be.", PermeabilityRatioLimit),
		verdict("filter_holds", "Tells whether every criterion of a set holds on the mids of two touching courses.", FilterHolds),
		verdict("filter_holds_worst", "Tells whether every criterion of a set holds on the worst edges of two touching courses.", FilterHoldsWorst),
		verdict("filter_can_be_judged", "Tells whether the two gradations reach far enough for a set to be applied, on mids and worst edges.", FilterCanBeJudged),
	}
}

func filterSizeCalculations() []calculation.Function {
	size := func(name, about string, given calculation.Param, example string, f func(CriteriaSet, Gradation) (quantity.Length, error)) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{paramSet, given},
			Result: param("size", "the bound on the size"), Range: "refuses a set without such a limit, and a size beyond the tabulated sieves",
			Sources: allCriteriaSources(), Example: name + "(riprap_filter, " + example + ")", Go: f}
	}
	return []calculation.Function{
		size("filter_d15_most", "Gives the largest D15 that a set allows a filter over a course or soil.", paramProtected, exampleSand, FilterD15Most),
		size("filter_d15_least", "Gives the smallest D15 that a set asks of a filter, so that water passes.", paramProtected, exampleSand, FilterD15Least),
		size("filter_d50_most", "Gives the largest D50 that a set allows a filter over a course or soil.", paramProtected, exampleSand, FilterD50Most),
		size("protected_d15_most", "Gives the largest D15 of a course beside a filter, so that water passes.", paramFilter, exampleNo57, ProtectedD15Most),
		size("protected_d15_least", "Gives the smallest D15 of a course that a filter holds.", paramFilter, exampleNo57, ProtectedD15Least),
		size("protected_d50_least", "Gives the smallest D50 of a course that a filter holds.", paramFilter, exampleNo57, ProtectedD50Least),
		size("protected_d85_least", "Gives the smallest D85 of a course that a filter holds.", paramFilter, exampleNo57, ProtectedD85Least),
	}
}

func soilFilterCalculations() []calculation.Function {
	nrcs := from(sourceNRCSRelayed, sourceNRCS)
	size := param("d15", "largest D15 of the filter")
	return []calculation.Function{
		{
			Name: "retention_d15_most", About: "Gives the largest D15 of a filter over a soil of which only D85 is known.",
			Params: []calculation.Param{paramSet, paramD85}, Result: size, Range: "refuses a set without a limit on D15F/D85B",
			Sources: allCriteriaSources(), Example: "retention_d15_most(pavement_drainage, mm(0.2))", Go: RetentionD15Most,
		},
		{
			Name: "base_soil_category", About: "Gives the NRCS category of a soil that a filter protects, by its fines.",
			Params: []calculation.Param{paramFines}, Result: param("category", "1 to 4"), Range: "fines 0 to 100 %",
			Sources: nrcs, Example: "base_soil_category(60.0)", Go: BaseSoilCategory,
		},
		{
			Name: "retention_limit_d15", About: "Gives the largest D15 of a filter over a soil that does not disperse, by its fines and d85.",
			Params: []calculation.Param{paramFines, paramD85}, Result: size, Range: "fines 0 to 100 %",
			Sources: nrcs, Example: "retention_limit_d15(25.0, mm(0.5))", Go: RetentionLimitD15,
		},
		{
			Name: "retention_limit_d15_dispersive", About: "Gives the largest D15 of a filter over a dispersive soil, by its fines and d85.",
			Params: []calculation.Param{paramFines, paramD85}, Result: size, Range: "fines 40 to 100 %",
			Sources: from(sourceNRCS), Example: "retention_limit_d15_dispersive(60.0, mm(0.1))", Go: RetentionLimitD15Dispersive,
		},
		{
			Name: "retention_limit_d15_by_fines", About: "Gives the largest D15 of a filter over a soil whose d85 is not known, the smallest that the table can give.",
			Params: []calculation.Param{paramFines}, Result: size, Range: "fines 15 to 100 %; below that d85 is needed",
			Sources: from(sourceNRCS), Example: "retention_limit_d15_by_fines(60.0)", Go: RetentionLimitD15ByFines,
		},
	}
}
