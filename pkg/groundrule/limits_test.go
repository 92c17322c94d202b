package groundrule_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
)

// TestWithLimits: whoever opens rulebooks of others can bound what is read, more
// tightly than is usual.
func TestWithLimits(t *testing.T) {
	for _, c := range []struct {
		name, why string
		limits    rulebook.Limits
		says      string // "" if the standard rulebook keeps to them
	}{
		{"none", "zero is the usual limit", rulebook.Limits{}, ""},
		{"enough", "the standard rulebook has fewer files", rulebook.Limits{Files: 40, Bytes: 1 << 20}, ""},
		{"one file too many", "files are counted", rulebook.Limits{Files: 16}, "16"},
		{"large files", "bytes are counted for each file", rulebook.Limits{Bytes: 1000}, "too large"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := groundrule.OpenStandard(groundrule.WithLimits(c.limits))
			if c.says == "" {
				require.NoError(t, err, c.why)
				return
			}
			var bad *rulebook.Error
			require.ErrorAs(t, err, &bad, c.why)
			require.ErrorContains(t, err, c.says)
		})
	}
}
