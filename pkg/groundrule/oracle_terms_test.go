package groundrule_test

import (
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

func vehicles(j *site.Site) bool { return j.Use != "foot" }

// light is what carries feet or cars alone.
func light(j *site.Site) bool { return j.Use == "foot" || j.Use == "car_driveway" }

func trucks(j *site.Site) bool { return !light(j) }

// trucksTold reports whether traffic was told that only trucks make.
func trucksTold(j *site.Site) bool {
	t := j.Traffic
	above := func(x *float64, limit float64) bool { return x != nil && *x > limit }
	return above(t.TrucksPerDay, 0) || above(t.TrucksOverLife, 0) || above(t.ESALPerDay, 1) || above(t.ESALOverLife, 20_000)
}

// slope is the fall of the surface in percent, 0 where it was not told.
func slope(j *site.Site) float64 {
	if j.SurfaceSlope == nil {
		return 0
	}
	return j.SurfaceSlope.Percent()
}

func inchesOf(l *quantity.Length) float64 {
	if l == nil {
		return 0
	}
	return l.Inches()
}

func panel(x *look) bool { return len(x.of("panel_course")) > 0 }

func (x *look) panelBottom() float64 {
	for _, c := range x.of("panel_course") {
		return inches(c.Bottom)
	}
	return 0
}

// spotTold reports whether readings far below the others are told as a soft spot
// to be dug out, and the rest reads no lower than the claim.
func (x *look) spotTold() bool {
	n := len(x.ground.readings)
	return n > 1 && x.ground.farBelow(x.ground.readings[0], x.ground.readings[n/2]) && x.ground.hand > x.ground.readings[0] && x.says("soft spot")
}

// claim is the CBR that the subgrade is designed for, 0 for none.
func (x *look) claim() float64 {
	ground := x.of("subgrade_course")
	if len(ground) == 0 {
		return 0
	}
	v, _ := ground[0].Attribute("cbr").Value.Number()
	return v
}

// answer returns what the section presumed or decided of a name, and whether it
// says so.
func (x *look) answer(decision string) (string, bool) {
	for _, r := range x.Reasons {
		if r.Decision == decision {
			return word(r.Answer), true
		}
	}
	return "", false
}

// grids returns the kinds of the grids, as the sheet writes them.
func (x *look) grids() []string {
	var out []string
	for _, c := range x.of("grid_course") {
		out = append(out, c.Attribute("kind").Value.String()+" "+c.Attribute("material").Value.String())
	}
	return out
}

// under returns the stone course that lies right below the bedding.
func (x *look) under() section.Course {
	stones := x.of("stone_course")
	if len(stones) == 0 {
		return section.Course{}
	}
	return stones[len(stones)-1]
}

// nominal returns what stands for so many inches where the crew builds in
// millimeters: 100 mm for 4 in, as the published tables pair them.
func (x *look) nominal(in float64) float64 {
	if x.job.BuiltIn == "millimeters" {
		return in * 25 / 25.4
	}
	return in
}
