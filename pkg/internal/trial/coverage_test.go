package trial_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/internal/trial"
)

// asks makes a rulebook of one rule with a condition, and of two decisions that
// are asked under one condition.
func asks(t *testing.T, condition string) *engine.Book {
	t.Helper()
	book, err := groundrule.Open(small.Rulebook("one.yaml", `chapter: one
about: One condition.
vocabularies:
  course_kind: {about: Sorts of course., words: {layer: layer}, because: told, source: practice}
terms:
  third: {is: number, about: three where frost is known, when: known(frost.depth), value: 3, because: told, source: practice}
decisions:
  answer:
    asks: Does it hold?
    answers: bool
    take: first
    rules:
      - {rule: HOLDS, when: "`+condition+`", answer: "true", because: It holds., source: practice}
      - {rule: NOT, answer: "false", because: It does not., source: practice}
  first: {asks: "One?", answers: number, take: only, when: known(frost.depth), rules: [{rule: FIRST, answer: 1, because: One., source: practice}]}
  second: {asks: "Two?", answers: number, take: only, when: known(frost.depth), rules: [{rule: SECOND, answer: 2, because: Two., source: practice}]}
`), inside.Partial.(groundrule.Option))
	require.NoError(t, err)
	return inside.Rules(book)
}

type seen struct {
	Text                                   string
	True, False, TrueDecides, FalseDecides int
}

// TestMeasure tries the masking form of the measure on small conditions.
func TestMeasure(t *testing.T) {
	const (
		neither = "{use: foot, base: open, area: 1 sq ft}"
		walkJob = "{use: foot, base: dense, area: 1 sq ft}"
		carJob  = "{use: car_driveway, base: open, area: 1 sq ft}"
		both    = "{use: car_driveway, base: dense, area: 1 sq ft}"
		wet     = "{use: foot, base: open, area: 1 sq ft, water: {groundwater: 1 ft}}"
		dry     = "{use: foot, base: open, area: 1 sq ft, water: {groundwater: 9 ft}}"
		frozen  = "{use: foot, base: open, area: 1 sq ft, frost: {depth: 1 ft}}"
	)
	cases := []struct {
		name, why, condition string
		jobs                 []string
		want                 []seen
	}{
		{"one clause", "it decides whenever it is asked", "use == foot", []string{walkJob, both},
			[]seen{{"use == foot", 1, 1, 1, 1}}},
		{"and", "with one side false the other decides nothing", "use == foot && base == dense", []string{walkJob, neither, both, carJob},
			[]seen{{"use == foot", 2, 2, 1, 1}, {"base == dense", 2, 2, 1, 1}}},
		{"or", "with one side true the other decides nothing", "use == foot || base == dense", []string{walkJob, neither, both, carJob},
			[]seen{{"use == foot", 2, 2, 1, 1}, {"base == dense", 2, 2, 1, 1}}},
		{"not asked in the run", "a clause behind one that settled the matter is worked out all the same", "use != foot && base == dense", []string{walkJob},
			[]seen{{"use != foot", 0, 1, 0, 1}, {"base == dense", 1, 0, 0, 0}}},
		{"not asked, and false", "two false clauses mask each other", "use != foot && base == dense", []string{neither},
			[]seen{{"use != foot", 0, 1, 0, 0}, {"base == dense", 0, 1, 0, 0}}},
		{"coupled", "what cannot be read is masked, and what keeps it from being read decides", "known(water.groundwater) && water.groundwater < feet(3)",
			[]string{wet, dry, neither},
			[]seen{{"known(water.groundwater)", 2, 1, 1, 1}, {"water.groundwater < feet(3)", 1, 1, 1, 1}}},
		{"not", "a clause under ! decides the other way about", "!(use == foot || base == dense)", []string{carJob, walkJob},
			[]seen{{"use == foot", 1, 1, 0, 1}, {"base == dense", 1, 1, 0, 1}}},
		{"shared", "a clause that stands twice is turned in both places at once", "use == foot && base == dense || use == foot && base == open", []string{walkJob, both},
			[]seen{{"use == foot", 1, 1, 1, 1}, {"base == dense", 2, 0, 1, 0}, {"base == open", 0, 2, 0, 0}}},
		{"broken", "a clause that comes to an error, which the run had no need of, is masked", "use == foot || 1 / (area / sq_ft(1) - 1) > 0", []string{walkJob},
			[]seen{{"use == foot", 1, 0, 1, 0}, {"1 / (area / sq_ft(1) - 1) > 0", 0, 0, 0, 0}}},
		{"one question", "values given under one condition are there together, and asked of together", "known(first) && known(second)", []string{frozen, neither},
			[]seen{{"known(first)", 1, 1, 1, 1}, {"known(second)", 1, 1, 1, 1}}},
		{"one question, of a term", "a term is given under a condition as a decision is", "known(first) && known(third)", []string{frozen, neither},
			[]seen{{"known(first)", 1, 1, 1, 1}, {"known(third)", 1, 1, 1, 1}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var trials []trial.Trial
			for i, job := range c.jobs {
				trials = append(trials, read(t, "trials: [{trial: T"+string(rune('0'+i))+", why: To try., job: "+job+", expect: {status: designed}}]\n")...)
			}
			report, err := measured(t, asks(t, c.condition), trials)
			require.NoError(t, err)
			var got []seen
			for _, each := range report.Coverage.Clauses {
				if each.In == "rule HOLDS" {
					got = append(got, seen{each.Text, each.True, each.False, each.TrueDecides, each.FalseDecides})
				}
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// TestMeasureOfTerms: the condition of a term is counted where a clause reads it.
func TestMeasureOfTerms(t *testing.T) {
	report, err := measured(t, asks(t, "known(third) && third > 2"), read(t,
		"trials: [{trial: T, why: To try., job: {use: foot, base: open, area: 1 sq ft, frost: {depth: 1 ft}}, expect: {status: designed}}]\n"))
	require.NoError(t, err)
	for _, each := range report.Coverage.Clauses {
		if each.In == "term third when" {
			require.Equal(t, seen{"known(frost.depth)", 1, 0, 1, 0}, seen{each.Text, each.True, each.False, each.TrueDecides, each.FalseDecides})
			return
		}
	}
	t.Fatal("the condition of the term is not measured")
}

// TestMeasureCountsWhatWasAsked: a rule behind one that answered was not asked,
// nor was anything but the refusals of a refused job.
func TestMeasureCountsWhatWasAsked(t *testing.T) {
	report, err := measured(t, open(t), read(t, walk+`    cases:
      - {case: refused, why: A yard of trucks., change: {use: truck_yard}, expect: {status: refused}}
`))
	require.NoError(t, err)
	for _, c := range report.Coverage.Clauses {
		want := seen{Text: c.Text}
		if c.In == "refusal YARD" {
			want = seen{c.Text, 1, 0, 1, 0}
		}
		require.Equal(t, want, seen{c.Text, c.True, c.False, c.TrueDecides, c.FalseDecides}, c.In)
	}
	for _, r := range report.Coverage.Rules {
		require.Zero(t, r.Chosen+r.Held+r.NotHeld, r.Rule)
	}

	report, err = measured(t, open(t), read(t, walk+"    expect: {status: designed}\n"))
	require.NoError(t, err)
	got := map[string]trial.RuleCovered{}
	for _, r := range report.Coverage.Rules {
		got[r.Rule] = r
	}
	require.Equal(t, 1, got["COVER-SLAB"].NotHeld)
	require.Equal(t, 1, got["COVER-TURF"].Chosen)
	require.Equal(t, 1, got["DEPTH-LEAST"].Chosen)
	require.Equal(t, 1, got["DEPTH-WET"].NotHeld)
	unreached := got["STRENGTH"]
	require.False(t, unreached.Reached())
}

// TestMeasureOfGoverning: of a largest answer the rule that governs is reached,
// and one that holds beside it is not.
func TestMeasureOfGoverning(t *testing.T) {
	report, err := measured(t, open(t), read(t, walk+"    cases:\n      - {case: wet, why: Water is near., change: {water: {groundwater: 1 ft}}, expect: {status: designed}}\n"))
	require.NoError(t, err)
	for _, r := range report.Coverage.Rules {
		switch r.Rule {
		case "DEPTH-LEAST":
			require.Equal(t, []int{0, 1}, []int{r.Chosen, r.Held})
			require.False(t, r.Reached())
		case "DEPTH-WET":
			require.Equal(t, []int{1, 0}, []int{r.Chosen, r.Held})
			require.True(t, r.Reached())
		}
	}
}
