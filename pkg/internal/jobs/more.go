package jobs

import (
	"math/rand/v2"
	"strings"

	"example.com/groundrule/pkg/site"
)

// seldom has the keys of the table that the mix does not draw, with the percentage
// of jobs that say each. Those of a group are told together, more than half of them.
var seldom = []share[string]{
	{2, "traffic.tire_pressure"}, {3, "soil.probe"}, {3, "soil.boot"}, {1, "soil.firmest_place"}, {2, "soil.points"}, {3, "soil.tested_in"},
	{4, "soil.topsoil_depth"}, {1, "soil.fill_depth"}, {2, "soil.firm_depth"}, {2, "soil.refusal_depth"}, {1, "soil.contaminated"},
	{2, "soil.soft_spots"}, {1, "soil.fill_removed"}, {1, "rain.infiltrate"}, {8, "ground_falls"}, {2, "joints"}, {3, "built_in"},
	{4, "nearby.downspouts"}, {2, "nearby.window_wells"}, {3, "nearby.roots"}, {4, "nearby.access_width"}, {5, "existing."}, {5, "heights."}, {3, "beside."},
}

// more lets a job say, now and then, what the mix leaves out: words of the table,
// and values of the size of its examples. It draws from a stream of its own, so that
// the rest of the job is the same without it.
func more(fields []site.Field, i int, seed uint64, s *site.Site) {
	d := wild{draw{rand.New(rand.NewPCG(^seed, uint64(i)))}, fields, nearExample}
	for _, key := range seldom {
		if !d.chance(key.percent) {
			continue
		}
		for _, f := range fields {
			if f.Path == key.what || strings.HasSuffix(key.what, ".") && strings.HasPrefix(f.Path, key.what) && d.chance(60) {
				d.field(s, f)
			}
		}
	}
	d.mend(s)
}

// nearExample is a value of the size of the example of a field.
func nearExample(d draw, f site.Field) float64 {
	least, most := f.Bounds()
	usual, _ := f.Sample().(float64)
	return min(most, max(least, usual*oneOf(d, 0.5, 0.75, 1, 1.25, 1.5, 2)))
}
