package survey

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/rules"
)

// verdictsFile keeps what became of each promise of the standard.
const verdictsFile = "testdata/promises.txt"

func standardBook(t *testing.T) *engine.Book {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return inside.Rules(book)
}

// standardJobs returns the jobs of the trials of the standard.
func standardJobs(t *testing.T) []*site.Site {
	t.Helper()
	trials, err := trial.Load(rulebook.Layer{FS: rules.Files()})
	require.NoError(t, err)
	var out []*site.Site
	for _, each := range trials {
		out = append(out, each.Job)
	}
	return out
}

// kept returns the verdicts as they are kept, by promise.
func kept(t *testing.T) map[string]How {
	t.Helper()
	data, err := os.ReadFile(verdictsFile)
	require.NoError(t, err)
	out := map[string]How{}
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n") {
		how, name, _ := strings.Cut(line, " ")
		out[name] = How(how)
	}
	return out
}

// share is how many of a count are tried: GROUNDRULE_MANY is the part of all.
func share(all, usual int) int {
	if part, err := strconv.ParseFloat(os.Getenv("GROUNDRULE_MANY"), 64); err == nil {
		return int(part * float64(all))
	}
	return usual
}

// TestStandardPromises settles the promises of the standard rulebook and compares
// the verdicts with those that are kept. It does so with all of them where
// GROUNDRULE_SURVEY is set or the file is written anew, else with some.
func TestStandardPromises(t *testing.T) {
	book := standardBook(t)
	whole := os.Getenv("GROUNDRULE_SURVEY") != "" || *update
	o := Options{Budget: 1000}
	if whole {
		o = Options{}
	}
	for i, p := range book.Promises() {
		as, _ := p.As()
		origin, _ := book.OriginOf(as)
		isInput := origin == rulebook.FromSite
		if i%9 == 0 && as == "" || isInput && i%3 == 0 {
			o.Within.Decisions = append(o.Within.Decisions, p.ID)
		}
	}
	if whole {
		o.Within = Within{}
	}
	r, err := Prove(t.Context(), book, o)
	require.NoError(t, err)
	got, want := "", ""
	known := map[string]How{}
	if !*update {
		known = kept(t)
	}
	for _, v := range r.Verdicts {
		got += fmt.Sprintf("%s %s\n", v.How, v.Promise)
		want += fmt.Sprintf("%s %s\n", known[v.Promise], v.Promise)
	}
	if *update {
		require.NoError(t, os.WriteFile(verdictsFile, []byte(got), 0o644))
		return
	}
	require.Empty(t, cmp.Diff(want, got))
	if whole {
		require.Len(t, known, len(r.Verdicts))
		require.GreaterOrEqual(t, len(r.Verdicts), 40)
		require.GreaterOrEqual(t, len(r.settled(Proven)), 30)
	}
}

// TestProvenPromisesAreKept holds what is proven to generated jobs, of every kind
// and ordinary ones, and what is proven of what moves to pairs of jobs.
func TestProvenPromisesAreKept(t *testing.T) {
	book := standardBook(t)
	m := newModel(book, mostNodes)
	m.limited = true
	w := newDrafter(m)
	m.splitAll(nil)
	w.used = make([]bool, len(w.entries))
	for i := range w.used {
		w.used[i] = true
	}
	s := &searcher{ctx: t.Context(), w: w, m: m, seed: 5}
	s.w.gather(nil)
	verdicts := kept(t)
	var single, moving []*engine.Promise
	for _, p := range book.Promises() {
		switch as, _ := p.As(); {
		case verdicts[p.ID] != Proven:
		case as == "":
			single = append(single, p)
		default:
			moving = append(moving, p)
		}
	}
	require.Greater(t, len(single), 30)
	designed := 0
	rng := rand.New(rand.NewPCG(31, 32))
	hold := func(job *site.Site) {
		ran := inside.Run(book, job)
		if ran.Status != section.Designed {
			return
		}
		designed++
		for _, p := range single {
			is, err := ran.Outcome.Breaks(p)
			require.NoError(t, err, p.ID)
			require.False(t, is, "%s is broken", p.ID)
		}
	}
	n := share(100_000, 5_000) / 2
	for job := range jobs.Generate(w.table, n, 33) {
		hold(job)
	}
	for range n {
		hold(jobs.Any(rng, w.table))
	}
	require.Greater(t, designed, n/3, "too few of the jobs get a section")
	for i, p := range moving {
		g := s.pairing(p, i)
		found, broken := g.hunt(share(100_000, 5_000) / len(moving))
		require.False(t, broken, "%s is broken: %+v", p.ID, found)
	}
}

// planted are promises that the standard does not keep.
const plantedPromises = `
never: grid_layers > 1
always: fabric_kind != no_fabric
when: known(stone_depth), never: stone_depth > inches(24)
always: weakest_cbr >= 1
when: use.carries_trucks && base == dense, always: fabric_kind == woven_fabric
when: "!use.carries_vehicles", never: frost_answer_here == frost_increment
always: paver_thickness <= mm(80)
never: underdrain_choice == underdrain && base == dense
when: base == open, always: permeable
never: swell_class == swell_high
always: surface_fall <= percent(10)
when: known(storage_need), never: storage_need > inches(20)
when: known(section_capacity), always: section_capacity >= esal * 2
never: soft_ground && use.carries_trucks
as: soil.cbr falls, then: stone_need never rises
as: frost.depth rises, then: stone_need never rises
as: rain.depth rises, then: storage_need never rises
as: water.groundwater falls, then: underdrain_choice == no_underdrain never lapses
as: area rises, then: fabric_overlap never rises
as: support_cbr falls, then: grid_layers never rises
as: esal rises, then: sn_needed never rises
as: support_cbr falls, then: stone_top_thickness never falls
`

// TestPlantedPromisesAreRefuted plants wrong promises in the standard. Each is
// refuted by a job or a pair that the engine, asked again, designs so; where
// GROUNDRULE_SURVEY is not set, of those about a decision that is given one alone.
func TestPlantedPromisesAreRefuted(t *testing.T) {
	text := "chapter: planted\nabout: Promises that are not kept.\npromises:\n"
	var names []string
	for i, line := range strings.Split(strings.TrimSpace(plantedPromises), "\n") {
		name := fmt.Sprintf("PLANTED-%d", i+1)
		text += "  - {promise: " + name + ", " + line + ", because: It is planted., source: own}\n"
		if os.Getenv("GROUNDRULE_SURVEY") != "" || i < 20 {
			names = append(names, name)
		}
	}
	files := fstest.MapFS{"99-planted.yaml": {Data: []byte(text)}}
	all, err := fs.Glob(rules.Files(), "*.yaml")
	require.NoError(t, err)
	for _, name := range all {
		data, err := fs.ReadFile(rules.Files(), name)
		require.NoError(t, err)
		files[name] = &fstest.MapFile{Data: data}
	}
	opened, err := groundrule.Open(files)
	require.NoError(t, err)
	book := inside.Rules(opened)
	r, err := Prove(t.Context(), book, Options{Within: Within{Decisions: names}, Jobs: standardJobs(t)})
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(r.Verdicts), 20)
	for _, v := range r.Verdicts {
		t.Run(v.Promise, func(t *testing.T) {
			require.Equal(t, Refuted, v.How, v.Says)
			refutes(t, book, v)
		})
	}
}

// refutes reads the jobs of a verdict and holds the promise to them once more.
func refutes(t *testing.T, book *engine.Book, v Verdict) {
	t.Helper()
	var p *engine.Promise
	for _, each := range book.Promises() {
		if each.ID == v.Promise {
			p = each
		}
	}
	run := func(j *Job) *engine.Outcome {
		job, err := site.Read("job.yaml", []byte(j.Text))
		require.NoError(t, err, j.Text)
		ran := inside.Run(book, job)
		require.Equal(t, section.Designed, ran.Status, j.Text)
		return ran.Outcome
	}
	if v.Then == nil {
		is, err := run(v.Job).Breaks(p)
		require.NoError(t, err)
		require.True(t, is, v.Job.Text)
		return
	}
	was, ok := run(v.Job).Reach(p)
	require.True(t, ok)
	is, ok := run(v.Then).Reach(p)
	require.True(t, ok)
	require.True(t, (&pairing{s: &searcher{m: &model{book: book}}, p: p}).breaks(was, is), "%s\n%s", v.Job.Text, v.Then.Text)
}
