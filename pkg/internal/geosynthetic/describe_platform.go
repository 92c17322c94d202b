package geosynthetic

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// platformRangeWords is the range of the platform equation, for its readers.
const platformRangeWords = "wheel load 20 to 60 kN; tire pressure 275 to 825 kPa; passes 100 to 10,000; rut 50 to 100 mm; " +
	"subgrade CBR 0.5 to below 5; base CBR 5 to 100; aperture stability modulus 0 to 0.8, and 0 without a grid"

const platformWarning = " It sizes a working platform, never the finished base of a paver surface alone."

var (
	paramWheel      = calculation.Param{Name: "wheel_load", About: "half the axle load; a dual wheel counts as one"}
	paramTire       = calculation.Param{Name: "tire_pressure", About: "contact pressure, taken as the inflation pressure"}
	paramRut        = calculation.Param{Name: "rut", About: "rut allowed at the surface of the platform"}
	paramGround     = calculation.Param{Name: "subgrade_cbr", About: "CBR of the ground, percent"}
	paramConstants  = calculation.Param{Name: "constants", About: "set of constants"}
	platformFormSet = []value.Source{giroudHanForm, giroudHanFactors, giroudHanRanges}
)

func platformParams() []calculation.Param {
	return []calculation.Param{
		paramWheel, paramTire,
		{Name: "passes", About: "passes of the axle over the platform, 100 to 10,000"},
		paramRut, paramGround,
		{Name: "base_cbr", About: "CBR of the platform's stone, percent"},
		{Name: "support", About: "what lies under the stone"},
		{Name: "aperture_modulus", About: "aperture stability modulus of the grid (ASTM D7864), N·m/degree, 0 to 0.8; 0 without a grid"},
	}
}

func platformCalculations() []calculation.Function {
	withSet := append([]calculation.Param{paramConstants}, platformParams()...)
	bothFits := append(slices.Clone(platformFormSet), laboratoryFit)
	return []calculation.Function{
		{
			Name: "platform_thickness", About: "Thickness of a stone working platform on soft ground, at least 0.10 m." + platformWarning,
			Params: platformParams(), Result: calculation.Param{Name: "thickness", About: "thickness of the platform"},
			Range: platformRangeWords, Sources: platformFormSet,
			Example: "platform_thickness(kn(40), kpa(550), 1000.0, mm(75), 1.0, 15.0, grid_support, 0.32)",
			Go:      PlatformThickness,
		},
		{
			Name: "platform_thickness_by", About: "Thickness of a stone working platform by a named set of constants, at least 0.10 m." + platformWarning,
			Params: withSet, Result: calculation.Param{Name: "thickness", About: "thickness of the platform"},
			Range: platformRangeWords, Sources: bothFits,
			Example: "platform_thickness_by(laboratory_constants, kn(40), kpa(550), 1000.0, mm(75), 1.0, 15.0, fabric_support, 0.0)",
			Go:      PlatformThicknessBy,
		},
		{
			Name: "platform_at_least", About: "Whether the least platform thickness of 0.10 m governs, because the equation alone gives less.",
			Params: withSet, Result: calculation.Param{Name: "at_least", About: "true if the least thickness governs"},
			Range: platformRangeWords, Sources: bothFits,
			Example: "platform_at_least(published_constants, kn(40), kpa(550), 1000.0, mm(75), 2.0, 15.0, grid_support, 0.65)",
			Go:      PlatformAtLeast,
		},
		{
			Name: "platform_bearing_factor", About: "Bearing capacity factor of the platform equation by what lies under the stone.",
			Params:  []calculation.Param{{Name: "support", About: "what lies under the stone"}},
			Result:  calculation.Param{Name: "factor", About: "bearing capacity factor, a plain number"},
			Sources: []value.Source{giroudHanFactors}, Example: "platform_bearing_factor(fabric_support)", Go: PlatformBearingFactor,
		},
		{
			Name: "platform_contact_radius", About: "Radius of a wheel's contact with a platform, taken as a circle.",
			Params: []calculation.Param{paramWheel, paramTire},
			Result: calculation.Param{Name: "radius", About: "radius of the contact"},
			Range:  "wheel load 20 to 60 kN; tire pressure 275 to 825 kPa", Sources: []value.Source{giroudHanFactors, giroudHanRanges},
			Example: "platform_contact_radius(kn(40), kpa(550))", Go: PlatformContactRadius,
		},
		{
			Name: "wheel_load_without_platform", About: "Wheel load that the bare ground carries on the same contact area; a wheel at or under it needs no stone for bearing.",
			Params: []calculation.Param{paramWheel, paramTire, paramRut, paramGround},
			Result: calculation.Param{Name: "load", About: "wheel load that the bare ground carries"},
			Range:  "wheel load 20 to 60 kN; tire pressure 275 to 825 kPa; rut 50 to 100 mm; subgrade CBR 0.5 to below 5", Sources: platformFormSet,
			Example: "wheel_load_without_platform(kn(40), kpa(550), mm(75), 2.0)", Go: WheelLoadWithoutPlatform,
		},
	}
}

func bearingCalculations() []calculation.Function {
	support := calculation.Param{Name: "support", About: "what lies under the stone"}
	wheel := calculation.Param{Name: "wheel_load", About: "design wheel load"}
	contact := calculation.Param{Name: "contact_pressure", About: "pressure of the wheel on the stone"}
	factor := calculation.Param{Name: "factor", About: "bearing capacity factor, a plain number"}
	return append(loadCalculations(wheel, contact), []calculation.Function{
		{
			Name: "rutting_for", About: "Regime of the older platform method by allowed rut and passes of 18-kip axles.",
			Params: []calculation.Param{{Name: "rut", About: "rut allowed at the surface"}, {Name: "passes", About: "passes of 18-kip axles"}},
			Result: calculation.Param{Name: "rutting", About: "regime"}, Range: "rut under 2 in at more than 1,000 passes, or 4 in and more at fewer than 100",
			Sources: []value.Source{armyManualBearing}, Example: "rutting_for(inches(1.5), 5000.0)", Go: RuttingFor,
		},
		{
			Name: "bearing_factor", About: "Bearing capacity factor of the older platform method, for bare ground or fabric.",
			Params: []calculation.Param{support, {Name: "rutting", About: "traffic and rut that the platform is to stand"}},
			Result: factor, Range: "no grid", Sources: []value.Source{fieldManualLoads, deepRutFactors},
			Example: "bearing_factor(fabric_support, little_rut)", Go: BearingFactor,
		},
		{
			Name: "aggregate_road_bearing_factor", About: "Bearing capacity factor for an aggregate-surfaced road, bare, on fabric, or on a grid over fabric.",
			Params: []calculation.Param{support}, Result: factor, Sources: []value.Source{aggregateRoads},
			Example: "aggregate_road_bearing_factor(grid_support)", Go: AggregateRoadBearingFactor,
		},
		{
			Name: "allowable_stress", About: "Stress that soft ground may carry, bearing factor times undrained cohesion.",
			Params: []calculation.Param{{Name: "cohesion", About: "undrained cohesion of the ground"}, {Name: "factor", About: "bearing capacity factor, 1 to 10"}},
			Result: calculation.Param{Name: "stress", About: "allowable stress on the ground"}, Range: "cohesion 1 to 200 kPa; factor 1 to 10",
			Sources: []value.Source{armyManualBearing}, Example: "allowable_stress(psi(4.2), 2.8)", Go: AllowableStress,
		},
		{
			Name: "stress_under_wheel", About: "Vertical stress at a depth under the middle of a wheel, after Boussinesq.",
			Params: []calculation.Param{wheel, contact, {Name: "depth", About: "depth below the wheel"}},
			Result: calculation.Param{Name: "stress", About: "vertical stress"}, Range: "wheel load 1 to 200 kN; pressure 50 to 1500 kPa; depth 0 to 10 m",
			Sources: []value.Source{boussinesqFormula, boussinesqUse}, Example: "stress_under_wheel(kn(40), kpa(550), mm(300))", Go: StressUnderWheel,
		},
		{
			Name: "bearing_thickness", About: "Thickness of stone that brings a wheel's stress down to what the ground may carry, after Boussinesq." + platformWarning,
			Params: []calculation.Param{wheel, contact, {Name: "allowable", About: "stress that the ground may carry"}},
			Result: calculation.Param{Name: "thickness", About: "thickness of stone, 0 if the ground carries the wheel"},
			Range:  "wheel load 1 to 200 kN; pressure 50 to 1500 kPa; allowable stress 1 to 2000 kPa", Sources: []value.Source{armyManualBearing, boussinesqUse, boussinesqFormula},
			Example: "bearing_thickness(kn(45), kpa(550), kpa(84))", Go: BearingThickness,
		},
	}...)
}

// loadCalculations describes the load rules of the older method.
func loadCalculations(wheel, contact calculation.Param) []calculation.Function {
	axle := []calculation.Param{{Name: "axle_load", About: "load of one axle"}}
	return []calculation.Function{
		{
			Name: "single_axle_wheel_load", About: "Design wheel load of a single axle, half the axle.", Params: axle,
			Result: calculation.Param{Name: "load", About: "design wheel load"}, Range: "axle load 2 to 400 kN",
			Sources: []value.Source{fieldManualLoads}, Example: "single_axle_wheel_load(kn(80))", Go: SingleAxleWheelLoad,
		},
		{
			Name: "tandem_axle_wheel_load", About: "Design wheel load of one axle of a tandem, half the axle and 20 percent more.", Params: axle,
			Result: calculation.Param{Name: "load", About: "design wheel load"}, Range: "axle load 2 to 400 kN",
			Sources: []value.Source{fieldManualLoads}, Example: "tandem_axle_wheel_load(kn(80))", Go: TandemAxleWheelLoad,
		},
		{
			Name: "dual_contact_pressure", About: "Contact pressure of a dual wheel, 75 percent of its tire pressure.",
			Params: []calculation.Param{{Name: "tire_pressure", About: "inflation pressure"}},
			Result: calculation.Param{Name: "pressure", About: "contact pressure"}, Range: "tire pressure 50 to 1500 kPa",
			Sources: []value.Source{fieldManualLoads}, Example: "dual_contact_pressure(psi(80))", Go: DualContactPressure,
		},
		{
			Name: "army_contact_side", About: "Side of a wheel's contact taken as a square.", Params: []calculation.Param{wheel, contact},
			Result: calculation.Param{Name: "side", About: "side of the square"}, Range: "wheel load 1 to 200 kN; pressure 50 to 1500 kPa",
			Sources: []value.Source{fieldManualLoads}, Example: "army_contact_side(kn(40), kpa(550))", Go: ContactSide,
		},
	}
}
