package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// tableOf makes a decision d, a length, of the lines of a table.
func tableOf(columns string, rows ...string) string {
	return chapterOf("settings:\n  firm_from: {value: 5, because: b, source: practice}\n",
		"decisions:\n  d:\n    asks: what\n    answers: length\n    table:\n      columns: ["+columns+"]\n      because: told\n      source: practice\n      rows:\n        "+strings.Join(rows, "\n        ")+"\n")
}

// TestTableAnswers holds what each form of a cell lets through, at its ends too.
func TestTableAnswers(t *testing.T) {
	book := mustOpen(t, tableOf("cbr, wet, water, answer",
		"DRY-SOFT: [below 3, no, any, 12 in]",
		"DRY-FIRM: [3 to firm_from, no, any, 6 in]",
		"DRY-HARD: [firm_from and more, no, any, 100 mm]",
		"WET-UNKNOWN: [any, yes, not known, 1 ft]",
		"WET-HIGH: [any, yes, up to 2 ft, 1 1/2 ft]",
		"WET-LOW: [up to 3, yes, over 2 ft, 8 in]",
		"WET-LOW-FIRM: [over 3, yes, over 2 ft, inches(4) + inches(1)]"))
	for _, c := range []struct {
		name, why string
		cbr       float64
		wet       bool
		water     any
		rule      string
		answer    string
	}{
		{"below", "below 3 is less than 3", 2.9, false, nil, "DRY-SOFT", "12 in"},
		{"from", "3 to 5 begins with 3", 3, false, nil, "DRY-FIRM", "6 in"},
		{"not with its end", "3 to 5 ends before 5, which is a setting here", 5, false, nil, "DRY-HARD", "3-15/16 in"},
		{"not known", "a value that is not given", 3, true, nil, "WET-UNKNOWN", "12 in"},
		{"up to", "with its end", 3, true, quantity.Feet(2), "WET-HIGH", "18 in"},
		{"over", "without its end", 3, true, quantity.Feet(2.1), "WET-LOW", "8 in"},
		{"over a number", "just beyond the end of up to", 3.1, true, quantity.Feet(2.1), "WET-LOW-FIRM", "5 in"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job := plain().with("cbr", c.cbr).with("wet", c.wet)
			if c.water != nil {
				job = job.with("water", c.water)
			}
			out, err := book.Run(job, nil)
			require.NoError(t, err)
			require.Equal(t, c.rule, out.Decided[0].Rule.ID, c.why)
			require.Equal(t, c.answer, out.Decided[0].Answer.Text(quantity.US), c.why)
		})
	}
	d := book.Contents().Decisions[0]
	require.Equal(t, rulebook.Only, d.Take, "the default of a table")
	require.Equal(t, []string{"cbr", "wet", "water"}, d.Columns)
	require.Equal(t, "cbr >= 3 && cbr < firm_from && !wet", d.Rules[1].When.Text)
	require.Equal(t, "wet && known(water) && water <= feet(2)", d.Rules[4].When.Text, "it asks for what may be missing")
	require.Equal(t, "a.yaml:18:30", d.Rules[4].Cells[2].Place.String(), "each cell keeps its place")
	for _, clause := range book.Decisions()[0].Rules[4].When.Clauses() {
		require.Equal(t, map[string]string{"wet": "wet", "known(water)": "water", "water <= feet(2)": "water"}[clause.Text], clause.Column)
	}
}

// TestBandsMeet holds that gaps and overlaps are found, and nothing else is.
func TestBandsMeet(t *testing.T) {
	gap := func(at, first, second string) string {
		return "a.yaml:" + at + ": the bands of cbr in the rows " + first + " and " + second + " leave a gap"
	}
	overlap := func(at, first, second string) string {
		return "a.yaml:" + at + ": the bands of cbr in the rows " + first + " and " + second + " overlap"
	}
	for _, c := range []struct {
		name, why string
		rows      []string
		want      []string
	}{
		{"whole", "each begins where the other ends", []string{"A: [below 3, any, 1 in]", "B: [3 to 5, any, 2 in]", "C: [5 and more, any, 3 in]"}, nil},
		{"any order", "rows need not rise", []string{"C: [5 and more, any, 3 in]", "A: [below 3, any, 1 in]", "B: [3 to 5, any, 2 in]"}, nil},
		{"gap", "nothing is said from 3 to 4", []string{"A: [below 3, any, 1 in]", "B: [4 to 5, any, 2 in]", "C: [5 and more, any, 3 in]"}, []string{gap("15:13", "A", "B")}},
		{"gap at a point", "3 itself is in neither", []string{"A: [below 3, any, 1 in]", "B: [over 3, any, 2 in]"}, []string{gap("15:13", "A", "B")}},
		{"no gap at a point", "up to 3 has 3", []string{"A: [up to 3, any, 1 in]", "B: [over 3, any, 2 in]"}, nil},
		{"gap on one side", "of wet ground nothing is said from 3 to 5", []string{"A: [below 3, any, 1 in]", "B: [3 to 5, no, 2 in]", "C: [5 and more, any, 3 in]"}, []string{gap("16:13", "A", "C")}},
		{"gap filled in two parts", "each side has a row of its own", []string{"A: [below 3, any, 1 in]", "B: [3 to 5, no, 2 in]", "C: [3 to 5, yes, 4 in]", "D: [5 and more, any, 3 in]"}, nil},
		{"other rows", "wet and dry ground do not meet", []string{"A: [below 3, yes, 1 in]", "B: [4 and more, no, 2 in]"}, nil},
		{"overlap", "from 2 to 3 both answer", []string{"A: [below 3, any, 1 in]", "B: [2 and more, any, 2 in]"}, []string{overlap("15:13", "A", "B")}},
		{"overlap at a point", "3 itself is in both", []string{"A: [up to 3, any, 1 in]", "B: [3 and more, any, 2 in]"}, []string{overlap("15:13", "A", "B")}},
		{"overlap of others", "wet and dry ground do not meet", []string{"A: [below 3, yes, 1 in]", "B: [2 and more, no, 2 in]", "C: [2 and more, yes, 2 in]"}, []string{overlap("16:13", "A", "C")}},
		{"settings as ends", "they are compared by their values", []string{"A: [below firm_from, any, 1 in]", "B: [6 and more, any, 2 in]"}, []string{gap("15:13", "A", "B")}},
		{"single value", "a value between bands fills nothing but itself", []string{"A: [below 3, any, 1 in]", "B: [3, any, 4 in]", "C: [over 3, any, 2 in]"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := openFiles(tableOf("cbr, wet, answer", c.rows...))
			var got []string
			if err != nil {
				for _, line := range linesOf(t, err) {
					head, _, _ := strings.Cut(line, "; ")
					got = append(got, head)
				}
				require.Nil(t, book)
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// rowHouse is the house with its decision written as a table.
var rowHouse = strings.NewReplacer(`    rules:
      - {rule: RULE-HAVE, answer: setting_have, because: told, source: practice}
      - {rule: RULE-OTHER, answer: inches(1), because: told, source: practice}
`, `    table:
      columns: [term_have, answer]
      because: told
      source: practice
      rows:
        RULE-HAVE: [1 in and more, setting_have]
        RULE-OTHER: [below 1 in, 1 in]
`).Replace(house)

// TestRowsAreRules amends the rows of a table as the rules that they are.
func TestRowsAreRules(t *testing.T) {
	require.NotEqual(t, house, rowHouse)
	open := func(change string) (*Book, error) {
		setup := testSetup()
		setup.AsOf, _ = rulebook.ParseDate("2026-03-01")
		setup.Amendments = []rulebook.Layer{{Label: "ours", FS: filesOf(map[string]string{"a.yaml": keeper + change})}}
		return Open(filesOf(map[string]string{"house.yaml": rowHouse}), setup)
	}
	for _, c := range []struct {
		name, why, change string
		rules             []string // id, condition and answer
		fault             string
	}{
		{"answer", "the cells stay", "replace:\n  - {rule: RULE-HAVE, set: {answer: inches(5), because: told, source: company}}\n",
			[]string{"RULE-HAVE: term_have >= inches(1): inches(5)", "RULE-OTHER: term_have < inches(1): inches(1)"}, ""},
		{"condition", "it takes the place of the cells", "replace:\n  - {rule: RULE-HAVE, set: {when: term_have > inches(9), because: told, source: company}}\n",
			[]string{"RULE-HAVE: term_have > inches(9): setting_have", "RULE-OTHER: term_have < inches(1): inches(1)"}, ""},
		{"whole", "a rule takes the place of a row", "replace:\n  - {rule: RULE-HAVE, with: {answer: inches(5), because: told, source: company}}\n",
			[]string{"RULE-HAVE: true: inches(5)", "RULE-OTHER: term_have < inches(1): inches(1)"}, ""},
		{"retired", "it is told as lifted", "retire:\n  - {rule: RULE-OTHER, because: gone}\n", []string{"RULE-HAVE: term_have >= inches(1): setting_have"}, ""},
		{"moved", "as a rule is", "move:\n  - {rule: RULE-OTHER, before: RULE-HAVE, because: order}\n",
			[]string{"RULE-OTHER: term_have < inches(1): inches(1)", "RULE-HAVE: term_have >= inches(1): setting_have"}, ""},
		{"added", "a rule stands among rows", "add:\n  - {rule: RULE-NEW, to: decision_have, answer: inches(2), because: told, source: company}\n",
			[]string{"RULE-HAVE: term_have >= inches(1): setting_have", "RULE-OTHER: term_have < inches(1): inches(1)", "RULE-NEW: true: inches(2)"}, ""},
		{"no source", "a row is held to what a rule is held to", "replace:\n  - {rule: RULE-HAVE, set: {answer: inches(5), because: told}}\n", nil, "needs a source of its own"},
		{"no reason", "and to its reason", "retire:\n  - {rule: RULE-HAVE}\n", nil, `needs the key "because"`},
		{"another table", "the rows are changed one by one", "replace:\n  - {decision: decision_have, set: {table: {columns: [answer], rows: {R: [1 in]}, because: told, source: company}, because: told}}\n", nil, "an amendment does not change table of a decision"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := open(c.change)
			if c.fault != "" {
				require.ErrorContains(t, err, c.fault, c.why)
				return
			}
			require.NoError(t, err)
			var got []string
			d, _ := book.Decision("decision_have")
			for _, r := range d.Rules {
				got = append(got, r.ID+": "+r.When.Text()+": "+r.Answer.Text)
			}
			require.Empty(t, cmp.Diff(c.rules, got), c.why)
		})
	}
	book, err := open("replace:\n  - {rule: RULE-HAVE, set: {when: wet, because: told, source: company}}\n")
	require.NoError(t, err)
	was := trailOf(t, book, "RULE-HAVE").Replaced[0]
	require.Equal(t, strings.Count(rowHouse[:strings.Index(rowHouse, "RULE-HAVE: ")], "\n")+1, was.Place.Line, "where the row stands")
	require.Contains(t, was.Was, rulebook.Was{Key: "when", Text: "term_have >= inches(1)"}, "what its cells said")
}

// TestWrongTables holds where a table that cannot be read is wrong, and what is said.
func TestWrongTables(t *testing.T) {
	row := "A: [any, any, 1 in]"
	for _, c := range []struct {
		name, why, columns string
		rows               []string
		want               string
	}{
		{"column twice", "a cell would ask one thing twice; the second is shown", "cbr, cbr, answer", []string{row}, "a.yaml:10:22: two columns of one name; found cbr; wanted a column of each name; a.yaml:10:17: the other stands here"},
		{"no answer", "the rows would answer nothing; the last column is shown", "cbr, wet", []string{row}, "a.yaml:10:22: no column has the answers; found wet; wanted a column called answer"},
		{"no columns", "the rows would be lost", "", []string{row}, "a.yaml:10:16: no column has the answers; wanted a column called answer"},
		{"no rows", "nothing would be answered", "cbr, wet, answer", []string{"{}"}, "a.yaml:14:9: the rows of a table are its ids with their cells; wanted ID: [CELL, CELL, ...], one a line, 1 to 300 of them"},
		{"blank standing", "said once, at the row", "cbr, wet, answer", []string{"A: [any, yes, 1 in]", "B: {cells: [any, no, 2 in], standing: ''}"}, `a.yaml:15:37: "standing" of a row has no value; wanted a value`},
		{"blank because", "at the row, whose rule is not made", "cbr, wet, answer", []string{"A: {cells: [any, any, 1 in], because: ' '}"}, `a.yaml:14:38: "because" of a row has no value; wanted a value`},
		{"too few cells", "which one is left out?", "cbr, wet, answer", []string{"A: [any, 1 in]"}, "a.yaml:14:9: the row A has fewer cells than the table has columns; found any, 1 in; wanted a cell for each of cbr, wet, answer"},
		{"too many cells", "which one is too many?", "cbr, wet, answer", []string{"A: [any, any, any, 1 in]"}, "a.yaml:14:9: the row A has more cells than the table has columns; found any, any, any, 1 in; wanted a cell for each of cbr, wet, answer"},
		{"no cells", "a row is a list", "cbr, wet, answer", []string{"A: 1 in"}, "a.yaml:14:12: a row is a list of its cells; found 1 in; wanted [CELL, CELL, ...]"},
		{"ask the same", "no job tells them apart; the second is shown", "cbr, wet, answer", []string{"A: [below 3, yes, 1 in]", "B: [below 3, yes, 2 in]"}, "a.yaml:15:9: the rows A and B ask the same; found B; wanted cells that tell them apart, or one of them; a.yaml:14:9: A stands here"},
		{"both fit", "soft and wet ground has two answers", "cbr, wet, answer", []string{"A: [any, yes, 1 in]", "B: [below 3, any, 2 in]"}, "a.yaml:15:9: the rows A and B answer differently where both fit; found B; wanted cells that tell them apart, or take: first, by which the upper one answers; a.yaml:14:9: A stands here"},
		{"band backward", "5 to 3 lets nothing through", "cbr, answer", []string{"A: [5 to 3, 1 in]"}, `a.yaml:14:13: the band ends before it begins; found 5 to 3; wanted the smaller end first, as in 3 to 5; did you mean "3 to 5"?`},
		{"band of nothing", "3 to 3 lets nothing through, either way round", "cbr, answer", []string{"A: [3 to 3, 1 in]"}, "a.yaml:14:13: the band ends before it begins; found 3 to 3; wanted the smaller end first, as in 3 to 5"},
		{"setting that is not there", "the nearest of its kind is told, at its own place", "cbr, answer", []string{"A: [3 to firm_form, 1 in]"}, `a.yaml:14:18: no setting of the kind number is called so; found firm_form; wanted a value, or the name of a setting; did you mean "firm_from"?`},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, []string{c.want}, faultsOf(t, tableOf(c.columns, c.rows...)), c.why)
		})
	}
	require.NotNil(t, mustOpen(t, tableOf("cbr, wet, answer", "A: [any, yes, 1 in]", "B: [below 3, any, 1 in]", "C: [3 and more, no, 1 in]")), "two rows that answer the same may both fit")
}

// TestBandMeant holds as which band a band in another writing was most likely meant.
func TestBandMeant(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"at most", "with its end", "<= 3", "up to 3"},
		{"less", "without its end", "< 3", "below 3"},
		{"at least", "with its end", "at least 3", "3 and more"},
		{"more", "without its end", "> 3", "over 3"},
		{"plus", "print has it behind the number", "3+", "3 and more"},
		{"dash", "between two ends", "3 - 5", "3 to 5"},
		{"word", "no band at all", "soft", ""},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, bandMeant(c.text), c.why) })
	}
}

// TestTableOfTruths holds that a table answers yes or no in either writing of it.
func TestTableOfTruths(t *testing.T) {
	book := mustOpen(t, strings.Replace(tableOf("cbr, answer", "A: [below 3, yes]", "B: [3 to 4, 'true']", "C: [4 to 5, no]", "D: [5 and more, 'false']"), "answers: length", "answers: bool", 1))
	for cbr, want := range map[float64]string{2: "d=yes by A", 3: "d=yes by B", 4: "d=no by C", 5: "d=no by D"} {
		out, err := book.Run(plain().with("cbr", cbr), nil)
		require.NoError(t, err)
		require.Equal(t, want, answers(out))
	}
}
