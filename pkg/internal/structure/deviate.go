package structure

import (
	"fmt"
	"math"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/value"
)

// Deviate says where the standard normal deviate of a reliability comes from.
type Deviate string

const (
	// PrintedDeviate reads the table of the Guide, at its printed levels only.
	// It reproduces published answers.
	PrintedDeviate Deviate = "printed"
	// ExactDeviate is the normal quantile, at any level from 50 to 99.99 %.
	ExactDeviate Deviate = "exact"
)

// Vocabulary lists the two ways.
func (Deviate) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "deviate",
		About: "where the standard normal deviate of a reliability comes from",
		Words: []value.WordEntry{
			{Name: "printed_deviate", Label: string(PrintedDeviate), About: "the table of the AASHTO Guide, at its printed levels only"},
			{Name: "exact_deviate", Label: string(ExactDeviate), About: "the normal quantile, at any level from 50 to 99.99 %"},
		},
	}
}

// printedDeviates is AASHTO 1993 Table 4.1, p. I-62 (memory; 70, 75, 90 and
// 95 % relayed). At 99.99 % the print is 0.031 from the quantile; the others
// agree within 0.0007.
var printedDeviates = []struct{ reliability, deviate float64 }{
	{50, 0}, {60, -0.253}, {70, -0.524}, {75, -0.674}, {80, -0.841}, {85, -1.037},
	{90, -1.282}, {95, -1.645}, {98, -2.054}, {99, -2.327}, {99.9, -3.090}, {99.99, -3.750},
}

// reliabilityBound: below 50 % a section is likelier to fail than not, and the
// table of the Guide ends at 99.99 %.
var reliabilityBound = bound{"reliability", "%", 50, 99.99, false, aashto1993 + ", Table 4.1"}

// NormalDeviate returns the standard normal deviate ZR of a reliability in
// percent, from 50 to 99.99; it is zero or negative. With [PrintedDeviate] only
// the levels of the table will do (50, 60, 70, 75, 80, 85, 90, 95, 98, 99, 99.9
// and 99.99) and any other is an error that names them; nothing is interpolated.
//
// AASHTO 1993, Table 4.1 (memory, in part relayed); the quantile is exact.
func NormalDeviate(reliability float64, from Deviate) (float64, error) {
	if err := reliabilityBound.check(reliability); err != nil {
		return 0, err
	}
	switch from {
	case ExactDeviate:
		// 2R-1 is formed in percent so that 50 % gives zero exactly.
		return -math.Sqrt2 * math.Erfinv((2*reliability-100)/100), nil
	case PrintedDeviate:
		for _, row := range printedDeviates {
			if row.reliability == reliability {
				return row.deviate, nil
			}
		}
		return 0, calculation.OutOfRange("reliability", reliability, "%",
			printedLevels()+" (or ask for the exact deviate)", aashto1993+", Table 4.1")
	}
	return 0, wordError("deviate", string(from), from.Vocabulary(), aashto1993+", Table 4.1")
}

func printedLevels() string {
	levels := make([]string, len(printedDeviates))
	for i, row := range printedDeviates {
		levels[i] = fmt.Sprintf("%g", row.reliability)
	}
	return "the printed levels " + strings.Join(levels, ", ") + " %"
}

var deviateParam = calculation.Param{Name: "deviate", About: "printed_deviate reads the table of the Guide, exact_deviate is the normal quantile"}

func deviateCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:  "normal_deviate",
		About: "The standard normal deviate of a reliability, zero or negative.",
		Params: []calculation.Param{
			{Name: "reliability", About: "chance that the section lasts its life, in percent, 50 to 99.99"},
			deviateParam,
		},
		Result:  calculation.Param{Name: "deviate", About: "standard normal deviate, zero or negative"},
		Range:   "reliability 50 to 99.99 %; printed_deviate only at the printed levels",
		Sources: []value.Source{sourceDeviate},
		Example: "normal_deviate(75, printed_deviate)",
		Go:      NormalDeviate,
	}}
}
