package language

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// TestLimits holds that a hostile expression ends in an error of its own.
func TestLimits(t *testing.T) {
	e := testEnv(t)
	large := []string{"[] expression-too-large: the expression is too long or too deeply nested; wanted at most 4000 characters and 40 levels; name a part of it as a term"}
	many := func(parts string) []string {
		return []string{"[] expression-too-large: the expression has too many parts; found " + parts + " parts; wanted 400 parts at most; name a part of it as a term"}
	}
	repeat := strings.Repeat
	for _, c := range []struct {
		name, why, text string
		want            []string
	}{
		{"longest", "exactly the limit passes", "wet" + repeat(" ", MaxCharacters-3), nil},
		{"too long", "one character more does not", "wet" + repeat(" ", MaxCharacters-2), large},
		{"counted in characters", "not in bytes", "label == '" + repeat("é", MaxCharacters-11) + "'", nil},
		{"brackets", "a parser that calls itself for each would overflow the stack", repeat("(", 3000), large},
		{"brackets, closed", "that they match does not help", repeat("(", 100) + "wet" + repeat(")", 100), large},
		{"brackets that a person writes", "the limit is far from them", repeat("(", 5) + "wet" + repeat(")", 5), nil},
		{"lists", "square brackets nest as well", repeat("[", 3000), large},
		{"maps", "braces nest, though no map is allowed at all", repeat("{", 3000), large},
		{"minus", "CEL takes them two by two", "cbr > " + repeat("-", 3000) + "3", nil},
		{"not", "CEL takes them two by two as well", repeat("!", 3000) + "wet", nil},
		{"not, with brackets", "brackets keep each ! a level of its own", repeat("!(", 1000) + "wet" + repeat(")", 1000), large},
		{"calls", "each call is a level", repeat("modulus(", 100) + "cbr" + repeat(")", 100) + " > load", large},
		{"choices", "in CEL a chain of 260 ends at place -1:0", repeat("cbr > 3 ? 1 : ", 260) + "2", large},
		{"dots", "each dot is a level, and 1500 of them fit in the characters", "a" + repeat(".a", 1500) + " > 3", large},
		{"and, 100 clauses", "a chain is not a nesting", strings.TrimSuffix(repeat("wet && ", 100), " && "), nil},
		{"and, 300 clauses", "not a nesting, but more parts than the limit", strings.TrimSuffix(repeat("wet && ", 300), " && "), many("599")},
		{"or, 300 clauses", "a comparison has three parts, so fewer fit", strings.TrimSuffix(repeat("cbr > 3 || ", 300), " || "), many("1199")},
		{"sum", "each + is a level", strings.TrimSuffix(repeat("1 + ", 100), " + ") + " > 3", large},
		{"most parts", "the list and what is looked for in it are three", "cbr in [" + strings.TrimSuffix(repeat("1, ", MaxNodes-3), ", ") + "]", nil},
		{"one part more", "the limit is exact", "cbr in [" + strings.TrimSuffix(repeat("1, ", MaxNodes-2), ", ") + "]", many("401")},
		{"long list", "items are parts, and a list is no nesting", "cbr in [" + strings.TrimSuffix(repeat("1, ", 500), ", ") + "]", many("503")},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := e.Condition(c.text, nil)
			require.Empty(t, cmp.Diff(c.want, allWritten("", faults)), c.why)
		})
	}
}

// TestTangled holds that texts made to confuse a parser are refused; one that takes a
// parser without end to refuse runs into the time limit of all tests.
func TestTangled(t *testing.T) {
	e := testEnv(t)
	for _, unit := range []string{"(", ")", "([", "({", "a(", "a[", "a.", "a?", "a?b:", "!-", "-!", "'", `"`, "\\", "&&", "||", "a&&", "a==", "[a,", "{a:", "in ", "1e", ".", "?.", "0x", "//", "r'", "'''", "\u2028", "\x00", "`"} {
		text := strings.Repeat(unit, MaxCharacters/len([]rune(unit)))
		_, faults := e.Condition(text, nil)
		require.NotEmpty(t, faults, "%q", unit)
	}
}
