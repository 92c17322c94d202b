package survey

import (
	flags "flag"
	"os"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

var update = flags.Bool("update", false, "write the golden files anew")

// reported are rulebooks whose reports are held to the letter.
var reported = []struct{ name, why, book string }{
	{"hidden by a setting", "the setting is on, and named as what makes it so", `
settings:
  turned_on: {value: true}
` + oneDecision("first", "A, when: turned_on, answer: apple", "B, when: base == open, answer: pear", "C, answer: plum")},
	{"hidden by two", "the rules that hide it, as few as do so together", oneDecision("first", "Z, when: base == panel, answer: plum", "A, when: base == open, answer: apple",
		"B, when: base != open && use == foot, answer: pear", "C, when: use == foot && base != panel, answer: plum", "D, answer: plum")},
	{"idle", "the parts of conditions that never hold together, and no others", oneDecision("first",
		"A, when: 'base == open && !(use == foot || use == car_driveway) && (known(frost.depth) || use in [foot, car_driveway]) && !known(frost.depth)', answer: apple", "B, answer: pear") + `
refusals:
  - {refusal: PANEL, when: base == panel, says: no, who: nobody, source: practice}
  - {refusal: YARD, when: use == truck_yard, says: no, who: nobody, source: practice}
`},
	{"idle because refused", "the refusal is one of the parts", oneDecision("first", "A, when: use == truck_yard, answer: apple", "B, answer: pear") + `
refusals:
  - {refusal: PANEL, when: base == panel, says: no, who: nobody, source: practice}
  - {refusal: YARD, when: use == truck_yard, says: no, who: nobody, source: practice}
`},
	{"calculated", "what is worked out is searched, and said to be", `
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
      - {rule: A, when: depth < inches(3) && depth * 2 > inches(7), answer: apple}
      - {rule: B, when: depth < inches(30), answer: pear}
      - {rule: C, answer: plum}
checks:
  - {check: DEEP, asks: "is it?", value: depth * 2, at_least: depth, failing: caution, says: no, because: x, source: practice}
`},
	{"clash", "both rules with their places", oneDecision("only", "A, when: use == foot, answer: apple", "B, when: base == open, answer: pear",
		"C, when: use != foot && base != open, answer: plum")},
	{"breaks", "the engine's own words, and a job that a calculation does not reach", `
decisions:
  size:
    asks: how large?
    answers: number
    take: first
    rules:
      - {rule: S, when: known(soil.liquid_limit) && soil.liquid_limit == 40, answer: 1 / (soil.liquid_limit - 40)}
      - {rule: R, when: known(soil.cbr), answer: 'design_cbr(soil.cbr, 1000)'}
      - {rule: N, answer: 1}
`},
	{"never met", "the check, with a job that fails it", oneDecision("first", "A, answer: apple") + `
checks:
  - {check: NEVER-MET, asks: "is it?", holds: fruit == plum, failing: stop, says: no, because: x, source: practice}
  - {check: NEVER-FAILS, asks: "is it?", holds: fruit == apple, failing: caution, says: no, because: x, source: practice}
`},
	{"never governs", "the rule that outdoes it", `
decisions:
  depth:
    asks: how deep?
    answers: length
    take: largest
    rules:
      - {rule: D1, when: use == foot, answer: inches(3)}
      - {rule: D2, answer: inches(4)}
`},
}

// keptIn holds a text to its golden file.
func keptIn(t *testing.T, name, got string) {
	t.Helper()
	golden := "testdata/" + name + ".txt"
	if *update {
		require.NoError(t, os.WriteFile(golden, []byte(got), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got))
}

func TestReports(t *testing.T) {
	var all strings.Builder
	jobs := 0
	for _, c := range reported {
		book := opened(t, c.book)
		r := surveyed(t, book, Within{})
		all.WriteString("=== " + c.name + ": " + c.why + "\n\n" + written(t, r) + "\n")
		require.LessOrEqual(t, r.Jobs, testBudget, "no more jobs are tried than may be")
		shown := 0
		for _, f := range r.Findings {
			if f.Job != nil {
				holdsInEngine(t, book, f)
				shown++
			}
		}
		jobs += shown
	}
	require.Equal(t, 8, jobs, "findings that a job shows")
	keptIn(t, "reports", all.String())
}

// What a rulebook says cannot act on the terminal.
func TestReportIsSafeToShow(t *testing.T) {
	book := opened(t, strings.Replace(oneDecision("first", "A, when: base == open, answer: apple"), "asks: which fruit?", `asks: "which \e[31mfruit\u202e?"`, 1))
	text := written(t, surveyed(t, book, Within{}))
	require.Contains(t, text, "which ?[31mfruit??")
	for _, r := range text {
		require.True(t, r == '\n' || unicode.IsPrint(r), "%q", r)
	}
}

// TestPossible holds how many of the jobs that were tried can be: all of them, where
// the rules read nothing that could contradict itself.
func TestPossible(t *testing.T) {
	r := surveyed(t, opened(t, oneDecision("first", "A, when: base == dense, answer: apple", "B, answer: pear")), Within{})
	require.Positive(t, r.Jobs)
	require.Equal(t, r.Jobs, r.Possible)
}

// A value that a condition compares a name with splits one cell in three, and is no
// new name.
func TestCellsAreCounted(t *testing.T) {
	one := surveyed(t, opened(t, oneDecision("first", "A, when: known(frost.depth) && frost.depth < inches(10), answer: apple", "B, answer: pear")), Within{})
	two := surveyed(t, opened(t, oneDecision("first", "A, when: 'known(frost.depth) && frost.depth in [inches(10), inches(20)]', answer: apple", "B, answer: pear")), Within{})
	require.Equal(t, one.Names, two.Names)
	require.Equal(t, one.Cells+2, two.Cells)
}
