package survey

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/internal/sieve"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// entry is one thing that a job can tell. The survey writes jobs entry by entry
// and leaves them out entry by entry.
type entry struct {
	// name is the input that the entry gives, or a name of its own for an entry
	// from which inputs are worked out.
	name string
	// path is where it stands in a job file.
	path     string
	form     form
	required bool
	// set writes the value: a float64 in SI, a bool, or the text of a word.
	set func(*site.Site, any)
	// dim is the dimension of a measured value.
	dim quantity.Dimension
	// sieve is the opening of an entry of the sieve curve.
	sieve quantity.Length
}

type form uint8

const (
	numeric form = iota
	flag
	worded
	free
)

func flagAt(name, path string, at func(*site.Site) **bool) entry {
	return entry{name: name, path: path, form: flag, set: func(s *site.Site, v any) { b := v.(bool); *at(s) = &b }}
}

func wordAt[W ~string](name, path string, at func(*site.Site) *W) entry {
	return entry{name: name, path: path, form: worded, set: func(s *site.Site, v any) { *at(s) = W(v.(string)) }}
}

func textAt(name, path string, at func(*site.Site) *string) entry {
	e := wordAt(name, path, at)
	e.form = free
	return e
}

type measured interface {
	~float64
	quantity.Measure
}

func measureAt[M measured](name, path string, at func(*site.Site) **M) entry {
	return entry{name: name, path: path, dim: M(0).Quantity().Dim, set: func(s *site.Site, v any) { m := M(v.(float64)); *at(s) = &m }}
}

func numberAt(name, path string, at func(*site.Site) **float64) entry {
	return entry{name: name, path: path, dim: quantity.DimRatio, set: func(s *site.Site, v any) { x := v.(float64); *at(s) = &x }}
}

// listAt is a list, told as one value: no condition of a rule tells one list
// from another but by what is calculated from it.
func listAt(name, path string, at func(*site.Site) *[]float64) entry {
	return entry{name: name, path: path, dim: quantity.DimRatio, set: func(s *site.Site, v any) { *at(s) = []float64{v.(float64)} }}
}

func sieveAt(name string, opening quantity.Length) entry {
	return entry{name: "sieve " + name, path: "soil.sieves[].passing", dim: quantity.DimShare, sieve: opening, set: func(s *site.Site, v any) {
		s.Soil.Sieves = append(s.Soil.Sieves, site.Sieve{Opening: opening, Passing: quantity.Share(v.(float64))})
	}}
}

func needed(e entry) entry {
	e.required = true
	return e
}

// entries lists what a job can tell. Names that decide nothing, and overrides,
// are left out: the survey asks what the rules answer by themselves.
func entries() []entry {
	var out []entry
	for _, group := range [][]entry{placeEntries(), trafficEntries(), soilEntries(), sieveEntries(), waterEntries(), nearbyEntries()} {
		out = append(out, group...)
	}
	return out
}

func placeEntries() []entry {
	return []entry{
		needed(entry{name: "area", path: "area", dim: quantity.DimArea, set: func(s *site.Site, v any) { s.Area = quantity.Area(v.(float64)) }}),
		needed(wordAt("use", "use", func(s *site.Site) *site.Use { return &s.Use })),
		needed(wordAt("base", "base", func(s *site.Site) *site.Base { return &s.Base })),
		measureAt("perimeter", "perimeter", func(s *site.Site) **quantity.Length { return &s.Perimeter }),
		measureAt("surface_slope", "surface_slope", func(s *site.Site) **quantity.Share { return &s.SurfaceSlope }),
		measureAt("paver.thickness", "paver.thickness", func(s *site.Site) **quantity.Length { return &s.Paver.Thickness }),
		flagAt("paver.herringbone", "paver.herringbone", func(s *site.Site) **bool { return &s.Paver.Herringbone }),
		textAt("compactor", "compactor", func(s *site.Site) *string { return &s.Compactor }),
	}
}

func trafficEntries() []entry {
	return []entry{
		numberAt("traffic.trucks_per_day", "traffic.trucks_per_day", func(s *site.Site) **float64 { return &s.Traffic.TrucksPerDay }),
		numberAt("traffic.trucks_over_life", "traffic.trucks_over_life", func(s *site.Site) **float64 { return &s.Traffic.TrucksOverLife }),
		numberAt("traffic.esal_per_day", "traffic.esal_per_day", func(s *site.Site) **float64 { return &s.Traffic.ESALPerDay }),
		numberAt("traffic.esal_over_life", "traffic.esal_over_life", func(s *site.Site) **float64 { return &s.Traffic.ESALOverLife }),
		measureAt("traffic.life", "traffic.life", func(s *site.Site) **quantity.Time { return &s.Traffic.Life }),
		measureAt("traffic.wheel_load", "traffic.wheel_load", func(s *site.Site) **quantity.Force { return &s.Traffic.WheelLoad }),
		measureAt("traffic.tire_pressure", "traffic.tire_pressure", func(s *site.Site) **quantity.Pressure { return &s.Traffic.TirePressure }),
	}
}

func soilEntries() []entry {
	return []entry{
		wordAt("soil.word", "soil.word", func(s *site.Site) *site.Soil { return &s.Soil.Word }),
		wordAt("soil.consistency", "soil.consistency", func(s *site.Site) *ground.Consistency { return &s.Soil.Consistency }),
		wordAt("soil.uscs", "soil.uscs", func(s *site.Site) *ground.Group { return &s.Soil.Group }),
		listAt("soil.cbr", "soil.cbr", func(s *site.Site) *[]float64 { return &s.Soil.CBR }),
		wordAt("soil.dcp.hammer", "soil.dcp.hammer", func(s *site.Site) *ground.DCPHammer { return &s.Soil.DCP.Hammer }),
		listAt("soil.penetration_index", "soil.dcp.mm_per_blow", func(s *site.Site) *[]float64 { return &s.Soil.DCP.MMPerBlow }),
		measureAt("soil.undrained_strength", "soil.undrained_strength", func(s *site.Site) **quantity.Pressure { return &s.Soil.UndrainedStrength }),
		measureAt("soil.pocket_penetrometer", "soil.pocket_penetrometer", func(s *site.Site) **quantity.Pressure { return &s.Soil.PocketPenetrometer }),
		measureAt("soil.passing_0_02_mm", "soil.passing_0_02_mm", func(s *site.Site) **quantity.Share { return &s.Soil.Passing002 }),
		numberAt("soil.liquid_limit", "soil.liquid_limit", func(s *site.Site) **float64 { return &s.Soil.LiquidLimit }),
		numberAt("soil.plastic_limit", "soil.plastic_limit", func(s *site.Site) **float64 { return &s.Soil.PlasticLimit }),
		flagAt("soil.nonplastic", "soil.nonplastic", func(s *site.Site) **bool { return &s.Soil.Nonplastic }),
		numberAt("soil.liquid_limit_oven_dried", "soil.liquid_limit_oven_dried", func(s *site.Site) **float64 { return &s.Soil.LiquidLimitOvenDried }),
		flagAt("soil.organic", "soil.organic", func(s *site.Site) **bool { return &s.Soil.Organic }),
		flagAt("soil.uncontrolled_fill", "soil.uncontrolled_fill", func(s *site.Site) **bool { return &s.Soil.UncontrolledFill }),
		flagAt("soil.expansive", "soil.expansive", func(s *site.Site) **bool { return &s.Soil.Expansive }),
	}
}

// coarsest and finest are the sieves that close the curve at its ends, so that
// every size between can be told.
const (
	coarsest = "3 in"
	finest   = "0.002 mm"
)

// sieveEntries lists the sieves of a curve from the coarsest. Those in the
// middle are those whose passing percent is an input of its own.
func sieveEntries() []entry {
	var out []entry
	for _, name := range []string{coarsest, "No. 4", "No. 10", "No. 40", "No. 200"} {
		opening, err := sieve.Opening(name)
		if err != nil {
			panic(fmt.Sprintf("survey: sieve %s: %v", name, err)) // a name of this table
		}
		out = append(out, sieveAt(name, opening))
	}
	return append(out, sieveAt(finest, quantity.Millimeters(0.002)))
}

// sieveOf returns the entry from which the percent passing a named sieve is had.
func sieveOf(input string) (string, bool) {
	number, ok := strings.CutPrefix(input, "soil.passing_no")
	return "sieve No. " + number, ok
}

func waterEntries() []entry {
	return []entry{
		measureAt("water.groundwater", "water.groundwater", func(s *site.Site) **quantity.Length { return &s.Water.GroundwaterDepth }),
		flagAt("water.wet_ground", "water.wet_ground", func(s *site.Site) **bool { return &s.Water.WetGround }),
		measureAt("frost.freezing_index", "frost.freezing_index", func(s *site.Site) **quantity.FreezingIndex { return &s.Frost.FreezingIndex }),
		measureAt("frost.depth", "frost.depth", func(s *site.Site) **quantity.Length { return &s.Frost.Depth }),
		measureAt("frost.mean_annual_temperature", "frost.mean_annual_temperature", func(s *site.Site) **quantity.Temperature { return &s.Frost.MeanAnnualTemperature }),
		measureAt("frost.freezing_season", "frost.freezing_season", func(s *site.Site) **quantity.Time { return &s.Frost.FreezingSeason }),
		flagAt("frost.frost_free", "frost.frost_free", func(s *site.Site) **bool { return &s.Frost.FrostFree }),
		flagAt("rain.storage", "rain.storage", func(s *site.Site) **bool { return &s.Rain.StorageWanted }),
		measureAt("rain.depth", "rain.depth", func(s *site.Site) **quantity.Length { return &s.Rain.Depth }),
		measureAt("rain.run_on_area", "rain.run_on_area", func(s *site.Site) **quantity.Area { return &s.Rain.RunOnArea }),
		measureAt("rain.infiltration", "rain.infiltration", func(s *site.Site) **quantity.Rate { return &s.Rain.InfiltrationRate }),
		measureAt("rain.drain_within", "rain.drain_within", func(s *site.Site) **quantity.Time { return &s.Rain.DrainTimeLimit }),
	}
}

func nearbyEntries() []entry {
	return []entry{
		flagAt("nearby.utilities", "nearby.utilities", func(s *site.Site) **bool { return &s.Nearby.Utilities }),
		measureAt("nearby.well_distance", "nearby.well_distance", func(s *site.Site) **quantity.Length { return &s.Nearby.WellDistance }),
		measureAt("nearby.foundation_distance", "nearby.foundation_distance", func(s *site.Site) **quantity.Length { return &s.Nearby.FoundationDistance }),
	}
}
