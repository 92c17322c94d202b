package engine

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// told writes clauses as text=yes/no(values), or text=unasked.
func told(clauses []ClauseTold) string {
	var out []string
	for _, c := range clauses {
		is := "unasked"
		if c.Reached {
			is = map[bool]string{true: "yes", false: "no"}[c.Holds]
		}
		out = append(out, c.Text+"="+is+named(c.Values))
	}
	return strings.Join(out, "; ")
}

func named(values []rulebook.NamedValue) string {
	if len(values) == 0 {
		return ""
	}
	var out []string
	for _, v := range values {
		out = append(out, v.Name+" "+v.Value.Text(quantity.US))
	}
	return "(" + strings.Join(out, ", ") + ")"
}

// TestTelling holds which clauses are told as those that settled a condition,
// and with which values.
func TestTelling(t *testing.T) {
	for _, c := range []struct{ name, why, when, clauses, deciding, used string }{
		{"holds", "all of && made it hold", "cbr < 5 && wet", "cbr < 5=yes(cbr 3); wet=yes(wet yes)", "cbr < 5=yes(cbr 3); wet=yes(wet yes)", "(cbr 3, wet yes)"},
		{"fails", "the first that failed, and what follows was not asked", "cbr > 5 && wet", "cbr > 5=no(cbr 3); wet=unasked(wet yes)", "cbr > 5=no(cbr 3)", "(cbr 3)"},
		{"fails later", "what held before it did not settle it", "wet && cbr > 5", "wet=yes(wet yes); cbr > 5=no(cbr 3)", "cbr > 5=no(cbr 3)", "(wet yes, cbr 3)"},
		{"or holds", "one side is enough, and the other is not asked", "cbr < 5 || wet", "cbr < 5=yes(cbr 3); wet=unasked(wet yes)", "cbr < 5=yes(cbr 3)", "(cbr 3)"},
		{"or holds later", "what failed before it did not settle it", "cbr > 5 || wet", "cbr > 5=no(cbr 3); wet=yes(wet yes)", "wet=yes(wet yes)", "(cbr 3, wet yes)"},
		{"or fails", "all of || made it fail", "cbr > 5 || !wet", "cbr > 5=no(cbr 3); wet=yes(wet yes)", "cbr > 5=no(cbr 3); wet=yes(wet yes)", "(cbr 3, wet yes)"},
		{"not", "what makes the && fail makes its denial hold", "!(cbr > 5 && wet)", "cbr > 5=no(cbr 3); wet=unasked(wet yes)", "cbr > 5=no(cbr 3)", "(cbr 3)"},
		{"nested", "the side of || that failed settled nothing, and within ! all that failed did", "wet && (cbr > 5 || !(cbr < 1 || !wet))", "wet=yes(wet yes); cbr > 5=no(cbr 3); cbr < 1=no(cbr 3); wet=yes(wet yes)",
			"wet=yes(wet yes); cbr < 1=no(cbr 3); wet=yes(wet yes)", "(wet yes, cbr 3)"},
		{"missing", "a missing value has none to tell", "known(water) && water < inches(3)", "known(water)=no; water < inches(3)=unasked", "known(water)=no", ""},
		{"absorbed", "a clause that came to an error did not settle it", "1 / zero > 3 || wet", "1 / zero > 3=unasked(zero 0); wet=yes(wet yes)", "wet=yes(wet yes)", "(wet yes)"},
		{"two names", "in the order of the text", "larger(cbr, zero) < 9", "larger(cbr, zero) < 9=yes(cbr 3, zero 0)", "larger(cbr, zero) < 9=yes(cbr 3, zero 0)", "(cbr 3, zero 0)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", c.when, "1"}, [3]string{"B", "", "2"})))).Run(plain(), nil)
			require.NoError(t, err)
			rule := out.Decided[0].Decision.Rules[0]
			require.Empty(t, cmp.Diff(c.clauses, told(out.Clauses(rule.When))), c.why)
			require.Empty(t, cmp.Diff(c.deciding, told(out.Deciding(rule.When))), c.why)
			require.Empty(t, cmp.Diff(c.used, named(out.Used(rule))), c.why)
		})
	}
}

// TestTellingOfWhatWasNotReached holds that nothing is told to have settled a
// condition that nobody asked, though others share its clauses.
func TestTellingOfWhatWasNotReached(t *testing.T) {
	out, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "",
		[3]string{"A", "wet", "1"}, [3]string{"B", "wet && cbr < 5", "2"}, [3]string{"C", "zero == 0 || cbr < 5", "3"}, [3]string{"D", "wet", "4"})))).Run(plain(), nil)
	require.NoError(t, err)
	rules := out.Decided[0].Decision.Rules
	require.Equal(t, []rulebook.State{rulebook.Chosen, rulebook.NotReached, rulebook.NotReached, rulebook.NotReached}, out.Decided[0].States)
	require.Equal(t, "wet=yes(wet yes); cbr < 5=unasked(cbr 3)", told(out.Clauses(rules[1].When)))
	require.Empty(t, out.Deciding(rules[1].When))
	require.Empty(t, out.Deciding(rules[2].When))
	require.Equal(t, "wet=yes(wet yes)", told(out.Deciding(rules[3].When)), "all of it was asked for another rule")
	require.Nil(t, out.Deciding(nil), "no condition is settled by nothing")
	require.Nil(t, out.Clauses(nil))
	require.Equal(t, "(wet yes)", named(out.Used(rules[1])))

	out.AskAll(rules[1].When)
	require.Equal(t, "wet=yes(wet yes); cbr < 5=yes(cbr 3)", told(out.Deciding(rules[1].When)), "once asked, it is told")
}

// TestUsed holds that the values of the answer are told with those of the
// condition, each once.
func TestUsed(t *testing.T) {
	out, err := mustOpen(t, chapterOf("settings:\n  least: {value: 4 in, because: b, source: practice}\n", decisions(
		decision("depth", "length", "first", "", [3]string{"D", "cbr < 5", "larger(least, inches(cbr))"}),
		decision("cover", "length", "first", "known(water)", [3]string{"C", "", "water"}),
		decision("a", "length", "first", "", [3]string{"A", "depth > least && (!known(cover) || wet)", "depth + least"}, [3]string{"B", "", "least"})))).Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, "depth=4 in by D; cover not asked; a=4 in by B", answers(out))
	decided := func(name string) *Decided {
		d, ok := out.run.book.Decision(name)
		require.True(t, ok)
		came, err := out.DecidedBy(d.Name)
		require.NoError(t, err)
		return came
	}
	require.Equal(t, "(cbr 3, least 4 in)", named(out.Used(decided("depth").Rule)))
	require.Equal(t, "(depth 4 in, least 4 in)", named(out.Used(decided("a").Decision.Rules[0])))
	require.False(t, decided("cover").Asked)
	_, err = out.Value("cover")
	require.ErrorIs(t, err, rulebook.ErrMissing)
	v, err := out.Value("depth")
	require.NoError(t, err)
	require.Equal(t, "4 in", v.Text(quantity.US))
	for name, want := range map[string]rulebook.Origin{"cbr": rulebook.FromSite, "least": rulebook.FromSetting, "depth": rulebook.FromDecision} {
		origin, ok := out.run.book.OriginOf(name)
		require.True(t, ok)
		require.Equal(t, want, origin)
	}
	_, ok := out.run.book.OriginOf("nobody")
	require.False(t, ok)
}

// TestSay holds how a sentence quotes its values, and where one that cannot be
// written is told.
func TestSay(t *testing.T) {
	book := mustOpen(t, chapterOf("cautions:\n",
		"  - {caution: W1, source: practice, says: 'CBR {cbr}, {{cbr} and {inches(6)} on {panel}; {wet} {[1, 2]}'}\n",
		"  - {caution: W2, source: practice, says: plain}\n",
		"  - {caution: W3, source: practice, says: 'it is {cbr} over {cbr / zero} or so'}\n",
		"  - {caution: W4, source: practice, says: \"{'}' == 'a'}, and it's so\"}\n"))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	said, err := out.Say(out.Cautions[0].Says)
	require.NoError(t, err)
	require.Equal(t, "CBR 3, {cbr} and 6 in on panel; yes 1, 2", said.Text(quantity.US))
	require.Equal(t, "CBR 3, {cbr} and 152 mm on panel; yes 1, 2", said.Text(quantity.SI))
	require.Equal(t, "CBR {cbr}, {{cbr} and {inches(6)} on {panel}; {wet} {[1, 2]}", out.Cautions[0].Says.String())
	said, err = out.Say(out.Cautions[1].Says)
	require.NoError(t, err)
	require.Equal(t, "plain", said.Text(quantity.SI))
	_, err = out.Say(out.Cautions[2].Says)
	require.EqualError(t, err, "a.yaml:6:62: a sentence: cbr / zero: arithmetic without a result: division by zero (with cbr = 3, zero = 0)")
	said, err = out.Say(out.Cautions[3].Says)
	require.NoError(t, err)
	require.Equal(t, `no, and it's so`, said.Text(quantity.US), "a brace in quotes closes nothing, nor does a quote outside the braces open anything")
	said, err = out.Say(nil)
	require.NoError(t, err)
	require.Empty(t, said.Parts)
	require.Equal(t, "", fmt.Sprint((*Template)(nil)))
}

// TestRefusedFirst holds that a refused job is answered nothing else.
func TestRefusedFirst(t *testing.T) {
	book := mustOpen(t, chapterOf("refusals:\n  - {refusal: R1, when: a > 2, says: 'at {a}', who: an engineer, source: practice}\n  - {refusal: R2, when: cbr > 90, says: s, who: w, source: practice}\n",
		decisions(decision("a", "number", "first", "", [3]string{"A", "", "cbr"}), decision("b", "number", "first", "", [3]string{"B", "!wet", "1"}))))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Len(t, out.Refusals, 1)
	require.Equal(t, "R1", out.Refusals[0].ID)
	require.Empty(t, out.Decided)
	said, err := out.Say(out.Refusals[0].Says)
	require.NoError(t, err)
	require.Equal(t, "at 3", said.Text(quantity.US))
	_, err = book.Run(plain().with("cbr", 1.0), nil)
	require.ErrorIs(t, err, rulebook.ErrNoAnswer, "a job that is not refused is asked everything")
}

// TestChecks holds what checks come to, at their limits above all.
func TestChecks(t *testing.T) {
	check := func(id, rest string) string {
		return "  - {check: " + id + ", asks: fit, failing: stop, says: s, because: b, source: practice, " + rest + "}\n"
	}
	book := mustOpen(t, chapterOf("checks:\n", check("K1", "value: inches(2) + inches(4), at_least: inches(6)"), check("K2", "value: inches(2) + inches(4), at_most: inches(6)"),
		check("K3", "value: cbr, at_least: 3.1"), check("K4", "value: cbr, at_most: 3.1"), check("K5", "holds: wet && cbr > 3"), check("K6", "when: '!wet', holds: wet")))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	var got []string
	for _, c := range out.Checks {
		got = append(got, fmt.Sprint(c.Check.ID, " ", c.Holds))
	}
	require.Equal(t, "K1 true, K2 true, K3 false, K4 true, K5 false", strings.Join(got, ", "))
	require.Equal(t, []string{"a.yaml:4:13: a check asks one thing; wanted either holds, or value with at_least or at_most"},
		faultsOf(t, chapterOf("checks:\n", check("K", "value: cbr, at_least: 1, at_most: 2"))))
	require.Equal(t, []string{"a.yaml:4:109: this is of the wrong kind; found 6, which is a number; wanted a length, such as inches(6)"},
		faultsOf(t, chapterOf("checks:\n", check("K", "value: inches(3), at_least: 6"))))
}
