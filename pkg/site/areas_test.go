package site_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// yard is a job of two areas that share the ground.
const yard = `job: Yard
base: dense
built_in: inches
traffic: {trucks_per_day: 2}
soil: {word: clay, cbr: [3, 4, 5], liquid_limit: 34}
overrides: [{decision: base_thickness, answer: inches(8), by: J. Orr, because: so}]
areas:
  - name: driveway
    area: 600 sq ft
    use: car_driveway
    traffic: {trucks_over_life: 100}
  - name: walk
    area: 80 sq ft
    use: foot
    base: open
    soil: {cbr: 6, plastic_limit: 20}
    overrides: [{decision: stone_depth, answer: inches(9), by: J. Orr, because: so}]
`

// Each area is a whole job: what it says, and else what the job says.
func TestParts(t *testing.T) {
	parts := read(t, yard).Parts()
	require.Len(t, parts, 2)
	for i, want := range []string{
		`{job: "Yard, driveway", part: driveway, base: dense, built_in: inches, area: 600 sq ft, use: car_driveway, traffic: {trucks_over_life: 100},
  soil: {word: clay, cbr: [3, 4, 5], liquid_limit: 34}, overrides: [{decision: base_thickness, answer: inches(8), by: J. Orr, because: so}]}`,
		`{job: "Yard, walk", part: walk, base: open, built_in: inches, area: 80 sq ft, use: foot, traffic: {trucks_per_day: 2},
  soil: {word: clay, cbr: 6, liquid_limit: 34, plastic_limit: 20}, overrides: [{decision: stone_depth, answer: inches(9), by: J. Orr, because: so}]}`,
	} {
		sameSite(t, read(t, want), parts[i])
		roundTrip(t, parts[i])
	}
	at, written := parts[1].PlaceOf("soil.cbr")
	require.True(t, written)
	require.Equal(t, "job.yaml:16:17", at.String(), "what the area says stands there")
	at, _ = parts[1].PlaceOf("soil.liquid_limit")
	require.Equal(t, "job.yaml:5:50", at.String(), "and what the job says, there")
	require.Equal(t, "job.yaml:17:17", parts[1].Overrides[0].Place.String())
	alone := read(t, least)
	require.Equal(t, []*site.Site{alone}, alone.Parts(), "a job without areas is its only part")
}

// What an area says is written, read and set as what the job says is.
func TestAreasRoundTrip(t *testing.T) {
	roundTrip(t, read(t, yard))
	s := &site.Site{Base: "dense"}
	for _, each := range [][2]string{{"areas[0].name", "drive"}, {"areas[0].area", "20 x 30 ft"}, {"areas[0].use", "car_driveway"},
		{"areas[1].name", "walk"}, {"areas[1].area", "80 sq ft"}, {"areas[1].use", "foot"}, {"areas[1].soil.cbr[1]", "4"}, {"areas[1].soil.cbr[0]", "3"}} {
		require.NoError(t, s.Set(each[0], each[1]), each[0])
	}
	roundTrip(t, s)
	require.Empty(t, cmp.Diff(quantity.SquareFeet(600), s.Areas[0].Area, alike))
	require.Equal(t, []float64{3, 4}, s.Areas[1].Soil.CBR)
	closed, err := standard(t).Close(s)
	require.NoError(t, err)
	require.Equal(t, "car_driveway", closed.Areas[0].Use)
	require.ErrorContains(t, site.Check("areas[1].soil.cbr[2]", "-1"), "areas[1].soil.cbr[2] is out of range")
}

// What is wrong in an area is told at its place, by its path.
func TestAreasAreChecked(t *testing.T) {
	const head = "base: dense\nuse: foot\n"
	for _, c := range []struct{ name, why, text, want string }{
		{"a value", "as of a job of one area", "areas: [{name: a, area: 9 sq ft, soil: {cbr: [3, 4, 900]}}]",
			`3:53: areas[0].soil.cbr[2] is out of range; found "900"`},
		{"a key", "no area has it either", "areas: [{name: a, area: 9 sq ft, sole: 1}]", `3:34: unknown key "sole" in an area with its name`},
		{"no name", "it could not be told from the others", "areas: [{area: 9 sq ft}]", "3:9: areas[0].name is missing"},
		{"one name twice", "nor could these", "areas: [{name: the walk, area: 9 sq ft}, {name: The Walk, area: 8 sq ft}]",
			`3:49: areas[1].name is the name of another area; found "The Walk"; wanted a name for each area; job.yaml:3:16: see areas[0].name`},
		{"no size", "neither the area nor the job gives it", "areas: [{name: a, area: 9 sq ft}, {name: b}]", "3:35: areas[1].area is missing"},
		{"of the whole job", "every area has one client", "areas: [{name: a, area: 9 sq ft, client: B}]", `3:34: unknown key "client"`},
		{"the size of the whole", "it would be that of each area", "area: 20 sq ft\nareas: [{name: a, area: 9 sq ft}]", "3:7: area is told of each area, and not of the whole job"},
		{"two that contradict", "one of the job and one of the area", "soil: {liquid_limit: 20}\nareas: [{name: a, area: 9 sq ft, soil: {plastic_limit: 30}}]",
			"3:22: soil.liquid_limit is below soil.plastic_limit"},
		{"two of an area", "it is no better there", "areas: [{name: a, area: 9 sq ft, soil: {liquid_limit: 20, plastic_limit: 30}}]",
			`3:55: areas[0].soil.liquid_limit is below soil.plastic_limit; found "20"; wanted 30 or more; job.yaml:3:74: see areas[0].soil.plastic_limit`},
		{"a fault of the job", "it is told once, not of each area", "frost: {depth: -1 in}\nareas: [{name: a, area: 9 sq ft}, {name: b, area: 9 sq ft}]", "3:16: frost.depth is out of range"},
		{"too short around", "each area is checked as a job is", "areas: [{name: a, area: 400 sq ft, perimeter: 30 ft}]", "3:47: areas[0].perimeter is shorter than that of a circle"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := site.Read("job.yaml", []byte(head+c.text+"\n"))
			var wrong *site.Error
			require.ErrorAs(t, err, &wrong)
			require.ErrorContains(t, err, "job.yaml:"+c.want, c.why)
			require.Len(t, wrong.Faults, 1, "%v", err)
		})
	}
	s := &site.Site{Use: "foot", Base: "dense", Areas: []site.Site{{Job: "a", Area: quantity.SquareFeet(9), Client: "B"}}}
	require.EqualError(t, s.Validate(), "areas[0].client is said of the whole job, not of one area")
}
