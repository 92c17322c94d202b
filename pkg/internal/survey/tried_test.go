package survey

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

func jobsOf(t *testing.T, texts ...string) []*site.Site {
	t.Helper()
	var out []*site.Site
	for _, text := range texts {
		job, err := site.Read("job.yaml", []byte("area: 400 sq ft\n"+text))
		require.NoError(t, err)
		out = append(out, job)
	}
	return out
}

const several = `use: car_driveway
base: open
soil: {uscs: CL-ML, cbr: [3, 4, 5.5], liquid_limit: 22, plastic_limit: 17, sieves: [{sieve: 3 in, passing: 100}, {sieve: No. 200, passing: 60}]}
water: {wet_ground: yes}
frost: {depth: 31 in}
compactor: plate_compactor
`

// What a job tells is told by the drafts of it; of several readings one in each.
func TestDraftsOf(t *testing.T) {
	w, _ := testDrafter(t, frosts)
	job := jobsOf(t, several)[0]
	drafts := w.draftsOf(job)
	require.Len(t, drafts, 3)
	for i, d := range drafts {
		s, ok := w.site(d)
		require.True(t, ok)
		require.Equal(t, job.Soil.CBR[i:i+1], s.Soil.CBR)
		for _, path := range []string{"area", "use", "base", "soil.uscs", "soil.plasticity_index", "soil.passing_no200", "water.wet_ground", "frost.depth", "compactor"} {
			want, given := job.Input(path)
			require.True(t, given, path)
			got, given := s.Input(path)
			require.True(t, given, path)
			require.Equal(t, want, got, path)
		}
		require.Nil(t, s.Rain.Depth)
	}
}

// Jobs are looked at without what people decided.
func TestGivenJobs(t *testing.T) {
	all := jobsOf(t, "use: foot\nbase: dense\noverrides: [{decision: fruit, answer: apple, by: A. Example, because: x}]\n", several)
	w, _ := testDrafter(t, frosts)
	got := w.given(all)
	require.Len(t, got, 2)
	require.Empty(t, got[0].Overrides)
	require.NotEmpty(t, all[0].Overrides, "the caller's own job stays as it is")
}

// The values that jobs tell are tried, and every value that something of the kind
// is compared with.
func TestValuesWorthTrying(t *testing.T) {
	w, _ := testDrafter(t, frosts)
	w.gather(w.draftsOf(jobsOf(t, several)[0]))
	depths := map[float64]bool{}
	for _, d := range w.boundaries(rand.New(rand.NewPCG(1, 2))) {
		s, ok := w.site(d)
		require.True(t, ok)
		if s.Frost.Depth != nil {
			depths[float64(*s.Frost.Depth)] = true
			require.Equal(t, w.plain().told()+1, d.told())
		}
	}
	in := func(x float64) float64 { return quantity.Inches(x).Meters() }
	require.Equal(t, map[float64]bool{in(10): true, in(20): true, in(31): true}, depths)
}

// Where a job that was given shows what no draft can, it stands as it is.
func TestJobsThatWereGiven(t *testing.T) {
	book := opened(t, oneDecision("first", "A, when: known(soil.cbr) && count(soil.cbr) == 3, answer: apple", "B, when: known(soil.cbr) && count(soil.cbr) == 2, answer: 'pear'", "C, when: '!known(soil.cbr) || count(soil.cbr) < 3', answer: plum"))
	two := "use: foot\nbase: dense\nsoil: {cbr: [3, 4]}\n"
	four := "use: foot\nbase: dense\nsoil: {cbr: [3, 4, 5, 6]}\n"
	for _, c := range []struct {
		name, why string
		jobs      []*site.Site
		within    map[string]string
		findings  []string
		searched  int
	}{
		{"none", "jobs of one reading show neither", nil, nil, []string{}, 3},
		{"two readings", "one rule answers, and the gap stays open", jobsOf(t, two), nil, []string{}, 2},
		{"four readings", "they show the gap", jobsOf(t, two, four), nil, []string{gap}, 1},
		{"held elsewhere", "the survey is about open bases, and these are not", jobsOf(t, two, four), map[string]string{"base": "open"}, []string{}, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := Run(t.Context(), book, Options{Budget: 500, Jobs: c.jobs, Within: Within{Fixed: c.within}})
			require.NoError(t, err)
			require.Equal(t, c.findings, briefs(r), c.why)
			require.Equal(t, c.searched, r.Questions[Searched], "%s\n%s", c.why, written(t, r))
			require.Equal(t, len(c.jobs), r.Given)
			for _, f := range r.Findings {
				require.Contains(t, f.Job.Text, "cbr: [3, 4, 5, 6]")
				require.Positive(t, f.Job.Entries)
				holdsInEngine(t, book, f)
			}
		})
	}
}

// A job that was given is tried as the survey holds it: of dense bases alone an open one
// shows nothing, as it is and as a draft.
func TestGivenJobsAreHeld(t *testing.T) {
	book := opened(t, oneDecision("first", "A, when: base == dense, answer: apple", "B, when: base == open && use == foot, answer: pear", "C, answer: plum"))
	within := Within{Fixed: map[string]string{"base": "dense"}}
	r, err := Run(t.Context(), book, Options{Budget: 60, Within: within, Jobs: jobsOf(t, "use: foot\nbase: open\nsoil: {cbr: [3]}\n")})
	require.NoError(t, err)
	require.Equal(t, []string{"NEVER APPLIES B", "ALWAYS HIDDEN C < A"}, briefs(r))
}
