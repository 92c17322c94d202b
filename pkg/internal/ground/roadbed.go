package ground

import (
	"fmt"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
)

// Relative damage of AASHTO 1993 Fig. 2.4 (formula relayed): uf = 1.18e8
// MR^-2.32, MR in psi.
const (
	damageScale    = 1.18e8
	damageExponent = -2.32
	fig24          = "AASHTO 1993 Fig. 2.4"
	mostSeasons    = 1000
)

var (
	// The nomograph's own scale is shorter; the formula is a power and needs no
	// end, so the ends only keep slips of unit out.
	aRoadbedModulus = calculation.Range{Low: 100, High: 1e6, Unit: "psi", Document: fig24}
	aDamage         = calculation.Range{Low: 1.4e-6, High: 2710, Unit: "", Document: fig24}
	aFactor         = calculation.Range{Low: 0, High: 1000, Above: true, Document: fig24}
)

// RoadbedDamage is the relative damage uf of a season in which the roadbed has
// the given modulus, 100 to 1,000,000 psi.
func RoadbedDamage(mr quantity.Pressure) (float64, error) {
	psi := mr.PSI()
	if err := aRoadbedModulus.Named("modulus").Check(psi); err != nil {
		return 0, err
	}
	return float64(damageScale * portable.Pow(psi, damageExponent)), nil
}

// ModulusFromDamage turns [RoadbedDamage] round, for a relative damage of 1.4e-6
// to 2710.
func ModulusFromDamage(uf float64) (quantity.Pressure, error) {
	if err := aDamage.Named("relative damage").Check(uf); err != nil {
		return 0, err
	}
	return quantity.PSI(portable.Pow(uf/damageScale, 1/damageExponent)), nil
}

// EffectiveRoadbedModulusOf is the one modulus that does the damage of a year's
// seasons of equal length: that of the mean relative damage. It lies between the
// least and the greatest of them.
func EffectiveRoadbedModulusOf(seasons []quantity.Pressure) (quantity.Pressure, error) {
	if n := len(seasons); n == 0 || n > mostSeasons {
		return 0, calculation.OutOfRange("number of seasons", float64(n), "", fmt.Sprintf("1 to %d", mostSeasons), fig24)
	}
	var sum float64
	for _, mr := range seasons {
		uf, err := RoadbedDamage(mr)
		if err != nil {
			return 0, err
		}
		sum += uf
	}
	return ModulusFromDamage(sum / float64(len(seasons)))
}

// EffectiveRoadbedModulus is [EffectiveRoadbedModulusOf] for seasons given as
// parts of a normal modulus, such as a thaw factor of 0.5: factors above 0 to
// 1000, seasons of equal length.
func EffectiveRoadbedModulus(normal quantity.Pressure, factors []float64) (quantity.Pressure, error) {
	seasons := make([]quantity.Pressure, 0, len(factors))
	for _, f := range factors {
		if err := aFactor.Named("season's part of the normal modulus").Check(f); err != nil {
			return 0, err
		}
		seasons = append(seasons, quantity.Pressure(f*float64(normal)))
	}
	return EffectiveRoadbedModulusOf(seasons)
}
