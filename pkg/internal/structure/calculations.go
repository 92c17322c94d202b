package structure

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
)

// Calculations describes every calculation of this package that the rule
// language may call.
func Calculations() []calculation.Function {
	return slices.Concat(
		deviateCalculations(), flexibleCalculations(), layerCalculations(), coefficientCalculations(),
		drainageCalculations(), minimumCalculations(), axleCalculations(), trafficCalculations(),
		coverCalculations(), contactCalculations(), boussinesqCalculations(), odemarkCalculations(),
		burmisterCalculations(), strainCalculations(), panelCalculations(), epsCalculations(),
	)
}
