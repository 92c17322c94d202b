package drainage_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	snakeCase  = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	quotedText = regexp.MustCompile(`"[^"]*"`)
	names      = regexp.MustCompile(`[a-z_][a-z_0-9]*`)
)

func TestCalculationsAreDescribedAsTheyAreWritten(t *testing.T) {
	words, functions := map[string]bool{}, map[string]bool{}
	for _, f := range drainage.Calculations() {
		require.False(t, functions[f.Name], "%s is described twice", f.Name)
		functions[f.Name] = true
	}
	for _, v := range []value.Worded{drainage.CriteriaSet("")} {
		for _, w := range v.Vocabulary().Words {
			require.Regexp(t, snakeCase, w.Name)
			require.False(t, words[w.Name], "the word %s is given twice", w.Name)
			words[w.Name] = true
		}
	}
	builders := map[string]bool{}
	for _, u := range quantity.Units() {
		builders[u.Builder] = true
	}
	for _, f := range drainage.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.Regexp(t, snakeCase, f.Name)
			signature, err := signature.Of(f)
			require.NoError(t, err)
			require.NotNil(t, signature.Params)
			require.Regexp(t, "^"+f.Name+`\(`, f.Example)
			for _, s := range f.Sources {
				require.True(t, s.Known.Valid())
				require.NotEmpty(t, s.ID)
				require.NotEmpty(t, s.Document)
			}
			// Every name in the example is a function, a unit or a word.
			for _, name := range names.FindAllString(quotedText.ReplaceAllString(f.Example, `""`), -1) {
				require.True(t, functions[name] || words[name] || builders[name], "%s in %s", name, f.Example)
			}
		})
	}
}
