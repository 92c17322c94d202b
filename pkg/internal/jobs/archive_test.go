package jobs_test

import (
	"bytes"
	"errors"
	"flag"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
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

// written is a job in the form that holds every bit of it.
func written(t testing.TB, s *site.Site) string {
	t.Helper()
	text, err := site.Write(s)
	require.NoError(t, err)
	return string(text)
}

func TestJSONLinesReadBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	var want []*site.Site
	for range 100 {
		want = append(want, jobs.Any(rng, standard))
	}
	for job := range jobs.Generate(nil, 50, 9) {
		want = append(want, job)
	}
	want[0].Overrides = []site.Override{{Decision: "grid_kind", Answer: `"no_grid"`, By: "A", Because: "tests: \\ {x}"}}
	var b bytes.Buffer
	require.NoError(t, jobs.WriteJSONLines(&b, jobs.Sure(slices.Values(want))))
	require.Equal(t, len(want), strings.Count(b.String(), "\n"), "one job a line")
	i := 0
	for got, err := range jobs.ReadJSONLines("archive.jsonl", &b) {
		require.NoError(t, err)
		require.Equal(t, written(t, want[i]), written(t, got), "job %d", i)
		i++
	}
	require.Equal(t, len(want), i)
}

func TestJSONLinesTellWhereTheyAreWrong(t *testing.T) {
	good := `{"job":"a","area":"100 sq ft","use":"foot","base":"dense"}`
	text := good + "\n\n" + `{"area":"100 sq ft","use":"foot","base":"dense","jint":"x"}` + "\r\n" + "not a job\n" +
		`{"area":"100 sq ft","use":"foot","base":"dense","overrides":[{"decision":"d","answer":"1","by":"b","because":"c"}]}` + "\n" + good
	var names []string
	var places []diagnostic.Place
	for job, err := range jobs.ReadJSONLines("old.jsonl", strings.NewReader(text)) {
		if err == nil {
			names = append(names, job.Job)
			for _, o := range job.Overrides {
				require.Equal(t, diagnostic.Place{File: "old.jsonl", Line: 5, Column: 62}, o.Place)
			}
			continue
		}
		var wrong *site.Error
		require.ErrorAs(t, err, &wrong)
		places = append(places, wrong.Faults[0].Place)
	}
	require.Equal(t, []string{"a", "", "a"}, names, "the lines that are jobs are read all the same")
	require.Equal(t, []diagnostic.Place{{File: "old.jsonl", Line: 3, Column: 49}, {File: "old.jsonl", Line: 4, Column: 1}}, places)
}

func TestJSONLinesEndWithTheReader(t *testing.T) {
	broken := errors.New("the disk is gone")
	var got []error
	for _, err := range jobs.ReadJSONLines("old.jsonl", io.MultiReader(strings.NewReader("{}\n"), iotest.ErrReader(broken))) {
		got = append(got, err)
	}
	require.Len(t, got, 2, "the line before it, and the error")
	require.ErrorIs(t, got[1], broken)
}

func TestWriteJSONLinesRefusesAnImpossibleJob(t *testing.T) {
	good := slices.Collect(jobs.Generate(nil, 1, 1))
	err := jobs.WriteJSONLines(io.Discard, jobs.Sure(slices.Values(append(good, &site.Site{}))))
	var wrong *site.Error
	require.ErrorAs(t, err, &wrong)
	require.ErrorContains(t, err, "job 2: ")
	broken := errors.New("the disk is gone")
	err = jobs.WriteJSONLines(io.Discard, func(yield func(*site.Site, error) bool) { yield(nil, broken) })
	require.ErrorIs(t, err, broken, "a job that could not be read cannot be written")
}

func TestReadFolder(t *testing.T) {
	const patio = "area: 100 sq ft\nuse: foot\nbase: dense\n"
	folder := fstest.MapFS{
		"2024/b.yaml":    {Data: []byte("job: b\n" + patio)},
		"2024/a.json":    {Data: []byte(`{"area":"100 sq ft","use":"foot","base":"dense"}`)},
		"2023/old.jsonl": {Data: []byte(`{"job":"x","area":"100 sq ft","use":"foot","base":"dense"}` + "\n" + `{"job":"y","area":"100 sq ft","use":"foot","base":"dense"}`)},
		"wrong.yml":      {Data: []byte("area: 100\n")},
		"readme.txt":     {Data: []byte("no job")},
		".git/c.yaml":    {Data: []byte("no job")},
		"y.jsonl":        {Mode: fs.ModeNamedPipe},
		"z.yaml":         {Data: make([]byte, site.MostBytes+1)},
	}
	var got []string
	for job, err := range jobs.ReadFolder(folder) {
		var wrong *site.Error
		if errors.As(err, &wrong) {
			got = append(got, "wrong: "+wrong.Faults[0].Place.File)
			continue
		}
		if err != nil {
			got = append(got, err.Error())
			continue
		}
		got = append(got, job.Job)
	}
	require.Equal(t, []string{"x", "y", "2024/a", "b", "wrong: wrong.yml", "jobs: read y.jsonl: this is not a regular file",
		"jobs: read z.yaml: the file is too large to read: 1048577 bytes; at most 1 MiB can be read"}, got)
	for range jobs.ReadFolder(folder) {
		break // whoever has seen enough may stop
	}
}

func FuzzReadJSONLines(f *testing.F) {
	f.Add([]byte(`{"job":"a","area":"100 sq ft","use":"foot","base":"dense"}` + "\n{"))
	f.Add([]byte("[]\r\n\"\\ud800\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		for job, err := range jobs.ReadJSONLines("f.jsonl", bytes.NewReader(data)) {
			if err != nil {
				continue
			}
			var b bytes.Buffer
			require.NoError(t, jobs.WriteJSONLines(&b, jobs.Sure(slices.Values([]*site.Site{job}))))
			for back, err := range jobs.ReadJSONLines("f.jsonl", &b) {
				require.NoError(t, err)
				require.Equal(t, written(t, job), written(t, back))
			}
		}
	})
}
