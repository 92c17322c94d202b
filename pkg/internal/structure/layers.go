package structure

import (
	"fmt"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	coefficientBound = bound{"layer coefficient", "per in", 0.01, 1, false, ownLimit}
	// The ends of Table 2.4 (memory; the ends themselves relayed).
	drainageBound  = bound{"drainage coefficient", "", 0.40, 1.40, false, aashto1993 + ", Table 2.4"}
	thicknessBound = bound{"thickness", "in", 0, 400, false, ownLimit}
	neededSNBound  = bound{"required structural number", "", 0, greatestSN, false, nomograph}
	aboveSNBound   = bound{"structural number above", "", 0, 100, false, ownLimit}
)

// Layer is one layer of a section.
type Layer struct {
	Thickness quantity.Length
	// Coefficient is the layer coefficient a, per inch, 0.01 to 1.
	Coefficient float64
	// Drainage is the drainage coefficient m, 0.40 to 1.40; 1 for a surface.
	Drainage float64
}

// LayerSN returns what one layer adds to the structural number: its coefficient
// per inch, times its thickness, times its drainage coefficient. Thickness 0 to
// 400 in, coefficient 0.01 to 1, drainage coefficient 0.40 to 1.40.
//
// AASHTO 1993, Part II, section 3.1 (relayed).
func LayerSN(thickness quantity.Length, coefficient, drainage float64) (float64, error) {
	if err := first(thicknessBound.check(thickness.Inches()), coefficientBound.check(coefficient), drainageBound.check(drainage)); err != nil {
		return 0, err
	}
	return coefficient * thickness.Inches() * drainage, nil
}

// SectionSN returns the structural number of a section, the sum over its layers;
// see [LayerSN]. A section without layers has none.
func SectionSN(layers ...Layer) (float64, error) {
	var sum float64
	for i, l := range layers {
		sn, err := LayerSN(l.Thickness, l.Coefficient, l.Drainage)
		if err != nil {
			return 0, fmt.Errorf("layer %d: %w", i+1, err)
		}
		sum += sn
	}
	return sum, nil
}

// LayerThicknessForSN returns the thickness of a layer that, with the layers
// above it, makes up the required structural number; it is zero where the
// layers above make it up already. The required number is 0 to 9, that of the
// layers above 0 to 100, coefficient and drainage as for [LayerSN].
//
// AASHTO 1993, II-3.1.5 (memory).
func LayerThicknessForSN(required, above, coefficient, drainage float64) (quantity.Length, error) {
	err := first(neededSNBound.check(required), aboveSNBound.check(above),
		coefficientBound.check(coefficient), drainageBound.check(drainage))
	if err != nil {
		return 0, err
	}
	return quantity.Inches(max(0, required-above) / (coefficient * drainage)), nil
}

// Material is what [SizeLayers] is told of a layer, from the top down.
type Material struct {
	// Coefficient and Drainage as in [Layer].
	Coefficient, Drainage float64
	// Modulus of the layer, 1,000 to 40,000 psi; that of the topmost is not used.
	Modulus quantity.Pressure
}

// Sized is one layer as [SizeLayers] sized it.
type Sized struct {
	// Required is the structural number needed over the material beneath.
	Required float64
	// Exact is the thickness that makes it up, Built that thickness rounded up.
	Exact, Built quantity.Length
	// Reached is the structural number down to the bottom of this layer, as built.
	Reached float64
}

// SizeLayers sizes a section from the top down: each layer, with those above it
// as built, makes up the structural number that the material beneath it calls
// for. Each thickness is rounded up to a whole step before the next is sized;
// the step is above 0 up to 12 in.
//
// AASHTO 1993, II-3.1.5, Figure 3.2 (memory).
func SizeLayers(demand Demand, layers []Material, subgrade quantity.Pressure, step quantity.Length) ([]Sized, error) {
	stepBound := bound{"rounding step", "in", 0, 12, true, ownLimit}
	if err := stepBound.check(step.Inches()); err != nil {
		return nil, err
	}
	sized := make([]Sized, len(layers))
	reached := 0.0
	for i, layer := range layers {
		beneath := subgrade
		if i+1 < len(layers) {
			beneath = layers[i+1].Modulus
		}
		required, err := demand.RequiredSN(beneath)
		if err != nil {
			return nil, fmt.Errorf("beneath layer %d: %w", i+1, err)
		}
		exact, err := LayerThicknessForSN(required, reached, layer.Coefficient, layer.Drainage)
		if err != nil {
			return nil, fmt.Errorf("layer %d: %w", i+1, err)
		}
		built := roundUp(exact, step)
		// The thickness bound is checked here too: a tiny coefficient asks for more.
		sn, err := LayerSN(built, layer.Coefficient, layer.Drainage)
		if err != nil {
			return nil, fmt.Errorf("layer %d: %w", i+1, err)
		}
		reached += sn
		sized[i] = Sized{Required: required, Exact: exact, Built: built, Reached: reached}
	}
	return sized, nil
}

// roundUp rounds up to a whole number of steps. A thickness that passes a whole
// number by less than rounding of its last digits is not pushed to the next.
func roundUp(l, step quantity.Length) quantity.Length {
	const crumb = 1e-9
	return quantity.Length(math.Ceil(float64(l/step)-crumb)) * step
}

func layerCalculations() []calculation.Function {
	coefficient := calculation.Param{Name: "coefficient", About: "layer coefficient, per inch of thickness, 0.01 to 1"}
	drainage := calculation.Param{Name: "drainage", About: "drainage coefficient, 0.40 to 1.40"}
	return []calculation.Function{
		{
			Name:    "layer_sn",
			About:   "What one layer adds to the structural number of a section.",
			Params:  []calculation.Param{{Name: "thickness", About: "thickness of the layer, 0 to 400 in"}, coefficient, drainage},
			Result:  calculation.Param{Name: "sn", About: "its part of the structural number"},
			Range:   "coefficient 0.01 to 1, drainage coefficient 0.40 to 1.40",
			Sources: []value.Source{sourceFlexible},
			Example: "layer_sn(inches(6), 0.14, 1.0)",
			Go:      LayerSN,
		},
		{
			Name:  "layer_thickness_for_sn",
			About: "The thickness of a layer that, with the layers above it, makes up the required structural number.",
			Params: []calculation.Param{
				{Name: "required", About: "structural number required, 0 to 9"},
				{Name: "above", About: "structural number of the layers above, 0 to 100"},
				coefficient, drainage,
			},
			Result:  calculation.Param{Name: "thickness", About: "thickness, zero where the layers above suffice"},
			Range:   "required structural number 0 to 9",
			Sources: []value.Source{sourceLayered},
			Example: "layer_thickness_for_sn(2.4, 1.815, 0.14, 1.0)",
			Go:      LayerThicknessForSN,
		},
	}
}
