package drawn

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Places across the picture of a joint.
const (
	jointLeft, jointAt, jointRight = 26, 150, 294
	mostTaper                      = 84  // wider ones are shortened
	mostLap                        = 40  // so are longer laps
	deepestJoint                   = 260 // in the picture; deeper ones are drawn smaller
)

// joint is where two sections meet, while it is drawn: the deeper at the left.
type joint struct {
	cut
	j         section.Joint
	meeting   section.Course
	deep      *section.Section
	beside    *section.Section
	scale     float64 // of an inch
	shallow   quantity.Length
	taperEnds float64
}

// Joint draws where two areas meet, and nothing where one is not to be built.
func (d *Drawing) Joint(a *section.Areas, j section.Joint) Picture {
	named := func(name string) *section.Section {
		i := slices.IndexFunc(a.Sections, func(s *section.Section) bool { return s.Job.Part == name })
		if i < 0 || a.Sections[i].Status != section.Designed {
			return nil
		}
		return a.Sections[i]
	}
	deep, shallow := named(j.Of), named(j.Beside)
	if deep == nil || shallow == nil || len(d.Rules) == 0 {
		return Picture{}
	}
	c := &joint{cut: cut{Drawing: d}, j: j, deep: deep, beside: shallow, shallow: depth(shallow.Depth)}
	c.prefix, c.bottom = d.Prefix, depth(deep.Depth)
	for _, each := range j.Courses {
		if c.symbol(each) == "meeting" {
			c.meeting = each
		}
	}
	c.scale = min(perInch, deepestJoint/inches(c.bottom))
	names := [2][]string{wrapped(j.Of, jointAt-margin), wrapped(j.Beside, wide-jointAt-8)}
	c.grade = max(c.written(margin, 2, names[0]), c.written(jointAt+6, 2, names[1])) + 12
	taper := c.length(c.meeting, "taper")
	c.taperEnds = jointAt + min(inches(taper)*c.scale, mostTaper)
	c.narrowed = inches(taper)*c.scale > mostTaper || max(inches(c.length(c.meeting, "grid")), inches(c.length(c.meeting, "fabric")))*c.scale > mostLap
	c.side(deep, jointLeft, jointAt)
	c.side(shallow, jointAt, jointRight)
	c.profile()
	foot := c.y(c.bottom) + 14
	if taper > 0 {
		c.text((jointAt+c.taperEnds)/2, foot+row, "middle", c.value(c.shows(c.meeting, "taper")))
		c.line(thin, jointAt, foot, c.taperEnds, foot)
		c.line(middle, jointAt-3, foot+3, jointAt+3, foot-3)
		c.line(middle, c.taperEnds-3, foot+3, c.taperEnds+3, foot-3)
		foot += row
	}
	return c.told(foot + 10)
}

func (c *joint) y(l quantity.Length) float64 { return c.grade + inches(l)*c.scale }

// side draws the beds of one section, and how deep its dig is.
func (c *joint) side(s *section.Section, left, right float64) {
	shallow := left == jointAt
	c.s = s
	for _, bed := range c.layers() {
		material := c.shows(bed, "material")
		hatch, top, bottom := c.hatch(material), c.y(depth(bed.Top)), c.y(depth(bed.Bottom))
		clear := bottom - c.room(shallow, depth(bed.Bottom))
		c.box(pen{}, hatch, left, top, right, clear)
		c.box(middle, "", left, top, right, bottom)
		if !material.IsZero() {
			c.legend.add(top, "bed", hatch, s.Job.Part+", "+bed.Label, material.Text(c.System))
		}
		if shallow && depth(bed.Bottom) == c.shallow && c.taperEnds > jointAt {
			c.shape(pen{}, hatch, []float64{jointAt, clear, c.taperEnds, clear, jointAt, c.y(c.bottom) - c.room(false, c.bottom)})
		}
	}
	side, x, foot := left, left-8, left-12 // of the beds, the line, and the text beside it
	if shallow {
		side, x, foot = right, right+10, right+10+letter
	}
	bottom, text := c.y(depth(s.Depth)), c.Line("drawn_dig", "depth", c.value(s.Depth))
	c.line(thin, side, c.grade, x, c.grade)
	c.line(thin, side, bottom, x, bottom)
	c.line(thin, x, c.grade, x, bottom)
	c.upward(foot, max((c.grade+bottom)/2, textWidth(text)/2+c.grade-24), text)
}

// room is how high the sheets at a depth stand on each other, at the shallow side with
// those of the deep one that run on over them.
func (c *joint) room(shallow bool, at quantity.Length) (high float64) {
	for i, s := range [2]*section.Section{c.deep, c.beside} {
		for _, sheet := range c.sheetsOf(s) {
			runsOn := i == 0 && shallow && at == c.shallow && depth(sheet.Top) > c.shallow && c.length(c.meeting, c.symbol(sheet)) > 0
			if (i == 1) == shallow && depth(sheet.Top) == at || runsOn {
				high += sheetHigh
			}
		}
	}
	return high
}

// profile draws the bottom of both digs, and the sheets.
func (c *joint) profile() {
	low, high := c.y(c.bottom), c.y(c.shallow)
	c.line(thick, jointLeft, low, jointAt, low, c.taperEnds, high, jointRight, high)
	c.ticks(jointLeft, jointAt, low)
	c.ticks(c.taperEnds, jointRight, high)
	taken := map[quantity.Length]float64{}
	for _, sheet := range c.sheetsOf(c.beside) {
		symbol, at, left := c.symbol(sheet), depth(sheet.Top), float64(jointAt)
		if at >= c.shallow {
			left = c.taperEnds
		}
		y := c.y(at) - sheetHigh/2 - taken[at]
		taken[at] += sheetHigh
		c.line(sheetPens[symbol], left+2, y, jointRight, y)
		c.legend.add(y, symbol, "", c.j.Beside+", "+sheet.Label, c.shows(sheet, "material").Text(c.System))
	}
	over, taken := taken[c.shallow], map[quantity.Length]float64{}
	for _, sheet := range c.sheetsOf(c.deep) {
		symbol, at := c.symbol(sheet), depth(sheet.Top)
		y := c.y(at) - sheetHigh/2 - taken[at]
		taken[at] += sheetHigh
		lap := min(inches(c.length(c.meeting, symbol))*c.scale, mostLap)
		path := []float64{jointLeft, y, jointAt + lap, y}
		if at > c.shallow && lap > 0 { // up the bottom of the other
			meets := jointAt + (c.taperEnds-jointAt)*(c.y(c.bottom)-c.y(at))/(low-high)
			if meets < jointAt+lap {
				path = []float64{jointLeft, y, meets + 1, y, c.taperEnds + 1, high - sheetHigh/2 - over, min(c.taperEnds+lap, jointRight), high - sheetHigh/2 - over}
				over += sheetHigh
			}
		}
		c.line(sheetPens[symbol], path...)
		c.legend.add(y, symbol, "", c.j.Of+", "+sheet.Label, c.shows(sheet, "material").Text(c.System))
	}
}

// told writes the legend and what is decided of the joint.
func (c *joint) told(y float64) Picture {
	y = c.keys(y)
	var said []string
	for _, each := range c.j.Courses {
		for _, a := range each.Attributes {
			if l, ok := a.Value.Length(); ok && l == 0 {
				continue // there is none
			}
			said = append(said, page.Capital(a.Label)+": "+a.Value.Text(c.System))
		}
	}
	c.notes(y, append(said, c.toScale()))
	return c.picture(c.Line("drawn_joint", "of", c.j.Of, "beside", c.j.Beside), strings.Join(said, "; "))
}
