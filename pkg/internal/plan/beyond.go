package plan

import (
	"cmp"
	"math"
	"slices"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

var distances = calculation.Range{Name: "distance", Unit: "ft", Low: 0, High: 100, Document: ownLimit}

// AreaBeyond returns the area of a shape together with the ground that lies up to
// a distance outside its sides, as a dig goes beyond the edge. Around an outward
// corner the dig's sides run on until they meet; at a corner sharper than a
// right angle the tip is cut off square, as far from the corner as the tip
// beyond a right angle is. Ground that is beyond two sides counts once, so that
// a recess narrower than twice the distance is dug whole. A circle grows to a
// circle.
func AreaBeyond(s Shape, distance quantity.Length) (quantity.Area, error) {
	if s.IsZero() {
		return 0, ErrNone
	}
	if err := distances.CheckMeasure(distance); err != nil {
		return 0, err
	}
	d := max(distance.Meters(), 0)
	switch {
	case s.kind == circle:
		r := s.radius + d
		return quantity.SquareMeters(math.Pi * r * r), nil
	case d <= slack:
		return s.Area(), nil
	case s.kind == rectangle:
		return quantity.SquareMeters((s.corners[2].x + 2*d) * (s.corners[2].y + 2*d)), nil
	}
	area := 0.0
	for _, t := range trapezoids(s.grown(d), point{1, 0}) {
		area += t.area()
	}
	return quantity.SquareMeters(area), nil
}

// grown returns polygons, counterclockwise, that together cover the shape and
// what lies up to d beyond it, as [AreaBeyond] says: the outline at d where it
// crosses itself nowhere, else the shape, a strip along each side and a tip at
// each outward corner.
func (s Shape) grown(d float64) [][]point {
	if s.kind == circle {
		scaled := make([]point, len(s.corners))
		for i, c := range s.corners {
			scaled[i] = c.times((s.radius + d) / s.radius)
		}
		return [][]point{scaled}
	}
	if d <= slack {
		return [][]point{s.corners}
	}
	c := s.corners
	strips := [][]point{c}
	var outline []point
	apart := true // each side runs its own way still, beyond the tips at both ends
	for i, a := range c {
		b, before := c[(i+1)%len(c)], c[(i+len(c)-1)%len(c)]
		from, to := a.minus(before).unit(), b.minus(a).unit()
		tip := tipAt(a, from, to, d)
		if len(outline) > 0 {
			apart = apart && tip[0].minus(outline[len(outline)-1]).dot(from) > slack
		}
		outline = append(outline, tip...)
		out := to.right().times(d)
		strips = append(strips, []point{a, a.plus(out), b.plus(out), b})
		if from.cross(to) > 0 {
			strips = append(strips, slices.Concat([]point{a, a.plus(from.right().times(d))}, tip, []point{a.plus(out)}))
		}
	}
	last := outline[0].minus(outline[len(outline)-1])
	if apart && last.dot(c[0].minus(c[len(c)-1])) > 0 && simple(outline) == nil {
		return [][]point{outline}
	}
	return strips
}

// tipAt returns where the lines at d beyond both sides of the corner a meet, at
// which the outline turns from one heading to another; or the two ends of the
// cut, where the corner is sharper than a right angle.
func tipAt(a, from, to point, d float64) []point {
	turned := from.dot(to)                                                                                // the cosine of the turn
	cosine, sine := math.Sqrt(max(1+turned, 0)/2), math.Copysign(math.Sqrt((1-turned)/2), from.cross(to)) // of half the turn
	first := a.plus(from.right().times(d))
	if turned >= 0 || sine < 0 {
		return []point{first.plus(from.times(d * sine / max(cosine, slack)))}
	}
	run := d * (math.Sqrt2 - cosine) / sine
	return []point{first.plus(from.times(run)), a.plus(to.right().times(d)).minus(to.times(run))}
}

// trapezoid lies between two heights; its sides run from left to right at each.
type trapezoid struct{ low, high, left, leftTop, right, rightTop float64 }

func (t trapezoid) area() float64 {
	return float64((t.high - t.low) * (t.right - t.left + t.rightTop - t.leftTop) / 2)
}

// side is a side of a polygon that rises from a to b; up is -1 where the polygon,
// which runs counterclockwise, goes down it and so lies to its right.
type side struct {
	a, b point
	up   int
}

func (s side) at(y float64) float64 {
	switch {
	case y <= s.a.y:
		return s.a.x
	case y >= s.b.y:
		return s.b.x
	}
	return s.a.x + float64((s.b.x-s.a.x)*((y-s.a.y)/(s.b.y-s.a.y)))
}

// trapezoids cuts what polygons cover together into trapezoids that do not
// overlap, from the lowest up, on a plan turned so that axis points right.
func trapezoids(polygons [][]point, axis point) []trapezoid {
	var sides []side
	var heights []float64
	for _, p := range polygons {
		for i := range p {
			a, b := p[i].along(axis), p[(i+1)%len(p)].along(axis)
			heights = append(heights, a.y)
			switch {
			case a.y < b.y:
				sides = append(sides, side{a, b, 1})
			case a.y > b.y:
				sides = append(sides, side{b, a, -1})
			}
		}
	}
	if len(polygons) > 1 {
		heights = append(heights, crossings(sides)...)
	}
	slices.Sort(heights)
	slices.SortStableFunc(sides, func(s, t side) int { return cmp.Compare(s.a.y, t.a.y) })
	var out []trapezoid
	low := heights[0]
	for _, high := range heights[1:] {
		if high-low > slack/100 {
			out = between(out, sides, low, high)
			low = high
		}
	}
	return out
}

// crossings returns the heights at which sides cross.
func crossings(sides []side) []float64 {
	var heights []float64
	for i, s := range sides {
		for _, t := range sides[:i] {
			low, high := max(s.a.y, t.a.y), min(s.b.y, t.b.y)
			if low >= high {
				continue
			}
			before, after := s.at(low)-t.at(low), s.at(high)-t.at(high)
			if before > 0 && after < 0 || before < 0 && after > 0 {
				heights = append(heights, low+float64((high-low)*(before/(before-after))))
			}
		}
	}
	return heights
}

// between appends the trapezoids between two heights, among which no two sides
// cross and none begins or ends. Sides are sorted by where they begin.
func between(out []trapezoid, sides []side, low, high float64) []trapezoid {
	middle := float64((low + high) / 2)
	type cut struct {
		x  float64
		on side
	}
	var cuts []cut
	for _, s := range sides {
		if s.a.y > middle {
			break
		}
		if s.b.y > middle {
			cuts = append(cuts, cut{s.at(middle), s})
		}
	}
	slices.SortStableFunc(cuts, func(c, d cut) int { return cmp.Compare(c.x, d.x) })
	// Going right, a side that the polygon goes down has it to the right.
	depth := 0
	var from side
	for _, c := range cuts {
		if depth == 0 {
			from = c.on
		}
		depth -= c.on.up
		if depth == 0 {
			out = append(out, trapezoid{low, high, from.at(low), from.at(high), c.on.at(low), c.on.at(high)})
		}
	}
	return out
}
