package engine

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/rulebook"
)

var states = map[rulebook.State]string{rulebook.NotReached: "not reached", rulebook.NotHeld: "not held", rulebook.Held: "held", rulebook.Chosen: "chosen"}

func TestTakes(t *testing.T) {
	type rule = [3]string
	for _, c := range []struct {
		name, why, kind, take string
		rules                 []rule
		want, states          string
		err                   string
		is                    error
	}{
		{"first", "the first that holds", "number", "first", []rule{{"A", "cbr > 5", "1"}, {"B", "cbr > 2", "2"}, {"C", "", "3"}},
			"a=2 by B", "not held, chosen, not reached", "", nil},
		{"first, a later one fails", "what is not reached is not asked", "number", "first", []rule{{"A", "", "1"}, {"B", "1 / zero > 3", "2"}},
			"a=1 by A", "chosen, not reached", "", nil},
		{"first, none", "with what was read", "number", "first", []rule{{"A", "cbr > 5", "1"}, {"B", "!wet", "2"}},
			"", "", "a.yaml:4:3: a: no rule answers: What is a? (with cbr = 3, wet = yes)", rulebook.ErrNoAnswer},
		{"only, one", "a rule that does not hold cannot clash", "number", "only", []rule{{"A", "cbr > 5", "1"}, {"B", "", "2"}}, "a=2 by B", "not held, chosen", "", nil},
		{"only, equal answers", "two rules may say the same", "length", "only", []rule{{"A", "", "inches(6)"}, {"B", "wet", "mm(152.4)"}, {"C", "", "inches(2) + inches(4)"}},
			"a=6 in by A", "chosen, held, held", "", nil},
		{"only, equal numbers", "0.1 + 0.2 is 0.3", "number", "only", []rule{{"A", "", "0.1 + 0.2"}, {"B", "", "0.3"}}, "a=0.3 by A", "chosen, held", "", nil},
		{"only, equal words", "words are equal by name, as numbers are by value", "grid", "only", []rule{{"A", "", "biaxial"}, {"B", "", "biaxial"}}, "a=biaxial grid by A", "chosen, held", "", nil},
		{"only, two answers", "with both places, both answers and what was read", "grid", "only", []rule{{"A", "cbr < 5", "biaxial"}, {"B", "wet", "no_grid"}},
			"", "", "a.yaml:10:9: a, rule B: two rules answer differently: this one no grid, rule A at a.yaml:9:9 biaxial grid (with cbr = 3, wet = yes)", rulebook.ErrTwoAnswers},
		{"only, none", "it is owed one answer and has none", "number", "only", []rule{{"A", "cbr > 5", "1"}}, "", "", "a.yaml:4:3: a: no rule answers: What is a? (with cbr = 3)", rulebook.ErrNoAnswer},
		{"largest", "150 mm is more than 5 in, whatever the units", "length", "largest", []rule{{"A", "", "inches(4)"}, {"B", "wet", "mm(150)"}, {"C", "", "inches(5)"}}, "a=5.91 in by B", "held, chosen, held", "", nil},
		{"largest, tie", "the earlier rule governs", "length", "largest", []rule{{"A", "", "inches(4)"}, {"B", "", "inches(2) + inches(4)"}, {"C", "", "inches(6)"}},
			"a=6 in by B", "held, chosen, held", "", nil},
		{"largest, tie of numbers", "0.1 + 0.2 is not more than 0.3", "number", "largest", []rule{{"A", "", "0.3"}, {"B", "", "0.1 + 0.2"}}, "a=0.3 by A", "chosen, held", "", nil},
		{"largest, none", "a largest of nothing is not zero", "length", "largest", []rule{{"A", "!wet", "inches(4)"}}, "", "", "a.yaml:4:3: a: no rule answers: What is a? (with wet = yes)", rulebook.ErrNoAnswer},
		{"smallest", "the least of those that hold, and less than zero is less", "number", "smallest", []rule{{"A", "", "4"}, {"B", "", "-2"}, {"C", "wet && cbr > 9", "-9"}}, "a=-2 by B", "held, chosen, not held", "", nil},
		{"smallest, tie", "the earlier rule governs here as well", "number", "smallest", []rule{{"A", "", "2"}, {"B", "", "2"}}, "a=2 by A", "chosen, held", "", nil},
		{"all", "in the order of the rules", "grid", "all", []rule{{"A", "", "biaxial"}, {"B", "cbr > 5", "biaxial"}, {"C", "", "no_grid"}},
			"a=biaxial grid, no grid", "chosen, not held, chosen", "", nil},
		{"all, none", "an empty list is an answer", "grid", "all", []rule{{"A", "cbr > 5", "biaxial"}}, "a=none", "not held", "", nil},
		{"answer fails", "each requirement counts: none is passed over", "pressure", "largest", []rule{{"A", "", "modulus(cbr)"}, {"B", "", "modulus(zero)"}},
			"", "", "a.yaml:10:27: a, rule B: modulus(zero): modulus(0): cbr is 0 percent; it must be 1 to 20 percent (the test's own table) (with zero = 0)", nil},
		{"answer fails, not taken", "a rule that does not hold is not worked out", "pressure", "largest", []rule{{"A", "", "modulus(cbr)"}, {"B", "!wet", "modulus(zero)"}},
			"a=4,351 psi by A", "chosen, not held", "", nil},
		{"condition fails", "an error is neither yes nor no, so the next rule is not tried", "number", "first", []rule{{"A", "cbr / zero > 1", "1"}, {"B", "", "2"}},
			"", "", "a.yaml:9:80: a, rule A: cbr / zero > 1: arithmetic without a result: division by zero (with cbr = 3, zero = 0)", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := mustOpen(t, chapterOf(decisions(decision("a", c.kind, c.take, "", c.rules...)))).Run(plain(), nil)
			if c.err != "" {
				require.EqualError(t, err, c.err, c.why)
				var at *rulebook.RunError
				require.ErrorAs(t, err, &at)
				require.Equal(t, "a", at.In)
				if c.is != nil {
					require.ErrorIs(t, err, c.is)
				}
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.want, answers(out), c.why)
			var got []string
			for _, s := range out.Decided[0].States {
				got = append(got, states[s])
			}
			require.Equal(t, c.states, strings.Join(got, ", "))
		})
	}
}

// TestRangeErrorComesThrough holds that a caller can tell a value outside a
// document's range from any other error.
func TestRangeErrorComesThrough(t *testing.T) {
	book := mustOpen(t, chapterOf(terms([4]string{"stiff", "pressure", "", "modulus(cbr * 10)"}),
		decisions(decision("a", "pressure", "first", "", [3]string{"A", "stiff > psi(1)", "stiff"}))))
	_, err := book.Run(plain(), nil)
	var outside *calculation.RangeError
	require.ErrorAs(t, err, &outside)
	require.Equal(t, calculation.RangeError{Got: 30, Want: cbrRange}, *outside)
	var at *rulebook.RunError
	require.ErrorAs(t, err, &at)
	require.Equal(t, "stiff", at.In, "the first cause is told, not whoever read it")
	require.Equal(t, "a.yaml:4:65", at.Place.String())
	require.Equal(t, "modulus(cbr * 10)", at.Text)
	require.Equal(t, "[{cbr 3}]", fmt.Sprint(at.Values))
}

// TestUnknownTakes holds what is refused when the rulebook is read.
func TestUnknownTakes(t *testing.T) {
	for _, c := range []struct{ name, why, take, kind, answer, want string }{
		{"misspelt", "the nearest way is offered", "larges", "length", "inches(3)", `a.yaml:7:11: this is not a way of taking an answer; found larges; wanted first, only, largest, smallest or all; did you mean "largest"?`},
		{"no order", "one word is not more than another", "largest", "grid", "biaxial", "a.yaml:7:11: answers of this kind have no order; found largest of grid; wanted first, only or all"},
		{"no order of yes and no", "yes is not more than no, though CEL ranks them", "smallest", "bool", "wet", "a.yaml:7:11: answers of this kind have no order; found smallest of bool; wanted first, only or all"},
		{"one of a list", "each rule adds one word, and the list is made of them", "all", "grid", "[biaxial]", "a.yaml:9:28: this is of the wrong kind; found [biaxial], which is a list of grid; wanted a word of grid (no_grid, biaxial)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff([]string{c.want}, faultsOf(t, chapterOf(decisions(decision("a", c.kind, c.take, "", [3]string{"A", "", c.answer}))))), c.why)
		})
	}
}
