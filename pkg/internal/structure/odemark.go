package structure

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const odemarkDocument = "El-Badawy and Kamel, IJAEST 6(1), 2011"

var (
	odemarkFactorBound = bound{"odemark factor", "", 0.8, 1, false, odemarkDocument + " (ends from memory)"}
	odemarkRatioBound  = bound{"modulus ratio", "", 1, 100, false, ownLimit}
	layerBound         = bound{"thickness", "m", 0, 10, false, ownLimit}
	elasticBound       = bound{"modulus", "MPa", 0.1, 1e6, false, ownLimit}
	poissonBound       = bound{"poisson's ratio", "", 0, 0.5, false, "elastic theory"}
)

// OdemarkThickness returns the thickness of the lower material that is as stiff
// as a layer of the upper one:
//
//	f*h * cbrt(E1/E2 * (1-v2^2)/(1-v1^2))
//
// The factor f is 0.8 to 1.0: 0.9 for two layers, 0.8 for many, 1.0 at the
// first interface of many (memory). The upper layer is the stiffer, up to 100
// times; thickness 0 to 10 m; Poisson's ratios 0 to 0.5.
//
// El-Badawy and Kamel, 2011, Eqs 2 and 3 (seen).
func OdemarkThickness(thickness quantity.Length, upper, lower quantity.Pressure, factor, upperPoisson, lowerPoisson float64) (quantity.Length, error) {
	err := first(layerBound.check(thickness.Meters()), elasticBound.check(upper.Megapascals()), elasticBound.check(lower.Megapascals()),
		odemarkRatioBound.check(float64(upper/lower)), odemarkFactorBound.check(factor),
		poissonBound.check(upperPoisson), poissonBound.check(lowerPoisson))
	if err != nil {
		return 0, err
	}
	poisson := (1 - float64(lowerPoisson*lowerPoisson)) / (1 - float64(upperPoisson*upperPoisson))
	return quantity.Length(factor*math.Cbrt(float64(upper/lower)*poisson)) * thickness, nil
}

// OdemarkStress returns the vertical stress on the axis beneath an evenly loaded
// circle and a layer stiffer than the ground under it: [BoussinesqCircle] at
// the depth of [OdemarkThickness], for equal Poisson's ratios.
//
// Against [TwoLayerStress], for layers 2 to 10 times as stiff and 2/3 to 2
// radii thick, it is 8 % low to 6 % high with a factor of 0.9, and 25 % to 3 %
// low with 1.0, the unsafe side (computed).
func OdemarkStress(pressure quantity.Pressure, radius, thickness quantity.Length, upper, lower quantity.Pressure, factor float64) (quantity.Pressure, error) {
	depth, err := OdemarkThickness(thickness, upper, lower, factor, 0.5, 0.5)
	if err != nil {
		return 0, err
	}
	return BoussinesqCircle(pressure, radius, depth)
}

func odemarkCalculations() []calculation.Function {
	thickness := calculation.Param{Name: "thickness", About: "thickness of the upper layer, 0 to 10 m"}
	upper := calculation.Param{Name: "upper", About: "elastic modulus of the upper layer"}
	lower := calculation.Param{Name: "lower", About: "elastic modulus beneath it; the upper is 1 to 100 times as stiff"}
	factor := calculation.Param{Name: "factor", About: "correction factor, 0.8 to 1.0; 0.9 for two layers"}
	return []calculation.Function{
		{
			Name:  "odemark_thickness",
			About: "The thickness of the lower material that is as stiff as a layer of the upper one.",
			Params: []calculation.Param{
				thickness, upper, lower, factor,
				{Name: "upper_poisson", About: "Poisson's ratio of the upper layer, 0 to 0.5"},
				{Name: "lower_poisson", About: "Poisson's ratio beneath it, 0 to 0.5"},
			},
			Result:  calculation.Param{Name: "thickness", About: "equivalent thickness"},
			Range:   "upper layer 1 to 100 times as stiff, factor 0.8 to 1.0",
			Sources: []value.Source{sourceOdemark},
			Example: "odemark_thickness(inches(8), psi(22500), psi(7500), 0.9, 0.35, 0.45)",
			Go:      OdemarkThickness,
		},
		{
			Name:  "odemark_stress",
			About: "The vertical stress beneath a loaded circle and a layer stiffer than the ground, by equivalent thickness.",
			Params: []calculation.Param{
				{Name: "pressure", About: "even pressure on the surface, above 0 up to 10,000 psi"},
				{Name: "radius", About: "radius of the circle, 1 mm to 100 m"},
				thickness, upper, lower, factor,
			},
			Result:  calculation.Param{Name: "stress", About: "vertical stress on the axis, at the bottom of the layer"},
			Range:   "upper layer 1 to 100 times as stiff, factor 0.8 to 1.0",
			Sources: []value.Source{sourceOdemark, sourceBoussinesq},
			Example: "odemark_stress(psi(80), inches(6), inches(8), psi(22500), psi(7500), 0.9)",
			Go:      OdemarkStress,
		},
	}
}
