package calculation_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	inf      = math.Inf(1)
	closed   = calculation.Range{Name: "cbr", Low: 1, High: 20, Document: "the test's own table"}
	above    = calculation.Range{Name: "cbr", Low: 0, High: 10, Above: true}
	below    = calculation.Range{Name: "voids", Low: 0, High: 1, Above: true, Below: true}
	traffic  = calculation.Range{Name: "esal", Low: 1, High: 5e7}
	strength = calculation.Range{Name: "strength", Unit: "kPa", Low: 0, High: 191.5210359213434, Above: true}
	freezing = calculation.Range{Name: "mean", Unit: "C", Low: 0, High: 40}
)

func TestRangeHolds(t *testing.T) {
	cases := []struct {
		name, why string
		r         calculation.Range
		x         float64
		want      bool
	}{
		{"low bound", "a closed bound is in", closed, 1, true},
		{"high bound", "a closed bound is in", closed, 20, true},
		{"below low", "a thousandth is more than rounding", closed, 0.999, false},
		{"over high", "a thousandth is more than rounding", closed, 20.02, false},
		{"noise below low", "a rule that compares within the tolerance lets it through", closed, 1 - 1e-10, true},
		{"noise over high", "a rule that compares within the tolerance lets it through", closed, 20 * (1 + 1e-10), true},
		{"past the tolerance", "one part in a hundred million is more than rounding", closed, 20 * (1 + 1e-8), false},
		{"open low bound", "above leaves it out", above, 0, false},
		{"just above", "what is above is in", above, 1e-12, true},
		{"open high bound", "below leaves it out", below, 1, false},
		{"noise below an open bound", "a condition reads it as the bound", below, 1 - 1e-10, false},
		{"just below", "what is below is in", below, 0.999, true},
		{"NaN", "is in no range", closed, math.NaN(), false},
		{"NaN without bounds", "is in no range", calculation.Range{Low: -inf, High: inf}, math.NaN(), false},
		{"infinity without bounds", "is in no range", calculation.Range{Low: -inf, High: inf}, inf, false},
		{"minus infinity", "is in no range", calculation.Range{Low: -inf, High: 0}, -inf, false},
		{"no low bound", "an infinite bound leaves the side open", calculation.Range{Low: -inf, High: 0}, -1e300, true},
		{"freezing point", "a temperature compares on the absolute scale", freezing, -1e-8, true},
		{"as warm as it is cold", "the absolute scale begins below zero, so that a temperature far above compares alike",
			calculation.Range{Unit: "C", Low: 273.15, High: 300}, 273.15 - 1e-8, true},
		{"the same in Fahrenheit", "each scale has a zero of its own", calculation.Range{Unit: "F", Low: 459.67, High: 500}, 459.67 - 1e-8, true},
		{"no low bound, left out", "no number is the infinity that is left out", calculation.Range{Low: -inf, High: 0, Above: true}, -5, true},
		{"frost", "a thousandth of a degree is frost", freezing, -1e-3, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.r.Holds(c.x), c.why) })
	}
}

func TestRangeText(t *testing.T) {
	cases := []struct {
		name, why string
		r         calculation.Range
		system    quantity.System
		want      string
	}{
		{"closed", "both bounds are in", closed, quantity.EitherSystem, "1 to 20"},
		{"above", "says which bound is out", above, quantity.EitherSystem, "above 0 and at most 10"},
		{"both open", "says that both are out", below, quantity.EitherSystem, "above 0 and below 1"},
		{"below alone", "says that the low bound is in", calculation.Range{High: 1, Below: true}, quantity.EitherSystem, "at least 0 and below 1"},
		{"large", "a person writes no power of ten", traffic, quantity.EitherSystem, "1 to 50,000,000"},
		{"figures", "four figures, in its own unit", strength, quantity.EitherSystem, "above 0 and at most 191.5 kPa"},
		{"own system", "keeps its unit", strength, quantity.SI, "above 0 and at most 191.5 kPa"},
		{"other system", "turns both bounds", strength, quantity.US, "above 0 and at most 27.78 psi"},
		{"two units", "each bound as a person writes it", calculation.Range{Unit: "m", Low: 0.1, High: 10}, quantity.US, "3-15/16 in to 32 ft 9-11/16 in"},
		{"nothing to a length", "nothing has no unit", calculation.Range{Unit: "m", Low: 0, High: 10}, quantity.US, "0 to 32 ft 9-11/16 in"},
		{"temperature", "0 degrees are not nothing", freezing, quantity.US, "32 to 104 F"},
		{"temperature in its own scale", "the unit is said once", freezing, quantity.SI, "0 to 40 C"},
		{"no unit of the table", "stays as it is", calculation.Range{Unit: "blows", Low: 1, High: 9}, quantity.SI, "1 to 9 blows"},
		{"no high bound", "is not written as infinity", calculation.Range{Low: 0, High: inf}, quantity.EitherSystem, "at least 0"},
		{"no low bound", "is not written as infinity", calculation.Range{Low: -inf, High: 2, Below: true}, quantity.EitherSystem, "below 2"},
		{"no bounds", "leaves out NaN alone", calculation.Range{Low: -inf, High: inf}, quantity.EitherSystem, "a finite number"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.r.Text(c.system), c.why) })
	}
}

func TestRangeError(t *testing.T) {
	cases := []struct {
		name, why string
		err       error
		system    quantity.System
		want      string
	}{
		{"plain", "the value, the range and the document", closed.Check(30), quantity.EitherSystem, "cbr is 30; it must be 1 to 20 (the test's own table)"},
		{"near the bound", "shows enough figures to be seen outside", closed.Check(20.00001), quantity.EitherSystem, "cbr is 20.00001; it must be 1 to 20 (the test's own table)"},
		{"nearer", "and no more figures than that", closed.Check(20.0000007), quantity.EitherSystem, "cbr is 20.000001; it must be 1 to 20 (the test's own table)"},
		{"named", "one range serves several arguments", closed.Named("base cbr").Check(30), quantity.EitherSystem, "base cbr is 30; it must be 1 to 20 (the test's own table)"},
		{"measured", "is turned into the unit of the range", strength.CheckMeasure(quantity.PSI(30)), quantity.EitherSystem, "strength is 206.8 kPa; it must be above 0 and at most 191.5 kPa ()"},
		{"in the reader's system", "all numbers are turned", strength.CheckMeasure(quantity.PSI(30)), quantity.US, "strength is 30 psi; it must be above 0 and at most 27.78 psi ()"},
		{"wrong dimension", "is in no range", strength.CheckMeasure(quantity.Inches(1)), quantity.SI, "strength is NaN kPa; it must be above 0 and at most 191.5 kPa ()"},
		{"NaN", "is told as it is", closed.Check(math.NaN()), quantity.US, "cbr is NaN; it must be 1 to 20 (the test's own table)"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var outside *calculation.RangeError
			require.ErrorAs(t, c.err, &outside)
			require.Equal(t, c.want, outside.Text(c.system), c.why)
		})
	}
	require.NoError(t, strength.CheckMeasure(quantity.PSI(20)))
	require.EqualError(t, closed.Check(0), "cbr is 0; it must be 1 to 20 (the test's own table)")
}

type tool string

func (tool) Vocabulary() value.Vocabulary {
	return value.Vocabulary{Name: "tool", Words: []value.WordEntry{{Label: "rake"}, {Label: "plate compactor", Go: "plate"}, {Label: "roller"}}}
}

func TestCheckWord(t *testing.T) {
	require.NoError(t, calculation.CheckWord("tool", tool("plate")))
	err := calculation.CheckWord("tool", tool("plate compactor"))
	var unknown *calculation.WordError
	require.ErrorAs(t, err, &unknown)
	require.EqualError(t, err, `tool is "plate compactor"; it must be rake, plate or roller (the words of tool)`)
}
