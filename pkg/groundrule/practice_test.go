package groundrule_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// The cases here are common practice of the trade, with no published source. The
// standard rulebook must reproduce them.

// designed returns the section of a job, also of one that a check stopped.
func designed(t *testing.T, job *site.Site) *section.Section {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	d, err := book.Design(job)
	var refused *groundrule.Refused
	if err != nil {
		require.ErrorAs(t, err, &refused)
		return refused.Section
	}
	s, err := d.Section()
	require.NoError(t, err)
	return s
}

// job makes a job of 400 sq ft on ground of one CBR, without frost or water.
func job(use string, base string, cbr float64, change ...func(*site.Site)) *site.Site {
	s := &site.Site{Area: quantity.SquareFeet(400), Use: use, Base: base}
	s.Soil.CBR = []float64{cbr}
	s.Soil.Group = "SC"
	s.Frost.FrostFree = new(true)
	s.Water.WetGround = new(false)
	for _, c := range change {
		c(s)
	}
	return s
}

func attribute(t *testing.T, s *section.Section, course, name string) string {
	t.Helper()
	a := s.Course(course).Attribute(name)
	require.NotEmpty(t, a.Name, "attribute %s of %s", name, course)
	return a.Value.String()
}

func order(s *section.Section) []string {
	var out []string
	for _, c := range s.Courses {
		out = append(out, c.Name)
	}
	return out
}

// TestGridKinds: a biaxial grid is a square mesh that takes tension two ways, a
// multiaxial a triangular one that takes it three ways; a uniaxial takes it one way. Common practice, no published source.
func TestGridKinds(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	cases := []struct {
		word, why, shape string
		directions       float64
	}{
		{"grid_biaxial", "square openings, two directions", "square", 2},
		{"grid_multiaxial", "triangular openings, three directions", "triangular", 3},
		{"grid_uniaxial", "one direction", "long and narrow", 1},
	}
	for _, c := range cases {
		t.Run(c.word, func(t *testing.T) {
			for _, m := range book.Rules().Materials {
				if m.Word.Name == c.word {
					n, _ := m.Word.Property("directions").Number()
					require.Equal(t, c.directions, n)
					require.Equal(t, c.shape, m.Word.Property("opening_shape").Text(quantity.US))
					return
				}
			}
			t.Fatal("not in the catalog")
		})
	}
	require.Equal(t, "biaxial geogrid", attribute(t, designed(t, job("car_driveway", "dense", 10)), "grid_low", "kind"))
	require.Equal(t, "multiaxial geogrid (triangular openings)", attribute(t, designed(t, job("heavy_driveway", "dense", 10)), "grid_low", "kind"), "under trucks")
}

// TestEitherGridServes: a biaxial and a multiaxial may both be used in a paver base;
// a uniaxial stops it. Common practice, no published source.
func TestEitherGridServes(t *testing.T) {
	with := func(kind string) *section.Section {
		return designed(t, job("foot", "dense", 6, func(s *site.Site) {
			s.Overrides = []site.Override{{Decision: "grid_kind", Answer: kind, By: "a test", Because: "to try it"}}
		}))
	}
	require.Equal(t, section.Designed, with("biaxial_grid").Status)
	require.Equal(t, section.Designed, with("multiaxial_grid").Status)
	require.Equal(t, "multiaxial geogrid (triangular openings)", attribute(t, with("triaxial"), "grid_low", "kind"), "the trade's word, told by the form")
	stopped := with("uniaxial_grid")
	require.Equal(t, section.Stopped, stopped.Status)
	require.Len(t, stopped.Failed(), 1)
	require.Equal(t, "GRID-NOT-UNIAXIAL", stopped.Failed()[0].ID)
	require.Contains(t, stopped.Failed()[0].Says.US, "3 ft back")
	require.Contains(t, stopped.Failed()[0].Says.US, "without overlap")
}

// TestGridOverlap: 12 in, and more on very soft ground where published tables
// ask it. Common practice, no published source, for the 12 in.
func TestGridOverlap(t *testing.T) {
	cases := []struct {
		name, why, want string
		cbr             float64
		course          string
	}{
		{"firm", "the usual lap", "12 in", 6, "grid_low"},
		{"weak", "weak is not very soft", "12 in", 2.5, "grid_high"},
		{"soft", "an agency's 0.6 m", "24 in", 1.5, "grid_high"},
		{"hardly walkable", "the agency's 0.9 m", "36 in", 0.7, "grid_high"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, attribute(t, designed(t, job("foot", "dense", c.cbr)), c.course, "overlap"), c.why)
		})
	}
}

// TestGridAtTheBottom: the grid lies at the bottom of the excavation with 6 to 8
// in of base on it; a nonwoven lies under it. Common practice, no published
// source.
func TestGridAtTheBottom(t *testing.T) {
	s := designed(t, job("car_driveway", "dense", 9))
	require.Equal(t, []string{"subgrade", "fabric", "grid_low", "stone_top", "bedding", "pavers", "joint", "edge", "edge_spikes"}, order(s))
	require.Equal(t, "0 in", attribute(t, s, "grid_low", "height"))
	require.Equal(t, "6 in", attribute(t, s, "stone_top", "thickness"))
	require.Equal(t, "nonwoven fabric", attribute(t, s, "fabric", "kind"))
}

// TestGridCover: 6 in is advised over any grid, 4 in is the least. Common
// practice, no published source.
func TestGridCover(t *testing.T) {
	depth := func(inches string) *section.Section {
		book, err := groundrule.OpenStandard(groundrule.WithAmendments(layer("cover", "amendment: cover\ncompany: Ours\nwho: a test\nwhen: 2026-01-05\nwhy: To try it.\nreplace:\n"+
			"  - {setting: grid_cover, set: {value: "+inches+", because: To try it., source: company}}\n")))
		require.NoError(t, err)
		d, err := book.Design(job("foot", "dense", 9))
		require.NoError(t, err)
		s, err := d.Section()
		require.NoError(t, err)
		return s
	}
	thin := func(inches string) *section.Section {
		return designed(t, job("foot", "dense", 9, func(s *site.Site) {
			s.Overrides = []site.Override{{Decision: "stone_depth", Answer: inches, By: "a test", Because: "to try it"}}
		}))
	}
	failed := func(s *section.Section) []string {
		var out []string
		for _, c := range s.Failed() {
			out = append(out, c.ID)
		}
		return out
	}
	require.Empty(t, failed(depth("6 in")))
	require.Equal(t, section.Designed, depth("5 in").Status)
	require.Contains(t, failed(depth("5 in")), "GRID-COVER-ADVISED")
	require.Equal(t, section.Stopped, thin("inches(3.5)").Status)
	require.Contains(t, failed(thin("inches(3.5)")), "GRID-COVER")
}

// TestTwoGrids: a driveway may have two: grid, 6 in of base, grid, 6 in of base,
// then bedding and pavers. Common practice, no published source.
func TestTwoGrids(t *testing.T) {
	s := designed(t, job("car_driveway", "dense", 4))
	require.Equal(t, []string{"subgrade", "fabric", "grid_low", "stone_lower", "grid_high", "stone_top", "bedding", "pavers", "joint", "edge", "edge_spikes"}, order(s))
	require.Equal(t, "6 in", attribute(t, s, "stone_lower", "thickness"))
	require.Equal(t, "6 in", attribute(t, s, "stone_top", "thickness"))
	require.Equal(t, "6 in", attribute(t, s, "grid_high", "height"))
}

// TestPrecaution: every stone base has a grid; the reason says whether the ground
// needs it or it is a precaution. A setting turns the precaution off.
// Common practice, no published source; the threshold is published.
func TestPrecaution(t *testing.T) {
	require.Equal(t, "a precaution", attribute(t, designed(t, job("foot", "dense", 9)), "grid_low", "reason"))
	require.Equal(t, "a precaution", attribute(t, designed(t, job("foot", "open", 9)), "grid_low", "reason"))
	soft := designed(t, job("foot", "dense", 2))
	require.Equal(t, "needed by the ground", attribute(t, soft, "grid_high", "reason"))
	require.Contains(t, soft.Source(soft.Reason("grid_why").Taken[0].Source).Text, "FHWA")

	off, err := groundrule.OpenStandard(groundrule.WithAmendments(layer("no-precaution", `
amendment: no precaution
company: Ours
who: a test
when: 2026-01-05
why: To try it.
replace:
  - {setting: precaution_grid, set: {value: false, because: Grid only where the ground needs it., source: company}}
`)))
	require.NoError(t, err)
	d, err := off.Design(job("foot", "dense", 9))
	require.NoError(t, err)
	s, err := d.Section()
	require.NoError(t, err)
	require.Empty(t, s.Course("grid_low").Name)
	require.Equal(t, "GRID-NONE", s.Reason("grid_why").Taken[0].ID)
}

// TestWoven: where the soil or the use calls for a woven: woven, 4 in of stone,
// grid, 4 in of stone, then bedding. Common practice, no published source.
func TestWoven(t *testing.T) {
	s := designed(t, job("foot", "dense", 2, func(s *site.Site) { s.Soil.Group = "SC" }))
	require.Equal(t, "woven fabric", attribute(t, s, "fabric", "kind"))
	require.Equal(t, []string{"subgrade", "fabric", "stone_lower", "grid_high", "stone_top", "bedding", "pavers", "joint", "edge", "edge_spikes"}, order(s))
	require.Equal(t, "4 in", attribute(t, s, "stone_lower", "thickness"))
	require.Equal(t, "4 in", attribute(t, s, "stone_top", "thickness"))
	use := designed(t, job("fire_lane", "dense", 12, func(s *site.Site) { s.Soil.Group = "CL" }))
	require.Equal(t, "FABRIC-WOVEN-USE", use.Reason("fabric_kind").Taken[0].ID)
}

// TestFabricUnderOpen: a fabric matters most under an open-graded base; nonwoven
// drains better. Common practice, no published source.
func TestFabricUnderOpen(t *testing.T) {
	for _, group := range []string{"GW", "SP", "CL", "CH"} {
		s := designed(t, job("car_driveway", "open", 9, func(s *site.Site) { s.Soil.Group = groupNamed(group) }))
		require.Equal(t, "nonwoven fabric", attribute(t, s, "fabric", "kind"), group)
	}
	clean := designed(t, job("foot", "dense", 15, func(s *site.Site) { s.Soil.Group = "SP" }))
	require.Empty(t, clean.Course("fabric").Name, "under dense stone on clean sand none is needed")
}

// TestPanelTakesNoGrid: the panels give the stability. Common practice, no
// published source.
func TestPanelTakesNoGrid(t *testing.T) {
	for _, cbr := range []float64{3, 8, 20} {
		s := designed(t, job("foot", "panel", cbr))
		require.Equal(t, section.Designed, s.Status)
		require.Empty(t, s.Course("grid_low").Name)
		require.Empty(t, s.Course("grid_high").Name)
		require.NotEmpty(t, s.Course("panels").Name)
		require.NotEmpty(t, s.Course("leveling").Name)
		require.Equal(t, "GRID-PANEL", s.Reason("grid_why").Taken[0].ID)
	}
}
