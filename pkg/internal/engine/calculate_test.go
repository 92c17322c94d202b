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
		{"number", "", "7 / 2", plain(), "3.5; ; ", ""},
		{"length", "", "inches(2) + water", wet, "8 in; ; (water 6 in)", ""},
		{"calculation", "with its description", "modulus(cbr) * 2", plain(), "8,702 psi; modulus; (cbr 3)", ""},
		{"within a name", "", "modulus(panics_not + 3)", plain(), "", `expression:1:9: no value or word is called panics_not; found panics_not`},
		{"decision", "", "drain", wet, "6 in; ; (drain 6 in)", ""},
		{"word", "", "base_of", plain(), "dense-graded; ; (base_of dense-graded)", ""},
		{"condition", "whole conditions can be tried", "cbr < 5 && (wet || 1 / zero > 3)", plain(), "yes; ; (cbr 3, wet yes, zero 0)", ""},
		{"condition, not", "", "!(cbr < 5) || !wet", plain(), "no; ; (cbr 3, wet yes)", ""},
		{"condition, error absorbed", "", "1 / zero > 3 || wet", plain(), "yes; ; (zero 0, wet yes)", ""},
		{"condition, error", "", "1 / zero > 3 || !wet", plain(), "", "expression:1:1: the expression: 1 / zero > 3: arithmetic without a result: division by zero (with zero = 0)"},
		{"known", "", "known(water) && water > inches(3)", plain(), "no; ; ", ""},
		{"missing", "a read without a guard is an answer or an error, for there is no other job", "water * 2", plain(), "",
			"expression:1:1: the expression: water * 2: the value is missing: the site does not tell water"},
		{"missing decision", "", "drain", plain(), "", "expression:1:1: the expression: drain: the value is missing: drain is not asked here"},
		{"out of range", "", "modulus(zero)", plain(), "", "expression:1:1: the expression: modulus(zero): modulus(0): cbr is 0 percent; it must be 1 to 20 percent (the test's own table) (with zero = 0)"},
		{"not well formed", "", "cbr > > 3", plain(), "", "expression:1:7: this cannot be read as an expression; found >; wanted a value: a name, a number, a word or an opening bracket"},
		{"mixed up", "", "wet && water > 6", plain(), "", "expression:1:8: > does not go between these; found length > number; wanted a length, such as inches(6)"},
		{"empty", "", " ", plain(), "", "expression:1:1: nothing is written here; wanted an expression"},
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
