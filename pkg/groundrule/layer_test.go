package groundrule_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// layer is a folder that holds one amendment.
func layer(label, text string) rulebook.Layer {
	return rulebook.Layer{Label: label, FS: fstest.MapFS{"amendment.yaml": {Data: []byte(text)}}}
}

func groupNamed(symbol string) site.Group { return site.Group(symbol) }

// replaced returns a text with a part of it, which must be there once, replaced.
func replaced(t *testing.T, text, old, new string) string {
	t.Helper()
	require.Equal(t, 1, strings.Count(text, old), "%q", old)
	return strings.Replace(text, old, new, 1)
}
