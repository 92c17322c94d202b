package drainage

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// waterDensity in kg/m3, of water at 4 °C, as the phase relations take it.
const waterDensity = 1000

// Range of the specific gravity of the solids, set here to catch a density given
// in its place; mineral aggregates are about 2.5 to 3.1.
const (
	leastGravity = 1.0
	mostGravity  = 6.0
)

// VoidsFromDensity returns the porosity of stone of a dry density and a specific
// gravity of its solids: n = 1 - rho / (Gs rho_w), rho_w 1,000 kg/m3. A density
// at or above that of the solids is a range error.
//
// Source: phase relation, computed.
func VoidsFromDensity(dry quantity.Density, gravity float64) (float64, error) {
	err := within("specific gravity", gravity, "", leastGravity, mostGravity, "1 to 6", unitSlip)
	if err != nil {
		return 0, err
	}
	solid := gravity * waterDensity
	if rho := dry.KgPerM3(); !calculation.Finite(rho) || rho <= 0 || rho >= solid {
		return 0, calculation.OutOfRange("dry density", rho, "kg/m3", "more than 0, less than the solids weigh", sourceSolids.Document)
	}
	return 1 - dry.KgPerM3()/solid, nil
}

// VoidRatio returns the true void ratio, voids over solids, of a porosity:
// e = n / (1 - n).
//
// Source: phase relation, computed.
func VoidRatio(voids float64) (float64, error) {
	if err := checkVoids(voids); err != nil {
		return 0, err
	}
	return finite("void ratio", voids/(1-voids))
}
