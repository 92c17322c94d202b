package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/value"
)

// flat is a text on one line, however it was wrapped.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

// chosen sets the rule that was taken for a decision of the patio.
func chosen(s *section.Section, decision string, change func(*section.Rule)) {
	for i := range s.Reasons {
		if s.Reasons[i].Decision == decision {
			change(&s.Reasons[i].Taken[0])
		}
	}
}

// How well a value of the site is known is told with the rule that gave it, and
// a rule that decides has nothing of the kind.
func TestStanding(t *testing.T) {
	cases := []struct {
		name, why string
		standing  rulebook.Standing
		want      string
	}{
		{"measured", "somebody measured it", rulebook.Measured, "This is measured."},
		{"correlated", "from another test", rulebook.Correlated, "This is correlated."},
		{"presumed", "nobody did", rulebook.Presumed, "This is presumed."},
		{"none", "a rule that decides", rulebook.NoStanding, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := patio()
			chosen(s, "bedding_thickness", func(r *section.Rule) { r.Standing = c.standing })
			out := flat(reasonOf(t, s, "bedding"))
			if c.want == "" {
				require.NotContains(t, out, "This is", c.why)
				return
			}
			require.Contains(t, out, c.want, c.why)
		})
	}
	rests := reasonOf(t, patio(), "base")
	require.Contains(t, rests, "This is presumed.", "what it rests on has its standing too")
	s := patio()
	chosen(s, "design_cbr", func(r *section.Rule) { r.Standing = "" })
	require.NotContains(t, reasonOf(t, s, "base"), "This is presumed.", "and nothing is said without one")
}

// What a reader must know of a source is told once in the list of sources, and with
// every reason of a course.
func TestSourceNotes(t *testing.T) {
	const note = "written for roads, not for patios."
	s := patio()
	chosen(s, "bedding_thickness", func(r *section.Rule) { r.Source = "recalled" })
	require.Equal(t, 1, strings.Count(flat(sheetOf(t, "audit", s)), "Note: "+note), "two courses rest on it, and the sources are listed once")
	require.Contains(t, flat(reasonOf(t, s, "bedding")), "Note: "+note)
	require.Contains(t, flat(reasonOf(t, s, "base")), "Note: "+note, "each page has it")
	require.NotContains(t, reasonOf(t, patio(), "bedding"), "Note:", "a source without a note")

	s = patio()
	chosen(s, "bedding_thickness", func(r *section.Rule) { r.Source = "lost" })
	require.Contains(t, flat(sheetOf(t, "audit", s)), "Source: lost.", "a source that the table lacks is named as it is")
}

// What a person decided is theirs wherever it is told.
func TestOverridden(t *testing.T) {
	s := patio()
	for i := range s.Reasons {
		if s.Reasons[i].Decision == "paver_thickness" {
			s.Reasons[i].Take = rulebook.Largest
		}
	}
	require.Contains(t, flat(sheetOf(t, "page", s)), "Paver thickness: 2-3/8 in, decided by J. Orr; the rules give 3-1/8 in. The client bought them already.")
	require.Contains(t, flat(sheetOf(t, "audit", s)), "Pavers, thickness: 2-3/8 in in place of 3-1/8 in.")
	why := flat(reasonOf(t, s, "pavers"))
	require.Contains(t, why, "J. Orr decided 2-3/8 in in place of the rules.")
	require.Contains(t, why, "it gives 3-1/8 in; a person decided in place of the rules.")
	_, own, _ := strings.Cut(why, "J. Orr decided")
	own, _, _ = strings.Cut(own, "Passed over")
	require.NotContains(t, own, "Source:", "a person is no source")

	rests := patio()
	chosen(rests, "design_cbr", func(r *section.Rule) { r.By, r.ID, r.Source = "J. Orr", "override", "" })
	require.Contains(t, flat(reasonOf(t, rests, "base")), "J. Orr decided 3 in place of the rules. Silt that nobody tested is taken as weak.")
}

func TestFunctions(t *testing.T) {
	list := []rulebook.Function{
		{Name: "known", Signatures: []string{"known(name) bool"}, About: "whether a value is there", Example: "known(soil.cbr)"},
		{Name: "inches", Signatures: []string{"inches(number) length"}, About: "inches", Unit: true},
		{Name: "lb_per_ft", Signatures: []string{"lb_per_ft(number) strength of a line"}, About: "pounds in each foot", Unit: true},
		{Name: "cover", Signatures: []string{"cover(pressure, number) length"}, About: "Cover over soft ground.", Example: "cover(psi(50), 3)",
			Function: &calculation.Function{Name: "cover", Params: []calculation.Param{{Name: "load", About: "what presses"}, {Name: "cbr", About: "of the ground"}},
				Result: calculation.Param{Name: "thickness", About: "of the stone"}, Range: "cbr 0.5 to 20",
				Sources: []value.Source{recalled, handbook}}},
	}
	var b bytes.Buffer
	require.NoError(t, sheet.Functions(&b, rulebook.Contents{Functions: list}))
	golden(t, "functions.txt", b.String())
}

func TestCalculation(t *testing.T) {
	cases := []struct {
		name, why string
		c         sheet.Calculation
	}{
		{"calculation_length.txt", "exact in SI, with what was read and called", sheet.Calculation{Value: value.Measured(quantity.Inches(2.3622)),
			Values:    []section.Used{groundIs3, {Name: "base_step", Value: inches(0.5), Origin: rulebook.FromSetting, Amended: &rulebook.Amended{By: millStep}}},
			Functions: []rulebook.Function{{Name: "cover", About: "Cover over soft ground", Function: &calculation.Function{Range: "cbr 0.5 to 20", Sources: []value.Source{recalled}}}}}},
		{"calculation_word.txt", "the word itself beside its label", sheet.Calculation{Value: word("stone", "dense_stone")}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var b bytes.Buffer
			require.NoError(t, sheet.CalculationText(&b, c.c, quantity.US))
			golden(t, c.name, b.String())
		})
	}
}
