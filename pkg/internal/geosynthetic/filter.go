package geosynthetic

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FilterFlow is how water moves through a filter fabric.
type FilterFlow string

// The kinds of flow.
const (
	SteadyFlow  FilterFlow = "steady flow"
	DynamicFlow FilterFlow = "dynamic flow"
)

// Vocabulary lists the kinds of flow.
func (FilterFlow) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "filter_flow",
		About: "How water moves through a filter fabric.",
		Words: []value.WordEntry{
			{Name: "steady_flow", Label: string(SteadyFlow), About: "One way, without pulses."},
			{Name: "dynamic_flow", Label: string(DynamicFlow), About: "Pulsing, cyclic or to and fro, as under wheels on wet fine ground."},
		},
	}
}

// Filter design of FHWA NHI-07-092 ch. 2, from memory.
const (
	retentionFinesMost = quantity.Share(0.50) // passing 0.075 mm, above it the soil counts as fine
	retentionHigh      = 8.0                  // Cu
	retentionNonwoven  = 1.8
	fineSoilOpening    = 0.3 // mm, never above on fine soil
	dynamicRetention   = 0.5
)

var aUniformity = calculation.Range{Name: "uniformity", Low: 1, High: 1e5, Document: "D60/D10 is at least 1; its most is a " + boundOfSense}

// retention is B of the retention rule for steady flow, AOS <= B D85. Fines are
// what passes 0.075 mm, cu is D60/D10. To 50 percent fines B is 1 for cu
// to 2, cu/2 to 4, 8/cu to 8 and 1 above; over 50 percent it is 1 for a woven
// fabric and 1.8 for a nonwoven. FHWA NHI-07-092 ch. 2, from memory.
func retention(fines quantity.Share, cu float64, making FabricMaking) float64 {
	switch {
	case fines > retentionFinesMost && making == Nonwoven:
		return retentionNonwoven
	case fines > retentionFinesMost:
		return 1
	}
	return max(1, min(cu/2, retentionHigh/cu))
}

// FilterOpeningMost returns the largest apparent opening size that holds the soil
// back: B D85 in steady flow, 0.5 D85 in dynamic flow, and on soil of more than
// 50 percent fines never above 0.3 mm. FHWA NHI-07-092 ch. 2, from memory; that
// the 0.3 mm holds in dynamic flow too is judged here, so that dynamic flow never
// allows more than steady. D85 0.0001 mm to 1 m, fines 0 to 100 percent, cu from
// 1 to 100,000.
func FilterOpeningMost(d85 quantity.Length, fines quantity.Share, cu float64, making FabricMaking, flow FilterFlow) (quantity.Length, error) {
	if err := cmp.Or(aSize.Named("d85").CheckMeasure(d85), aFines.CheckMeasure(fines), aUniformity.Check(cu),
		calculation.CheckWord("making", making), calculation.CheckWord("flow", flow)); err != nil {
		return 0, err
	}
	b := retention(fines, cu, making)
	if flow == DynamicFlow {
		b = dynamicRetention
	}
	most := quantity.Length(b * float64(d85))
	if fines > retentionFinesMost {
		most = min(most, quantity.Millimeters(fineSoilOpening))
	}
	return most, nil
}
