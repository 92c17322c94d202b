package engine

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestWhatAnswersMayBe holds which answers of a question are worth trying, and when.
func TestWhatAnswersMayBe(t *testing.T) {
	book := mustOpen(t, chapterOf("questions:\n",
		"  wet: {asks: 'Is it wet?', how: Look at it., because: Water weakens it., source: practice}\n",
		"  water: {asks: 'How deep is the water?', when: wet, may_be: [2 ft, {when: cbr < 5, values: [1 ft, 3 ft]}], because: Water weakens it., source: practice}\n",
		"  pool: {asks: 'How far is the pool?', answers: length, at_least: 1 ft, at_most: 9 ft, presumed: {value: 4 ft, because: No pool was told of., confirm: Ask.}, because: It leaks., source: practice}\n"))
	asked := book.Askings()
	require.Len(t, asked, 3)
	for i, want := range []struct {
		key, why string
		values   [][]string
		whens    []string // "true" for always
	}{
		{"wet", "a yes or no may be either", [][]string{{"yes", "no"}}, []string{"true"}},
		{"water", "what is worth trying always is first", [][]string{{"2 ft"}, {"1 ft", "3 ft"}}, []string{"true", "cbr < 5"}},
		{"company.pool", "its ends, and between them what is presumed", [][]string{{"1 ft", "4 ft", "9 ft"}}, []string{"true"}},
	} {
		require.Equal(t, want.key, asked[i].Key, want.why)
		require.Len(t, asked[i].Question.MayBe, len(want.values), want.why)
		for at, each := range asked[i].Question.MayBe {
			require.Equal(t, want.values[at], each.Values, want.why)
			require.Equal(t, want.whens[at], asked[i].Case(at).Text(), want.why)
		}
	}
	require.Equal(t, "Look at it.", asked[0].How.String())
	require.Equal(t, "Water weakens it.", asked[0].Why.String())
	require.Equal(t, "true", asked[0].When.Text(), "it is always asked")
	require.Equal(t, "wet", asked[1].When.Text(), "it is asked on wet ground alone")
	for _, c := range []struct {
		name, why string
		job       site
		want      []string
	}{
		{"soft and wet", "what is worth trying always, and what is on soft ground", plain(), []string{"2 ft", "1 ft", "3 ft"}},
		{"firm and wet", "the ground is soft below 5", plain().with("cbr", 5.0), []string{"2 ft"}},
		{"dry", "it is not asked", plain().with("wet", false), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.job, nil)
			require.NoError(t, err)
			values, err := out.MayBe(asked[1])
			require.NoError(t, err)
			require.Equal(t, c.want, values, c.why)
		})
	}
}

// TestAnswersInWords holds that any word of a vocabulary may be the answer where the
// question names none, as jobs write it.
func TestAnswersInWords(t *testing.T) {
	text := chapterOf("questions:\n  temper: {asks: 'How is it?', because: It tells., source: practice}\n  shade: {asks: 'Which shade?', answers: tint, because: It shows., source: practice}\n")
	book, err := Open(filesOf(map[string]string{"a.yaml": text, "words.yaml": wordsFile}), spokenSetup())
	require.NoError(t, err)
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	for i, want := range [][]string{{"calm", "wild"}, {"pale", "d"}} {
		got, err := out.MayBe(book.Askings()[i])
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}
