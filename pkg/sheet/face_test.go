package sheet_test

import (
	"testing"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// faced is the patio with everything by which a section is not what the rulebook
// alone would give, and with what it does not have.
func faced() *section.Section {
	s := amended()
	s.Idle = []rulebook.Idle{{What: "the amendment deeper base", From: day("2026-09-01")}, {What: "the variance thin_sand", Until: day("2026-02-01")},
		{What: "the setting frost_least", From: day("2026-11-01"), Until: day("2027-03-31")}}
	s.Variances = append(s.Variances, rulebook.Variance{Name: "thin_base", Bound: "BASE-BOUND", Value: inches(4), Who: "R. Tansy", Why: "The doors sit low", Until: day("2026-06-30")},
		rulebook.Variance{Name: "no_lines", Retires: "MARK-LINES", Who: "R. Tansy", Why: "The yard has none", Until: day("2026-06-30")})
	s.Overrides = []section.Override{
		{Decision: "base_thickness", Label: "base thickness", Answer: inches(4), Asked: true, Instead: inches(8), By: "J. Orr", Because: "The doors sit low", Effects: []section.Effect{
			{Course: "Base", What: "thickness", Without: inches(8), With: inches(4)}, {Course: "Geogrid", What: "laid", With: value.Bool(true)}, {Course: "Fabric", What: "class", Without: value.Text("class 2")},
			{What: "dig", Without: inches(11), With: inches(7)}}},
		{Decision: "joint", Label: "joint", Answer: word("joint", "sand"), Asked: true, By: "J. Orr", Because: "It is at hand.", Effects: []section.Effect{}},
		{Decision: "drain_time", Label: "drain time", Answer: value.Text("hours(48)"), By: "J. Orr", Because: "Rain."},
	}
	taken := rulebook.Amended{By: millStep, Because: "Nobody needs it", Place: at("mill/step.yaml", 9)}
	s.Lifted = []section.Lifted{
		{Sort: "caution", ID: "MARK-LINES", Says: section.Sentence{US: "Have lines within 3 ft marked", SI: "Have lines within 0.914 m marked"}, Amended: taken, Place: at("notes.yaml", 3)},
		{Sort: "check", ID: "DEEP", Replaced: true, Amended: taken, Place: at("notes.yaml", 9)},
		{Sort: "rule", ID: "BASE-WET", Decision: "base_thickness", Says: section.Plain("Wet ground wants more."), Amended: taken, Place: at("base.yaml", 90)},
	}
	s.Crossed = []section.Crossed{
		{Limit: "BASE-BOUND", Decision: "base_thickness", Label: "base thickness", Answer: inches(4), Wanted: section.Plain("at least 6 in"), Because: section.Plain("A thin base ruts."), Source: "handbook",
			By: []string{"J. Orr, who decided the base thickness in place of the rules", `amendment "mill_step" of The Mill (J. Orr)`}, Variance: "thin_base"},
		{Limit: "JOINT-BOUND", Decision: "joint", Label: "joint", Answer: word("joint", "sand"), Wanted: section.Plain("one of stone, mortar"), Because: section.Plain("Sand washes out."), Source: "practice"},
	}
	s.Absent = []section.Absent{
		{Sort: "course", Name: "drain", Label: "Drain", Clauses: []section.Clause{{Text: "base == open", Place: at("water.yaml", 4), Values: []section.Used{{Name: "base", Label: "base", Value: word("base", "dense"), Origin: "site"}}}}},
		{Sort: "course", Name: "barriers", Label: "Check dams", Clauses: []section.Clause{{Text: "base == open", Place: at("water.yaml", 8), Values: []section.Used{{Name: "base", Label: "base", Value: word("base", "dense"), Origin: "site"}}}}},
		{Sort: "course", Name: "grid", Label: "Geogrid", Because: []section.Sentence{section.Plain("The ground bears the load"), section.Plain("Nobody asked for it.")},
			Set: []section.Used{{Name: "grid_below", Label: "grid below", Value: value.Number(2), Origin: "setting", Amended: &taken}}},
		{Sort: "course", Name: "mat", Label: "Mat"},
		{Sort: "decision", Name: "drain_time", Label: "drain time", Clauses: []section.Clause{{Text: "base == open", Place: at("water.yaml", 12), Values: []section.Used{{Name: "base", Label: "base", Value: word("base", "dense"), Origin: "site"}}}}},
	}
	return s
}

// TestReasonsOfFaced holds what is told of a rule that was taken away, and why a course
// is not there.
func TestReasonsOfFaced(t *testing.T) {
	tests := []struct{ name, why, got string }{
		{"reason_lifted.txt", "a rule that was taken away would have answered", reasonOf(t, faced(), "base")},
		{"reason_absent.txt", "a course that is not laid has a reason too", reasonOf(t, faced(), "drain")},
		{"reason_unasked.txt", "as has a question that is not asked, by its label", reasonOf(t, faced(), "drain time")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { golden(t, tt.name, tt.got) })
	}
}
