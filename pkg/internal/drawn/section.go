package drawn

import (
	"math"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Places across the picture of a section, from left to right: the ground beside, the
// side of the dig, where the section is cut, and its labels.
const (
	beside  = 26
	digSide = 42
	face    = 164
	texts   = 182
)

// cut is a section while it is drawn.
type cut struct {
	*Drawing
	canvas
	s       *section.Section
	courses []section.Course // from the top down
	depths
	labelled []*label
	legend   legend
	holes    []ring
	edge     float64           // where the units end
	across   float64           // units of the picture to a meter, across
	bottom   quantity.Length   // of the dig
	seat     quantity.Length   // the top of the first bed that reaches beyond the edge
	wider    map[string]bool   // beds that do
	notes    map[string]bool   // what is not to scale
	over     quantity.Length   // how far beyond
}

// Section draws a section, and nothing of one that is not to be built.
func (d *Drawing) Section(s *section.Section) Picture {
	if s.Status != section.Designed || len(d.Rules) == 0 {
		return Picture{}
	}
	c := &cut{Drawing: d, s: s, courses: downward(s), wider: map[string]bool{}, notes: map[string]bool{}}
	c.prefix = d.Prefix
	c.bottom = depth(s.Depth)
	c.scale()
	c.ground()
	c.beds()
	c.sheets()
	c.edges()
	c.fall()
	c.dimensions()
	end := c.labels(c.labelled, face+5, texts, c.y[0]-40)
	c.height = max(end, c.deepest()+16) + 8
	c.told()
	return c.picture(d.Line("drawn_section", "job", s.Job.Name), c.inWords())
}

// is lists the courses that are drawn as something, from the top down.
func (c *cut) is(symbols ...string) (out []section.Course) {
	for _, each := range c.courses {
		if slices.Contains(symbols, c.symbol(each)) {
			out = append(out, each)
		}
	}
	return out
}

// first is the topmost that is drawn so.
func (c *cut) first(symbol string) section.Course {
	if all := c.is(symbol); len(all) > 0 {
		return all[0]
	}
	return section.Course{}
}

// scale finds where depths lie, and how wide things are drawn.
func (c *cut) scale() {
	c.depths = depths{at: []float64{0}, y: []float64{64}}
	for _, bed := range c.is("units", "bed") {
		if !high(bed) {
			continue
		}
		if !c.add(depth(bed.Bottom)) {
			c.notes[bed.Name] = true
		}
		if l := c.length(bed, "beyond"); l > 0 && c.over == 0 {
			c.over, c.seat = l, depth(bed.Top)
		}
		c.wider[bed.Name] = c.over > 0
	}
	if c.over == 0 {
		c.seat = c.bottom
	}
	least := 26.0 // for an edge
	block := c.length(c.first("block"), "wide").Meters()
	trench := c.length(c.first("pipe"), "trench_wide").Meters()
	inch := quantity.Inches(1).Meters()
	c.across = perInch / inch
	if need := max(c.over.Meters(), block) + max(trench+4*inch, 4*inch); need*c.across > face-digSide {
		c.across = (face - digSide) / need
		c.notes["across"] = true
	}
	c.edge = digSide + max(c.over.Meters()*c.across, block*c.across+6, least)
}

// ground draws the dig and the ground around it.
func (c *cut) ground() {
	grade, bottom := c.of(0), c.of(c.bottom)
	c.line(middle, beside, grade, digSide, grade, digSide, bottom, face, bottom)
	c.ticks(beside, digSide, grade)
	if c.over > 0 {
		c.line(middle, digSide, grade, c.edge-1, grade)
		c.ticks(digSide, c.edge-4, grade)
	}
	from, deep := float64(digSide), c.pipes()
	if deep > 0 {
		from = deep
	}
	c.ticks(from, face, bottom)
	if ground := c.first("ground"); ground.Name != "" {
		name := ground.Label
		if soil := c.shows(ground, "soil"); !soil.IsZero() {
			name += ", " + soil.Text(c.System)
		}
		c.name(face-4, bottom+9, name)
		c.legend.add("ground", "", c.Line("drawn_ground"))
	}
}

// ticks draws the ground below a line, in groups of three strokes.
func (c *cut) ticks(from, to, y float64) {
	for x := from + 2; x+11 <= to; x += 18 {
		c.line(thin, x+4, y, x, y+5)
		c.line(thin, x+8, y, x+2, y+7.5)
		c.line(thin, x+12, y, x+6, y+7.5)
	}
}

// pipes draws pipes with their trench, and returns where the trench ends.
func (c *cut) pipes() (end float64) {
	for _, pipe := range c.is("pipe") {
		v := c.shows(pipe, "pipe")
		if v.IsZero() {
			continue // it goes with another
		}
		wide, deep := c.length(pipe, "trench_wide").Meters()*c.across, c.length(pipe, "trench_deep")
		radius := depth(c.property(v, "outside")).Meters() / 2 / quantity.Inches(1).Meters() * perInch
		invert := depth(pipe.Top)
		if wide > 0 {
			radius = min(radius, wide/2-5)
		}
		left := c.edge + 8
		x, y := left+max(wide/2, radius+4), c.of(invert)-radius
		hole := ring{x, y, radius}
		if deep > 0 {
			stone := c.shows(pipe, "stone")
			top, bottom := c.of(c.bottom), c.of(c.bottom+deep)
			c.box(middle, c.hatch(stone), left, top, left+wide, bottom, hole)
			c.legend.add("bed", c.hatch(stone), stone.Text(c.System))
			if wrap := c.shows(pipe, "wrap"); !wrap.IsZero() {
				c.line(sheetPens["fabric"], left+2, top+2, left+2, bottom-2, left+wide-2, bottom-2, left+wide-2, top+2, left+2, top+2)
				c.legend.add("fabric", "", wrap.Text(c.System))
			}
			end = left + wide
		} else {
			c.holes = append(c.holes, hole)
		}
		c.circle(thick, x, y, radius)
		c.circle(thin, x, y, radius-2.5)
		c.legend.add("pipe", "", v.Text(c.System))
		c.name(x+radius, y, pipe.Label+", "+c.Line("drawn_invert", "depth", c.value(pipe.Top)))
	}
	return end
}

// name adds a label, with its leader from a place to the side.
func (c *cut) name(x, y float64, text string, path ...float64) {
	c.labelled = append(c.labelled, &label{lines: wrapped(text, wide-texts-2), x: x, y: y, path: path})
}

// deepest is how far down anything is drawn.
func (c *cut) deepest() float64 {
	most := c.of(c.bottom)
	for _, pipe := range c.is("pipe") {
		most = max(most, c.of(c.bottom+c.length(pipe, "trench_deep")))
	}
	most = max(most, c.of(c.length(c.first("block"), "deep")))
	if long := c.length(c.first("spikes"), "long"); long > 0 {
		most = max(most, c.of(c.seat+long))
	}
	return most
}

// beds draws what has a thickness.
func (c *cut) beds() {
	for _, bed := range c.is("units", "bed") {
		if !high(bed) {
			continue
		}
		top, bottom := c.of(depth(bed.Top)), c.of(depth(bed.Bottom))
		left := c.edge
		if c.wider[bed.Name] {
			left = digSide
		}
		v := c.shows(bed, "material")
		hatch := c.hatch(v)
		broken := c.notes[bed.Name] && bottom-top >= brokenAt
		switch {
		case c.symbol(bed) == "units":
			c.units(hatch, left, top, bottom)
		case broken:
			c.broken(hatch, left, top, bottom)
		default:
			c.box(middle, hatch, left, top, face, bottom, c.within(top, bottom)...)
		}
		if !v.IsZero() {
			c.legend.add("bed", hatch, v.Text(c.System))
		}
		text := bed.Label
		if thick := c.shows(bed, "thick"); !thick.IsZero() {
			text += ", " + c.value(thick)
		}
		if l := c.shows(bed, "beyond"); c.length(bed, "beyond") > 0 {
			text += ", " + c.Line("drawn_beyond", "length", c.value(l))
		}
		if c.notes[bed.Name] {
			text += "*"
		}
		c.name(face-4, (top+bottom)/2, text)
	}
	c.line(middle, face, c.y[0]-5, face, c.y[0], face, c.of(c.bottom)+12) // where the section is cut
}

// within lists the holes that lie between two heights.
func (c *cut) within(top, bottom float64) (out []ring) {
	for _, h := range c.holes {
		if h.y > top && h.y < bottom {
			out = append(out, h)
		}
	}
	return out
}

// units draws pieces side by side, with what is in the gaps between them.
func (c *cut) units(hatch string, left, top, bottom float64) {
	const piece, gap = 26, 2.5
	for x := left; x < face; x += piece {
		c.box(middle, hatch, x, top, min(x+piece-gap, face), bottom)
	}
	last := left + piece*math.Floor((face-left-1)/piece)
	for _, joints := range c.is("joints") {
		v := c.shows(joints, "material")
		text := joints.Label
		if width := c.shows(joints, "wide"); !width.IsZero() {
			text += ", " + c.Line("drawn_at_most", "length", c.value(width))
		}
		c.name(last-gap/2, top+(bottom-top)/4, text)
		c.legend.add("joints", "", v.Text(c.System))
	}
}

// broken draws a bed that is too thick to show, in two parts.
func (c *cut) broken(hatch string, left, top, bottom float64) {
	const half, teeth = 3.0, 6
	middleY := (top + bottom) / 2
	zigzag := func(y float64) (at []float64) {
		for i := range 2*teeth + 1 {
			at = append(at, left+(face-left)*float64(i)/(2*teeth), y+half*float64(i%2))
		}
		return at
	}
	upper, lower := zigzag(middleY-2*half), zigzag(middleY+half)
	c.shape(middle, hatch, slices.Concat([]float64{face, top, left, top}, upper))
	c.shape(middle, hatch, slices.Concat([]float64{face, bottom, left, bottom}, lower))
}

// sheetPens are the lines of sheets, which differ in black and white.
var sheetPens = map[string]pen{
	"grid":   {1.8, "9 2.5 2 2.5"},
	"fabric": {2.2, "5 2.5"},
	"liner":  {2.6, ""},
}

// sheets draws what has no thickness, each above what it lies on.
func (c *cut) sheets() {
	sheets := c.is("grid", "fabric", "liner")
	slices.Reverse(sheets)
	taken := map[quantity.Length]float64{}
	sides := 0.0
	for _, sheet := range sheets {
		symbol, at := c.symbol(sheet), depth(sheet.Top)
		y := c.of(at) - 2.5 - taken[at]
		taken[at] += 4
		path := []float64{face, y}
		text := sheet.Label
		left := c.edge
		if c.over > 0 {
			left = digSide + 3 + sides
		}
		up := c.length(sheet, "up")
		switch {
		case up > 0:
			left = digSide + 3 + sides
			sides += 4
			path = append(path, left, y, left, max(c.of(max(at-up, 0)), c.y[0]+1))
			text += ", " + c.Line("drawn_up", "length", c.value(c.shows(sheet, "up")))
		case symbol == "liner":
			sides += 4
			path = append(path, left, y, left, c.of(c.seat))
		default:
			path = append(path, left, y)
		}
		c.line(sheetPens[symbol], path...)
		if at < c.bottom {
			text += ", " + c.Line("drawn_down", "depth", c.value(sheet.Top))
		}
		c.name(face-4, y, text)
		c.legend.add(symbol, "", c.shows(sheet, "material").Text(c.System))
	}
}

// edges draws what holds the units: a block, a wedge of what has a hatch, or an angle,
// and the spikes in it.
func (c *cut) edges() {
	edge, block := c.first("edge"), c.first("block")
	all := c.is("edge", "spikes", "block")
	if len(all) == 0 {
		return
	}
	grade, seat := c.of(0), c.of(c.seat)
	v := c.shows(edge, "material")
	hatch, half := c.hatch(v), grade+(c.y[1]-grade)/2
	top := half
	switch x := c.edge - 1; {
	case block.Name != "":
		top = grade
		c.box(middle, hatch, c.edge-c.length(block, "wide").Meters()*c.across, grade, x, c.of(c.length(block, "deep")))
	case hatches[hatch] != "":
		c.shape(middle, hatch, []float64{x, half, x, seat, c.edge - 20, seat})
	default:
		c.line(thick, x, half, x, seat-1, c.edge-20, seat-1)
		c.line(thin, x, half+6, c.edge-12, seat-1)
	}
	for _, spikes := range c.is("spikes") {
		end := c.of(c.seat + c.length(spikes, "long"))
		c.line(thick, c.edge-12, seat-3, c.edge-18, seat-3)
		c.line(thick, c.edge-15, seat-3, c.edge-15, end-3, c.edge-14.5, end)
	}
	kind := "edge"
	if hatches[hatch] != "" {
		kind = "bed"
	}
	c.legend.add(kind, hatch, v.Text(c.System))
	named := &label{x: c.edge - 4, y: top, path: []float64{c.edge - 4, grade - 8}}
	for i := range all {
		text := all[len(all)-1-i].Label
		switch each := all[len(all)-1-i]; c.symbol(each) {
		case "spikes":
			text += ", " + c.Line("drawn_spikes", "length", c.value(c.shows(each, "long")), "apart", c.value(c.shows(each, "apart")))
		case "block":
			text += ", " + c.Line("drawn_block", "wide", c.value(c.shows(each, "wide")), "deep", c.value(c.shows(each, "deep")))
		}
		named.lines = append(named.lines, wrapped(text, wide-texts-2)...)
	}
	c.labelled = append(c.labelled, named)
}

// fall draws which way and how far the surface falls.
func (c *cut) fall() {
	units := c.first("units")
	share := c.shows(units, "fall")
	if share.IsZero() {
		return
	}
	y := c.y[0] - 50
	c.line(middle, digSide+30, y, digSide, y+2)
	c.line(middle, digSide+6, y-2, digSide, y+2, digSide+6.5, y+5)
	text := c.Line("drawn_fall", "share", c.value(share))
	if toward := c.shows(units, "toward"); !toward.IsZero() {
		text += ", " + toward.Text(c.System)
	}
	c.written(digSide+36, y-row/2, wrapped(text, wide-digSide-40))
}

// dimensions draws how deep the dig is, and how far it reaches beyond the edge.
func (c *cut) dimensions() {
	grade, bottom := c.of(0), c.of(c.bottom)
	const at = 18
	c.line(thin, at, grade, at, bottom)
	c.line(thin, at-3, grade, beside, grade)
	c.line(thin, at-3, bottom, digSide, bottom)
	for _, y := range []float64{grade, bottom} {
		c.line(middle, at-3, y+3, at+3, y-3)
	}
	text := c.Line("drawn_dig", "depth", c.value(c.s.Depth))
	c.upward(at-5, max((grade+bottom)/2, textWidth(text)/2+margin), text)
	c.name(face-1, grade, c.Line("drawn_grade"))
	if c.over == 0 {
		return
	}
	y := grade - 16
	c.line(thin, digSide, y, c.edge, y)
	for _, x := range []float64{digSide, c.edge} {
		c.line(thin, x, y-3, x, grade-2)
		c.line(middle, x-3, y+3, x+3, y-3)
	}
	for _, bed := range c.is("bed") {
		if c.length(bed, "beyond") > 0 {
			l := c.value(c.shows(bed, "beyond"))
			c.text(max((digSide+c.edge)/2, margin+textWidth(l)/2), y-5, "middle", l)
			break
		}
	}
}
