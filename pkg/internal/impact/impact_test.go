package impact_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/rules"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(string(want), got))
}

// edit is a replacement in a rulebook's text.
type edit struct{ old, new string }

// garden opens a small invented rulebook with edits. Each must be found once, so
// that a test cannot go on about an edit that was none.
func garden(t testing.TB, edits ...edit) *engine.Book {
	t.Helper()
	data, err := os.ReadFile("testdata/garden.yaml")
	require.NoError(t, err)
	text := string(data)
	for _, e := range edits {
		require.Equal(t, 1, strings.Count(text, e.old), "%q", e.old)
		text = strings.Replace(text, e.old, e.new, 1)
	}
	book, err := groundrule.Open(fstest.MapFS{"garden.yaml": {Data: []byte(text)}})
	require.NoError(t, err)
	return inside.Rules(book)
}

// edited opens the standard rulebook with other values of settings.
func edited(t testing.TB, settings ...edit) *engine.Book {
	t.Helper()
	files := fstest.MapFS{}
	names, err := fs.Glob(rules.Files(), "*.yaml")
	require.NoError(t, err)
	found := 0
	for _, name := range names {
		data, err := fs.ReadFile(rules.Files(), name)
		require.NoError(t, err)
		for _, s := range settings {
			value := regexp.MustCompile(`(?m)^(  ` + s.old + `:\n    value: ).*$`)
			found += len(value.FindAll(data, -1))
			data = value.ReplaceAll(data, []byte("${1}"+s.new))
		}
		files[name] = &fstest.MapFile{Data: data}
	}
	require.Equal(t, len(settings), found, "every setting is there once")
	book, err := groundrule.Open(files, groundrule.WithLabel(rules.Label))
	require.NoError(t, err)
	return inside.Rules(book)
}

func standard(t testing.TB) *engine.Book {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return inside.Rules(book)
}

func run(t testing.TB, before, after *engine.Book, all iter.Seq2[*site.Site, error]) *impact.Report {
	t.Helper()
	r, err := impact.Run(context.Background(), before, after, all, impact.Options{})
	require.NoError(t, err)
	return r
}

func text(t testing.TB, r *impact.Report) string {
	t.Helper()
	return inUnits(t, r, quantity.US, 20)
}

func inUnits(t testing.TB, r *impact.Report, system quantity.System, shown int) string {
	t.Helper()
	var p page.Page
	r.Tell(&p, system, shown)
	var b bytes.Buffer
	require.NoError(t, p.Write(&b))
	return b.String()
}

func asJSON(t testing.TB, r *impact.Report) string {
	t.Helper()
	data, err := json.MarshalIndent(r, "", "  ")
	require.NoError(t, err)
	return string(data) + "\n"
}

var (
	noPrecaution = edit{"precaution_grid", "false"}
	moreCover    = edit{"grid_cover", "8 in"}
)

func one(s *site.Site) iter.Seq2[*site.Site, error] {
	return jobs.Sure(func(yield func(*site.Site) bool) { yield(s) })
}

func TestTheSameRulebookChangesNothing(t *testing.T) {
	r := run(t, standard(t), edited(t), jobs.Sure(jobs.Generate(nil, 200, 1)))
	require.Empty(t, r.Edits)
	require.Empty(t, r.Changed)
	require.Equal(t, 200, r.Jobs.Same)
	require.Zero(t, r.Depth)
	require.NotContains(t, text(t, r), "Not read", "every job could be read")
}

// TestOnTheStandard is what the package is for, with its text and its numbers
// held to what they should be by their kind, and not by a golden file: the
// standard rulebook has its own life.
func TestOnTheStandard(t *testing.T) {
	all := slices.Collect(jobs.Generate(nil, 400, 2))
	r := run(t, standard(t), edited(t, noPrecaution, moreCover), jobs.Sure(slices.Values(all)))
	require.Equal(t, []string{"setting precaution_grid", "setting grid_cover"}, []string{r.Edits[0].ID, r.Edits[1].ID})
	require.Equal(t, 400, r.Jobs.All)
	require.Equal(t, 400, r.Jobs.Same+r.Jobs.Section+r.Jobs.Status+r.Jobs.Otherwise+r.Jobs.NoticesOnly+r.Jobs.ReasonsOnly)
	require.Greater(t, r.Edits[0].Jobs, 50, "most sections with a grid as a precaution lose it")
	require.Greater(t, r.Edits[1].Jobs, 10, "and some of the others grow")
	for _, job := range r.Changed {
		require.NotEmpty(t, job.Causes, "job %d", job.Number)
		require.Equal(t, all[job.Number-1].Job, job.Name)
	}
	for i := range r.Changed[1:] {
		require.Less(t, r.Changed[i].Number, r.Changed[i+1].Number, "in the order of the jobs")
	}
}

// TestDepthsAndVolumes works the sums out by hand: 100 sq ft, 4 in of stone that
// become 6 in, and 420 sq ft, 9 in that stay.
func TestDepthsAndVolumes(t *testing.T) {
	archive := []*site.Site{walk(), walk(cars, func(s *site.Site) { s.Area = quantity.SquareFeet(420) }), walk(cbr(0.5))}
	// A second layer of stone, 1 in thick, is added to the first.
	levels := edit{"  - course: slabs\n", "  - course: levels\n    label: Levels\n    is: stone_layer\n    because: It is raked.\n    source: practice\n    attributes: {thickness: levels_thickness}\n  - course: slabs\n"}
	inch := edit{"decisions:\n", "decisions:\n  levels_thickness:\n    asks: How thick is it?\n    answers: length\n    take: first\n    rules:\n      - rule: LEVELS\n        answer: inches(1)\n        because: So much.\n        source: practice\n"}
	r := run(t, garden(t, levels, inch), garden(t, levels, inch, edit{"value: 4 in", "value: 6 in"}), jobs.Sure(slices.Values(archive)))
	require.Equal(t, 2, r.Jobs.DesignedByBoth)
	require.Equal(t, 1, r.Depth.Deeper)
	require.Zero(t, r.Depth.Shallower)
	require.InDelta(t, quantity.Inches(2).Meters(), r.Depth.Most.Meters(), 1e-12)
	require.Equal(t, 1, r.Depth.MostJob)
	require.Zero(t, r.Depth.LeastJob)
	require.True(t, slices.ContainsFunc(r.Volumes, func(v impact.Volume) bool { return v.Name == "stone_layer" }))
	for _, v := range r.Volumes {
		if v.Name != "stone_layer" {
			require.Zero(t, v.Delta(), v.Name)
			continue
		}
		const cubicFoot = 0.3048 * 0.3048 * 0.3048
		require.InDelta(t, (100*5.0/12+420*10.0/12)*cubicFoot, float64(v.Before), 1e-9)
		require.InDelta(t, (100*7.0/12+420*10.0/12)*cubicFoot, float64(v.After), 1e-9)
	}
}

// TestWrite holds the text and the JSON of one report.
func TestWrite(t *testing.T) {
	archive := func(yield func(*site.Site, error) bool) {
		_ = yield(walk(), nil) && yield(walk(cars), nil) && yield(walk(soft), nil) && yield(nil, errors.New("old.jsonl: line 4: not a job")) &&
			yield(&site.Site{Job: "no area"}, nil) && yield(walk(cbr(0.5)), nil) && yield(walk(cbr(1.5), cars), nil)
	}
	before, after := garden(t), garden(t, edit{"value: 4 in", "value: 7 in"}, edit{"answer: inches(9)", "answer: inches(8)"}, edit{"strength_least:\n    value: 1", "strength_least:\n    value: 1.6"},
		edit{"because: It is cheap.", "because: Cheap."}, edit{"mat_wanted:\n    value: true", "mat_wanted:\n    value: false"})
	r := run(t, before, after, archive)
	golden(t, "testdata/report.txt", text(t, r))
	golden(t, "testdata/report.json", asJSON(t, r))
	var plain map[string]any
	require.NoError(t, json.Unmarshal([]byte(asJSON(t, r)), &plain))
	require.Equal(t, impact.Schema, plain["schema"])
	require.InDelta(t, impact.FormVersion, plain["version"], 0)

	golden(t, "testdata/report_si.txt", inUnits(t, r, quantity.SI, 1))
	require.NotContains(t, inUnits(t, r, quantity.US, 0), "Jobs that change")
	require.Equal(t, "4 of 7 jobs change; 2 could not be read", r.Summary())
	require.False(t, r.OK())
}

func TestReportDoesNotDependOnTheWorkers(t *testing.T) {
	before, after := garden(t), garden(t, edit{"value: 4 in", "value: 7 in"}, edit{"soft_below:\n    value: 3", "soft_below:\n    value: 6"})
	var want string
	for _, workers := range []int{1, 2, 7} {
		r, err := impact.Run(t.Context(), before, after, jobs.Sure(jobs.Generate(nil, 500, 3)), impact.Options{Workers: workers})
		require.NoError(t, err)
		got := asJSON(t, r)
		if want == "" {
			want = got
		}
		require.Empty(t, cmp.Diff(want, got))
	}
}

func TestRunEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	handed := make(chan int, 1)
	_, err := impact.Run(ctx, garden(t), garden(t), func(yield func(*site.Site, error) bool) {
		n := 0
		for job := range jobs.Generate(nil, 100_000, 1) {
			if n++; n == 200 {
				cancel()
			}
			if !yield(job, nil) {
				break
			}
		}
		handed <- n
	}, impact.Options{})
	require.ErrorIs(t, err, context.Canceled)
	require.Less(t, <-handed, 1000, "whoever hands out the jobs is told to stop")
}

// A reader that never answers, as standard input at which nobody types, does not
// keep Run from ending with its context.
func TestRunEndsWhileItWaits(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	forever := make(chan struct{})
	defer close(forever)
	_, err := impact.Run(ctx, garden(t), garden(t), func(yield func(*site.Site, error) bool) {
		for range 3 {
			if !yield(walk(), nil) {
				return
			}
		}
		cancel()
		<-forever
	}, impact.Options{})
	require.ErrorIs(t, err, context.Canceled)
}

func TestNoJobs(t *testing.T) {
	r := run(t, garden(t), garden(t, edit{"value: 4 in", "value: 7 in"}), func(func(*site.Site, error) bool) {})
	require.Zero(t, r.Jobs)
	require.Contains(t, text(t, r), "changes none of these jobs")
}

// Progress is told after each batch, in rising numbers up to all of the jobs.
func TestProgress(t *testing.T) {
	var got []int
	_, err := impact.Run(t.Context(), garden(t), garden(t), jobs.Sure(jobs.Generate(nil, 70, 1)), impact.Options{Progress: func(done int) { got = append(got, done) }})
	require.NoError(t, err)
	require.Equal(t, []int{32, 64, 70}, got)
}
