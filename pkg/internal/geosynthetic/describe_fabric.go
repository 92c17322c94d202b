package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

var (
	paramCBR    = calculation.Param{Name: "cbr", About: "CBR of the ground, percent"}
	paramFines  = calculation.Param{Name: "fines", About: "percent of the soil passing 0.075 mm (No. 200)"}
	paramMaking = calculation.Param{Name: "making", About: "how the fabric is made"}
	paramCu     = calculation.Param{Name: "uniformity", About: "coefficient of uniformity D60/D10, at least 1"}
	finesRange  = "fines 0 to 100 percent"
)

func fabricCalculations() []calculation.Function {
	return append(fabricClassCalculations(), fabricWaterCalculations()...)
}

func fabricClassCalculations() []calculation.Function {
	application := []calculation.Param{{Name: "application", About: "what the fabric is laid for"}}
	class := calculation.Param{Name: "class", About: "class of the fabric"}
	strength := []calculation.Param{class, {Name: "elongation", About: "band of grab elongation"}}
	least := calculation.Param{Name: "strength", About: "least strength, minimum average roll value in the weaker direction"}
	table1 := []value.Source{m288Strength}
	return []calculation.Function{
		{
			Name: "fabric_application_for", About: "What a fabric is laid for on ground of some CBR.", Params: []calculation.Param{paramCBR},
			Result: calculation.Param{Name: "application", About: "separation or stabilization"}, Range: "CBR above 1; at 1 and below it is engineered as reinforcement",
			Sources: []value.Source{m288Under}, Example: "fabric_application_for(2.5)", Go: FabricApplicationFor,
		},
		{
			Name: "fabric_class_for", About: "Class of fabric where nothing is known of the installation.", Params: application,
			Result: class, Sources: []value.Source{m288Under}, Example: "fabric_class_for(for_separation)", Go: DefaultFabricClass,
		},
		{
			Name: "separation_fabric_class", About: "Class of a separation fabric by how it is built over.",
			Params: []calculation.Param{
				{Name: "first_lift", About: "compacted thickness of the first lift"},
				{Name: "largest_stone", About: "largest stone in it"},
				{Name: "contact_pressure", About: "pressure of the plant on it"},
			},
			Result: class, Range: "contact pressure 50 to 1500 kPa", Sources: []value.Source{m288Under},
			Example: "separation_fabric_class(inches(8), inches(1), kpa(400))", Go: SeparationFabricClass,
		},
		{
			Name: "usual_elongation", About: "Band of elongation in which a fabric usually lies by its making.", Params: []calculation.Param{paramMaking},
			Result: calculation.Param{Name: "elongation", About: "band of grab elongation"}, Sources: table1,
			Example: "usual_elongation(nonwoven)", Go: UsualElongation,
		},
		{
			Name: "fabric_grab_strength", About: "Least grab strength (ASTM D4632) of a fabric of the class.", Params: strength, Result: least,
			Sources: table1, Example: "fabric_grab_strength(fabric_class_2, high_elongation)", Go: FabricGrabStrength,
		},
		{
			Name: "fabric_seam_strength", About: "Least strength of a sewn seam (ASTM D4632) in a fabric of the class.", Params: strength, Result: least,
			Sources: table1, Example: "fabric_seam_strength(fabric_class_2, high_elongation)", Go: FabricSeamStrength,
		},
		{
			Name: "fabric_tear_strength", About: "Least trapezoid tear strength (ASTM D4533) of a fabric of the class.",
			Params: append(strength[:2:2], paramMaking), Result: least, Sources: table1,
			Example: "fabric_tear_strength(fabric_class_2, low_elongation, woven)", Go: FabricTearStrength,
		},
		{
			Name: "fabric_puncture_strength", About: "Least puncture strength by a 50 mm plunger (ASTM D6241) of a fabric of the class.", Params: strength, Result: least,
			Sources: table1, Example: "fabric_puncture_strength(fabric_class_1, low_elongation)", Go: FabricPunctureStrength,
		},
	}
}

func fabricWaterCalculations() []calculation.Function {
	application := []calculation.Param{{Name: "application", About: "separation or stabilization"}}
	permittivity := calculation.Param{Name: "permittivity", About: "least permittivity (ASTM D4491)"}
	opening := calculation.Param{Name: "opening", About: "largest apparent opening size (ASTM D4751)"}
	return []calculation.Function{
		{
			Name: "fabric_permittivity", About: "Least permittivity of a separation or stabilization fabric.", Params: application, Result: permittivity,
			Range: "not for drainage", Sources: []value.Source{m288Under}, Example: "fabric_permittivity(for_stabilization)", Go: FabricPermittivity,
		},
		{
			Name: "fabric_opening", About: "Largest apparent opening size of a separation or stabilization fabric.", Params: application, Result: opening,
			Range: "not for drainage", Sources: []value.Source{m288Under}, Example: "fabric_opening(for_stabilization)", Go: FabricOpening,
		},
		{
			Name: "drain_fabric_permittivity", About: "Least permittivity of a drainage fabric by the fines of the soil.", Params: []calculation.Param{paramFines},
			Result: permittivity, Range: finesRange, Sources: []value.Source{m288Drainage}, Example: "drain_fabric_permittivity(30.0)", Go: DrainFabricPermittivity,
		},
		{
			Name: "drain_fabric_opening", About: "Largest apparent opening size of a drainage fabric by the fines of the soil.", Params: []calculation.Param{paramFines},
			Result: opening, Range: finesRange, Sources: []value.Source{m288Drainage}, Example: "drain_fabric_opening(30.0)", Go: DrainFabricOpening,
		},
	}
}

func filterCalculations() []calculation.Function {
	fhwa := []value.Source{fhwaFilterDesign}
	return []calculation.Function{
		{
			Name: "retention_factor", About: "Factor B of the retention rule for steady flow, opening at most B times D85.",
			Params: []calculation.Param{paramFines, paramCu, paramMaking}, Result: calculation.Param{Name: "b", About: "factor, a plain number from 1 to 2"},
			Range: finesRange + "; uniformity at least 1", Sources: fhwa, Example: "retention_factor(20.0, 4.2, nonwoven)", Go: RetentionFactor,
		},
		{
			Name: "filter_opening_most", About: "Largest apparent opening size of a filter fabric that holds the soil back.",
			Params: []calculation.Param{{Name: "d85", About: "size of which 85 percent of the soil is finer"}, paramFines, paramCu, paramMaking, {Name: "flow", About: "how water moves through the fabric"}},
			Result: calculation.Param{Name: "opening", About: "largest apparent opening size"}, Range: finesRange + "; uniformity at least 1", Sources: fhwa,
			Example: "filter_opening_most(mm(0.75), 20.0, 4.2, nonwoven, steady_flow)", Go: FilterOpeningMost,
		},
		{
			Name: "filter_opening_least", About: "Smallest apparent opening size of a filter fabric that does not clog, in less critical use.",
			Params: []calculation.Param{{Name: "d15", About: "size of which 15 percent of the soil is finer"}, paramCu, {Name: "opening_most", About: "largest opening that holds the soil back"}},
			Result: calculation.Param{Name: "opening", About: "smallest apparent opening size; above the largest, no fabric is both"}, Range: "uniformity at least 1", Sources: fhwa,
			Example: "filter_opening_least(mm(0.08), 4.2, mm(1.4))", Go: FilterOpeningLeast,
		},
		{
			Name: "filter_permeability", About: "Least permeability of a filter fabric against the soil.",
			Params: []calculation.Param{{Name: "soil", About: "permeability of the soil"}, {Name: "care", About: "how much hangs on the filter"}},
			Result: calculation.Param{Name: "permeability", About: "least permeability of the fabric"}, Range: "soil 1e-12 to 10 m/s", Sources: fhwa,
			Example: "filter_permeability(in_per_hour(0.5), critical_or_severe)", Go: FilterPermeability,
		},
		{
			Name: "filter_openness", About: "Least porosity of a nonwoven filter, or open area of a woven, against clogging.", Params: []calculation.Param{paramMaking},
			Result: calculation.Param{Name: "percent", About: "porosity or open area, percent"}, Sources: fhwa, Example: "filter_openness(nonwoven)", Go: FilterOpenness,
		},
		{
			Name: "gradient_ratio_passes", About: "Whether a gradient ratio test (ASTM D5101) shows a filter that stays clear.",
			Params: []calculation.Param{{Name: "ratio", About: "gradient ratio, a plain number"}}, Result: calculation.Param{Name: "passes", About: "true below 3"},
			Range: "ratio above 0 to 1000", Sources: fhwa, Example: "gradient_ratio_passes(1.8)", Go: GradientRatioPasses,
		},
		{
			Name: "army_filter_opening_least", About: "Smallest apparent opening size of a filter fabric by the Army.", Params: []calculation.Param{paramFines},
			Result: calculation.Param{Name: "opening", About: "smallest apparent opening size"}, Range: "fines below 85 percent", Sources: []value.Source{armyFilterLimits, corpsFilter},
			Example: "army_filter_opening_least(30.0)", Go: ArmyFilterOpeningLeast,
		},
		{
			Name: "army_filter_opening_most", About: "Largest apparent opening size of a filter fabric by the Army.",
			Params: []calculation.Param{{Name: "d85", About: "size of which 85 percent of the soil is finer"}, paramFines},
			Result: calculation.Param{Name: "opening", About: "largest apparent opening size"}, Range: "fines below 85 percent", Sources: []value.Source{corpsFilter, sieve70, armyFilterLimits},
			Example: "army_filter_opening_most(mm(0.5), 30.0)", Go: ArmyFilterOpeningMost,
		},
	}
}
