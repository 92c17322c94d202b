package groundrule_test

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/site"
)

// The oracle judges sections by published facts, and by a review in which an
// estimator and an engineer judged sections; it knows no rule of the rulebook. A
// source names the section of the facts ("facts 5") or the finding ("review A12",
// "search A6" for a search for contradictions), and how it is known. A sentence here is a bound that no honest reading of
// its source allows anyone to cross; within the bounds the rulebook is free.

// sentence is one thing that a source says of every job.
type sentence struct {
	// name by which the table of what is still wrong names it.
	name string
	// says is the sentence, source who says so and how that is known.
	says, source string
	// judge returns what of a job breaks it, "" for nothing.
	judge func(x *look) string
}

func sentences() []sentence {
	return slices.Concat(noSection, coursesAtLeast, gridsAndFabrics, besideOneAnother, waterAndSlope, ordinaryJobs)
}

// finding is a job that breaks a sentence.
type finding struct {
	broken string
	found  string
	job    *site.Site
	count  int
}

// many returns the share of the whole count that GROUNDRULE_MANY asks for, 1 for
// all of it, and the usual count without it.
func many(whole, usual int) int {
	if share, err := strconv.ParseFloat(os.Getenv("GROUNDRULE_MANY"), 64); err == nil {
		return int(share * float64(whole))
	}
	return usual
}

// fewer is how many jobs a test tries: few of them where tests are run short.
func fewer(usual, few int) int {
	if testing.Short() {
		return few
	}
	return usual
}

// TestOracle judges generated jobs, and TestOracleOnContradictions jobs whose
// evidence cannot all be true. GROUNDRULE_MANY=1 judges 100,000 and 10,000.
func TestOracle(t *testing.T) {
	judgeAll(t, many(100_000, 2_000), ordinary)
}

func TestOracleOnContradictions(t *testing.T) {
	judgeAll(t, many(10_000, 500), contradicting)
}

func judgeAll(t *testing.T, count int, make func(i int) *site.Site) {
	if testing.Short() {
		t.Skip("a thousand designs and more")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	check := func(_ string, job *site.Site) []finding { return judge(book, job) }
	tellFindings(t, sweep(t, count, func(i int) []finding { return judge(book, make(i)) }), check)
}

func judge(book *groundrule.Book, job *site.Site) []finding {
	x, err := judged(book, job)
	if err != nil {
		return []finding{{broken: "an answer or a refusal, never a fault", found: err.Error(), job: job, count: 1}}
	}
	var out []finding
	for _, s := range sentences() {
		if found := s.judge(x); found != "" {
			out = append(out, finding{s.name, found, job, 1})
		}
	}
	return out
}

// sweep runs a count of jobs in chunks over two goroutines, and keeps of each
// sentence the first job that breaks it and how many do.
func sweep(t *testing.T, count int, of func(i int) []finding) map[string]*finding {
	const workers = 2
	var wait sync.WaitGroup
	parts := make([]map[string]*finding, workers)
	for w := range workers {
		parts[w] = map[string]*finding{}
		wait.Go(func() {
			for i := w; i < count; i += workers {
				for _, f := range of(i) {
					if old := parts[w][f.broken]; old != nil {
						old.count++
						continue
					}
					parts[w][f.broken] = &f
				}
			}
		})
	}
	wait.Wait()
	all := map[string]*finding{}
	for _, part := range parts {
		for name, f := range part {
			if old := all[name]; old != nil {
				old.count += f.count
				continue
			}
			all[name] = f
		}
	}
	t.Logf("%d jobs; %d sentences broken", count, len(all))
	return all
}

// tellFindings shows one job for each sentence that is broken, as small as it gets,
// and fails for each that is not known to be. check finds again what a smaller job
// breaks.
func tellFindings(t *testing.T, all map[string]*finding, check func(name string, job *site.Site) []finding) {
	t.Helper()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		f := all[name]
		t.Logf("%s: %d jobs, one of them: %s", name, f.count, f.found)
	}
	for _, name := range slices.Sorted(maps.Keys(all)) {
		f := all[name]
		small, found := shrink(f.job, f.found, func(j *site.Site) string {
			for _, other := range check(name, j) {
				if other.broken == name {
					return other.found
				}
			}
			return ""
		})
		said := fmt.Sprintf("%s: %d jobs\n%s\nfound: %s\n%s", name, f.count, sourceOf(name), found, jobFile(small))
		if _, known := stillWrong[name]; known {
			t.Log("still wrong: " + said)
			continue
		}
		t.Error(said)
	}
}

func sourceOf(name string) string {
	for _, s := range sentences() {
		if s.name == name {
			return s.says + " [" + s.source + "]"
		}
	}
	for _, p := range properties {
		if p.name == name {
			return p.says + " [" + p.source + "]"
		}
	}
	return ""
}

func jobFile(j *site.Site) string {
	text, err := site.Write(j)
	if err != nil {
		return err.Error()
	}
	return string(text)
}

// shrink drops keys of a job, one at a time, for as long as it breaks the same
// sentence.
func shrink(job *site.Site, found string, breaks func(*site.Site) string) (*site.Site, string) {
	for again := true; again; {
		again = false
		for _, f := range site.Fields() {
			if _, given := f.Get(job); f.Required || !given || strings.Contains(f.Path, "[") || f.Form == site.GroupForm {
				continue
			}
			smaller := copied(job)
			if f.Set(smaller, nil) != nil || smaller.Validate() != nil {
				continue
			}
			if _, still := f.Get(smaller); still {
				continue // it follows from others
			}
			if said := breaks(smaller); said != "" {
				job, found, again = smaller, said, true
			}
		}
	}
	return job, found
}

// copied returns a job that shares no list with the first.
func copied(j *site.Site) *site.Site {
	out := *j
	out.Soil.CBR = slices.Clone(j.Soil.CBR)
	out.Soil.Sieves = slices.Clone(j.Soil.Sieves)
	out.Soil.DCP.Readings = slices.Clone(j.Soil.DCP.Readings)
	out.Soil.DCP.MMPerBlow = slices.Clone(j.Soil.DCP.MMPerBlow)
	out.Overrides = slices.Clone(j.Overrides)
	return &out
}

// with returns a copy of a job in which keys have other values: pairs of a path
// and a text as a job file has it, the empty text for a key that is left out.
func with(j *site.Site, pairs ...string) *site.Site {
	out := copied(j)
	for i := 0; i < len(pairs); i += 2 {
		if err := out.Set(pairs[i], pairs[i+1]); err != nil {
			panic(pairs[i] + ": " + err.Error())
		}
	}
	return out
}

// TestStillWrong holds that each entry of the table is wrong to this day: one that
// is mended comes off the table.
func TestStillWrong(t *testing.T) {
	if testing.Short() {
		t.Skip("others mend the rules")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, name := range slices.Sorted(maps.Keys(stillWrong)) {
		w := stillWrong[name]
		t.Run(name, func(t *testing.T) {
			job, err := site.Read(name, []byte(w.job))
			require.NoError(t, err)
			for _, f := range slices.Concat(judge(book, job), hold(book, name, job)) {
				if f.broken == name {
					return
				}
			}
			t.Errorf("%s: this is mended; take it off the table", w.what)
		})
	}
}
