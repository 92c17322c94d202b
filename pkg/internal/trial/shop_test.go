package trial_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/pkg/internal/trial"
)

// shop is a rulebook with a material to set, a list to answer, and jobs at which
// rules break or a calculation does not reach.
const shop = `chapter: shop
about: A shop, for trying trials on.
vocabularies:
  course_kind: {about: Sorts of course., words: {layer: layer}, because: told, source: practice}
kinds:
  slab:
    about: a slab
    properties: {height: {is: length, about: how thick it is}}
materials:
  thin: {kind: slab, label: thin slab, source: practice, properties: {height: 2 in}, because: told}
  thick: {kind: slab, label: thick slab, source: practice, properties: {height: 4 in}, because: told}
settings:
  usual: {value: thin, because: Cheap., source: practice}
decisions:
  tell:
    asks: What is told?
    answers: text
    take: all
    rules:
      - {rule: TELL-FOOT, when: use == foot, answer: "'feet'", because: So., source: practice}
      - {rule: TELL-DENSE, when: base == dense, answer: "'stone'", because: So., source: practice}
  slab_laid:
    asks: Which slab?
    answers: slab
    take: first
    rules: [{rule: SLAB, answer: usual, because: The usual., source: practice}]
  height:
    asks: How thick?
    answers: length
    take: first
    rules: [{rule: HEIGHT, answer: slab_laid.height, because: "It is {slab_laid.height}.", source: practice}]
  flat:
    asks: Is it flat?
    answers: bool
    take: first
    rules: [{rule: FLAT, answer: area < sq_ft(1000), because: Large ones are not., source: practice}]
  share:
    asks: How much?
    answers: number
    take: first
    rules: [{rule: SHARE, answer: 1 / (area / sq_ft(1) - 13), because: So., source: practice}]
  strength:
    asks: How strong?
    answers: number
    take: first
    when: known(soil.cbr)
    rules: [{rule: STRENGTH, answer: "design_cbr(soil.cbr, 1000)", because: Read., source: practice}]
courses:
  - {course: slabs, label: Slabs, is: layer, because: So., source: practice, attributes: {what: slab_laid, thickness: height}}
checks:
  - {check: LARGE, asks: "Small?", holds: area < sq_ft(5000), failing: stop, says: Smaller., because: So., source: practice}
  - {check: HUGE, asks: "Small?", holds: area < sq_ft(5000), failing: caution, says: Smaller., because: So., source: practice}
cautions:
  - {caution: MIND, says: Mind., source: practice}
refusals:
  - {refusal: YARD, when: use == truck_yard, says: No., who: Nobody., source: practice}
`

func openShop(t *testing.T) *engine.Book {
	t.Helper()
	book, err := groundrule.Open(small.Rulebook("shop.yaml", shop))
	require.NoError(t, err)
	return inside.Rules(book)
}

func inShop(t *testing.T, change, rest string) (*trial.Report, error) {
	t.Helper()
	trials, err := load("trials:\n  - trial: A\n    why: x\n    job: {use: foot, base: dense, area: 100 sq ft}\n    cases: [{case: x, why: x, change: {" + change + "}, " + rest + "}]\n")
	if err != nil {
		return nil, err
	}
	return trial.Run(t.Context(), openShop(t), trials, trial.Options{})
}

func TestShop(t *testing.T) {
	type failure struct{ What, Was, Wanted, Rule, Because string }
	for _, c := range []struct {
		name, why, change, rest string
		want                    []failure // none if it passes
	}{
		{"list", "every answer, in order", "", "expect: {answers: {tell: [feet, stone]}, rules: {tell: [TELL-FOOT, TELL-DENSE]}}", nil},
		{"empty list", "no rule holds", "use: car_driveway, base: open", "expect: {answers: {tell: []}, rules: {tell: []}}", nil},
		{"other list", "one answer too many", "", "expect: {answers: {tell: [feet]}}", []failure{{"tell", "feet, stone", "feet", "TELL-FOOT, TELL-DENSE", ""}}},
		{"material", "by its name", "", "settings: {usual: thick}, expect: {answers: {slab_laid: thick, height: 4 in}}", nil},
		{"like a material", "with another property", "", "settings: {usual: {like: thin, height: 90 mm}}, expect: {answers: {slab_laid: thin, height: 90 mm}}", nil},
		{"yes or no", "both as they are written", "", "expect: {answers: {flat: yes}}", nil},
		{"no", "as a rule file has it", "", "expect: {answers: {flat: false}}", []failure{{"flat", "true", "false", "FLAT", "Large ones are not."}}},
		{"number", "in few figures", "area: 16 sq ft", "expect: {answers: {share: 0.3}}", []failure{{"share", "0.333333", "0.3", "SHARE", "So."}}},
		{"override", "a person's own reason", "overrides: [{decision: height, answer: inches(3), by: A. Example, because: Roots.}]", "expect: {answers: {height: 2 in}, rules: {height: HEIGHT}}",
			[]failure{{"height", "3 in (76.2 mm)", "2 in (50.8 mm)", "override", "Roots."}, {"rule of height", "override", "HEIGHT", "override", "Roots."}}},
		{"refused", "what was not needed was not asked", "use: truck_yard", "expect: {status: refused, answers: {height: 2 in}, held: [SLAB]}",
			[]failure{{"height", "not asked, for the job was refused", "2 in (50.8 mm)", "", ""}, {"rule SLAB", "is not reached", "holds", "", ""}}},
		{"stopped", "by the check that stops, though another fails too", "area: 6000 sq ft", "expect: {status: designed, failed: [LARGE, HUGE]}",
			[]failure{{"status", "stopped by LARGE", "designed", "", ""}}},
		{"nothing comes of it", "a rule breaks, and nothing else is known", "area: 13 sq ft", "expect: {answers: {height: 2 in}, failed: [HUGE], holds: [HUGE], cautions: [MIND], courses: {present: [slabs]}}", []failure{
			{"status", "no result: shop.yaml:41:35: share, rule SHARE: 1 / (area / sq_ft(1) - 13): arithmetic without a result: division by zero (with area = 13 sq ft)", "designed", "", ""},
			{"height", "not asked, for the run came to no end", "2 in (50.8 mm)", "", ""},
			{"check HUGE", "is not made", "holds", "", ""}, {"caution MIND", "not given", "given", "", ""}, {"course slabs", "not laid", "laid", "", ""}, {"failed checks", "none", "HUGE", "", ""}}},
		{"not reached", "a calculation refuses the job, under the id of the rule", "soil: {cbr: [0]}", "expect: {status: refused, refusals: [STRENGTH], unasked: [height]}", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			report, err := inShop(t, c.change, c.rest)
			require.NoError(t, err, c.why)
			var got []failure
			for _, f := range report.Results[0].Failures {
				got = append(got, failure{f.What, f.Was, f.Wanted, f.Rule, f.Because})
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
	report, err := inShop(t, "soil: {cbr: [0]}", "expect: {status: designed}")
	require.NoError(t, err)
	require.Contains(t, report.Results[0].Failures[0].Was, "refused by STRENGTH: shop.yaml:")
}

func TestShopFaults(t *testing.T) {
	for _, c := range []struct{ name, why, rest, want string }{
		{"list for a list", "a single value is no list", "expect: {answers: {tell: feet}}", "tell is list(text), and this is not; found feet; wanted a list"},
		{"item of a list", "each item is of the kind", "expect: {answers: {tell: [[feet]]}}", "tell is text, and this is not; found a list"},
		{"unknown material", "by the nearest", "settings: {usual: thinn}, expect: {status: designed}", `found thinn`},
		{"like nothing", "a material is like another", "settings: {usual: {height: 90 mm}}, expect: {status: designed}", `"like"`},
		{"like what is not there", "nor is there one of this name", "settings: {usual: {like: thinn}}, expect: {status: designed}", `found thinn`},
		{"unknown property", "with the nearest", "settings: {usual: {like: thin, heigt: 90 mm}}, expect: {status: designed}", `slab has no such property; found heigt; wanted height; did you mean "height"?`},
		{"property of another kind", "a length has a unit", "settings: {usual: {like: thin, height: 90}}, expect: {status: designed}", "height"},
		{"between of an unknown decision", "with the nearest", "expect: {between: {heigt: [1 in, 2 in]}}", `no decision is called heigt; found heigt; wanted a decision of the rulebook; did you mean "height"?`},
		{"rules of an unknown decision", "with the nearest", "expect: {rules: {heigt: HEIGHT}}", `no decision is called heigt`},
		{"between of no length", "neither end", "expect: {between: {height: [thin, 2 in]}}", "height"},
		{"unasked of nothing", "with the nearest", "expect: {unasked: [heigt]}", `no decision is called heigt`},
		{"confirm of nothing", "with the nearest", "expect: {confirm: [heigt]}", `no decision is called heigt`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := inShop(t, "", c.rest)
			require.ErrorContains(t, err, c.want, c.why)
			require.ErrorContains(t, err, "trials/yard.yaml:5:")
		})
	}
	_, err := load("")
	require.ErrorContains(t, err, "trials/yard.yaml: the file is empty")
	_, err = load("trials: [{trial: A, why: x, expect: {status: designed}}]")
	require.ErrorContains(t, err, `"job"`)
	_, err = load("trials: [{why: x, job: {use: foot, base: dense, area: 1 sq ft}, expect: {status: designed}}]")
	require.ErrorContains(t, err, `"trial"`)
}

// A reason that quotes what cannot be worked out says so in its place.
func TestReasonThatFails(t *testing.T) {
	text := strings.Replace(shop, "It is {slab_laid.height}.", "It is {1 / (area / sq_ft(1) - 100)}.", 1)
	book, err := groundrule.Open(small.Rulebook("shop.yaml", text))
	require.NoError(t, err)
	trials, err := load("trials: [{trial: A, why: x, job: {use: foot, base: dense, area: 100 sq ft}, expect: {answers: {height: 3 in}}}]")
	require.NoError(t, err)
	report, err := trial.Run(t.Context(), inside.Rules(book), trials, trial.Options{})
	require.NoError(t, err)
	f := report.Results[0].Failures[0]
	require.Equal(t, "HEIGHT", f.Rule)
	require.Contains(t, f.Because, "division by zero")
}

// The text names what decided where a rule did, and how often a rule held beside
// another; nothing to reach is reached.
func TestTextOfMore(t *testing.T) {
	report, err := inShop(t, "overrides: [{decision: height, answer: inches(3), by: A. Example, because: Roots.}]", "expect: {answers: {height: 2 in}}")
	require.NoError(t, err)
	require.Contains(t, told(t, report), "    by      override\n    because Roots.\n")

	wet := read(t, walk+"    cases:\n      - {case: wet, why: Water is near., change: {water: {groundwater: 1 ft}}, expect: {status: designed}}\n      - {case: wetter, why: Water is nearer., change: {water: {groundwater: 6 in}}, expect: {status: designed}}\n")
	report, err = measured(t, open(t), wet)
	require.NoError(t, err)
	require.Contains(t, told(t, report), "rule DEPTH-LEAST of depth never answers; it holds 2 times, and\n    another governs\n")
	report, err = measured(t, open(t), wet[:1])
	require.NoError(t, err)
	require.Contains(t, told(t, report), "rule DEPTH-LEAST of depth never answers; it holds once, and\n    another governs\n")
	require.InDelta(t, 100, trial.Share{}.Percent(), 0)
	require.InDelta(t, 25, trial.Share{Of: 1, Total: 4}.Percent(), 0)
}
