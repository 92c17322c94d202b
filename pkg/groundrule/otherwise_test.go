package groundrule_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// TestOtherwise holds what is said of a job with something in it otherwise.
func TestOtherwise(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	const driveway = "{area: 400 sq ft, use: car_driveway, base: dense, soil: {word: clay}}"
	const fill = "{area: 400 sq ft, use: foot, base: dense, soil: {word: fill}}"
	type values = map[string]string
	for _, c := range []struct {
		name, why, job string
		change         values
		status         section.Status
		want           string
	}{
		{"presumed", "telling what is presumed changes nothing", driveway, values{"soil.consistency": "medium_stiff"}, section.Designed, ""},
		{"better ground", "less stone comes first, then what it is made of, then how it is laid", driveway, values{"soil.consistency": "stiff"}, section.Designed,
			"2 in less stone; nonwoven fabric in place of woven fabric; prepared subgrade: other preparation, compaction, equipment; underdrain in a trench: below finish grade 22-3/8 in; details of 5 more courses"},
		{"courses that go", "one of two grids, the fabric and the drain", driveway, values{"soil.word": "sand"}, section.Designed,
			"8 in less stone; no underdrain in a trench; no fabric; 1 geogrid in place of 2; prepared subgrade: other preparation, compaction, equipment; geogrid low in the base: other reason, height, beyond edge, overlap; details of 1 more course; caution: frost may move this soil a little (group PFS) (FROST-POSSIBLE)"},
		{"a caution that comes", "of the same section, and one that was given before is not told again", driveway, values{"nearby.window_wells": "yes"}, section.Designed,
			"caution: a window well or a cellar entry lies beside the paving (WINDOW-WELLS)"},
		{"a caution that goes", "asks nothing of anyone any more", "{area: 400 sq ft, use: foot, base: dense, soil: {word: sand}, nearby: {downspouts: yes}}", values{"nearby.downspouts": "no"}, section.Designed, ""},
		{"one course that goes", "and nothing else", driveway, values{"water.wet_ground": "no"}, section.Designed, "no underdrain in a trench"},
		{"a course that comes", "by its label", driveway, values{"surface_slope": "8 %"}, section.Designed,
			"concrete headers added; underdrain in a trench: side along the low side, just above the lowest header; pavers: slope 8 %"},
		{"a course that is one of its kind", "is thicker", driveway, values{"paver.thickness": "80 mm"}, section.Designed,
			"pavers 3/4 in thicker; 80 mm (3-1/8 in) concrete pavers in place of 60 mm (2-3/8 in) concrete pavers; underdrain in a trench: below finish grade 25-1/8 in"},
		{"refused", "by which limit, in its first sentence", driveway, values{"soil.consistency": "soft"}, section.Refused, "refused: the ground has CBR 0.625, less than the 1 that vehicles need here (TOO-SOFT-FOR-VEHICLES)"},
		{"stopped", "by which check", driveway, values{"compactor": "hand_tamper"}, section.Stopped, "stopped: hire a machine that does: under feet and cars a plate compactor, under trucks a reversible plate or a roller (COMPACTOR-REACHES)"},
		{"refused alike", "nothing differs for whoever builds", fill, values{"area": "500 sq ft"}, section.Refused, ""},
		{"refused no more", "how deep it is then", fill, values{"soil.fill_removed": "yes"}, section.Designed, "a section 11-3/8 in deep"},
		{"two values", "at once", driveway, values{"soil.consistency": "stiff", "water.wet_ground": "no"}, section.Designed,
			"2 in less stone; no underdrain in a trench; nonwoven fabric in place of woven fabric; prepared subgrade: other preparation, compaction, equipment; fabric: other overlap, turned up; details of 4 more courses"},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := site.Read("job.yaml", []byte(c.job))
			require.NoError(t, err)
			o, err := book.Otherwise(job, c.change)
			require.NoError(t, err)
			var said []string
			for _, s := range o.Differs {
				said = append(said, s.In(quantity.US))
			}
			require.Empty(t, cmp.Diff(c.want, strings.Join(said, "; ")), c.why)
			require.Equal(t, c.status, o.Status)
			require.Equal(t, c.status == section.Refused && len(said) > 0, o.Who.US != "", "whom to take it to")
		})
	}
	filled, err := site.Read("job.yaml", []byte(fill))
	require.NoError(t, err)
	other, err := book.Otherwise(filled, values{"soil.fill_removed": "yes", "use": "truck_yard"})
	require.NoError(t, err)
	require.Equal(t, section.Refused, other.Status)
	require.Equal(t, []string{"HEAVIER-USE"}, other.Why)
	require.Len(t, other.Differs, 1, "a job that another limit refuses is told so")
	require.NotEmpty(t, other.Who)
	job := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
	for name, wrong := range map[string]values{"path": {"soil.words": "clay"}, "value": {"soil.cbr": "much"}, "contradiction": {"frost.frost_free": "yes", "frost.depth": "40 in"}} {
		_, err := book.Otherwise(job, wrong)
		require.ErrorAs(t, err, new(*site.Error), name)
	}
	_, err = (*groundrule.Book)(nil).Otherwise(job, nil)
	require.ErrorAs(t, err, new(*groundrule.UseError))
}

// TestEndings holds what is said where a job comes to another end: by what it is refused
// or stopped, whom to take it to, and that it is refused or stopped no more.
func TestEndings(t *testing.T) {
	stopping := replaced(t, plot, "at_least: inches(5), failing: caution, says: Dig deeper.", "at_least: inches(7), failing: stop, says: CBR is low. Dig deeper.")
	stopping = replaced(t, stopping, "at_most: inches(8), failing: caution", "at_most: inches(5), failing: caution")
	stopping = replaced(t, stopping, "failing: caution, says: Walk.", "failing: stop, says: Walk.")
	twice := replaced(t, plot, "says: Trucks., who: An engineer., source: practice}", `says: "Trucks, at {strength}. Take it away.", who: An engineer., source: practice}
  - {refusal: YARDS, when: use == truck_yard, says: A yard., who: The county., source: practice}`)
	for _, c := range []struct{ name, why, text, was, is, status, want, who string }{
		{"designed", "by how much", plot, "foot", "car_driveway", "designed", "stone 3 in thicker; stone: name drive", ""},
		{"refused", "each limit in its first sentence, and whom the first names", twice, "foot", "truck_yard", "refused", "refused: trucks, at 2.5 (TRUCKS); refused: a yard (YARDS)", "An engineer."},
		{"refused no more", "how deep it is then", twice, "truck_yard", "car_driveway", "designed", "a section 9 in deep", ""},
		{"refused as before", "nothing differs", twice, "truck_yard", "truck_yard", "refused", "", ""},
		{"stopped otherwise", "by each check that stops, and by none that cautions", stopping, "foot", "residential_street", "stopped", "stopped: CBR is low (DEEP); stopped: walk (WALKED)", ""},
		{"stopped by another", "the first sentence alone", stopping, "foot", "car_driveway", "stopped", "stopped: walk (WALKED)", ""},
		{"refused after it was stopped", "that weighs more", stopping, "foot", "truck_yard", "refused", "refused: trucks (TRUCKS)", "An engineer."},
		{"stopped no more", "before how it differs", stopping, "residential_street", "fire_lane", "designed", "no longer stopped; stone 2 in thicker", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := replaced(t, c.text, "holds: use == foot", "holds: use == foot || use == fire_lane")
			text = replaced(t, text, "      - {rule: CARS,", `      - {rule: FIRE, when: use == fire_lane, answer: inches(8), because: Heavy., source: "book, page 1"}
      - {rule: CARS,`)
			job := path()
			job.Use = c.was
			o, err := plotBook(t, text).Otherwise(job, map[string]string{"use": c.is})
			require.NoError(t, err)
			var said []string
			for _, s := range o.Differs {
				said = append(said, s.In(quantity.US))
			}
			require.Empty(t, cmp.Diff([3]string{c.status, c.want, c.who}, [3]string{string(o.Status), strings.Join(said, "; "), o.Who.US}), c.why)
		})
	}
}
