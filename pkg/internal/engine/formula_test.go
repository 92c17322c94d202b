package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// partsBook has a part of every kind that can be worked out apart from a job.
var partsBook = chapterOf("settings:\n  least: {value: 4 in, because: b, source: practice}\n",
	terms([4]string{"deep", "length", "known(water)", "water * 2"}, [4]string{"soft", "bool", "", "cbr * 2 < least / inches(1)"}),
	decisions(decision("a", "length", "first", "", [3]string{"A1", "soft && known(deep)", "larger(least, inches(cbr))"}, [3]string{"A2", "", "least"}),
		decision("b", "bool", "first", "", [3]string{"B", "", "a > least"}),
		decision("c", "bool", "first", "", [3]string{"C", "", "cbr > zero"})),
	"checks:\n  - {check: COMPARES, asks: q, value: a, at_least: least, failing: stop, says: s, because: b, source: practice}\n",
	"  - {check: HOLDS, asks: q, holds: cbr > zero, failing: stop, says: s, because: b, source: practice}\n")

// given are values by their names.
func given(values map[string]value.Value) func(string) (value.Value, bool) {
	return func(name string) (value.Value, bool) { v, ok := values[name]; return v, ok }
}

// TestFormulasOn holds what a part of a book comes to on values that are given.
func TestFormulasOn(t *testing.T) {
	book := mustOpen(t, partsBook)
	rules := func(name string) []*Rule { d, _ := book.Decision(name); return d.Rules }
	ofTerm := func(name string) Formula {
		term, ok := book.Term(name)
		require.True(t, ok)
		f, _ := book.TermFormula(term)
		return f
	}
	_, limit, ok := book.CheckFormulas(book.Checks()[0])
	require.True(t, ok)
	inches := func(n float64) value.Value { return value.Measured(quantity.Inches(n)) }
	for _, c := range []struct {
		name, why, kind, text, reads string
		formula                      Formula
		on                           map[string]value.Value
		want                         string
		err                          string
	}{
		{"answer", "a setting has its own value", "length", "larger(least, inches(cbr))", "least cbr", book.AnswerFormula(rules("a")[0]),
			map[string]value.Value{"cbr": value.Number(3)}, "4 in", ""},
		{"setting that is given", "what a company might set can be tried", "length", "larger(least, inches(cbr))", "least cbr", book.AnswerFormula(rules("a")[0]),
			map[string]value.Value{"cbr": value.Number(3), "least": inches(2)}, "3 in", ""},
		{"value that is not given", "nothing is taken for zero", "length", "larger(least, inches(cbr))", "least cbr", book.AnswerFormula(rules("a")[0]),
			nil, "", "no value was given for cbr"},
		{"term", "its value, whatever its when", "length", "water * 2", "water", ofTerm("deep"), map[string]value.Value{"water": inches(3)}, "6 in", ""},
		{"limit of a check", "a side of a check is a formula too", "length", "least", "least", limit, nil, "4 in", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.kind, string(c.formula.Kind()))
			require.Equal(t, c.text, c.formula.Text())
			require.Equal(t, c.reads, strings.Join(c.formula.Names(), " "))
			require.Equal(t, "a.yaml", c.formula.Place().File)
			v, err := c.formula.On(given(c.on))
			if c.err != "" {
				require.ErrorContains(t, err, c.err, c.why)
				require.ErrorIs(t, err, rulebook.ErrMissing)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.want, v.Text(quantity.US), c.why)
		})
	}
	soft, _ := book.Term("soft")
	_, ok = book.TermFormula(soft)
	require.False(t, ok, "a term of yes or no is a condition")
	require.Equal(t, "cbr * 2 < least / inches(1)", soft.TermCondition.Text())
	require.Nil(t, soft.When)
	_, _, ok = book.CheckFormulas(book.Checks()[1])
	require.False(t, ok, "a check that holds compares nothing")
	_, ok = book.AnswerFormula(rules("c")[0]).Comparison()
	require.False(t, ok, "zero changes from job to job")
	compared, ok := book.AnswerFormula(rules("b")[0]).Comparison()
	require.True(t, ok)
	require.Equal(t, "a > 4 in", compared.Name+" "+compared.Op+" "+compared.Values[0].Text(quantity.US), "a setting does not")
}

// TestClauses holds what a clause tells of itself, and whether it holds on values
// that are given.
func TestClauses(t *testing.T) {
	book := mustOpen(t, partsBook)
	for _, c := range []struct {
		name, why, text, reads, sides string
		on                            map[string]value.Value
		holds                         bool
		err                           string
	}{
		{"compares", "both sides are worked out", "cbr * 2 < least / inches(1)", "cbr least", "cbr * 2 < least / inches(1)", map[string]value.Value{"cbr": value.Number(1.9)}, true, ""},
		{"compares at its limit", "as much is not less", "cbr * 2 < least / inches(1)", "cbr least", "cbr * 2 < least / inches(1)", map[string]value.Value{"cbr": value.Number(2)}, false, ""},
		{"name alone", "it has no sides", "soft", "soft", "", map[string]value.Value{"soft": value.Bool(true)}, true, ""},
		{"known", "what is given is known", "known(deep)", "deep", "", map[string]value.Value{"deep": value.Bool(true)}, true, ""},
		{"not known", "what is not given is not", "known(deep)", "deep", "", nil, false, ""},
		{"not given", "an error is neither yes nor no", "soft", "soft", "", nil, false, "no value was given for soft"},
	} {
		t.Run(c.name, func(t *testing.T) {
			index := -1
			for i := range book.ClauseCount() {
				if book.ClauseText(i) == c.text {
					index = i
				}
			}
			require.GreaterOrEqual(t, index, 0)
			require.Equal(t, c.reads, strings.Join(book.ClauseNames(index), " "))
			left, op, right, ok := book.ClauseSides(index)
			require.Equal(t, c.sides != "", ok, c.why)
			if ok {
				require.Equal(t, c.sides, left.Text()+" "+op+" "+right.Text())
			}
			holds, err := book.ClauseOn(index, given(c.on))
			if c.err != "" {
				require.ErrorContains(t, err, c.err, c.why)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.holds, holds, c.why)
		})
	}
}

// TestNamesOfABook holds what a book tells of its names.
func TestNamesOfABook(t *testing.T) {
	book := mustOpen(t, partsBook)
	for _, c := range []struct {
		name, why, kind string
		mayLack         bool
		uses, reads     string
	}{
		{"cbr", "an input that every job tells", "number", false, "", ""},
		{"water", "an input that a job may not tell", "length", true, "", ""},
		{"least", "a setting reads nothing", "length", false, "", ""},
		{"deep", "a term with a when may have no value, and needs inputs alone", "length", true, "", "water"},
		{"a", "a decision needs terms, and reads settings and inputs too", "length", false, "soft deep", "soft deep least cbr"},
		{"b", "one decision reads another", "bool", false, "a", "a least"},
	} {
		t.Run(c.name, func(t *testing.T) {
			kind, mayLack, ok := book.NameKind(c.name)
			require.True(t, ok)
			require.Equal(t, c.kind, string(kind), c.why)
			require.Equal(t, c.mayLack, mayLack, c.why)
			require.Equal(t, c.uses, strings.Join(book.Uses(c.name), " "), c.why)
			require.Equal(t, c.reads, strings.Join(book.Reads(c.name), " "), c.why)
		})
	}
	_, _, ok := book.NameKind("nobody")
	require.False(t, ok)
	require.Equal(t, "biaxial grid", book.Word("biaxial").Word.Label)
	require.Equal(t, "words.yaml", book.Word("biaxial").Place.File)
}

// TestLiterals holds how values are read as the trade writes them.
func TestLiterals(t *testing.T) {
	book := mustOpen(t, partsBook)
	for _, c := range []struct{ name, why, text, kind, want, fault string }{
		{"yes", "a person's word", " yes ", "bool", "yes", ""},
		{"true", "a machine's word", "true", "bool", "yes", ""},
		{"no", "the other answer of a person", "no", "bool", "no", ""},
		{"false", "the other answer of a machine", "false", "bool", "no", ""},
		{"neither", "nothing is taken for no", "maybe", "bool", "", "this is neither true nor false; found maybe; wanted true or false"},
		{"number", "with a point", "3.5", "number", "3.5", ""},
		{"number with a unit", "a length is no number", "3 in", "number", "", "this is not a number; found 3 in; wanted a number without a unit"},
		{"length", "with a fraction", "3 1/2 in", "length", "3-1/2 in", ""},
		{"length without its unit", "it could be feet", "3", "length", "", "a unit is missing, and a length is wanted; found 3; wanted one of the units in, ft, yd, mm, cm, m, um"},
		{"text", "every space of it is kept", " as is ", "text", " as is ", ""},
		{"word", "by its name", "no_grid", "grid", "no grid", ""},
		{"word by its label", "as a sheet prints it", "no grid", "grid", "no grid", ""},
		{"word of another vocabulary", "it is no answer here", "panel", "grid", "", "this is not a word of grid; found panel; wanted one of biaxial, no_grid"},
		{"material", "of its kind", "light_net", "net", "light net", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, fault := book.Literal(c.text, value.Kind(c.kind))
			if c.fault != "" {
				require.NotNil(t, fault, c.why)
				require.Contains(t, fault.Error(), c.fault, c.why)
				return
			}
			require.Nil(t, fault, c.why)
			require.Equal(t, c.want, v.Text(quantity.US), c.why)
		})
	}
}

// TestWhyNot holds which clauses are told of a rule that does not hold.
func TestWhyNot(t *testing.T) {
	book := mustOpen(t, guardedBook)
	base, _ := book.Decision("base_of")
	for _, c := range []struct {
		name, why string
		site      site
		rule      int
		want      string
	}{
		{"decision not asked", "the reason is what its own when lacks", plain(), 0, "known(water)=no"},
		{"term not there", "a term has a when as well", plain(), 1, "known(water)=no"},
		{"term not there for another reason", "the clause that failed, not the one that held", plain().with("water", quantity.Inches(30)).with("cbr", 0.5), 1, "cbr > 1=no(cbr 0.5)"},
		{"value too large", "it is there, so the comparison settles it", plain().with("water", quantity.Inches(30)), 0, "drain < inches(12)=no(drain 24 in)"},
		{"no condition", "a rule without one always holds", plain(), 2, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.site, nil)
			require.NoError(t, err)
			require.Equal(t, c.want, told(out.WhyNot(base.Rules[c.rule].When, nil)), c.why)
		})
	}
}

// TestPassedBy holds by what a value that a job tells makes no difference.
func TestPassedBy(t *testing.T) {
	book := mustOpen(t, chapterOf(terms([4]string{"twice", "number", "", "cbr * 2"}, [4]string{"spare", "number", "", "cbr + 1"}),
		decisions(
			decision("asked", "number", "first", "wet", [3]string{"A1", "zero > 1", "1.0"}, [3]string{"A2", "twice > 3", "2.0"}, [3]string{"A3", "", "3.0"}),
			decision("by_answer", "length", "first", "", [3]string{"B1", "known(water) && zero > 5", "water"}, [3]string{"B2", "", "inches(1)"})),
		"checks:\n  - {check: K, asks: q, when: zero > 7, holds: known(soil.swell), failing: caution, says: s, because: b, source: practice}\n"))
	for _, c := range []struct {
		name, why, input string
		job              site
		want             string
	}{
		{"a decision that is not asked", "that it is not asked", "cbr", plain().with("wet", false), "wet=no(wet no)"},
		{"a rule that is not reached", "the rule that answered before it", "cbr", plain().with("zero", 2.0), "zero > 1=yes(zero 2)"},
		{"a rule that answers", "it makes a difference", "cbr", plain(), ""},
		{"a rule that does not hold", "another value would let it hold", "cbr", plain().with("cbr", 1.0), ""},
		{"an answer that is not given", "by another clause than its own", "water", plain().with("water", quantity.Inches(2)), ""},
		{"a check that is not made", "why it is not", "soil.swell", plain().with("soil.swell", 3.0), "zero > 7=no(zero 0)"},
		{"a check that is made", "it makes a difference", "soil.swell", plain().with("soil.swell", 3.0).with("zero", 8.0), ""},
		{"what nothing reads", "there is nothing to tell", "depth", plain(), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.job, nil)
			require.NoError(t, err)
			require.Equal(t, c.want, told(out.PassedBy(c.input)), c.why)
		})
	}
}

// TestCameAndPresumed holds what a run tells of its decisions without working
// anything out.
func TestCameAndPresumed(t *testing.T) {
	book := mustOpen(t, chapterOf("refusals:\n  - {refusal: R, when: a > 90, says: s, who: w, source: practice}\n",
		terms([4]string{"twice", "number", "", "a * 2"}, [4]string{"other", "number", "", "b * 2"}),
		"decisions:\n  a: {asks: what, answers: number, take: first, rules: [{rule: A1, when: wet, answer: cbr, standing: presumed, because: b, source: practice}, {rule: A2, answer: 2, because: b, source: practice}]}\n",
		decision("b", "number", "first", "", [3]string{"B", "", "a"})))
	a, _ := book.Decision("a")
	b, _ := book.Decision("b")
	for _, c := range []struct {
		name, why string
		site      site
		cameB     bool
		presumed  string
	}{
		{"presumed", "what reads it through a term is presumed, and another decision's rule speaks for itself", plain(), true, "a twice"},
		{"another rule", "it is the rule that presumes, not the decision", plain().with("wet", false), true, ""},
		{"refused", "what the refusal needs is worked out, and no more", plain().with("cbr", 95.0), false, "a twice"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.site, nil)
			require.NoError(t, err)
			came, ok := out.Came(a)
			require.True(t, ok)
			require.True(t, came.Asked)
			_, ok = out.Came(b)
			require.Equal(t, c.cameB, ok, c.why)
			var presumed []string
			for _, name := range []string{"a", "b", "twice", "other", "cbr"} {
				if out.Presumed(name) {
					presumed = append(presumed, name)
				}
			}
			require.Equal(t, c.presumed, strings.Join(presumed, " "), c.why)
			holds, err := out.Holds(a.Rules[0].When)
			require.NoError(t, err)
			require.Equal(t, c.site["wet"], holds)
			_, err = out.DecidedBy("nobody")
			require.ErrorContains(t, err, "nobody")
		})
	}
}

// TestNotCalculated holds which errors refuse a job, and which are a fault.
func TestNotCalculated(t *testing.T) {
	for _, c := range []struct {
		name, why, answer string
		refuses           bool
	}{
		{"out of range", "the job lies beyond a published table", "modulus(zero) / psi(1)", true},
		{"panics", "the calculation is at fault, not the job", "panics(cbr)", false},
		{"division by zero", "no calculation was asked", "1 / zero", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", "", c.answer})))).Run(plain(), nil)
			require.Error(t, err)
			call, ok := NotCalculated(err)
			require.Equal(t, c.refuses, ok, c.why)
			require.Equal(t, c.refuses, call != nil)
		})
	}
}
