package groundrule_test

import (
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/site"
)

// pipeOutside is the outside of a 4 in pipe: facts 6, computed.
const pipeOutside = 4.6

var waterAndSlope = []sentence{
	{"drain where rain stays", "rain that is let in where the ground takes less than 0.3 in an hour is led away", "Coastal SC/GA guide 4.3 and Ontario LID, seen; facts 6 and 15, row 24",
		never(func(x *look) string {
			rate := x.job.Rain.InfiltrationRate
			return when(x.permeable() && rate != nil && rate.InchesPerHour() < 0.299 && len(x.pipes()) == 0, "%.2f in/h and no pipe", perHour(x.job))
		})},
	{"drain over clay", "open joints over a clay or a silt whose rate nobody told have a pipe", "Minnesota design criteria (groups C and D), seen; facts 6",
		never(func(x *look) string {
			return when(x.permeable() && x.job.Rain.InfiltrationRate == nil && x.ground.fine && x.ground.class != "ML" && len(x.pipes()) == 0, "no pipe over clay")
		})},
	{"drain on wet fine soil", "a dense base on wet fine soil has a drain at its low side, except a walk of 50 sq ft or less, whose drain would be larger than itself", "UFC 3-270-04 para 12.4, seen; requirement 5; review A11",
		never(func(x *look) string {
			small := !vehicles(x.job) && x.job.Area.SquareFeet() < 50.01
			return when(x.job.Base == "dense" && !small && x.ground.wet && x.ground.fine && len(x.of("drain_course")) == 0, "no drain on wet clay or silt")
		})},
	{"drain near water", "less than 12 in above wet-season water a base is drained", "UFC 3-270-04 para 12.4, seen; facts 7 and 15, row 23",
		never(func(x *look) string {
			g := x.job.Water.GroundwaterDepth
			return when(g != nil && g.Inches() < x.dig()+11.99 && g.Inches() >= x.dig() && len(x.of("drain_course")) == 0, "groundwater at %.1f in, the dig is %.1f in deep, no drain", inchesOf(g), x.dig())
		})},
	{"pipe in its stone", "the pipe lies in the stone or in a trench, with 2 in over it under feet and 6 in under wheels", "facts 6, computed and memory low; review A5",
		never(func(x *look) string {
			for _, c := range x.pipes() {
				up, known := x.invert(c.Attributes)
				if !known {
					continue
				}
				over := x.stone() - up - pipeOutside
				least := 1.9
				if vehicles(x.job) {
					least = 5.9
				}
				if over < least {
					return when(true, "the crown lies %.1f in under the top of %.1f in of stone, at least %.0f", over, x.stone(), math.Ceil(least))
				}
			}
			return ""
		})},
	{"nothing left below the pipe", "where the ground takes no water the pipe lies at the floor or below it", "facts 6, computed and practice; review A5",
		never(func(x *look) string {
			for _, c := range x.pipes() {
				up, known := x.invert(c.Attributes)
				rate := x.job.Rain.InfiltrationRate
				if known && up > 0.01 && rate != nil && rate.InchesPerHour() < 0.05 {
					return when(true, "the pipe lies %.1f in over a floor that takes no water", up)
				}
			}
			return ""
		})},
	{"no grid through the pipe", "no grid lies between the invert and the crown", "review A5",
		never(func(x *look) string {
			for _, c := range x.pipes() {
				up, known := x.invert(c.Attributes)
				for _, h := range x.heights() {
					if known && h > up+0.01 && h < up+pipeOutside {
						return when(true, "a grid %.1f in up, the pipe from %.1f to %.1f in", h, up, up+pipeOutside)
					}
				}
			}
			return ""
		})},
	{"fall of the pipe", "a pipe falls, and the sheet says how much and where it lets out", "UFC 3-270-04 para 12.6 (0.15 %), seen; state manuals 0.5 to 1 %, memory; requirement 5",
		never(func(x *look) string {
			return when(len(x.pipes()) > 0 && !x.attribute("fall", "slope"), "a pipe without a fall")
		})},
	{"overflow of storage", "what stores rain has an overflow and an observation well", "requirement 5; review F",
		never(func(x *look) string {
			return when(x.permeable() && yes(x.job.Rain.StorageWanted) && !x.says("overflow"), "storage without an overflow")
		})},
	{"storage holds the rain", "stone that is to hold rain is at least its depth over the voids", "TRCA/CVC 2010, seen; facts on aggregates-drainage F3-1; review A3",
		never(func(x *look) string {
			want := storageLeast(x.job)
			return when(x.permeable() && x.stone() < want-0.05, "%.2f in of stone, at least %.2f to hold the rain", x.stone(), want)
		})},
	{"storage drains in time", "water that is held is gone in 72 h", "FHWA, NC and NJ, seen; facts 6",
		never(func(x *look) string {
			r := x.job.Rain
			if !x.permeable() || !yes(r.StorageWanted) || r.Depth == nil || r.InfiltrationRate == nil || len(x.of("drain_course")) > 0 {
				return ""
			}
			return when(r.Depth.Inches() > r.InfiltrationRate.InchesPerHour()*72*1.01, "%.1f in of rain at %.3f in/h", r.Depth.Inches(), perHour(x.job))
		})},
	{"slope is told", "the section says how much the surface falls", "requirement 9; ICPI Construction Tolerances (2 %), seen; review A12",
		never(func(x *look) string {
			return when(!x.attribute("fall", "slope"), "no course says a fall")
		})},
	{"slope is asked", "a slope that nobody told is to be confirmed or told as the one to build", "requirement 9; review A12",
		never(func(x *look) string {
			return when(x.job.SurfaceSlope == nil && !x.attribute("fall", "slope") && !x.confirms("slope"), "no slope, and nothing to confirm")
		})},
	{"flat surface", "a sand-jointed surface that falls less than 1 % is stopped or cautioned", "ICPI Construction Tolerances and BIA 14A (2 %), seen; common practice 1 %",
		never(func(x *look) string {
			flat := x.job.SurfaceSlope != nil && slope(x.job) < 0.99 && !x.permeable()
			return when(flat && !slices.ContainsFunc(x.checksFailed(), func(id string) bool { return strings.Contains(id, "SLOPE") }) && !x.says("at least 1 %", "at least 2 %", "flat"), "a surface at %.1f %%", slope(x.job))
		})},
	{"rain toward the house", "a surface never falls toward a house without a word of it", "requirement 9",
		never(func(x *look) string {
			return when(x.job.GroundFalls == "toward_house" && !x.says("house", "building", "wall of"), "ground that falls toward the house, and no word of it")
		})},
}

func perHour(j *site.Site) float64 {
	if j.Rain.InfiltrationRate == nil {
		return math.NaN()
	}
	return j.Rain.InfiltrationRate.InchesPerHour()
}

// designRate is what a soil that nobody tested may be counted on to take, in inches
// an hour: Minnesota Stormwater Manual, design infiltration rates (seen). facts on
// ground, 6.1.
var designRate = map[string]float64{"gravel": 1.6, "sand": 0.8, "silty_sand": 0.6}

// storageLeast is the stone that holds the rain that was told, without what soaks
// away in the two hours of it, at 40 % voids in all of the base and the bedding.
func storageLeast(j *site.Site) float64 {
	r := j.Rain
	if !yes(r.StorageWanted) || r.Depth == nil {
		return 0
	}
	run := 0.0
	if r.RunOnArea != nil {
		run = r.RunOnArea.SquareFeet() / j.Area.SquareFeet()
	}
	soaked := designRate[j.Soil.Word] * 2
	if r.InfiltrationRate != nil {
		soaked = r.InfiltrationRate.InchesPerHour() * 2
	}
	return max(0, (r.Depth.Inches()*(1+run)-soaked)/0.4-2.2) // 2 in of No. 8 bedding hold too
}

// checksFailed are the checks that do not hold.
func (x *look) checksFailed() []string {
	var out []string
	for _, c := range x.Failed() {
		out = append(out, c.ID)
	}
	return out
}

func (x *look) confirms(part string) bool {
	for _, c := range x.Confirm {
		if strings.Contains(c.Name, part) || strings.Contains(strings.ToLower(c.Label), part) {
			return true
		}
	}
	return false
}
