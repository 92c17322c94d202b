package small_test

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/small"
	"example.com/groundrule/rules"
)

// TestRulebook holds that a small rulebook has its own text and, as they are, the
// sources and the words of jobs of the standard.
func TestRulebook(t *testing.T) {
	own := small.Rulebook("plot.yaml", "chapter: plot\n")
	require.Len(t, own, 3)
	data, err := fs.ReadFile(own, "plot.yaml")
	require.NoError(t, err)
	require.Equal(t, "chapter: plot\n", string(data))
	for _, name := range []string{"10-sources.yaml", "15-job-words.yaml"} {
		want, err := fs.ReadFile(rules.Files(), name)
		require.NoError(t, err)
		got, err := fs.ReadFile(own, name)
		require.NoError(t, err)
		require.NotEmpty(t, got)
		require.Equal(t, string(want), string(got))
	}
}
