package groundrule_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// examples is the folder of the example jobs and of the invented company.
const examples = "../../examples"

// goldenAnswers are what an example job comes to, in short. Stone is "" where no
// stone is asked for, and all but the status and the verdict are "" for a job
// that is refused.
type goldenAnswers struct {
	Status section.Status
	// Verdict names the limits crossed or the checks that stop it.
	Verdict string
	Depth   string
	// Stone is the rule that governs how much stone is needed.
	Stone            string
	Grid, GridReason string
	Layers           string
	Fabric           string
}

func TestExampleJobs(t *testing.T) {
	cases := []struct {
		file, why string
		want      goldenAnswers
	}{
		{"patio-on-stiff-clay.yaml", "60 mm of pavers, 1 in of sand, and 4 in of stone with 2 in more for frost; clay is fine-grained, so a nonwoven parts it, and the grid is a precaution above CBR 3",
			goldenAnswers{Status: section.Designed, Depth: "9-3/8 in", Stone: "NEED-FROST-FOOT", Grid: "biaxial_grid", GridReason: "grid_as_precaution", Layers: "1", Fabric: "nonwoven_fabric"}},
		{"walk-on-sand.yaml", "sand with 4 % finer than 0.02 mm heaves, so the walk is as deep as on clay; clean sand above CBR 8 needs no fabric",
			goldenAnswers{Status: section.Designed, Depth: "9-3/8 in", Stone: "NEED-FROST-FOOT", Grid: "biaxial_grid", GridReason: "grid_as_precaution", Layers: "1", Fabric: "no_fabric"}},
		{"driveway-on-soft-clay.yaml", "below CBR 3 the ground needs the woven and, under cars, two grids: 4 in of stone, 4 in and 6 in",
			goldenAnswers{Status: section.Designed, Depth: "17-3/8 in", Stone: "NEED-TWO-GRIDS", Grid: "biaxial_grid", GridReason: "needed_by_ground", Layers: "2", Fabric: "woven_fabric"}},
		{"driveway-storing-rain.yaml", "rain of 4 in on the paving and on 400/900 of run-on, less 1.2 in that soaks away in 2 h, in voids of 0.40, takes 11.44 in of stone; 8 in of No. 57 and 4 in for frost are 12 in, under 2 in of bedding and 80 mm",
			goldenAnswers{Status: section.Designed, Depth: "17-1/8 in", Stone: "NEED-FROST-OPEN-DRIVEWAY", Grid: "biaxial_grid", GridReason: "grid_as_precaution", Layers: "1", Fabric: "nonwoven_fabric"}},
		{"patio-on-panels.yaml", "60 mm of pavers, 3/4 in of panel and 1 in of leveling sand: no stone on ground above CBR 3, and no grid without stone",
			goldenAnswers{Status: section.Designed, Depth: "4-1/8 in", Grid: "no_grid", GridReason: "not_called_for", Layers: "0", Fabric: "nonwoven_fabric"}},
		{"fire-lane.yaml", "80 mm, 1 in and 12 in: the two multiaxial grids that the clayey sand needs in the thaw take 12 in, more than the wheel of the engine, a pair of tires",
			goldenAnswers{Status: section.Designed, Depth: "16-1/8 in", Stone: "NEED-TWO-GRIDS", Grid: "multiaxial_grid", GridReason: "needed_by_ground", Layers: "2", Fabric: "nonwoven_fabric"}},
		{"refused-truck-yard.yaml", "a truck yard is for a pavement engineer",
			goldenAnswers{Status: section.Refused, Verdict: "HEAVIER-USE"}},
		{"stopped-uniaxial-grid.yaml", "a person took the grid over, and a uniaxial one belongs in a wall; the section that was tried is shown",
			goldenAnswers{Status: section.Stopped, Verdict: "GRID-NOT-UNIAXIAL", Depth: "9-3/8 in", Stone: "NEED-FROST-FOOT", Grid: "uniaxial_grid", GridReason: "grid_as_precaution", Layers: "1", Fabric: "nonwoven_fabric"}},
	}
	var tried []string
	for _, c := range cases {
		tried = append(tried, c.file)
		t.Run(c.file, func(t *testing.T) {
			s := designed(t, exampleJob(t, c.file))
			if diff := cmp.Diff(c.want, goldenOf(s)); diff != "" {
				t.Errorf("%s: (-want +got)\n%s", c.why, diff)
			}
		})
	}
	files, err := filepath.Glob(filepath.Join(examples, "jobs", "*.yaml"))
	require.NoError(t, err)
	var there []string
	for _, f := range files {
		there = append(there, filepath.Base(f))
	}
	require.ElementsMatch(t, there, append(tried, "four-areas.yaml"), "every example job has its case here, or is in TestAreasOfTheExample")
}

func exampleJob(t *testing.T, file string) *site.Site {
	t.Helper()
	name := filepath.Join(examples, "jobs", file)
	data, err := os.ReadFile(name)
	require.NoError(t, err)
	job, err := site.Read(name, data)
	require.NoError(t, err)
	return job
}

func goldenOf(s *section.Section) goldenAnswers {
	var verdict []string
	for _, r := range s.Refusals {
		verdict = append(verdict, r.ID)
	}
	for _, c := range s.Failed() {
		if c.Failing == rulebook.Stops {
			verdict = append(verdict, c.ID)
		}
	}
	out := goldenAnswers{Status: s.Status, Verdict: strings.Join(verdict, " ")}
	if s.Status == section.Refused {
		return out
	}
	out.Depth = s.Depth.Text(quantity.US)
	if r := s.Reason("stone_need"); len(r.Taken) > 0 {
		out.Stone = r.Taken[0].ID
	}
	out.Grid, out.GridReason, out.Fabric = answeredWord(s, "grid_kind"), answeredWord(s, "grid_why"), answeredWord(s, "fabric_kind")
	if r := s.Reason("grid_layers"); !r.Answer.IsZero() {
		out.Layers = r.Answer.String()
	}
	return out
}

// answeredWord returns the name of the word that a decision answered, "" if it was not
// asked.
func answeredWord(s *section.Section, decision string) string {
	if w, ok := s.Reason(decision).Answer.Word(); ok {
		return w.Name
	}
	return ""
}

// wrenfold opens the standard rulebook with the invented company's amendments.
func wrenfold(day string) (*groundrule.Book, error) {
	var asOf rulebook.Date
	if err := asOf.UnmarshalText([]byte(day)); err != nil {
		return nil, err
	}
	layer := rulebook.Layer{Label: "examples/wrenfold/amendments", FS: os.DirFS(filepath.Join(examples, "wrenfold", "amendments"))}
	return groundrule.OpenStandard(groundrule.WithAmendments(layer), groundrule.AsOf(asOf))
}

// wrenfoldSection designs an example job as the company would on a day.
func wrenfoldSection(t *testing.T, day, file string) *section.Section {
	t.Helper()
	book, err := wrenfold(day)
	require.NoError(t, err)
	d, err := book.Design(exampleJob(t, file))
	require.NoError(t, err)
	s, err := d.Section()
	require.NoError(t, err)
	return s
}

// TestWrenfoldSection: the section tells the day, the amendments and the leave by
// which a limit is crossed, and a rule that was replaced tells what stood there.
func TestWrenfoldSection(t *testing.T) {
	s := wrenfoldSection(t, "2026-11-01", "patio-on-stiff-clay.yaml")
	require.Equal(t, "2026-11-01", s.AsOf.String())
	var names []string
	for _, a := range s.Amendments {
		names = append(names, a.Name)
	}
	require.Equal(t, []string{"wrenfold geogrid", "wrenfold stone", "wrenfold thickness table", "wrenfold surface", "wrenfold words and questions"}, names)

	require.Len(t, s.Variances, 2)
	require.Equal(t, "GRID-COVER", s.Variances[1].Retires, "and what takes the standard's check away")
	v := s.Variances[0]
	require.Equal(t, "thin bedding", v.Name)
	require.Equal(t, "bedding_sand_depth", v.Setting)
	require.Equal(t, "Tobias Wrenfold, owner", v.Who)
	require.Equal(t, "2027-06-30", v.Until.String())
	require.Equal(t, "5/8 in", v.Value.Text(quantity.US))
	require.Equal(t, "3/4 in", v.Limit.Text(quantity.US))

	want := goldenAnswers{Status: section.Designed, Depth: "10 in", Stone: "NEED-FROST-FOOT", Grid: "no_grid", GridReason: "not_called_for", Layers: "0", Fabric: "nonwoven_fabric"}
	if diff := cmp.Diff(want, goldenOf(s)); diff != "" {
		t.Errorf("60 mm, 5/8 in of sand, 4 in and 3 in of stone, no grid as a precaution: (-want +got)\n%s", diff)
	}
	edge := s.Reason("edge_material").Taken[0]
	require.NotNil(t, edge.Amended)
	require.Equal(t, "wrenfold surface", edge.Amended.By.Name)
	require.Equal(t, []rulebook.Was{{Key: "answer", Text: "edge_plastic_spiked"}}, edge.Amended.Replaced[0].Was[:1])
}

// TestWrenfoldDays: what holds on some days only follows the day of the design.
func TestWrenfoldDays(t *testing.T) {
	cases := []struct {
		name, why          string
		day                string
		stone, bedding     string
		variances, setting string
	}{
		{"before the leave", "the thin bedding waits for its leave, so the inch of the standard is laid", "2026-04-19", "6 in", "1 in", "", ""},
		{"under the leave, before the frost increment", "4 in and the standard's 2 in", "2026-04-25", "6 in", "5/8 in", "thin bedding", ""},
		{"the last day of the old increment", "the new one holds from the next day", "2026-04-30", "6 in", "5/8 in", "thin bedding", ""},
		{"the first day of the new increment", "4 in and the company's 3 in", "2026-05-01", "7 in", "5/8 in", "thin bedding", "wrenfold surface"},
		{"the last day of the leave", "until counts its own day", "2027-06-30", "7 in", "5/8 in", "thin bedding", "wrenfold surface"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := wrenfoldSection(t, c.day, "walk-on-sand.yaml")
			need := s.Reason("stone_need")
			require.Equal(t, "NEED-FROST-FOOT", need.Taken[0].ID, "with no grid as a precaution frost alone governs the walk")
			require.Equal(t, c.stone, need.Answer.Text(quantity.US), c.why)
			require.Equal(t, c.bedding, attribute(t, s, "bedding", "thickness"), c.why)
			var names []string
			for _, v := range s.Variances {
				if v.Setting == "" {
					continue
				}
				names = append(names, v.Name)
			}
			require.Equal(t, c.variances, strings.Join(names, " "), c.why)
			require.Equal(t, c.setting, amenderOf(t, need.Taken[0], "frost_increment_foot"), c.why)
		})
	}
}

// amenderOf names the amendment that set a setting which a rule read, "" if none
// did.
func amenderOf(t *testing.T, r section.Rule, setting string) string {
	t.Helper()
	for _, u := range r.Used {
		if u.Name == setting {
			if u.Amended == nil {
				return ""
			}
			return u.Amended.By.Name
		}
	}
	t.Fatalf("rule %s does not read %s", r.ID, setting)
	return ""
}

// TestWrenfoldExpired: once the leave has expired no section is made by it, and
// the fault says so at the variance; neither is one without a day.
func TestWrenfoldExpired(t *testing.T) {
	codes := func(day, file string) []string {
		_, err := wrenfold(day)
		var wrong *rulebook.Error
		if !errors.As(err, &wrong) {
			t.Fatalf("as of %q: %v", day, err)
		}
		var out []string
		for _, f := range wrong.Faults {
			require.Contains(t, f.Place.File, file)
			out = append(out, string(f.Code))
		}
		return out
	}
	require.Equal(t, []string{"limit-crossed", "expired"}, codes("2027-07-01", "examples/wrenfold/amendments/40-surface.yaml"), "the setting stays below its limit, and nobody's leave covers it")
	require.Equal(t, []string{"no-day", "no-day", "no-day", "no-day"}, codes("", "examples/wrenfold/amendments/"), "the day is never taken from the clock")
}

func TestWrenfoldTrials(t *testing.T) {
	book, err := wrenfold("2026-11-01")
	require.NoError(t, err)
	trials, err := trial.Load(rulebook.Layer{Label: "examples/wrenfold", FS: os.DirFS(filepath.Join(examples, "wrenfold"))})
	require.NoError(t, err)
	require.NotEmpty(t, trials)
	report, err := trial.Run(t.Context(), inside.Rules(book), trials, trial.Options{})
	require.NoError(t, err)
	for _, r := range report.Results {
		require.Empty(t, r.Failures, r.Name)
	}
	standard, err := trial.Run(t.Context(), inside.Rules(mustStandard(t)), standardOnly(trials), trial.Options{})
	require.NoError(t, err)
	require.Positive(t, standard.Failed, "the trials tell the company's rulebook from the standard one")
}

// standardOnly keeps trials that name nothing but what the standard rulebook has,
// so that it can run them.
func standardOnly(trials []trial.Trial) []trial.Trial {
	var out []trial.Trial
	for _, each := range trials {
		if each.ID == "GRID-WHERE-NEEDED" || each.ID == "SLOPE-MOST" {
			out = append(out, each)
		}
	}
	return out
}

func mustStandard(t *testing.T) *groundrule.Book {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book
}
