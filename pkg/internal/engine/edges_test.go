package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
)

// aCourse is a course whose thickness is a decision.
func aCourse(attributes string) string {
	return "courses:\n  - {course: base, label: Base, is: stone, because: b, source: practice, attributes: {" + attributes + "}}\n"
}

// TestEdgesOfDeclarations holds what lies just beyond what a chapter can say.
func TestEdgesOfDeclarations(t *testing.T) {
	rules := func(r string) string {
		return "decisions:\n  a: {asks: what, answers: number, take: first, rules: " + r + "}\n"
	}
	caution := func(says string) string {
		return chapterOf("cautions:\n  - {caution: C, source: practice, says: " + says + "}\n")
	}
	const noRule = "the decision a has no rules; wanted at least one rule, or it would come to no answer on any job"
	const kind = "; wanted a name that stands for one thing in the whole rulebook; the library: it was declared here first"
	for _, c := range []struct {
		name, why, file string
		want            []string
	}{
		{"no rules", "every job would end in an error", chapterOf(rules("[]")), []string{"a.yaml:4:3: " + noRule}},
		{"rules missing", "is told once", chapterOf("decisions:\n  a: {asks: what, answers: number, take: first}\n"), []string{`a.yaml:4:6: a decision needs the key "rules"; wanted rules`}},
		{"vocabulary called list", "CEL has a type of that name, and the fault stands at the name", chapterOf("vocabularies:\n  list: {about: a, words: {one: one}, because: told, source: practice}\n"), []string{"a.yaml:4:3: the name is taken; found list" + kind}},
		{"vocabulary called length", "the library has that kind", chapterOf("vocabularies:\n  length: {about: a, words: {one: one}, because: told, source: practice}\n"), []string{"a.yaml:4:3: the name is taken; found length" + kind}},
		{"hides a property", "light_net.strength would be two things", chapterOf(terms([4]string{"light_net.strength", "number", "", "3"})),
			[]string{"a.yaml:4:3: this name would hide a property of light_net; found light_net.strength; wanted another name; words.yaml:10:3: light_net is declared here"}},
		{"beside a property", "there is no property of the name", chapterOf(terms([4]string{"light_net.strenght", "number", "", "3"})), nil},
		{"group of nothing", "a name may begin with a dot's left side that is no name", chapterOf(terms([4]string{"nets.strength", "number", "", "3"})), nil},
		{"blank sentence", "a crew would read nothing", caution(`"  "`), []string{"a.yaml:4:42: nothing is written here; wanted a sentence"}},
		{"brace at the end", "it is not closed", caution(`"a {"`), []string{"a.yaml:4:45: the brace is not closed; wanted } behind the expression, or {{ for a brace"}},
		{"two braces at the end", "they write one", caution(`"a {{"`), nil},
		{"thickness is a number", "courses could not add up to a depth", chapterOf(rules("[{rule: A, answer: 1, because: b, source: practice}]"), aCourse("thickness: a")),
			[]string{"a.yaml:6:98: a thickness is a length; found a, which is number; wanted a decision that answers a length"}},
		{"another attribute is a number", "lifts are counted", chapterOf(rules("[{rule: A, answer: 1, because: b, source: practice}]"), aCourse("lifts: a")), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Thickness = "thickness"
			_, err := Open(filesOf(map[string]string{"a.yaml": c.file, "words.yaml": wordsFile}), setup)
			if len(c.want) == 0 {
				require.NoError(t, err, c.why)
				return
			}
			require.Empty(t, cmp.Diff(c.want, linesOf(t, err)), c.why)
		})
	}
}

// TestReservedWords holds that no name is a word that CEL keeps for itself.
func TestReservedWords(t *testing.T) {
	for _, word := range []string{"true", "false", "null", "in", "as", "break", "const", "continue", "else", "for", "function", "if", "import",
		"let", "loop", "package", "namespace", "return", "var", "void", "while"} {
		require.False(t, language.IsName(word), word)
		require.False(t, language.IsName("soil."+word), word)
		require.True(t, language.IsName(word+"_"), word)
	}
}

// TestUnreadFile holds that nothing is said of what refers to a file that could
// not be read.
func TestUnreadFile(t *testing.T) {
	for _, c := range []struct{ name, why, file string }{
		{"not YAML", "what it declares is not known", "chapter: [\n"},
		{"too deep", "nor is it here", "chapter: " + "[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[" + "\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Open(filesOf(map[string]string{"a.yaml": chapterOf(terms([4]string{"x", "number", "", "y + 1"})), "b.yaml": c.file}), testSetup())
			var wrong *rulebook.Error
			require.ErrorAs(t, err, &wrong)
			for _, f := range wrong.Faults {
				require.Equal(t, "b.yaml", f.Place.File, c.why)
			}
		})
	}
}

// TestErrorInWhen holds that a decision whose own condition comes to an error is
// an error, and not a question that is not asked.
func TestErrorInWhen(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "1 / zero > 3", [3]string{"A", "", "1"}))))
	_, err := book.Run(plain(), nil)
	var at *rulebook.RunError
	require.ErrorAs(t, err, &at)
	require.Equal(t, "a.yaml:8:12: a: 1 / zero > 3: arithmetic without a result: division by zero (with zero = 0)", at.Error())
}

// TestErrorsTellWhere holds that an error in any part of a rulebook stops the run,
// and tells which part it is.
func TestErrorsTellWhere(t *testing.T) {
	const wrong = "1 / zero > 3"
	check := func(rest string) string {
		return "checks:\n  - {check: K, asks: q, failing: stop, says: s, because: b, source: practice, " + rest + "}\n"
	}
	limit := func(rest string) string {
		return "decisions:\n  a: {asks: what, answers: number, take: first, rules: [{rule: A, answer: 1, because: b, source: practice}], limits: [{limit: L, because: b, source: practice, " + rest + "}]}\n"
	}
	for _, c := range []struct{ name, why, file, in, rule string }{
		{"refusal", "a job that cannot be judged is not built", "refusals:\n  - {refusal: R, when: " + wrong + ", says: s, who: w, source: practice}\n", "refusal R", ""},
		{"when of a course", "whether it is laid is not known", "courses:\n  - {course: c, label: C, is: stone, when: " + wrong + ", because: b, source: practice, attributes: {}}\n", "course c", ""},
		{"when of a check", "what is not asked has not passed", check("when: " + wrong + ", holds: wet"), "check K", ""},
		{"check that holds", "an error is no pass", check("holds: " + wrong), "check K", ""},
		{"value of a check", "nothing can be compared with a limit", check("value: 1 / zero, at_most: 3"), "check K", ""},
		{"limit of a check", "nor with nothing", check("value: cbr, at_most: 1 / zero"), "check K", ""},
		{"caution", "whether it must be given is not known", "cautions:\n  - {caution: W, when: " + wrong + ", says: s, source: practice}\n", "caution W", ""},
		{"when of a limit", "whether it holds is not known", limit("when: " + wrong + ", at_least: 0"), "a", "L"},
		{"value of a limit", "the answer is held to nothing", limit("at_least: 1 / zero"), "a", "L"},
		{"term", "it is told as the term's own, not as the reader's", terms([4]string{"x", "bool", "", wrong}) + "cautions:\n  - {caution: W, when: x, says: s, source: practice}\n", "x", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := mustOpen(t, chapterOf(c.file)).Run(plain(), nil)
			require.Nil(t, out)
			var at *rulebook.RunError
			require.ErrorAs(t, err, &at, c.why)
			require.Equal(t, c.in+"/"+c.rule, strings.TrimSpace(at.Sort+" "+at.In)+"/"+at.Rule, c.why)
			require.ErrorContains(t, err, "division by zero")
		})
	}
}

// TestThickness holds that no course is thinner than nothing.
func TestThickness(t *testing.T) {
	setup := testSetup()
	setup.Thickness = "thickness"
	book, err := Open(filesOf(map[string]string{"words.yaml": wordsFile,
		"a.yaml": chapterOf(decisions(decision("a", "length", "first", "", [3]string{"A", "", "inches(cbr)"})), aCourse("thickness: a"))}), setup)
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		inches    float64
		err       string
	}{
		{"some", "as courses are", 3, ""},
		{"none", "a course that is only there", 0, ""},
		{"less than none", "it would lie above the surface", -1, "a.yaml:11:5: course base: a course cannot be thinner than nothing (with a = -1 in)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := book.Run(plain().with("cbr", c.inches), nil)
			if c.err == "" {
				require.NoError(t, err, c.why)
				return
			}
			require.EqualError(t, err, c.err, c.why)
			require.ErrorIs(t, err, ErrThickness)
		})
	}
}

// TestCompares holds what a check compares, as a text.
func TestCompares(t *testing.T) {
	book := mustOpen(t, chapterOf("checks:\n",
		"  - {check: LEAST, asks: a, value: cbr, at_least: 3, failing: stop, says: b, because: c, source: practice}\n",
		"  - {check: MOST, asks: a, value: cbr, at_most: 3, failing: stop, says: b, because: c, source: practice}\n",
		"  - {check: HOLDS, asks: a, holds: wet, failing: stop, says: b, because: c, source: practice}\n"))
	var got []string
	for _, c := range book.Checks() {
		got = append(got, c.Compares())
	}
	require.Equal(t, []string{"cbr >= 3", "cbr <= 3", ""}, got)
}

// TestComparisonOfAnAnswer holds what is told of a yes-or-no answer that compares.
func TestComparisonOfAnAnswer(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(
		decision("a", "bool", "first", "", [3]string{"A", "cbr < 3", "cbr > 2"}, [3]string{"B", "", "cbr * 2 > 2"}),
		decision("b", "number", "first", "", [3]string{"C", "", "cbr"}))))
	d, _ := book.Decision("a")
	got, ok := book.AnswerFormula(d.Rules[0]).Comparison()
	require.True(t, ok)
	require.Equal(t, "cbr > 2", got.Name+" "+got.Op+" "+got.Values[0].String())
	_, ok = book.AnswerFormula(d.Rules[1]).Comparison()
	require.False(t, ok, "it compares what is worked out")
	other, _ := book.Decision("b")
	_, ok = book.AnswerFormula(other.Rules[0]).Comparison()
	require.False(t, ok, "a number is not a comparison")
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, logic.No, out.Clause(d.Rules[0].When.Clauses()[0].Index))
}
