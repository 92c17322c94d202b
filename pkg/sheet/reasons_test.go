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
		{"measured", "somebody measured it", rulebook.Measured, "standing: MEASURED"},
		{"correlated", "from another test", rulebook.Correlated, "standing: CORRELATED"},
		{"presumed", "nobody did", rulebook.Presumed, "standing: PRESUMED"},
		{"none", "a rule that decides", rulebook.NoStanding, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := patio()
			chosen(s, "bedding_thickness", func(r *section.Rule) { r.Standing = c.standing })
			out := flat(reasonOf(t, s, "bedding"))
			if c.want == "" {
				require.NotContains(t, out, "standing:", c.why)
				return
			}
			require.Contains(t, out, c.want, c.why)
		})
	}
	rests := reasonOf(t, patio(), "base")
	require.Contains(t, rests, "Rule CBR-SILT (presumed), at ground.yaml:12:7.", "what it rests on has its standing too")
	s := patio()
	chosen(s, "design_cbr", func(r *section.Rule) { r.Standing = "" })
	require.Contains(t, reasonOf(t, s, "base"), "Rule CBR-SILT, at", "and no brackets without one")
}

// What a reader must know of a source is told once on a sheet, and with every
// reason of a course.
func TestSourceNotes(t *testing.T) {
	const note = "written for roads, not for patios."
	s := patio()
	chosen(s, "bedding_thickness", func(r *section.Rule) { r.Source = "recalled" })
	out := flat(textOf(t, s, quantity.US))
	require.Equal(t, 1, strings.Count(out, "Note: "+note), "two courses rest on it")
	require.Less(t, strings.Index(out, "Rule BED."), strings.Index(out, "Note: "), "where it is first named")
	require.Less(t, strings.Index(out, "Note: "), strings.Index(out, "Rule BASE-FROST."))
	require.Contains(t, flat(reasonOf(t, s, "bedding")), "note: "+note)
	require.Contains(t, flat(reasonOf(t, s, "base")), "note: "+note, "each page has it")
	require.NotContains(t, reasonOf(t, patio(), "bedding"), "note:", "a source without a note")

	s = patio()
	chosen(s, "bedding_thickness", func(r *section.Rule) { r.Source = "lost" })
	require.Contains(t, flat(textOf(t, s, quantity.US)), "Rule BED. Source: lost.", "a source that the table lacks is named as it is")
	s.Checks[0].Source = ""
	require.Contains(t, flat(textOf(t, s, quantity.US)), "Check CHECK-BASE. Source: none given.")
}

// Two rules that say the same, from the same source, are one reason: it is told
// once, and the second rule is named.
func TestTwinSentences(t *testing.T) {
	twin := func(change func(*section.Rule)) string {
		s := patio()
		chosen(s, "base_lifts", func(r *section.Rule) {
			*r = section.Rule{ID: "STONE-TWO", State: rulebook.Chosen, Because: section.Plain("The job asks for a dense base."), Source: "practice"}
			change(r)
		})
		out := textOf(t, s, quantity.US)
		return flat(out[strings.Index(out, "\nWHY\n"):])
	}
	cases := []struct {
		name, why string
		change    func(*section.Rule)
		together  bool
	}{
		{"same", "one reason for both", func(*section.Rule) {}, true},
		{"spaces", "a blank is no difference", func(r *section.Rule) { r.Because.US += " " }, true},
		{"other words", "two reasons", func(r *section.Rule) { r.Because = section.Plain("Otherwise.") }, false},
		{"other source", "the same words, on another authority", func(r *section.Rule) { r.Source = "handbook" }, false},
		{"a person", "the same words, by a person", func(r *section.Rule) { r.By = "J. Orr" }, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			out := twin(c.change)
			if !c.together {
				require.NotContains(t, out, "; lifts: 2.", c.why)
				require.NotContains(t, out, "Also rule")
				return
			}
			require.Contains(t, out, "Material kind: dense-graded crushed stone; lifts: 2. The job asks for a dense base. Rule STONE. Source: common practice, no published source. Also rule STONE-TWO.", c.why)
			require.Equal(t, 1, strings.Count(out, "The job asks for a dense base."))
		})
	}
	same := patio()
	chosen(same, "base_lifts", func(r *section.Rule) {
		*r = section.Rule{ID: "STONE", State: rulebook.Chosen, Because: section.Plain("The job asks for a dense base."), Source: "practice"}
	})
	require.NotContains(t, textOf(t, same, quantity.US), "Also rule", "one rule behind both is named once")
}

// What a person decided is theirs wherever it is told, and the rules beside it
// are not said to govern.
func TestOverridden(t *testing.T) {
	s := patio()
	for i := range s.Reasons {
		if s.Reasons[i].Decision == "paver_thickness" {
			s.Reasons[i].Take = rulebook.Largest
		}
	}
	out := flat(textOf(t, s, quantity.US))
	require.Contains(t, out, "Paver thickness: 2-3/8 in, by J. Orr; the rules give 3-1/8 in. Why: The client bought them already. Effect: Pavers, thickness 2-3/8 in instead of 3-1/8 in.")
	require.Contains(t, out, "Thickness: 2-3/8 in. The client bought them already. Decided by J. Orr in place of the rules.")
	require.NotContains(t, out, "3-1/8 in (PAVER)", "no comparison with what a person decided")
	why := flat(reasonOf(t, s, "pavers"))
	require.Contains(t, why, "J. Orr answers 2-3/8 in, in place of the rules")
	require.Contains(t, why, "holds, but a person decided in place of the rules; it gives 3-1/8 in.")
	require.NotContains(t, why[strings.Index(why, "J. Orr"):], "source:", "a person is no source")

	brief := patio()
	brief.Reasons = nil
	for i := range brief.Courses {
		c := &brief.Courses[i]
		c.Rule, c.Because, c.Source = "COURSE-"+c.Name, section.Plain("It is needed."), "practice"
		for j := range c.Attributes {
			c.Attributes[j].Because, c.Attributes[j].Source = section.Plain("So it is for "+c.Name+", "+c.Attributes[j].Name+"."), "handbook"
		}
	}
	brief.Courses[3].Attributes[0].Rule, brief.Courses[3].Attributes[0].Source = "override", ""
	out = flat(textOf(t, brief, quantity.US))
	require.Contains(t, out, "Thickness: 2-3/8 in. So it is for pavers, thickness. Decided by J. Orr in place of the rules.", "without the reasons too")
	require.Contains(t, out, "Thickness: 8 in. So it is for base, thickness. Rule BASE-FROST. Source: Invented Handbook")
	require.Contains(t, out, "It is needed. Rule COURSE-pavers. Source: common practice, no published source.")
	require.Contains(t, out, "Reason: see Pavers (rule COURSE-base).")

	rests := patio()
	chosen(rests, "design_cbr", func(r *section.Rule) { r.By, r.ID, r.Source = "J. Orr", "override", "" })
	require.Contains(t, flat(reasonOf(t, rests, "base")), "Decided by J. Orr in place of the rules. Silt that nobody tested is taken as weak.")
}

// What another answer governed is told where answers were compared, and nowhere
// else.
func TestGoverned(t *testing.T) {
	cases := []struct {
		name, why string
		take      rulebook.Take
		want      string
	}{
		{"largest", "each that holds, with its rule", rulebook.Largest, "Of 8 in (BASE-FROST), 6 in (BASE-LEAST) and 8 in (BASE-CAR), the largest governs."},
		{"smallest", "the other way", rulebook.Smallest, "the smallest governs."},
		{"first", "the first was not compared", rulebook.First, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := patio()
			for i := range s.Reasons {
				if s.Reasons[i].Decision == "base_thickness" {
					s.Reasons[i].Take = c.take
				}
			}
			out := flat(textOf(t, s, quantity.US))
			if c.want == "" {
				require.NotContains(t, out, "governs", c.why)
				return
			}
			require.Contains(t, out, c.want, c.why)
		})
	}
}

// An answer that no other was compared with does not govern.
func TestGovernedByFew(t *testing.T) {
	for passed, want := range map[int]string{0: "", 1: "Of 8 in (BASE-FROST) and 6 in (BASE-LEAST), the largest governs."} {
		s := patio()
		for i := range s.Reasons {
			if s.Reasons[i].Decision == "base_thickness" {
				s.Reasons[i].Passed = s.Reasons[i].Passed[:passed]
			}
		}
		out := flat(textOf(t, s, quantity.US))
		require.Contains(t, out, want)
		require.Equal(t, want != "", strings.Contains(out, "governs"))
	}
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
