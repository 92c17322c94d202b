package groundrule_test

import (
	"fmt"
	"math/rand/v2"
	"strings"

	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/site"
)

// seed of all the jobs that are generated here.
const seed = 20_260_901

// ordinary draws a job: most are plausible, some are plausible but for a few
// values at a corner, and a few are anything that a job file can say.
func ordinary(i int) *site.Site {
	rng := rand.New(rand.NewPCG(seed, uint64(i)))
	switch i % 10 {
	case 0:
		return jobs.Any(rng, standardWords)
	case 1, 2, 3, 4:
		return cornered(rng, plausible(rng))
	}
	return plausible(rng)
}

func plausible(rng *rand.Rand) *site.Site {
	for job := range jobs.Generate(standardWords, 1, rng.Uint64()) {
		return job
	}
	return nil
}

// corners are values at which sections turn, or that no rule may pass over.
var corners = []struct {
	path  string
	texts []string
}{
	{"use", []string{"foot", "car_driveway", "heavy_driveway", "light_parking", "fire_lane", "residential_street"}},
	{"base", []string{"dense", "open", "panel"}},
	{"soil.word", []string{"", "clay", "silt", "loam", "sandy_clay", "sand", "silty_sand", "gravel", "fill", "rock"}},
	{"soil.consistency", []string{"", "very soft", "soft", "medium", "stiff", "very stiff"}},
	{"soil.cbr", []string{"0.3", "0.6", "1", "1.9", "2", "2.9", "3", "4.9", "5", "8", "10", "20"}},
	{"soil.uncontrolled_fill", []string{"yes", "no"}},
	{"soil.expansive", []string{"yes", "no"}},
	{"soil.contaminated", []string{"no", "no", "no", "yes"}},
	{"water.groundwater", []string{"3 in", "10 in", "15 in", "20 in", "26 in", "36 in", "5 ft"}},
	{"water.wet_ground", []string{"yes", "no"}},
	{"frost.depth", []string{"", "3 in", "12 in", "30 in", "60 in"}},
	{"rain.infiltration", []string{"", "0 in/h", "0.04 in/h", "0.2 in/h", "0.5 in/h", "2 in/h"}},
	{"nearby.foundation_distance", []string{"0 ft", "5 ft", "9.9 ft", "10 ft", "40 ft"}},
	{"nearby.well_distance", []string{"10 ft", "49 ft", "60 ft", "110 ft"}},
	{"surface_slope", []string{"", "0 %", "0.5 %", "1 %", "2 %", "4 %", "5.5 %", "7.5 %", "9 %", "11 %", "13 %", "18 %"}},
	{"ground_falls", []string{"toward_house", "level_ground"}},
	{"traffic.trucks_per_day", []string{"0", "1", "5", "20"}},
	{"traffic.wheel_load", []string{"2,000 lbf", "5,000 lbf", "9,000 lbf", "16,000 lbf"}},
	{"compactor", []string{"hand_tamper", "plate_compactor", "ride_on_roller"}},
	{"paver.herringbone", []string{"no", "yes"}},
	{"area", []string{"20 sq ft", "400 sq ft", "6,000 sq ft"}},
}

// cornered gives a job one to four values of the corners.
func cornered(rng *rand.Rand, job *site.Site) *site.Site {
	for range 1 + rng.IntN(4) {
		c := corners[rng.IntN(len(corners))]
		changed := copied(job)
		if changed.Set(c.path, c.texts[rng.IntN(len(c.texts))]) == nil && changed.Validate() == nil {
			job = changed
		}
	}
	return job
}

// contradictions are pairs of evidence that cannot both be true.
var contradictions = []struct {
	name string
	set  [][2]string
}{
	{"sand with fines", [][2]string{{"soil.word", "sand"}, {"fines", "95"}}},
	{"gravel with fines", [][2]string{{"soil.word", "gravel"}, {"fines", "95"}}},
	{"silty sand with fines", [][2]string{{"soil.word", "silty_sand"}, {"fines", "80"}}},
	{"GW with fines", [][2]string{{"soil.uscs", "GW"}, {"fines", "95"}}},
	{"SP with fines", [][2]string{{"soil.uscs", "SP"}, {"fines", "60"}}},
	{"SW with 30 fines", [][2]string{{"soil.uscs", "SW"}, {"fines", "30"}}},
	{"GM with fines", [][2]string{{"soil.uscs", "GM"}, {"fines", "90"}}},
	{"CH without fines", [][2]string{{"soil.uscs", "CH"}, {"fines", "3"}}},
	{"clay without fines", [][2]string{{"soil.word", "clay"}, {"fines", "2"}}},
	{"rock at CBR 2", [][2]string{{"soil.word", "rock"}, {"soil.cbr", "2"}}},
	{"rock that is soft", [][2]string{{"soil.word", "rock"}, {"soil.dcp.mm_per_blow", "60"}}},
	{"peat that is CL", [][2]string{{"soil.word", "peat"}, {"soil.uscs", "CL"}}},
	{"peat that bears", [][2]string{{"soil.word", "peat"}, {"soil.cbr", "12"}}},
	{"organic GW", [][2]string{{"soil.uscs", "GW"}, {"soil.organic", "yes"}}},
	{"very soft at CBR 15", [][2]string{{"soil.word", "clay"}, {"soil.consistency", "very soft"}, {"soil.cbr", "15"}}},
	{"soft at CBR 8", [][2]string{{"soil.word", "clay"}, {"soil.consistency", "soft"}, {"soil.cbr", "8"}}},
	{"hand test and penetrometer", [][2]string{{"soil.word", "clay"}, {"soil.consistency", "hard"}, {"soil.pocket_penetrometer", "25 kPa"}}},
	{"cone and CBR", [][2]string{{"soil.cbr", "10"}, {"soil.dcp.mm_per_blow", "120"}}},
	{"one weak reading", [][2]string{{"soil.cbr", "9"}, {"soil.cbr[1]", "0.3"}, {"soil.cbr[2]", "9"}}},
	{"gravel with limits of a fat clay", [][2]string{{"soil.word", "gravel"}, {"soil.liquid_limit", "70"}, {"soil.plastic_limit", "25"}}},
	{"GP with limits of a fat clay", [][2]string{{"soil.uscs", "GP"}, {"soil.liquid_limit", "70"}, {"soil.plastic_limit", "25"}}},
	{"ML with limits of CH", [][2]string{{"soil.uscs", "ML"}, {"soil.liquid_limit", "70"}, {"soil.plastic_limit", "25"}}},
	{"fill that is GW", [][2]string{{"soil.word", "fill"}, {"soil.uscs", "GW"}}},
	{"index 0, frost 36 in", [][2]string{{"frost.freezing_index", "0 F-days"}, {"frost.depth", "36 in"}}},
	{"feet with trucks", [][2]string{{"use", "foot"}, {"traffic.trucks_per_day", "20"}}},
	{"feet with axles", [][2]string{{"use", "foot"}, {"traffic.esal_over_life", "1,000,000"}}},
	{"cars with a truck's wheel", [][2]string{{"use", "car_driveway"}, {"traffic.wheel_load", "9,000 lbf"}}},
	{"panels with vehicles", [][2]string{{"base", "panel"}, {"use", "car_driveway"}}},
	{"dry with water at 6 in", [][2]string{{"water.wet_ground", "no"}, {"water.groundwater", "6 in"}}},
	{"sieve finer than the hydrometer", [][2]string{{"fines", "4"}, {"soil.passing_0_02_mm", "4"}}},
}

// contradicting draws a plausible job and makes it contradict itself.
func contradicting(i int) *site.Site {
	rng := rand.New(rand.NewPCG(seed+1, uint64(i)))
	job := plausible(rng)
	c := contradictions[i%len(contradictions)]
	for _, path := range []string{"soil.sieves", "soil.cbr", "soil.dcp", "soil.uscs", "soil.consistency", "soil.liquid_limit", "soil.plastic_limit", "soil.nonplastic",
		"soil.passing_0_02_mm", "soil.pocket_penetrometer", "soil.undrained_strength", "traffic", "frost.freezing_index", "frost.mean_annual_temperature", "frost.freezing_season", "frost.frost_free"} {
		take(job, path)
	}
	for _, each := range c.set {
		tell(job, each[0], each[1])
	}
	if job.Validate() != nil {
		return plausible(rng) // a contradiction that the job file itself names
	}
	return job
}

// take leaves a key out, and all below it.
func take(job *site.Site, path string) {
	for _, f := range site.Fields() {
		if (f.Path == path || strings.HasPrefix(f.Path, path+".")) && !f.Required && !strings.Contains(f.Path, "[") {
			_ = f.Set(job, nil) // any field can be left out
		}
	}
}

// tell gives a key a value; "fines" is what passes the No. 200 sieve.
func tell(job *site.Site, path, text string) {
	if path == "fines" {
		tell(job, "soil.sieves[0].sieve", "No. 4")
		tell(job, "soil.sieves[0].passing", "100")
		tell(job, "soil.sieves[1].sieve", "No. 200")
		tell(job, "soil.sieves[1].passing", text)
		return
	}
	if err := job.Set(path, text); err != nil {
		panic(fmt.Sprintf("%s: %s: %v", path, text, err))
	}
}
