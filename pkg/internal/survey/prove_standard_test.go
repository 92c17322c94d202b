package survey

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
)

// TestStandardPromises settles the promises of the standard rulebook.
func TestStandardPromises(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	r, err := Prove(t.Context(), inside.Rules(book), Options{Progress: nil})
	require.NoError(t, err)
	t.Log(r.Summary())
}
