package survey

import (
	"context"
	"errors"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// planted is a small rulebook with one fault in it.
type planted struct {
	name, why string
	book      string
	// want is the finding in brief, and at stands in the line of its place.
	want, at string
	// sound is the same rulebook without the fault, "" if none stands beside it.
	sound string
}

// Values that are worked out, for rules to ask about: a number that a job's
// readings or its liquid limit give, one that is counted on in frost, a depth, a
// term, and what is read of them.
const (
	worths = `
terms:
  reach:
    is: length
    about: how far water and frost reach
    when: known(rain.depth) && known(frost.depth)
    because: told
    source: practice
    value: rain.depth * 2 + frost.depth
  weak:
    is: bool
    about: whether the ground is weak
    because: told
    source: practice
    value: strength < 5
settings:
  strong_from: {value: 12}
  margin: {value: 2 in}
decisions:
  strength:
    asks: how strong?
    answers: number
    take: first
    rules:
      - {rule: S-READ, when: known(soil.cbr), answer: greatest(soil.cbr)}
      - {rule: S-LIMIT, when: known(soil.liquid_limit), answer: soil.liquid_limit / 10}
      - {rule: S-NONE, answer: 2}
  counted:
    asks: how much is counted on?
    answers: number
    take: smallest
    rules:
      - {rule: C-ALL, answer: strength}
      - {rule: C-FROST, when: known(frost.depth), answer: strength * 0.75}
  depth:
    asks: how deep?
    answers: length
    take: largest
    rules:
      - {rule: D-LEAST, answer: inches(4)}
      - {rule: D-FROST, when: known(frost.depth), answer: frost.depth / 4}
      - {rule: D-RAIN, when: known(rain.depth), answer: rain.depth + margin}
  built:
    asks: how deep is it built?
    answers: length
    take: first
    rules:
      - {rule: B-STEP, answer: "round_up(depth, inches(1))"}
`
	frost = "known(frost.depth) && frost.depth"
)

// asked is a decision of one or another take with these rules, below other text.
func asked(above, take string, rules ...string) string {
	out := oneDecision(take, rules...)
	if above != "" {
		out = above + strings.TrimPrefix(out, "decisions:\n")
	}
	return out
}

// first is a decision on worked-out values whose first rule that holds answers.
func first(rules ...string) string { return asked(worths, "first", rules...) }

// only is one that two rules may not answer differently.
func only(rules ...string) string { return asked(worths, "only", rules...) }

// limited is a rulebook in which what is built has a limit.
func limited(limit string) string {
	return strings.Replace(first("A, when: weak, answer: apple", plum), "asks: how deep is it built?",
		"asks: how deep is it built?\n    limits:\n      - {limit: BUILT-MOST, "+limit+", because: x, source: practice}", 1)
}

// inputs is a decision on inputs alone.
func inputs(rules ...string) string { return asked("", "first", rules...) }

const (
	gap    = "NO ANSWER fruit"
	atGap  = "  fruit:"
	plum   = "Z, answer: plum"
	refuse = "\nrefusals:\n  - {refusal: NO, when: %s, says: no, who: an engineer, source: practice}\n"
)

var plantedFaults = []planted{
	// Gaps over a range of inputs.
	{"gap of a word", "one base of three is forgotten", inputs("A, when: base == dense, answer: apple", "B, when: base == open, answer: pear"), gap, atGap,
		inputs("A, when: base == dense, answer: apple", "B, when: base == open, answer: pear", "C, when: base == panel, answer: plum")},
	{"gap of two words together", "each word is asked about, and one pair of them is not", inputs("A, when: base != panel, answer: apple", "B, when: use != foot, answer: pear"), gap, atGap, ""},
	{"gap between lengths", "from 10 in to 12 in nothing holds", inputs("A, when: "+frost+" <= inches(10), answer: apple", "B, when: "+frost+" >= inches(12), answer: pear", "C, when: '!known(frost.depth)', answer: plum"), gap, atGap,
		inputs("A, when: "+frost+" <= inches(10), answer: apple", "B, when: "+frost+" >= inches(10), answer: pear", "C, when: '!known(frost.depth)', answer: plum")},
	{"gap of what is not told", "a job need not tell its frost", inputs("A, when: "+frost+" < inches(10), answer: apple", "B, when: "+frost+" >= inches(10), answer: pear"), gap, atGap, ""},
	{"gap of areas", "between 100 sq ft and 101 sq ft", inputs("A, when: area < sq_ft(100), answer: apple", "B, when: area > sq_ft(101), answer: pear"), gap, atGap, ""},
	{"gap of a share", "a slope of 2 % to 3 %", inputs("A, when: known(surface_slope) && surface_slope < percent(2), answer: apple", "B, when: '!known(surface_slope) || surface_slope > percent(3)', answer: pear"), gap, atGap,
		inputs("A, when: known(surface_slope) && surface_slope < percent(2), answer: apple", "B, when: '!known(surface_slope) || surface_slope >= percent(2)', answer: pear")},
	{"gap of a no", "no is an answer too", inputs("A, when: known(frost.frost_free) && frost.frost_free, answer: apple", "B, when: '!known(frost.frost_free)', answer: pear"), gap, atGap, ""},
	{"gap where it is asked", "the decision is asked of open bases, and forgets one use", strings.Replace(inputs("A, when: use != foot, answer: apple"), "take: first", "take: first\n    when: base == open", 1), gap, atGap,
		strings.Replace(inputs("A, when: use != foot, answer: apple"), "take: first", "take: first\n    when: base == open && use != foot", 1)},

	// Gaps at a point of inputs.
	{"point of a number", "neither below nor above 40", inputs("A, when: known(soil.liquid_limit) && soil.liquid_limit < 40, answer: apple", "B, when: known(soil.liquid_limit) && soil.liquid_limit > 40, answer: pear", "C, when: '!known(soil.liquid_limit)', answer: plum"), gap, atGap,
		inputs("A, when: known(soil.liquid_limit) && soil.liquid_limit < 40, answer: apple", "B, when: known(soil.liquid_limit) && soil.liquid_limit >= 40, answer: pear", "C, when: '!known(soil.liquid_limit)', answer: plum")},
	{"point in other units", "100 mm and 0.1 m are one depth", inputs("A, when: '!known(frost.depth) || frost.depth < mm(100)', answer: apple", "B, when: "+frost+" > m(0.1), answer: pear"), gap, atGap, ""},
	{"point of an area", "every job tells its area", inputs("A, when: area < sq_ft(250), answer: apple", "B, when: area > sq_ft(250), answer: pear"), gap, atGap, ""},
	{"point of a temperature", "the point at which water freezes", inputs("A, when: '!known(frost.mean_annual_temperature) || frost.mean_annual_temperature < celsius(0)', answer: apple", "B, when: known(frost.mean_annual_temperature) && frost.mean_annual_temperature > celsius(0), answer: pear"), gap, atGap, ""},
	{"point of a setting", "the setting is compared from both sides", strings.Replace(inputs("A, when: '!known(soil.liquid_limit) || soil.liquid_limit < bound', answer: apple", "B, when: known(soil.liquid_limit) && soil.liquid_limit > bound, answer: pear"), "decisions:", "settings:\n  bound: {value: 35}\ndecisions:", 1), gap, atGap, ""},
	{"point at an end", "no slope at all is neither up nor down", inputs("A, when: '!known(surface_slope) || surface_slope > percent(0)', answer: apple"), gap, atGap, ""},
	{"point of a difference", "the plasticity index is worked out of two limits", inputs("A, when: '!known(soil.plasticity_index) || soil.plasticity_index < 7', answer: apple", "B, when: known(soil.plasticity_index) && soil.plasticity_index > 7, answer: pear"), gap, atGap, ""},
	{"point where two inputs are the same", "two depths that are compared with each other", inputs("A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum", "B, when: known(rain.depth) && "+frost+" < rain.depth, answer: apple", "C, when: known(rain.depth) && "+frost+" > rain.depth, answer: pear"), gap, atGap,
		inputs("A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum", "B, when: known(rain.depth) && "+frost+" < rain.depth, answer: apple", "C, when: known(rain.depth) && known(frost.depth) && rain.depth <= frost.depth, answer: pear")},

	// Gaps over a range of worked-out values.
	{"gap of a decision", "strengths from 5 to 6", first("A, when: strength <= 5, answer: apple", "B, when: strength >= 6, answer: pear"), gap, atGap,
		first("A, when: strength <= 5, answer: apple", "B, when: strength > 5, answer: pear")},
	{"gap of a smallest", "it lies behind another decision", first("A, when: counted < 30, answer: apple", "B, when: counted > 31, answer: pear"), gap, atGap, ""},
	{"gap of a largest", "a band of a tenth of an inch", first("A, when: depth < inches(9), answer: apple", "B, when: depth > inches(9.1), answer: pear"), gap, atGap, ""},
	{"gap of a term", "the term has a value on some jobs alone", first("A, when: '!known(reach)', answer: plum", "B, when: known(reach) && reach < inches(30), answer: apple", "C, when: known(reach) && reach > inches(31), answer: pear"), gap, atGap,
		first("A, when: '!known(reach)', answer: plum", "B, when: known(reach) && reach < inches(30), answer: apple", "C, when: known(reach) && reach >= inches(30), answer: pear")},
	{"gap of a calculation", "it is worked out in the clause", first("A, when: '!known(soil.cbr) || greatest(soil.cbr) < 5', answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) > 5.5, answer: pear"), gap, atGap, ""},
	{"gap of a yes or no", "the ground is weak or not", first("A, when: weak && base == dense, answer: apple", "B, when: '!weak', answer: pear"), gap, atGap, ""},
	{"gap of a word that is worked out", "the other decision also answers pear", first("A, when: weak, answer: apple", "B, when: '!weak', answer: pear") + `
  juice:
    asks: which juice?
    answers: answer_word
    take: first
    rules:
      - {rule: J1, when: fruit == apple, answer: apple}
`, "NO ANSWER juice", "  juice:", ""},
	{"gap between two calculations", "rain passes the frost by up to an inch", inputs("A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum", "B, when: known(rain.depth) && "+frost+" * 2 >= rain.depth, answer: apple", "C, when: known(rain.depth) && known(frost.depth) && rain.depth >= frost.depth * 2 + inches(1), answer: pear"), gap, atGap, ""},

	// Gaps at a point of worked-out values.
	{"point of a decision", "a strength of exactly 7", first("A, when: strength < 7, answer: apple", "B, when: strength > 7, answer: pear"), gap, atGap,
		first("A, when: strength < 7, answer: apple", "B, when: strength > 7, answer: pear", "C, when: strength == 7, answer: plum")},
	{"point of a smallest", "7 is counted on, by reading 7 or in frost", first("A, when: counted < 7, answer: apple", "B, when: counted > 7, answer: pear"), gap, atGap,
		first("A, when: counted < 7, answer: apple", "B, when: counted >= 7, answer: pear")},
	{"point of a largest", "exactly 9 in", first("A, when: depth < inches(9), answer: apple", "B, when: depth > inches(9), answer: pear"), gap, atGap, ""},
	{"point of a term", "exactly 30 in", first("A, when: '!known(reach) || reach < inches(30)', answer: apple", "B, when: known(reach) && reach > inches(30), answer: pear"), gap, atGap, ""},
	{"point of a rounded value", "9 in is built for all depths above 8 in", first("A, when: built < inches(9), answer: apple", "B, when: built > inches(9), answer: pear"), gap, atGap,
		first("A, when: built < inches(9), answer: apple", "B, when: built > inches(8), answer: pear")},
	{"point of a calculation in a clause", "the greatest reading is 7", first("A, when: '!known(soil.cbr) || greatest(soil.cbr) < 7', answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) > 7, answer: pear"), gap, atGap,
		first("A, when: '!known(soil.cbr) || greatest(soil.cbr) < 7', answer: apple", "B, when: known(soil.cbr) && 7 <= greatest(soil.cbr), answer: pear")},
	{"point of a sum in a clause", "the same sum is written on the other side", inputs("A, when: '!known(frost.depth) || area < sq_ft(1) * (frost.depth / inches(1)) + sq_ft(100)', answer: apple", "B, when: known(frost.depth) && sq_ft(1) * (frost.depth / inches(1)) + sq_ft(100) < area, answer: pear"), gap, atGap, ""},
	{"point of a setting on a decision", "the strength from which ground is strong", first("A, when: strength < strong_from, answer: apple", "B, when: strength > strong_from, answer: pear"), gap, atGap, ""},
	{"point where two decisions are the same", "both depths of a built base", first("A, when: built > depth, answer: apple", "B, when: built < depth, answer: pear"), gap, atGap, ""},
	{"point where a calculation meets an input", "the rain is as deep as half the frost", inputs("A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum", "B, when: known(rain.depth) && "+frost+" / 2 < rain.depth, answer: apple", "C, when: known(rain.depth) && "+frost+" / 2 > rain.depth, answer: pear"), gap, atGap, ""},
	{"two points together", "9 in is built, and strength is 3", first("A, when: built != inches(9), answer: apple", "B, when: strength != 3, answer: pear"), gap, atGap, ""},

	// Two answers.
	{"clash of words", "feet on an open base", asked("", "only", "A, when: use == foot, answer: apple", "B, when: base == open, answer: pear", "C, when: use != foot && base != open, answer: plum"), "TWO DIFFERENT ANSWERS B < A", "rule: B", ""},
	{"clash over a range", "from 8 in to 10 in", asked("", "only", "A, when: '!known(frost.depth) || frost.depth < inches(10)', answer: apple", "B, when: "+frost+" > inches(8), answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B",
		asked("", "only", "A, when: '!known(frost.depth) || frost.depth < inches(10)', answer: apple", "B, when: "+frost+" > inches(8), answer: apple")},
	{"clash at a point", "both hold at 10 in", asked("", "only", "A, when: '!known(frost.depth) || frost.depth <= inches(10)', answer: apple", "B, when: "+frost+" >= inches(10), answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B",
		asked("", "only", "A, when: '!known(frost.depth) || frost.depth < inches(10)', answer: apple", "B, when: "+frost+" >= inches(10), answer: pear")},
	{"clash over a range of a decision", "strengths from 5 to 6", only("A, when: strength < 6, answer: apple", "B, when: strength > 5, answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B", ""},
	{"clash at a point of a decision", "both hold at strength 7", only("A, when: strength <= 7, answer: apple", "B, when: strength >= 7, answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B",
		only("A, when: strength <= 7, answer: apple", "B, when: strength > 7, answer: pear")},
	{"clash at a point of a smallest", "both hold where 7 is counted on", only("A, when: counted <= 7, answer: apple", "B, when: counted >= 7, answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B", ""},
	{"clash at a point of a calculation", "both hold where the greatest reading is 7", only("A, when: '!known(soil.cbr) || greatest(soil.cbr) <= 7', answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) >= 7, answer: pear"), "TWO DIFFERENT ANSWERS B < A", "rule: B", ""},
	{"clash of the last two", "the first of three clashes with none", only("A, when: weak, answer: apple", "B, when: '!weak', answer: pear", "C, when: counted > 20, answer: plum"), "TWO DIFFERENT ANSWERS C < B", "rule: C", ""},

	// Rules that are always hidden.
	{"hidden by a wider word", "foot is among the two", inputs("A, when: 'use in [foot, car_driveway]', answer: apple", "B, when: use == foot && base == open, answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B", ""},
	{"hidden by a wider range", "what is above 8 in is above 4 in", inputs("A, when: "+frost+" > inches(4), answer: apple", "B, when: "+frost+" > inches(8), answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B",
		inputs("A, when: "+frost+" > inches(8), answer: apple", "B, when: "+frost+" > inches(4), answer: pear", plum)},
	{"hidden by two together", "below and from 10 in is all there is", inputs("A, when: "+frost+" < inches(10), answer: apple", "B, when: "+frost+" >= inches(10), answer: pear", "C, when: known(frost.depth) && use == foot, answer: plum", plum), "ALWAYS HIDDEN C < A < B", "rule: C", ""},
	{"hidden on a decision", "a strength above 8 is above 7", first("A, when: strength > 7, answer: apple", "B, when: strength > 8, answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B",
		first("A, when: strength > 8, answer: apple", "B, when: strength > 7, answer: pear", plum)},
	{"hidden at a point of a decision", "7 itself is among 7 and more", first("A, when: strength >= 7, answer: apple", "B, when: strength == 7, answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B",
		first("A, when: strength > 7, answer: apple", "B, when: strength == 7, answer: pear", plum)},
	{"hidden on a calculation", "a reading above 8 is above 7", first("A, when: known(soil.cbr) && greatest(soil.cbr) > 7, answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) > 8, answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B",
		first("A, when: known(soil.cbr) && greatest(soil.cbr) > 8, answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) > 7, answer: pear", plum)},
	{"hidden by a term", "weak ground has a strength under 5", first("A, when: weak, answer: apple", "B, when: strength < 3, answer: pear", plum), "ALWAYS HIDDEN B < A", "rule: B", ""},
	{"hidden by a rule without a condition", "nothing is left behind it", inputs("A, answer: apple", "B, when: use == foot, answer: pear"), "ALWAYS HIDDEN B < A", "rule: B", ""},

	// Conditions that hold for no job.
	{"never two words", "a job has one use", inputs("A, when: use == foot && use == car_driveway, answer: apple", plum), "NEVER APPLIES A", "rule: A", ""},
	{"never a range turned about", "nothing is below 4 in and above 8 in", inputs("A, when: "+frost+" < inches(4) && frost.depth > inches(8), answer: apple", plum), "NEVER APPLIES A", "rule: A",
		inputs("A, when: "+frost+" > inches(4) && frost.depth < inches(8), answer: apple", plum)},
	{"never a decision turned about", "no strength is under 3 and over 5", first("A, when: strength < 3 && strength > 5, answer: apple", plum), "NEVER APPLIES A", "rule: A", ""},
	{"never a calculation turned about", "no reading is under 3 and over 5", first("A, when: known(soil.cbr) && greatest(soil.cbr) < 3 && 5 < greatest(soil.cbr), answer: apple", plum), "NEVER APPLIES A", "rule: A",
		first("A, when: known(soil.cbr) && greatest(soil.cbr) > 3 && 5 > greatest(soil.cbr), answer: apple", plum)},
	{"never an order turned about", "a depth is not above and below another", inputs("A, when: known(rain.depth) && "+frost+" < rain.depth && rain.depth < frost.depth, answer: apple", plum), "NEVER APPLIES A", "rule: A", ""},
	{"never beside a term", "weak ground has no strength of 6", first("A, when: weak && strength > 6, answer: apple", plum), "NEVER APPLIES A", "rule: A", ""},
	{"never below what is possible", "no depth is below nothing", inputs("A, when: "+frost+" < inches(0), answer: apple", plum), "NEVER APPLIES A", "rule: A", ""},
	{"never where it is refused", "a truck yard gets no section", inputs("A, when: use == truck_yard, answer: apple", plum) + strings.Replace(refuse, "%s", "use == truck_yard", 1), "NEVER APPLIES A", "rule: A",
		inputs("A, when: use == fire_lane, answer: apple", plum) + strings.Replace(refuse, "%s", "use == truck_yard", 1)},
	{"never a refusal", "no job is both", inputs("A, when: use == foot, answer: apple", plum) + strings.Replace(refuse, "%s", "strength_none", 1) + `
terms:
  strength_none:
    is: bool
    about: nothing
    because: told
    source: practice
    value: use == foot && use == truck_yard
`, "NEVER APPLIES NO", "refusal: NO", ""},
	{"never a caution", "the decision never answers pear", inputs("A, when: use == foot, answer: apple", plum) + "\ncautions:\n  - {caution: CARE, when: fruit == pear, says: no, source: practice}\n", "NEVER APPLIES CARE", "caution: CARE",
		inputs("A, when: use == foot, answer: apple", plum) + "\ncautions:\n  - {caution: CARE, when: fruit == apple, says: no, source: practice}\n"},
	{"never a check", "it is asked of what is never built", first("A, when: weak, answer: apple", plum) + "\nchecks:\n  - {check: DEEP, asks: 'is it?', when: depth < inches(4), holds: use == foot, failing: stop, says: no, because: x, source: practice}\n", "NEVER APPLIES DEEP", "check: DEEP", ""},
	// Answers beyond a limit of their decision.
	{"beyond a limit", "the deepest frost asks for more than may be built", limited("at_most: inches(100)"), "BREAKS B-STEP", "rule: B-STEP", limited("at_least: inches(4)")},

	{"never met", "what is 4 in at least is not below 4 in", first("A, when: weak, answer: apple", plum) + "\nchecks:\n  - {check: SHALLOW, asks: 'is it?', when: use == foot, holds: depth < inches(4), failing: stop, says: no, because: x, source: practice}\n", "NEVER MET SHALLOW", "check: SHALLOW", ""},
}

func TestPlantedFaults(t *testing.T) {
	sound, how := 0, ""
	for _, c := range plantedFaults {
		t.Run(c.name, func(t *testing.T) {
			book := opened(t, c.book)
			r := surveyedWith(t, book, plantedBudget)
			how += "=== " + c.name + "\n" + course(r)
			var faults []string
			for _, f := range r.Findings {
				if f.Fault() {
					faults = append(faults, brief(f))
					require.Contains(t, lineOf(c.book, f.Place.Line), c.at, "its place")
					if f.Job != nil {
						holdsInEngine(t, book, f)
					}
				}
			}
			require.Empty(t, cmp.Diff([]string{c.want}, faults), "%s\n%s", c.why, written(t, r))
			require.False(t, r.OK())
		})
		if c.sound == "" {
			continue
		}
		sound++
		t.Run(c.name+", mended", func(t *testing.T) {
			r := surveyedWith(t, opened(t, c.sound), plantedBudget)
			how += "=== " + c.name + ", mended\n" + course(r)
			for _, f := range r.Findings {
				require.False(t, f.Fault(), "%s\n%s", c.why, written(t, r))
			}
			require.True(t, r.OK())
		})
	}
	require.GreaterOrEqual(t, len(plantedFaults)+len(withoutRules), 60, "planted faults")
	require.GreaterOrEqual(t, sound, 20, "sound rulebooks beside them")
	keptIn(t, "planted", how)
}

// A finding says in which cells its job lies of the values that its conditions ask
// about: of those that matter, and of no others.
func TestWhere(t *testing.T) {
	for _, c := range []struct {
		name, why, book string
		want            []string
	}{
		{"worked-out value", "the frost that the job tells has no part in it", first("A, when: strength < 7, answer: apple", "B, when: strength > 7, answer: pear"), []string{"strength: 7"}},
		{"range", "its first end is the simplest job", first("A, when: counted < 30, answer: apple", "B, when: counted > 31, answer: pear"), []string{"counted: 30"}},
		{"calculation", "it is said as it is written", first("A, when: known(soil.cbr) && greatest(soil.cbr) < 7, answer: apple", "B, when: known(soil.cbr) && greatest(soil.cbr) > 7, answer: pear", "C, when: '!known(soil.cbr)', answer: plum"),
			[]string{"soil.cbr: told", "greatest(soil.cbr): 7"}},
		{"order", "which of two is the larger", inputs("A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum", "B, when: known(rain.depth) && "+frost+" < rain.depth, answer: apple", "C, when: known(rain.depth) && "+frost+" > rain.depth, answer: pear"),
			[]string{"frost.depth: told", "rain.depth: told", "frost.depth: the same as rain.depth"}},
		{"what is not told", "it matters that it is not", inputs("A, when: "+frost+" < inches(10), answer: apple", "B, when: "+frost+" >= inches(10), answer: pear"), []string{"frost.depth: not told"}},
		{"words", "one of two conditions names both", asked("", "only", "A, when: use == foot, answer: apple", "B, when: base == open, answer: pear", "C, when: use != foot && base != open, answer: plum"), []string{"use: foot", "base: open"}},
		{"yes or no", "a term that is one", first("A, when: weak && base == dense, answer: apple", "B, when: '!weak', answer: pear"), []string{"weak: yes", "base: open"}},
		{"what a calculation says", "the word alone settles it", inputs("A, when: '!known(soil.uscs) || is_organic(soil.uscs)', answer: apple"), []string{"soil.uscs: GW"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := surveyedWith(t, opened(t, c.book), plantedBudget)
			require.Len(t, r.Findings, 1, written(t, r))
			require.Equal(t, c.want, r.Findings[0].Cell, c.why)
		})
	}
}

const plantedBudget = 1500

func surveyedWith(t *testing.T, book *engine.Book, jobs int) *Report {
	t.Helper()
	r, err := Run(context.Background(), book, Options{Budget: jobs})
	require.NoError(t, err)
	return r
}

// lineOf returns a line of a rulebook that [opened] has opened.
func lineOf(book string, line int) string {
	return strings.Split(strings.Repeat("\n", headLines)+book, "\n")[line-1]
}

// withoutRules are rulebooks in which a decision is left without rules. They are
// refused when they are opened, at the decision or at the amendment that took its
// last rule.
var withoutRules = []struct {
	name, why, book, amendment string
}{
	{"none written", "a list without an item", "decisions:\n  fruit:\n    asks: which fruit?\n    answers: answer_word\n    take: first\n    rules: []\n", ""},
	{"the only one retired", "what was sound until it was amended", oneDecision("first", "A, answer: apple"), "retire:\n  - {rule: A, because: x}\n"},
	{"all of them retired", "one after the other", oneDecision("only", "A, when: base == open, answer: apple", "B, when: base != open, answer: pear"), "retire:\n  - {rule: A, because: x}\n  - {rule: B, because: x}\n"},
	{"all of a list retired", "a list may be empty on a job, and not for want of rules", oneDecision("all", "A, answer: apple"), "retire:\n  - {rule: A, because: x}\n"},
}

func TestDecisionsWithoutRules(t *testing.T) {
	for _, c := range withoutRules {
		t.Run(c.name, func(t *testing.T) {
			amendment := rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte("amendment: ours\ncompany: Ours\nwho: A. Example\nwhen: 2026-01-01\nwhy: a test\n" + c.amendment)}}}
			_, err := open(c.book, groundrule.WithAmendments(amendment))
			var wrong *rulebook.Error
			require.True(t, errors.As(err, &wrong), "%s: %v", c.why, err)
			require.Len(t, wrong.Faults, 1, wrong.Error())
			require.Equal(t, "no-rules", string(wrong.Faults[0].Code))
			if c.amendment != "" {
				require.Equal(t, "ours/a.yaml", wrong.Faults[0].Place.File, "where the last rule went")
				return
			}
			require.Contains(t, lineOf(c.book, wrong.Faults[0].Place.Line), atGap)
		})
	}
}

// The rulebooks of a company that ask about a strength that the standard works
// out, on either side of 7, have no answer on ground of CBR 7.
func TestPointsOfTheStandard(t *testing.T) {
	for _, c := range []struct{ name, why string }{
		{"cbr", "it is measured, or correlated, or presumed"},
		{"support_cbr", "it is the smaller of two, and the thaw is one of them"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ours := "amendment: ours\ncompany: Ours\nwho: A. Example\nwhen: 2026-01-01\nwhy: a test\nadd:\n  - decision: fruit\n    asks: which?\n    answers: number\n    take: first\n    rules:\n" +
				"      - {rule: LOW, when: " + c.name + " < 7, answer: 1, because: x, source: practice}\n      - {rule: HIGH, when: " + c.name + " > 7, answer: 2, because: x, source: practice}\n"
			b, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(ours)}}}))
			require.NoError(t, err)
			book := inside.Rules(b)
			r, err := Run(t.Context(), book, Options{Budget: 4000, Within: Within{Decisions: []string{"fruit"}}})
			require.NoError(t, err)
			require.NotEmpty(t, r.Findings, c.why)
			require.Equal(t, gap, brief(r.Findings[0]), c.why)
			require.Equal(t, "area: 400 sq ft\nuse: foot\nbase: dense\nsoil:\n  cbr: [7]\n", r.Findings[0].Job.Text)
			require.Equal(t, []string{c.name + ": 7"}, r.Findings[0].Cell)
			holdsInEngine(t, book, r.Findings[0])
		})
	}
}

// A company's rule that governs on some jobs alone is shown by one, and a job of a
// trial does so where the budget is for no other.
func TestRulesOfACompany(t *testing.T) {
	folder := rulebook.Layer{Label: "wrenfold", FS: os.DirFS("../../../examples/wrenfold")}
	amendments := rulebook.Layer{Label: "amendments", FS: os.DirFS("../../../examples/wrenfold/amendments")}
	day, err := rulebook.ParseDate("2026-11-01")
	require.NoError(t, err)
	b, err := groundrule.OpenStandard(groundrule.WithAmendments(amendments), groundrule.AsOf(day))
	require.NoError(t, err)
	trials, err := trial.Load(folder)
	require.NoError(t, err)
	var jobs []*site.Site
	for _, each := range trials {
		jobs = append(jobs, each.Job)
	}
	for _, c := range []struct {
		name, why string
		budget    int
		jobs      []*site.Site
	}{
		{"aimed at", "the strength must lie between two points that other rules set", 5000, nil},
		{"tried", "a trial of the company is such a job", 1, jobs},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Run(t.Context(), inside.Rules(b), Options{Budget: c.budget, Jobs: c.jobs, Within: Within{Decisions: []string{"stone_need"}}})
			require.NoError(t, err)
			require.Equal(t, len(c.jobs), r.Given)
			require.Contains(t, r.Settled[0].Points, Point{"a job for which NEED-TWO-GRIDS governs", Shown}, c.why)
		})
	}
}
