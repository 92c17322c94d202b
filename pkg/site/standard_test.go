package site_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// standard is the table with the words of the standard rulebook.
func standard(t testing.TB) *site.Table {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book.Table()
}

// standardWords lists the words that may stand at a path.
func standardWords(t testing.TB, path string) []value.WordEntry {
	t.Helper()
	for _, f := range standard(t).Fields() {
		if f.Path == path {
			return f.Vocabulary.Words
		}
	}
	require.Fail(t, "no field "+path)
	return nil
}
