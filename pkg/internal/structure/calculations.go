package structure

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
)

// Calculations describes every calculation of this package that the rule
// language may call.
func Calculations() []calculation.Function {
	return slices.Concat(
		deviateCalculations(), flexibleCalculations(), layerCalculations(), drainageCalculations(),
		axleCalculations(), trafficCalculations(), coverCalculations(), stressCalculations(),
	)
}

// ownLimit is the document of a range that no publication sets.
const ownLimit = "limit of this library"

func param(name, about string) calculation.Param {
	return calculation.Param{Name: name, About: about}
}
