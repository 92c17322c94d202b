package survey

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
)

// A word is asked about where a rule answers it, a clause compares it, or
// something else of the rulebook has it; whoever reads the list sees the others.
// classes are those that no soil name of the standard counts as.
const classes = "uscs: GW GM GC GC_GM GW_GM GW_GC GP_GM GP_GC SW SC_SM SW_SM SW_SC SP_SM SP_SC CL_ML CH MH OL OH"

// edges are what an area may meet, of which no small rulebook asks.
const edges = "edge_kind: house lawn curb street"

func TestUnaskedWords(t *testing.T) {
	const vocabulary = "\nvocabularies:\n  tint:\n    about: colors\n    words: {red: red, green: green, blue: blue}\n    because: told\n    source: practice\n"
	book := func(rules ...string) string {
		return strings.Replace(vocabulary, "\nvocabularies:\n", "", 1) + oneDecision("first", rules...)
	}
	for _, c := range []struct {
		name, why, book string
		want            []string
	}{
		{"answered and compared", "apple and pear are answered, plum is compared", book("A, when: base == open, answer: apple", "B, answer: pear") + `
  juice:
    asks: which juice?
    answers: answer_word
    take: first
    rules:
      - {rule: J1, when: fruit == plum, answer: apple}
      - {rule: J2, answer: apple}
`, []string{"base_type: dense panel", edges, "tint: red green blue", classes}},
		{"in a list", "in compares each of the list", book("A, when: 'base in [open, panel]', answer: apple", "B, answer: pear"), []string{"answer_word: plum", "base_type: dense", edges, "tint: red green blue", classes}},
		{"of a setting", "a setting may be compared in place of a word", book("A, when: base == wanted, answer: apple", "B, answer: pear") + "\nsettings:\n  wanted: {value: panel}\n",
			[]string{"answer_word: plum", "base_type: dense open", edges, "tint: red green blue", classes}},
		{"of a calculation", "a calculation knows every word of the kinds that it takes", book("A, when: known(soil.uscs) && is_organic(soil.uscs) || soil_is, answer: apple", "B, answer: pear") + "\nterms:\n  soil_is:\n    is: bool\n    about: x\n    because: told\n    source: practice\n    value: known(soil.uscs) && soil.uscs == CL\n",
			[]string{"answer_word: plum", edges, "tint: red green blue"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for _, u := range unasked(opened(t, c.book)) {
				if u.Vocabulary != "course_kind" {
					got = append(got, string(u.Vocabulary)+": "+strings.Join(u.Words, " "))
				}
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// A word that an amendment brings is told with every entry of the rulebook that
// asks for other words of its vocabulary.
func TestPassedBy(t *testing.T) {
	small := oneDecision("first", "A, when: base == open, answer: apple", "B, answer: pear") + `
  juice:
    asks: which juice?
    answers: answer_word
    take: first
    when: 'fruit in [apple, plum]'
    rules:
      - {rule: J1, when: fruit == apple, answer: apple}
      - {rule: J2, when: fruit != pear, answer: pear}
      - {rule: J3, answer: plum}
cautions:
  - {caution: SOUR, when: fruit == pear && use == foot, says: no, source: practice}
`
	const head = "amendment: ours\ncompany: Ours\nwho: A. Example\nwhen: 2026-01-01\nwhy: a test\n"
	const ours = head + "add:\n  - {word: quince, to: answer_word, label: quince, because: x, source: company}\n"
	for _, c := range []struct {
		name, why, amendment string
		want                 []string
	}{
		{"none", "nothing is added", head, nil},
		{"a word", "!= holds for it, and == and in do not", ours,
			[]string{"quince ours", "juice apple,plum", "J1 apple", "SOUR pear"}},
		{"a word that nothing passes by", "no entry asks for a word of its vocabulary", head + "add:\n  - {word: sand_course, to: course_kind, label: sand, because: x, source: company}\n", nil},
		{"a word with a rule of its own", "the company's own rule is not told", ours + "  - {rule: J0, when: fruit == quince, answer: plum, because: x, source: company, before: J1}\n  - {rule: J4, when: fruit == pear, answer: plum, because: x, source: company, before: J1}\n",
			[]string{"quince ours", "juice apple,plum", "J1 apple", "SOUR pear"}},
		{"a word in a rule amended", "a rule that asks for both does not pass it by", ours + "replace:\n  - {rule: J1, because: x, set: {when: 'fruit in [apple, quince]', because: x, source: company}}\n",
			[]string{"quince ours", "juice apple,plum", "SOUR pear"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := open(small, groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {Data: []byte(c.amendment)}}}))
			require.NoError(t, err)
			var got []string
			for _, p := range passedBy(inside.Rules(b)) {
				got = append(got, p.Word+" "+p.AddedBy)
				for _, by := range p.By {
					require.NotZero(t, by.Place.Line)
					got = append(got, by.Name+" "+strings.Join(by.For, ","))
				}
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

// The survey tells both, and neither is a fault.
func TestWordsAreNoFaults(t *testing.T) {
	b, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"a.yaml": {
		Data: []byte("amendment: ours\ncompany: Ours\nwho: A. Example\nwhen: 2026-01-01\nwhy: a test\nadd:\n  - {word: herringbone_45, to: laying_pattern, label: herringbone at 45 degrees, because: x, source: company}\n")}}}))
	require.NoError(t, err)
	passed := passedBy(inside.Rules(b))
	require.Len(t, passed, 1)
	r := &Report{Questions: map[How]int{Proven: 1}, PassedBy: passed, UnaskedWords: []Unasked{{"laying_pattern", []string{"herringbone_45"}}}}
	require.True(t, r.OK())
	text := written(t, r)
	require.Contains(t, text, "herringbone_45 of laying_pattern (added by ours): 4 entries ask for another\n      word and pass it by\n    rules/83-quantities.yaml:")
	require.Contains(t, text, "pavers_interlock asks for herringbone\n")
	require.Contains(t, text, "WORDS THAT NOTHING ANSWERS OR ASKS ABOUT\n  laying_pattern: herringbone_45\n")
}

// TestUnreadQuestions: a question that no rule reads is a fault of whoever asks it.
func TestUnreadQuestions(t *testing.T) {
	const asked = "questions:\n  pool: {asks: How far, answers: length, because: x, source: practice, presumed: {because: x, confirm: x, value: 9 ft}, at_least: 0 ft }\n  gate: {asks: How wide, answers: length, because: x, source: practice}\n"
	for _, c := range []struct {
		name, why, when string
		want            []string
	}{
		{"one is read", "the other is asked for nothing", "pool < feet(3)", []string{"gate"}},
		{"both are read", "each has its use", "pool < feet(3) && known(gate) && gate < feet(2)", nil},
		{"the job's own value", "what the job says is read past what is presumed", "known(company.pool) && known(gate)", []string{"pool"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			book := opened(t, asked+"decisions:\n  fruit:\n    asks: which?\n    answers: answer_word\n    take: first\n    rules:\n      - {rule: A, when: '"+c.when+"', answer: apple}\n      - {rule: B, answer: pear}\n")
			r, err := Run(t.Context(), book, Options{Budget: 300})
			require.NoError(t, err)
			var got []string
			for _, f := range r.Findings {
				if f.Kind == Unread {
					got = append(got, f.Name)
					require.True(t, f.Fault())
				}
			}
			require.Equal(t, c.want, got, c.why)
		})
	}
}
