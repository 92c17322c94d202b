package document_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/document"
)

// TestMadeOfPieces holds that what is made of nodes that stand apart in a file is
// placed, character by character, where its parts stand.
func TestMadeOfPieces(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: one\nb:\n  c: two\n  d: 'three'\n"), document.Limits{})
	require.NoError(t, faults.Err())
	a, c, d := root.Field("a"), root.Field("b").Field("c"), root.Field("b").Field("d")

	row := document.Join([]document.Piece{{"x > 1", c}, {"y", a}}, " && ")
	require.Equal(t, "x > 1 && y", row.Text())
	require.Equal(t, document.Scalar, row.Shape())
	for _, at := range []struct {
		why    string
		offset int
		want   string
	}{
		{"the first piece", 0, "f.yaml:3:6"},
		{"its last character", 4, "f.yaml:3:6"},
		{"what stands between belongs to the next", 5, "f.yaml:1:4"},
		{"the second piece", 9, "f.yaml:1:4"},
		{"behind it", 10, "f.yaml:1:7"},
	} {
		require.Equal(t, at.want, row.At(at.offset).String(), at.why)
	}
	require.Equal(t, "f.yaml:3:6", row.Place().String(), "that of the first piece")
	require.Equal(t, "f.yaml:4:13", document.Join([]document.Piece{{"z", d}}, "").At(1).String(), "behind the quote")
	require.Nil(t, document.Join(nil, ", "), "no pieces")

	key := document.Key("made", d)
	require.Equal(t, "made", key.Text())
	require.Equal(t, "f.yaml:4:6", key.Place().String())
	made := document.Gather(document.Field{Key: key, Value: row}, document.Field{Key: document.Key("none", a)})
	require.Len(t, made.Fields(), 1, "a field without a value is left out")
	require.Equal(t, row, made.Field("made"))
	require.Equal(t, document.Mapping, made.Shape())
	require.Equal(t, "f.yaml:4:6", made.Place().String(), "that of the first key")
}

// TestPut holds what a mapping has with another value at a path.
func TestPut(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: one\nb:\n  c: two\n  d: three\nbc: 4\n"), document.Limits{})
	require.NoError(t, faults.Err())
	value := document.Key("new", root.Field("bc"))
	for _, c := range []struct {
		name, path   string
		a, c, d, bc  string
		under, place string // what a mapping made of a text has under x
	}{
		{"a key", "bc", "one", "two", "three", "new", "", ""},
		{"a path", "b.c", "one", "new", "three", "4", "", ""},
		{"the last key of it", "b.d", "one", "two", "new", "4", "", ""},
		{"a path that leads nowhere", "b.e", "one", "two", "three", "4", "", ""},
		{"no such key", "e", "one", "two", "three", "4", "", ""},
		{"a text", "a.x", "", "two", "three", "4", "new", "f.yaml:1:4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := root.Put(c.path, value)
			b := got.Field("b")
			require.Equal(t, []string{c.a, c.c, c.d, c.bc}, []string{got.Field("a").Text(), b.Field("c").Text(), b.Field("d").Text(), got.Field("bc").Text()})
			require.Equal(t, c.under, got.Field("a").Field("x").Text())
			if c.under != "" {
				require.Equal(t, c.place, got.Field("a").Place().String(), "it becomes a mapping in its place")
			}
			require.Equal(t, root.Place(), got.Place())
			require.Equal(t, "one two three 4", root.Field("a").Text()+" "+root.Field("b").Field("c").Text()+" "+root.Field("b").Field("d").Text()+" "+root.Field("bc").Text(), "the mapping itself stays as it is")
		})
	}
}
