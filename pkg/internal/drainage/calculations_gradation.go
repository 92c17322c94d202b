package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const (
	exampleNo57 = `gradation_of("1-1/2 in: 100, 1 in: 95-100, 1/2 in: 25-60, No. 4: 0-10, No. 8: 0-5")`
	exampleSand = `gradation_of("3/8 in: 100, No. 4: 95-100, No. 8: 80-100, No. 16: 50-85, No. 30: 25-60, No. 50: 5-30, No. 100: 0-10")`
)

var sizeParams = []calculation.Param{paramGradation, param("percent", "percent passing, more than 0, up to 100")}

func gradationCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name: "gradation_of", About: "Reads a gradation as a specification lists it, sieve by sieve.",
			Params:  []calculation.Param{param("text", "sieves with percent passing, such as 1 in: 95-100, No. 4: 0-10")},
			Result:  param("gradation", "the envelope, or the curve"),
			Range:   "refuses percents outside 0 to 100, a low above its high, an edge that rises as the sieves get finer, a sieve given twice, fewer than two sieves",
			Sources: from(sourceE11, sourceInchSieves, sourceE11Memory), Example: exampleNo57, Go: ParseGradation,
		},
		{
			Name: "gradation_from_sizes", About: "Makes a gradation from the three sizes that filter rules need.",
			Params:  []calculation.Param{param("d15", "size that 15 percent pass"), param("d50", "size that 50 percent pass"), param("d85", "size that 85 percent pass")},
			Result:  param("gradation", "a curve through the three sizes"),
			Range:   "the sizes must rise",
			Sources: from(sourceLogLinear), Example: "gradation_from_sizes(mm(0.38), mm(0.75), mm(1.5))", Go: GradationFromSizes,
		},
		{
			Name: "sieve_opening", About: "Gives the opening of a sieve; the 1 in sieve is 25.0 mm, not 25.4.",
			Params: []calculation.Param{param("sieve", "a name such as 3/8 in or No. 200, or a size such as 9.5 mm")},
			Result: param("opening", "nominal opening"), Range: "refuses a name that is no sieve",
			Sources: from(sourceInchSieves, sourceE11, sourceE11Memory), Example: `sieve_opening("No. 200")`, Go: SieveOpening,
		},
		sizeCalculation("size_at", "Gives the size that so many percent pass, on the mid of the envelope.", Mid),
		sizeCalculation("size_at_coarse_edge", "Gives the size that so many percent pass, on the coarse edge.", Coarse),
		sizeCalculation("size_at_fine_edge", "Gives the size that so many percent pass, on the fine edge.", Fine),
		{
			Name: "size_can_be_told", About: "Tells whether the gradation reaches far enough to give the size at a percent, on the mid and both edges.",
			Params: sizeParams, Result: param("told", "true where size_at and its two fellows answer"),
			Range: "percent more than 0, up to 100", Sources: from(sourceLogLinear),
			Example: "size_can_be_told(" + exampleSand + ", 10.0)", Go: SizeCanBeTold,
		},
		passingCalculation("percent_passing", "Gives the percent of the grains that pass a size, on the mid of the envelope.", Mid),
		passingCalculation("percent_passing_coarse_edge", "Gives the percent of the grains that pass a size, on the coarse edge.", Coarse),
		passingCalculation("percent_passing_fine_edge", "Gives the percent of the grains that pass a size, on the fine edge.", Fine),
		measureCalculation("gradation_uniformity", "Gives Cu = D60/D10 on the mid.", Gradation.UniformityCoefficient, Mid, sourceD2487),
		measureCalculation("gradation_curvature", "Gives Cc = D30 squared over D10 D60 on the mid.", Gradation.CurvatureCoefficient, Mid, sourceD2487),
		measureCalculation("fineness_modulus", "Gives the fineness modulus on the mid.", Gradation.FinenessModulus, Mid, sourceC125, sourceC33FM),
		measureCalculation("fineness_modulus_coarse_edge", "Gives the fineness modulus on the coarse edge, the larger one.", Gradation.FinenessModulus, Coarse, sourceC125),
		measureCalculation("fineness_modulus_fine_edge", "Gives the fineness modulus on the fine edge, the smaller one.", Gradation.FinenessModulus, Fine, sourceC125),
		{
			Name: "largest_stone", About: "Gives the smallest sieve that all grains are required to pass.",
			Params: []calculation.Param{paramGradation}, Result: param("size", "maximum size"), Range: "refuses where no sieve passes all",
			Sources: from(sourceC125), Example: "largest_stone(" + exampleNo57 + ")", Go: Gradation.LargestStone,
		},
		{
			Name: "nominal_maximum_size", About: "Gives the smallest sieve that all grains are permitted to pass.",
			Params: []calculation.Param{paramGradation}, Result: param("size", "nominal maximum size"), Range: "refuses where no sieve may pass all",
			Sources: from(sourceC125), Example: "nominal_maximum_size(" + exampleNo57 + ")", Go: Gradation.NominalMaximum,
		},
	}
}

func passingCalculation(name, about string, e Edge) calculation.Function {
	return calculation.Function{Name: name, About: about,
		Params: []calculation.Param{paramGradation, param("size", "a size or the opening of a sieve")},
		Result: param("percent", "percent passing, 0 to 100"), Range: beyondSieves, Sources: from(sourceLogLinear),
		Example: name + "(" + exampleNo57 + `, sieve_opening("3/8 in"))`,
		Go:      func(g Gradation, size quantity.Length) (float64, error) { return g.PercentPassing(e, size) }}
}

func measureCalculation(name, about string, measure func(Gradation, Edge) (float64, error), e Edge, sources ...value.Source) calculation.Function {
	return calculation.Function{Name: name, About: about,
		Params: []calculation.Param{paramGradation}, Result: param("value", "a plain number"),
		Range: beyondSieves, Sources: sources, Example: name + "(" + exampleSand + ")",
		Go: func(g Gradation) (float64, error) { return measure(g, e) }}
}

func sizeCalculation(name, about string, e Edge) calculation.Function {
	return calculation.Function{Name: name, About: about, Params: sizeParams,
		Result: param("size", "the size that so many percent of the grains pass"),
		Range:  beyondSieves, Sources: from(sourceLogLinear), Example: name + "(" + exampleNo57 + ", 15.0)",
		Go: func(g Gradation, percent float64) (quantity.Length, error) { return g.SizeAt(e, percent) }}
}
