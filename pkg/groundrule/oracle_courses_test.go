package groundrule_test

import (
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/site"
)

// baseLeast is the least compacted base by use and base, in inches: ICPI
// "Construction Tolerances", seen, for dense bases; ICPI "Faster Edge Restraints",
// seen, for permeable ones of No. 57 alone.
var baseLeast = map[string]func(string) float64{
	"dense": func(u string) float64 {
		return map[string]float64{"foot": 4, "car_driveway": 6, "heavy_driveway": 6}[u]
	},
	"open": func(u string) float64 {
		return map[string]float64{"foot": 6, "car_driveway": 8, "heavy_driveway": 8}[u]
	},
}

var coursesAtLeast = []sentence{
	{"strength claimed", "the least of few readings, the worst of what contradicts itself, and no more than untested ground is taken for", "facts 1, 2 and 3; review A1, A9, A10; search A1, A2",
		never(func(x *look) string {
			limit, why := x.ground.most(x.spotTold())
			return when(x.claim() > limit*1.01, "designed for CBR %.3g, at most %.3g: %s", x.claim(), limit, why)
		})},
	{"base at least", "4 in of base under feet, 6 in under cars, 8 in under streets and lots; permeable 6 and 8 in", "ICPI Construction Tolerances and Faster Edge Restraints, seen; facts on structure 2.2; facts 5",
		never(func(x *look) string {
			least := baseLeast[x.job.Base]
			if least == nil {
				return ""
			}
			want := least(x.job.Use)
			if want == 0 {
				want = 8
			}
			if x.job.Base == "open" && !x.permeable() {
				want = 4
			}
			return when(x.stone() < x.nominal(want)-0.01, "%.2f in of stone, at least %.0f", x.stone(), want)
		})},
	{"cover of the wheel", "what the published cover curve for an 18-kip axle leaves under 80 mm pavers", "UFC 3-250-01 Figure E-1, relayed, +-10 %, less 6.5 in; facts 8",
		never(func(x *look) string {
			want := coverLeast(x)
			return when(x.stone() < want-0.01, "%.2f in of stone on CBR %.3g, at least %.2f", x.stone(), x.claim(), want)
		})},
	{"stone for the axles", "the stone of the AASHTO equation for the axles that were told", "AASHTO 1993 as relayed, facts on structure 1.1 and the table of facts 8 (computed)",
		never(func(x *look) string {
			want := aashtoLeast(x)
			return when(x.stone() < want-0.01, "%.2f in of stone, at least %.2f", x.stone(), want)
		})},
	{"platform on soft ground", "the first stone over soft clay, silt or what nobody named is 12 in below CBR 1, 8 in to CBR 2, 6 in to CBR 3 under plant", "FHWA NHI-07-092, memory; Maryland 211, seen; facts 4, practice",
		never(func(x *look) string {
			loose := x.ground.class != "" && !x.ground.fine // sand and gravel are compacted, not bridged
			if x.job.Base == "panel" || !x.ground.tested || x.spotTold() || loose {
				return ""
			}
			want := 0.0
			switch c := x.ground.least; {
			case c < 1:
				want = 8 // 12 in where plant drives on it; a hand-built patio is not that
			case c < 2:
				want = 8
			case c < 3:
				want = 6
			}
			if vehicles(x.job) && x.ground.least < 1 {
				want = 12
			}
			return when(x.stone() < x.nominal(want)-0.01, "%.2f in of stone on CBR %.2g, at least %.0f", x.stone(), x.ground.least, want)
		})},
	{"pavers at least", "60 mm under feet and cars, 80 mm under trucks, 80 mm where vehicles drive on open joints", "PAV-TEC-002-22 and ICPI 2020, seen; facts on structure 2.2",
		never(func(x *look) string {
			want := 60 / 25.4
			if trucks(x.job) || vehicles(x.job) && x.permeable() {
				want = 80 / 25.4
			}
			return when(x.paver() < want-0.07, "pavers of %.2f in, at least %.2f", x.paver(), want)
		})},
	{"herringbone", "herringbone where vehicles drive", "ICPI Tech Spec 4 and UFGS, seen; facts on structure 2.2",
		never(func(x *look) string {
			for _, c := range x.of("paver_course") {
				if p := c.Attribute("pattern").Value.String(); vehicles(x.job) && p != "" && !strings.Contains(p, "herringbone") {
					return p + " under " + x.job.Use
				}
			}
			return ""
		})},
	{"bedding", "1 in of sand (3/4 to 1-1/2), or 1-1/2 to 2 in of No. 8 on an open base", "ICPI Tech Spec 4 and BIA 14A, seen; facts 5, memory high",
		never(func(x *look) string {
			beds := x.of("bedding_course")
			if len(beds) == 0 {
				return ""
			}
			c := beds[0]
			least, most := 0.74, 1.51
			if x.job.Base == "open" && strings.Contains(c.Attribute("material").Value.String(), "stone") {
				least, most = 1.49, 2.01
			}
			t := inches(c.Bottom) - inches(c.Top)
			return when(t < least || t > most, "%.2f in of %s", t, c.Attribute("material").Value)
		})},
	{"adds up", "the courses add up to the dig, without a gap", "requirement",
		never(func(x *look) string {
			at := 0.0
			for _, c := range slices.Backward(x.Courses) {
				top, bottom := inches(c.Top), inches(c.Bottom)
				if bottom-top < 0.001 || c.Is == "drain_course" {
					continue
				}
				if math.Abs(top-at) > 0.002 {
					return c.Name + " does not begin where the one above it ends"
				}
				at = bottom
			}
			return when(math.Abs(at-x.dig()) > 0.002, "courses to %.3f in, the dig to %.3f", at, x.dig())
		})},
	{"whole steps", "the section adds up to the sixteenth of an inch, or to 5 mm where the crew builds in millimeters, and is built so", "requirement; review E",
		never(func(x *look) string {
			unit, name := 1.0/16, "sixteenths"
			if x.job.BuiltIn == "millimeters" {
				unit, name = 5/25.4, "5 mm"
			}
			steps := x.dig() / unit
			return when(math.Abs(steps-math.Round(steps)) > 1e-4, "a dig of %.4f in is no whole count of %s", x.dig(), name)
		})},
	{"even lifts", "lifts divide the course evenly and none is thicker than the most", "requirement 13; review B3",
		never(func(x *look) string {
			for _, c := range x.of("stone_course") {
				n, _ := c.Attribute("lifts").Value.Number()
				most := inches(c.Attribute("lift_most").Value)
				t := inches(c.Bottom) - inches(c.Top)
				if n > 0 && most > 0 && t/n > most*1.001+0.01 {
					return c.Name + " has lifts thicker than the most"
				}
			}
			return ""
		})},
	{"frost group of clay and silt", "clay and silt are of frost group F3 or F4", "UFC Table 19-2, relayed; facts 9",
		never(func(x *look) string {
			group, said := x.answer("frost_class")
			return when(said && x.ground.fine && group != "F3" && group != "F4", "a clay or silt of frost group %s", group)
		})},
	{"soft ground left alone", "below CBR 3 a clay, a silt or a soil that nobody named or sieved is shaped, not compacted to a density", "UFC 3-250-01 19-9.1, relayed; Maryland 211, seen; facts 4, practice; review A8",
		never(func(x *look) string {
			for _, c := range x.of("subgrade_course") {
				asked := c.Attribute("compaction").Value.String()
				return when(strings.Contains(asked, "98 %") && (x.ground.fine || x.ground.class == "" && x.ground.sieve != "coarse") && x.ground.least < 2.99 && !x.spotTold(), "%s asked of ground that reads CBR %.2g", asked, x.ground.least)
			}
			return ""
		})},
}

// coverCBR are the rows of the cover curve as one reader took them off the chart, at 1,000 passes.
var coverCBR, coverIn = []float64{2, 3, 4, 5, 7, 10}, []float64{14.5, 11.5, 9.5, 7.8, 5.4, 3.6}

// coverLeast is the least stone under trucks by the curve, a tenth below the
// reading of the chart; 0 for feet and cars, for which the curve was not made.
func coverLeast(x *look) float64 {
	c := x.claim()
	if !trucks(x.job) || c < 2 || c > 10 {
		return 0
	}
	for i := 1; i < len(coverCBR); i++ {
		if c <= coverCBR[i] {
			at := (c - coverCBR[i-1]) / (coverCBR[i] - coverCBR[i-1])
			return 0.9*(coverIn[i-1]+at*(coverIn[i]-coverIn[i-1])) - 6.5
		}
	}
	return 0
}

// aashtoLeast is the base by the AASHTO 1993 equation at R 75 %, So 0.45 and a
// loss of 1.7, under 80 mm pavers in herringbone of SN 1.815, for axles that were told.
func aashtoLeast(x *look) float64 {
	esal := axles(x.job)
	if esal < 1000 || !trucks(x.job) || x.claim() < 0.5 {
		return 0
	}
	modulus := max(1500*min(x.claim(), 10), 2555*math.Pow(x.claim(), 0.64)) // the more lenient of the two
	least, most := 0.1, 15.0
	for range 60 {
		sn := (least + most) / 2
		log := -0.674*0.45 + 9.36*math.Log10(sn+1) - 0.20 + math.Log10(1.7/2.7)/(0.40+1094/math.Pow(sn+1, 5.19)) + 2.32*math.Log10(modulus) - 8.07
		if log < math.Log10(esal) {
			least = sn
		} else {
			most = sn
		}
	}
	if x.job.Base == "open" {
		return 0 // no coefficient is published for it
	}
	return max(0, (least-1.815)/0.14-0.5)
}

// axles are the 18,000-lb axles told over the life, over 20 years where the life
// was not told; 0 where none were.
func axles(j *site.Site) float64 {
	t := j.Traffic
	years := 20.0
	if t.Life != nil {
		years = t.Life.Years()
	}
	switch {
	case t.ESALOverLife != nil:
		return *t.ESALOverLife
	case t.ESALPerDay != nil && t.Life != nil:
		return *t.ESALPerDay * 365 * years
	}
	return 0
}
