package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// minimumRow holds up to and with a traffic, in ESAL, and gives inches.
type minimumRow struct{ upTo, asphalt, base float64 }

// minimumTable is AASHTO 1993 II-3.1.4, p. II-35 (memory). The first printed
// row reads "less than 50,000" and the second starts at 50,001; 50,000 itself
// is in neither and is read in the second, the safe one. In the first row a
// surface treatment may stand in place of the inch of asphalt.
var minimumTable = []minimumRow{
	{150e3, 2.0, 4}, {500e3, 2.5, 4}, {2e6, 3.0, 6}, {7e6, 3.5, 6}, {esalBound.high, 4.0, 6},
}

var lightMinimum = minimumRow{50e3, 1.0, 4}

func minimumFor(esal float64) (minimumRow, error) {
	if err := esalBound.check(esal); err != nil {
		return minimumRow{}, err
	}
	if esal < lightMinimum.upTo {
		return lightMinimum, nil
	}
	for _, row := range minimumTable {
		if esal <= row.upTo {
			return row, nil
		}
	}
	return minimumTable[len(minimumTable)-1], nil
}

// MinimumAsphalt returns the least thickness of asphalt for the traffic, in
// 18,000 lbf single axles from 1 to 50 million.
//
// AASHTO 1993, II-3.1.4 (memory).
func MinimumAsphalt(esal float64) (quantity.Length, error) {
	row, err := minimumFor(esal)
	return quantity.Inches(row.asphalt), err
}

// MinimumBase returns the least thickness of aggregate base for the traffic, in
// 18,000 lbf single axles from 1 to 50 million.
//
// AASHTO 1993, II-3.1.4 (memory).
func MinimumBase(esal float64) (quantity.Length, error) {
	row, err := minimumFor(esal)
	return quantity.Inches(row.base), err
}

func minimumCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:    "minimum_asphalt",
			About:   "The least thickness of asphalt that the AASHTO Guide gives for the traffic.",
			Params:  []calculation.Param{esalParam},
			Result:  calculation.Param{Name: "thickness", About: "least thickness of asphalt"},
			Range:   "traffic 1 to 50 million",
			Sources: []value.Source{sourceMinimum},
			Example: "minimum_asphalt(100000.0)",
			Go:      MinimumAsphalt,
		},
		{
			Name:    "minimum_base",
			About:   "The least thickness of aggregate base that the AASHTO Guide gives for the traffic.",
			Params:  []calculation.Param{esalParam},
			Result:  calculation.Param{Name: "thickness", About: "least thickness of aggregate base"},
			Range:   "traffic 1 to 50 million",
			Sources: []value.Source{sourceMinimum},
			Example: "minimum_base(100000.0)",
			Go:      MinimumBase,
		},
	}
}
