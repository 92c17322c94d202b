package groundrule_test

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// reviewedJobs designs the 84 jobs that a paver estimator and an engineer judged.
// A job that is wrong as a file comes with its error.
func reviewedJobs(t *testing.T) (looks map[string]*look, faults map[string]error) {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	looks, faults = map[string]*look{}, map[string]error{}
	files, err := filepath.Glob("../../testdata/reviewed/*.yaml")
	require.NoError(t, err)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		job, err := site.Read(filepath.Base(file), text)
		if err == nil {
			looks[name], err = judged(book, job)
		}
		if err != nil {
			faults[name] = err
			delete(looks, name)
		}
	}
	return looks, faults
}

// TestReviewed holds that each of the reviewed jobs comes to what the review says
// of it, or to what the table says instead, with the reason.
func TestReviewed(t *testing.T) {
	if testing.Short() {
		t.Skip("others mend the rules")
	}
	looks, faults := reviewedJobs(t)
	seen := map[string]bool{}
	for _, w := range wantedOfReviewed {
		t.Run(w.job, func(t *testing.T) {
			require.False(t, seen[w.job], "one line each")
			seen[w.job] = true
			found := ""
			if x := looks[w.job]; x != nil {
				found = w.check(x)
			} else if !w.fault {
				found = faults[w.job].Error()
			}
			if looks[w.job] != nil && w.fault && found == "" {
				found = "a section, where the job file is at fault"
			}
			item, known := reviewedStillWrong[w.job]
			switch {
			case found == "" && known:
				t.Errorf("item %s is mended: take %s off the table", item, w.job)
			case found != "" && known:
				t.Logf("still wrong: %s\nfound: %s", w.wants, found)
			case found != "":
				t.Errorf("%s\nfound: %s", w.wants, found)
			}
		})
	}
	require.Len(t, seen, len(looks)+len(faults), "every job of the review has a line")
}

// TestReviewedTable writes what each reviewed job comes to, for people to read
// beside the review.
func TestReviewedTable(t *testing.T) {
	if testing.Short() {
		t.Skip("others mend the rules")
	}
	looks, faults := reviewedJobs(t)
	var b strings.Builder
	b.WriteString("# What each reviewed job comes to. Made by TestReviewedTable -update.\n")
	for _, name := range slices.Sorted(maps.Keys(looks)) {
		b.WriteString("\n" + name + " " + looks[name].summary())
	}
	for _, name := range slices.Sorted(maps.Keys(faults)) {
		fmt.Fprintf(&b, "\n%s wrong: %v\n", name, faults[name])
	}
	const file = "../../testdata/reviewed.txt"
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), b.String()), "go test ./pkg/groundrule -run ReviewedTable -update")
}

// always are the cautions of every sheet.
var always = []string{"LOCAL-CODE", "UTILITIES", "TRENCH", "SILICA", "LIFTING"}

// summary is a job's result in a few lines.
func (x *look) summary() string {
	var b strings.Builder
	var codes []string
	for _, r := range x.Refusals {
		codes = append(codes, r.ID)
	}
	for _, c := range x.Failed() {
		codes = append(codes, fmt.Sprintf("%s (%s)", c.ID, c.Failing))
	}
	for _, c := range x.Crossed {
		codes = append(codes, "limit of "+c.Decision)
	}
	fmt.Fprintf(&b, "%s %s\n", x.Status, strings.Join(codes, ", "))
	if x.Status == section.Refused {
		return b.String()
	}
	fmt.Fprintf(&b, "  dig %s, stone %.4g in, CBR %.3g\n", x.Depth, x.stone(), x.claim())
	for _, c := range x.Courses {
		if line := summed[c.Is]; line != nil {
			var parts []string
			for _, name := range line {
				if a := c.Attribute(name); a.Name != "" {
					parts = append(parts, fmt.Sprintf("%s %s", a.Label, a.Value))
				}
			}
			fmt.Fprintf(&b, "  %s: %s\n", c.Label, strings.Join(parts, "; "))
		}
	}
	var cautions []string
	for _, c := range x.Cautions {
		if !slices.Contains(always, c.ID) {
			cautions = append(cautions, c.ID)
		}
	}
	fmt.Fprintf(&b, "  cautions: %s\n", strings.Join(cautions, ", "))
	return b.String()
}

// summed are the attributes of each kind of course that the table shows.
var summed = map[string][]string{
	"subgrade_course": {"preparation", "compaction", "slope", "fall"},
	"fabric_course":   {"material", "overlap"},
	"grid_course":     {"kind", "height", "overlap"},
	"stone_course":    {"material", "thickness", "lifts", "compactor"},
	"drain_course":    {"pipe", "invert_above_bottom", "fall", "slope", "spacing_at_most"},
	"bedding_course":  {"material", "thickness"},
	"paver_course":    {"material", "thickness", "pattern", "slope", "fall"},
	"panel_course":    {"thickness"},
	"edge_course":     {"material"},
}
