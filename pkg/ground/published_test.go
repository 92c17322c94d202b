package ground_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation/published"
	"example.com/groundrule/pkg/ground"
	"example.com/groundrule/pkg/source"
)

func TestPublishedValues(t *testing.T) {
	f, err := os.Open("../../testdata/published/ground.yaml")
	require.NoError(t, err)
	defer f.Close()
	rows, err := published.Read(f)
	require.NoError(t, err)
	functions := ground.Calculations()
	count := map[source.Known]int{}
	for _, row := range rows {
		count[row.Known]++
		t.Run(row.Name, func(t *testing.T) {
			switch row.Known {
			case source.Seen, source.Relayed, source.Memory:
			default:
				t.Errorf("a value that is %s is no published value", row.Known)
			}
			if err := row.Check(functions); err != nil {
				t.Error(err)
			}
		})
	}
	t.Logf("%d rows: %d seen, %d relayed, %d from memory",
		len(rows), count[source.Seen], count[source.Relayed], count[source.Memory])
}
