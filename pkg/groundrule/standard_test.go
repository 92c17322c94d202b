package groundrule

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestStandardOpens proves that the standard rulebook is well formed.
func TestStandardOpens(t *testing.T) {
	_, err := Standard()
	require.NoError(t, err)
}
