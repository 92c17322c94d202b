// Package geosynthetic works out grids, fabrics and stone platforms on soft
// ground: how thick a working platform must be, which class of fabric lies
// under it, which opening a fabric or a grid may have against the soil and the
// stone, how far one roll laps the next, and how high in the base a grid lies.
//
// Each calculation is a plain function of plain values. The package knows
// nothing of rules, jobs or files; [Calculations] describes what the rule
// language may call.
//
// A function refuses what lies outside the range of its document, with a
// [calculation.RangeError]; it never extrapolates. Nothing here chooses a
// product, and nothing here sizes a finished paver base by itself.
package geosynthetic

import "example.com/groundrule/pkg/calculation"

// Calculations describes every calculation of this package that the rule
// language may call.
func Calculations() []calculation.Function {
	var all []calculation.Function
	for _, some := range [][]calculation.Function{
		platformCalculations(),
		bearingCalculations(),
		fabricCalculations(),
		filterCalculations(),
		overlapCalculations(),
		gridCalculations(),
		whereCalculations(),
	} {
		all = append(all, some...)
	}
	return all
}
