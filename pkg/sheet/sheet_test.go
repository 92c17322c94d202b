package sheet_test

import (
	"bytes"
	"errors"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/sheet"
	"example.com/groundrule/pkg/value"
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
		{"amended_us.txt", "what is not the rulebook's own, and whose word it is", textOf(t, amended(), quantity.US)},
		{"reason_amended.txt", "with what stood there before", reasonOf(t, amended(), "base")},
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
	require.Contains(t, why, "Reason: see Pavers", "the other courses point to it")
}

// The sheet of a refused or a stopped job must not be taken for one to build.
func TestNotToBuild(t *testing.T) {
	require.True(t, strings.HasPrefix(textOf(t, stopped(), quantity.US), "DO NOT BUILD"))
	out := textOf(t, refused(), quantity.US)
	require.True(t, strings.HasPrefix(out, "NOT COVERED, ENGINEER NEEDED: Mill Yard"))
	require.NotContains(t, out, "THE SECTION")
	require.NotContains(t, out, "CONFIRM")
	require.Contains(t, out, "A licensed civil engineer.")
	require.Contains(t, reasonOf(t, stopped(), "base"), "DO NOT BUILD")
	require.NotContains(t, textOf(t, patio(), quantity.US), "DO NOT BUILD")
}

func TestLimitSide(t *testing.T) {
	tests := []struct {
		name, why, want string
		value, limit    value.Value
		bound           section.Bound
		holds           bool
	}{
		{"floor held", "larger and holding", "Yes: 8 in, at least 6 in needed.", inches(8), inches(6), section.AtLeast, true},
		{"floor crossed", "smaller and failing", "No: 4 in, at least 6 in needed.", inches(4), inches(6), section.AtLeast, false},
		{"ceiling held", "smaller and holding", "Yes: 4 in, at most 6 in allowed.", inches(4), inches(6), section.AtMost, true},
		{"ceiling crossed", "larger and failing", "No: 8 in, at most 6 in allowed.", inches(8), inches(6), section.AtMost, false},
		{"at the limit", "the side is known even so", "Yes: 6 in, at most 6 in allowed.", inches(6), inches(6), section.AtMost, true},
		{"figures", "nobody counts axles to the unit", "Yes: 1.75 million, at least 5,000 needed.", value.Number(1749931.7), value.Number(5000), section.AtLeast, true},
		{"close by", "more figures, where fewer would not tell why it fails", "No: 2.961, at least 3 needed.", value.Number(2.961), value.Number(3), section.AtLeast, false},
		{"a hair under", "never the limit itself as what fails it", "No: just under 6 in, at least 6 in needed.", inches(5.9999), inches(6), section.AtLeast, false},
		{"a hair over", "on the other side too", "No: just over 6 in, at most 6 in allowed.", inches(6.0001), inches(6), section.AtMost, false},
		{"side not told", "nothing is made up", "No: 8 in, the limit is 6 in.", inches(8), inches(6), "", false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := patio()
			s.Checks = []section.Check{{ID: "C", Asks: "Is it so?", Failing: "caution", Holds: tt.holds, Value: tt.value, Limit: tt.limit, Bound: tt.bound}}
			out := textOf(t, s, quantity.US)
			_, checks, _ := strings.Cut(out, "\nCHECKS\n")
			require.Contains(t, strings.Join(strings.Fields(checks), " "), "Is it so? "+tt.want, tt.why)
		})
	}
}

// Depths are shown as they are designed; what is built is in whole parts of a tape,
// and what a person decided otherwise is shown as that person wrote it.
func TestCrewDepths(t *testing.T) {
	tests := []struct {
		name, why string
		depth     quantity.Length
		system    quantity.System
		dig       string
	}{
		{"whole", "a depth that a tape shows", quantity.Inches(11.375), quantity.US, "11-3/8 in"},
		{"sixteenths", "they too are on the tape", quantity.Inches(11.0625), quantity.US, "11-1/16 in"},
		{"decided by a person", "nothing is rounded on the sheet", quantity.Inches(11.27), quantity.US, "11.27 in"},
		{"millimeters", "nor in SI units", quantity.Millimeters(288.6), quantity.SI, "288.6 mm"},
		{"feet", "long depths print to the sixteenth", quantity.Inches(50.125), quantity.US, "4 ft 2-1/8 in"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := patio()
			s.Depth = value.Measured(tt.depth)
			s.Courses[0].Top, s.Courses[0].Bottom = s.Depth, s.Depth
			out := textOf(t, s, tt.system)
			require.Contains(t, out, "Dig "+tt.dig+" deep", tt.why)
			require.Regexp(t, `(?m)^  `+tt.dig+` +Subgrade$`, out, tt.why)
		})
	}
	thin := patio()
	thin.Courses[2].Attributes[0].Value = value.Measured(quantity.Millimeters(0.5))
	require.Contains(t, textOf(t, thin, quantity.US), "0.01969 in", "nothing is rounded away")
}

// A crew reads what a bound bounds, not the names of the rule language.
func TestBoundsInTheTable(t *testing.T) {
	number, length := value.Number(2), inches(4)
	tests := []struct {
		name, why, want string
		attributes      []section.Attribute
	}{
		{"beside", "each of so many", "lifts: 2 (at most 4 in each)", []section.Attribute{{Name: "lifts", Label: "lifts", Value: number}, {Name: "lift_most", Label: "lift at most", Value: length}}},
		{"before", "whichever the rulebook has first", "lifts: 2 (at most 4 in each)", []section.Attribute{{Name: "lift_at_most", Label: "lift at most", Value: length}, {Name: "lifts", Label: "lifts", Value: number}}},
		{"alone", "nothing to stand beside", "lift: at most 4 in", []section.Attribute{{Name: "lift_most", Label: "lift at most", Value: length}}},
		{"least", "the other side", "cover: at least 4 in", []section.Attribute{{Name: "cover_least", Label: "cover at least", Value: length}}},
		{"no count", "a length is not of so many", "lifts: 4 in; lift: at most 4 in", []section.Attribute{{Name: "lifts", Label: "lifts", Value: length}, {Name: "lift_most", Label: "lift at most", Value: length}}},
		{"not there", "a bound without a value bounds nothing", "lifts: 2", []section.Attribute{{Name: "lifts", Label: "lifts", Value: number}, {Name: "lift_most", Label: "lift at most"}}},
		{"label", "the words that the section gives it", "beyond edge: 4 in", []section.Attribute{{Name: "beyond_edge", Label: "beyond edge", Value: length}}},
		{"most alone", "no bound without what it bounds", "most: 4 in", []section.Attribute{{Name: "most", Label: "most", Value: length}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := patio()
			s.Courses[1].Attributes = tt.attributes
			require.Regexp(t, `(?m)^ +`+regexp.QuoteMeta(tt.want)+`$`, textOf(t, s, quantity.US), tt.why)
		})
	}
}

// What was built by permission must not be taken for the rule, whatever came of it.
func TestVariancesOnTheFace(t *testing.T) {
	const permission = "The setting bedding_least is 3/4 in, below its limit of 1 in. Approved by R. Tansy, through 2026-06-30: The doors sit low. Variance thin_bed."
	for _, status := range []section.Status{section.Designed, section.Stopped, section.Refused} {
		s := amended()
		s.Status = status
		out := strings.Join(strings.Fields(textOf(t, s, quantity.US)), " ")
		at := strings.Index(out, permission)
		require.Positive(t, at, "%s", status)
		for _, part := range []string{"THE SECTION, from", "WHAT WAS TRIED", "LIMITS CROSSED - "} {
			if later := strings.Index(out, part); later >= 0 {
				require.Less(t, at, later, "near the top")
			}
		}
		require.Contains(t, out, "Rules in force on 2026-03-01.")
		require.Contains(t, out, "Amendments in force, in this order: \"mill_frost\" of The Mill (R. Tansy, 2026-02-03): Three drives heaved last winter; \"mill_step\" of The Mill (J. Orr,")
	}
	require.Contains(t, strings.Join(strings.Fields(reasonOf(t, amended(), "pavers")), " "), permission)
	high := amended()
	high.Variances[0].Value, high.Variances[0].Limit = inches(3), inches(2)
	require.Contains(t, textOf(t, high, quantity.US), "above its limit of 2 in")
	plain := textOf(t, patio(), quantity.US)
	for _, none := range []string{"EXCEPTIONS", "Amendments", "Made by the rules of"} {
		require.NotContains(t, plain, none)
	}
}

// A limit crossed, or a check that fails, may rest on a setting of the company's.
func TestAmendedSettingOfALimit(t *testing.T) {
	s := refused()
	s.Refusals[0].Clauses[0].Values = append(s.Refusals[0].Clauses[0].Values, section.Used{Name: "most_cbr", Label: "most CBR", Value: value.Number(2), Origin: "setting", Amended: &rulebook.Amended{By: millStep}})
	require.Contains(t, strings.Join(strings.Fields(textOf(t, s, quantity.US)), " "), "most CBR 2 (set by amendment mill_step).")
}

// An amended setting is told once, however many rules read it.
func TestAmendedSettingOnce(t *testing.T) {
	s := amended()
	s.Accounts = []section.Account{{Sort: "setting", Name: "base_step", Value: inches(0.5), Because: section.Plain("It saves sorting"), Source: "practice", Place: at("mill/step.yaml", 5), Amended: s.Reason("base_lifts").Taken[0].Used[0].Amended}}
	for out, want := range map[string]string{
		textOf(t, s, quantity.US): "Setting base_step = 1/2 in. Changed by amendment \"mill_step\" of The Mill (J. Orr, 2026-02-04), at mill/step.yaml:5:7: It saves sorting. Before: base_step, at base.yaml:3:7, with value `1 in`. Its source: common practice, no published source.",
		reasonOf(t, s, "base"):    "Setting base_step = 1/2 in, at mill/step.yaml:5:7 It saves sorting. Source: common practice, no published source. Changed by amendment \"mill_step\" of The Mill (J. Orr, 2026-02-04)",
	} {
		require.Equal(t, 1, strings.Count(strings.Join(strings.Fields(out), " "), want), "%s", out)
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
			require.ErrorAs(t, sheet.Reason(&bytes.Buffer{}, tt.s, tt.asked, quantity.US), &missing)
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
