package language

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func TestWordsOfAText(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            []string
	}{
		{"name", "one word", "yields", []string{"yields"}},
		{"dots", "each beginning may be the name", "soil.dcp.hammer == light", []string{"light", "soil", "soil.dcp", "soil.dcp.hammer"}},
		{"spaces", "a dot is a dot", "slab_laid . height", []string{"slab_laid", "slab_laid.height"}},
		{"twice", "each once", "a < b && b < a", []string{"a", "b"}},
		{"part of a word", "a word is whole", "base_least + base_least_driveway", []string{"base_least", "base_least_driveway"}},
		{"texts", "what is in quotes names nothing", "'soft ground' + \"x\" + r'y'", nil},
		{"numbers", "a unit behind a number is no name", "4in + inches(4)", []string{"inches"}},
		{"broken", "what cannot be parsed has its words all the same", "a && (b ||", []string{"a", "b"}},
		{"nothing", "an empty text has none", "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, Words(c.text)), c.why)
		})
	}
}
