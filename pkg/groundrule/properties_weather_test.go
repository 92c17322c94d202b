package groundrule_test

import (
	"fmt"
	"math"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

var weatherProperties = []property{
	rising("deeper frost", "deeper frost is given no less", func(job *site.Site) (*site.Site, []step) {
		base := without(job, "frost")
		return base, append([]step{{"frost.frost_free", "yes"}}, freezing("frost.depth", "0 in", "3 in", "8 in", "12 in", "18 in", "30 in", "48 in", "72 in")...)
	}),
	rising("colder winters", "a greater freezing index is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "frost"), row("frost.freezing_index", "1 F-days", "50 F-days", "200 F-days", "600 F-days", "1,200 F-days", "2,400 F-days", "5,000 F-days")
	}),
	rising("water rises", "higher groundwater is given no less", func(job *site.Site) (*site.Site, []step) {
		return without(job, "water.groundwater"), row("water.groundwater", "30 ft", "10 ft", "6 ft", "4 ft", "3 ft", "30 in", "24 in", "20 in", "16 in", "12 in", "8 in", "3 in")
	}),
	rising("wet ground", "ground that stays wet is given no less than dry ground", func(job *site.Site) (*site.Site, []step) {
		return job, row("water.wet_ground", "no", "yes")
	}),
	rising("slower soil", "a soil that takes less water is given no less", func(job *site.Site) (*site.Site, []step) {
		if job.Base != "open" {
			return job, nil
		}
		return without(job, "rain.infiltration"), row("rain.infiltration", "10 in/h", "2 in/h", "1 in/h", "0.6 in/h", "0.5 in/h", "0.31 in/h", "0.29 in/h", "0.1 in/h", "0.04 in/h", "0 in/h")
	}),
	rising("more rain to hold", "a greater rain is given no less", func(job *site.Site) (*site.Site, []step) {
		if job.Base != "open" {
			return job, nil
		}
		return with(job, "rain.storage", "yes"), row("rain.depth", "0.2 in", "0.5 in", "1 in", "1.5 in", "2.5 in", "4 in")
	}),
	rising("steeper", "a steeper permeable surface is given no less", func(job *site.Site) (*site.Site, []step) {
		if job.Base != "open" {
			return job, nil
		}
		return job, row("surface_slope", "1 %", "2 %", "2.01 %", "3 %", "4 %", "5 %", "6 %", "8 %")
	}),
	{"clean ground in frost", "a clean sand or gravel is built in frost as without it", "facts 9, UFC Table 19-2 relayed; review B1; requirement 11", func(book *groundrule.Book, job *site.Site) string {
		for _, class := range []string{"GW", "GP", "SW", "SP"} {
			base := with(untested(job), "soil.uscs", class, "soil.cbr", "20", "soil.sieves[0].sieve", "No. 4", "soil.sieves[0].passing", map[byte]string{'G': "40", 'S': "90"}[class[0]],
				"soil.sieves[1].sieve", "No. 200", "soil.sieves[1].passing", "2")
			warm := come(book, frostless(base))
			if cold := come(book, with(without(base, "frost"), "frost.depth", "36 in")); !warm.none && !same(warm, cold) {
				return fmt.Sprintf("%s without frost: %s\nin frost of 36 in: %s", class, warm, cold)
			}
		}
		return ""
	}},
	{"shallow frost", "frost that ends within the section adds nothing", "facts 9 (C = a - p), computed; requirement 11; review B8", func(book *groundrule.Book, job *site.Site) string {
		warm, err := judged(book, frostless(job))
		if err != nil || !warm.built() || job.Base == "panel" {
			return ""
		}
		shallow := with(without(job, "frost"), "frost.depth", fmt.Sprintf("%.2f in", warm.dig()-0.1))
		if a, b := come(book, frostless(job)), come(book, shallow); !same(a, b) {
			return fmt.Sprintf("without frost: %s, a dig of %.2f in\nwith frost to %.2f in: %s", a, warm.dig(), warm.dig()-0.1, b)
		}
		return ""
	}},
	{"presumed values told", "to tell what was presumed leaves the section as it is", "requirement; search A6", presumedTold},
	{"better than presumed", "to confirm a better strength than was presumed never adds stone", "requirement 2; review A2", betterTold},
	{"a hair", "a value moved by a hair moves the stone by no more than one step", "requirement 2; search A7", hair},
}

// freezing are steps that say, beside their value, that the ground freezes.
func freezing(path string, texts ...string) []step {
	var out []step
	for _, s := range row(path, texts...) {
		out = append(out, append(step{"frost.frost_free", ""}, s...))
	}
	return out
}

// presumedAt are the keys by which what a decision presumes can be told.
var presumedAt = map[string]string{
	"soil_class": "soil.uscs", "cbr": "soil.cbr", "ground_wet": "water.wet_ground", "wheel_load": "traffic.wheel_load", "tire_pressure": "traffic.tire_pressure",
	"esal": "traffic.esal_over_life", "infiltration": "rain.infiltration", "compactor_used": "compactor", "design_life": "traffic.life", "surface_slope": "surface_slope",
	"slope": "surface_slope", "frost_depth": "frost.depth",
}

func presumedTold(book *groundrule.Book, job *site.Site) string {
	x, err := judged(book, job)
	if err != nil || !x.built() {
		return ""
	}
	before := come(book, job)
	for _, p := range x.Confirm {
		path, known := presumedAt[p.Name]
		if !known {
			continue
		}
		text := p.Value.String()
		if q, measured := p.Value.Measure(); measured {
			text = fmt.Sprintf("%.17g", q.SI)
			if q.Dim != quantity.DimRatio && q.Dim != quantity.DimShare {
				text += " " + q.Dim.BaseUnit()
			}
		}
		if path == "compactor" {
			text = word(p.Value)
		}
		told := copied(job)
		if !put(told, step{path, text}) {
			continue
		}
		if after := come(book, told); !same(before, after) {
			return fmt.Sprintf("%s presumed to be %s: %s\n%s told: %s", p.Name, p.Value, before, path, after)
		}
	}
	return ""
}

func betterTold(book *groundrule.Book, job *site.Site) string {
	if read(job).tested {
		return ""
	}
	x, err := judged(book, job)
	if err != nil || !x.built() || x.claim() == 0 {
		return ""
	}
	before := come(book, job)
	tests := []step{{"soil.cbr", fmt.Sprintf("%.17g", x.claim())}, {"soil.cbr", fmt.Sprintf("%.17g", x.claim()*1.3)}, {"soil.cbr", fmt.Sprintf("%.17g", x.claim()*3)}}
	if x.ground.fine && x.claim() <= 2 {
		tests = append(tests, step{"soil.consistency", "stiff"}, step{"soil.consistency", "very stiff"}, step{"soil.consistency", "hard"})
	}
	for _, test := range tests {
		told := copied(job)
		if !put(told, test) {
			continue
		}
		if after := come(book, told); after.none || after.stone > before.stone+1e-6 {
			return fmt.Sprintf("untested, CBR %.3g: %s\n%v: %s", x.claim(), before, test, after)
		}
	}
	return ""
}

// classLimits are the limits of classes in published tables, at which a section may
// change by more than a step: the path, and the values in the unit of the field.
var classLimits = map[string][]float64{
	"soil.cbr":               {0.5, 1, 2, 3, 5, 8, 10}, // M 288 and FHWA overlaps and applications; ranges of correlations
	"soil.passing_0_02_mm":   {0.015, 0.03, 0.06, 0.1, 0.15, 0.2},
	"soil.liquid_limit":      {50},
	"surface_slope":          {0.02, 0.05, 0.07, 0.1, 0.12},
	"rain.infiltration":      {0.05 * 0.0254 / 3600, 0.3 * 0.0254 / 3600, 0.5 * 0.0254 / 3600, 0.6 * 0.0254 / 3600},
	"traffic.wheel_load":     {},
	"frost.freezing_index":   {},
	"traffic.esal_over_life": {10_000, 20_000, 50_000, 500_000, 1_000_000},
}

// hair moves each number that was told by a millionth, up and down.
func hair(book *groundrule.Book, job *site.Site) string {
	before := come(book, job)
	if before.none {
		return ""
	}
	for _, f := range site.Fields() {
		x, given := f.Get(job)
		v, isNumber := x.(float64)
		if list, isList := x.([]float64); isList && len(list) > 0 {
			v, isNumber = list[0], true
		}
		if !given || !isNumber || v == 0 || slices.ContainsFunc(classLimits[f.Path], func(limit float64) bool { return math.Abs(v-limit) < 1e-5*limit }) {
			continue
		}
		for _, by := range []float64{1 - 1e-6, 1 + 1e-6} {
			moved := copied(job)
			var y any = v * by
			if list, isList := x.([]float64); isList {
				list = slices.Clone(list)
				list[0] = v * by
				y = list
			}
			if f.Set(moved, y) != nil || moved.Validate() != nil {
				continue
			}
			if after := come(book, moved); !after.none && math.Abs(after.stone-before.stone) > 1.01 {
				return fmt.Sprintf("%s: %s\nmoved by %+.0e: %s", f.Path, before, by-1, after)
			}
		}
	}
	return ""
}
