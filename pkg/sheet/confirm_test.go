package sheet_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
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

// TestConfirm holds what is said of values that are assumed.
func TestConfirm(t *testing.T) {
	firm := section.Question{Key: "soil.firm", Asks: "How firm is it?", How: section.Plain("press a thumb in"), Choices: []section.Otherwise{
		answer("soft", "very soft", "4 in more stone", "woven fabric", "a drain", "a liner"), answer("stiff", ""), answer("hard", "", "2 in less stone"), answer("rock", "", "2 in less stone")}}
	meter := section.Question{Key: "soil.meter", Asks: "What does it read?", Choices: []section.Otherwise{answer("9", "", "2 in less stone")}}
	fill := section.Question{Key: "soil.fill", Asks: "Is there fill?", Choices: []section.Otherwise{answer("yes", "", "refused: fill (FILL)")}}
	presumed := func(name string, keys ...string) section.Presumed {
		return section.Presumed{Name: name, Label: name, Asks: "What is it?", Value: value.Number(2), How: section.Plain("Nobody measured it."), Confirm: "Measure it.", Rule: "R", Keys: keys}
	}
	const assumed = "  [ ] Strength, assumed: 2. (What is it?)\n      Assumed because: Nobody measured it. Rule R.\n      To confirm: Measure it.\n"
	const heading = "CONFIRM BEFORE BUILDING (assumed, not measured)\n"
	const comes = "      How firm is it? (soil.firm)\n      - very soft: 4 in more stone; woven fabric; a drain; and more.\n      - hard or rock: 2 in less stone.\n"
	for _, c := range []struct {
		name, why string
		s         section.Section
		want      string
	}{
		{"without questions", "nothing is told apart", section.Section{Confirm: []section.Presumed{presumed("strength")}}, heading + assumed},
		{"what comes of each answer", "those alike together, the weightiest differences alone, and not those that change nothing",
			section.Section{Confirm: []section.Presumed{presumed("strength", "soil.firm")}, Questions: []section.Question{firm}}, heading + assumed + comes},
		{"two questions", "of which the same comes, is said once",
			section.Section{Confirm: []section.Presumed{presumed("strength", "soil.firm", "soil.meter")}, Questions: []section.Question{firm, meter}},
			heading + assumed + comes + "      It is told too by: soil.meter.\n"},
		{"changes nothing", "in one line", section.Section{Confirm: []section.Presumed{presumed("strength", "soil.firm"), presumed("frost", "frost.depth")}, Questions: []section.Question{firm}},
			heading + assumed + comes + "\n  Assumed too, and no likely answer changes this section: frost (2).\n"},
		{"nobody asks for it", "it is told as ever", section.Section{Confirm: []section.Presumed{presumed("strength")}, Questions: []section.Question{}}, heading + assumed},
		{"not assumed", "and yet it may change the section", section.Section{Questions: []section.Question{fill}},
			"ASK BEFORE BUILDING (not given; it may change this section)\n  [ ] Is there fill? (soil.fill)\n      - yes: refused: fill (FILL).\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.s.Status = section.Designed
			var b strings.Builder
			require.NoError(t, sheet.Text(&b, &c.s, quantity.US))
			at := strings.Index(b.String(), strings.SplitN(c.want, " (", 2)[0]+" (")
			require.Positive(t, at, b.String())
			got, _, _ := strings.Cut(b.String()[at:], "\nWHY")
			got, _, _ = strings.Cut(got, "\nMade by")
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
	var b strings.Builder
	require.NoError(t, sheet.Questions(&b, []section.Question{firm, fill}, quantity.US))
	require.Equal(t, "How firm is it? (soil.firm)\nPress a thumb in.\n\n  soft (very soft): 4 in more stone; woven fabric; a drain; and more.\n  stiff: changes nothing.\n"+
		"  hard: 2 in less stone.\n  rock: 2 in less stone.\n  unknown: what is assumed stays.\n\n2 questions are open; an answer may settle several.\n", b.String())
}
