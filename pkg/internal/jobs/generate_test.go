package jobs_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"iter"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// standard is the table with the words of the standard rulebook.
var standard = func() *site.Table {
	book, err := groundrule.Standard()
	if err != nil {
		panic(err)
	}
	return book.Table()
}()

// own is a table with other words than those of the mix.
var own = func() *site.Table {
	words := func(name string, all ...string) value.Vocabulary {
		v := value.Vocabulary{Name: name}
		for _, w := range all {
			v.Words = append(v.Words, value.WordEntry{Name: w, Label: w})
		}
		return v
	}
	return site.NewTable([]value.Vocabulary{words("load_case", "foot", "golf_cart_path"), words("base_type", "crushed_concrete"), words("soil_word", "clay", "gumbo")}, nil)
}()

func lines(t *testing.T, count int, seed uint64) string {
	return archived(t, jobs.Generate(nil, count, seed))
}

func archived(t *testing.T, drawn iter.Seq[*site.Site]) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jobs.WriteJSONLines(&b, jobs.Sure(drawn)))
	return b.String()
}

func TestGenerateValidates(t *testing.T) {
	i := 0
	for job := range jobs.Generate(nil, 3000, 7) {
		require.NoError(t, job.Validate(), "job %d", i)
		require.Equal(t, fmt.Sprintf("job %06d", i+1), job.Job)
		i++
	}
	require.Equal(t, 3000, i)
}

func TestGenerateIsTheSameAtAnyTime(t *testing.T) {
	many := lines(t, 300, 42)
	require.Equal(t, many, lines(t, 300, 42))
	require.Equal(t, many[:len(lines(t, 50, 42))], lines(t, 50, 42), "the first jobs do not depend on how many are asked for")
	require.NotEqual(t, many, lines(t, 300, 43), "another seed gives other jobs")
}

// TestGenerateTellsEveryKey holds that every value that rules read stands in some
// job of a table, so that no key goes untried.
func TestGenerateTellsEveryKey(t *testing.T) {
	told := map[string]bool{"region": true, "soil.liquid_limit_oven_dried": true} // a company's word, and a laboratory's rarest number
	for job := range jobs.Generate(standard, 3000, 7) {
		require.NoError(t, job.Validate())
		for _, f := range standard.Fields() {
			if _, given := f.Get(job); given {
				told[f.Path] = true
			}
		}
	}
	for _, f := range standard.Fields() {
		require.True(t, told[f.Path] || !f.Rules || f.Derived(), f.Path)
	}
}

// The jobs of a seed are pinned: an archive that someone compares with an older
// report must stay what it was. The first are there to be read; of a number that
// lets rare ones come up there is the hash alone, so that a job that a test names by
// its number can be drawn again too.
func TestGenerateGolden(t *testing.T) {
	golden(t, "testdata/seed-1.jsonl", lines(t, 12, 1))
	var hashes strings.Builder
	hash := func(of, drawn string) { fmt.Fprintf(&hashes, "%x  %s\n", sha256.Sum256([]byte(drawn)), of) }
	hash("the first 10,000 jobs", lines(t, 10_000, 1))
	hash("the first 3,000 of the standard rulebook", archived(t, jobs.Generate(standard, 3000, 1)))
	hash("the first 3,000 of a rulebook with other words", archived(t, jobs.Generate(own, 3000, 1)))
	rng := rand.New(rand.NewPCG(1, 1))
	hash("the first 3,000 of any kind", archived(t, func(yield func(*site.Site) bool) {
		for i := 0; i < 3000 && yield(jobs.Any(rng, standard)); i++ {
		}
	}))
	golden(t, "testdata/seed-1.sha256", hashes.String())
}

func TestGenerateStopsWhenAsked(t *testing.T) {
	n := 0
	for range jobs.Generate(nil, 1000, 1) {
		if n++; n == 3 {
			break
		}
	}
	require.Equal(t, 3, n)
}

// TestGenerateMix proves that the mix is what the package says of it, within
// wide bounds.
func TestGenerateMix(t *testing.T) {
	const count = 4000
	got := map[string]int{}
	for job := range jobs.Generate(nil, count, 3) {
		got[job.Use]++
		got[job.Base]++
		for name, is := range map[string]bool{
			"cbr": len(job.Soil.CBR) > 0, "sieves": len(job.Soil.Sieves) > 0, "limits": job.Soil.LiquidLimit != nil,
			"cone": len(job.Soil.DCP.Readings) > 0, "hand": job.Soil.Consistency != "", "word": job.Soil.Word != "",
			"frost": job.Frost.Depth != nil, "index": job.Frost.FreezingIndex != nil, "slope": job.SurfaceSlope != nil,
			"storage": job.Base == "open" && job.Rain.StorageWanted != nil && *job.Rain.StorageWanted,
		} {
			if is {
				got[name]++
			}
		}
	}
	for _, c := range []struct {
		what        string
		least, most float64 // percent
		why         string
	}{
		{"foot", 50, 70, "patios and walks are most of it"},
		{"car_driveway", 20, 32, "driveways are next"},
		{"truck_yard", 0.1, 1, "a few jobs no rulebook should accept"},
		{"dense", 70, 90, "the usual base"},
		{"open", 8, 20, "some are permeable"},
		{"panel", 2, 8, "some want panels"},
		{"word", 85, 100, "nearly everyone says what the soil is"},
		{"hand", 30, 60, "the hand test is common"},
		{"cbr", 5, 20, "few measure a CBR"},
		{"cone", 2, 12, "fewer sound"},
		{"limits", 3, 15, "and few have a report"},
		{"sieves", 2, 12, "or a curve"},
		{"frost", 35, 65, "most cold places tell the depth"},
		{"index", 5, 25, "some the index"},
		{"slope", 60, 90, "the slope is drawn on most plans"},
		{"storage", 3, 12, "half of the permeable jobs store rain"},
	} {
		t.Run(c.what, func(t *testing.T) {
			share := 100 * float64(got[c.what]) / count
			require.GreaterOrEqual(t, share, c.least, c.why)
			require.LessOrEqual(t, share, c.most, c.why)
		})
	}
}

func TestAnyValidates(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for i := range 5000 {
		require.NoError(t, jobs.Any(rng, standard).Validate(), "draw %d", i)
	}
}

// TestAnyReachesEverything proves that every input that rules can read is told
// by some draw and left out by another, and that every word is drawn.
func TestAnyReachesEverything(t *testing.T) {
	told, lacking, words := map[string]int{}, map[string]int{}, map[string]map[string]bool{}
	rng := rand.New(rand.NewPCG(5, 6))
	for range 6000 {
		s := jobs.Any(rng, standard)
		for _, in := range site.Inputs() {
			v, given := s.Input(in.Path)
			if !given {
				lacking[in.Path]++
				continue
			}
			told[in.Path]++
			if text, ok := v.(string); ok {
				if words[in.Path] == nil {
					words[in.Path] = map[string]bool{}
				}
				words[in.Path][text] = true
			}
		}
	}
	for _, in := range standard.Inputs() {
		t.Run(in.Path, func(t *testing.T) {
			require.NotZero(t, told[in.Path], "never told")
			require.Equal(t, !in.Required, lacking[in.Path] > 0, "left out exactly where it may be")
			for _, each := range in.Vocabulary.Words {
				require.True(t, words[in.Path][each.GoValue()], "never %s", each.GoValue())
			}
		})
	}
}

// TestAnyReachesTheEnds proves that lists of every length are drawn, numbers far
// below what anyone writes, and sieve curves of any openings that let more than half
// through.
func TestAnyReachesTheEnds(t *testing.T) {
	lengths := map[int]int{}
	tiny, odd, most := 0, 0, 0
	rng := rand.New(rand.NewPCG(10, 11))
	for range 6000 {
		s := jobs.Any(rng, standard)
		lengths[len(s.Soil.CBR)]++
		if area := float64(s.Area); area > 1e-90 && area < 1e-20 {
			tiny++
		}
		for _, each := range s.Soil.Sieves {
			if len(strconv.FormatFloat(each.Opening.Meters(), 'e', -1, 64)) > len("1.23456e-03") {
				odd++
			}
			if each.Passing > 0.5 && each.Passing < 1 {
				most++
			}
		}
	}
	for n := range 8 {
		require.Equal(t, n < 7, lengths[n] > 0, "%d readings: %d", n, lengths[n])
	}
	require.NotZero(t, tiny)
	require.NotZero(t, odd)
	require.NotZero(t, most)
}

// TestAnyWritesEveryField proves it of what rules do not read too: every entry
// that a job file knows is written by some draw, but for overrides and what Any leaves
// out of shapes and areas.
func TestAnyWritesEveryField(t *testing.T) {
	seen := map[string]bool{}
	rng := rand.New(rand.NewPCG(8, 9))
	for range 1500 {
		text, err := site.Write(jobs.Any(rng, standard))
		require.NoError(t, err)
		s, err := site.Read("job.yaml", text)
		require.NoError(t, err)
		for _, f := range site.Fields() {
			if _, ok := s.PlaceOf(strings.ReplaceAll(f.Path, "[]", "[0]")); ok {
				seen[f.Path] = true
			}
		}
	}
	for _, f := range site.Fields() {
		nobodyAsks := f.Path == "company" // the table of no rulebook has questions
		leftOut := slices.ContainsFunc([]string{"overrides", "shape.corners[].", "edges", "areas", "alternatives"}, func(p string) bool { return strings.HasPrefix(f.Path, p) })
		require.True(t, seen[f.Path] || nobodyAsks || leftOut, f.Path)
	}
}

// TestGenerateSpeaksTheBook holds that made-up jobs are in the words of a rulebook.
func TestGenerateSpeaksTheBook(t *testing.T) {
	plain := slices.Collect(jobs.Generate(nil, 300, 42))
	at, lost := 0, 0
	for job := range jobs.Generate(standard, 300, 42) {
		for _, f := range standard.Fields() {
			was, given := f.Get(plain[at])
			if is, still := f.Get(job); given && still && f.Form != site.GroupForm && len(job.Soil.Points) == 0 { // what points read counts with the rest
				require.Equal(t, was, is, "the standard has the words of the mix: %s of %s", f.Path, job.Job)
			} else if given && !still {
				lost++
			}
		}
		at++
	}
	require.Less(t, lost, 10, "what a job says besides seldom contradicts the mix")
	require.Equal(t, archived(t, jobs.Generate(own, 300, 42)), archived(t, jobs.Generate(own, 300, 42)))
	got := map[string]int{}
	for job := range jobs.Generate(own, 300, 42) {
		_, err := own.Close(job)
		require.NoError(t, err, "every word is one of the book")
		got[job.Use]++
		got[job.Base]++
		got[job.Soil.Word]++
	}
	for _, w := range []string{"foot", "golf_cart_path", "crushed_concrete", "clay", "gumbo"} {
		require.NotZero(t, got[w], w)
	}
}
