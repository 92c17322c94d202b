package survey

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
)

// faultCase is a small rulebook with what is known to be wrong with it.
type faultCase struct {
	name, why string
	book      string
	want      []string
	entries   int // of the first finding's job, 0 if it has none

	opened *engine.Book
	report *Report
}

var faultCases = []*faultCase{
	{"gap between words", "one base is forgotten", oneDecision("first", "A, when: base == dense, answer: apple", "B, when: base == open, answer: pear"),
		[]string{"NO ANSWER fruit"}, 3, nil, nil},
	{"gap at a compared value", "neither below nor above holds at the value itself; and depth may be missing",
		oneDecision("first", "A, when: known(frost.depth) && frost.depth < inches(10), answer: apple",
			"B, when: known(frost.depth) && frost.depth > inches(10), answer: pear", "C, when: '!known(frost.depth)', answer: plum"),
		[]string{"NO ANSWER fruit"}, 4, nil, nil},
	{"gap where calculated values are equal", "two clauses that compare calculated values, both false on a line in the plane of two inputs",
		oneDecision("first", "A, when: '!known(frost.depth) || !known(rain.depth)', answer: plum",
			"B, when: known(frost.depth) && known(rain.depth) && frost.depth * 3 > rain.depth + inches(1), answer: apple",
			"C, when: known(frost.depth) && known(rain.depth) && frost.depth * 3 < rain.depth + inches(1), answer: pear"),
		[]string{"NO ANSWER fruit"}, 5, nil, nil},
	{"gap in a narrow band of a calculated value", "a band of one part in a hundred thousand, far from usual values",
		`
decisions:
  depth:
    asks: how deep?
    answers: length
    take: first
    rules:
      - {rule: D1, when: known(rain.depth) && known(frost.depth), answer: rain.depth * 2 + frost.depth}
      - {rule: D2, answer: inches(0)}
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    rules:
      - {rule: A, when: depth < m(7.1234), answer: apple}
      - {rule: B, when: depth > m(7.12347), answer: pear}
`, []string{"NO ANSWER fruit"}, 5, nil, nil},
	{"clash", "two rules of an only decision overlap where the use is foot and the base open",
		oneDecision("only", "A, when: use == foot, answer: apple", "B, when: base == open, answer: pear",
			"C, when: use != foot && base != open, answer: plum"),
		[]string{"TWO DIFFERENT ANSWERS B < A"}, 3, nil, nil},
	{"clash of numbers", "the ranges meet at 5, where both hold", `
decisions:
  size:
    asks: how large?
    answers: number
    take: only
    rules:
      - {rule: A, when: known(soil.liquid_limit) && soil.liquid_limit <= 5, answer: 1}
      - {rule: B, when: known(soil.liquid_limit) && soil.liquid_limit >= 5, answer: soil.liquid_limit}
      - {rule: C, when: '!known(soil.liquid_limit)', answer: 3}
`, []string{"TWO DIFFERENT ANSWERS B < A"}, 4, nil, nil},
	{"hidden by one", "a wider rule stands first",
		oneDecision("first", "A, when: 'use in [foot, car_driveway]', answer: apple", "B, when: use == foot && base == open, answer: pear", "C, answer: plum"),
		[]string{"ALWAYS HIDDEN B < A"}, 3, nil, nil},
	{"hidden by two together", "neither earlier rule covers it alone",
		oneDecision("first", "A, when: base == open, answer: apple", "B, when: base != open && use == foot, answer: pear",
			"C, when: use == foot, answer: plum", "D, answer: plum"),
		[]string{"ALWAYS HIDDEN C < A < B"}, 3, nil, nil},
	{"idle by a term", "the term says the opposite of the rule", `
terms:
  wheels:
    is: bool
    about: whether wheels go there
    value: use != foot
    because: told
    source: practice
` + oneDecision("first", "A, when: use == foot && wheels, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle by the values a decision answers", "no rule answers plum", oneDecision("first", "A, when: base == open, answer: apple", "B, answer: pear") + `
  juice:
    asks: which juice?
    answers: answer_word
    take: first
    rules:
      - {rule: J1, when: fruit == plum, answer: plum}
      - {rule: J2, answer: apple}
`, []string{"NEVER APPLIES J1"}, 0, nil, nil},
	{"idle by a yes or no that a decision compares", "whether it is deep is no other question than how deep it is", `
decisions:
  deep:
    asks: is it deep?
    answers: bool
    take: first
    rules:
      - {rule: D1, when: known(frost.depth), answer: frost.depth > inches(10)}
      - {rule: D2, answer: "false"}
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    rules:
      - {rule: A, when: known(frost.depth) && frost.depth < inches(10) && deep, answer: apple}
      - {rule: B, answer: pear}
`, []string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle by a number handed on", "the decision hands on a percentage, which is never below zero", `
decisions:
  finer:
    asks: how much?
    answers: share
    take: first
    rules:
      - {rule: S1, when: known(soil.passing_0_02_mm), answer: soil.passing_0_02_mm}
      - {rule: S2, answer: percent(50)}
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    rules:
      - {rule: A, when: finer < percent(0), answer: apple}
      - {rule: B, answer: pear}
`, []string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle because refused", "the rule is for a job that gets no section", oneDecision("first", "A, when: use == truck_yard, answer: apple", "B, answer: pear") + `
refusals:
  - {refusal: YARD, when: use == truck_yard, says: no yards, who: an engineer, source: practice}
`, []string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle below what a job may tell", "no depth is below zero",
		oneDecision("first", "A, when: known(frost.depth) && frost.depth < inches(0), answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle because inputs contradict", "a soil without a plastic limit has no plasticity index",
		oneDecision("first", "A, when: known(soil.nonplastic) && soil.nonplastic && known(soil.plasticity_index), answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle because inputs contradict at one value", "ground that is no fill has no inch of it, where only more than an inch is asked about apart",
		oneDecision("first", "A, when: known(soil.uncontrolled_fill) && !soil.uncontrolled_fill && known(soil.fill_depth) && soil.fill_depth == inches(1), answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A"}, 0, nil, nil},
	{"idle because inputs contradict in a word", "where no organic soil was found there is none of an organic group",
		oneDecision("first", "A, when: known(soil.organic) && !soil.organic && known(soil.uscs) && soil.uscs == OL, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A"}, 0, nil, nil},
	{"hidden, and never seen to hold", "an earlier rule would hide it, but no rain is more and less than twice itself, which the walk leaves open",
		oneDecision("first", "A, when: known(rain.depth), answer: apple", "B, when: known(rain.depth) && rain.depth * 2 > rain.depth * 3 + inches(1), answer: pear", "C, answer: plum"),
		[]string{"NEVER APPLIES B < A"}, 0, nil, nil},
	{"idle in a list", "a decision that takes all has no gap, but its rules may be idle", oneDecision("all", "A, when: base == open, answer: apple", "B, when: base == open && base == dense, answer: pear"),
		[]string{"NEVER APPLIES B"}, 0, nil, nil},
	{"never governs", "a minimum that another minimum always outdoes", `
decisions:
  depth:
    asks: how deep?
    answers: length
    take: largest
    rules:
      - {rule: D1, when: use == foot, answer: inches(3)}
      - {rule: D2, answer: inches(4)}
`, []string{"NEVER GOVERNS D1 < D2"}, 3, nil, nil},
	{"by a setting", "the setting turns the rule off", `
settings:
  turned_on: {value: false}
` + oneDecision("first", "A, when: turned_on, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A (turned_on)"}, 0, nil, nil},
	{"by each of two settings", "either would make it apply", `
settings:
  here: {value: false}
  there: {value: false}
` + oneDecision("first", "A, when: here || there, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A (here, there)"}, 0, nil, nil},
	{"by two settings together", "neither alone would make it apply, so both are named", `
settings:
  here: {value: false}
  there: {value: false}
` + oneDecision("first", "A, when: here && there, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A (here, there)"}, 0, nil, nil},
	{"by one of two settings", "the other would change nothing", `
settings:
  here: {value: false}
  there: {value: true}
` + oneDecision("first", "A, when: here && there, answer: apple", "B, answer: pear"),
		[]string{"NEVER APPLIES A (here)"}, 0, nil, nil},
	{"sides of the finished section", "a caution, course and refusal that never come, a check that is never met, one that always is", oneDecision("first", "A, answer: apple") + `
  thickness:
    asks: how thick?
    answers: length
    take: first
    rules:
      - {rule: T, answer: inches(4)}
courses:
  - {course: one, label: One, is: stone_course, when: fruit == pear, because: x, source: practice, attributes: {thickness: thickness}}
  - {course: two, label: Two, is: stone_course, when: fruit == apple, because: x, source: practice, attributes: {thickness: thickness}}
checks:
  - {check: NEVER-MET, asks: "is it?", holds: fruit == plum, failing: caution, says: no, because: x, source: practice}
  - {check: NEVER-FAILS, asks: "is it?", value: thickness, at_least: inches(2), failing: caution, says: no, because: x, source: practice}
  - {check: NEVER-THERE, asks: "is it?", when: fruit == plum, holds: base == open, failing: caution, says: no, because: x, source: practice}
cautions:
  - {caution: NEVER-GIVEN, when: thickness > inches(6), says: no, source: practice}
  - {caution: PLAIN, says: cells.Always, source: practice}
refusals:
  - {refusal: NEVER-REFUSED, when: use == foot && use == truck_yard, says: no, who: nobody, source: practice}
`, []string{"NEVER APPLIES NEVER-REFUSED", "NEVER APPLIES one", "NEVER APPLIES NEVER-THERE", "NEVER APPLIES NEVER-GIVEN", "NEVER MET NEVER-MET",
		"ALWAYS APPLIES two", "NEVER FAILS NEVER-FAILS"}, 0, nil, nil},
	{"gap that a refusal needs", "the refusal reads the decision, so the gap comes before it", oneDecision("first", "A, when: base == dense, answer: apple", "B, when: base == panel, answer: pear") + `
refusals:
  - {refusal: PEAR, when: fruit == pear, says: no, who: nobody, source: practice}
`, []string{"NO ANSWER fruit"}, 3, nil, nil},
	{"a calculation that breaks", "the engine's own error is told, with the smallest job", `
decisions:
  size:
    asks: how large?
    answers: number
    take: first
    rules:
      - {rule: S, when: known(soil.liquid_limit), answer: 1 / (soil.liquid_limit - 40)}
      - {rule: S2, when: known(soil.plastic_limit) && soil.plastic_limit == 40, answer: 1 / (soil.plastic_limit - 40)}
      - {rule: S3, answer: 1}
`, []string{"BREAKS S", "BREAKS S2"}, 4, nil, nil},
}

// survey surveys the case's rulebook; several tests look at what was found.
func (c *faultCase) survey(t *testing.T) (*engine.Book, *Report) {
	if c.report == nil {
		c.opened = opened(t, c.book)
		c.report = surveyed(t, c.opened, Within{})
	}
	return c.opened, c.report
}

func TestFaultsAreFound(t *testing.T) {
	shown, how := 0, ""
	for _, c := range faultCases {
		t.Run(c.name, func(t *testing.T) {
			book, r := c.survey(t)
			how += "=== " + c.name + "\n" + course(r)
			require.Empty(t, cmp.Diff(c.want, briefs(r)), "%s\n%s", c.why, written(t, r))
			for _, f := range r.Findings {
				if f.Job != nil {
					holdsInEngine(t, book, f)
					shown++
				}
				require.NotZero(t, f.Place.Line, "every finding has a place")
				for _, by := range f.By {
					require.NotZero(t, by.Place.Line, "so has every other rule")
				}
			}
			if c.entries == 0 {
				require.Nil(t, r.Findings[0].Job)
			} else {
				require.Equal(t, c.entries, r.Findings[0].Job.Entries, "the smallest job\n%s", r.Findings[0].Job.Text)
			}
		})
	}
	require.Equal(t, 13, shown, "findings that a job shows")
	keptIn(t, "faults", how)
}

func TestSoundBooksAreLeftAlone(t *testing.T) {
	for _, c := range []struct{ name, why, book string }{
		{"every word", "a rule for each base", oneDecision("first", "A, when: base == dense, answer: apple", "B, when: base == open, answer: pear", "C, when: base == panel, answer: plum")},
		{"every number", "below, at and above, told and not told",
			oneDecision("only", "A, when: known(frost.depth) && frost.depth < inches(10), answer: apple", "B, when: known(frost.depth) && frost.depth >= inches(10), answer: pear",
				"C, when: '!known(frost.depth)', answer: plum")},
		{"same answer twice", "rules of an only decision may overlap where they agree",
			oneDecision("only", "A, when: use == foot, answer: apple", "B, when: base == open, answer: apple", "C, when: use != foot && base != open, answer: plum")},
		{"two that are calculated together", "the sum of two numbers is 8 where both are the larger, and in no other row", `
decisions:
  one:
    asks: how much?
    answers: number
    take: only
    rules:
      - {rule: O1, when: use == foot, answer: 1}
      - {rule: O2, when: use != foot, answer: 3}
  two:
    asks: how much?
    answers: number
    take: only
    rules:
      - {rule: T1, when: base == open, answer: 2}
      - {rule: T2, when: base != open, answer: 5}
` + strings.TrimPrefix(oneDecision("first", "A, when: one + two == 8, answer: apple", "B, when: one == 3, answer: pear", "C, answer: plum"), "decisions:\n")},
		{"same answer in two units", "nor by how it is written, but by what it comes to", `
decisions:
  depth:
    asks: how deep?
    answers: length
    take: only
    rules:
      - {rule: A, when: use == foot, answer: inches(12)}
      - {rule: B, when: base == open, answer: feet(1)}
      - {rule: C, when: use != foot && base != open, answer: inches(3)}
`},
		{"gap in a refused job", "what is refused needs no answer", oneDecision("first", "A, when: use != truck_yard, answer: apple") + `
refusals:
  - {refusal: YARD, when: use == truck_yard, says: no yards, who: an engineer, source: practice}
`},
		{"gap where it is not asked", "the decision is asked of open bases alone", `
decisions:
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    when: base == open
    rules:
      - {rule: A, when: use == foot, answer: apple}
      - {rule: B, when: use != foot, answer: pear}
`},
		{"largest", "each rule governs somewhere", `
decisions:
  depth:
    asks: how deep?
    answers: length
    take: largest
    rules:
      - {rule: D1, answer: inches(3)}
      - {rule: D2, when: use != foot, answer: inches(4)}
      - {rule: D3, when: known(frost.depth), answer: frost.depth}
`},
		{"through other decisions", "the walk follows answers, smallest and handed on, to their end", `
decisions:
  depth:
    asks: how deep?
    answers: length
    take: smallest
    rules:
      - {rule: D1, answer: inches(8)}
      - {rule: D2, when: known(frost.depth), answer: frost.depth}
  fruit:
    asks: which fruit?
    answers: answer_word
    take: only
    rules:
      - {rule: A, when: depth <= inches(5), answer: apple}
      - {rule: B, when: depth > inches(5) && depth < inches(8), answer: pear}
      - {rule: C, when: depth == inches(8), answer: plum}
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := surveyed(t, opened(t, c.book), Within{})
			require.Empty(t, r.Findings, "%s\n%s", c.why, written(t, r))
			require.True(t, allSettled(r), "%s\n%s", c.why, written(t, r))
			require.Zero(t, r.Questions[Searched])
		})
	}
}

// What the walk cannot tell must not pass for settled.
func TestSilenceIsNoProof(t *testing.T) {
	// No job has a rain depth that is both more and less than twice itself, but
	// the clauses compare calculated values, so the walk leaves it open.
	book := opened(t, oneDecision("first", "A, when: known(rain.depth) && rain.depth * 2 > rain.depth * 3 + inches(1), answer: apple", "B, answer: pear"))
	r := surveyed(t, book, Within{})
	require.Empty(t, r.Findings)
	require.False(t, allSettled(r))
	require.Equal(t, 1, r.Questions[Searched])
	require.Contains(t, r.Settled[0].Points, Point{"a job for which A answers", Searched})
	require.Positive(t, r.Aimed)
	require.Len(t, r.Unanalyzed, 1)
	require.NotZero(t, r.Unanalyzed[0].Places[0].Line)
	require.Contains(t, written(t, r), "not ruled out")
}

func TestWithin(t *testing.T) {
	book := opened(t, oneDecision("first", "A, when: base == dense, answer: apple", "B, when: base == open && use == foot, answer: pear", "C, when: use == foot, answer: plum"))
	for _, c := range []struct {
		name, why string
		within    Within
		want      []string
	}{
		{"all", "every base", Within{}, []string{"NO ANSWER fruit"}},
		{"dense", "no gap, and the other rules do not apply there", Within{Fixed: map[string]string{"base": "dense"}}, []string{"ALWAYS HIDDEN C < A", "NEVER APPLIES B"}},
		{"open", "the gap is there too", Within{Fixed: map[string]string{"base": "open"}, Decisions: []string{"fruit"}}, []string{"NO ANSWER fruit", "NEVER APPLIES A", "ALWAYS HIDDEN C < B"}},
		{"chapter", "a chapter by name", Within{Chapters: []string{"small"}}, []string{"NO ANSWER fruit"}},
		{"word as the job file has it", "it is that of the rulebook with a dash", Within{Fixed: map[string]string{"soil.uscs": "CL-ML", "base": "dense"}}, []string{"ALWAYS HIDDEN C < A", "NEVER APPLIES B"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := surveyed(t, book, c.within)
			require.ElementsMatch(t, c.want, briefs(r), "%s\n%s", c.why, written(t, r))
			if base, held := c.within.Fixed["base"]; held {
				for _, f := range r.Findings {
					if f.Job != nil {
						require.Contains(t, f.Job.Text, "base: "+base)
					}
				}
			}
		})
	}
}

// A job that a calculation breaks on is told where the survey asks about what breaks, or
// about what reads it, and nowhere else.
func TestTroublesOfAScope(t *testing.T) {
	book := opened(t, `
decisions:
  size:
    asks: how large?
    answers: number
    take: first
    rules:
      - {rule: S, when: known(soil.liquid_limit), answer: 1 / (soil.liquid_limit - 40)}
      - {rule: S2, answer: 1}
  double:
    asks: how large?
    answers: number
    take: first
    rules:
      - {rule: D, answer: size * 2}
  fruit:
    asks: which fruit?
    answers: answer_word
    take: first
    rules:
      - {rule: A, when: known(soil.liquid_limit) && soil.liquid_limit > 40, answer: apple}
      - {rule: B, answer: pear}
cautions:
  - {caution: CARE, when: size > 3, says: no, source: practice}
  - {caution: BARE, when: known(soil.liquid_limit) && soil.liquid_limit == 40, says: no, source: practice}
refusals:
  - {refusal: FAR, when: known(soil.liquid_limit) && soil.liquid_limit > 90 && size > 1, says: no, who: nobody, source: practice}
`)
	for _, c := range []struct{ asks, why, want string }{
		{"size", "the rule is its own", "BREAKS S"},
		{"double", "it uses the size", "BREAKS S"},
		{"CARE", "it reads the size", "BREAKS S"},
		{"FAR", "it reads the size", "BREAKS S"},
		{"fruit", "it reads the limit alone", ""},
		{"BARE", "it reads the limit alone", ""},
	} {
		got := ""
		for _, f := range surveyedWithin(t, book, c.asks).Findings {
			if f.Kind == Breaks {
				got += brief(f)
			}
		}
		require.Equal(t, c.want, got, "%s: %s", c.asks, c.why)
	}
}

// What breaks is told as what it is, in a survey of the whole rulebook and of it alone,
// and not in one of something else.
func TestWhatBreaks(t *testing.T) {
	const (
		broken = "known(soil.liquid_limit) && 1 / (soil.liquid_limit - 40) > 3"
		met    = "known(soil.liquid_limit) && soil.liquid_limit == 40"
	)
	fruit := oneDecision("first", "A, when: "+met+", answer: apple", "B, answer: pear")
	for _, c := range []struct{ is, name, why, book string }{
		{"term", "part", "its value", "terms:\n  part:\n    is: number\n    about: a part\n    when: known(soil.liquid_limit)\n    value: 1 / (soil.liquid_limit - 40)\n    because: told\n    source: practice\n" +
			fruit + "cautions:\n  - {caution: CARE, when: known(part) && part > 3, says: no, source: practice}\n"},
		{"course", "one", "its condition", fruit + "  thickness:\n    asks: how thick?\n    answers: length\n    take: first\n    rules:\n      - {rule: T, answer: inches(4)}\n" +
			"courses:\n  - {course: one, label: One, is: stone_course, when: '" + broken + "', because: x, source: practice, attributes: {thickness: thickness}}\n"},
		{"check", "DEEP", "what it compares", fruit + "checks:\n  - {check: DEEP, asks: is it, when: known(soil.liquid_limit), value: 1 / (soil.liquid_limit - 40), at_most: 9, failing: caution, says: no, because: x, source: practice}\n"},
		{"check", "WHEN", "its condition", fruit + "checks:\n  - {check: WHEN, asks: is it, when: '" + broken + "', holds: base == dense, failing: caution, says: no, because: x, source: practice}\n"},
		{"caution", "CARE", "its condition", fruit + "cautions:\n  - {caution: CARE, when: '" + broken + "', says: no, source: practice}\n"},
		{"refusal", "NO", "its condition", fruit + "refusals:\n  - {refusal: NO, when: '" + broken + "', says: no, who: nobody, source: practice}\n"},
		{"decision", "size", "its condition", fruit + "  size:\n    asks: how large?\n    answers: number\n    when: " + broken + "\n    take: first\n    rules:\n      - {rule: S, answer: 1}\n"},
	} {
		book := opened(t, c.book)
		breaks := func(within ...string) []string {
			out := []string{}
			for _, f := range surveyedWithin(t, book, within...).Findings {
				if f.Kind == Breaks {
					require.NotZero(t, f.Place.Line)
					out = append(out, f.title())
				}
			}
			return out
		}
		require.Equal(t, []string{c.is + " " + c.name}, breaks(), c.why)
		require.Empty(t, breaks("fruit"), c.why)
		if c.is != "term" {
			require.Equal(t, []string{c.is + " " + c.name}, breaks(c.name), c.why)
		}
	}
}

func surveyedWithin(t *testing.T, book *engine.Book, asks ...string) *Report {
	t.Helper()
	r, err := Run(t.Context(), book, Options{Budget: 400, Within: Within{Decisions: asks}})
	require.NoError(t, err)
	return r
}

func TestWithinWhatIsNotThere(t *testing.T) {
	book := opened(t, oneDecision("first", "A, answer: apple"))
	for _, c := range []struct {
		name, why string
		within    Within
		err       string
	}{
		{"decision", "a slip of the keys", Within{Decisions: []string{"fruits"}}, `"fruits" is not the name of a decision, check, caution, course, refusal, step, tolerance or stop; did you mean "fruit"?`},
		{"chapter", "nothing is near", Within{Chapters: []string{"geogrid"}}, `"geogrid" is not the name of a chapter`},
		{"input", "a slip of the keys", Within{Fixed: map[string]string{"bases": "open"}}, `"bases" is not an input; did you mean "base"?`},
		{"word", "of the vocabulary of the input", Within{Fixed: map[string]string{"base": "opn"}}, `base = "opn"`},
		{"unit", "a length has one", Within{Fixed: map[string]string{"frost.depth": "4"}}, `frost.depth = "4"`},
		{"not told", "every job tells the base", Within{Fixed: map[string]string{"base": NotTold}}, "every job tells base"},
		{"yes or no", "perhaps is neither", Within{Fixed: map[string]string{"frost.frost_free": "perhaps"}}, `frost.frost_free = "perhaps"`},
		{"list", "a list is not one value", Within{Fixed: map[string]string{"soil.cbr": "3"}}, `soil.cbr = "3"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Run(context.Background(), book, Options{Within: c.within})
			require.ErrorIs(t, err, ErrWithin, c.why)
			require.ErrorContains(t, err, c.err, c.why)
		})
	}
}

// The report is the same to the byte, whatever the number of goroutines.
func TestSameSeedSameReport(t *testing.T) {
	book := opened(t, faultCases[2].book)
	first := written(t, surveyed(t, book, Within{}))
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	require.Empty(t, cmp.Diff(first, written(t, surveyed(t, book, Within{}))))
	runtime.GOMAXPROCS(4)
	require.Empty(t, cmp.Diff(first, written(t, surveyed(t, book, Within{}))))
}

// What is calculated from few values is worked out row by row; where there are over 2,000
// rows it is left open, and searched.
func TestRowsOfATable(t *testing.T) {
	for _, c := range []struct {
		each int
		why  string
		open int
	}{
		{12, "1,728 rows are worked out: no three of them come to a half", 0},
		{13, "2,197 are not", 1},
	} {
		book := "decisions:\n"
		for _, name := range []string{"x", "y", "z"} {
			var rules []string
			for i := range c.each - 1 {
				rules = append(rules, fmt.Sprintf("when: known(frost.depth) && frost.depth == inches(%d), answer: %d", i, i))
			}
			book += measuredAs(name, "number", "smallest", append(rules, fmt.Sprintf("answer: %d", c.each))...)
		}
		r := surveyedWith(t, opened(t, book+strings.TrimPrefix(oneDecision("first", "A, when: x + y + z == 0.5, answer: apple", "B, answer: pear"), "decisions:\n")), 60)
		require.Len(t, r.Unanalyzed, c.open, "%s\n%s", c.why, written(t, r))
	}
}

// A walk that outgrows its memory says so, and the search goes on without it.
func TestTooManyCells(t *testing.T) {
	for _, c := range faultCases[:7] {
		for _, most := range []int{2, 5, 20, 40} {
			r, err := run(context.Background(), opened(t, c.book), Options{Budget: 800}, most)
			require.NoError(t, err, c.name)
			if most < 20 {
				require.NotEmpty(t, r.Unanalyzed)
				require.NotEmpty(t, r.Unanalyzed[0].Places)
			}
			for _, f := range r.Findings {
				require.Contains(t, c.want, brief(f), "%s within %d", c.name, most)
			}
		}
	}
}

// Where the cells of a question are too many no job can be aimed at it: the others have
// the whole budget, and the report says at which jobs were aimed.
func TestAimedWhereWalked(t *testing.T) {
	const never = "known(rain.depth) && rain.depth * 2 > rain.depth * 3 + inches(1)"
	book := opened(t, oneDecision("first", "A, when: "+never+", answer: apple", "B, answer: pear")+
		"cautions:\n  - {caution: CARE, when: 'base == open && use == foot && "+never+"', says: no, source: practice}\n")
	ways := map[string]bool{}
	for most := 8; most < 1000; most *= 2 {
		r, err := run(t.Context(), book, Options{Budget: 400}, most)
		require.NoError(t, err)
		text := strings.Join(strings.Fields(written(t, r)), " ")
		_, searched, _ := strings.Cut(text, "Only searched: ")
		searched, _, _ = strings.Cut(searched, "; whether")
		ways[searched] = true
		require.Equal(t, r.Aimed > 0, strings.Contains(searched, "aimed"))
	}
	require.Equal(t, map[string]bool{"3 questions": true, "3 questions, with at least 260 jobs aimed at each whose cells could be walked": true,
		"2 questions, with at least 120 jobs aimed at each": true}, ways)
}

func TestStopsWithItsContext(t *testing.T) {
	for _, c := range []struct{ name, why, stage string }{
		{"walk", "before the next subject", "walking the cells"},
		{"search", "before the next job", "random jobs"},
		{"hunt", "before the next aim", "looking for what was not shown"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ctx, cancel := context.WithCancel(t.Context())
			calls := 0
			_, err := Run(ctx, opened(t, faultCases[2].book), Options{Budget: 2000, Progress: func(stage string, done, total int) {
				if stage == c.stage && done < total {
					cancel()
				}
				if ctx.Err() != nil {
					calls++
				}
			}})
			require.ErrorIs(t, err, context.Canceled, c.why)
			require.Equal(t, 1, calls, c.why)
		})
	}
}

// A proof stops too, before what moves is followed and after.
func TestProofsStopWithTheirContext(t *testing.T) {
	book := promising(t, measured("length", "first", "when: known(frost.depth), answer: frost.depth", "answer: inches(0)"), "when: known(frost.depth), as: frost.depth rises, then: x never falls")
	for _, at := range []int{0, 1} {
		ctx, cancel := context.WithCancel(t.Context())
		_, err := Prove(ctx, book, Options{Budget: 60, Progress: func(stage string, done, total int) {
			if stage == "following what moves" && done == at {
				cancel()
			}
		}})
		require.ErrorIs(t, err, context.Canceled, "after %d of 1", at)
	}
}
