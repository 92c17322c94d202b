package impact_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

func walk(change ...func(*site.Site)) *site.Site {
	s := &site.Site{Job: "walk", Area: quantity.SquareFeet(100), Use: "foot", Base: "dense"}
	for _, each := range change {
		each(s)
	}
	return s
}

func cars(s *site.Site) { s.Use = "car_driveway" }

func cbr(x float64) func(*site.Site) {
	return func(s *site.Site) { s.Soil.CBR = []float64{x} }
}

func override(decision, answer string) func(*site.Site) {
	return func(s *site.Site) {
		s.Overrides = append(s.Overrides, site.Override{Decision: decision, Answer: answer, By: "A", Because: "b"})
	}
}

var soft = cbr(2)

func TestCauses(t *testing.T) {
	for _, c := range []struct {
		name, why string
		edits     []edit
		job       *site.Site
		kind      impact.Kind
		causes    string
	}{
		{"setting that governs", "through need and thickness", []edit{{"value: 4 in", "value: 5 in"}}, walk(), impact.Section, "setting base_least"},
		{"setting that is passed over", "wheels govern before and after", []edit{{"value: 4 in", "value: 5 in"}}, walk(cars), impact.Same, ""},
		{"setting that governs no more", "it gave way to another that was not edited", []edit{{"cover:\n    value: 6 in", "cover:\n    value: 5 in"}, {"value: inches(1) * 2", "value: inches(1.5)"}}, walk(soft), impact.Section, "setting cover, term extra"},
		{"setting of a yes or no", "the mat is laid no longer", []edit{{"mat_wanted:\n    value: true", "mat_wanted:\n    value: false"}}, walk(), impact.Section, "setting mat_wanted"},
		{"one of two settings", "a soft job has its mesh, wanted or not", []edit{{"mat_wanted:\n    value: true", "mat_wanted:\n    value: false"}, {"cover:\n    value: 6 in", "cover:\n    value: 7 in"}}, walk(soft), impact.Section, "setting cover"},
		{"words beside a setting", "no answer depends on words", []edit{{"value: 4 in", "value: 5 in"}, {"because: At least {base_least}.", "because: So thick."}}, walk(), impact.Section, "setting base_least"},
		{"setting behind a term and decisions", "firm ground is soft of a sudden: mat, base, text and caution", []edit{{"soft_below:\n    value: 3", "soft_below:\n    value: 5"}}, walk(), impact.Section, "setting soft_below"},
		{"answer of a rule", "its text", []edit{{"answer: inches(9)", "answer: inches(10)"}}, walk(cars), impact.Section, "rule NEED-WHEELS"},
		{"answer of a rule that is not held", "the job has no wheels", []edit{{"answer: inches(9)", "answer: inches(10)"}}, walk(), impact.Same, ""},
		{"answer of a rule that holds and is passed over", "the largest is another before and after", []edit{{"answer: base_least + extra", "answer: base_least + extra + inches(1)"}}, walk(soft, cars), impact.Same, ""},
		{"condition of a rule", "it no longer holds, and the next answers", []edit{{"- rule: SLAB-WHEELS\n        when: wheels", "- rule: SLAB-WHEELS\n        when: wheels && yields"}}, walk(cars), impact.Section, "rule SLAB-WHEELS"},
		{"rule removed", "the next answers", []edit{{"      - rule: NEED-WHEELS\n        when: wheels\n        answer: inches(9)\n        because: Wheels want more stone.\n        source: practice\n", ""}}, walk(cars), impact.Section, "rule NEED-WHEELS"},
		{"rule added", "before all others, with the setting it reads as it was", []edit{{"      - rule: SLAB-WHEELS\n", "      - rule: SLAB-ALWAYS\n        answer: thick_slab\n        because: We like it.\n        source: company\n      - rule: SLAB-WHEELS\n"}}, walk(), impact.Section, "rule SLAB-ALWAYS"},
		{"rule added and passed over", "it holds and is not the largest", []edit{{"      - rule: NEED-LEAST\n", "      - rule: NEED-LITTLE\n        answer: inches(1)\n        because: A little.\n        source: company\n      - rule: NEED-LEAST\n"}}, walk(), impact.Same, ""},
		{"rule by another name", "the section is the same", []edit{{"- rule: SLAB-FOOT", "- rule: SLAB-WALK"}}, walk(), impact.ReasonsOnly, "rule SLAB-WALK, rule SLAB-FOOT"},
		{"rule of a list", "one of all", []edit{{"answer: \"'wheels come'\"", "answer: \"'cars come'\""}}, walk(cars, soft), impact.Section, "rule TELL-WHEELS"},
		{"order of rules", "the first that holds answers", []edit{
			{"      - rule: SLAB-WHEELS\n        when: wheels\n        answer: thick_slab\n        because: Wheels break thin slabs.\n        source: practice\n", ""},
			{"because: Enough for feet.\n        source: practice\n", "because: Enough for feet.\n        source: practice\n      - rule: SLAB-WHEELS\n        when: wheels\n        answer: thick_slab\n        because: Wheels break thin slabs.\n        source: practice\n"}},
			walk(cars), impact.Section, "decision slab_laid"},
		{"take", "the least of them", []edit{{"take: largest", "take: smallest"}}, walk(cars), impact.Section, "decision base_need"},
		{"term", "through the rules that read it", []edit{{"value: use != foot", "value: use == truck_yard"}}, walk(cars), impact.Section, "term wheels"},
		{"term that comes out the same", "for this job", []edit{{"value: use != foot", "value: use == car_driveway"}}, walk(cars), impact.Same, ""},
		{"material", "the height of the slab that is laid", []edit{{"height: 50 mm", "height: 60 mm"}}, walk(), impact.Section, "material thin_slab"},
		{"material not laid", "wheels have the thick slab", []edit{{"height: 50 mm", "height: 60 mm"}}, walk(cars), impact.Same, ""},
		{"course laid no longer", "by its condition", []edit{{"when: mat_laid != no_mat", "when: mat_laid == mesh"}}, walk(), impact.Section, "course mat"},
		{"course removed", "it is not laid", []edit{{"  - course: mat\n    label: Mat\n    is: mat_layer\n    when: mat_laid != no_mat\n    because: It lies there.\n    source: practice\n    attributes: {kind: mat_laid}\n", ""}}, walk(), impact.Section, "course mat"},
		{"attribute of another decision", "by the course", []edit{{"attributes: {thickness: base_thickness}", "attributes: {thickness: slab_height}"}}, walk(), impact.Section, "course base"},
		{"attribute of a new decision", "by both", []edit{{"attributes: {thickness: base_thickness}", "attributes: {thickness: base_new}"},
			{"decisions:\n", "decisions:\n  base_new:\n    asks: How thick now?\n    answers: length\n    take: first\n    rules:\n      - rule: BASE-NEW\n        answer: inches(12)\n        because: We like it.\n        source: company\n"}}, walk(), impact.Section, "decision base_new, course base"},
		{"answer that reads no more", "what it read was edited, and so was it", []edit{{"answer: base_least + extra", "answer: inches(7)"}, {"value: inches(1) * 2", "value: inches(3)"}}, walk(soft), impact.Section, "term extra, rule NEED-SOFT"},
		{"check added beside an edited setting", "it has no twin whose condition could have come out otherwise", []edit{{"checks:\n", "checks:\n  - check: NEW\n    asks: Is it new?\n    when: soft_below > 3.2\n    holds: use == truck_yard\n    failing: caution\n    says: It is not.\n    because: So.\n    source: company\n"},
			{"soft_below:\n    value: 3", "soft_below:\n    value: 3.5"}}, walk(), impact.NoticesOnly, "check NEW"},
		{"check that stops", "by its limit", []edit{{"at_least: mm(40)", "at_least: mm(55)"}}, walk(), impact.Status, "check SLAB-THICK"},
		{"check that stops by a material", "by what it compares", []edit{{"height: 50 mm", "height: 30 mm"}}, walk(), impact.Status, "material thin_slab"},
		{"check that cautions", "the same section", []edit{{"holds: base_thickness >= inches(5)", "holds: base_thickness >= inches(7)"}}, walk(soft), impact.NoticesOnly, "check BASE-DEEP"},
		{"check that holds", "a check added that no one notices", []edit{{"checks:\n", "checks:\n  - check: NEW\n    asks: Is it new?\n    holds: use == foot\n    failing: caution\n    says: It is.\n    because: So.\n    source: company\n"}}, walk(), impact.Same, ""},
		{"caution", "the same section", []edit{{"- caution: SOFT\n    when: yields", "- caution: SOFT\n    when: yields || use == foot"}}, walk(), impact.NoticesOnly, "caution SOFT"},
		{"refusal added", "it refuses", []edit{{"refusals:\n", "refusals:\n  - refusal: FEET\n    when: use == foot\n    says: No feet.\n    who: Nobody.\n    source: company\n"}}, walk(), impact.Status, "refusal FEET"},
		{"refusal by a setting", "the setting, not the refusal", []edit{{"strength_least:\n    value: 1", "strength_least:\n    value: 5"}}, walk(), impact.Status, "setting strength_least"},
		{"refusal by a decision", "the ground is taken as weaker", []edit{{"answer: 4\n", "answer: 0.5\n"}}, walk(), impact.Status, "rule STRENGTH-TAKEN"},
		{"refusal no more", "newly designed", []edit{{"strength_least:\n    value: 1", "strength_least:\n    value: 0.1"}}, walk(cbr(0.5)), impact.Status, "setting strength_least"},
		{"refused otherwise", "by another limit too", []edit{{"strength_least:\n    value: 1", "strength_least:\n    value: 5"}}, walk(func(s *site.Site) { s.Use = "truck_yard" }), impact.Otherwise, "setting strength_least"},
		{"refused alike", "by the same limit", []edit{{"value: 4 in", "value: 5 in"}}, walk(cbr(0.5)), impact.Same, ""},
		{"override that reads a setting", "a person's answer", []edit{{"cover:\n    value: 6 in", "cover:\n    value: 7 in"}}, walk(override("base_thickness", "cover * 2")), impact.Section, "setting cover"},
		{"override in the way", "a person answered, whatever the rules say", []edit{{"value: 4 in", "value: 5 in"}}, walk(override("base_thickness", "inches(7)")), impact.Same, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := run(t, garden(t), garden(t, c.edits...), one(c.job))
			if c.kind == impact.Same {
				require.Empty(t, r.Changed, "%s\n%s", c.why, text(t, r))
				require.Equal(t, 1, r.Jobs.Same)
				return
			}
			require.Len(t, r.Changed, 1, c.why)
			require.Equal(t, c.kind, r.Changed[0].Kind, "%s\n%s", c.why, text(t, r))
			require.Equal(t, c.causes, strings.Join(r.Changed[0].Causes, ", "), "%s\n%s", c.why, text(t, r))
			require.Empty(t, r.Changed[0].Possible)
			if c.kind == impact.NoticesOnly {
				require.Len(t, r.Changed[0].Changes, 1, "a check that is in both rulebooks is told once")
			}
		})
	}
}

// TestFailureNamesWhatMayHaveAPart: a rule that comes to no answer cannot be
// followed, but what it can depend on is named.
func TestFailureNamesWhatMayHaveAPart(t *testing.T) {
	r := run(t, garden(t), garden(t, edit{"value: 4 in", "value: 5 in"}, edit{"- rule: SLAB-FOOT\n", "- rule: SLAB-FOOT\n        when: yields\n"}), one(walk()))
	require.Len(t, r.Changed, 1)
	job := r.Changed[0]
	require.Equal(t, impact.Status, job.Kind)
	require.Equal(t, section.Designed, job.Before.Status)
	require.Equal(t, impact.Failed, job.After.Status)
	require.Empty(t, job.Causes)
	require.Equal(t, []string{"rule SLAB-FOOT"}, job.Possible, "and not the setting, which slabs do not depend on")
	require.Equal(t, 1, r.Jobs.NewlyFailed)
	require.Contains(t, text(t, r), "perhaps by rule SLAB-FOOT")
}
