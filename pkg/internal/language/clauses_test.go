package language

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// tree writes a condition's tree: &(a b), |(a b), !(a).
func tree(c *Condition) string {
	return logic.Fold(c.Root, func(clause int) string { return c.Clauses[clause].Text }, func(op logic.Op, parts []string) string {
		return map[logic.Op]string{logic.All: "&", logic.Any: "|", logic.Not: "!"}[op] + "(" + strings.Join(parts, "; ") + ")"
	})
}

// TestClauses holds how a condition is split, and where its clauses stand.
func TestClauses(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct{ name, why, text, tree, marked string }{
		{"one", "a single clause has no tree; its text is written in one way, its mark is as it stands", "cbr<3", "cbr < 3", "cbr<3"},
		{"whole numbers", "as they were written, not as doubles", "cbr < 3 && cbr > 0x10", "&(cbr < 3; cbr > 16)", "cbr < 3|cbr > 0x10"},
		{"chain", "however CEL balances it, a reader sees one", "wet && cbr < 3 && cbr > 1 && cbr != 2 && wet", "&(wet; cbr < 3; cbr > 1; cbr != 2; wet)",
			"wet|cbr < 3|cbr > 1|cbr != 2|wet"},
		{"nested", "brackets and ! keep what they hold together", "wet && (cbr < 3 || !(cbr > 1 && wet))", "&(wet; |(cbr < 3; !(&(cbr > 1; wet))))", "wet|cbr < 3|cbr > 1|wet"},
		{"or of ands", "&& binds closer than || without any brackets", "wet && wet || cbr < 3 && wet", "|(&(wet; wet); &(cbr < 3; wet))", "wet|wet|cbr < 3|wet"},
		{"not not", "CEL takes two away", "!!wet", "wet", "wet"},
		{"not", "! belongs to the tree, so the clause can be told without it", "!known(water)", "!(known(water))", "known(water)"},
		{"known", "as it was written, not the hidden name", "known(net.aperture) && known(water) && water < inches(3)", "&(known(net.aperture); known(water); water < inches(3))",
			"known(net.aperture)|known(water)|water < inches(3)"},
		{"in", "the list is part of the clause, and its commas are spaced", "base in [panel,sand]", "base in [panel, sand]", "base in [panel,sand]"},
		{"several lines", "the mark counts line ends as characters", "wet &&\n  cbr\n < 3", "&(wet; cbr < 3)", "wet|cbr\n < 3"},
		{"bool compared", "the comparison is the clause", "wet == true && wet != (cbr < 3)", "&(wet == true; wet != (cbr < 3))", "wet == true|wet != (cbr < 3)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			cond, faults := e.Condition(c.text, nil)
			require.Empty(t, faults)
			require.Equal(t, c.tree, tree(cond), c.why)
			var marked []string
			for _, clause := range cond.Clauses {
				marked = append(marked, string([]rune(c.text)[clause.Offset:clause.Offset+clause.Width]))
			}
			require.Equal(t, c.marked, strings.Join(marked, "|"))
		})
	}
}

// TestSharedText holds that clauses that mean different things never read the
// same, since those that read the same are worked out once.
func TestSharedText(t *testing.T) {
	e := testEnv(t)
	seen := map[string]string{}
	for _, text := range []string{
		"cbr < 3", "cbr < 3.0000001", "cbr < 3.0000000000000004", "cbr <= 3", "cbr < -3", "cbr < 1e300", "cbr < 1e-300", "soil.cbr < 3",
		"label == 'a'", `label == "a'"`, `label == 'A'`, `label == "a\n"`, `label == "a\\n"`, "cbr - 1 - 2 < 3", "cbr - (1 - 2) < 3", "cbr / 2 / 3 < 3", "cbr / (2 / 3) < 3",
		"-cbr < 3", "cbr * (1 + 2) < 3", "cbr * 1 + 2 < 3", "known(water)", "known(swell)", "known(net.aperture)", "base in [panel]", "base in [panel, sand]", "base in [sand, panel]",
		"inches(3) < cover", "mm(3) < cover", "wet == (cbr < 3)", "(wet == true) == (cbr < 3)", "wet == (true == (cbr < 3))",
	} {
		c, faults := e.Condition(text, nil)
		require.Empty(t, faults, text)
		require.Len(t, c.Clauses, 1)
		if was, twice := seen[c.Clauses[0].Text]; twice {
			t.Errorf("%s and %s both read %s", was, text, c.Clauses[0].Text)
		}
		seen[c.Clauses[0].Text] = text
	}
}

func TestComparisonShapes(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct{ name, why, text, want string }{
		{"number", "the plain shape", "cbr < 3", "cbr < 3"},
		{"turned", "the name comes first", "3 <= cbr", "cbr >= 3"},
		{"negative", "the sign is part of the number", "cbr > -3", "cbr > -3"},
		{"quantity", "a unit's function with a number is one operand", "cover >= inches(6)", "cover >= 6 in"},
		{"word", "a word is an operand as a number is", "base == panel", "base == panel"},
		{"other name of a word, turned", "it is a word as its own name is", "triaxial == grid", "grid == multiaxial"},
		{"word, differ", "it is turned as well, though the sign stays", "panel != base", "base != panel"},
		{"text", "a quoted text is an operand", "label == 'north'", "label == north"},
		{"in", "one operand for each item", "base in [panel, sand]", "base in panel sand"},
		{"plain", "a yes or no", "wet", "wet == yes"},
		{"known", "an operator without an operand", "known(water)", "water known"},
		{"known property", "the name is that of the property, dot and all", "known(net.aperture)", "net.aperture known"},
		{"name", "may be a setting", "cover >= depth", "cover >= depth"},
		{"name of a group", "a dotted name is one name", "soil.cbr < 3", "soil.cbr < 3"},
		{"sum", "is no comparison of a name", "cbr + 1 < 3", ""},
		{"of a sum", "an operand is written, not worked out", "cbr < 1 + 2", ""},
		{"calculation", "the left side is no name", "modulus(cbr) > load", ""},
		{"property", "a property may differ by product, so it is no name either", "net.strength > kn_per_m(3)", ""},
		{"negative, in brackets", "the sign is CEL's operator there, and no part of the number", "cbr > -(3)", "cbr > -3"},
		{"negative length", "only a number carries a sign of its own", "cover > -inches(3)", ""},
		{"yes or no, compared", "true is a literal", "wet != true", "wet != yes"},
		{"every sign turned", "less than is more than from the other side", "3 > cbr", "cbr < 3"},
		{"unit of a sum", "a quantity is written outright or not at all", "cover > inches(1 + 2)", ""},
		{"in a list of readings", "the list is a name, whose items change from job to job", "cbr in readings", ""},
		{"in a list that is worked out", "what a calculation is given is no item of what it returns", "cbr in several(3)", ""},
		{"a sum in a list", "its left side is no name", "cbr + 1 in [2]", ""},
		{"in a list of sums", "each item must be written outright", "cbr in [1 + 1]", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			cond, faults := e.Condition(c.text, nil)
			require.Empty(t, faults)
			shape, ok := cond.Clauses[0].Comparison()
			require.Equal(t, c.want != "", ok)
			got := strings.TrimSpace(shape.Name + " " + shape.Op)
			for _, o := range shape.Operands {
				got += " " + operandText(o)
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

func operandText(o *Outline) string {
	if o.Name != "" {
		return o.Name
	}
	return o.Value.Text(quantity.US)
}

// TestReads holds which names an expression reads, in the order of the text and
// each once.
func TestReads(t *testing.T) {
	e := testEnv(t)
	c, faults := e.Condition("known(water) && water < cover && (cbr < 3 || soil.cbr < cbr) && base == panel && net.strength > kn_per_m(3)", nil)
	require.Empty(t, faults)
	require.Equal(t, "[water cover cbr soil.cbr base net]", fmt.Sprint(c.Names), "the words and the functions are no names")
	x, faults := e.Expression("larger(cover, depth) - cover", value.NoKind, nil)
	require.Empty(t, faults)
	require.Equal(t, "[cover depth]", fmt.Sprint(x.Names))
	require.Equal(t, "[larger]", fmt.Sprint(x.Calls), "an operator is no function")
	require.Equal(t, "[kn_per_m]", fmt.Sprint(c.Calls), "nor is what asks whether a value is there")
	require.Equal(t, value.Kind("length"), x.Kind)
}

// TestAskedOnce holds that a name's value is asked for once in a frame, and not
// at all if nothing reads it.
func TestAskedOnce(t *testing.T) {
	e := testEnv(t)
	asked := map[string]int{}
	values := testValues(e)
	frame := e.NewFrame(func(name string) (value.Value, error) { asked[name]++; return values[name], nil },
		func(name string) (bool, error) { asked["known "+name]++; return true, nil })
	c, faults := e.Condition("cbr < 3 || cbr > 4 || cbr == 3 && known(water)", nil)
	require.Empty(t, faults)
	for range 2 {
		for _, clause := range c.Clauses {
			_, err := clause.Holds(frame)
			require.NoError(t, err)
		}
	}
	require.Empty(t, cmp.Diff(map[string]int{"cbr": 1, "known water": 2}, asked))
	_, err := frame.Value("nobody")
	require.EqualError(t, err, "no value is called nobody")
}

// TestErrorsOfNames holds that the error of a name comes through whatever reads
// it, with its cause.
func TestErrorsOfNames(t *testing.T) {
	e := testEnv(t)
	frame := e.NewFrame(func(name string) (value.Value, error) { return value.Value{}, errRefused }, func(string) (bool, error) { return false, errRefused })
	for _, text := range []string{"cbr", "cbr > 3", "cbr in [1]", "larger(cbr, 3)", "net.strength", "known(water)", "known(net.aperture)", "modulus(cbr)", "[cbr] == [1]", "-cbr"} {
		x, faults := e.Expression(text, value.NoKind, nil)
		require.Empty(t, faults, text)
		_, err := x.Eval(frame)
		require.ErrorIs(t, err, errRefused, text)
		require.NotContains(t, err.Error(), "overload", text)
	}
}
