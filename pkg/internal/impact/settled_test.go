package impact_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// when gives rule SLAB-WHEELS, the first of its decision, another condition.
func when(condition string) edit {
	return edit{"- rule: SLAB-WHEELS\n        when: wheels", "- rule: SLAB-WHEELS\n        when: \"" + condition + "\""}
}

var (
	otherSlab = edit{"answer: thin_slab", "answer: thick_slab"} // of SLAB-FOOT, the second and last
	noMat     = edit{"mat_wanted:\n    value: true", "mat_wanted:\n    value: false"}
)

// lax is a check that fails wherever it applies.
func lax(when string) edit {
	return edit{"    when: mat_laid == mesh\n    holds: base_thickness >= inches(5)", "    when: " + when + "\n    holds: base_thickness >= inches(50)"}
}

// An edit of a condition is no cause where the clauses that came out as before
// settle what the condition comes to.
func TestSettledConditionsAreNoCause(t *testing.T) {
	for _, c := range []struct {
		name, why     string
		before, after []edit
		job           *site.Site
		causes        string
	}{
		{"one clause", "no wheels before, none after", nil, []edit{when("wheels && yields"), otherSlab}, walk(), "rule SLAB-FOOT"},
		{"and", "one false clause is enough", []edit{when("wheels && mat_wanted")}, []edit{when("wheels && !mat_wanted"), otherSlab}, walk(), "rule SLAB-FOOT"},
		{"or", "both are false", []edit{when("wheels || yields")}, []edit{when("wheels || yields || use == truck_yard"), otherSlab}, walk(), "rule SLAB-FOOT"},
		{"not", "one true clause under it is enough", []edit{when("!(mat_wanted || wheels)")}, []edit{when("!(mat_wanted || yields)"), otherSlab}, walk(), "rule SLAB-FOOT"},
		{"clause that cannot be asked", "the clause before it settles the matter", []edit{when("known(frost.depth) && frost.depth > inches(10)")},
			[]edit{when("known(frost.depth) && frost.depth > inches(20)"), otherSlab}, walk(), "rule SLAB-FOOT"},
		{"holds as before", "the rule that answers answers by another setting, whatever became of its condition",
			[]edit{{"answer: inches(9)", "answer: cover + inches(3)"}}, []edit{{"answer: inches(9)", "answer: cover + inches(3)"},
				{"- rule: NEED-WHEELS\n        when: wheels", "- rule: NEED-WHEELS\n        when: wheels || yields"}, {"cover:\n    value: 6 in", "cover:\n    value: 7 in"}},
			walk(cars), "setting cover"},
		{"or, by a clause that changed", "one clause false, one that came out otherwise: the setting and no other",
			[]edit{when("yields || mat_wanted")}, []edit{when("yields || mat_wanted"), noMat}, walk(), "setting mat_wanted"},
		{"and, by a clause that changed", "the condition no longer holds by the setting",
			[]edit{when("wheels && mat_wanted")}, []edit{when("wheels && mat_wanted"), noMat}, walk(cars), "setting mat_wanted"},
		{"not settled", "no clause settles it, so the edit of the condition is the cause", []edit{when("wheels || mat_wanted")}, []edit{when("wheels && mat_wanted")}, walk(), "rule SLAB-WHEELS"},
		{"removed behind the first", "nor has one that was behind it and is gone", nil,
			[]edit{{"        answer: thick_slab", "        answer: thin_slab"}, {"      - rule: SLAB-FOOT\n        answer: thin_slab\n        because: Enough for feet.\n        source: practice\n", ""}},
			walk(cars), "rule SLAB-WHEELS"},
		{"behind the first", "rules behind the one that answers have no part, though they were edited", nil,
			[]edit{{"        answer: thick_slab", "        answer: thin_slab"}, {"- rule: SLAB-FOOT\n", "- rule: SLAB-FOOT\n        when: wheels\n"}}, walk(cars), "rule SLAB-WHEELS"},
		{"clause that came out as before", "the setting that it reads has no part, though it was edited", []edit{when("strength >= soft_below && mat_wanted")},
			[]edit{when("strength >= soft_below && mat_wanted"), noMat, {"soft_below:\n    value: 3", "soft_below:\n    value: 3.5"}}, walk(), "setting mat_wanted"},
		{"largest gives way", "its condition was edited, and it would hold as it was", nil,
			[]edit{{"- rule: NEED-WHEELS\n        when: wheels", "- rule: NEED-WHEELS\n        when: wheels && yields"}}, walk(cars), "rule NEED-WHEELS"},
		{"would have come to hold", "as it was, the edited rule would now give 9 in; it held in neither run", []edit{{"- rule: NEED-WHEELS\n        when: wheels", "- rule: NEED-WHEELS\n        when: extra > inches(2)"}},
			[]edit{{"- rule: NEED-WHEELS\n        when: wheels", "- rule: NEED-WHEELS\n        when: extra > inches(4)"}, {"value: inches(1) * 2", "value: inches(3)"}, {"value: 4 in", "value: 5 in"}},
			walk(), "setting base_least, term extra, rule NEED-WHEELS"},
		{"would have come to hold for less", "as it was, it would now give 1 in, which is not the largest", []edit{{"- rule: NEED-WHEELS\n        when: wheels\n        answer: inches(9)", "- rule: NEED-WHEELS\n        when: extra > inches(2)\n        answer: inches(1)"}},
			[]edit{{"- rule: NEED-WHEELS\n        when: wheels\n        answer: inches(9)", "- rule: NEED-WHEELS\n        when: extra > inches(4)\n        answer: inches(1)"}, {"value: inches(1) * 2", "value: inches(3)"}, {"value: 4 in", "value: 5 in"}},
			walk(), "setting base_least"},
		{"check by its condition", "it applies by a term, and fails as it would have", []edit{lax("extra > inches(2)")}, []edit{lax("extra > inches(2)"), {"value: inches(1) * 2", "value: inches(3)"}}, walk(), "term extra"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := run(t, garden(t, c.before...), garden(t, c.after...), one(c.job))
			require.Len(t, r.Changed, 1, c.why)
			require.Equal(t, c.causes, strings.Join(r.Changed[0].Causes, ", "), "%s\n%s", c.why, text(t, r))
		})
	}
}

// A decision of a refused job that comes to no answer cannot be followed: every
// edit that it can depend on is named.
func TestRefusedJobWhoseAnswerFails(t *testing.T) {
	refusal := func(when string) edit {
		return edit{"refusals:\n", "refusals:\n  - refusal: FEET\n    when: \"" + when + "\"\n    says: No feet.\n    who: Nobody.\n    source: company\n"}
	}
	r := run(t, garden(t, refusal("use == foot && slab_height < mm(10)")),
		garden(t, refusal("use == foot || slab_height < mm(10)"), edit{"- rule: SLAB-FOOT\n", "- rule: SLAB-FOOT\n        when: yields\n"}, edit{"value: 4 in", "value: 5 in"}), one(walk()))
	require.Len(t, r.Changed, 1)
	require.Equal(t, impact.Status, r.Changed[0].Kind)
	require.Equal(t, []string{"rule SLAB-FOOT", "refusal FEET"}, r.Changed[0].Causes, "and not the setting of the base\n%s", text(t, r))
}

// checkNew is a check that fails on every job.
const checkNew = "checks:\n  - check: NEW\n    asks: Is it new?\n    holds: use == truck_yard\n    failing: %\n    says: It is not.\n    because: So.\n    source: company\n"

// What is added or removed has no twin in the other rulebook.
func TestChecksAndCautionsComeAndGo(t *testing.T) {
	caution := edit{"- caution: SOFT\n    when: yields", "- caution: SOFT\n    when: yields || use == foot"}
	cautionNew := edit{"cautions:\n", "cautions:\n  - caution: NEW\n    when: use == foot\n    says: Mind.\n    source: company\n"}
	for _, c := range []struct {
		name, why string
		edit      edit
		kind      impact.Kind
		there     string // how the text tells it when it comes
		back      string // and when it goes
		cause     string
	}{
		{"check that cautions", "the section is the same", edit{"checks:\n", strings.Replace(checkNew, "%", "caution", 1)}, impact.NoticesOnly, "check NEW: now fails", "check NEW: no longer fails", "check NEW"},
		{"check that stops", "there is no section any more", edit{"checks:\n", strings.Replace(checkNew, "%", "stop", 1)}, impact.Status, "designed -> stopped (NEW), by check NEW", "stopped (NEW) -> designed, by check NEW", "check NEW"},
		{"caution by another condition", "it is in both rulebooks", caution, impact.NoticesOnly, "caution SOFT: now given", "caution SOFT: no longer given", "caution SOFT"},
		{"caution", "it is in one alone", cautionNew, impact.NoticesOnly, "caution NEW: now given", "caution NEW: no longer given", "caution NEW"},
	} {
		t.Run(c.name, func(t *testing.T) {
			there := run(t, garden(t), garden(t, c.edit), one(walk()))
			back := run(t, garden(t, c.edit), garden(t), one(walk()))
			for told, r := range map[string]*impact.Report{c.there: there, c.back: back} {
				require.Len(t, r.Changed, 1, c.why)
				require.Equal(t, c.kind, r.Changed[0].Kind)
				require.Equal(t, []string{c.cause}, r.Changed[0].Causes)
				require.Contains(t, text(t, r), told)
				if c.kind == impact.NoticesOnly {
					require.Contains(t, text(t, r), "the same section")
				}
			}
		})
	}
}

// A name that was a term and is a decision, or the other way round, is a cause
// under both of its entries.
func TestATermThatBecomesADecision(t *testing.T) {
	term := "  extra:\n    is: length\n    about: what soft ground adds\n    value: inches(1) * 2\n    source: practice\n    because: told\n"
	decision := "  extra:\n    asks: What does soft ground add?\n    answers: length\n    take: first\n    rules:\n      - rule: EXTRA\n        answer: inches(3)\n        because: So much.\n        source: practice\n"
	decided := garden(t, edit{term, ""}, edit{"decisions:\n", "decisions:\n" + decision})
	soft := one(walk(soft))
	require.Equal(t, []string{"term extra", "decision extra"}, run(t, garden(t), decided, soft).Changed[0].Causes)
	require.Equal(t, []string{"term extra", "decision extra"}, run(t, decided, garden(t), soft).Changed[0].Causes)
}

// A group shows six changes of value, and says how many more there are; the
// seventh alone is shown, for the line is there anyway.
func TestManyTurns(t *testing.T) {
	after := garden(t, edit{"answer: least(soil.cbr)", "answer: least(soil.cbr) + 0.5"})
	several := func(n int) string {
		return text(t, run(t, garden(t), after, func(yield func(*site.Site, error) bool) {
			for i := range n {
				if !yield(walk(cbr(float64(5+i))), nil) {
					return
				}
			}
		}))
	}
	require.Equal(t, 7, strings.Count(several(7), " 1 job, such as no. "))
	require.NotContains(t, several(7), "other change")
	require.Equal(t, 6, strings.Count(several(8), " 1 job, such as no. "))
	require.Contains(t, several(8), "    and 2 other changes\n")
	require.Contains(t, several(8), "  no section is deeper or shallower\n")
}

// What was removed is told with where it was, and what may have a part in a job
// that fails with how many more jobs that is.
func TestWriteOfEditsThatAreGone(t *testing.T) {
	mat := edit{"      - rule: MAT-SOFT\n        when: yields\n        answer: mesh\n        because: Soft ground needs a mesh.\n        source: leaflet\n", ""}
	got := text(t, run(t, garden(t), garden(t, mat), one(walk())))
	require.Contains(t, got, "  rule MAT-SOFT removed\n    at garden.yaml:")
	require.Contains(t, got, ", before\n    changes none of these jobs\n")
	fails := edit{"- rule: SLAB-FOOT\n", "- rule: SLAB-FOOT\n        when: yields\n"}
	got = text(t, run(t, garden(t), garden(t, fails), one(walk())))
	require.Contains(t, got, "    when: true -> yields\n    may have a part in 1 more job\n")
	require.NotContains(t, got, "none of these")
	require.NotContains(t, got, "What changes in sections", "no section of this job changes: it has none any more")
	require.NotContains(t, got, "designed by both")
}

// A rulebook that has lost a word takes no job that is told in it; what words alone
// were edited in has no part in that.
func TestAJobThatIsOneNoMore(t *testing.T) {
	heavy, lost := one(walk(func(s *site.Site) { s.Use = "heavy_driveway" })), edit{"heavy_driveway: , ", ""}
	back := run(t, garden(t, lost), garden(t), heavy)
	require.Len(t, back.Changed, 1, "a job of one of the two is no job that cannot be read")
	require.Equal(t, []section.Status{impact.Failed, section.Designed}, []section.Status{back.Changed[0].Before.Status, back.Changed[0].After.Status})
	require.Equal(t, 1, back.Jobs.NewlyDesigned)
	neither := run(t, garden(t, lost), garden(t, lost), heavy)
	require.Equal(t, []int{0, 1}, []int{len(neither.Changed), len(neither.Unreadable)}, "a job of neither is")
	r := run(t, garden(t), garden(t, lost, edit{"because: It is cheap.", "because: Cheap."}), heavy)
	require.Len(t, r.Changed, 1)
	require.Equal(t, impact.Failed, r.Changed[0].After.Status)
	require.Empty(t, r.Changed[0].Causes)
	require.Equal(t, []string{"word heavy_driveway"}, r.Changed[0].Possible, text(t, r))
}

// A long text is cut behind 200 letters.
func TestLongTextIsCut(t *testing.T) {
	for _, c := range []struct {
		name, why string
		letters   int
		want      string
	}{
		{"as long as is shown", "it stands whole", 200, strings.Repeat("é", 200) + "\n"},
		{"longer", "the rest is left out", 201, strings.Repeat("é", 200) + " ..."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := text(t, run(t, garden(t), garden(t, edit{"because: It is cheap.", "because: " + strings.Repeat("é", c.letters)}), one(walk())))
			require.Contains(t, strings.Join(strings.Fields(got), " ")+"\n", strings.TrimSpace(c.want), c.why)
			require.Equal(t, c.letters > 200, strings.Contains(got, " ..."), c.why)
		})
	}
}
