package drawn

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
)

// ground draws the dig and the ground around it.
func (c *cut) ground() {
	grade, bottom := c.grade, c.below(c.bottom)
	c.line(middle, beside, grade, digSide, grade, digSide, bottom, face, bottom)
	c.ticks(beside, digSide, grade)
	for y := grade + 14; y < bottom-8; y += 18 {
		c.line(thin, digSide, y, digSide-5, y+5)
	}
	if !c.over.IsZero() {
		c.line(middle, digSide, grade, c.edge-1, grade)
		to := c.edge - 4
		if block := c.length(c.first("block"), "wide"); block > 0 {
			to -= inches(block) * c.across
		}
		c.ticks(digSide, to, grade)
	}
	at := float64(digSide)
	for _, pipe := range c.is("pipe") {
		if deep := c.length(pipe, "trench_deep"); deep > 0 {
			left, right := c.trench(pipe)
			c.ticks(at, left, bottom)
			c.ticks(left, right, c.of(c.bottom+deep))
			at = right
		}
	}
	c.ticks(at, face, bottom)
	c.line(middle, face, grade-5, face, grade)
	c.line(middle, face, bottom, face, bottom+12) // the section is cut here
	if ground := c.first("ground"); ground.Name != "" {
		name := ground.Label
		if soil := c.shows(ground, "soil"); !soil.IsZero() {
			name += ", " + soil.Text(c.System)
		}
		c.name(face-3, bottom+9, name)
		c.legend.add(bottom, "ground", "", "", c.Line("drawn_ground"))
	}
}

// ticks draws the ground below a line, in groups of three strokes.
func (c *cut) ticks(from, to, y float64) {
	for x := from + 1; x+12 <= to; x += 18 {
		c.line(thin, x+4, y, x, y+5)
		c.line(thin, x+8, y, x+2, y+7.5)
		c.line(thin, x+12, y, x+6, y+7.5)
	}
}

// trench is from where to where the trench of a pipe reaches.
func (c *cut) trench(pipe section.Course) (left, right float64) {
	return c.edge + 6, c.edge + 6 + inches(c.length(pipe, "trench_wide"))*c.across
}

// pipes draws pipes, with the trench that they lie in, and standing pipes.
func (c *cut) pipes() {
	for _, pipe := range slices.Concat(c.is("pipe"), c.is("standpipe")) {
		v := c.shows(pipe, "pipe")
		if v.IsZero() {
			continue // it is one more of another
		}
		text := pipe.Label + ", " + c.Line("drawn_invert", "depth", c.value(pipe.Top))
		radius, invert := perInch*inches(depth(c.property(v, "outside")))/2, c.of(depth(pipe.Top))
		kind := c.symbol(pipe)
		if kind == "standpipe" {
			x, half, foot := face-34.0, min(radius*c.across/perInch, 9), invert
			for _, h := range c.holes {
				if h.round { // it stands behind a pipe
					x, foot = (h.left+h.right)/2, h.top
				}
			}
			c.line(thick, x-half, foot, x-half, c.grade-2, x+half, c.grade-2, x+half, foot)
			c.holes = append(c.holes, hole{left: x - half, top: c.grade, right: x + half, bottom: foot})
			c.name(x+half, c.below(c.seat)+14, text)
			c.legend.add(c.grade+1, kind, "", pipe.Label, v.Text(c.System))
			continue
		}
		left, right := c.trench(pipe)
		x, deep := left+radius+4, c.length(pipe, "trench_deep")
		if deep > 0 {
			radius, x = min(radius, (right-left)/2-6), (left+right)/2
		}
		in := hole{x - radius, invert - 2*radius, x + radius, invert, true}
		if deep > 0 {
			c.lined(pipe, left, c.below(c.bottom), right, c.of(c.bottom+deep), in)
		} else {
			c.holes = append(c.holes, in)
		}
		c.circle(thick, x, invert-radius, radius)
		c.circle(thin, x, invert-radius, radius-2.5)
		c.legend.add(invert, kind, "", pipe.Label, v.Text(c.System))
		c.name(x+radius, invert-radius, text)
	}
}

// lined draws the stone of a trench and what it is wrapped in.
func (c *cut) lined(pipe section.Course, left, top, right, bottom float64, in hole) {
	stone, wrap := c.shows(pipe, "stone"), c.shows(pipe, "wrap")
	c.box(middle, "", left, top, right, bottom)
	c.legend.add(top, "bed", c.hatch(stone), pipe.Label, stone.Text(c.System))
	if !wrap.IsZero() {
		const lap = 2.5
		c.line(sheetPens["fabric"], left+lap, top+lap, right-lap, top+lap, right-lap, bottom-lap, left+lap, bottom-lap, left+lap, top+lap)
		c.legend.add(top, "fabric", "", pipe.Label, wrap.Text(c.System))
		left, top, right, bottom = left+2*lap, top+2*lap, right-2*lap, bottom-2*lap
	}
	c.box(pen{}, c.hatch(stone), left, top, right, bottom, in)
}

// edges draws what holds the units: a block, a wedge of what has a hatch, or an angle.
func (c *cut) edges() {
	edge, block := c.first("edge"), c.first("block")
	all := slices.Concat(c.is("edge"), c.is("block"), c.is("spikes"))
	if len(all) == 0 {
		return
	}
	material := c.shows(edge, "material")
	hatch, kind := c.hatch(material), "edge"
	top, seat := c.grade+(c.y[1]-c.grade)/2, c.of(c.seat)
	switch x := c.edge - 1; {
	case block.Name != "":
		top = c.grade
		in := hole{left: x - inches(c.length(block, "wide"))*c.across, top: top, right: x, bottom: c.of(c.length(block, "deep"))}
		c.box(middle, hatch, in.left, in.top, in.right, in.bottom)
		c.holes = append(c.holes, in)
	case hatches[hatch] != "":
		c.shape(middle, hatch, []float64{x, top, x, seat, c.edge - 20, seat})
	default:
		c.line(thick, x, top, x, seat-1, c.edge-20, seat-1)
		c.line(thin, x, top+6, c.edge-12, seat-1)
	}
	if hatches[hatch] != "" {
		kind = "bed"
	}
	c.legend.add(0, kind, hatch, edge.Label, material.Text(c.System))
	named := &label{x: c.edge - 4, y: top + 3, path: []float64{c.edge - 4, c.grade - 8}}
	for _, each := range all {
		text := each.Label
		switch c.symbol(each) {
		case "spikes":
			text += ", " + c.Line("drawn_spikes", "length", c.value(c.shows(each, "long")), "apart", c.value(c.shows(each, "apart")))
		case "block":
			text += ", " + c.Line("drawn_block", "wide", c.value(c.shows(each, "wide")), "deep", c.value(c.shows(each, "deep")))
		}
		named.says += "; " + text
		named.lines = append(named.lines, wrapped(text, wide-texts-2)...)
	}
	c.labelled = append(c.labelled, named)
}

// spikes draws what is driven through the foot of the edge.
func (c *cut) spikes() {
	for _, each := range c.is("spikes") {
		head := c.of(c.seat) - 3
		c.line(thick, c.edge-12, head, c.edge-18, head)
		c.line(thick, c.edge-15, head, c.edge-15, c.of(c.seat+c.length(each, "long")))
	}
}

// fall draws which way and how far the surface falls; what follows lies below it.
func (c *cut) fall() {
	c.grade = 50
	units := c.first("units")
	share := c.shows(units, "fall")
	if share.IsZero() {
		return
	}
	const y, from, to = 14, digSide + 30, digSide
	c.line(middle, from, y-1, to, y+1)
	c.line(middle, to+7, y-3, to, y+1, to+7, y+4.5)
	text := c.Line("drawn_fall", "share", c.value(share))
	if toward := c.shows(units, "toward"); !toward.IsZero() {
		text += ", " + toward.Text(c.System)
	}
	c.grade = c.written(from+6, y-row/2, wrapped(text, wide-from-10)) + 43
}

// dimensions draws how deep the dig is, and how far it reaches beyond the edge.
func (c *cut) dimensions() {
	const at, slash = 18, 3
	grade, bottom := c.grade, c.below(c.bottom)
	c.line(thin, at, grade, at, bottom)
	c.line(thin, at-slash, grade, beside, grade)
	c.line(thin, at-slash, bottom, digSide, bottom)
	c.line(middle, at-slash, grade+slash, at+slash, grade-slash)
	c.line(middle, at-slash, bottom+slash, at+slash, bottom-slash)
	text := c.Line("drawn_dig", "depth", c.value(c.s.Depth))
	c.upward(at-5, max((grade+bottom)/2, textWidth(text)/2+margin), text)
	c.name(face-1, grade, c.Line("drawn_grade"))
	if c.over.IsZero() {
		return
	}
	y := grade - 16
	c.line(thin, digSide, y, c.edge, y)
	for _, x := range []float64{digSide, c.edge} {
		c.line(thin, x, y-slash, x, grade-2)
		c.line(middle, x-slash, y+slash, x+slash, y-slash)
	}
	l := c.value(c.over)
	c.text(max((digSide+c.edge)/2, margin+textWidth(l)/2), y-5, "middle", l)
}

// inWords says what the picture shows.
func (c *cut) inWords() string {
	var out []string
	for _, l := range c.labelled {
		out = append(out, strings.TrimPrefix(l.says, "; "))
	}
	return c.Line("drawn_in_words", "depth", c.s.Depth.Text(c.System), "courses", strings.ReplaceAll(strings.Join(out, "; "), "\u00a0", " "))
}
