package sheet_test

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

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
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", path, diff)
	}
}

func textOf(t *testing.T, s *section.Section, system quantity.System) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.Text(&b, s, system))
	return b.String()
}

func reasonOf(t *testing.T, s *section.Section, course string) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, sheet.Reason(&b, s, course, quantity.US))
	return b.String()
}

func TestGolden(t *testing.T) {
	tests := []struct{ name, why, got string }{
		{"designed_us.txt", "the sheet that a crew reads", textOf(t, patio(), quantity.US)},
		{"designed_si.txt", "the same in the other system", textOf(t, patio(), quantity.SI)},
		{"stopped.txt", "the warning stands first", textOf(t, stopped(), quantity.US)},
		{"refused.txt", "no section at all", textOf(t, refused(), quantity.US)},
		{"reason_base.txt", "every state that a rule can come to", reasonOf(t, patio(), "base")},
		{"reason_pavers.txt", "a decision that a person took", reasonOf(t, patio(), "pavers")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) { golden(t, tt.name, tt.got) })
	}
}

// A reader looks from the surface down.
func TestFromTheTopDown(t *testing.T) {
	out := textOf(t, patio(), quantity.US)
	table := out[strings.Index(out, "from the top down"):]
	last := -1
	for _, label := range []string{"Pavers", "Bedding", "Base", "Subgrade"} {
		i := strings.Index(table, label)
		require.Greater(t, i, last, "%s stands under what lies on it", label)
		last = i
	}
}

func TestEachReasonOnce(t *testing.T) {
	out := textOf(t, patio(), quantity.US)
	why := out[strings.Index(out, "\nWHY\n"):]
	for _, because := range []string{"Every patio has it.", "Loose ground settles.", "Bedding sand of 1 in"} {
		require.Equal(t, 1, strings.Count(why, because), because)
	}
	require.Contains(t, why, "told under Pavers", "the other courses point to it")
}

// The sheet of a refused or a stopped job must not be taken for one to build.
func TestNotToBuild(t *testing.T) {
	require.True(t, strings.HasPrefix(textOf(t, stopped(), quantity.US), "DO NOT BUILD"))
	out := textOf(t, refused(), quantity.US)
	require.True(t, strings.HasPrefix(out, "NO SECTION"))
	require.NotContains(t, out, "THE SECTION")
	require.NotContains(t, out, "CONFIRM")
	require.Contains(t, out, "A licensed civil engineer.")
	require.Contains(t, reasonOf(t, stopped(), "base"), "DO NOT BUILD")
	require.NotContains(t, textOf(t, patio(), quantity.US), "DO NOT BUILD")
}

func TestLimitSide(t *testing.T) {
	tests := []struct {
		name, why, want string
		value, limit    float64
		holds           bool
		margin          *float64
	}{
		{"floor held", "larger and holding", "8 in, at least 6 in; 33 % of the limit to spare", 8, 6, true, to(1.0 / 3)},
		{"floor crossed", "smaller and failing", "4 in, at least 6 in; short by 33 % of the limit", 4, 6, false, to(-1.0 / 3)},
		{"ceiling held", "smaller and holding", "4 in, at most 6 in; 33 % of the limit to spare", 4, 6, true, to(1.0 / 3)},
		{"ceiling crossed", "larger and failing", "8 in, at most 6 in; over by 33 % of the limit", 8, 6, false, to(-1.0 / 3)},
		{"at the limit", "nothing tells the side", "6 in, limit 6 in; just at the limit", 6, 6, true, to(0.0)},
		{"limit of zero", "no share of nothing", "1 in, at least 0 in.", 1, 0, true, nil},
		{"hair's breadth", "not to be shown as 0 %", "less than 0.1 % of the limit to spare", 6.001, 6, true, to(0.001 / 6)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := patio()
			s.Checks = []section.Check{{ID: "C", Asks: "Is it so?", Failing: "caution", Holds: tt.holds, Value: to(inches(tt.value)), Limit: to(inches(tt.limit)), Margin: tt.margin}}
			out := textOf(t, s, quantity.US)
			require.Contains(t, strings.ToLower(strings.Join(strings.Fields(out), " ")), strings.ToLower(tt.want), tt.why)
		})
	}
}

func TestFind(t *testing.T) {
	tests := []struct{ name, why, course, want string }{
		{"name", "as the rulebook calls it", "base", "base"},
		{"label", "as the sheet calls it", "Base", "base"},
		{"loose", "case and spaces do not count", "sub grade", "subgrade"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			c, err := sheet.Find(patio(), tt.course)
			require.NoError(t, err)
			require.Equal(t, tt.want, c.Name, tt.why)
		})
	}
	_, err := sheet.Find(patio(), "beding")
	var missing *sheet.NoCourseError
	require.ErrorAs(t, err, &missing)
	require.EqualError(t, err, `no course "beding" in this section; it has pavers, bedding, base and subgrade; did you mean "bedding"?`)
	s := patio()
	s.Courses[1].Name = "stone_top"
	_, err = sheet.Find(s, "bse")
	require.EqualError(t, err, `no course "bse" in this section; it has pavers, bedding, stone_top (Base) and subgrade; did you mean "Base"?`)
	_, err = sheet.Find(refused(), "base")
	require.EqualError(t, err, `no course "base": this section has no courses`)
	require.ErrorAs(t, sheet.Reason(&bytes.Buffer{}, patio(), "roof", quantity.US), &missing)
	require.ErrorAs(t, sheet.ReasonJSON(&bytes.Buffer{}, patio(), "roof"), &missing)
}

func TestReasonJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, sheet.ReasonJSON(&b, patio(), "base"))
	golden(t, "reason_base.json", b.String())
}

// Long texts stay within the page, and control characters cannot act on the
// terminal.
func TestPage(t *testing.T) {
	s := patio()
	s.Job.Name = "Alder\x1b[31m Row\a \u202ereversed " + strings.Repeat("long name ", 30)
	s.Courses[0].Label = "Ground\x07"
	s.Checks[0].ID = "ID\x1b[2J"
	s.Files[0].Name = "a\x00b.yaml"
	out := textOf(t, s, quantity.US)
	for _, line := range strings.Split(out, "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 100, line)
		for _, r := range line {
			require.False(t, r < ' ' || r == 0x7f || r == '\u202e', "%q", line)
		}
	}
}

type brokenPipe struct{ err error }

func (b brokenPipe) Write([]byte) (int, error) { return 0, b.err }

func TestWriteError(t *testing.T) {
	err := errors.New("pipe is closed")
	require.ErrorIs(t, sheet.Text(brokenPipe{err}, patio(), quantity.US), err)
	require.ErrorIs(t, sheet.Reason(brokenPipe{err}, patio(), "base", quantity.US), err)
	require.ErrorIs(t, sheet.ReasonJSON(brokenPipe{err}, patio(), "base"), err)
}

// A section with nothing in it, as an embedder may make, is still a sheet.
func TestEmpty(t *testing.T) {
	for _, status := range []section.Status{section.Designed, section.Stopped, section.Refused, ""} {
		require.NotEmpty(t, textOf(t, &section.Section{Status: status}, quantity.SI))
	}
	bare := &section.Section{Courses: []section.Course{{Name: "base", Attributes: []section.Attribute{{Name: "thickness", Value: inches(4), Decision: "gone", Rule: "R", Because: section.Plain("So it is"), Source: "a book"}}}}}
	require.Contains(t, textOf(t, bare, quantity.US), "So it is.", "the short form of the reason serves")
	require.NotEmpty(t, reasonOf(t, bare, "base"))
}
