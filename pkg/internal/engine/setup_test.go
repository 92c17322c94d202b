package engine

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// tint is a word that a calculation of the tests returns.
type tint string

func (tint) Vocabulary() value.Vocabulary {
	return value.Vocabulary{Name: "tint", About: "the shade of a stone", Words: []value.WordEntry{{Name: "pale", Label: "pale"}, {Name: "dusky", Label: "dusky gray", Go: "d"}}}
}

// mood is a word that only an input speaks.
type mood string

func (mood) Vocabulary() value.Vocabulary {
	return value.Vocabulary{Name: "mood", About: "how it is", Words: []value.WordEntry{{Name: "calm", Label: "calm"}, {Name: "wild", Label: "wild"}}}
}

// blend is an object of the tests, written as its parts with + between them.
type blend struct{ parts []string }

func (blend) RuleTypeName() string { return "blend" }

func (b blend) String() string { return strings.Join(b.parts, " + ") }

// spokenSetup is a setup in which inputs, calculations and objects bring words and
// kinds of their own.
func spokenSetup() Setup {
	setup := testSetup()
	describe := func(name, about string, result any) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{{Name: "cbr", About: "in percent"}}, Result: calculation.Param{Name: "result", About: about},
			Sources: []value.Source{{ID: "practice", Known: value.Practice}}, Go: result}
	}
	setup.Vocabularies = []value.Vocabulary{mood("").Vocabulary()}
	setup.Inputs = append(setup.Inputs, rulebook.Input{Name: "temper", Kind: "mood", Required: true, About: "how it is"})
	setup.Functions = append(setup.Functions,
		describe("tint_of", "the shade", func(cbr float64) tint { return map[bool]tint{true: "pale", false: "d"}[cbr < 5] }),
		describe("parts_of", "what is in it", func(cbr float64) (blend, error) { return blend{[]string{"sand"}}, nil }))
	setup.Objects = []Object{{Kind: "blend", Parse: func(text string) (any, error) {
		if text == "" {
			return nil, errors.New("a blend has a part")
		}
		return blend{strings.Split(text, " + ")}, nil
	}}}
	return setup
}

// TestSpokenSetup holds that rules can speak the words and kinds of whatever the
// rulebook is compiled against.
func TestSpokenSetup(t *testing.T) {
	open := func(t *testing.T, file string) (*Book, error) {
		t.Helper()
		return Open(filesOf(map[string]string{"a.yaml": file, "words.yaml": wordsFile}), spokenSetup())
	}
	for _, c := range []struct{ name, why, kind, answer, want, fault string }{
		{"word of a calculation", "what it returns is a word, told by its label", "tint", "tint_of(cbr + 3)", "dusky gray", ""},
		{"word of a calculation, written", "a rule may answer it by name", "tint", "dusky", "dusky gray", ""},
		{"compared", "by name, whatever the Go value", "bool", "tint_of(cbr) == pale", "yes", ""},
		{"word of the setup", "a vocabulary that only inputs speak", "mood", "calm", "calm", ""},
		{"word of an input", "it comes from the site", "bool", "temper == wild", "yes", ""},
		{"object", "a calculation hands it on", "blend", "parts_of(cbr)", "sand", ""},
		{"word of another", "the words of the library are told apart as those of files are", "mood", "pale", "", "found pale, a word of tint; wanted a word of mood (calm, wild)"},
	} {
		t.Run(c.name, func(t *testing.T) {
			book, err := open(t, chapterOf(decisions(decision("a", c.kind, "first", "", [3]string{"A", "", c.answer}))))
			if c.fault != "" {
				require.ErrorContains(t, err, c.fault, c.why)
				return
			}
			require.NoError(t, err, c.why)
			out, err := book.Run(plain().with("temper", mood("wild")), nil)
			require.NoError(t, err)
			v, err := out.Value("a")
			require.NoError(t, err)
			require.Equal(t, c.want, v.Text(quantity.US), c.why)
		})
	}
	book, err := open(t, chapterOf(decisions(decision("a", "blend", "first", "", [3]string{"A", "", "parts_of(cbr)"}))))
	require.NoError(t, err)
	parsed, fault := book.Literal("sand + clay", "blend")
	require.Nil(t, fault)
	require.Equal(t, "sand + clay", parsed.Text(quantity.US))
	_, fault = book.Literal("", "blend")
	require.NotNil(t, fault)
	require.Equal(t, "a blend has a part", fault.Message)
	require.Equal(t, "blend", fault.Wanted)
}

// TestTakenNames holds that what the setup brings cannot be declared by a file.
func TestTakenNames(t *testing.T) {
	const again = "; wanted a name that stands for one thing in the whole rulebook; the library: it was declared here first"
	for _, c := range []struct{ name, why, file, want string }{
		{"word of the setup", "an input could not be told from it", chapterOf(terms([4]string{"calm", "number", "", "3"})), "a.yaml:4:3: the name is taken; found calm" + again},
		{"word of a calculation", "nor what it returns", chapterOf(terms([4]string{"dusky", "number", "", "3"})), "a.yaml:4:3: the name is taken; found dusky" + again},
		{"vocabulary of a calculation", "its words would be two lists", chapterOf("vocabularies:\n  tint: {about: a, words: {one: one}, because: told, source: practice}\n"), "a.yaml:4:3: the name is taken; found tint" + again},
		{"kind of an object", "a value of it would be two things", chapterOf("vocabularies:\n  blend: {about: a, words: {one: one}, because: told, source: practice}\n"), "a.yaml:4:3: the name is taken; found blend" + again},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Open(filesOf(map[string]string{"a.yaml": c.file, "words.yaml": wordsFile}), spokenSetup())
			require.Equal(t, []string{c.want}, linesOf(t, err), c.why)
		})
	}
}

// TestWrongSetup holds that what the program gets wrong is never told as a fault
// of a rule file.
func TestWrongSetup(t *testing.T) {
	for _, c := range []struct {
		name, why string
		change    func(*Setup)
		want      string
	}{
		{"two inputs of one name", "neither stands in a file", func(s *Setup) { s.Inputs = append(s.Inputs, rulebook.Input{Name: "cbr", Kind: value.NumberKind}) }, "the name is taken; found cbr"},
		{"calculation that is no function", "no rule could call it", func(s *Setup) { s.Functions[0].Go = 3 }, "modulus"},
	} {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			c.change(&setup)
			book, err := Open(filesOf(map[string]string{"a.yaml": chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", "", "1"}))), "words.yaml": wordsFile}), setup)
			require.Nil(t, book)
			var wrong *SetupError
			require.ErrorAs(t, err, &wrong, c.why)
			require.ErrorContains(t, err, c.want)
			require.ErrorIs(t, err, wrong.Unwrap())
		})
	}
}

// wordsOf lists the vocabularies of jobs, each with the labels of its words.
func wordsOf(b *Book) (out []string) {
	for _, v := range b.WordsOfJobs() {
		line := v.Name + ":"
		for _, w := range v.Words {
			line += " " + w.Label
		}
		out = append(out, line)
	}
	return out
}

// TestBookHandsOut holds that a book hands out all that its files declare, in
// their order, and what stands in each.
func TestBookHandsOut(t *testing.T) {
	book := mustOpen(t, chapterOf("settings:\n  least: {value: 4 in, because: 'at {cbr}', source: practice}\n  most: {value: 9 in, because: b, source: practice}\n",
		terms([4]string{"x", "number", "wet", "cbr + 1"}, [4]string{"y", "bool", "", "wet"}),
		"decisions:\n  a: {asks: what, answers: number, take: first, when: wet, rules: [{rule: A, when: wet, answer: cbr * 2, because: of it, source: practice}], limits: [{limit: L, when: cbr > 2, at_least: zero, because: at least, source: practice}]}\n",
		"courses:\n  - {course: c, label: C, is: stone, when: wet && known(a), because: laid, source: practice, attributes: {depth: a}}\n",
		"checks:\n  - {check: K, asks: q, when: wet, holds: cbr > 1, failing: stop, says: mend it, because: it must, source: practice}\n",
		"cautions:\n  - {caution: W, when: wet, says: mind it, source: practice}\n",
		"refusals:\n  - {refusal: R, when: cbr > 90, says: too hard, who: an engineer, source: practice}\n"))
	d, x, y, c, k := book.Decisions()[0], book.Terms()[0], book.Terms()[1], book.Courses()[0], book.Checks()[0]
	l, w, r := d.Limits()[0], book.Cautions()[0], book.Refusals()[0]
	limit, compares := book.LimitFormula(l)
	require.True(t, compares)
	for _, each := range []struct {
		name, why string
		got, want any
	}{
		{"settings", "in their order", []string{book.Settings()[0].Name, book.Settings()[1].Name}, []string{"least", "most"}},
		{"reason of a setting", "with its names", book.Settings()[0].Why.String(), "at {cbr}"},
		{"names of a reason", "that it quotes", book.Settings()[0].Why.Names(), []string{"cbr"}},
		{"reason told otherwise", "something is said in the place of each name", book.Settings()[0].Why.Telling(func(x string) string { return "<" + x + ">" }), "at <cbr>"},
		{"formula of a name", "it reads that alone", book.NameFormula("cbr").Names(), []string{"cbr"}},
		{"formula of a limit", "what answers are compared with", limit.Names(), []string{"zero"}},
		{"limit", "no variance lets an answer cross it", l.Permitted(), false},
		{"words of jobs", "as the files have them, sorted by vocabulary", wordsOf(book), []string{"base_type: open-graded dense-graded panel", "course_kind: stone", "grid: no grid biaxial grid", "net: light net heavy net"}},
		{"terms", "in their order", []string{x.Name, y.Name}, []string{"x", "y"}},
		{"reason of a term", "as written", x.Why.String(), "told"},
		{"when of a term", "it has a value then alone", x.When.Text(), "wet"},
		{"term of yes or no", "its value is a condition", y.TermCondition.Text(), "wet"},
		{"term of a number", "its value is none", x.TermCondition == nil, true},
		{"when of a decision", "it is asked then alone", d.When.Text(), "wet"},
		{"reason of a rule", "as written", d.Rules[0].Because.String(), "of it"},
		{"names of an answer", "what the rule reads beside its condition", d.Rules[0].AnswerNames(), []string{"cbr"}},
		{"limit", "it has a condition and a reason of its own", l.When.Text() + ": " + l.Because.String(), "cbr > 2: at least"},
		{"course", "as the limit has", c.When.Text() + ": " + c.Because.String(), "wet && known(a): laid"},
		{"check", "when it applies, and what it asks", k.When.Text() + ": " + k.Holds.Text(), "wet: cbr > 1"},
		{"sentences of a check", "what to do, and why", k.Says.String() + ": " + k.Because.String(), "mend it: it must"},
		{"caution", "when it is given, and what it says", w.When.Text() + ": " + w.Says.String(), "wet: mind it"},
		{"caution that is not owed", "where nothing says so", w.Owed, false},
		{"refusal", "when it holds, what it says, and who knows more", r.When.Text() + ": " + r.Says.String() + ": " + r.Who.String(), "cbr > 90: too hard: an engineer"},
		{"materials", "in their order", []string{book.Materials()[0].Word.Name, book.Materials()[1].Word.Name}, []string{"light_net", "heavy_net"}},
		{"chapters", "in the order of the files", []string{book.Chapters()[0].Name, book.Chapters()[1].Name}, []string{"tests", "words"}},
		{"no condition", "it reads as what always holds", (*Condition)(nil).Text(), "true"},
		{"tree of a condition", "by the index of its clause", d.When.Tree() != nil, true},
		{"tree of no condition", "there is none", (*Condition)(nil).Tree() == nil, true},
		{"place of a condition", "where it is written", d.Rules[0].When.Place.File, "a.yaml"},
	} {
		t.Run(each.name, func(t *testing.T) { require.Equal(t, each.want, each.got, each.why) })
	}
	for name, want := range map[string]rulebook.Origin{"x": rulebook.FromTerm, "a": rulebook.FromDecision} {
		origin, ok := book.OriginOf(name)
		require.True(t, ok)
		require.Equal(t, want, origin)
	}
}

// TestValueOf holds what a value of a job is to the rules.
func TestValueOf(t *testing.T) {
	book := mustOpen(t, chapterOf())
	for _, c := range []struct {
		name, why string
		x         any
		kind      value.Kind
		want      string
	}{
		{"number", "it has no unit", 3.0, value.NumberKind, "3"},
		{"length", "with its unit", quantity.Inches(6), "length", "6 in"},
		{"word", "by its name", "panel", "base_type", "panel"},
		{"label", "or by what people call it", "open-graded", "base_type", "open-graded"},
		{"text", "no vocabulary has it", "panel", value.TextKind, "panel"},
		{"another word", "it is none of the kind", "biaxial", "base_type", "\"biaxial\" is not a word of base_type"},
	} {
		t.Run(c.name, func(t *testing.T) {
			v, err := book.ValueOf(c.x, c.kind)
			if err != nil {
				require.EqualError(t, err, c.want, c.why)
				return
			}
			require.Equal(t, c.kind, v.Kind())
			require.Equal(t, c.want, v.Text(quantity.US), c.why)
		})
	}
}
