package sheet

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/takeoff"
)

// clientSheet writes the client's sheet of a job as a text: if it is whole with what comes
// of what is assumed and with what was compared, and what each costs by a price list.
func clientSheet(t *testing.T, book *groundrule.Book, job *site.Site, whole bool, prices *takeoff.Prices, day rulebook.Date) string {
	t.Helper()
	s := Sheet{Of: "client", Lines: book.Lines(), Drawn: book.Drawn()}
	forms := []section.Form{section.Client}
	if whole {
		forms = s.Forms()
	}
	areas, err := book.Areas(job, forms...)
	require.NoError(t, err)
	if len(job.Areas) == 0 && whole {
		s.Options, err = book.Options(job, section.Client, section.Takeoff)
		require.NoError(t, err)
	}
	for _, o := range s.Options {
		off, err := takeoff.Of(o.Section)
		var cost *takeoff.Cost
		if prices != nil && err == nil {
			cost, err = prices.Cost(off, day)
			require.NoError(t, err)
		}
		if prices != nil {
			s.Costs = append(s.Costs, cost)
		}
	}
	var b bytes.Buffer
	require.NoError(t, s.Write(&b, areas))
	for line := range strings.Lines(b.String()) {
		require.LessOrEqual(t, utf8.RuneCountInString(line), 81, line)
	}
	return b.String()
}

func readJob(t *testing.T, path string) *site.Site {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	job, err := site.Read(path, data)
	require.NoError(t, err)
	return job
}

// keptClient holds a sheet to the file that is kept of it.
func keptClient(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "client", name+".txt")
	if flag.Lookup("update").Value.String() == "true" {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got), path)
}

// pageLines is how many lines of a text stand on a page of Letter.
const pageLines = 66

// TestClientSheets keeps the client's sheets of the examples, each of one area on two
// pages, and without a price where there is no price list.
func TestClientSheets(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	paths, err := filepath.Glob("../../examples/jobs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		name := strings.TrimSuffix(filepath.Base(path), ".yaml")
		t.Run(name, func(t *testing.T) {
			job := readJob(t, path)
			got := clientSheet(t, book, job, true, nil, rulebook.Date{})
			require.NotRegexp(t, `(?i)\bprices?\b|\bcosts \d|\d\.\d\d\b`, got)
			require.Empty(t, internal(got))
			if len(job.Areas) == 0 {
				require.LessOrEqual(t, strings.Count(got, "\n"), 2*pageLines)
			}
			keptClient(t, name, got)
		})
	}
}

// TestClientSheetWithPrices keeps one with what each way to build it costs.
func TestClientSheetWithPrices(t *testing.T) {
	day, err := rulebook.ParseDate("2026-06-01")
	require.NoError(t, err)
	book, err := groundrule.OpenStandard(groundrule.WithAmendments(rulebook.Layer{Label: "wrenfold", FS: os.DirFS("../../examples/wrenfold/amendments")}), groundrule.AsOf(day))
	require.NoError(t, err)
	data, err := os.ReadFile("../../examples/wrenfold/prices/2026.yaml")
	require.NoError(t, err)
	prices, err := takeoff.ReadPrices("2026.yaml", data)
	require.NoError(t, err)
	got := clientSheet(t, book, readJob(t, "../../examples/jobs/patio-on-stiff-clay.yaml"), true, prices, day)
	require.Contains(t, got, "price")
	keptClient(t, "patio-on-stiff-clay-with-prices", got)
}

// ofTheRules matches what stands in rule files alone: an id, a name of several words,
// a question whether something is known.
var ofTheRules = regexp.MustCompile(`\b[A-Z][A-Z0-9]*(-[A-Z0-9]+)+\b|\w*[a-z]_[a-z]\w*|known\(`)

// internal lists what a client's sheet says that only who writes rules understands. The
// notes at its end name documents, some of which are numbered so.
func internal(sheet string) []string {
	sheet, _, _ = strings.Cut(sheet, "\nWHY WE SAY SO\n")
	headless := regexp.MustCompile(`(?m)^[A-Z ,]+$`).ReplaceAllString(sheet, "")
	return ofTheRules.FindAllString(headless, -1)
}

// TestClientSheetsSayNoNames holds that over generated jobs as well. GROUNDRULE_MANY=1
// tries 320.
func TestClientSheetsSayNoNames(t *testing.T) {
	require.Equal(t, []string{"WET-FINE", "soil_class", "known("}, internal("by WET-FINE, since soil_class is known(x)"))
	book, err := groundrule.Standard()
	require.NoError(t, err)
	count, whole := 20, os.Getenv("GROUNDRULE_MANY") != ""
	if whole {
		count = 320
	}
	for job := range jobs.Generate(book.Table(), count, 13) {
		got := clientSheet(t, book, job, whole, nil, rulebook.Date{})
		require.Empty(t, internal(got), got)
		require.NotContains(t, got, "An engineer has to look at this job and design it.", "no refusal is without a reason of its own: %s", got)
	}
}

// TestClientIsToldOf holds that whatever refuses or stops a job, and whatever is
// assumed, is told in the client's words.
func TestClientIsToldOf(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	rules := book.Rules()
	told := map[string][]string{}
	for _, w := range rules.Work {
		told[w.Part] = append(told[w.Part], w.Tells...)
	}
	for _, r := range rules.Refusals {
		require.Contains(t, told["client_refused"], r.ID)
	}
	for _, c := range rules.Checks {
		if c.Failing == rulebook.Stops {
			require.Contains(t, told["client_refused"], c.ID)
		}
	}
	notTold := map[string]string{
		"COMPACTOR-PRESUMED":    "the crew has its machines, and hires what it lacks",
		"COMPACTOR-ROLLER":      "likewise",
		"OUTLET-DAYLIGHT":       "it is told by its answer, where there is a drain",
		"INFILTRATION-MEASURED": "it is measured",
	}
	for _, d := range rules.Decisions {
		for _, r := range d.Rules {
			if r.Standing == rulebook.Presumed && notTold[r.ID] == "" {
				require.Contains(t, told["client_presumed"], r.ID, "%s presumes", r.ID)
			}
		}
	}
	parts := regexp.MustCompile(`^client_(what|why|course|expect|presumed|excluded|care|sample|refused)$`)
	for part := range told {
		require.True(t, part == "" || parts.MatchString(part), "the sheet writes no part %s", part)
	}
	require.True(t, slices.ContainsFunc(rules.Work, func(w rulebook.Work) bool { return w.Part == "client_sample" }))
}

// TestTrialsTellTheClient holds that each sentence for the client is told in some trial,
// and one with a condition is not told in another.
func TestTrialsTellTheClient(t *testing.T) {
	data, err := os.ReadFile("../../rules/trials/97-client.yaml")
	require.NoError(t, err)
	trials := string(data)
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, w := range book.Rules().Work {
		if w.Part == "" {
			continue
		}
		require.Regexp(t, `client: \[[^\]]*\b`+w.ID+`[,\]]`, trials, "no trial tells %s", w.ID)
		if w.When != (rulebook.Text{}) {
			require.Regexp(t, `without: \[[^\]]*\b`+w.ID+`[,\]]`, trials, "every trial tells %s", w.ID)
		}
	}
}
