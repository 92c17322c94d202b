package site_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

func TestLimits(t *testing.T) {
	list := func(n int) string {
		return least + "soil: {cbr: [" + strings.TrimSuffix(strings.Repeat("3,", n), ",") + "]}\n"
	}
	sieves := func(n int) string {
		text := least + "soil:\n  sieves:\n"
		for i := range n {
			text += fmt.Sprintf("    - {sieve: %d mm, passing: 5}\n", i+1)
		}
		return text
	}
	tests := []struct {
		name, why string
		limits    site.Limits
		text      string
		code      diagnostic.Code // "" if it is read
		says      string
	}{
		{"as many readings as may be", "the limit is allowed", site.Limits{}, list(1000), "", ""},
		{"one reading more", "a list has an end", site.Limits{}, list(1001), site.CodeRange, "soil.cbr is too long a list; found 1001 items; wanted at most 1000"},
		{"one sieve more", "a list of mappings too", site.Limits{}, sieves(1001), site.CodeRange, "soil.sieves is too long a list"},
		{"fewer readings", "a caller can lower it", site.Limits{Items: 3}, list(4), site.CodeRange, "wanted at most 3"},
		{"as few as may be", "and the limit is allowed", site.Limits{Items: 3}, list(3), "", ""},
		{"smaller file", "so for the bytes", site.Limits{Bytes: len(least) - 1}, least, document.CodeTooLarge, ""},
		{"as large", "of which all may be there", site.Limits{Bytes: len(least)}, least, "", ""},
		{"fewer values", "so for the nodes", site.Limits{Nodes: 6}, least, document.CodeTooMany, ""},
		{"shorter text", "so for one text", site.Limits{Text: 10}, least + "note: 12345678901\n", document.CodeTooLong, ""},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			_, err := tc.limits.Read("job.yaml", []byte(tc.text))
			if tc.code == "" {
				require.NoError(t, err, tc.why)
				return
			}
			var one *diagnostic.Diagnostic
			require.ErrorAs(t, err, &one, tc.why)
			require.Equal(t, tc.code, one.Code)
			require.ErrorContains(t, err, tc.says)
		})
	}
	s := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense", Soil: site.Subgrade{CBR: make([]float64, 1001)}}
	require.EqualError(t, s.Validate(), "soil.cbr is too long a list; found 1001 items; wanted at most 1000")
}

// However much is wrong, what is said of it stays short, and says how much more
// there is.
func TestFaultsAreBounded(t *testing.T) {
	var text strings.Builder
	text.WriteString(least)
	for i := range 20_000 {
		fmt.Fprintf(&text, "key_number_%d: 3\n", i)
	}
	_, err := site.Read("job.yaml", []byte(text.String()))
	var bad *site.Error
	require.ErrorAs(t, err, &bad)
	require.Len(t, bad.Faults, 50)
	require.Equal(t, 20_000-50, bad.More)
	require.True(t, strings.HasSuffix(err.Error(), "\nand 19950 more"))
	require.Less(t, len(err.Error()), 50_000)
	for i, d := range bad.Faults {
		require.Equal(t, i+4, d.Place.Line, "the first of the file are those that are told")
	}

	_, err = site.Limits{Faults: 2}.Read("job.yaml", []byte("{area: 1, perimeter: x, use: x}"))
	require.ErrorAs(t, err, &bad)
	require.Len(t, bad.Faults, 2)
	require.Equal(t, 1, bad.More)

	_, err = standard(t).Read("job.yaml", []byte(least+"soil: {word: "+strings.Repeat("x", 60_000)+"}\n"))
	require.Less(t, len(err.Error()), 400, "a long text is cut")
}
