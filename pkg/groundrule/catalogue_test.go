package groundrule_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// catalog returns the materials of the standard rulebook.
func catalog(t *testing.T) map[string]*rulebook.Word {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	out := map[string]*rulebook.Word{}
	for _, m := range book.Rules().Materials {
		out[m.Word.Name] = &m
	}
	return out
}

func gradationOf(t *testing.T, materials map[string]*rulebook.Word, name string) drainage.Gradation {
	t.Helper()
	require.Contains(t, materials, name)
	g, ok := materials[name].Word.Property("gradation").Data().(drainage.Gradation)
	require.True(t, ok, "%s has no gradation", name)
	return g
}

// si returns a measured property in SI base units.
func si(t *testing.T, m *rulebook.Word, property string) float64 {
	t.Helper()
	q, ok := m.Word.Property(property).Quantity()
	require.True(t, ok, "%s has no %s", m.Word.Name, property)
	return q.SI
}

func number(t *testing.T, m *rulebook.Word, property string) float64 {
	t.Helper()
	x, ok := m.Word.Property(property).Number()
	require.True(t, ok, "%s has no %s", m.Word.Name, property)
	return x
}

// wordOf returns the Go value of a property that is a word.
func wordOf(t *testing.T, m *rulebook.Word, property string) string {
	t.Helper()
	w, ok := m.Word.Property(property).Word()
	require.True(t, ok, "%s has no %s", m.Word.Name, property)
	return w.Go
}

func ofKind(materials map[string]*rulebook.Word, kind string) []*rulebook.Word {
	var out []*rulebook.Word
	for _, m := range materials {
		if string(m.Word.Vocabulary) == kind {
			out = append(out, m)
		}
	}
	return out
}

func TestCatalogHasWhatTheRulesName(t *testing.T) {
	got := map[string]int{}
	for _, m := range catalog(t) {
		got[string(m.Word.Vocabulary)]++
	}
	want := map[string]int{"stone": 10, "sand": 8, "paver": 4, "fabric": 4, "grid": 5, "panel": 1, "edge": 6, "pipe": 1, "liner": 1}
	require.Empty(t, cmp.Diff(want, got))
}

func TestCatalogSaysHowItIsKnown(t *testing.T) {
	seenKinds := map[value.Kind]bool{"paver": true, "edge": true}
	for name, m := range catalog(t) {
		t.Run(name, func(t *testing.T) {
			require.False(t, m.Source.IsZero())
			require.True(t, m.Source.Known.Valid(), "tag %q", m.Source.Known)
			require.NotEmpty(t, m.Word.About)
			require.NotEmpty(t, m.Word.Label)
			// Every other kind holds values from memory, such as densities and
			// roll sizes, and may not pass for seen.
			if !seenKinds[m.Word.Vocabulary] {
				require.Contains(t, []value.Known{value.Memory, value.Practice}, m.Source.Known)
			}
			if m.Source.Known == value.Memory {
				require.NotEmpty(t, m.Source.Note, "which of its values are better known than the rest")
			}
		})
	}
}

// D15, D50 and D85 at the mid of each envelope in mm, computed once by
// log-linear interpolation and by other code than this; no publication.
func TestCatalogSizesAgreeWithComputed(t *testing.T) {
	materials := catalog(t)
	for _, c := range []struct {
		name, why, sizes string
		materials        []string
	}{
		{"No. 2", "the coarsest stone of all", "39.34 49.21 59.67", []string{"stone_2"}},
		{"No. 3", "stone that stores water", "26.75 36.67 46.73", []string{"stone_3"}},
		{"No. 57", "base and choke", "6.148 13.74 21.36", []string{"stone_57"}},
		{"No. 67", "base in place of No. 57", "5.879 11.05 16.84", []string{"stone_67"}},
		{"No. 8", "bedding and choke", "3.762 6.328 8.843", []string{"stone_8", "bedding_stone_8"}},
		{"No. 89", "bedding and joints", "2.054 5.522 8.421", []string{"stone_89", "bedding_stone_89", "joint_stone_89"}},
		{"No. 9", "the finest bedding stone", "1.669 3.058 4.395", []string{"stone_9", "bedding_stone_9"}},
		{"C33", "the tighter No. 200 must leave these sizes alone", "0.261 0.735 2.023", []string{"sand_concrete", "leveling_sand"}},
		{"C144 natural", "joints", "0.207 0.517 1.180", []string{"sand_mason", "joint_sand"}},
		{"D2940 base", "the usual base", "0.363 5.985 22.41", []string{"stone_dense_base"}},
		{"D2940 subbase", "few sieves, wide apart", "0.195 5.84 24.8", []string{"stone_dense_subbase"}},
	} {
		for _, name := range c.materials {
			t.Run(c.name+" as "+name, func(t *testing.T) {
				g := gradationOf(t, materials, name)
				for i, text := range strings.Fields(c.sizes) {
					percent := []float64{15, 50, 85}[i]
					want, err := strconv.ParseFloat(text, 64)
					require.NoError(t, err)
					got, err := g.SizeAt(drainage.Mid, quantity.Percent(percent))
					require.NoError(t, err)
					require.InDelta(t, want, got.Millimeters(), printed(text), "D%g, %s", percent, c.why)
				}
			})
		}
	}
}

// printed is how far a size may be from one printed as text: half of its last
// digit, and half of the third decimal, to which they were rounded first.
func printed(text string) float64 {
	_, decimals, _ := strings.Cut(text, ".")
	half := 0.5
	for range decimals {
		half /= 10
	}
	return half + 0.0005
}

// No. 4 has no computed sizes to be held to; it must at least lie in its place.
func TestCatalogStonesStandInOrder(t *testing.T) {
	materials := catalog(t)
	last := quantity.Meters(1)
	for _, name := range []string{"stone_2", "stone_3", "stone_4", "stone_57", "stone_67", "stone_8", "stone_89", "stone_9"} {
		d50, err := gradationOf(t, materials, name).SizeAt(drainage.Mid, quantity.Percent(50))
		require.NoError(t, err)
		require.Less(t, d50, last, "%s is not finer than the stone before it", name)
		last = d50
	}
}

// Cells of the published sieve tables.
func TestCatalogGradationsAgreeWithPublished(t *testing.T) {
	materials := catalog(t)
	for _, c := range []struct {
		material, sieve string
		low, high       float64
		why             string
	}{
		// Seen: Colorado DOT Standard Specifications, Table 703-1, coarse sizes of AASHTO M 43.
		{"stone_57", "1 in", 95, 100, "top of No. 57"},
		{"stone_57", "1/2 in", 25, 60, "middle of No. 57"},
		{"stone_57", "No. 8", 0, 5, "No. 57 holds next to nothing fine"},
		{"stone_67", "3/8 in", 20, 55, "No. 67 has 3/8 in where No. 57 has 1/2 in"},
		{"stone_3", "1-1/2 in", 35, 70, "middle of No. 3"},
		{"stone_4", "1 in", 20, 55, "middle of No. 4"},
		{"stone_4", "3/4 in", 0, 15, "foot of No. 4"},
		{"stone_4", "3/8 in", 0, 5, "foot of No. 4"},
		{"stone_8", "No. 4", 10, 30, "middle of No. 8"},
		{"bedding_stone_8", "No. 16", 0, 5, "foot of No. 8"},
		// Memory: ASTM D448.
		{"stone_2", "2 in", 35, 70, "middle of No. 2"},
		{"bedding_stone_9", "No. 8", 10, 40, "middle of No. 9"},
		{"joint_stone_89", "No. 16", 0, 10, "a copy prints 0-5 here"},
		// Seen: No. 89 on all other sieves, in a trade journal's answer.
		{"joint_stone_89", "No. 4", 20, 55, "middle of No. 89"},
		// Seen: CMHA PAV-TEC-017-22, at most 1 % passing No. 200.
		{"sand_concrete", "No. 200", 0, 1, "bedding sand is tighter than ASTM C33"},
		// Memory: ASTM C33, C144 and D2940.
		{"sand_concrete", "No. 30", 25, 60, "middle of concrete sand"},
		{"sand_mason", "No. 30", 40, 75, "mason sand is finer than concrete sand"},
		{"sand_mason", "No. 200", 0, 5, "dust, for which it is no bedding"},
		{"stone_dense_base", "3/8 in", 50, 70, "middle of base"},
		{"stone_dense_base", "No. 200", 0, 8, "dust of base"},
		{"stone_dense_subbase", "No. 4", 30, 60, "middle of subbase"},
		{"stone_dense_subbase", "No. 200", 0, 12, "dust of subbase"},
	} {
		t.Run(c.material+" "+c.sieve, func(t *testing.T) {
			opening, err := sieve.Opening(c.sieve)
			require.NoError(t, err)
			var got []drainage.Band
			for _, b := range gradationOf(t, materials, c.material).Bands() {
				if math.Abs(b.Opening.Millimeters()-opening.Millimeters()) < 1e-6 {
					got = append(got, drainage.Band{Opening: opening, Low: b.Low, High: b.High})
				}
			}
			require.Empty(t, cmp.Diff([]drainage.Band{{Opening: opening, Low: c.low, High: c.high}}, got), c.why)
		})
	}
}

func TestCatalogDensities(t *testing.T) {
	const gravity = 2.65 // of the solids, with which the density in place was computed
	materials := catalog(t)
	for _, m := range append(ofKind(materials, "stone"), ofKind(materials, "sand")...) {
		t.Run(m.Word.Name, func(t *testing.T) {
			place, loose := si(t, m, "density"), si(t, m, "loose_density")
			require.Greater(t, place, loose, "compacted is denser than loose")
			require.Less(t, place/loose, 1.30, "memory: a truck holds at most 1.30 of what it fills")
			voids, hasVoids := m.Word.Property("voids").Quantity()
			clean, isStone := m.Word.Property("clean").Bool()
			_, hasCoefficient := m.Word.Property("layer_coefficient").Number()
			require.Equal(t, isStone && clean, hasVoids, "voids are for open-graded stone alone")
			require.Equal(t, isStone && !clean, hasCoefficient, "layer coefficients are known for dense-graded stone alone")
			if hasVoids {
				require.InDelta(t, 1-place/(gravity*1000), voids.SI, 0.0005, "voids and density speak of the same stone")
			}
		})
	}
}

// Both stones that a grid lies under must lock in on every edge of their
// envelopes, not at the mid alone. FHWA NHI-07-092 ch. 5, from memory.
func TestCatalogGridsHoldStone(t *testing.T) {
	materials := catalog(t)
	for _, grid := range []string{"grid_biaxial", "grid_multiaxial"} {
		for _, stone := range []string{"stone_dense_base", "stone_57"} {
			for _, edge := range []drainage.Edge{drainage.Mid, drainage.Coarse, drainage.Fine} {
				t.Run(grid+" "+stone+" "+edge.String(), func(t *testing.T) {
					g := gradationOf(t, materials, stone)
					d50, err := g.SizeAt(edge, quantity.Percent(50))
					require.NoError(t, err)
					d85, err := g.SizeAt(edge, quantity.Percent(85))
					require.NoError(t, err)
					holds, err := geosynthetic.GridHoldsStone(quantity.Meters(si(t, materials[grid], "aperture")), d50, d85)
					require.NoError(t, err)
					require.True(t, holds)
				})
			}
		}
	}
}

func TestCatalogGridsAreGrids(t *testing.T) {
	shapes := map[string]string{"biaxial_grid": "square_openings", "multiaxial_grid": "triangular_openings", "uniaxial_grid": "long_openings"}
	directions := map[string]float64{"biaxial_grid": 2, "multiaxial_grid": 3, "uniaxial_grid": 1}
	for _, m := range ofKind(catalog(t), "grid") {
		t.Run(m.Word.Name, func(t *testing.T) {
			kind := wordOf(t, m, "type")
			require.Equal(t, shapes[kind], wordOf(t, m, "opening_shape"))
			require.Equal(t, directions[kind], number(t, m, "directions"))
			require.Greater(t, si(t, m, "aperture"), 0.00635, "seen: ASTM D6637-01, 3.1.6, else it is no geogrid")
			modulus, has := m.Word.Property("aperture_modulus").Number()
			require.False(t, has && kind != "biaxial_grid", "the platform equation was calibrated on biaxial grids alone")
			if has {
				require.GreaterOrEqual(t, modulus, 0.32, "lower calibrated grid, from memory")
				require.LessOrEqual(t, modulus, 0.65, "upper calibrated grid, from memory")
			}
		})
	}
}

// AASHTO M 288-06 Tables 1, 3 and 4, from memory: grab strength by class and by
// elongation, which is low for a woven and high for a nonwoven; opening and
// permittivity of a class 1 fabric for stabilization, of a class 2 for separation.
func TestCatalogFabricsMeetTheirClass(t *testing.T) {
	grab := map[string]float64{"fabric_class_1 woven": 1400, "fabric_class_1 nonwoven": 900, "fabric_class_2 woven": 1100, "fabric_class_2 nonwoven": 700}
	opening := map[string]float64{"fabric_class_1": 0.43e-3, "fabric_class_2": 0.60e-3}
	permittivity := map[string]float64{"fabric_class_1": 0.05, "fabric_class_2": 0.02}
	for _, m := range ofKind(catalog(t), "fabric") {
		t.Run(m.Word.Name, func(t *testing.T) {
			class := wordOf(t, m, "class")
			require.InDelta(t, grab[class+" "+wordOf(t, m, "making")], si(t, m, "grab_strength"), 1e-9)
			require.InDelta(t, opening[class], si(t, m, "opening"), 1e-12)
			require.InDelta(t, permittivity[class], si(t, m, "permittivity"), 1e-12)
			// Computed: 12.5 x 360 ft and 15 x 300 ft are 500 sq yd each.
			require.InDelta(t, 500*9*0.3048*0.3048, si(t, m, "roll_width")*si(t, m, "roll_length"), 1e-6)
		})
	}
}

// ASTM C936-18, 5.1 and 5.3, as relayed by a reprint: mean strength, thickness,
// length over thickness. The greatest ratio under vehicles was seen in the
// tolerance sheets, with thickness by use.
func TestCatalogPaversMeetC936(t *testing.T) {
	const leastPSI, leastMM, mostRatio = 8000, 60, 4
	materials := catalog(t)
	for _, m := range ofKind(materials, "paver") {
		t.Run(m.Word.Name, func(t *testing.T) {
			require.GreaterOrEqual(t, si(t, m, "strength"), float64(quantity.PSI(leastPSI)))
			require.GreaterOrEqual(t, si(t, m, "thickness"), quantity.Millimeters(leastMM).Meters())
			require.LessOrEqual(t, number(t, m, "aspect_ratio_most"), float64(mostRatio))
		})
	}
	for name, ratio := range map[string]float64{"paver_60": 4, "paver_80": 3, "paver_permeable_60": 4, "paver_permeable_80": 3} {
		require.InDelta(t, ratio, number(t, materials[name], "aspect_ratio_most"), 0, "%s", name)
	}
}

// A panel without a test may not be designed with.
func TestCatalogPanelClaimsNoStrength(t *testing.T) {
	panel := catalog(t)["panel_plain"]
	require.InDelta(t, 0.019, si(t, panel, "thickness"), 1e-12)
	require.NotContains(t, panel.Word.Properties(), "resistance")
}
