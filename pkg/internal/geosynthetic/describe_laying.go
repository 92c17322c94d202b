package geosynthetic

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

func overlapCalculations() []calculation.Function {
	params := []calculation.Param{paramCBR, {Name: "overlaps", About: "table of overlaps"}}
	lapRange := "CBR 0.5 to 100; below 0.5 seams are sewn and have no lap"
	sources := []value.Source{fhwaOverlapRows, m288OverlapRows}
	length := calculation.Param{Name: "overlap", About: "overlap"}
	seam := calculation.Param{Name: "seam", About: "lapped, lapped or sewn, or sewn"}
	return []calculation.Function{
		{
			Name: "fabric_overlap_least", About: "Least overlap of fabric rolls side by side, the lower end of the published range.", Params: params, Result: length,
			Range: lapRange, Sources: sources, Example: "fabric_overlap_least(2.5, fhwa_overlaps)", Go: FabricOverlapLeast,
		},
		{
			Name: "fabric_overlap_most", About: "Upper end of the published range of overlaps of fabric rolls side by side.", Params: params, Result: length,
			Range: lapRange, Sources: sources, Example: "fabric_overlap_most(2.5, m288_overlaps)", Go: FabricOverlapMost,
		},
		{
			Name: "fabric_seam", About: "How fabric rolls join side by side.", Params: params, Result: seam,
			Range: "CBR above 0 to 100", Sources: sources, Example: "fabric_seam(0.4, fhwa_overlaps)", Go: FabricSeam,
		},
		{
			Name: "fabric_end_overlap", About: "Overlap of fabric rolls end to end.", Params: params, Result: length,
			Range: lapRange, Sources: sources, Example: "fabric_end_overlap(2.5, fhwa_overlaps)", Go: FabricEndOverlap,
		},
		{
			Name: "fabric_end_seam", About: "How fabric rolls join end to end.", Params: params, Result: seam,
			Range: "CBR above 0 to 100", Sources: sources, Example: "fabric_end_seam(2.5, fhwa_overlaps)", Go: FabricEndSeam,
		},
		{
			Name: "agency_grid_overlap", About: "Least side and end overlap of a geogrid by a road agency.",
			Params: []calculation.Param{{Name: "carries_foot_traffic", About: "whether people can walk on the ground"}}, Result: length,
			Sources: []value.Source{indianaGrid}, Example: "agency_grid_overlap(true)", Go: AgencyGridOverlap,
		},
	}
}

func gridCalculations() []calculation.Function {
	return append(stoneCalculations(), append(gridPlaceCalculations(), benefitCalculations()...)...)
}

func stoneCalculations() []calculation.Function {
	d50 := calculation.Param{Name: "d50", About: "size of which half the stone is finer"}
	d85 := calculation.Param{Name: "d85", About: "size of which 85 percent of the stone is finer"}
	fhwa := []value.Source{fhwaGrids}
	return []calculation.Function{
		{
			Name: "grid_aperture_least", About: "Smallest aperture into which the stone locks.", Params: []calculation.Param{d50},
			Result: calculation.Param{Name: "aperture", About: "smallest aperture"}, Range: "sizes to 1 m", Sources: fhwa,
			Example: "grid_aperture_least(inches(0.5))", Go: GridApertureLeast,
		},
		{
			Name: "grid_aperture_most", About: "Largest aperture that holds the stone.", Params: []calculation.Param{d85},
			Result: calculation.Param{Name: "aperture", About: "largest aperture; below the smallest, no grid suits the stone"}, Range: "sizes to 1 m", Sources: fhwa,
			Example: "grid_aperture_most(inches(0.75))", Go: GridApertureMost,
		},
		{
			Name: "grid_holds_stone", About: "Whether stone locks into the aperture of a grid.",
			Params: []calculation.Param{{Name: "aperture", About: "aperture of the grid"}, d50, d85},
			Result: calculation.Param{Name: "holds", About: "true if the stone locks in"}, Range: "sizes to 1 m; d50 no larger than d85", Sources: fhwa,
			Example: "grid_holds_stone(mm(33), inches(0.5), inches(0.75))", Go: GridHoldsStone,
		},
		{
			Name: "grid_needs_separator", About: "Whether a fabric or graded layer must part the stone over a grid from the ground.",
			Params: []calculation.Param{
				{Name: "stone_d15", About: "size of which 15 percent of the stone is finer"}, {Name: "stone_d50", About: "size of which half the stone is finer"},
				{Name: "ground_d50", About: "size of which half the ground is finer"}, {Name: "ground_d85", About: "size of which 85 percent of the ground is finer"},
			},
			Result: calculation.Param{Name: "needs", About: "true if a separator is needed"}, Range: "sizes to 1 m, in order", Sources: []value.Source{airports, fhwaGrids},
			Example: "grid_needs_separator(mm(2), mm(12), mm(0.02), mm(0.1))", Go: GridNeedsSeparator,
		},
		{
			Name: "stone_drains_ground", About: "Whether stone is open enough for the water of the ground below.",
			Params: []calculation.Param{{Name: "stone_d15", About: "size of which 15 percent of the stone is finer"}, {Name: "ground_d15", About: "size of which 15 percent of the ground is finer"}},
			Result: calculation.Param{Name: "drains", About: "true if it is"}, Range: "sizes to 1 m", Sources: []value.Source{airports},
			Example: "stone_drains_ground(mm(2), mm(0.1))", Go: StoneDrainsGround,
		},
	}
}

func gridPlaceCalculations() []calculation.Function {
	base := []calculation.Param{{Name: "base", About: "thickness of the base"}}
	return []calculation.Function{
		{
			Name: "grid_place_for", About: "Where in a base a grid lies.", Params: base, Result: calculation.Param{Name: "place", About: "bottom or mid-depth"},
			Range: "base above 0 to 10 m", Sources: []value.Source{gridPlaceRule}, Example: "grid_place_for(inches(10))", Go: GridPlaceFor,
		},
		{
			Name: "grid_height", About: "Height of a grid above the bottom of the base.", Params: base, Result: calculation.Param{Name: "height", About: "height above the bottom of the base"},
			Range: "base above 0 to 10 m", Sources: []value.Source{gridPlaceRule}, Example: "grid_height(inches(16))", Go: GridHeight,
		},
		{
			Name: "cover_under_plant", About: "Least cover between a geosynthetic and tires or tracks.", Result: calculation.Param{Name: "cover", About: "least cover"},
			Sources: []value.Source{fhwaGrids}, Example: "cover_under_plant()", Go: CoverUnderPlant,
		},
		{
			Name: "largest_stone_in_lift", About: "Largest stone in the first compacted lift over a geosynthetic.",
			Params: []calculation.Param{{Name: "first_lift", About: "compacted thickness of the first lift"}}, Result: calculation.Param{Name: "stone", About: "largest stone"},
			Range: "lift above 0 to 10 m", Sources: []value.Source{fhwaGrids}, Example: "largest_stone_in_lift(inches(6))", Go: LargestStoneInLift,
		},
	}
}

func benefitCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name: "traffic_benefit_ratio", About: "Passes to failure with a geosynthetic over passes to the same failure without.",
			Params: []calculation.Param{{Name: "passes_with", About: "passes with"}, {Name: "passes_without", About: "passes without"}},
			Result: calculation.Param{Name: "ratio", About: "traffic benefit ratio, a plain number"}, Range: "passes 1 to 1e12", Sources: []value.Source{collin},
			Example: "traffic_benefit_ratio(6000.0, 2000.0)", Go: TrafficBenefitRatio,
		},
		{
			Name: "passes_with_benefit", About: "Passes that a section stands with a geosynthetic of a tested traffic benefit ratio.",
			Params: []calculation.Param{{Name: "passes_without", About: "passes without"}, {Name: "benefit_ratio", About: "tested ratio, 1 to 100"}},
			Result: calculation.Param{Name: "passes", About: "passes with"}, Range: "passes 1 to 1e12; ratio 1 to 100", Sources: []value.Source{collin},
			Example: "passes_with_benefit(2000.0, 3.0)", Go: PassesWithBenefit,
		},
		{
			Name: "base_course_reduction", About: "Part of the base that a geosynthetic saves.",
			Params: []calculation.Param{{Name: "base_without", About: "base without the geosynthetic"}, {Name: "base_with", About: "base with it, no thicker"}},
			Result: calculation.Param{Name: "percent", About: "percent of the base without"}, Range: "thickness above 0 to 10 m", Sources: []value.Source{reductionRule},
			Example: "base_course_reduction(inches(8), inches(4))", Go: BaseCourseReduction,
		},
		{
			Name: "reduced_base", About: "Base that does with a geosynthetic of a tested base course reduction.",
			Params: []calculation.Param{{Name: "base_without", About: "base without the geosynthetic"}, {Name: "reduction", About: "tested reduction, percent, 0 to 99"}},
			Result: calculation.Param{Name: "base", About: "base with the geosynthetic"}, Range: "thickness above 0 to 10 m; reduction 0 to 99 percent", Sources: []value.Source{reductionRule},
			Example: "reduced_base(inches(8), 50.0)", Go: ReducedBase,
		},
	}
}
