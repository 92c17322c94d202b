package impact_test

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/impact"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
)

// suffice proves of every job that changes that its causes are enough: a
// rulebook with these edits alone comes to the same section, or the same
// refusal, as one with all of them.
func suffice(t *testing.T, before, after *engine.Book, all []*site.Site, with func(ids []string) *engine.Book) {
	t.Helper()
	r := run(t, before, after, jobs.Sure(slices.Values(all)))
	books := map[string]*engine.Book{}
	several := 0
	for _, job := range r.Changed {
		if len(job.Possible) > 0 {
			require.Equal(t, impact.Failed, status(job), "only what fails cannot be followed\n%s", text(t, r))
			continue
		}
		if len(job.Causes) < len(r.Edits) {
			several++
		}
		key := strings.Join(job.Causes, ", ")
		if books[key] == nil {
			books[key] = with(job.Causes)
		}
		rest := run(t, books[key], after, one(all[job.Number-1]))
		for _, left := range rest.Changed {
			require.NotContains(t, []impact.Kind{impact.Section, impact.Status}, left.Kind,
				"with %s alone no. %d is not what it is with all edits\n%s\n%s", key, job.Number, text(t, rest), text(t, run(t, before, after, one(all[job.Number-1]))))
		}
	}
	t.Logf("%d of %d jobs change, %d of them by some of the edits only, by %d sets of them", len(r.Changed), len(all), several, len(books))
	require.Greater(t, several, 20)
	require.Greater(t, len(books), 4)
}

func status(j *impact.Job) any {
	if j.After.Status == impact.Failed {
		return j.After.Status
	}
	return j.Before.Status
}

func TestCausesSuffice(t *testing.T) {
	edits := map[string]edit{
		"setting base_least":     {"value: 4 in", "value: 7 in"},
		"setting cover":          {"cover:\n    value: 6 in", "cover:\n    value: 5 in"},
		"setting soft_below":     {"soft_below:\n    value: 3", "soft_below:\n    value: 6"},
		"setting mat_wanted":     {"mat_wanted:\n    value: true", "mat_wanted:\n    value: false"},
		"setting strength_least": {"strength_least:\n    value: 1", "strength_least:\n    value: 2"},
		"term wheels":            {"value: use != foot", "value: \"!(use in [foot, car_driveway])\""},
		"term extra":             {"value: inches(1) * 2", "value: inches(1.5)"},
		"rule NEED-WHEELS":       {"answer: inches(9)", "answer: inches(8)"},
		"rule SLAB-ALWAYS":       {"      - rule: SLAB-WHEELS\n", "      - rule: SLAB-ALWAYS\n        when: yields\n        answer: thick_slab\n        because: It is soft.\n        source: company\n      - rule: SLAB-WHEELS\n"},
		"rule MAT-SOFT":          {"      - rule: MAT-SOFT\n        when: yields\n        answer: mesh\n        because: Soft ground needs a mesh.\n        source: leaflet\n", ""},
		"material thick_slab":    {"height: 80 mm", "height: 90 mm"},
		"refusal TRUCKS":         {"when: use == truck_yard", "when: use in [truck_yard, collector_street]"},
	}
	with := func(ids []string) *engine.Book {
		var some []edit
		for _, id := range ids {
			require.Contains(t, edits, id, "an edit that was none is named")
			some = append(some, edits[id])
		}
		return garden(t, some...)
	}
	var ids []string
	for id := range edits {
		ids = append(ids, id)
	}
	var all []*site.Site
	for job := range jobs.Generate(nil, 300, 4) {
		all = append(all, job)
	}
	rng := rand.New(rand.NewPCG(4, 4))
	for range 300 {
		all = append(all, jobs.Any(rng, nil))
	}
	suffice(t, garden(t), with(ids), all, with)
}

// TestCausesSufficeOnTheStandard does the same on the standard rulebook.
func TestCausesSufficeOnTheStandard(t *testing.T) {
	edits := map[string]edit{
		"setting precaution_grid":      noPrecaution,
		"setting grid_cover":           moreCover,
		"setting base_least_driveway":  {"base_least_driveway", "8 in"},
		"setting weak_below_cbr":       {"weak_below_cbr", "2"},
		"setting frost_increment_foot": {"frost_increment_foot", "3 in"},
		"setting cbr_least_vehicles":   {"cbr_least_vehicles", "2"},
		"setting bedding_sand_depth":   {"bedding_sand_depth", "1.25 in"},
		"setting wheel_most":           {"wheel_most", "8000 lbf"},
	}
	with := func(ids []string) *engine.Book {
		var some []edit
		for _, id := range ids {
			require.Contains(t, edits, id, "an edit that was none is named")
			some = append(some, edits[id])
		}
		return edited(t, some...)
	}
	var ids []string
	for id := range edits {
		ids = append(ids, id)
	}
	suffice(t, standard(t), with(ids), slices.Collect(jobs.Generate(nil, 120, 6)), with)
}
