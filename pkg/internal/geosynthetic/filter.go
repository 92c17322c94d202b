package geosynthetic

import (
	"cmp"
	"errors"
	"fmt"

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

// FilterCare is how much hangs on a filter.
type FilterCare string

// The two grades.
const (
	LessCritical FilterCare = "less critical"
	Critical     FilterCare = "critical or severe"
)

// Vocabulary lists the grades.
func (FilterCare) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "filter_care",
		About: "How much hangs on a filter fabric.",
		Words: []value.WordEntry{
			{Name: "less_critical", Label: string(LessCritical), About: "Failure would show and could be mended."},
			{Name: "critical_or_severe", Label: string(Critical), About: "Failure would be costly or hidden, or soil and flow are severe."},
		},
	}
}

// Filter design of FHWA NHI-07-092 ch. 2, from memory.
const (
	retentionFinesMost   = 50.0 // percent passing 0.075 mm, above it the soil counts as fine
	retentionLow         = 2.0  // Cu
	retentionMiddle      = 4.0
	retentionHigh        = 8.0
	retentionNonwoven    = 1.8
	fineSoilOpening      = 0.3 // mm, never above on fine soil
	dynamicRetention     = 0.5
	criticalPermeability = 10.0
	cloggingSizes        = 3.0 // times D15
	cloggingUniformity   = 3.0 // Cu above which the clogging limit holds
	porosityLeast        = 50.0
	openAreaLeast        = 4.0
	gradientRatioBelow   = 3.0
)

// checkUniformity checks a coefficient of uniformity D60/D10.
func checkUniformity(cu float64) error {
	return calculation.Range{Name: "uniformity", Low: 1, High: 1e5, Document: "D60/D10 is at least 1; its most is a " + boundOfSense}.Check(cu)
}

// RetentionFactor is B of the retention rule for steady flow, AOS <= B D85.
// Fines are in percent passing 0.075 mm, cu is D60/D10. To 50 percent fines B
// is 1 for cu to 2, cu/2 to 4, 8/cu to 8 and 1 above; over 50 percent it is 1
// for a woven fabric and 1.8 for a nonwoven. FHWA NHI-07-092 ch. 2, from
// memory.
func RetentionFactor(fines, cu float64, making FabricMaking) (float64, error) {
	if err := cmp.Or(checkFines(fines), checkUniformity(cu)); err != nil {
		return 0, err
	}
	if !making.known() {
		return 0, calculation.UnknownWord("making", making)
	}
	switch {
	case fines > retentionFinesMost && making == Nonwoven:
		return retentionNonwoven, nil
	case fines > retentionFinesMost, cu <= retentionLow, cu >= retentionHigh:
		return 1, nil
	case cu <= retentionMiddle:
		return cu / 2, nil
	}
	return retentionHigh / cu, nil
}

// FilterOpeningMost is the largest apparent opening size that holds the soil
// back: B D85 in steady flow, 0.5 D85 in dynamic flow, and on soil of more than
// 50 percent fines never above 0.3 mm. FHWA NHI-07-092 ch. 2, from memory; that
// the 0.3 mm holds in dynamic flow too is judged here, so that dynamic flow
// never allows more than steady.
func FilterOpeningMost(d85 quantity.Length, fines, cu float64, making FabricMaking, flow FilterFlow) (quantity.Length, error) {
	b, err := RetentionFactor(fines, cu, making)
	if err = cmp.Or(err, checkSize("d85", d85)); err != nil {
		return 0, err
	}
	switch flow {
	case SteadyFlow:
	case DynamicFlow:
		b = dynamicRetention
	default:
		return 0, calculation.UnknownWord("flow", flow)
	}
	most := quantity.Length(b * float64(d85))
	if fines > retentionFinesMost {
		most = min(most, quantity.Millimeters(fineSoilOpening))
	}
	return most, nil
}

// FilterOpeningLeast is the smallest apparent opening size that does not clog,
// in less critical use: 3 D15 for cu above 3; at 3 and below the largest that
// retention allows, which is openingMost (see [FilterOpeningMost]). Where it
// comes out above openingMost no fabric is both. FHWA NHI-07-092 ch. 2, from
// memory.
func FilterOpeningLeast(d15 quantity.Length, cu float64, openingMost quantity.Length) (quantity.Length, error) {
	if err := cmp.Or(checkSize("d15", d15), checkUniformity(cu), checkSize("opening", openingMost)); err != nil {
		return 0, err
	}
	if cu > cloggingUniformity {
		return cloggingSizes * d15, nil
	}
	return openingMost, nil
}

// FilterSoil is the soil that a filter fabric is to hold back.
type FilterSoil struct {
	D10, D15, D60, D85 quantity.Length
	// Fines in percent passing 0.075 mm.
	Fines float64
}

// ErrNoOpening tells that no opening both holds the soil back and stays clear.
var ErrNoOpening = errors.New("no fabric opening both holds the soil and stays clear")

// FilterOpening is the range of apparent opening sizes that hold the soil back
// and do not clog, by [FilterOpeningMost] and [FilterOpeningLeast]. Where there
// is none the error wraps [ErrNoOpening].
func FilterOpening(soil FilterSoil, making FabricMaking, flow FilterFlow) (least, most quantity.Length, err error) {
	err = cmp.Or(checkSize("d10", soil.D10), checkSize("d15", soil.D15), checkSize("d60", soil.D60), checkSize("d85", soil.D85))
	if err != nil {
		return 0, 0, err
	}
	if soil.D10 > soil.D15 || soil.D15 > soil.D60 || soil.D60 > soil.D85 {
		return 0, 0, calculation.OutOfRange("d10", soil.D10.Millimeters(), "mm", "at most D15, which is at most D60, which is at most D85", "the order of sizes")
	}
	cu := float64(soil.D60 / soil.D10)
	if most, err = FilterOpeningMost(soil.D85, soil.Fines, cu, making, flow); err != nil {
		return 0, 0, err
	}
	if least, err = FilterOpeningLeast(soil.D15, cu, most); err != nil {
		return 0, 0, err
	}
	if least > most {
		return 0, 0, fmt.Errorf("%w: at least %.3g mm against clogging, at most %.3g mm for retention",
			ErrNoOpening, least.Millimeters(), most.Millimeters())
	}
	return least, most, nil
}

// FilterPermeability is the least permeability of a filter fabric: the soil's
// own in less critical use, ten times it in critical or severe. FHWA
// NHI-07-092 ch. 2, from memory. Soil 1e-12 to 10 m/s.
func FilterPermeability(soil quantity.Rate, care FilterCare) (quantity.Rate, error) {
	sense := calculation.Range{Name: "soil permeability", Unit: "m/s", Low: 1e-12, High: 10, Document: boundOfSense}
	if err := sense.Check(float64(soil)); err != nil {
		return 0, err
	}
	switch care {
	case LessCritical:
		return soil, nil
	case Critical:
		return criticalPermeability * soil, nil
	}
	return 0, calculation.UnknownWord("care", care)
}

// FilterOpenness is what a filter fabric needs against clogging, in percent:
// 50 of porosity for a nonwoven, 4 of open area for a woven. FHWA NHI-07-092
// ch. 2, from memory.
func FilterOpenness(making FabricMaking) (float64, error) {
	switch making {
	case Nonwoven:
		return porosityLeast, nil
	case Woven, WovenMonofilament:
		return openAreaLeast, nil
	}
	return 0, calculation.UnknownWord("making", making)
}

// GradientRatioPasses reports whether a fabric tested with the soil (ASTM
// D5101) stays clear: a ratio below 3. FHWA NHI-07-092 ch. 2, from memory.
// Ratio above 0, to 1000.
func GradientRatioPasses(ratio float64) (bool, error) {
	sense := calculation.Range{Name: "gradient ratio", Low: 0, Above: true, High: 1000, Document: boundOfSense}
	if err := sense.Check(ratio); err != nil {
		return false, err
	}
	return ratio < gradientRatioBelow, nil
}
