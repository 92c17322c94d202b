package geosynthetic

import (
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Ground on which a geosynthetic helps, FHWA NHI-07-092 and HI-95-038 ch. 5,
// relayed by a reprint.
const (
	helpsBelowCBR      = 3.0  // percent, soaked or in the field
	helpsBelowStrength = 90.0 // kPa, printed as 2000 psf (95.8 kPa) with 90 kPa beside it
	helpsBelowRValue   = 20.0 // "about"
	helpsBelowModulus  = 30.0 // MPa, "about", printed as 4500 psi (31.0 MPa) with 30 MPa beside it
)

// HelpsByCBR reports whether a geosynthetic helps on ground of the given CBR
// (percent, above 0 to 100): below 3. FHWA ch. 5, relayed.
func HelpsByCBR(cbr float64) (bool, error) {
	if err := checkCBR("cbr", cbr); err != nil {
		return false, err
	}
	return cbr < helpsBelowCBR, nil
}

// HelpsByStrength tells the same by undrained shear strength (above 0 to 1000
// kPa): below 90 kPa. FHWA ch. 5, relayed.
func HelpsByStrength(undrained quantity.Pressure) (bool, error) {
	sense := calculation.Range{Name: "undrained strength", Unit: "kPa", Low: 0, Above: true, High: 1000, Document: boundOfSense}
	if err := sense.Check(undrained.Kilopascals()); err != nil {
		return false, err
	}
	return undrained.Kilopascals() < helpsBelowStrength, nil
}

// HelpsByRValue tells the same by R-value (0 to 100): below about 20. FHWA ch.
// 5, relayed.
func HelpsByRValue(rValue float64) (bool, error) {
	sense := calculation.Range{Name: "r value", Low: 0, High: 100, Document: boundOfSense}
	if err := sense.Check(rValue); err != nil {
		return false, err
	}
	return rValue < helpsBelowRValue, nil
}

// HelpsByModulus tells the same by resilient modulus (above 0 to 1000 MPa):
// below about 30 MPa. FHWA ch. 5, relayed.
func HelpsByModulus(modulus quantity.Pressure) (bool, error) {
	sense := calculation.Range{Name: "resilient modulus", Unit: "MPa", Low: 0, Above: true, High: 1000, Document: boundOfSense}
	if err := sense.Check(modulus.Megapascals()); err != nil {
		return false, err
	}
	return modulus.Megapascals() < helpsBelowModulus, nil
}

// USCSThatGeosyntheticsHelp lists the soil classes of the Unified system on
// which geosynthetics help. FHWA ch. 5, relayed.
func USCSThatGeosyntheticsHelp() []string {
	return []string{"SC", "CL", "CH", "ML", "MH", "OL", "OH", "PT"}
}

// AASHTOThatGeosyntheticsHelp lists the soil groups of AASHTO on which
// geosynthetics help. FHWA ch. 5, relayed.
func AASHTOThatGeosyntheticsHelp() []string {
	return []string{"A-5", "A-6", "A-7-5", "A-7-6"}
}

// HelpsBySoil reports whether a soil class of either system is one on which
// geosynthetics help. FHWA ch. 5, relayed.
func HelpsBySoil(class string) bool {
	return slices.Contains(USCSThatGeosyntheticsHelp(), class) || slices.Contains(AASHTOThatGeosyntheticsHelp(), class)
}

// FabricFunction is what a geosynthetic does on ground of some strength.
type FabricFunction string

// The functions by strength.
const (
	Filters              FabricFunction = "filtration, possibly separation"
	FiltersAndSeparates  FabricFunction = "filtration and separation, possibly reinforcement"
	FiltersAndReinforces FabricFunction = "all functions, reinforcement too"
)

// Where the functions change, CBR in percent (FHWA, memory).
const (
	functionFiltersFrom   = 2.0
	functionSeparatesFrom = 1.0
)

// Vocabulary lists the functions.
func (FabricFunction) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "fabric_function",
		About: "What a geosynthetic does on ground of some strength.",
		Words: []value.WordEntry{
			{Name: "filters", Label: string(Filters), About: "CBR 2 to 3."},
			{Name: "filters_and_separates", Label: string(FiltersAndSeparates), About: "CBR 1 to 2."},
			{Name: "filters_and_reinforces", Label: string(FiltersAndReinforces), About: "CBR below 1."},
		},
	}
}

// FabricFunctionFor is what a geosynthetic does on ground of the given CBR
// (percent, above 0 to 3): FHWA HI-95-038 Table 5-1 and NHI-07-092 ch. 5, from
// memory. Above 3 the table ends, and so does the function.
func FabricFunctionFor(cbr float64) (FabricFunction, error) {
	table := calculation.Range{Name: "cbr", Unit: "percent", Low: 0, Above: true, High: helpsBelowCBR, Document: "FHWA NHI-07-092 (2008), ch. 5"}
	if err := table.Check(cbr); err != nil {
		return "", err
	}
	switch {
	case cbr >= functionFiltersFrom:
		return Filters, nil
	case cbr >= functionSeparatesFrom:
		return FiltersAndSeparates, nil
	}
	return FiltersAndReinforces, nil
}
