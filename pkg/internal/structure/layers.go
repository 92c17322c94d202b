package structure

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	coefficients = calculation.Range{Name: "layer coefficient", Unit: "per in", Low: 0.01, High: 1, Document: ownLimit}
	// The ends of Table 2.4 (memory; the ends themselves relayed).
	drainages   = calculation.Range{Name: "drainage coefficient", Low: 0.40, High: 1.40, Document: drainageDocument}
	thicknesses = calculation.Range{Name: "thickness", Unit: "in", Low: 0, High: 400, Document: ownLimit}
	neededSN    = calculation.Range{Name: "required structural number", Low: 0, High: greatestSN, Document: nomograph}
	aboveSN     = calculation.Range{Name: "structural number above", Low: 0, High: 100, Document: ownLimit}
)

// LayerSN returns what one layer adds to the structural number: its coefficient
// per inch, times its thickness, times its drainage coefficient. Thickness 0 to
// 400 in, coefficient 0.01 to 1, drainage coefficient 0.40 to 1.40.
//
// AASHTO 1993, Part II, section 3.1 (relayed).
func LayerSN(thickness quantity.Length, coefficient, drainage float64) (float64, error) {
	err := cmp.Or(thicknesses.CheckMeasure(thickness), coefficients.Check(coefficient), drainages.Check(drainage))
	if err != nil {
		return 0, err
	}
	return coefficient * thickness.Inches() * drainage, nil
}

// LayerThicknessForSN returns the thickness of a layer that, with the layers
// above it, makes up the required structural number; it is zero where the
// layers above make it up already. The required number is 0 to 9, that of the
// layers above 0 to 100, coefficient and drainage as for [LayerSN].
//
// AASHTO 1993, II-3.1.5 (memory).
func LayerThicknessForSN(required, above, coefficient, drainage float64) (quantity.Length, error) {
	err := cmp.Or(neededSN.Check(required), aboveSN.Check(above), coefficients.Check(coefficient), drainages.Check(drainage))
	if err != nil {
		return 0, err
	}
	return quantity.Inches(max(0, required-above) / (coefficient * drainage)), nil
}

func layerCalculations() []calculation.Function {
	coefficient := param("coefficient", "layer coefficient, per inch of thickness, 0.01 to 1")
	drainage := param("drainage", "drainage coefficient, 0.40 to 1.40")
	return []calculation.Function{
		{
			Name:     "layer_sn",
			About:    "What one layer adds to the structural number of a section.",
			Params:   []calculation.Param{param("thickness", "thickness of the layer, 0 to 400 in"), coefficient, drainage},
			Result:   param("sn", "its part of the structural number"),
			Range:    "coefficient 0.01 to 1, drainage coefficient 0.40 to 1.40",
			Sources:  []value.Source{sourceFlexible},
			Example:  "layer_sn(inches(6), 0.14, 1.0)",
			Go:       LayerSN,
			Moves:    "+++",
			Positive: true,
		},
		{
			Name:  "layer_thickness_for_sn",
			About: "The thickness of a layer that, with the layers above it, makes up the required structural number.",
			Params: []calculation.Param{
				param("required", "structural number required, 0 to 9"),
				param("above", "structural number of the layers above, 0 to 100"), coefficient, drainage,
			},
			Result:   param("thickness", "thickness, zero where the layers above suffice"),
			Range:    "required structural number 0 to 9",
			Sources:  []value.Source{sourceLayered},
			Example:  "layer_thickness_for_sn(2.4, 1.815, 0.14, 1.0)",
			Go:       LayerThicknessForSN,
			Moves:    "+---",
			Positive: true,
		},
	}
}
