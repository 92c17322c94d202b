package groundrule_test

import (
	"strings"
)

// onePiece is the area up to which one width of a roll covers all, and no lap is asked.
const onePiece = 150 // sq ft

var gridsAndFabrics = []sentence{
	{"cover over the grid", "4 in of stone over every grid, at the least", "facts on geosynthetics 1.3 (0.10 m), memory; review D",
		never(func(x *look) string {
			heights := x.heights()
			if len(heights) == 0 {
				return ""
			}
			over := x.stone() - heights[len(heights)-1]
			return when(over < x.nominal(4)-0.01, "%.2f in over the upper grid", over)
		})},
	{"stone between grids", "4 in between two layers of grid, 12 in at most", "facts 13, memory; common practice 6 in",
		never(func(x *look) string {
			h := x.heights()
			for i := 1; i < len(h); i++ {
				if gap := h[i] - h[i-1]; gap < x.nominal(4)-0.01 || gap > 14.01 {
					return when(true, "%.1f in between two grids", gap)
				}
			}
			return ""
		})},
	{"grid over a woven", "4 in of stone between a woven and the grid over it", "review D, common practice",
		never(func(x *look) string {
			kind, _, _ := x.fabric()
			h := x.heights()
			return when(strings.Contains(kind, "woven") && !strings.Contains(kind, "nonwoven") && len(h) > 0 && h[0] < x.nominal(4)-0.01, "a grid %.1f in over a woven", first(h))
		})},
	{"lap of the grid", "grids lap 12 in, 24 in on ground that cannot be worked and 36 in where nobody can walk", "review D, common practice; Indiana 617-R-188b, seen",
		never(func(x *look) string {
			want := 12.0
			if c := x.ground.least; c < 0.8 && !x.spotTold() {
				want = 24
			}
			for _, c := range x.of("grid_course") {
				lap := c.Attribute("overlap")
				if lap.Name != "" && x.job.Area.SquareFeet() > onePiece && inches(lap.Value) < x.nominal(want)-0.01 {
					return when(true, "a lap of %.0f in, at least %.0f", inches(lap.Value), want)
				}
			}
			return ""
		})},
	{"lap of the fabric", "fabrics lap 12 in, 24 in below CBR 3, 36 in or sewn below CBR 1", "M 288 appendix and FHWA HI-95-038, seen on a page that relays them; facts on geosynthetics 2.3",
		never(func(x *look) string {
			_, class, lap := x.fabric()
			c := min(x.ground.least, x.claim())
			want := 12.0
			switch {
			case x.spotTold():
			case c < 1:
				want = 36
			case c < 2:
				want = 24
			}
			told := class < 9 && lap > 0
			return when(told && x.job.Area.SquareFeet() > onePiece && lap < x.nominal(want)-0.5 && !x.says("sewn"), "a lap of %.0f in on CBR %.2g, at least %.0f", lap, c, want)
		})},
	{"a grid in every base", "one grid in every base of stone on soil, as a precaution", "review D, common practice",
		never(func(x *look) string {
			return when(x.stone() > 0 && x.job.Base != "panel" && x.job.Soil.Word != "rock" && len(x.of("grid_course")) == 0 && !x.says("no grid"), "no grid in %.1f in of stone", x.stone())
		})},
	{"two grids", "two layers in more than 14 in of stone under vehicles below CBR 3", "facts 13, practice; Louisiana tests, seen in abstract",
		never(func(x *look) string {
			deep := x.stone() > 14.01 && x.claim() < 2.99 && x.claim() > 0
			return when(deep && vehicles(x.job) && len(x.of("grid_course")) < 2, "%d grid in %.1f in of stone on CBR %.2g", len(x.of("grid_course")), x.stone(), x.claim())
		})},
	{"grid too low for its cover", "no more than 14 in of stone over the uppermost grid, unless it lies near mid-depth", "facts on geosynthetics 6.1 (mid-depth from 14 in), memory; review C",
		never(func(x *look) string {
			h := x.heights()
			if len(h) == 0 {
				return ""
			}
			over := x.stone() - h[len(h)-1]
			return when(over > 14.01 && h[len(h)-1] < 0.4*x.stone() && x.claim() < 3 && !x.says("platform"), "%.1f in over the upper grid, and no word of what it is for", over)
		})},
	{"fabric on fine soil", "a geotextile over clay and silt under stone or panels", "Masonry magazine 2007 and May 2005, seen; facts on structure 2.2",
		never(func(x *look) string {
			_, class, _ := x.fabric()
			return when(x.ground.fine && class == 9, "no fabric on clay or silt")
		})},
	{"fabric on soft ground", "below CBR 3 the fabric is of class 1", "M 288 Table 4, memory high; facts on geosynthetics 3.3",
		never(func(x *look) string {
			_, class, _ := x.fabric()
			c := x.claim()
			return when(c > 0 && c < 2.99 && class > 1 && x.job.Base != "panel", "class %d on CBR %.2g", class, c)
		})},
}

var besideOneAnother = []sentence{
	{"no uniaxial", "a uniaxial grid is no base reinforcement", "review D, common practice",
		never(func(x *look) string {
			for _, kind := range x.grids() {
				if strings.Contains(strings.ToLower(kind), "uniaxial") {
					return kind
				}
			}
			return ""
		})},
	{"no grid in panels", "no grid with foam panels", "review D, common practice",
		never(func(x *look) string {
			return when(panel(x) && len(x.of("grid_course")) > 0, "a grid under panels")
		})},
	{"no woven under an open base", "a woven is for strength, a nonwoven drains: under an open base only the nonwoven", "review D, common practice",
		never(func(x *look) string {
			kind, _, _ := x.fabric()
			return when(x.job.Base == "open" && strings.HasPrefix(kind, "woven"), "%s under an open base", kind)
		})},
	{"no open base without fabric", "an open base on soil stands on a geotextile", "review A3 and D; CMHA PAV-FAQ-002, seen",
		never(func(x *look) string {
			_, class, _ := x.fabric()
			return when(x.job.Base == "open" && class == 9 && x.job.Soil.Word != "rock" && !x.lined(), "no fabric under an open base")
		})},
	{"no mason sand", "mason sand is no bedding", "facts on structure 2.2 (C33 sand), seen; review A3",
		never(func(x *look) string {
			for _, c := range x.of("bedding_course") {
				if m := strings.ToLower(c.Attribute("material").Value.String()); strings.Contains(m, "mason") || strings.Contains(m, "c144") {
					return m
				}
			}
			return ""
		})},
	{"no sand under open joints", "bedding under open joints is stone", "facts 5, seen in built examples",
		never(func(x *look) string {
			for _, c := range x.of("bedding_course") {
				m := strings.ToLower(c.Attribute("material").Value.String())
				return when(x.permeable() && strings.Contains(m, "sand"), "%s under open joints", m)
			}
			return ""
		})},
	{"sand joints on open base only for feet", "sand joints on an open base only for feet", "CMHA PAV-FAQ-002, October 2025, seen; facts 5",
		never(func(x *look) string {
			return when(x.job.Base == "open" && !x.permeable() && vehicles(x.job), "sand joints on an open base under %s", x.job.Use)
		})},
	{"open joints on an open base", "open joints only where the base has room for the rain", "facts 5: every built example with open joints stands on open stone, seen; common practice",
		never(func(x *look) string {
			return when(x.job.Base == "dense" && x.job.Joints == "open", "open joints on a dense base")
		})},
	{"choked below the bedding", "No. 57 between No. 8 and No. 2: No. 2 right under No. 8 fails the filter rule", "facts on aggregates-drainage 2.3, computed from ASTM D448",
		never(func(x *look) string {
			m := x.under().Attribute("material").Value.String()
			return when(x.job.Base == "open" && (strings.HasPrefix(m, "No. 2 ") || strings.HasPrefix(m, "No. 3 ") || strings.HasPrefix(m, "No. 4 ")), "%s right under the bedding", m)
		})},
	{"open edges for trucks", "a cast curb for lots, alleys and streets on an open base", "ICPI Faster Edge Restraints, seen; facts 5",
		never(func(x *look) string {
			for _, c := range x.of("edge_course") {
				m := strings.ToLower(c.Attribute("material").Value.String())
				return when(trucks(x.job) && x.job.Use != "heavy_driveway" && !strings.Contains(m, "concrete"), "%s under %s", m, x.job.Use)
			}
			return ""
		})},
}

func first(list []float64) float64 {
	if len(list) == 0 {
		return 0
	}
	return list[0]
}
