package structure

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/source"
)

func TestPublished(t *testing.T) {
	f, err := os.Open("../../testdata/published/structure.yaml")
	require.NoError(t, err)
	defer f.Close()
	rows, err := published.Read(f)
	require.NoError(t, err)
	require.NotEmpty(t, rows)
	known := map[source.Known]int{}
	functions := Calculations()
	for _, row := range rows {
		known[row.Known]++
		t.Run(row.Name, func(t *testing.T) {
			require.Contains(t, []source.Known{source.Seen, source.Relayed, source.Memory}, row.Known, "only published values belong here")
			require.NoError(t, row.Check(functions), row.Why)
		})
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory",
		len(rows), known[source.Seen], known[source.Relayed], known[source.Memory])
}
