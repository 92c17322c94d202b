package engine

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// overriddenBook has three decisions in a row, and one apart that has no answer.
var overriddenBook = chapterOf(terms([4]string{"more", "length", "", "depth + inches(1)"}), decisions(
	decision("depth", "length", "largest", "", [3]string{"D1", "", "inches(4)"}, [3]string{"D2", "wet", "inches(6)"}),
	decision("cover", "length", "first", "", [3]string{"C1", "", "more * 2"}),
	decision("grid_of", "grid", "first", "", [3]string{"G1", "cover > inches(15)", "no_grid"}, [3]string{"G2", "", "biaxial"}),
	decision("drain", "length", "first", "known(water)", [3]string{"W1", "", "water"}),
	decision("stiff", "pressure", "first", "", [3]string{"S1", "modulus(cbr * 10) > psi(1)", "psi(1)"}),
))

func takeOver(decision, answer string, line int) Override {
	return Override{Decision: decision, Answer: answer, By: "a foreman", Because: "seen on site", Place: diagnostic.Place{File: "job.yaml", Line: line, Column: 3}}
}

func TestOverrides(t *testing.T) {
	book := mustOpen(t, overriddenBook)
	stiff := takeOver("stiff", "psi(9)", 9)
	for _, c := range []struct {
		name, why string
		overrides []Override
		want      string
	}{
		{"one", "what depends on it follows", []Override{takeOver("depth", "inches(8)", 1)},
			"depth=8 in; cover=18 in by C1; grid_of=no grid by G1; drain not asked; stiff=9 psi"},
		{"by an expression", "an override may read what does not need it", []Override{takeOver("cover", "depth + mm(1)", 1)},
			"depth=6 in by D2; cover=6.04 in; grid_of=biaxial grid by G2; drain not asked; stiff=9 psi"},
		{"a word", "vocabularies are known to an override as to a rule", []Override{takeOver("grid_of", "no_grid", 1)}, "depth=6 in by D2; cover=14 in by C1; grid_of=no grid; drain not asked; stiff=9 psi"},
		{"of what is not asked", "there is nothing to answer", []Override{takeOver("drain", "inches(3)", 1)},
			"depth=6 in by D2; cover=14 in by C1; grid_of=biaxial grid by G2; drain not asked; stiff=9 psi"},
		{"two in a row", "an override cuts what its decision's rules need", []Override{takeOver("depth", "smaller(cover, inches(3))", 1), takeOver("cover", "inches(20)", 2)},
			"depth=3 in; cover=20 in; grid_of=no grid by G1; drain not asked; stiff=9 psi"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(plain(), append(c.overrides, stiff))
			require.NoError(t, err)
			require.Equal(t, c.want, answers(out), c.why)
			require.Equal(t, c.overrides[0].Decision == "drain", len(out.Unasked) == 1, "what is not asked is told, and nothing else")
			for _, d := range out.Decided {
				require.Equal(t, d.Asked && d.Rule == nil, d.Override != nil, d.Decision.Name)
			}
		})
	}
}

// TestOverrideKeepsTheRules holds that an override hides nothing: what the rules
// would have said stands beside it, and an error of theirs is shown.
func TestOverrideKeepsTheRules(t *testing.T) {
	out, err := mustOpen(t, overriddenBook).Run(plain(), []Override{takeOver("depth", "inches(5)", 1), takeOver("stiff", "psi(9)", 2)})
	require.NoError(t, err)
	depth := out.Decided[0]
	require.Equal(t, []rulebook.State{rulebook.Held, rulebook.Held}, depth.States)
	require.Equal(t, "6 in", depth.Answers[1].Text(quantity.US))
	require.Equal(t, "a foreman", depth.Override.By)
	require.Len(t, out.Absorbed, 1)
	require.EqualError(t, out.Absorbed[0], "a.yaml:38:86: stiff, rule S1: modulus(cbr * 10) > psi(1): modulus(30): cbr is 30 percent; it must be 1 to 20 percent (the test's own table) (with cbr = 3)")
}

// TestOverrideOfNoAnswer holds that a person can answer where no rule does.
func TestOverrideOfNoAnswer(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", "!wet", "1"}),
		decision("b", "number", "only", "", [3]string{"B1", "", "1"}, [3]string{"B2", "", "2"}))))
	_, err := book.Run(plain(), nil)
	require.ErrorIs(t, err, rulebook.ErrNoAnswer)
	out, err := book.Run(plain(), []Override{takeOver("a", "7", 1), takeOver("b", "8", 2)})
	require.NoError(t, err)
	require.Equal(t, "a=7; b=8", answers(out))
	require.Empty(t, out.Absorbed, "the question was open; nothing went wrong in it")
}

func TestOverridesRefused(t *testing.T) {
	book := mustOpen(t, overriddenBook)
	const head = "the override cannot be followed: "
	for _, c := range []struct {
		name, why string
		overrides []Override
		want      string
	}{
		{"unknown decision", "the override would do nothing, and nobody would notice", []Override{takeOver("depht", "inches(3)", 1)},
			head + `job.yaml:1:3: an override names a decision that does not exist; found depht; wanted the name of a decision; did you mean "depth"?`},
		{"a term", "only decisions are taken over", []Override{takeOver("more", "inches(3)", 1)},
			head + "job.yaml:1:3: an override names a decision that does not exist; found more; wanted the name of a decision"},
		{"wrong kind", "a bare number is no length here either", []Override{takeOver("depth", "6", 1)},
			head + "job.yaml:1:3: the answer of an override: this is of the wrong kind; found 6, which is a number; wanted a length, such as inches(6)"},
		{"word of another", "it is a word, and not one that this decision can answer", []Override{takeOver("grid_of", "panel", 1)},
			head + "job.yaml:1:3: the answer of an override: this is of the wrong kind; found panel, a word of base_type; wanted a word of grid (no_grid, biaxial)"},
		{"as a setting is written", "6 in is right in a job's other fields, so people write it here", []Override{takeOver("depth", "6 in", 1)},
			head + "job.yaml:1:3: the answer of an override: in an expression a unit is written as a function; found 6 in; wanted inches(6)"},
		{"misspelt", "the nearest word of the vocabulary is offered", []Override{takeOver("grid_of", "biaxal", 1)},
			head + `job.yaml:1:3: the answer of an override: no value or word is called biaxal; found biaxal; did you mean "biaxial"?`},
		{"unguarded", "an answer by hand may read only what the job is sure to have", []Override{takeOver("depth", "water", 1)},
			head + "job.yaml:1:3: the answer of an override: water may be missing here; found water; wanted known(water) asked before it, as in known(water) && ..."},
		{"twice", "with the other place", []Override{takeOver("depth", "inches(3)", 1), takeOver("depth", "inches(4)", 2)},
			head + "job.yaml:2:3: the decision is overridden twice; found depth; job.yaml:1:3: here first"},
		{"of itself", "the rules' answer is not there to be read", []Override{takeOver("depth", "depth * 2", 1)},
			head + "job.yaml:1:3: an override cannot use the answer that it overrides; found depth"},
		{"several", "all at once, in order", []Override{takeOver("depht", "1", 2), takeOver("depth", "1", 1)},
			head + "job.yaml:1:3: the answer of an override: this is of the wrong kind; found 1, which is a number; wanted a length, such as inches(1)\n" +
				`job.yaml:2:3: an override names a decision that does not exist; found depht; wanted the name of a decision; did you mean "depth"?`},
		{"of itself, through others", "it would never end", []Override{takeOver("depth", "cover * 2", 1)},
			"job.yaml:1:3: depth, rule override: the override cannot be followed: these need each other: depth needs cover needs more needs depth"},
		{"two that need each other", "neither is wrong without the other", []Override{takeOver("depth", "smaller(cover, inches(3))", 1), takeOver("cover", "depth", 2)},
			"job.yaml:1:3: depth, rule override: the override cannot be followed: these need each other: depth needs cover needs depth"},
		{"cannot be worked out", "it is well written, so the fault shows in the run", []Override{takeOver("depth", "inches(3) / zero", 1), takeOver("stiff", "psi(1)", 2)},
			"job.yaml:1:3: depth, rule override: inches(3) / zero: arithmetic without a result: division by zero (with zero = 0)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(plain(), c.overrides)
			require.Nil(t, out)
			require.EqualError(t, err, c.want, c.why)
			if c.name != "cannot be worked out" {
				require.ErrorIs(t, err, ErrOverride)
			}
		})
	}
}
