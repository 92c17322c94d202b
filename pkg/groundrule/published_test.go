package groundrule_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/value"
)

// published files hold the values that the calculations are checked against,
// each beside its package.
func publishedRows(t *testing.T) []publishedRow {
	t.Helper()
	files, err := filepath.Glob("../../testdata/published/*.yaml")
	require.NoError(t, err)
	var out []publishedRow
	for _, name := range files {
		f, err := os.Open(name)
		require.NoError(t, err)
		rows, err := readRows(f)
		require.NoError(t, f.Close())
		require.NoError(t, err, name)
		out = append(out, rows...)
	}
	return out
}

// ruleText is all that the standard rulebook and the example's amendments and
// trials say, without comments.
func ruleText(t *testing.T) []byte {
	t.Helper()
	comment := regexp.MustCompile(`(?m)(^|\s)#.*$`)
	var out []byte
	for _, root := range []string{"../../rules", "../../examples/wrenfold"} {
		require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".yaml" {
				return err
			}
			text, err := os.ReadFile(path)
			out = append(out, comment.ReplaceAll(text, nil)...)
			return err
		}))
	}
	return out
}

// TestCalculationsEarnTheirPlace holds that each calculation is called by a rule
// or by an amendment, or else has a value that was read, relayed or worked by a
// second route to choose it by; and that each that is called has a value at all.
// The values themselves are checked beside each calculation.
func TestCalculationsEarnTheirPlace(t *testing.T) {
	known, count := map[string][]value.Known{}, map[value.Known]int{}
	rows := publishedRows(t)
	for _, row := range rows {
		known[row.Call] = append(known[row.Call], row.Known)
		count[row.Known]++
	}
	text := ruleText(t)
	functions := groundrule.Calculations()
	for _, f := range functions {
		t.Run(f.Name, func(t *testing.T) {
			require.NotEmpty(t, known[f.Name], "no value in testdata/published holds it")
			if called := regexp.MustCompile(`\b` + f.Name + `\(`).Match(text); !called {
				require.True(t, slices.ContainsFunc(known[f.Name], func(k value.Known) bool { return k != value.Memory }),
					"no rule or amendment calls it, and its values are from memory alone: drop it")
			}
		})
	}
	t.Logf("%d calculations, %d rows: %d seen, %d relayed, %d from memory, %d computed",
		len(functions), len(rows), count[value.Seen], count[value.Relayed], count[value.Memory], count[value.Computed])
}
