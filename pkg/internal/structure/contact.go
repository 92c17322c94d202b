package structure

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// contactPressureBound keeps the contact patch of any load in range finite.
var contactPressureBound = bound{"pressure", "psi", 0.1, 1e4, false, ownLimit}

// contactLoadBound has a floor, so that a patch is never too small to be a patch.
var contactLoadBound = bound{"load", "lbf", 0.1, 1e6, false, ownLimit}

func contactArea(load quantity.Force, pressure quantity.Pressure) (float64, error) {
	if err := first(contactLoadBound.check(load.PoundsForce()), contactPressureBound.check(pressure.PSI())); err != nil {
		return 0, err
	}
	return float64(load) / float64(pressure), nil
}

// ContactRadius returns the radius of the circle on which a wheel stands, taking
// the contact pressure as the tire pressure. Load 0.1 to a million lbf,
// pressure 0.1 to 10,000 psi. Common practice.
func ContactRadius(load quantity.Force, pressure quantity.Pressure) (quantity.Length, error) {
	area, err := contactArea(load, pressure)
	return quantity.Meters(math.Sqrt(area / math.Pi)), err
}

// ContactSide returns the side of the square on which a wheel stands, taking the
// contact pressure as the tire pressure; ranges as for [ContactRadius].
func ContactSide(load quantity.Force, pressure quantity.Pressure) (quantity.Length, error) {
	area, err := contactArea(load, pressure)
	return quantity.Meters(math.Sqrt(area)), err
}

// spreadBound takes in the spreads in use, 1 and 2, with room on both sides.
var spreadBound = bound{"spread", "down to 1 out", 0.5, 5, false, ownLimit}

// SpreadStress returns the stress at a depth under a load on a square patch, the
// load spreading evenly to every side. The spread is how far down the load goes
// for each unit out on every side: 2 is the 2:1 spread, under which the square
// widens by the depth, and 1 is the 1:1 spread, under which it widens by twice
// the depth. Spread 0.5 to 5; the larger it is the higher the stress.
//
// The stress is a mean over the widened square; elastic theory puts the stress
// on the axis above it. Common practice.
func SpreadStress(load quantity.Force, side, depth quantity.Length, spread float64) (quantity.Pressure, error) {
	if err := first(checkLoad(load), checkSide(side), checkDepth(depth), spreadBound.check(spread)); err != nil {
		return 0, err
	}
	wide := float64(side) + 2*float64(depth)/spread
	return quantity.Pressure(float64(load) / (wide * wide)), nil
}

// CircleSpreadStress is [SpreadStress] for a load on a circle: its radius
// widens by the depth over the spread.
func CircleSpreadStress(load quantity.Force, radius, depth quantity.Length, spread float64) (quantity.Pressure, error) {
	if err := first(checkLoad(load), checkRadius(radius), checkDepth(depth), spreadBound.check(spread)); err != nil {
		return 0, err
	}
	wide := float64(radius) + float64(depth)/spread
	return quantity.Pressure(float64(load) / (math.Pi * wide * wide)), nil
}

func contactCalculations() []calculation.Function {
	load := calculation.Param{Name: "load", About: "load on one wheel, 0.1 to a million lbf"}
	pressure := calculation.Param{Name: "pressure", About: "tire pressure, 0.1 to 10,000 psi"}
	onPatch := calculation.Param{Name: "load", About: "load on the patch, up to a million lbf"}
	depth := calculation.Param{Name: "depth", About: "depth beneath the patch, 0 to 100 m"}
	spread := calculation.Param{Name: "spread", About: "units down for one unit out on every side: 2 is 2:1, 1 is 1:1; 0.5 to 5"}
	return []calculation.Function{
		{
			Name:    "contact_radius",
			About:   "The radius of the circle on which a wheel stands.",
			Params:  []calculation.Param{load, pressure},
			Result:  calculation.Param{Name: "radius", About: "radius of the contact circle"},
			Range:   "load 0.1 to a million lbf, pressure 0.1 to 10,000 psi",
			Sources: []value.Source{sourceContact},
			Example: "contact_radius(lbf(9000), psi(80))",
			Go:      ContactRadius,
		},
		{
			Name:    "contact_side",
			About:   "The side of the square on which a wheel stands.",
			Params:  []calculation.Param{load, pressure},
			Result:  calculation.Param{Name: "side", About: "side of the contact square"},
			Range:   "load 0.1 to a million lbf, pressure 0.1 to 10,000 psi",
			Sources: []value.Source{sourceContact},
			Example: "contact_side(lbf(9000), psi(80))",
			Go:      ContactSide,
		},
		{
			Name:    "spread_stress",
			About:   "The mean stress at a depth under a load on a square patch that spreads evenly.",
			Params:  []calculation.Param{onPatch, {Name: "side", About: "side of the square patch, 1 mm to 100 m"}, depth, spread},
			Result:  calculation.Param{Name: "stress", About: "mean vertical stress on the widened square"},
			Range:   "spread 0.5 to 5",
			Sources: []value.Source{sourceSpread},
			Example: "spread_stress(lbf(300), inches(2), mm(60), 2.0)",
			Go:      SpreadStress,
		},
		{
			Name:    "circle_spread_stress",
			About:   "The mean stress at a depth under a load on a circle that spreads evenly.",
			Params:  []calculation.Param{onPatch, {Name: "radius", About: "radius of the circle, 1 mm to 100 m"}, depth, spread},
			Result:  calculation.Param{Name: "stress", About: "mean vertical stress on the widened circle"},
			Range:   "spread 0.5 to 5",
			Sources: []value.Source{sourceSpread},
			Example: "circle_spread_stress(lbf(9000), inches(6), inches(8), 2.0)",
			Go:      CircleSpreadStress,
		},
	}
}
