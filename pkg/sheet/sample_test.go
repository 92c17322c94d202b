package sheet_test

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// The sections here are made up; no rulebook stands behind them, and none of
// their numbers is a recommendation.

func inches(x float64) value.Value { return value.Measured(quantity.Inches(x)) }

func word(vocabulary, label string) value.Value {
	return value.OfWord(&value.Word{Vocabulary: value.Kind(vocabulary), Name: label, Label: label})
}

func at(file string, line int) diagnostic.Place {
	return diagnostic.Place{File: file, Line: line, Column: 7}
}

var (
	practice  = value.Source{ID: "practice", Known: value.Practice}
	handbook  = value.Source{ID: "handbook", Document: "Invented Handbook of Paving", Clause: "table 3", Known: value.Seen}
	recalled  = value.Source{ID: "recalled", Document: "Invented Frost Manual", Clause: "clause 2", Known: value.Memory, Note: "written for roads, not for patios"}
	because4  = section.Sentence{US: "Bedding sand of 1 in beds the pavers and no more", SI: "Bedding sand of 25 mm beds the pavers and no more"}
	groundIs3 = section.Used{Name: "design_cbr", Label: "design CBR", Value: value.Number(3), Origin: "decision", Presumed: true}
)

func sources() []section.Source {
	var out []section.Source
	for _, s := range []value.Source{practice, handbook, recalled} {
		out = append(out, section.Source{Name: s.ID, Text: s.String(), Source: s})
	}
	return out
}

func rule(id string, state rulebook.State, place diagnostic.Place, answer value.Value, because section.Sentence, from value.Source) section.Rule {
	return section.Rule{ID: id, State: state, Place: place, Answer: answer, Because: because, Source: from.ID}
}

func one(decision, asks string, answer value.Value, r section.Rule) section.Reason {
	return section.Reason{Decision: decision, Asks: asks, Answer: answer, Take: "first", Taken: []section.Rule{r}}
}

func presence(course string, line int) section.Reason {
	r := rule("COURSE-"+course, rulebook.Chosen, at("courses.yaml", line), value.Bool(true), section.Plain("Every patio has it."), practice)
	return one("course."+course, "Is there a course "+course+"?", value.Bool(true), r)
}

func baseThickness() section.Reason {
	chosen := rule("BASE-FROST", rulebook.Chosen, at("base.yaml", 40), inches(8), section.Sentence{
		US: "Silt at CBR 3 heaves where frost reaches it, so that the base is 8 in", SI: "Silt at CBR 3 heaves where frost reaches it, so that the base is 203.2 mm"}, recalled)
	chosen.Clauses = []section.Clause{
		{Text: "design_cbr < 4", Place: at("base.yaml", 41), Holds: true, Values: []section.Used{groundIs3}},
		{Text: "frost.frost_free", Place: at("base.yaml", 42), Holds: false, Values: []section.Used{{Name: "frost.frost_free", Value: value.Bool(false), Origin: "site"}}},
	}
	chosen.Used = []section.Used{groundIs3, {Name: "base_step", Value: inches(0.5), Origin: "setting"}}
	held := rule("BASE-LEAST", rulebook.Held, at("base.yaml", 30), inches(6), section.Plain("Never less."), handbook)
	same := rule("BASE-CAR", rulebook.Held, at("base.yaml", 35), inches(8), section.Plain("Cars."), handbook)
	failed := rule("BASE-SOFT", rulebook.NotHeld, at("base.yaml", 50), value.Value{}, section.Sentence{}, practice)
	failed.Clauses = []section.Clause{{Text: "design_cbr < 1", Place: at("base.yaml", 51), Values: []section.Used{groundIs3}}}
	negated := rule("BASE-DRY", rulebook.NotHeld, at("base.yaml", 55), value.Value{}, section.Sentence{}, practice)
	negated.Clauses = []section.Clause{{Text: "wet", Place: at("base.yaml", 56), Holds: true, Values: []section.Used{{Name: "wet", Value: value.Bool(true), Origin: "term"}}}}
	return section.Reason{Decision: "base_thickness", Asks: "How thick is the base?", Answer: inches(8), Take: "largest",
		Taken: []section.Rule{chosen}, Passed: []section.Rule{held, same, failed, negated}}
}

func groundStrength() section.Reason {
	r := rule("CBR-SILT", rulebook.Chosen, at("ground.yaml", 12), value.Number(3), section.Plain("Silt that nobody tested is taken as weak"), practice)
	r.Standing = "presumed"
	r.Clauses = []section.Clause{{Text: "soil.word == silt", Place: at("ground.yaml", 13), Holds: true, Values: []section.Used{{Name: "soil.word", Value: word("soil_word", "silt"), Origin: "site"}}}}
	measured := rule("CBR-READ", rulebook.NotHeld, at("ground.yaml", 5), value.Value{}, section.Sentence{}, practice)
	measured.Clauses = []section.Clause{{Text: "known(soil.cbr)", Place: at("ground.yaml", 6)}}
	never := rule("CBR-NONE", rulebook.NotReached, at("ground.yaml", 20), value.Value{}, section.Sentence{}, practice)
	reason := one("design_cbr", "How strong is the ground?", value.Number(3), r)
	reason.Passed = []section.Rule{measured, never}
	return reason
}

// patio is a section that can be built.
func patio() *section.Section {
	thick := func(decision, ruleID string, v value.Value) section.Attribute {
		return section.Attribute{Name: "thickness", Label: "thickness", Value: v, Decision: decision, Rule: ruleID}
	}
	lifts := one("base_lifts", "In how many lifts?", value.Number(2), rule("LIFT-PLATE", rulebook.Chosen, at("base.yaml", 70), value.Number(2), section.Plain("The plate compacts 4 in at once."), practice))
	return &section.Section{
		Schema: section.Schema, Version: section.Version, Status: section.Designed,
		Job:     section.Job{Name: "Alder Row patio", Client: "P. Quill", Place: "3 Alder Row", Area: value.Measured(quantity.SquareFeet(400))},
		Library: "0.1-sample",
		Sources: sources(),
		Files:   []rulebook.File{{Name: "base.yaml", SHA256: "0123456789abcdef0123"}, {Name: "ground.yaml", SHA256: "ff23456789abcdef0123"}},
		Depth:   inches(11.375),
		Courses: []section.Course{
			{Name: "subgrade", Label: "Subgrade", Is: "ground", Top: inches(11.375), Bottom: inches(11.375), Presence: "course.subgrade",
				Attributes: []section.Attribute{{Name: "compaction", Label: "compaction", Value: value.Text("95 %"), Decision: "subgrade_compaction", Rule: "COMPACT"}}},
			{Name: "base", Label: "Base", Is: "stone", Top: inches(3.375), Bottom: inches(11.375), Presence: "course.base",
				Attributes: []section.Attribute{thick("base_thickness", "BASE-FROST", inches(8)),
					{Name: "material_kind", Label: "material kind", Value: word("stone", "dense-graded crushed stone"), Decision: "base_material", Rule: "STONE"},
					{Name: "lifts", Label: "lifts", Value: value.Number(2), Decision: "base_lifts", Rule: "LIFT-PLATE"},
					{Name: "compaction", Label: "compaction", Value: value.Text("95 %"), Decision: "subgrade_compaction", Rule: "COMPACT"}}},
			{Name: "bedding", Label: "Bedding", Is: "sand", Top: inches(2.375), Bottom: inches(3.375), Presence: "course.bedding",
				Attributes: []section.Attribute{thick("bedding_thickness", "BED", inches(1)), {Name: "material", Label: "material", Value: word("sand", "concrete sand"), Decision: "bedding_thickness", Rule: "BED"}}},
			{Name: "pavers", Label: "Pavers", Is: "paver", Top: inches(0), Bottom: inches(2.375), Presence: "course.pavers",
				Attributes: []section.Attribute{thick("paver_thickness", "PAVER", inches(2.375))}},
		},
		Checks: []section.Check{
			{ID: "CHECK-BASE", Asks: "Is the base at least the published minimum?", Holds: true, Failing: "stop", Value: inches(8), Limit: inches(6), Bound: section.AtLeast, Source: "handbook"},
			{ID: "CHECK-FALL", Asks: "Does the surface shed water?", Holds: false, Failing: "caution", Value: value.Number(0.5), Limit: value.Number(1), Bound: section.AtLeast,
				Says: section.Plain("Lay the surface to a fall of 1 % at least"), Because: section.Plain("Standing water freezes."), Source: "practice"},
		},
		Cautions: []section.Caution{{ID: "CALL-FIRST", Says: section.Plain("Have buried lines marked before digging"), Source: "practice"}},
		Confirm:  untested(),
		Overrides: []section.Override{{Decision: "paver_thickness", Label: "paver thickness", Answer: inches(2.375), Asked: true, Instead: inches(3.125), By: "J. Orr", Because: "The client bought them already",
			Effects: []section.Effect{{Course: "Pavers", What: "thickness", Without: inches(3.125), With: inches(2.375)}}}},
		Absorbed: []string{"base.yaml:80:7: depth of water is missing"},
		Reasons: []section.Reason{
			groundStrength(), baseThickness(), lifts,
			one("base_material", "Of what is the base?", word("stone", "dense-graded crushed stone"), rule("STONE", rulebook.Chosen, at("base.yaml", 10), word("stone", "dense-graded crushed stone"), section.Plain("The job asks for a dense base."), practice)),
			one("subgrade_compaction", "How dense?", value.Text("95 %"), rule("COMPACT", rulebook.Chosen, at("base.yaml", 90), value.Text("95 %"), section.Plain("Loose ground settles."), handbook)),
			one("bedding_thickness", "How thick is the bedding?", inches(1), rule("BED", rulebook.Chosen, at("base.yaml", 95), inches(1), because4, handbook)),
			{Decision: "paver_thickness", Asks: "How thick are the pavers?", Answer: inches(2.375), Take: "first",
				Taken:  []section.Rule{{ID: "override", State: rulebook.Chosen, Answer: inches(2.375), Because: section.Plain("The client bought them already"), By: "J. Orr"}},
				Passed: []section.Rule{rule("PAVER", rulebook.Held, at("base.yaml", 99), inches(3.125), section.Plain("Cars."), handbook)}},
			presence("subgrade", 3), presence("base", 8), presence("bedding", 13), presence("pavers", 18),
		},
	}
}

var (
	millFrost = rulebook.Amendment{Name: "mill_frost", Company: "The Mill", Who: "R. Tansy", When: day("2026-02-03"), Why: "Three drives heaved last winter"}
	millStep  = rulebook.Amendment{Name: "mill_step", Company: "The Mill", Who: "J. Orr", When: day("2026-02-04"), Why: "The yard crushes to this step"}
)

// amended is the patio by a rulebook that amendments lie over, with permission for a
// thin bed. Its depths are no whole sixteenths.
func amended() *section.Section {
	s := patio()
	s.AsOf, s.Amendments = day("2026-03-01"), []rulebook.Amendment{millFrost, millStep}
	s.Variances = []rulebook.Variance{{Name: "thin_bed", Setting: "bedding_least", Value: inches(0.75), Limit: inches(1), Who: "R. Tansy", Why: "The doors sit low", Until: day("2026-06-30")}}
	base := s.Reason("base_thickness")
	frost := &base.Taken[0]
	frost.Place = at("mill/frost.yaml", 9)
	frost.Amended = &rulebook.Amended{By: millFrost, Because: "Silt heaved under 6 in", Place: at("mill/frost.yaml", 7),
		Replaced: []rulebook.Replaced{{ID: "BASE-COLD", Was: []rulebook.Was{{Key: "when", Text: "frost.deep"}, {Key: "answer", Text: "inches(6)"}}, Place: at("base.yaml", 40)}}}
	step := &rulebook.Amended{By: millStep, Because: "It saves sorting", Place: at("mill/step.yaml", 5), Replaced: []rulebook.Replaced{{ID: "base_step", Was: []rulebook.Was{{Key: "value", Text: "1 in"}}, Place: at("base.yaml", 3)}}}
	frost.Used[1].Amended = step
	lifts := s.Reason("base_lifts")
	lifts.Taken[0].Used = []section.Used{{Name: "base_step", Value: inches(0.5), Origin: "setting", Amended: step}}
	base.Passed[0].Amended = &rulebook.Amended{By: millFrost, Because: "Three drives heaved last winter", Place: at("mill/frost.yaml", 20)}

	mm60 := value.Measured(quantity.Millimeters(60))
	down := func(l quantity.Length) value.Value { return value.Measured(quantity.Millimeters(60) + l) }
	soil, stone, bed, pavers := &s.Courses[0], &s.Courses[1], &s.Courses[2], &s.Courses[3]
	pavers.Attributes[0].Value, pavers.Bottom = mm60, mm60
	for i := range s.Reasons {
		if s.Reasons[i].Decision == "paver_thickness" {
			s.Reasons[i].Answer = mm60
		}
	}
	bed.Top, bed.Bottom = mm60, down(quantity.Inches(1))
	stone.Top, stone.Bottom = bed.Bottom, down(quantity.Inches(9))
	soil.Top, soil.Bottom, s.Depth = stone.Bottom, stone.Bottom, stone.Bottom
	stone.Attributes = append(stone.Attributes, section.Attribute{Name: "lift_most", Label: "lift at most", Value: inches(4), Decision: "base_lifts", Rule: "LIFT-PLATE"},
		section.Attribute{Name: "joint_at_most", Label: "joint at most", Value: inches(0.1875), Decision: "base_lifts", Rule: "LIFT-PLATE"})
	return s
}

// stopped is a section that a check stops.
func stopped() *section.Section {
	s := patio()
	s.Status = section.Stopped
	s.Checks[0].Holds, s.Checks[0].Value = false, inches(4)
	s.Checks[0].Says = section.Plain("Thicken the base.")
	s.Checks[0].Because = section.Plain("A thin base ruts.")
	return s
}

// untested is a strength that nobody measured.
func untested() []section.Presumed {
	return []section.Presumed{{Name: "design_cbr", Label: "design CBR", Asks: "How strong is the ground?", Value: value.Number(3), How: section.Plain("Silt that nobody tested is taken as weak"),
		Confirm: "drive a cone penetrometer at three places", Rule: "CBR-SILT"}}
}

// refused is a job outside what the rules cover.
func refused() *section.Section {
	return &section.Section{Schema: section.Schema, Version: section.Version, Status: section.Refused,
		Job: section.Job{Name: "Mill Yard"}, Sources: sources(), Confirm: untested(),
		Refusals: []section.Refusal{{ID: "TRUCKS", Says: section.Sentence{US: "Trucks stand here, with wheels of 9,000 lbf", SI: "Trucks stand here, with wheels of 40 kN"},
			Who: section.Plain("A licensed civil engineer."), Source: "recalled", Place: at("limits.yaml", 4),
			Clauses: []section.Clause{{Text: "use == truck_yard", Holds: true, Values: []section.Used{{Name: "use", Label: "use", Value: word("load_case", "truck_yard"), Origin: "site"}, groundIs3}}}}}}
}

func day(text string) rulebook.Date {
	d, err := rulebook.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}
