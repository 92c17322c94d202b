package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

func whereCalculations() []calculation.Function {
	helps := calculation.Param{Name: "helps", About: "true if a geosynthetic helps"}
	fhwa := []value.Source{fhwaWhere}
	cbrRange := "CBR above 0 to 100"
	return []calculation.Function{
		{
			Name: "geosynthetic_helps_by_cbr", About: "Whether a geosynthetic helps on ground of some CBR.", Params: []calculation.Param{paramCBR}, Result: helps,
			Range: cbrRange, Sources: fhwa, Example: "geosynthetic_helps_by_cbr(2.5)", Go: HelpsByCBR,
		},
		{
			Name: "geosynthetic_helps_by_strength", About: "Whether a geosynthetic helps on ground of some undrained shear strength.",
			Params: []calculation.Param{{Name: "strength", About: "undrained shear strength"}}, Result: helps,
			Range: "strength above 0 to 1000 kPa", Sources: fhwa, Example: "geosynthetic_helps_by_strength(kpa(60))", Go: HelpsByStrength,
		},
		{
			Name: "geosynthetic_helps_by_r_value", About: "Whether a geosynthetic helps on ground of some R-value.",
			Params: []calculation.Param{{Name: "r_value", About: "R-value, 0 to 100"}}, Result: helps,
			Range: "R-value 0 to 100", Sources: fhwa, Example: "geosynthetic_helps_by_r_value(15.0)", Go: HelpsByRValue,
		},
		{
			Name: "geosynthetic_helps_by_modulus", About: "Whether a geosynthetic helps on ground of some resilient modulus.",
			Params: []calculation.Param{{Name: "modulus", About: "resilient modulus"}}, Result: helps,
			Range: "modulus above 0 to 1000 MPa", Sources: fhwa, Example: "geosynthetic_helps_by_modulus(psi(4000))", Go: HelpsByModulus,
		},
		{
			Name: "geosynthetic_helps_by_soil", About: "Whether a soil class of the Unified or AASHTO system is one on which geosynthetics help.",
			Params: []calculation.Param{{Name: "class", About: "class as the trade writes it, such as CL or A-6"}}, Result: helps,
			Sources: fhwa, Example: `geosynthetic_helps_by_soil("CL")`, Go: HelpsBySoil,
		},
		{
			Name: "fabric_function_for", About: "What a geosynthetic does on soft ground of some CBR.", Params: []calculation.Param{paramCBR},
			Result: calculation.Param{Name: "function", About: "what it does"}, Range: "CBR above 0 to 3", Sources: []value.Source{fhwaFunctions},
			Example: "fabric_function_for(1.5)", Go: FabricFunctionFor,
		},
		{
			Name: "army_advice_for", About: "What the Army would lay under a surfaced road on ground of some CBR.", Params: []calculation.Param{paramCBR},
			Result: calculation.Param{Name: "advice", About: "what to lay"}, Range: cbrRange, Sources: []value.Source{etlAt4, etlBounds},
			Example: "army_advice_for(4.0)", Go: ArmyAdviceFor,
		},
		{
			Name: "army_fabric_reinforces", About: "Whether a geotextile reinforces a surfaced road on soft cohesive ground, by the Army.", Params: []calculation.Param{paramCBR},
			Result: calculation.Param{Name: "reinforces", About: "true below CBR 4"}, Range: cbrRange, Sources: []value.Source{armyFabricLimit},
			Example: "army_fabric_reinforces(3.5)", Go: ArmyFabricReinforces,
		},
		{
			Name: "base_reinforcement_for", About: "Whether a geosynthetic is usually laid to reinforce a base on ground of some CBR.",
			Params: []calculation.Param{paramCBR, {Name: "base", About: "thickness of the base"}}, Result: calculation.Param{Name: "reinforcement", About: "whether it is usual"},
			Range: cbrRange + "; base 150 mm to 10 m", Sources: []value.Source{gmaWhere}, Example: "base_reinforcement_for(5.0, inches(8))", Go: BaseReinforcementFor,
		},
	}
}
