package groundrule_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"os"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// streamed is what is read of each line of a stream.
type streamed struct {
	Schema string
	Status section.Status
	Job    json.RawMessage
	Line   int
	Faults diagnostic.List
}

func linesOf(t *testing.T, text string) (out []streamed) {
	for each := range strings.Lines(text) {
		var l streamed
		require.NoError(t, json.Unmarshal([]byte(each), &l))
		out = append(out, l)
	}
	return out
}

// TestStreamOrder holds that a stream has the section of each job in its place, byte
// for byte as when it is designed alone.
func TestStreamOrder(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	var want bytes.Buffer
	for job, err := range review.Jobs(book, 60, 12) {
		require.NoError(t, err)
		want.Write(alone(t, book, job))
	}
	var got bytes.Buffer
	wrong, err := book.Stream(t.Context(), &got, review.Jobs(book, 60, 12))
	require.NoError(t, err)
	require.Zero(t, wrong)
	require.Empty(t, cmp.Diff(strings.Split(want.String(), "\n"), strings.Split(got.String(), "\n")))
}

func alone(t testing.TB, book *groundrule.Book, job *site.Site) []byte {
	t.Helper()
	design, err := book.Design(job)
	var refused *groundrule.Refused
	var s *section.Section
	if errors.As(err, &refused) {
		s, err = refused.Section, nil
	} else if err == nil {
		s, err = design.Section()
	}
	require.NoError(t, err)
	data, err := s.JSON()
	require.NoError(t, err)
	return data
}

// TestStreamBadLines holds that what is no job has a line in its place, with its number
// and its faults, and that those around it are designed all the same.
func TestStreamBadLines(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	const patio = `{"area":"100 sq ft","use":"foot","base":"dense"}`
	for _, c := range []struct {
		name, why, line string
		code            diagnostic.Code
		column          int
	}{
		{"no job", "a torn line of another file", "not a job", "not-a-mapping", 1},
		{"unknown word", "which only this rulebook can tell", strings.Replace(patio, "foot", "foo", 1), "unknown-word", 27},
		{"too long", "reading goes on behind a line that no job can have", strings.Repeat("x", 3*site.MostBytes), "file-too-large", 0},
		{"an override", "found only when it is designed", strings.Replace(patio, `}`, `,"overrides":[{"decision":"d","answer":"1","by":"b","because":"c"}]}`, 1), "not-a-decision", 75},
		{"half a job", "the stream may be cut off", `{"area":`, "syntax", 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			in := patio + "\n\n" + c.line + "\n" + patio
			wrong, err := book.Stream(t.Context(), &out, review.ReadJobLines("in", strings.NewReader(in)))
			require.NoError(t, err)
			require.Equal(t, 1, wrong, c.why)
			got := linesOf(t, out.String())
			require.Len(t, got, 3, c.why)
			for _, i := range []int{0, 2} {
				require.Equal(t, section.Schema, got[i].Schema)
				require.Equal(t, section.Designed, got[i].Status)
			}
			require.Equal(t, "groundrule/faults", got[1].Schema)
			require.Equal(t, "2", string(got[1].Job), "it is the second job")
			require.Equal(t, 3, got[1].Line, "empty lines are counted")
			require.Equal(t, c.code, got[1].Faults[0].Code, c.why)
			require.Equal(t, diagnostic.Place{File: "in", Line: 3, Column: c.column}, got[1].Faults[0].Place, c.why)
		})
	}
}

// TestStreamLines holds what is written for jobs of each sort, one line each.
func TestStreamLines(t *testing.T) {
	book := plotBook(t, replaced(t, plot, "answer: inches(9)", "answer: inches(9) / (strength - 2.5)"))
	read := func(text string) *site.Site {
		job, err := site.Read("job.yaml", []byte(text))
		require.NoError(t, err)
		return job
	}
	yard, car := path(), path()
	yard.Use, car.Use = "truck_yard", "car_driveway"
	type line struct {
		Schema, Status string
		Job            any
		Line           int
		Sections       []struct{ Client []section.Work }
		Client         []section.Work
		Faults         []struct {
			Code, Message string
			Place         struct{ Line int }
		}
	}
	for _, c := range []struct {
		name, why string
		job       *site.Site
		wrong     int
		holds     func(t *testing.T, l line)
	}{
		{"a job", "its section", path(), 0, func(t *testing.T, l line) {
			require.Equal(t, [2]string{section.Schema, "designed"}, [2]string{l.Schema, l.Status})
		}},
		{"refused", "its section too", yard, 0, func(t *testing.T, l line) {
			require.Equal(t, [2]string{section.Schema, "refused"}, [2]string{l.Schema, l.Status})
		}},
		{"one area", "a job of areas, if of one", read("{base: dense, areas: [{name: walk, area: 40 sq ft, use: foot}]}"), 0, func(t *testing.T, l line) {
			require.Equal(t, section.AreasSchema, l.Schema)
			require.Len(t, l.Sections, 1)
			require.NotNil(t, l.Sections[0].Client, "in the form that was asked for")
		}},
		{"no job", "a nil", nil, 1, func(t *testing.T, l line) {
			require.Equal(t, "groundrule/faults", l.Schema)
			require.Zero(t, l.Line)
		}},
		{"a rule without an answer", "told as that, at the rule", car, 1, func(t *testing.T, l line) {
			require.Equal(t, "groundrule/faults", l.Schema)
			require.Equal(t, string(rulebook.CodeNoAnswer), l.Faults[0].Code)
			require.Equal(t, 26, l.Faults[0].Place.Line)
			require.Zero(t, l.Line, "the job stands in no file")
			require.Contains(t, l.Faults[0].Message, "division by zero")
		}},
		{"an area of which a rule has no answer", "told as that", read("{base: dense, areas: [{name: walk, area: 40 sq ft, use: car_driveway}]}"), 1, func(t *testing.T, l line) {
			require.Equal(t, string(rulebook.CodeNoAnswer), l.Faults[0].Code)
			require.Equal(t, 1, l.Line, "of the job")
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out bytes.Buffer
			wrong, err := book.Stream(t.Context(), &out, iter.Seq2[*site.Site, error](func(yield func(*site.Site, error) bool) { yield(c.job, nil) }), section.Client)
			require.NoError(t, err)
			require.Equal(t, c.wrong, wrong, c.why)
			require.Equal(t, 1, strings.Count(out.String(), "\n"))
			var l line
			require.NoError(t, json.Unmarshal(out.Bytes(), &l))
			if c.wrong > 0 {
				require.EqualValues(t, 1, l.Job, "counted from 1")
			}
			c.holds(t, l)
		})
	}
}

// TestStreamEnds holds how a stream ends that does not end with its jobs.
func TestStreamEnds(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	broken := errors.New("the disk is gone")
	many := review.Jobs(book, 1_000_000, 1)

	var out bytes.Buffer
	wrong, err := book.Stream(t.Context(), &out, review.ReadJobLines("in", iotest.ErrReader(broken)))
	require.NoError(t, err)
	require.Equal(t, 1, wrong, "what cannot be read is a fault in its place")
	require.Contains(t, out.String(), broken.Error())

	_, err = book.Stream(t.Context(), writerOf(func([]byte) error { return broken }), many)
	require.ErrorIs(t, err, broken, "nobody takes what is written")
	require.ErrorContains(t, err, "after 0 jobs: ")

	ctx, cancel := context.WithCancel(t.Context())
	n := 0
	_, err = book.Stream(ctx, writerOf(func([]byte) error {
		if n++; n == 5 {
			cancel()
		}
		return nil
	}), many)
	require.ErrorIs(t, err, context.Canceled)
	require.ErrorContains(t, err, "after 5 jobs: ")
	require.Equal(t, 5, n, "nothing is written behind it")

	_, err = book.Stream(t.Context(), io.Discard, many, section.Indented)
	require.ErrorIs(t, err, section.ErrForm, "a section over many lines is no line")
	var use *groundrule.UseError
	_, err = new(groundrule.Book).Stream(t.Context(), io.Discard, many)
	require.ErrorAs(t, err, &use)
}

type writerOf func([]byte) error

func (w writerOf) Write(p []byte) (int, error) { return len(p), w(p) }

// TestStreamIsFlat holds that the memory of a stream does not grow with the number of
// its jobs.
func TestStreamIsFlat(t *testing.T) {
	if os.Getenv("GROUNDRULE_MANY") == "" {
		t.Skip("it takes long: set GROUNDRULE_MANY=1")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	// What is in use swings by half with the jobs in hand, so that it is looked at as
	// often in both runs, and the mean is compared: the highest of many looks is higher
	// than that of a few.
	const looks = 100
	use := func(jobs int) (live, held float64) {
		n := 0
		var m runtime.MemStats
		_, err := book.Stream(t.Context(), writerOf(func([]byte) error {
			if n++; n%(jobs/looks) == 0 {
				runtime.GC()
				runtime.ReadMemStats(&m)
				live, held = live+float64(m.HeapAlloc)/looks, max(held, float64(m.HeapSys-m.HeapReleased))
			}
			return nil
		}), review.Jobs(book, jobs, 3))
		require.NoError(t, err)
		require.Equal(t, jobs, n)
		return live, held
	}
	live, held := use(1000)
	liveMany, heldMany := use(100_000)
	t.Logf("in use %.0f kB of 1,000 jobs, %.0f kB of 100,000; held %.0f and %.0f kB", live/1000, liveMany/1000, held/1000, heldMany/1000)
	require.LessOrEqual(t, liveMany, 1.2*live)
	require.LessOrEqual(t, heldMany, 1.2*held)
}

// BenchmarkStream designs the same jobs in a stream and one by one in Go, and reports
// how much longer one by one takes.
func BenchmarkStream(b *testing.B) {
	book, err := groundrule.Standard()
	require.NoError(b, err)
	var lines bytes.Buffer
	require.NoError(b, review.WriteJobs(&lines, review.Jobs(book, 200, 7)))
	read := func() iter.Seq2[*site.Site, error] {
		return review.ReadJobLines("in", bytes.NewReader(lines.Bytes()))
	}
	var stream, single time.Duration
	for b.Loop() {
		start := time.Now()
		_, err := book.Stream(b.Context(), io.Discard, read())
		require.NoError(b, err)
		stream += time.Since(start)
		start = time.Now()
		for job, err := range read() {
			require.NoError(b, err)
			alone(b, book, job)
		}
		single += time.Since(start)
	}
	b.ReportMetric(single.Seconds()/stream.Seconds(), "times-one-by-one")
	b.ReportMetric(200*float64(b.N)/stream.Seconds(), fmt.Sprintf("jobs/s-on-%d", runtime.GOMAXPROCS(0)))
}
