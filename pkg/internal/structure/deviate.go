package structure

import (
	"strconv"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// printedDeviates is AASHTO 1993 Table 4.1, p. I-62 (memory; 70, 75, 90 and
// 95 % relayed). At 99.99 % the print is 0.031 from the normal quantile; the
// others agree within 0.0007.
var printedDeviates = []struct{ reliability, deviate float64 }{
	{50, 0}, {60, -0.253}, {70, -0.524}, {75, -0.674}, {80, -0.841}, {85, -1.037},
	{90, -1.282}, {95, -1.645}, {98, -2.054}, {99, -2.327}, {99.9, -3.090}, {99.99, -3.750},
}

const deviateTable = aashto1993 + ", Table 4.1"

// reliabilities: below 50 % a section is likelier to fail than not, and the table
// of the Guide ends at 99.99 %.
var reliabilities = calculation.Range{Name: "reliability", Unit: "%", Low: 50, High: 99.99, Document: deviateTable}

// NormalDeviate returns the standard normal deviate ZR of a reliability; it is
// zero or negative. Only the levels of the Guide's table will do
// (50, 60, 70, 75, 80, 85, 90, 95, 98, 99, 99.9 and 99.99 %); nothing is
// interpolated, and the error for another level names the two beside it.
//
// AASHTO 1993, Table 4.1 (memory, in part relayed).
func NormalDeviate(reliability quantity.Share) (float64, error) {
	if err := reliabilities.CheckMeasure(reliability); err != nil {
		return 0, err
	}
	percent, lower := reliability.Percent(), printedDeviates[0]
	for _, row := range printedDeviates {
		level := reliabilities
		level.Low, level.High = row.reliability, row.reliability
		if level.Holds(percent) {
			return row.deviate, nil
		}
		if row.reliability > percent {
			return 0, &calculation.WordError{
				Name: "reliability", Got: percentText(percent),
				Want: []string{percentText(lower.reliability), percentText(row.reliability)}, Document: deviateTable,
			}
		}
		lower = row
	}
	return lower.deviate, nil
}

func percentText(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) + " %" }

func deviateCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:    "normal_deviate",
		About:   "The standard normal deviate of a reliability, zero or negative.",
		Params:  []calculation.Param{reliabilityParam},
		Result:  param("deviate", "standard normal deviate, zero or negative"),
		Range:   "reliability at the levels of the Guide's table",
		Sources: []value.Source{sourceDeviate},
		Example: "normal_deviate(percent(75))",
		Go:      NormalDeviate,
	}}
}
