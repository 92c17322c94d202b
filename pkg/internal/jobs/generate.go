package jobs

import (
	"fmt"
	"iter"
	"math/rand/v2"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// Generate makes up count plausible jobs, named "job 000001" and on. A job of a
// seed is the same job however many are asked for, on every machine and at any
// time, and every job validates.
//
// The mix is demonstration data, not a count of anything: mostly patios, walks
// and car driveways on dense bases, some permeable ones that hold rain, a few
// heavier ones, and now and then a job that no rulebook should accept.
//
// Of the words that the table of a rulebook has and the mix does not, some take the
// place of those of the mix, and any takes the place of one that the table lacks. A
// nil table has those of the mix. Of a table, jobs now and then say what the mix does
// not draw.
func Generate(t *site.Table, count int, seed uint64) iter.Seq[*site.Site] {
	words := map[string][]string{}
	var fields []site.Field
	if t != nil {
		fields = t.Fields()
		for _, f := range fields {
			for _, w := range f.Vocabulary.Words {
				words[f.Path] = append(words[f.Path], w.GoValue())
			}
		}
	}
	return func(yield func(*site.Site) bool) {
		for i := range count {
			job := plausible(words, i, seed)
			more(fields, i, seed, job)
			if !yield(job) {
				return
			}
		}
	}
}

// Sure returns jobs that cannot fail to be read in the form in which an archive
// has those that can.
func Sure(jobs iter.Seq[*site.Site]) iter.Seq2[*site.Site, error] {
	return func(yield func(*site.Site, error) bool) {
		for job := range jobs {
			if !yield(job, nil) {
				return
			}
		}
	}
}

var uses = []share[string]{
	{61, "foot"}, {26, "car_driveway"}, {5, "heavy_driveway"}, {3, "light_parking"},
	{1, "fire_lane"}, {3, "residential_street"}, {0.6, "collector_street"}, {0.4, "truck_yard"},
}

func plausible(words map[string][]string, i int, seed uint64) *site.Site {
	d := draw{rand.New(rand.NewPCG(seed, uint64(i)))}
	s := &site.Site{Job: fmt.Sprintf("job %06d", i+1)}
	s.Use = spoken(d, words["use"], pick(d, uses), uses)
	s.Base = spoken(d, words["base"], baseFor(d, s.Use), bases)
	measure(d, s)
	traffic(d, s)
	soil(d, &s.Soil)
	winter(d, s)
	water(d, s)
	rain(d, s)
	surface(d, s)
	s.Soil.Word = spoken(d, words["soil.word"], s.Soil.Word, soils)
	s.Compactor = spoken(d, words["compactor"], s.Compactor, compactors)
	return s
}

var bases = []share[string]{{79, "dense"}, {20.7, "open"}, {0.3, "panel"}}

func baseFor(d draw, use string) string {
	if use == "foot" {
		return pick(d, []share[string]{{82, "dense"}, {10, "open"}, {8, "panel"}})
	}
	return pick(d, bases)
}

// spoken is a word of the table: the one drawn from the mix or, now and then, one
// that the mix does not have. It draws nothing where both have the same words.
func spoken(d draw, words []string, drawn string, mix []share[string]) string {
	other := func(word string) bool {
		return !slices.ContainsFunc(mix, func(s share[string]) bool { return s.what == word })
	}
	more := slices.DeleteFunc(slices.Clone(words), func(word string) bool { return !other(word) })
	switch has := slices.Contains(words, drawn); {
	case len(words) == 0 || drawn == "", has && len(more) == 0:
		return drawn
	case len(more) == 0:
		return oneOf(d, words...)
	case !has || d.chance(15):
		return oneOf(d, more...)
	}
	return drawn
}

// measure draws the area, and for most jobs the perimeter, as of a rectangle.
func measure(d draw, s *site.Site) {
	var area, step float64
	switch s.Use {
	case "foot":
		area, step = d.among(50, 110, 170, 240, 310, 380, 460, 560, 700, 1000, 2600), 5
	case "car_driveway", "heavy_driveway":
		area, step = d.among(300, 420, 500, 580, 660, 760, 880, 1040, 1300, 1800, 3600), 10
	default:
		area, step = d.among(1500, 2500, 4000, 6000, 9000, 15000, 30000), 50
	}
	area = stepped(area, step)
	s.Area = quantity.SquareFeet(area)
	if !d.chance(70) {
		return
	}
	width := d.between(8, 24)
	if s.Use == "foot" && d.chance(35) {
		width = d.between(3, 5) // a walk
	}
	if width*width > area {
		width = 9
	}
	s.Perimeter = feet(2*(width+area/width), 1)
}

// traffic is told for few jobs: what comes on a driveway is seldom counted.
func traffic(d draw, s *site.Site) {
	t := &s.Traffic
	switch s.Use {
	case "car_driveway":
		if d.chance(4) {
			t.WheelLoad = new(quantity.PoundsForce(oneOf(d, 2000.0, 2500, 3000)))
		}
	case "heavy_driveway", "light_parking":
		switch {
		case d.chance(30):
			t.TrucksPerDay = new(oneOf(d, 0.15, 0.3, 0.5, 1, 2, 3))
		case d.chance(10):
			t.TrucksOverLife = new(stepped(d.between(200, 15000), 100))
		}
	case "fire_lane":
		if d.chance(40) {
			t.WheelLoad = new(quantity.PoundsForce(oneOf(d, 10000.0, 11500, 13000)))
		}
	case "residential_street", "collector_street", "truck_yard":
		switch {
		case d.chance(25):
			t.ESALOverLife = new(stepped(d.between(20000, 400000), 5000))
		case d.chance(15):
			t.ESALPerDay = new(stepped(d.between(2, 40), 1))
		}
	}
	if s.Use != "foot" && d.chance(8) {
		t.Life = new(quantity.Years(oneOf(d, 15.0, 20, 25, 30, 40)))
	}
}

var compactors = []share[string]{{70, "plate_compactor"}, {17, "reversible_plate"}, {3, "hand_tamper"}, {5, "trench_roller"}, {5, "ride_on_roller"}}

// surface draws slope, pavers, compactor and what is near.
func surface(d draw, s *site.Site) {
	if d.chance(75) {
		s.SurfaceSlope = new(oneOf[quantity.Share](d, 0.01, 0.015, 0.02, 0.02, 0.02, 0.025, 0.03))
		if d.chance(12) {
			s.SurfaceSlope = new(oneOf[quantity.Share](d, 0.005, 0.04, 0.05, 0.06, 0.08, 0.1))
		} else if d.chance(1) {
			s.SurfaceSlope = new(oneOf[quantity.Share](d, 0.13, 0.15, 0.18))
		}
	}
	if d.chance(18) {
		s.Paver.Thickness = oneOf(d, new(quantity.Millimeters(60)), new(quantity.Inches(2.375)), new(quantity.Millimeters(80)), new(quantity.Inches(3.125)))
	}
	if d.chance(10) {
		s.Paver.Herringbone = new(d.chance(70))
	}
	if d.chance(45) {
		s.Compactor = pick(d, compactors)
	}
	if d.chance(30) {
		s.Nearby.Utilities = new(d.chance(60))
	}
	if d.chance(8) && s.Nearby.FoundationDistance == nil {
		s.Nearby.FoundationDistance = feet(d.between(1, 40), 1)
	}
}
