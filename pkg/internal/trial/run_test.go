package trial_test

import (
	"context"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/section"
)

func TestRunHoldsWhatIsSo(t *testing.T) {
	cases := []struct{ name, why, change, settings, expect string }{
		{"answers", "a word, a quantity and a number", "soil: {cbr: [2]}", "", "{answers: {cover: turf, depth: 4 in, strength: 2}}"},
		{"quantity in another unit", "quantities are the same in any unit", "", "", "{answers: {depth: 101.6 mm}}"},
		{"between", "both ends count", "", "", "{between: {depth: [4 in, 5 in]}}"},
		{"rules", "the rule that decided", "", "", "{rules: {cover: COVER-TURF, depth: DEPTH-LEAST}}"},
		{"held", "a rule that holds beside the one that governs", "water: {groundwater: 1 ft}", "", "{rules: {depth: DEPTH-WET}, held: [DEPTH-LEAST]}"},
		{"not held", "a rule that does not", "", "", "{not_held: [DEPTH-WET]}"},
		{"unasked", "a question that is not asked here", "", "", "{unasked: [strength]}"},
		{"confirm", "an answer that is presumed", "soil: {cbr: [2]}", "", "{confirm: [strength]}"},
		{"failed", "the checks that fail, and no others", "", "", "{failed: [DEEP]}"},
		{"fails", "a check that fails, whichever others do", "", "", "{fails: [DEEP]}"},
		{"none failed", "an empty list is none", "water: {groundwater: 1 ft}", "", "{failed: []}"},
		{"holds and idle", "a check that holds, and one that is not made", "water: {groundwater: 1 ft}", "", "{holds: [DEEP], idle: [FIRM]}"},
		{"stopped", "a check that stops", "soil: {cbr: [0.5]}", "", "{status: stopped, fails: [FIRM]}"},
		{"cautions", "one that is given", "use: car_driveway", "", "{cautions: [SLAB]}"},
		{"without", "one that is not", "", "", "{without: [SLAB]}"},
		{"says", "a part of what is said, with its value", "use: car_driveway", "", "{says: {SLAB: Heavy, LAY: [Lay 4 in, Look at it.], SOFT: [Soft ground., 'soil.cbr: 0.5']}}"},
		{"refused", "a limit crossed; what was not needed was not asked", "use: truck_yard", "", "{status: refused, refusals: [YARD], unasked: [cover]}"},
		{"crossed", "the limits that a person's answer is beyond, and no others", "overrides: [{decision: depth, answer: inches(2), by: A. Example, because: Roots.}]", "", "{status: stopped, crossed: [DEPTH-NOT-LESS]}"},
		{"none crossed", "an answer at the limit is not beyond it", "overrides: [{decision: depth, answer: inches(3), by: A. Example, because: Roots.}]", "{least: 3 in}", "{crossed: []}"},
		{"courses", "laid, not laid, and all from the bottom", "", "", "{courses: {present: [top], absent: [under], from_bottom: [top]}}"},
		{"setting", "a setting at another value", "", "{least: 7 in, strict: true}", "{answers: {depth: 7 in, cover: slab}}"},
		{"variance", "a setting beyond its limit", "", "{least: {by_variance: 2 in}}", "{answers: {depth: 2 in}}"},
		{"override", "a person's decision stands where a rule is named", "overrides: [{decision: depth, answer: inches(9), by: A. Example, because: Roots.}]", "", "{answers: {depth: 9 in}, rules: {depth: override}}"},
	}
	book := open(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text := walk + "    cases:\n      - {case: one, why: " + `"` + c.why + `"` + ", change: {" + c.change + "}, expect: " + c.expect
			if c.settings != "" {
				text += ", settings: " + c.settings
			}
			trials := read(t, text+"}\n")
			require.Len(t, trials, 1)
			report, err := measured(t, book, trials)
			require.NoError(t, err)
			require.Empty(t, report.Results[0].Failures)
			require.Equal(t, 1, report.Passed)
		})
	}
}

func TestRunTellsWhatIsNotSo(t *testing.T) {
	type failure struct{ What, Was, Wanted, Rule, Because string }
	cases := []struct {
		name, why, change, expect string
		want                      failure
	}{
		{"answer", "was and wanted, with the rule and its reason", "", "{answers: {depth: 5 in}}",
			failure{"depth", "4 in (101.6 mm)", "5 in (127 mm)", "DEPTH-LEAST", "At least 4 in."}},
		{"between", "below the least", "", "{between: {depth: [5 in, 6 in]}}",
			failure{"depth", "4 in (101.6 mm)", "5 in (127 mm) to 6 in (152.4 mm)", "DEPTH-LEAST", "At least 4 in."}},
		{"between, above", "above the most", "", "{between: {depth: [1 in, 3 in]}}",
			failure{"depth", "4 in (101.6 mm)", "1 in (25.4 mm) to 3 in (76.2 mm)", "DEPTH-LEAST", "At least 4 in."}},
		{"rule", "another rule decided", "", "{rules: {cover: COVER-SLAB}}",
			failure{"rule of cover", "COVER-TURF", "COVER-SLAB", "COVER-TURF", "None do."}},
		{"held", "the rule does not hold", "", "{held: [DEPTH-WET]}",
			failure{"rule DEPTH-WET", "does not hold", "holds", "DEPTH-LEAST", "At least 4 in."}},
		{"not held", "the rule holds", "", "{not_held: [DEPTH-LEAST]}", failure{"rule DEPTH-LEAST", "holds", "does not hold", "DEPTH-LEAST", "At least 4 in."}},
		{"unasked", "it is asked", "", "{unasked: [cover]}", failure{"cover", "turf", "not asked", "COVER-TURF", "None do."}},
		{"not asked", "an answer of what is not asked", "", "{answers: {strength: 2}}", failure{"strength", "not asked", "2", "", ""}},
		{"confirm", "it was not presumed", "", "{confirm: [depth]}",
			failure{"depth", "not presumed", "presumed, to be confirmed", "DEPTH-LEAST", "At least 4 in."}},
		{"failed", "one more fails", "", "{failed: []}", failure{"failed checks", "DEEP", "none", "", ""}},
		{"holds", "it fails", "", "{holds: [DEEP]}", failure{"check DEEP", "fails", "holds", "", ""}},
		{"idle", "it is made", "", "{idle: [DEEP]}", failure{"check DEEP", "fails", "is not made", "", ""}},
		{"caution", "it is not given", "", "{cautions: [SLAB]}", failure{"caution SLAB", "not given", "given", "", ""}},
		{"without", "it is given", "use: car_driveway", "{without: [SLAB]}", failure{"caution SLAB", "given", "not given", "", ""}},
		{"says", "another text", "", "{says: {LAY: Lay 5 in}}", failure{"step LAY", "Lay 4 in. Look at it.", "Lay 5 in", "", ""}},
		{"says, not given", "what is not given says nothing, not even that", "", "{says: {SLAB: not given}}", failure{"caution SLAB", "not given", "not given", "", ""}},
		{"status", "it is designed", "", "{status: refused}", failure{"status", "designed", "refused", "", ""}},
		{"status left out", "designed is expected where nothing is said", "use: truck_yard", "{refusals: [YARD]}",
			failure{"status", "refused by YARD", "designed", "", ""}},
		{"refusals", "none was crossed", "", "{refusals: [YARD]}", failure{"refusals", "none", "YARD", "", ""}},
		{"crossed", "no answer is beyond a limit", "", "{crossed: [DEPTH-NOT-LESS]}", failure{"limits crossed", "none", "DEPTH-NOT-LESS", "", ""}},
		{"course", "it is not laid", "", "{courses: {present: [under]}}", failure{"course under", "not laid", "laid", "", ""}},
		{"courses", "the order", "", "{courses: {from_bottom: [top, under]}}",
			failure{"courses from the bottom", "top", "top, under", "", ""}},
	}
	book := open(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			trials := read(t, walk+"    cases:\n      - {case: one, why: "+`"`+c.why+`"`+", change: {"+c.change+"}, expect: "+c.expect+"}\n")
			report, err := measured(t, book, trials)
			require.NoError(t, err)
			require.Equal(t, 1, report.Failed)
			require.Len(t, report.Results[0].Failures, 1)
			f := report.Results[0].Failures[0]
			require.Empty(t, cmp.Diff(c.want, failure{f.What, f.Was, f.Wanted, f.Rule, f.Because}), c.why)
			require.Equal(t, "trials/yard.yaml", f.Place.File)
			require.NotZero(t, f.Place.Line)
		})
	}
}

// TestRunRefusesWhatACalculationDoesNotReach: as a design does, under the id of
// the rule that asked.
func TestRunRefusesWhatACalculationDoesNotReach(t *testing.T) {
	book, _ := standard(t)
	trials := read(t, walk+`    cases:
      - {case: nothing, why: A reading of 0., change: {soil: {cbr: [0]}}, expect: {status: refused, refusals: [TOO-SOFT]}}
`)
	report, err := measured(t, book, trials)
	require.NoError(t, err)
	require.Empty(t, report.Results[0].Failures)
	require.Equal(t, section.Refused, report.Results[0].Status)
}

func TestReportAsText(t *testing.T) {
	report, err := measured(t, open(t), read(t, walk+`    expect: {answers: {depth: 5 in, cover: turf}}
    cases:
      - {case: cars, why: Cars come., change: {use: car_driveway}, expect: {rules: {cover: COVER-SLAB}}}
      - {case: water, why: Water is near., change: {water: {groundwater: 1 ft}}, expect: {holds: [DEEP]}}
`))
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(`trials/yard.yaml:2:5: WALK fails
  A walk in the yard.
  trials/yard.yaml:5:24: depth
    was     4 in (101.6 mm)
    wanted  5 in (127 mm)
    by      DEPTH-LEAST at yard.yaml:24:9
    because At least 4 in.

3 trials: 2 pass, 1 fail

rules reached                               4 of    5,  80.0 %
clauses seen true and false                 5 of   12,  41.7 %
clauses seen to decide, true and false      5 of   12,  41.7 %

yard.yaml:33:9: rule STRENGTH of strength never answers
yard.yaml:17:43: rule COVER-SLAB: strict
    never true
yard.yaml:25:61: rule DEPTH-WET: water.groundwater < feet(3)
    never false
yard.yaml:31:11: decision strength: known(soil.cbr)
    never true
yard.yaml:36:52: course under: known(strength)
    never true
yard.yaml:39:40: check FIRM when: known(strength)
    never true
yard.yaml:39:64: check FIRM: strength > 1
    never true; never false
yard.yaml:47:27: refusal YARD: use == truck_yard
    never true
`, told(t, report)))
}

// Trials stop where they are told to: after the first that fails, or with their
// context.
func TestRunStops(t *testing.T) {
	trials := read(t, walk+`    cases:
      - {case: a, why: x, expect: {answers: {cover: turf}}}
      - {case: b, why: x, expect: {answers: {cover: slab}}}
      - {case: c, why: x, expect: {answers: {depth: 1 in}}}
`)
	all, err := trial.Run(t.Context(), open(t), trials, trial.Options{})
	require.NoError(t, err)
	require.Equal(t, []int{1, 2}, []int{all.Passed, all.Failed})
	require.Nil(t, all.Coverage, "nothing is measured unless it is asked for")
	require.False(t, all.OK())
	first, err := trial.Run(t.Context(), open(t), trials, trial.Options{UntilFailure: true})
	require.NoError(t, err)
	require.Equal(t, all.Results[:2], first.Results)
	passing, err := trial.Run(t.Context(), open(t), trials[:1], trial.Options{UntilFailure: true})
	require.NoError(t, err)
	require.True(t, passing.OK())

	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err = trial.Run(ctx, open(t), trials, trial.Options{})
	require.ErrorIs(t, err, context.Canceled)
	require.ErrorContains(t, err, "after 0 of 3 trials")
}

// What a file says cannot act on the terminal.
func TestReportIsSafeToShow(t *testing.T) {
	report, err := measured(t, open(t), read(t, strings.Replace(walk, "A walk in the yard.", `"A \e[31mwalk\u202e \u009b"`, 1)+"    expect: {answers: {cover: slab}}\n"))
	require.NoError(t, err)
	text := told(t, report)
	require.Contains(t, text, "A ?[31mwalk? ?")
	for _, r := range text {
		require.True(t, r == '\n' || unicode.IsPrint(r), "%q", r)
	}
}
