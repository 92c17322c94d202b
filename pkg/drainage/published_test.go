package drainage_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/drainage"
	"example.com/groundrule/pkg/source"
)

func TestPublished(t *testing.T) {
	file, err := os.Open("../../testdata/published/drainage.yaml")
	require.NoError(t, err)
	defer file.Close()
	rows, err := published.Read(file)
	require.NoError(t, err)
	known := map[source.Known]int{}
	for _, row := range rows {
		known[row.Known]++
		t.Run(row.Name, func(t *testing.T) {
			require.NoError(t, row.Check(drainage.Calculations()))
		})
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory", len(rows), known[source.Seen], known[source.Relayed], known[source.Memory])
	require.Equal(t, len(rows), known[source.Seen]+known[source.Relayed]+known[source.Memory], "a computed value is no published one")
}
