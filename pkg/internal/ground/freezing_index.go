package ground

import (
	"cmp"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FreezingSurface is what lies at the surface while the ground freezes.
type FreezingSurface string

// The surfaces.
const (
	SnowSurface       FreezingSurface = "snow"
	ConcreteSurface   FreezingSurface = "portland cement concrete"
	BituminousSurface FreezingSurface = "bituminous"
	BareSoilSurface   FreezingSurface = "bare soil"
	ShadedSurface     FreezingSurface = "shaded"
	TurfSurface       FreezingSurface = "turf"
	TreesSurface      FreezingSurface = "tree-covered"
)

// surfaces holds the freezing n-factors of TM 5-852-4/AFM 88-19 Ch. 4 Table 4-1,
// seen. It has none for pavers: concrete is the nearest, 1.0 is safe.
var surfaces = []struct {
	surface     FreezingSurface
	word, about string
	n           float64
}{
	{SnowSurface, "surface_snow", "snow left lying", 1.0},
	{ConcreteSurface, "surface_concrete", "portland cement concrete, kept clear of snow", 0.75},
	{BituminousSurface, "surface_bituminous", "bituminous pavement, kept clear of snow", 0.7},
	{BareSoilSurface, "surface_bare_soil", "bare soil", 0.7},
	{ShadedSurface, "surface_shaded", "a surface in shade", 0.9},
	{TurfSurface, "surface_turf", "turf", 0.5},
	{TreesSurface, "surface_trees", "ground under trees", 0.3},
}

// Vocabulary lists the surfaces.
func (FreezingSurface) Vocabulary() value.Vocabulary {
	v := value.Vocabulary{Name: "freezing_surface", About: "what lies at the surface while the ground freezes"}
	for _, each := range surfaces {
		v.Words = append(v.Words, value.WordEntry{Name: each.word, Label: string(each.surface), About: each.about})
	}
	return v
}

// The coldest inhabited places stay under 20,000 F-days in a winter.
var airIndex = calculation.Range{Name: "air freezing index", Low: 0, High: 20_000, Unit: "F-days", Document: "freezing index of one winter"}

// NFactor returns the surface freezing index over the air freezing index.
func NFactor(s FreezingSurface) (float64, error) {
	for _, each := range surfaces {
		if each.surface == s {
			return each.n, nil
		}
	}
	return 0, calculation.UnknownWord("surface", s)
}

// SurfaceFreezingIndex returns the freezing index at the surface, n times that of
// the air, 0 to 20,000 F-days.
func SurfaceFreezingIndex(air quantity.FreezingIndex, s FreezingSurface) (quantity.FreezingIndex, error) {
	n, err := NFactor(s)
	return onlyIf(quantity.FreezingIndex(n*float64(air)), cmp.Or(err, airIndex.CheckMeasure(air)))
}
