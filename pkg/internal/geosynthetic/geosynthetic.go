// Package geosynthetic works out grids, fabrics and stone platforms on soft
// ground: how thick a working platform must be, which opening a fabric or a grid
// may have against the soil and the stone, and how far one roll laps the next.
//
// Each calculation is a plain function of plain values. The package knows
// nothing of rules, jobs or files; [Calculations] describes what the rule
// language may call.
//
// A function refuses what lies outside the range of its document, with a
// [calculation.RangeError]; it never extrapolates. Nothing here chooses a
// product, and nothing here sizes a finished paver base by itself.
package geosynthetic

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Calculations describes every calculation of this package that the rule
// language may call.
func Calculations() []calculation.Function {
	return slices.Concat(platformCalculations(), fabricCalculations(), layingCalculations())
}

// boundOfSense is the document of a range that keeps out values that can only be
// slips, such as a size given in the wrong unit.
const boundOfSense = "bound of sense, not from a publication"

// Ranges that several calculations share.
var (
	// What is softer than CBR 0.1 flows.
	aCBR   = calculation.Range{Name: "cbr", Low: 0.1, High: 100, Document: boundOfSense}
	aFines = calculation.Range{Name: "fines", Unit: "%", Low: 0, High: 100, Document: "a percentage"}
	// From finer than any clay to 1 m.
	aSize = calculation.Range{Unit: "mm", Low: 0.0001, High: 1000, Document: boundOfSense}
)

func param(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}

func params(p ...calculation.Param) []calculation.Param { return p }
func sources(s ...value.Source) []value.Source          { return s }

var argFines = param("fines", "share of the soil passing 0.075 mm (No. 200)")

func platformCalculations() []calculation.Function {
	const warning = " It sizes a working platform, never the finished base of a paver surface alone."
	factor := param("factor", "bearing capacity factor")
	return []calculation.Function{
		{Name: "platform_thickness_by", About: "Thickness of a stone working platform on soft ground by a named set of constants, at least 0.10 m." + warning,
			Params: params(param("constants", "set of constants"), param("wheel_load", "half the axle load; a dual wheel counts as one"),
				param("tire_pressure", "contact pressure, taken as the inflation pressure"), param("passes", "passes of the axle over the platform"),
				param("rut", "rut allowed at the surface of the platform"), param("subgrade_cbr", "CBR of the ground, percent"),
				param("base_cbr", "CBR of the platform's stone, percent"), param("support", "what lies under the stone"),
				param("aperture_modulus", "aperture stability modulus of the grid (ASTM D7864), N·m/degree; 0 without a grid")),
			Result: param("thickness", "thickness of the platform"),
			Range: "wheel load 20 to 60 kN; tire pressure 275 to 825 kPa; passes 100 to 10,000; rut 50 to 100 mm; " +
				"subgrade CBR 0.5 to below 5; base CBR 5 to 100; aperture stability modulus above 0 to 0.8 with a grid, 0 without one",
			Sources: sources(giroudHanForm, giroudHanFactors, giroudHanRanges, laboratoryFit),
			Example: "platform_thickness_by(published_constants, kn(40), kpa(550), 1000.0, mm(75), 1.0, 15.0, grid_support, 0.32)", Go: PlatformThicknessBy, Moves: ".+.+---..", Positive: true},
		{Name: "bearing_factor", About: "Bearing capacity factor of the older platform method, for bare ground or fabric.",
			Params: params(param("support", "what lies under the stone"), param("rutting", "traffic and rut")), Result: factor, Range: "not for a grid",
			Sources: sources(fieldManualLoads, deepRutFactors), Example: "bearing_factor(fabric_support, little_rut)", Go: BearingFactor},
		{Name: "allowable_stress", About: "Stress that soft ground may carry, bearing factor times undrained cohesion.",
			Params: params(param("cohesion", "undrained cohesion of the ground"), factor), Result: param("stress", "allowable stress on the ground"),
			Range: "cohesion 1 to 200 kPa; factor 1 to 10", Sources: sources(armyManualBearing), Example: "allowable_stress(psi(4.2), 2.8)", Go: AllowableStress},
		{Name: "bearing_thickness", About: "Thickness of stone that brings a wheel's stress down to what the ground may carry, after Boussinesq." + warning,
			Params: params(param("wheel_load", "load of one wheel"), param("contact_pressure", "pressure under the wheel"), param("allowable", "stress that the ground may carry")), Result: param("thickness", "thickness of stone, 0 if the ground carries the wheel"),
			Range: "wheel load 1 to 200 kN; pressure 50 to 1500 kPa; allowable stress 1 to 2000 kPa", Sources: sources(armyManualBearing, boussinesqUse, boussinesqFormula),
			Example: "bearing_thickness(kn(45), kpa(550), kpa(84))", Go: BearingThickness},
	}
}

func fabricCalculations() []calculation.Function {
	const fines = "fines 0 to 100 %"
	opening := param("opening", "largest apparent opening size (ASTM D4751)")
	return []calculation.Function{
		{Name: "drain_fabric_permittivity", About: "Least permittivity of a drainage fabric by the fines of the soil.", Params: params(argFines),
			Result: param("permittivity", "least permittivity (ASTM D4491)"), Range: fines, Sources: sources(m288Drainage),
			Example: "drain_fabric_permittivity(percent(30))", Go: DrainFabricPermittivity},
		{Name: "drain_fabric_opening", About: "Largest apparent opening size of a drainage fabric by the fines of the soil.", Params: params(argFines),
			Result: opening, Range: fines, Sources: sources(m288Drainage), Example: "drain_fabric_opening(percent(30))", Go: DrainFabricOpening},
		{Name: "filter_opening_most", About: "Largest apparent opening size of a filter fabric that holds the soil back.",
			Params: params(param("d85", "size of which 85 percent of the soil is finer"), argFines, param("uniformity", "coefficient of uniformity D60/D10"),
				param("making", "how the fabric is made"), param("flow", "how water moves through the fabric")),
			Result: opening, Range: "d85 0.0001 mm to 1 m; " + fines + "; uniformity 1 to 100,000", Sources: sources(fhwaFilterDesign),
			Example: "filter_opening_most(mm(0.75), percent(20), 4.2, nonwoven, steady_flow)", Go: FilterOpeningMost},
	}
}

func layingCalculations() []calculation.Function {
	ground := params(param("cbr", "CBR of the ground, percent"), param("set", "table of overlaps"))
	rows := sources(fhwaOverlapRows, m288OverlapRows)
	return []calculation.Function{
		{Name: "fabric_overlap_least", About: "Least overlap of fabric rolls on ground of some CBR.", Params: ground, Result: param("overlap", "least overlap"),
			Range: "CBR 0.5 to 100; below it seams are sewn", Sources: rows, Example: "fabric_overlap_least(1.5, fhwa_overlaps)", Go: FabricOverlapLeast, Moves: "-.", Positive: true},
		{Name: "fabric_seam", About: "How fabric rolls join side by side on ground of some CBR.", Params: ground, Result: param("seam", "how they join"),
			Range: "CBR 0.1 to 100", Sources: rows, Example: "fabric_seam(0.4, fhwa_overlaps)", Go: FabricSeam},
		{Name: "agency_grid_overlap", About: "Least side and end overlap of a geogrid, by a road agency.",
			Params: params(param("carries_foot_traffic", "whether people can walk on the ground")), Result: param("overlap", "least overlap"),
			Sources: sources(indianaGrid), Example: "agency_grid_overlap(true)", Go: AgencyGridOverlap},
		{Name: "grid_holds_stone", About: "Whether stone locks into a grid.",
			Params: params(param("aperture", "opening of the grid"), param("d50", "size of which 50 percent of the stone is finer"), param("d85", "size of which 85 percent of the stone is finer")),
			Result: param("holds", "true if D50 <= aperture <= 2 D85, the aperture from 12.5 to 75 mm"), Range: "sizes 0.0001 mm to 1 m, d50 up to d85", Sources: sources(fhwaGrids),
			Example: "grid_holds_stone(mm(25), mm(12), mm(20))", Go: GridHoldsStone},
	}
}
