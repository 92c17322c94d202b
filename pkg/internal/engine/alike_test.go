package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// alikeBook has one course, and one thing of each sort by which two jobs can differ,
// each with an end of its own.
var alikeBook = chapterOf("vocabularies:\n  quantity_kind: {about: quantities, words: {material: material}, because: told, source: practice}\n", terms([4]string{"soft", "bool", "", "cbr < 5"}, [4]string{"twice", "number", "", "cbr * 2"}),
	decisions(
		decision("depth", "length", "first", "", [3]string{"D1", "soft", "inches(8)"}, [3]string{"D2", "", "inches(4)"}),
		decision("hidden", "number", "first", "", [3]string{"H", "", "twice"})),
	"courses:\n  - {course: c, label: C, is: stone, when: zero < 0.5, because: laid, source: practice, attributes: {thickness: depth}}\n",
	"quantities:\n  - {quantity: Q, about: c, kind: material, amount: twice * inches(1), because: told, source: practice}\n",
	"checks:\n  - {check: K, asks: q, holds: zero < 1, failing: caution, says: mend it, because: it must, source: practice}\n",
	"cautions:\n  - {caution: W, when: known(soil.swell) && soil.swell > 5, says: mind it, source: practice}\n",
	"refusals:\n  - {refusal: R, when: zero < 0, says: too low, who: an engineer, source: practice}\n")

// namesOfAll are what came of a job: answers, courses, checks with whether they hold,
// cautions and refusals.
func namesOfAll(o *Outcome) []string {
	out := []string{answers(o)}
	for _, c := range o.Courses {
		out = append(out, c.Name)
	}
	for _, c := range o.Checks {
		out = append(out, c.Check.ID, map[bool]string{true: "holds", false: "fails"}[c.Holds])
	}
	for _, c := range o.Cautions {
		out = append(out, c.ID)
	}
	for _, r := range o.Refusals {
		out = append(out, r.ID)
	}
	return out
}

// TestAlike holds which other jobs come to the same for whoever builds, which terms and
// decisions move, and that a job told otherwise comes to what a whole run does.
func TestAlike(t *testing.T) {
	book := mustOpen(t, alikeBook)
	first, err := book.Run(plain(), nil)
	require.NoError(t, err)
	for _, c := range []struct {
		name, why string
		job       site
		over      []Override
		alike     bool
		moved     []string
	}{
		{"same job", "nothing is told otherwise", plain(), nil, true, nil},
		{"not asked", "no rule asks for water", plain().with("water", quantity.Feet(1)), nil, true, nil},
		{"hidden", "what moves is in no course", plain().with("cbr", 4.0), nil, true, []string{"twice", "hidden"}},
		{"depth", "the course is 4 in thick and not 8", plain().with("cbr", 5.0), nil, false, []string{"soft", "twice", "depth", "hidden"}},
		{"course", "it is not laid from 0.5", plain().with("zero", 0.5), nil, false, nil},
		{"no course yet", "just below that it is", plain().with("zero", 0.4), nil, true, nil},
		{"caution", "it is given over 5", plain().with("soil.swell", 6.0), nil, false, nil},
		{"no caution yet", "known now, and still not over 5", plain().with("soil.swell", 5.0), nil, true, nil},
		{"refusal", "no section is given below 0", plain().with("zero", -1.0), nil, false, nil},
		{"override", "the course is 5 in thick", plain(), []Override{takeOver("depth", "inches(5)", 1)}, false, []string{"depth"}},
		{"hidden override", "what is taken over is in no course", plain(), []Override{takeOver("hidden", "5", 1)}, true, []string{"hidden"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.alike, first.Alike(c.job, c.over, false), c.why)
			whole, err := book.Run(c.job, c.over)
			require.NoError(t, err)
			otherwise, err := first.Otherwise(c.job, c.over)
			require.NoError(t, err)
			require.Empty(t, cmp.Diff(namesOfAll(whole), namesOfAll(otherwise)), c.why)
			if len(whole.Refusals) == 0 {
				require.Equal(t, c.moved, first.Moved(otherwise), c.why)
			}
		})
	}
	require.False(t, first.Alike(plain().with("cbr", 4.0), nil, true), "twice as much is bought as the ground is strong")
	require.True(t, first.Alike(plain().with("soil.swell", 5.0), nil, true), "no amount reads it")
	taken, err := book.Run(plain(), []Override{takeOver("depth", "inches(5)", 1)})
	require.NoError(t, err)
	require.True(t, taken.Alike(plain(), []Override{takeOver("depth", "inches(5)", 1)}, false), "the same is taken over")
	require.False(t, taken.Alike(plain(), []Override{takeOver("depth", "inches(6)", 1)}, false), "another answer is taken over")
	require.False(t, taken.Alike(plain(), nil, false), "nothing is taken over")
	beyond, err := book.Run(plain().with("zero", 0.6), nil)
	require.NoError(t, err)
	require.True(t, beyond.Alike(plain().with("zero", 0.9), nil, false), "the check passes below 1")
	require.False(t, beyond.Alike(plain().with("zero", 1.0), nil, false), "the check fails at 1, and nothing else differs")
	for input, asked := range map[string]bool{"cbr": true, "zero": true, "soil.swell": true, "water": false, "wet": false} {
		require.Equal(t, asked, first.Asks(input), input)
	}
	require.Equal(t, [][]string{{"cbr"}, {"cbr"}, {"soft"}, {"twice"}, {"zero"}, {"zero"}, {"zero"}}, book.ReadTogether(),
		"the terms, the decisions, the course, the check and the refusal, each with what it reads")
}

// TestOtherwiseIsARun holds that a job told otherwise comes to what it comes to alone,
// whichever job was run first, if that is an error.
func TestOtherwiseIsARun(t *testing.T) {
	book := mustOpen(t, strings.Replace(wholeBook, "answer: light_net,", "when: cbr < 9, answer: light_net,", 1))
	failed := 0
	for i, first := range wholeSites() {
		o, err := book.Run(first, nil)
		if err != nil {
			continue
		}
		for j, other := range wholeSites() {
			want, wantErr := book.Run(other, nil)
			got, gotErr := o.Otherwise(other, nil)
			if wantErr != nil {
				failed++
				require.EqualError(t, gotErr, wantErr.Error(), "%d told as %d", i, j)
				require.False(t, o.Alike(other, nil, false))
				continue
			}
			require.NoError(t, gotErr)
			require.Empty(t, cmp.Diff(namesOfAll(want), namesOfAll(got)), "%d told as %d", i, j)
			for at, d := range want.Decided {
				require.Equal(t, d.States, got.Decided[at].States)
			}
		}
		_, err = o.Otherwise(first, []Override{takeOver("depth", "inches(", 3)})
		require.Error(t, err, "an answer that cannot be read")
	}
	require.NotZero(t, failed)
}
