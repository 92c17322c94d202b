package sheet_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
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
	fill := section.Question{Key: "soil.fill", Asks: "Is there fill?", Choices: []section.Otherwise{answer("yes", "", "refused: fill (FILL)")}}
	var b strings.Builder
	require.NoError(t, sheet.Questions(&b, []section.Question{firm, fill}, quantity.US))
	require.Equal(t, "How firm is it? (soil.firm)\nPress a thumb in.\n\n  soft (very soft): 4 in more stone; woven fabric; a drain; and more.\n  stiff: changes nothing.\n"+
		"  hard: 2 in less stone.\n  rock: 2 in less stone.\n  unknown: what is assumed stays.\n\n2 questions are open; an answer may settle several.\n", b.String())
}
