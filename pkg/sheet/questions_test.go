package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/value"
)

// answer is a choice of a question, with what comes of it.
func answer(is, label string, differs ...string) section.Otherwise {
	out := section.Otherwise{Answer: is, Label: label, Status: section.Designed}
	for _, d := range differs {
		out.Differs = append(out.Differs, section.Plain(d))
	}
	return out
}

// TestQuestions holds what is said of the question that is worth asking first.
func TestQuestions(t *testing.T) {
	firm := section.Question{Key: "soil.firm", Asks: "How firm is it?", How: section.Plain("press a thumb in"), Choices: []section.Otherwise{
		answer("soft", "very soft", "4 in more stone", "woven fabric", "a drain", "a liner"), answer("stiff", ""), answer("hard", "", "2 in less stone"), answer("rock", "", "2 in less stone")}}
	fill := section.Question{Key: "soil.fill", Asks: "Is there fill?", Worth: section.Plain("it may add 2 tons"), Choices: []section.Otherwise{answer("yes", "", "refused: fill (FILL)")}}
	weighed := func(mass quantity.Mass, price string) section.Question {
		out := fill
		out.Choices = []section.Otherwise{answer("no", ""), {Answer: "yes", Status: section.Designed, Mass: value.Measured(mass), Price: price}}
		return out
	}
	const first = "How firm is it? (soil.firm)\nPress a thumb in.\n\n  soft (very soft): 4 in more stone; woven fabric; a drain; and more.\n  stiff: changes nothing.\n" +
		"  hard: 2 in less stone.\n  rock: 2 in less stone.\n  unknown: what is assumed stays.\n\n2 questions are open; an answer may settle several.\n"
	for _, c := range []struct {
		name, why string
		asked     []section.Question
		want      string
	}{
		{"none", "it is said why", nil, "Nothing is left to ask: no likely answer changes the section by more than the\nrulebook asks for.\n"},
		{"one", "with what its answer is worth", []section.Question{fill}, "Is there fill? (soil.fill)\nIt may add 2 tons.\n\n  yes: refused: fill (FILL).\n  unknown: what is assumed stays.\n\nIt is the only question open.\n"},
		{"two", "the other changes neither weight nor price", []section.Question{firm, fill}, first},
		{"another that weighs", "what it is worth is told", []section.Question{firm, weighed(1000, "")}, first + "  - soil.fill: It may add 2 tons.\n"},
		{"another that weighs less", "as is what it may save", []section.Question{firm, weighed(-1000, "")}, first + "  - soil.fill: It may add 2 tons.\n"},
		{"another that costs", "in money alone", []section.Question{firm, weighed(0, "5.00")}, first + "  - soil.fill: It may add 2 tons.\n"},
		{"another that costs nothing", "no money is none", []section.Question{firm, weighed(0, "0.00")}, first},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, sheet.Questions(&b, c.asked, quantity.US))
			require.Equal(t, c.want, b.String(), c.why)
		})
	}
}
