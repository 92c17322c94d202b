package drawn

import (
	"fmt"

	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const (
	mostPieces = 400 // of which a picture can still be read
	tallest    = 300 // a plan
	planLeft   = 24  // with its height beside it
)

// laid is a layout while it is drawn.
type laid struct {
	*Drawing
	canvas
	scale float64 // units of the picture to a meter
	left  float64
	top   float64
	low   plan.Point
	high  plan.Point
	names int // pieces that are named
}

// Layout draws how rolls or panels are laid, each piece with the number of what it is
// cut from; nothing where they are too many to be read.
func (d *Drawing) Layout(l plan.Layout, of string) Picture {
	if len(l.Pieces()) == 0 || len(l.Pieces()) > mostPieces {
		return Picture{}
	}
	c := &laid{Drawing: d}
	c.prefix = d.Prefix
	y := 4.0
	levels := l.Lying()
	for _, level := range levels {
		if len(levels) > 1 {
			y = c.written(margin, y, []string{d.Line("drawn_level", "level", fmt.Sprint(level.Level+1))})
		}
		y = c.level(level, y+18)
	}
	y += 6
	c.box(middle, "", margin, y+1, 32, y+12)
	y = c.written(40, y, wrapped(d.Line("drawn_pieces"), wide-40-margin)) + 4
	if len(c.fills) > 0 {
		c.box(thin, "hatch_lines", margin, y+1, 32, y+12)
		y = c.written(40, y, []string{d.Line("drawn_lap")}) + 4
	}
	c.line(thick, margin, y+row/2, 32, y+row/2)
	y = c.written(40, y, []string{d.Line("drawn_paving")}) + 2
	if c.names < len(l.Pieces()) {
		y = c.written(margin, y, wrapped(d.Line("drawn_unnamed"), wide-2*margin)) + 2
	}
	y = c.written(margin, y, wrapped(d.Line("drawn_plan"), wide-2*margin))
	c.height = y + margin
	return c.picture(d.Line("drawn_layout", "of", of), l.Text(d.System))
}

// at is where a place of the plan lies in the picture.
func (c *laid) at(p plan.Point) (x, y float64) {
	return c.left + (p.X-c.low.X).Meters()*c.scale, c.top + (c.high.Y-p.Y).Meters()*c.scale
}

// level draws one level of an area from top down, and returns where it ends.
func (c *laid) level(of plan.Lying, top float64) (bottom float64) {
	w, h := (of.High.X - of.Low.X).Meters(), (of.High.Y - of.Low.Y).Meters()
	c.scale = min((wide-planLeft-margin)/w, tallest/h)
	c.left, c.top, c.low, c.high = planLeft, top, of.Low, of.High
	for i, p := range of.Pieces {
		left, bottom := c.at(p.Low)
		right, top := c.at(p.High)
		c.box(thin, "", left, top, right, bottom)
		low, high := p.Low.Y, p.High.Y // what no other piece covers
		for k, o := range of.Pieces {
			from, to := plan.Point{X: max(p.Low.X, o.Low.X), Y: max(p.Low.Y, o.Low.Y)}, plan.Point{X: min(p.High.X, o.High.X), Y: min(p.High.Y, o.High.Y)}
			if k == i || (to.X-from.X).Meters()*c.scale < 0.1 || (to.Y-from.Y).Meters()*c.scale < 0.1 {
				continue
			}
			if k < i {
				x, y := c.at(from)
				right, top := c.at(to)
				c.box(pen{}, "hatch_lines", x, top, right, y)
			}
			if o.Low.Y < p.Low.Y {
				low = max(low, to.Y)
			}
			if o.High.Y > p.High.Y {
				high = min(high, from.Y)
			}
		}
		_, foot := c.at(plan.Point{Y: low})
		_, head := c.at(plan.Point{Y: high})
		c.named(p, (left+right)/2, (foot+head)/2, right-left, foot-head)
	}
	var around []float64
	for _, corner := range of.Outline {
		x, y := c.at(corner)
		around = append(around, x, y)
	}
	c.shape(thick, "", around)
	right, bottom := c.at(plan.Point{X: of.High.X, Y: of.Low.Y})
	c.text((c.left+right)/2, top-5, "middle", c.measured(of.High.X-of.Low.X))
	text := c.measured(of.High.Y - of.Low.Y)
	c.upward(planLeft-6, max((top+bottom)/2, margin+textWidth(text)/2), text)
	return max(bottom, top+textWidth(text)/2) + 8
}

// measured is a length as it is cut.
func (c *laid) measured(l quantity.Length) string {
	return c.value(value.Measured(plan.Piece{Length: l}.Reach(c.System)))
}

// named writes what a piece is cut from, and how long it is if there is room.
func (c *laid) named(p plan.Lain, x, y, width, height float64) {
	number := fmt.Sprint(p.Unit + 1)
	for _, text := range []string{c.Line("drawn_piece", "number", number, "length", c.measured(p.Length)), number} {
		if textWidth(text) <= width-4 && height >= row {
			c.text(x, y+letter*0.35, "middle", text)
			c.names++
			return
		}
	}
	if width >= letter && height >= textWidth(number)+4 {
		c.upward(x+letter*0.35, y, number)
		c.names++
	}
}
