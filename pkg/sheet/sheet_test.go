package sheet_test

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", path, diff)
	}
}

func reasonOf(t *testing.T, s *section.Section, course string) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.Sheet{Lines: lines(t)}.Why(&b, s, course))
	return b.String()
}

func TestGolden(t *testing.T) {
	tests := []struct{ name, why, got string }{
		{"reason_base.txt", "every state that a rule can come to", reasonOf(t, patio(), "base")},
		{"reason_pavers.txt", "a decision that a person took", reasonOf(t, patio(), "pavers")},
		{"reason_amended.txt", "with what stood there before", reasonOf(t, amended(), "base")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { golden(t, tt.name, tt.got) })
	}
}

func TestReasonOf(t *testing.T) {
	tests := []struct{ name, why, asked, want string }{
		{"name", "as the rulebook calls it", "base", "WHY Base, on"},
		{"label", "as the sheet calls it", "Base", "WHY Base, on"},
		{"loose", "case and spaces do not count", "sub grade", "WHY Subgrade, on"},
		{"decision", "what no layer shows has a reason too", "design cbr", "WHY design_cbr, on"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			out := reasonOf(t, patio(), tt.asked)
			require.True(t, strings.HasPrefix(out, tt.want), "%s\n%s", tt.why, out)
		})
	}
}

func TestReasonOfNothing(t *testing.T) {
	lower := patio()
	lower.Courses[1].Name = "stone_top"
	alone := patio()
	alone.Courses = alone.Courses[:1]
	tests := []struct {
		name, why string
		s         *section.Section
		asked     string
		want      string
	}{
		{"misspelt", "the nearest, and what there is", patio(), "beding", `this section has no layer and no decision "beding"; did you mean "bedding"?; the layers are pavers, bedding, base and subgrade`},
		{"misspelt label", "a layer may have another name on the sheet", lower, "bse", `this section has no layer and no decision "bse"; did you mean "Base"?; the layers are pavers, bedding, stone_top (Base) and subgrade`},
		{"one layer", "it is named though it is the only one", alone, "roof", `this section has no layer and no decision "roof"; the layers are subgrade`},
		{"refused", "no layers were laid", refused(), "base", `this section has no layer and no decision "base"`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var missing *sheet.NoCourseError
			require.ErrorAs(t, sheet.Sheet{Lines: lines(t)}.Why(&bytes.Buffer{}, tt.s, tt.asked), &missing)
			require.EqualError(t, missing, tt.want, tt.why)
			require.ErrorAs(t, sheet.ReasonJSON(&bytes.Buffer{}, tt.s, tt.asked), &missing)
			require.EqualError(t, missing, tt.want, tt.why)
		})
	}
}

// What can be asked is listed, layers from the top down.
func TestAsked(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sheet.Asked(&b, patio(), quantity.US))
	golden(t, "asked.txt", b.String())
}

func TestReasonJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sheet.ReasonJSON(&b, patio(), "base", section.Indented))
	golden(t, "reason_base.json", b.String())
	b.Reset()
	require.NoError(t, sheet.ReasonJSON(&b, amended(), "base", section.Indented))
	for _, part := range []string{`"as_of": "2026-03-01"`, `"name": "mill_frost"`, `"setting": "bedding_least"`, `"replaced": [`} {
		require.Contains(t, b.String(), part)
	}
}

type brokenPipe struct{ err error }

func (b brokenPipe) Write([]byte) (int, error) { return 0, b.err }

func TestWriteError(t *testing.T) {
	err := errors.New("pipe is closed")
	for _, as := range []string{"text", "markdown", "html"} {
		require.ErrorIs(t, sheet.Sheet{As: as, Lines: lines(t)}.Write(brokenPipe{err}, &section.Areas{Sections: []*section.Section{patio()}}), err, as)
	}
	require.ErrorIs(t, sheet.Sheet{Lines: lines(t)}.Why(brokenPipe{err}, patio(), "base"), err)
	require.ErrorIs(t, sheet.ReasonJSON(brokenPipe{err}, patio(), "base"), err)
}
