package engine_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// limited adds limits to the small rulebook, as a company would.
const limited = `add:
  - {limit: NOT-BELOW, to: depth, at_least: inches(5), because: "Less than {cover} does not hold.", source: company}
  - {limit: NOT-ABOVE, to: depth, at_most: inches(20), because: A pit is no base., source: company}
  - {limit: GRID-KIND, to: which_grid, one_of: [no_grid, biaxial], because: There are no others., source: company}
  - decision: grids
    asks: Which grids may lie there?
    answers: grid
    take: all
    rules: [{rule: NO-GRID, answer: no_grid, because: None., source: company}]
    limits: [{limit: NO-BIAXIAL, none_of: [biaxial], because: It is sold out., source: company}]
  - {limit: GRID-NOT-ON-STRONG, to: which_grid, when: known(cbr) && cbr > 50, none_of: [biaxial], because: It would do nothing., source: company}
`

func TestLimits(t *testing.T) {
	over := func(decision, answer string) []engine.Override {
		return []engine.Override{{Decision: decision, Answer: answer, By: "J. Orr", Because: "I say so"}}
	}
	const thin = "replace:\n  - {setting: cover, set: {value: 4 in, because: Thin., source: company}}\n"
	const leave = "variances:\n  - {variance: v, limit: NOT-BELOW, to: 4 in, who: O, why: W., until: 2027-01-01}\n"
	says := map[string]string{"NOT-BELOW": "at least 5 in", "NOT-ABOVE": "at most 20 in", "GRID-KIND": "one of no grid, biaxial grid",
		"GRID-NOT-ON-STRONG": "none of biaxial grid", "NO-BIAXIAL": "none of biaxial grid", "AS-RULES": "at least 6 in"}
	const asRules = "add:\n  - {limit: AS-RULES, to: depth, at_least: by_rules, because: As the rules say., source: company}\n"
	for _, c := range []struct {
		name, why string
		texts     []string
		overrides []engine.Override
		cbr       float64
		crossed   []string // the limits
		by        string   // a person, or an amendment
		permitted bool
	}{
		{"within", "the usual case", []string{head + limited}, nil, 5, nil, "", false},
		{"override below", "a person is held to it", []string{head + limited}, over("depth", "inches(4)"), 5, []string{"NOT-BELOW"}, "J. Orr", false},
		{"override on the edge", "the limit itself is allowed", []string{head + limited}, over("depth", "inches(5)"), 5, nil, "", false},
		{"override above", "on the other side too", []string{head + limited}, over("depth", "inches(21)"), 5, []string{"NOT-ABOVE"}, "J. Orr", false},
		{"override by a word", "of which none may be answered here", []string{head + limited}, over("which_grid", "biaxial"), 60, []string{"GRID-NOT-ON-STRONG"}, "J. Orr", false},
		{"override by a word elsewhere", "the limit has a condition", []string{head + limited}, over("which_grid", "biaxial"), 40, nil, "", false},
		{"setting of an amendment", "what a rule reads", []string{head + limited, second + thin}, nil, 5, []string{"NOT-BELOW"}, "second", false},
		{"word of an amendment", "which is not of the set", []string{head + limited, second + "add:\n  - {word: mesh, to: grid, label: mesh, because: New., source: company}\nreplace:\n  - {rule: GRID-NONE, set: {answer: mesh, because: Ours., source: company}}\n"}, nil, 5, []string{"GRID-KIND"}, "second", false},
		{"kind of a word of the set", "it is one of them", []string{head + limited, second + "add:\n  - {word: mesh, to: grid, label: mesh, kind_of: biaxial, because: New., source: company}\nreplace:\n  - {rule: GRID-NONE, set: {answer: mesh, because: Ours., source: company}}\n"}, nil, 5, nil, "", false},
		{"permitted", "as far as the variance says", []string{head + limited + leave, second + thin}, nil, 5, []string{"NOT-BELOW"}, "second", true},
		{"one word of a list", "each of them is held to the limit", []string{head + limited}, over("grids", "[no_grid, biaxial]"), 5, []string{"NO-BIAXIAL"}, "J. Orr", false},
		{"list within", "none of them is named", []string{head + limited}, over("grids", "[no_grid]"), 5, nil, "", false},
		{"less than the rules say", "a person is held to the rules", []string{head + asRules}, over("depth", "inches(5)"), 5, []string{"AS-RULES"}, "J. Orr", false},
		{"as much as the rules say", "the rules' answer is allowed", []string{head + asRules}, over("depth", "inches(6)"), 5, nil, "", false},
		{"the rules alone", "what they say cannot be less than they say", []string{head + asRules, second + thin}, nil, 5, nil, "", false},
		{"beyond what is permitted", "and no farther", []string{head + limited + leave}, over("depth", "inches(3)"), 5, []string{"NOT-BELOW"}, "J. Orr", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := amendedBook("2026-03-01", c.texts...)
			require.NoError(t, err, c.why)
			out, err := book.Run(given{"cbr": c.cbr}, c.overrides)
			require.NoError(t, err, c.why)
			var crossed []string
			for _, x := range out.Crossed {
				crossed = append(crossed, x.Limit.ID)
				require.Equal(t, c.permitted, x.Variance != nil, c.why)
				require.Equal(t, says[x.Limit.ID], x.Limit.Says(x.Value, quantity.US))
				var by []string
				for _, o := range x.Overrides {
					by = append(by, o.By)
				}
				for _, a := range x.Amended {
					by = append(by, a.By.Name)
				}
				require.Contains(t, by, c.by, c.why)
			}
			require.Equal(t, c.crossed, crossed, c.why)
			var beyond []string // without permission
			for _, d := range out.Decided {
				limit, err := out.Beyond(d)
				require.NoError(t, err)
				if limit != nil {
					beyond = append(beyond, limit.ID)
				}
			}
			if c.permitted {
				crossed = nil
			}
			require.Equal(t, crossed, beyond, c.why)
		})
	}
}

// TestOwnLimitCrossed holds that a rulebook which crosses its own limit is wrong,
// with the rule and the limit.
func TestOwnLimitCrossed(t *testing.T) {
	const last = "answer: inches(4), because: Least., source: practice}\n"
	text := strings.Replace(amended, last, last+"      - {rule: OVER, when: known(cbr) && cbr > 90, answer: inches(30), because: x, source: practice}\n    limits:\n      - {limit: MOST, at_most: inches(20), because: x, source: practice}\n", 1)
	setup := engine.Setup{Label: "rules", Inputs: []rulebook.Input{{Name: "cbr", Kind: value.NumberKind, About: "CBR"}}}
	book, err := engine.Open(fstest.MapFS{"small.yaml": {Data: []byte(text)}}, setup)
	require.NoError(t, err)
	_, err = book.Run(given{"cbr": 5.0}, nil)
	require.NoError(t, err)
	_, err = book.Run(given{"cbr": 95.0}, nil)
	require.ErrorIs(t, err, rulebook.ErrCrossed)
	var run *rulebook.RunError
	require.ErrorAs(t, err, &run)
	require.Equal(t, "OVER", run.Rule)
	require.Equal(t, "MOST", run.Against)
	require.Contains(t, err.Error(), "30 in, where limit MOST at rules/small.yaml")
	require.Contains(t, err.Error(), "says at most 20 in")
}

// TestWhoCrossed holds whose doing it is that an answer is beyond a limit of the
// rulebook's own, however far from the answer the change stands.
func TestWhoCrossed(t *testing.T) {
	text := strings.NewReplacer(
		"words: {no_grid: no grid, biaxial: biaxial grid}", "words: {no_grid: no grid, biaxial: biaxial grid, mesh: mesh, sheet: sheet}",
		"settings:\n", "settings:\n  usual: {value: biaxial, because: Usual., source: practice}\n",
		"decisions:\n", "terms:\n  thick: {is: length, about: it, value: cover * 2, because: So., source: practice}\ndecisions:\n",
		"    rules:\n      - {rule: GRID-WEAK,", "    limits: [{limit: NO-SHEET, none_of: [sheet], because: It slides., source: practice}]\n    rules:\n      - {rule: GRID-USUAL, when: usual == mesh, answer: sheet, because: Usual., source: practice}\n      - {rule: GRID-WEAK,",
		"    rules:\n      - {rule: DEPTH-COVER, answer: cover,", "    limits: [{limit: AS-THICK, when: which_grid != biaxial, at_least: thick / 2, because: Deep., source: practice}]\n    rules:\n      - {rule: DEPTH-COVER, answer: cover,",
	).Replace(amended)
	for _, c := range []struct{ name, why, change, crossed string }{
		{"word that a setting has", "the setting is as it was, and what its word is a kind of is not", "replace:\n  - {word: biaxial, set: {label: biaxial grid, kind_of: mesh, because: b, source: company}}\n", "NO-SHEET"},
		{"term that the limit reads", "the answer is as it was", "replace:\n  - {term: thick, set: {value: cover * 3, because: b, source: company}}\n", "AS-THICK"},
		{"rule that is gone", "what answered is not there", "retire:\n  - {rule: DEPTH-COVER, because: b}\n", "AS-THICK"},
		{"nothing that it reads", "a change elsewhere crosses nothing", "add:\n  - {caution: C, says: Mind., source: company}\n", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := engine.Open(fstest.MapFS{"small.yaml": {Data: []byte(text)}}, engine.Setup{Label: "rules",
				Inputs:     []rulebook.Input{{Name: "cbr", Kind: value.NumberKind, About: "CBR"}},
				Amendments: []rulebook.Layer{{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(head + c.change)}}}}})
			require.NoError(t, err, c.why)
			out, err := book.Run(given{"cbr": 5.0}, nil)
			require.NoError(t, err, c.why)
			crossed := ""
			for _, x := range out.Crossed {
				crossed = x.Limit.ID
				require.Len(t, x.Amended, 1, c.why)
				require.Equal(t, "first", x.Amended[0].By.Name)
			}
			require.Equal(t, c.crossed, crossed, c.why)
		})
	}
}

func TestLimitFaults(t *testing.T) {
	const l = "add:\n  - {limit: L, to: depth, at_least: inches(1), because: b, source: company}\n"
	for _, c := range []struct{ name, why, text, over, want string }{
		{"two at once", "a limit says one thing", "add:\n  - {limit: L, to: depth, at_least: inches(1), at_most: inches(2), because: b, source: company}\n", "", "ours/a.yaml:7:13: a limit says one thing; wanted one of at_least, at_most, one_of and none_of"},
		{"none", "or nothing", "add:\n  - {limit: L, to: depth, because: b, source: company}\n", "", "a limit says one thing"},
		{"of words that have no order", "one is not more than another", "add:\n  - {limit: L, to: which_grid, at_least: biaxial, because: b, source: company}\n", "", "answers of this kind have no order; found grid; wanted one_of or none_of"},
		{"of lengths by name", "there are too many", "add:\n  - {limit: L, to: depth, one_of: [4 in], because: b, source: company}\n", "", "only words are named one by one; found length; wanted at_least or at_most"},
		{"no words at all", "no answer would be within", "add:\n  - {limit: L, to: which_grid, one_of: [], because: b, source: company}\n", "", "these are written as a list of words"},
		{"one word alone", "a list is wanted", "add:\n  - {limit: L, to: which_grid, one_of: biaxial, because: b, source: company}\n", "", "these are written as a list of words; wanted [one, another]"},
		{"no such word", "with the nearest", "add:\n  - {limit: L, to: which_grid, one_of: [biaxal], because: b, source: company}\n", "", `found biaxal; wanted one of biaxial, no_grid; did you mean "biaxial"?`},
		{"wrong kind", "as of any expression", "add:\n  - {limit: L, to: depth, at_least: 6, because: b, source: company}\n", "", "wanted a length, such as inches(6)"},
		{"id taken", "a reason names it alone", "add:\n  - {limit: GRID-WEAK, to: depth, at_least: inches(6), because: b, source: company}\n", "", "GRID-WEAK is there already"},
		{"retired without permission", "a limit is owed", l, "retire:\n  - {limit: L, because: b}\n", "ours/b.yaml:8:13: amendment second retires the limit L without permission"},
		{"weakened without permission", "by the back door", l, "replace:\n  - {limit: L, set: {at_least: inches(0), because: b, source: company}}\n", "ours/b.yaml:8:13: amendment second changes the limit L without permission"},
	} {
		t.Run(c.name, func(t *testing.T) {
			texts := []string{head + c.text}
			if c.over != "" {
				texts = append(texts, second+"over: [first]\n"+c.over)
			}
			_, err := amendedBook("2026-03-01", texts...)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}

// TestCourseKeepsLimits holds that a course which an amendment points to another
// decision is held to the limits of the one before.
func TestCourseKeepsLimits(t *testing.T) {
	book, err := amendedBook("2026-03-01", head+limited, second+`over: [first]
add:
  - decision: our_depth
    asks: How deep?
    answers: length
    take: first
    rules:
      - {rule: OURS, answer: inches(1), because: Thin., source: company}
replace:
  - {course: base, set: {attributes: {thickness: our_depth}, because: Ours., source: company}}
`)
	require.NoError(t, err)
	out, err := book.Run(given{"cbr": 5.0}, nil)
	require.NoError(t, err)
	require.Len(t, out.Crossed, 1)
	require.Equal(t, "NOT-BELOW", out.Crossed[0].Limit.ID)
	require.Equal(t, "our_depth", out.Crossed[0].Decided.Decision.Name)
	require.Equal(t, "at least 5 in", out.Crossed[0].Limit.Says(out.Crossed[0].Value, quantity.US))
}
