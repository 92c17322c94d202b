package engine_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

type nothing struct{}

func (nothing) Input(string) (any, bool) { return nil, false }

func triedBook(t *testing.T) *engine.Book {
	t.Helper()
	book, err := engine.Open(fstest.MapFS{"a.yaml": &fstest.MapFile{Data: []byte(`chapter: a
about: One setting.
vocabularies:
  course_kind: {about: Sorts of course., words: {layer: layer}, because: told, source: practice}
settings:
  least: {value: 4 in, at_least: 3 in, at_most: 9 in, because: The least., source: practice}
decisions:
  depth: {asks: "How deep?", answers: length, take: only, rules: [{rule: DEPTH, answer: least, because: "{least}.", source: practice}]}
`)}}, engine.Setup{})
	require.NoError(t, err)
	return book
}

func depthOf(t *testing.T, book *engine.Book) string {
	t.Helper()
	o, err := book.Run(nothing{}, nil)
	require.NoError(t, err)
	d, ok := book.Decision("depth")
	require.True(t, ok)
	decided, came := o.Came(d)
	require.True(t, came)
	return decided.Answer.Text(quantity.US)
}

func TestTryingASetting(t *testing.T) {
	book := triedBook(t)
	other, err := book.Trying(engine.Tried{Setting: "least", Value: value.Measured(quantity.Inches(6))})
	require.NoError(t, err)
	require.Equal(t, "6 in", depthOf(t, other))
	require.Equal(t, "4 in", depthOf(t, book), "the book itself stays as it is")
	require.Equal(t, book.Decisions(), other.Decisions(), "the entries are the book's own")

	beyond, err := book.Trying(engine.Tried{Setting: "least", Value: value.Measured(quantity.Inches(2)), Variance: true})
	require.NoError(t, err)
	require.Equal(t, "2 in", depthOf(t, beyond))
}

func TestTryingRefuses(t *testing.T) {
	cases := []struct {
		name, why string
		tried     engine.Tried
		want      string
	}{
		{"no setting", "of that name", engine.Tried{Setting: "most", Value: value.Number(1)}, "no setting is called most"},
		{"kind", "a number for a length", engine.Tried{Setting: "least", Value: value.Number(6)}, "least is length, and this is number"},
		{"kind by variance", "leave changes no kind", engine.Tried{Setting: "least", Value: value.Number(6), Variance: true}, "least is length, and this is number"},
		{"too low", "below at_least", engine.Tried{Setting: "least", Value: value.Measured(quantity.Inches(2))}, "least is at least 3 in"},
		{"too high", "above at_most", engine.Tried{Setting: "least", Value: value.Measured(quantity.Inches(10))}, "least is at most 9 in"},
	}
	book := triedBook(t)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := book.Trying(c.tried)
			require.ErrorIs(t, err, engine.ErrSetting)
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}
