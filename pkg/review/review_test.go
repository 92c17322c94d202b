package review_test

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

func trials(files map[string]string) rulebook.Layer {
	fsys := fstest.MapFS{}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return rulebook.Layer{Label: "ours", FS: fsys}
}

func trial(id, expect string) string {
	return "trials: [{trial: " + id + ", why: x, job: {use: foot, base: dense, area: 1 sq ft}, expect: " + expect + "}]\n"
}

var (
	passes = trials(map[string]string{"a.yaml": trial("A", "{answers: {base_depth: 4 in}}")})
	fails  = trials(map[string]string{"a.yaml": trial("A", "{answers: {base_depth: 5 in}}")})
)

// one is a set of jobs with a job and a line that is not one.
func some(yield func(*site.Site, error) bool) {
	for job, err := range review.ReadJobLines("past.jsonl", strings.NewReader(`{"use":"foot","base":"dense","area":"1 sq ft","frost":{"depth":"42 in"}}`+"\n{}\n")) {
		if !yield(job, err) {
			return
		}
	}
}

// Every report says whether all is well, in one line and in full, as text and as
// JSON that holds the same.
func TestReports(t *testing.T) {
	edited := open(strings.ReplaceAll(winter, "inches(40)", "inches(48)"))
	for _, c := range []struct {
		name, why string
		run       func(context.Context) (*review.Report, error)
		ok        bool
		summary   string
		text      string // in the text
		path      []string
		value     any // under the path in the JSON
	}{
		{"trials", "one passes", func(ctx context.Context) (*review.Report, error) { return review.Trials(ctx, open(winter), passes) },
			true, "1 trial: 1 pass, 0 fail", "1 pass", []string{"passed"}, 1.0},
		{"trials that fail", "one does not", func(ctx context.Context) (*review.Report, error) { return review.Trials(ctx, open(winter), fails) },
			false, "1 trial: 0 pass, 1 fail", "ours/a.yaml:1:10: A fails", []string{"failed"}, 1.0},
		{"coverage", "with what is not reached", func(ctx context.Context) (*review.Report, error) { return review.Coverage(ctx, open(winter), passes) },
			true, "1 trial: 1 pass, 0 fail", "rule DEEP of base_depth never answers", []string{"coverage", "rules", "0", "chosen"}, 1.0},
		{"names", "what a rule may read", func(context.Context) (*review.Report, error) { return review.Names(open(winter)) },
			true, "names of the rulebook, beside what every job says: 1", "  base_depth: length", []string{"names", "0", "from"}, "input"},
		{"survey of what is sound", "a question that is always answered", func(ctx context.Context) (*review.Report, error) {
			return review.Survey(ctx, open(winter), review.SurveyOptions{Names: []string{"LEVEL"}, Chapters: nil, Inputs: map[string]string{"base": "open"}, Jobs: 200})
		}, true, "No fault: 1 question settled.", "Within: LEVEL; base = open.", []string{"within"}, "LEVEL; base = open"},
		{"survey", "a gap", func(ctx context.Context) (*review.Report, error) {
			return review.Survey(ctx, open(winter), review.SurveyOptions{Chapters: []string{"winter"}, Jobs: 500})
		}, false, "1 fault found.", "NO ANSWER", []string{"findings", "0", "kind"}, "NO ANSWER"},
		{"impact", "one job changes, and one cannot be read", func(ctx context.Context) (*review.Report, error) {
			return review.Impact(ctx, open(winter), edited, some, review.ImpactOptions{})
		}, false, "1 of 2 jobs change; 1 could not be read", "changes 1 job", []string{"changed", "0", "before", "status"}, "designed"},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := c.run(t.Context())
			require.NoError(t, err, c.why)
			require.Equal(t, c.ok, r.OK(), c.why)
			require.Equal(t, c.summary, r.Summary())
			var us, si strings.Builder
			require.NoError(t, r.WriteText(&us, quantity.US))
			require.NoError(t, r.WriteText(&si, quantity.SI))
			require.Contains(t, us.String(), c.text)
			for line := range strings.Lines(us.String()) {
				require.LessOrEqual(t, utf8.RuneCountInString(strings.TrimRight(line, "\n")), 80, line)
			}
			if c.name == "impact" {
				require.Contains(t, us.String(), "10 in -> 6 in")
				require.Contains(t, si.String(), "254 mm -> 152.4 mm")
				require.NotContains(t, us.String(), "Jobs that change", "none is shown unless asked for")
			} else {
				require.Equal(t, us.String(), si.String())
			}
			var data strings.Builder
			enc := json.NewEncoder(&data)
			enc.SetEscapeHTML(false)
			require.NoError(t, enc.Encode(r))
			require.NotContains(t, data.String(), `\u003`, "signs of the rule language are left as they are")
			var at any
			require.NoError(t, json.Unmarshal([]byte(data.String()), &at))
			for _, key := range c.path {
				if list, ok := at.([]any); ok {
					require.NotEmpty(t, list)
					at = list[0]
					continue
				}
				at = at.(map[string]any)[key]
			}
			require.Equal(t, c.value, at)
		})
	}
}

func TestErrors(t *testing.T) {
	book := open(winter)
	_, err := review.Trials(t.Context(), book)
	require.ErrorIs(t, err, review.ErrNoTrials, "no folder")
	_, err = review.Coverage(t.Context(), book, trials(nil))
	require.ErrorIs(t, err, review.ErrNoTrials, "an empty folder")
	_, err = review.Trials(t.Context(), book, trials(map[string]string{"a.yaml": trial("A", "{answers: {base_dept: 4 in}}")}))
	var faults diagnostic.List
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 1)
	require.Equal(t, "base_depth", faults[0].Nearest)
	_, err = review.Trials(t.Context(), book, trials(map[string]string{"a.yaml": trial("A", "{answers: {base_depth: 4 in}}"), "b.yaml": "trials: 3\n"}))
	require.ErrorAs(t, err, &faults, "a file that cannot be read beside one that can")
	require.Equal(t, "ours/b.yaml", faults[0].Place.File)
	_, err = review.Survey(t.Context(), book, review.SurveyOptions{Names: []string{"base_dept"}})
	require.ErrorIs(t, err, review.ErrWithin)

	done, cancel := context.WithCancel(t.Context())
	cancel()
	_, err = review.Trials(done, book, passes)
	require.ErrorIs(t, err, context.Canceled)
	_, err = review.Survey(done, book, review.SurveyOptions{})
	require.ErrorIs(t, err, context.Canceled)
	_, err = review.Impact(done, book, book, review.Jobs(nil, 10, 1), review.ImpactOptions{})
	require.ErrorIs(t, err, context.Canceled)
}

// A book that was not opened is an error of whoever calls, and no panic.
func TestBooksThatWereNotOpened(t *testing.T) {
	for name, book := range map[string]*groundrule.Book{"nil": nil, "zero": {}} {
		var use *groundrule.UseError
		_, err := review.Trials(t.Context(), book, passes)
		require.ErrorAs(t, err, &use, name)
		_, err = review.Names(book)
		require.ErrorAs(t, err, &use, name)
		_, err = review.Survey(t.Context(), book, review.SurveyOptions{})
		require.ErrorAs(t, err, &use, name)
		_, err = review.Impact(t.Context(), book, open(winter), review.Jobs(nil, 1, 1), review.ImpactOptions{})
		require.ErrorAs(t, err, &use, name)
		_, err = review.Impact(t.Context(), open(winter), book, review.Jobs(nil, 1, 1), review.ImpactOptions{})
		require.ErrorAs(t, err, &use, name)
	}
}

// Progress is told from the beginning to the end.
func TestSurveyProgress(t *testing.T) {
	var stages []string
	_, err := review.Survey(t.Context(), open(winter), review.SurveyOptions{Jobs: 400, Progress: func(stage string, done, total int) {
		require.LessOrEqual(t, done, total)
		if !slices.Contains(stages, stage) {
			stages = append(stages, stage)
		}
	}})
	require.NoError(t, err)
	require.Equal(t, []string{"walking the cells", "jobs at the values where conditions meet", "random jobs", "making the jobs smaller"}, stages)
}

// Jobs are the same whichever way they go.
func TestJobsGoThereAndBack(t *testing.T) {
	var lines, again strings.Builder
	require.NoError(t, review.WriteJobs(&lines, review.Jobs(nil, 20, 3)))
	require.NoError(t, review.WriteJobs(&again, review.ReadJobLines("jobs.jsonl", strings.NewReader(lines.String()))))
	require.Equal(t, lines.String(), again.String())
	var folder strings.Builder
	require.NoError(t, review.WriteJobs(&folder, review.ReadJobs(fstest.MapFS{"2025/jobs.jsonl": {Data: []byte(lines.String())}})))
	require.Equal(t, lines.String(), folder.String())
	broken := errors.New("the disk is full")
	require.ErrorIs(t, review.WriteJobs(full{broken}, review.Jobs(nil, 2000, 3)), broken)
}

type full struct{ err error }

func (f full) Write([]byte) (int, error) { return 0, f.err }

var _ io.Writer = full{}

func TestSchemas(t *testing.T) {
	kinds := review.SchemaKinds()
	require.Subset(t, kinds, []string{"chapter", "amendment", "job", "trial"})
	for _, kind := range kinds {
		data, err := review.Schema(nil, kind)
		require.NoError(t, err)
		require.True(t, json.Valid(data), kind)
	}
	_, err := review.Schema(nil, "jobs")
	require.EqualError(t, err, "there is no schema of \"jobs\"; there are "+strings.Join(kinds, ", ")+"; did you mean \"job\"?")
}
