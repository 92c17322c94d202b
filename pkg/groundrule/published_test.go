package groundrule_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/published"
	"example.com/groundrule/pkg/value"
)

// TestPublishedRows counts the published values that the calculations are
// checked against, by how they are known. The values themselves are checked
// beside each calculation.
func TestPublishedRows(t *testing.T) {
	files, err := filepath.Glob("../../testdata/published/*.yaml")
	require.NoError(t, err)
	least := map[string]int{"drainage.yaml": 17, "geosynthetic.yaml": 25, "ground.yaml": 65, "sieve.yaml": 18, "structure.yaml": 35}
	require.Len(t, files, len(least))
	count, all := map[value.Known]int{}, 0
	for _, name := range files {
		f, err := os.Open(name)
		require.NoError(t, err)
		rows, err := published.Read(f)
		require.NoError(t, f.Close())
		require.NoError(t, err, name)
		require.GreaterOrEqual(t, len(rows), least[filepath.Base(name)], name)
		for _, row := range rows {
			count[row.Known]++
			all++
		}
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory, %d computed", all, count[value.Seen], count[value.Relayed], count[value.Memory], count[value.Computed])
	require.GreaterOrEqual(t, count[value.Seen], 60)
}
