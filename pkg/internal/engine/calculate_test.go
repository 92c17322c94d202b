package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

func TestCalculate(t *testing.T) {
	book := mustOpen(t, guardedBook)
	wet := plain().with("water", quantity.Inches(6))
	for _, c := range []struct {
		name, why, text string
		site            site
		want            string // value, functions called, values read
		err             string
	}{
		{"number", "7 / 2 is not cut to a whole number as in CEL", "7 / 2", plain(), "3.5; ; ", ""},
		{"length", "a quantity read from the job is told with its value", "inches(2) + water", wet, "8 in; ; (water 6 in)", ""},
		{"calculation", "with its description", "modulus(cbr) * 2", plain(), "8,702 psi; modulus; (cbr 3)", ""},
		{"within a name", "a function's name within a longer name is not a call of it", "modulus(panics_not + 3)", plain(), "", `expression:1:9: no value or word is called panics_not; found panics_not`},
		{"decision", "rules are run for it, and their own reads are not told", "drain", wet, "6 in; ; (drain 6 in)", ""},
		{"word", "a word is told as its label, as on the sheet", "base_of", plain(), "dense-graded; ; (base_of dense-graded)", ""},
		{"condition", "whole conditions can be tried", "cbr < 5 && (wet || 1 / zero > 3)", plain(), "yes; ; (cbr 3, wet yes, zero 0)", ""},
		{"condition, not", "! turns each side, and what both read is told", "!(cbr < 5) || !wet", plain(), "no; ; (cbr 3, wet yes)", ""},
		{"condition, error absorbed", "the other side settles it, as in a rule", "1 / zero > 3 || wet", plain(), "yes; ; (zero 0, wet yes)", ""},
		{"condition, error", "without a side that settles it the error is the outcome", "1 / zero > 3 || !wet", plain(), "", "expression:1:1: the expression: 1 / zero > 3: arithmetic without a result: division by zero (with zero = 0)"},
		{"known", "what is missing has no value to tell", "known(water) && water > inches(3)", plain(), "no; ; ", ""},
		{"missing", "a read without a guard is an answer or an error, for there is no other job", "water * 2", plain(), "",
			"expression:1:1: the expression: water * 2: the value is missing: the site does not tell water"},
		{"missing decision", "a decision that is not asked is missing as an input is", "drain", plain(), "", "expression:1:1: the expression: drain: the value is missing: drain is not asked here"},
		{"out of range", "the limits of a calculation hold here as in a rule", "modulus(zero)", plain(), "", "expression:1:1: the expression: modulus(zero): modulus(0): cbr is 0 percent; it must be 1 to 20 percent (the test's own table) (with zero = 0)"},
		{"not well formed", "a slip of the person who asks is told with its column", "cbr > > 3", plain(), "", "expression:1:7: this cannot be read as an expression; found >; wanted a value: a name, a number, a word or an opening bracket"},
		{"mixed up", "kinds are checked before anything is worked out", "wet && water > 6", plain(), "", "expression:1:8: > does not go between these; found length > number; wanted a length, such as inches(6)"},
		{"empty", "a blank text must not come to a value", " ", plain(), "", "expression:1:1: nothing is written here; wanted an expression"},
	} {
		t.Run(c.name, func(t *testing.T) {
			done, err := book.Calculate(c.text, c.site)
			if c.err != "" {
				require.EqualError(t, err, c.err, c.why)
				require.Nil(t, done)
				return
			}
			require.NoError(t, err)
			var names []string
			for _, f := range done.Functions {
				names = append(names, f.Name)
			}
			require.Equal(t, c.want, done.Value.Text(quantity.US)+"; "+strings.Join(names, " ")+"; "+named(done.Values), c.why)
		})
	}
}

// TestCalculateErrors holds that a caller can tell who must act.
func TestCalculateErrors(t *testing.T) {
	book := mustOpen(t, guardedBook)
	_, err := book.Calculate("cbrr", plain())
	var faults diagnostic.List
	require.ErrorAs(t, err, &faults, "whoever wrote the expression")
	require.Equal(t, "cbr", faults[0].Nearest)
	_, err = book.Calculate("modulus(zero)", plain())
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside, "whoever gave the value")
	_, err = book.Calculate("water", plain())
	require.ErrorIs(t, err, rulebook.ErrMissing, "whoever wrote the job")
}
