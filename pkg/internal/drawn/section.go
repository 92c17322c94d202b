package drawn

import (
	"math"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// Places across the picture of a section, from left to right: the ground beside, the
// side of the dig, where the section is cut, and its labels.
const (
	beside  = 26
	digSide = 42
	face    = 158
	texts   = 174
)

// cut is a section while it is drawn.
type cut struct {
	*Drawing
	canvas
	s *section.Section
	depths
	labelled []*label
	legend   legend
	grade    float64         // where finish grade lies
	holes    []hole          // what is no part of the beds
	edge     float64         // where the units end
	inner    float64         // where beds end that reach beyond it
	across   float64         // units of the picture to an inch, across
	bottom   quantity.Length // of the dig
	over     value.Value     // how far the bed at the seat reaches beyond the edge
	seat     quantity.Length // the top of the first bed that does, else the bottom
	unscaled map[string]bool // the beds that are not to scale
	narrowed bool            // whether widths are not
}

// Section draws a section, and nothing of one that is not to be built.
func (d *Drawing) Section(s *section.Section) Picture {
	if s.Status != section.Designed || len(d.Rules) == 0 {
		return Picture{}
	}
	c := &cut{Drawing: d, s: s, unscaled: map[string]bool{}}
	c.prefix = d.Prefix
	c.bottom = depth(s.Depth)
	c.fall()
	c.scale()
	c.widths()
	c.pipes()
	c.edges()
	c.ground()
	c.beds()
	c.sheets()
	c.spikes()
	c.dimensions()
	end := c.labels(c.labelled, face+5, texts, c.grade-42)
	c.height = max(end, c.deepest()+12) + 8
	c.told()
	return c.picture(d.Line("drawn_section", "job", s.Job.Name), c.inWords())
}

// is lists the courses that are drawn as one of these, from the top down.
func (c *cut) is(symbols ...string) (out []section.Course) {
	for _, each := range slices.Backward(c.s.Courses) {
		if slices.Contains(symbols, c.symbol(each)) {
			out = append(out, each)
		}
	}
	return out
}

// first is the topmost that is drawn so, the zero course if there is none.
func (c *cut) first(symbol string) section.Course {
	return append(c.is(symbol), section.Course{})[0]
}

// layers lists what has a thickness.
func (c *cut) layers() []section.Course {
	return slices.DeleteFunc(c.is("units", "bed"), func(bed section.Course) bool { return !high(bed) })
}

// scale finds where depths lie.
func (c *cut) scale() {
	c.depths = start(c.grade)
	sheets := map[quantity.Length]int{}
	for _, sheet := range c.sheetsOf(c.s) {
		sheets[depth(sheet.Top)]++
	}
	c.seat = c.bottom
	for _, bed := range c.layers() {
		c.unscaled[bed.Name] = !c.add(depth(bed.Bottom), sheets[depth(bed.Bottom)])
		if c.length(bed, "beyond") > 0 && c.over.IsZero() {
			c.over, c.seat = c.shows(bed, "beyond"), depth(bed.Top)
		}
	}
}

// widths finds how wide things are drawn: to the scale of heights where there is room.
func (c *cut) widths() {
	over, block, trench := inches(depth(c.over)), inches(c.length(c.first("block"), "wide")), inches(c.length(c.first("pipe"), "trench_wide"))
	c.across = perInch
	if need := max(over, block) + max(trench+5, 4); need*c.across > face-digSide {
		c.across, c.narrowed = (face-digSide)/need, true
	}
	const leastEdge = 26 // what an edge takes
	c.edge = digSide + max(over*c.across, block*c.across+6, leastEdge)
	c.inner = digSide
	for _, sheet := range c.is("fabric", "liner") {
		if c.turnedTo(sheet) < depth(sheet.Top) {
			c.inner += sheetHigh
		}
	}
}

// turnedTo is the depth to which the sides of a sheet are turned up: a liner to the top
// of the bed that holds the water, and nothing above finish grade.
func (c *cut) turnedTo(sheet section.Course) quantity.Length {
	if c.symbol(sheet) == "liner" {
		return c.seat
	}
	return max(depth(sheet.Top)-c.length(sheet, "up"), 0)
}

// name adds a label, with its leader from a place in the picture.
func (c *cut) name(x, y float64, text string) {
	c.labelled = append(c.labelled, &label{says: text, lines: wrapped(text, wide-texts-2), x: x, y: y})
}

// deepest is how far down anything is drawn.
func (c *cut) deepest() float64 {
	most := c.below(c.bottom) + 12
	for _, pipe := range c.is("pipe") {
		most = max(most, c.of(c.bottom+c.length(pipe, "trench_deep"))+10)
	}
	return max(most, c.of(c.length(c.first("block"), "deep")), c.of(c.seat+c.length(c.first("spikes"), "long")))
}

// beds draws what has a thickness.
func (c *cut) beds() {
	for _, bed := range c.layers() {
		top, bottom := c.below(depth(bed.Top)), c.of(depth(bed.Bottom))
		left := c.edge
		if !c.over.IsZero() && depth(bed.Top) >= c.seat {
			left = c.inner
		}
		material := c.shows(bed, "material")
		hatch := c.hatch(material)
		switch {
		case c.symbol(bed) == "units":
			c.units(hatch, left, top, bottom)
		case c.unscaled[bed.Name] && bottom-top > leastHigh:
			c.broken(hatch, left, top, bottom)
		default:
			c.filled(hatch, left, top, face, bottom)
		}
		if !material.IsZero() {
			c.legend.add(top, "bed", hatch, bed.Label, material.Text(c.System))
		}
		thick := c.shows(bed, "thick")
		if thick.IsZero() { // nothing says which attribute it is
			thick = value.Measured(depth(bed.Bottom) - depth(bed.Top))
		}
		text := bed.Label + ", " + c.value(thick)
		if l := c.shows(bed, "beyond"); c.length(bed, "beyond") > 0 {
			text += ", " + c.Line("drawn_beyond", "length", c.value(l))
		}
		if c.unscaled[bed.Name] {
			text += "*"
		}
		c.name(face-4, (top+bottom)/2, text)
	}
}

// within lists the parts of the holes that lie in a box.
func (c *cut) within(left, top, right, bottom float64) (out []hole) {
	for _, h := range c.holes {
		in := hole{max(h.left, left), max(h.top, top), min(h.right, right), min(h.bottom, bottom), h.round}
		if in.left < in.right && in.top < in.bottom {
			out = append(out, in)
		}
	}
	return out
}

// filled draws a box, but for what stands in it.
func (c *cut) filled(hatch string, left, top, right, bottom float64) {
	c.box(pen{}, hatch, left, top, right, bottom, c.within(left, top, right, bottom)...)
	c.level(middle, left, right, top)
	c.level(middle, left, right, bottom)
	for _, x := range []float64{left, right} {
		if !slices.ContainsFunc(c.holes, func(h hole) bool { return h.left < x && x < h.right && h.top <= top && bottom <= h.bottom }) {
			c.line(middle, x, top, x, bottom)
		}
	}
}

// level draws a line across, which ends at both sides of what it meets.
func (c *cut) level(p pen, left, right, y float64) {
	for _, h := range c.holes {
		if !h.round && h.left < right && h.right > left && h.top < y && y < h.bottom {
			if h.left > left {
				c.line(p, left, y, h.left, y)
			}
			left = h.right
		}
	}
	if left < right {
		c.line(p, left, y, right, y)
	}
}

// units draws pieces side by side, with what is in the gaps between them.
func (c *cut) units(hatch string, left, top, bottom float64) {
	const piece, gap = 26, 2.5
	for x := left; x < face; x += piece {
		c.filled(hatch, x, top, min(x+piece-gap, face), bottom)
	}
	last := left + piece*math.Floor((face-left-1)/piece)
	for _, joints := range c.is("joints") {
		text := joints.Label
		if width := c.shows(joints, "wide"); !width.IsZero() {
			text += ", " + c.Line("drawn_at_most", "length", c.value(width))
		}
		c.name(last-gap/2, top+(bottom-top)/4, text)
		c.legend.add(top, "joints", "", joints.Label, c.shows(joints, "material").Text(c.System))
	}
}

// broken draws a bed that is too thick to show, in two parts.
func (c *cut) broken(hatch string, left, top, bottom float64) {
	const half, teeth = 3.0, 12
	zigzag := func(y float64) (at []float64) {
		for i := range teeth + 1 {
			at = append(at, left+(face-left)*float64(i)/teeth, y+half*float64(i%2))
		}
		return at
	}
	mid := (top + bottom) / 2
	for _, part := range [2][2]float64{{top, mid - 2*half}, {bottom, mid + half}} {
		edge := zigzag(part[1])
		low, high := min(part[0], part[1]), max(part[0], part[1])
		c.shape(pen{}, hatch, slices.Concat([]float64{face, part[0], left, part[0]}, edge), c.within(left, low, face, high)...)
		c.level(middle, left, face, part[0])
		c.line(middle, slices.Concat([]float64{left, part[0]}, edge, []float64{face, part[0]})...)
	}
}

// sheetPens are the lines of sheets, which differ in black and white.
var sheetPens = map[string]pen{
	"grid":   {1.8, "9 2.5 2 2.5"},
	"fabric": {2.2, "5 2.5"},
	"liner":  {2.6, ""},
}

// sheetsOf lists what of a section is drawn as a sheet, the lowest first.
func (d *Drawing) sheetsOf(s *section.Section) []section.Course {
	return slices.DeleteFunc(slices.Clone(s.Courses), func(c section.Course) bool { return sheetPens[d.symbol(c)] == pen{} })
}

// sheets draws what has no thickness, the lowest first.
func (c *cut) sheets() {
	taken := map[quantity.Length]float64{}
	side := digSide + sheetHigh/2
	for _, sheet := range c.sheetsOf(c.s) {
		symbol, at := c.symbol(sheet), depth(sheet.Top)
		y := c.below(at) - sheetHigh/2 - taken[at]
		taken[at] += sheetHigh
		left, text := c.edge, sheet.Label
		if !c.over.IsZero() {
			left = c.inner + 1
		}
		if top := c.turnedTo(sheet); top < at && symbol != "grid" {
			left = side
			side += sheetHigh
			c.line(sheetPens[symbol], left, y, left, c.of(top)+1)
		}
		c.level(sheetPens[symbol], left, face, y)
		if up := c.shows(sheet, "up"); c.length(sheet, "up") > 0 {
			text += ", " + c.Line("drawn_up", "length", c.value(up))
		}
		if at < c.bottom {
			text += ", " + c.Line("drawn_down", "depth", c.value(sheet.Top))
		}
		c.name(face-4, y, text)
		c.legend.add(y, symbol, "", sheet.Label, c.shows(sheet, "material").Text(c.System))
	}
}
