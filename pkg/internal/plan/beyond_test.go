package plan_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
)

func TestAreaBeyond(t *testing.T) {
	for _, c := range []struct {
		name, why string
		make      made
		distance  float64
		want      float64
	}{
		{"patio", "the worked row E12 of takeoff.md (COMPUTED)", of(box(20, 15)), 0.5, 336},
		{"drive", "the worked row E13 of takeoff.md (COMPUTED): 551.11 sq ft", of(box(12, 40)), 8.0 / 12, 12*40 + 2*52*8.0/12 + 4*64.0/144},
		{"nothing beyond", "the shape itself", of(feet(0, 0, 30, 0, 30, 10, 20, 10, 20, 20, 0, 20)), 0, 500},
		{"circle", "it grows to a circle", of(round(20)), 2, 144 * math.Pi},
		{"the rectangle as a polygon", "the same as the rectangle", of(feet(0, 0, 20, 0, 20, 15, 0, 15)), 0.5, 336},
		{"an L", "its inward corner takes from the strips along its sides what one of its outward corners adds", of(feet(0, 0, 30, 0, 30, 10, 20, 10, 20, 20, 0, 20)), 1, 500 + 100 + 5 - 1},
		{"a narrow recess", "2 ft wide and 5 ft deep, dug whole at 1 ft and more", of(feet(0, 0, 20, 0, 20, 10, 11, 10, 11, 5, 9, 5, 9, 10, 0, 10)), 1.5, 23 * 13},
		{"a wide recess", "6 ft wide and 5 ft deep, of which 4 by 4 are left at 1 ft", of(feet(0, 0, 20, 0, 20, 10, 13, 10, 13, 5, 7, 5, 7, 10, 0, 10)), 1, 22*12 - 4*5},
		{"equal sides at 60 degrees", "sharper than a right angle: cut off at 1.414 times the distance from the corner, and no more", of(sides([]float64{60, 60}, 10, 10, 10)), 1,
			25*math.Sqrt(3) + 30 + 3*(math.Sqrt(3)-math.Pow(2-math.Sqrt2, 2)/math.Sqrt(3))},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.make()
			require.NoError(t, err)
			got, err := plan.AreaBeyond(s, quantity.Feet(c.distance))
			require.NoError(t, err)
			require.InEpsilon(t, c.want, got.SquareFeet(), 1e-9, c.why)
		})
	}
	s, err := box(20, 15)
	require.NoError(t, err)
	for name, distance := range map[string]float64{"inward": -0.5, "a wrong unit": 101, "no number": math.NaN()} {
		_, err := plan.AreaBeyond(s, quantity.Feet(distance))
		var out *calculation.RangeError
		require.ErrorAs(t, err, &out, name)
	}
}

// beyond reports whether a point lies in the polygon or up to d beyond it, by the
// words of AreaBeyond and without the polygons that it is made of.
func beyond(c []plan.Point, clockwise bool, x, y, d float64) bool {
	if inside(c, x, y) {
		return true
	}
	n := len(c)
	unit := func(i int) (ux, uy, l float64) {
		a, b := c[(i+n)%n], c[(i+1+n)%n]
		ux, uy = float64(b.X-a.X), float64(b.Y-a.Y)
		l = math.Hypot(ux, uy)
		return ux / l, uy / l, l
	}
	outward := 1.0 // the right-hand side of a side
	if clockwise {
		outward = -1
	}
	for i, a := range c {
		ux, uy, l := unit(i)
		px, py := x-float64(a.X), y-float64(a.Y)
		along, off := px*ux+py*uy, outward*(px*uy-py*ux)
		if along >= 0 && along <= l && off >= 0 && off <= d {
			return true // beyond the side itself
		}
		vx, vy, _ := unit(i - 1)
		if outward*(vx*uy-vy*ux) <= 0 {
			continue // no outward corner
		}
		before, offBefore := px*vx+py*vy, outward*(px*vy-py*vx)
		if along > 0 || before < 0 || off > d || offBefore > d {
			continue // not beyond the ends of both sides
		}
		mx, my := vx-ux, vy-uy // points out of the corner
		m := math.Hypot(mx, my)
		if vx*ux+vy*uy >= 0 || (px*mx+py*my)/m <= math.Sqrt2*d {
			return true
		}
	}
	return false
}

// inside counts the sides that a ray crosses.
func inside(c []plan.Point, x, y float64) bool {
	in := false
	for i, a := range c {
		b := c[(i+1)%len(c)]
		ax, ay, bx, by := float64(a.X), float64(a.Y), float64(b.X), float64(b.Y)
		if ay > y != (by > y) && x < ax+(y-ay)/(by-ay)*(bx-ax) {
			in = !in
		}
	}
	return in
}

// byLines measures what polygons cover together along some 2,000 lines: between the
// heights of two corners what a polygon covers grows evenly from line to line.
func byLines(polygons [][]plan.Point) (area float64) {
	var heights []float64
	for _, c := range slices.Concat(polygons...) {
		heights = append(heights, float64(c.Y))
	}
	slices.Sort(heights)
	low := heights[0]
	heights = slices.Compact(heights)
	for _, high := range heights[1:] {
		lines := math.Ceil(2000 * (high - low) / (heights[len(heights)-1] - heights[0]))
		for i := range int(lines) {
			area += (high - low) / lines * covered(polygons, low+(high-low)*(float64(i)+0.5)/lines)
		}
		low = high
	}
	return area
}

// covered is how much of the line at y polygons cover together.
func covered(polygons [][]plan.Point, y float64) (length float64) {
	var parts [][2]float64
	for _, c := range polygons {
		var xs []float64
		for i, a := range c {
			if b := c[(i+1)%len(c)]; float64(a.Y) > y != (float64(b.Y) > y) {
				xs = append(xs, float64(a.X)+(y-float64(a.Y))/float64(b.Y-a.Y)*float64(b.X-a.X))
			}
		}
		slices.Sort(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			parts = append(parts, [2]float64{xs[k], xs[k+1]})
		}
	}
	slices.SortFunc(parts, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	end := math.Inf(-1)
	for _, r := range parts {
		length += max(0, r[1]-max(r[0], end))
		end = max(end, r[1])
	}
	return length
}

// TestAreaBeyondAgainstSampling counts points of a grid.
func TestAreaBeyondAgainstSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const across = 300
	worst := 0.0
	for tried := 0; tried < runs(15, 1000); {
		shape, err := newStar(r).shape(r)
		if err != nil {
			continue
		}
		tried++
		d := 4 * r.Float64() * r.Float64()
		got, err := plan.AreaBeyond(shape, quantity.Feet(d))
		require.NoError(t, err)
		grown := plan.Grown(shape, quantity.Feet(d))
		c, signed := shape.Corners(), 0.0
		low, high := c[0], c[0]
		for i, p := range c {
			q := c[(i+1)%len(c)]
			signed += float64(p.X-c[0].X)*float64(q.Y-c[0].Y) - float64(p.Y-c[0].Y)*float64(q.X-c[0].X)
			low, high = plan.Point{X: min(low.X, p.X), Y: min(low.Y, p.Y)}, plan.Point{X: max(high.X, p.X), Y: max(high.Y, p.Y)}
		}
		far := 2 * quantity.Feet(d)
		width, height := float64(high.X-low.X+2*far), float64(high.Y-low.Y+2*far)
		count := 0
		for i := range across * across {
			x := float64(low.X-far) + width*(float64(i%across)+r.Float64())/across
			y := float64(low.Y-far) + height*(float64(i/across)+r.Float64())/across
			is := beyond(c, signed < 0, x, y, float64(quantity.Feet(d)))
			require.Equal(t, is, slices.ContainsFunc(grown, func(p []plan.Point) bool { return inside(p, x, y) }), "(%g, %g) m of %s and %g ft", x, y, shape, d)
			if is {
				count++
			}
		}
		require.InEpsilon(t, byLines(grown), float64(got), 1e-5, "%s and %g ft", shape, d)
		sampled := width * height * float64(count) / (across * across)
		worst = max(worst, math.Abs(sampled-float64(got))/(width*height))
		// One point in each cell: a cell that the outline crosses is off by up to one,
		// either way; the sum of some thousand of these strays by less than 1 in 500.
		require.InDelta(t, sampled, float64(got), width*height/500, "%s and %g ft", shape, d)
	}
	t.Logf("at worst off by %.5f of the box around it", worst)
}
