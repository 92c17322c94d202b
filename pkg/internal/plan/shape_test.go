package plan_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
)

// runs is how many generated cases a test tries: few, or many if asked for.
func runs(few, many int) int {
	if os.Getenv("GROUNDRULE_MANY") != "" {
		return many
	}
	return few
}

// feet makes a polygon of corners in feet: x, y, x, y and so on.
func feet(xy ...float64) (plan.Shape, error) {
	var corners []plan.Point
	for i := 0; i < len(xy); i += 2 {
		corners = append(corners, plan.Point{X: quantity.Feet(xy[i]), Y: quantity.Feet(xy[i+1])})
	}
	return plan.Polygon(corners...)
}

func meters(xy ...float64) (plan.Shape, error) {
	for i := range xy {
		xy[i] = quantity.Meters(xy[i]).Feet()
	}
	return feet(xy...)
}

func sides(angles []float64, lengths ...float64) (plan.Shape, error) {
	var in []quantity.Length
	for _, l := range lengths {
		in = append(in, quantity.Feet(l))
	}
	return plan.Sides(in, angles)
}

func box(length, width float64) (plan.Shape, error) {
	return plan.Rectangle(quantity.Feet(length), quantity.Feet(width))
}

func round(diameter float64) (plan.Shape, error) { return plan.Circle(quantity.Feet(diameter)) }

func boxOf(area, perimeter float64) (plan.Shape, error) {
	return plan.RectangleOf(quantity.SquareFeet(area), quantity.Feet(perimeter))
}

// made is what a constructor returns.
type made func() (plan.Shape, error)

func of(shape plan.Shape, err error) made { return func() (plan.Shape, error) { return shape, err } }

func TestShapes(t *testing.T) {
	for _, c := range []struct {
		name, why       string
		make            made
		area, perimeter float64
		text            string
	}{
		{"rectangle", "length and width as people give them", of(box(40, 20)), 800, 120, "rectangle 40 ft by 20 ft"},
		{"square", "no side is the longer", of(box(10, 10)), 100, 40, "rectangle 10 ft by 10 ft"},
		{"circle", "its own formulas, not those of a polygon", of(round(20)), 100 * math.Pi, 20 * math.Pi, "circle 20 ft across"},
		{"area and perimeter", "the worked row 20 x 15 of takeoff.md 3.1 (COMPUTED)", of(boxOf(300, 70)), 300, 70, "rectangle 20 ft by 15 ft"},
		{"area and the perimeter of a square", "the shortest perimeter that can be", of(boxOf(100, 40)), 100, 40, "rectangle 10 ft by 10 ft"},
		{"long and thin", "a walk 3 ft wide", of(boxOf(300, 206)), 300, 206, "rectangle 100 ft by 36 in"},
		{"triangle", "3-4-5", of(feet(0, 0, 40, 0, 0, 30)), 600, 120, "polygon of 3 corners: (0 in, 0 in), (40 ft, 0 in), (0 in, 30 ft)"},
		{"clockwise", "corners may be given either way around", of(feet(0, 0, 0, 30, 40, 0)), 600, 120, ""},
		{"an L", "30 x 20 less a corner of 10 x 10", of(feet(0, 0, 30, 0, 30, 10, 20, 10, 20, 20, 0, 20)), 500, 100, ""},
		{"a corner on a straight side", "people measure to where a path meets the side", of(feet(0, 0, 10, 0, 20, 0, 20, 15, 0, 15)), 300, 70, ""},
		{"far from the point measured from", "a survey measures from a monument", of(feet(9000, 9000, 9020, 9000, 9020, 9015, 9000, 9015)), 300, 70, ""},
		{"sides and angles", "a rectangle walked around", of(sides([]float64{90, 90, 90}, 20, 15, 20, 15)), 300, 70, ""},
		{"the last angle too", "it may be given", of(sides([]float64{90, 90, 90, 90}, 20, 15, 20, 15)), 300, 70, ""},
		{"sides of an L", "270 degrees where the outline turns inward", of(sides([]float64{90, 90, 270, 90, 90}, 30, 10, 10, 10, 20, 20)), 500, 100, ""},
		{"the longest rectangle", "20,000 ft", of(box(20000, 1)), 20000, 40002, ""},
		{"the least area", "1 sq ft", of(boxOf(1, 4)), 1, 4, ""},
		{"the longest perimeter", "40,000 ft", of(boxOf(1000, 40000)), 1000, 40000, ""},
		{"200 corners", "as many as a person measures, 10 ft from the middle", of(ring(200)), 200 * 50 * math.Sin(math.Pi/100), 200 * 20 * math.Sin(math.Pi/200), ""},
		{"20,000 ft away", "the farthest", of(feet(-20000, 20000, -19990, 20000, -19990, 19990, -20000, 19990)), 100, 40, ""},
		{"angles that add up to 2 degrees more", "measuring error; the last is not needed", of(sides([]float64{90, 90, 90, 92}, 20, 15, 20, 15)), 300, 70, ""},
		{"equal sides at 60 degrees", "angles that are no quarter turns", of(sides([]float64{60, 60}, 10, 10, 10)), 25 * math.Sqrt(3), 30, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.make()
			require.NoError(t, err)
			require.InEpsilon(t, c.area, s.Area().SquareFeet(), 1e-12, c.why)
			require.InEpsilon(t, c.perimeter, s.Perimeter().Feet(), 1e-12, c.why)
			if c.text != "" {
				require.Equal(t, c.text, s.String(), c.why)
			}
		})
	}
}

// ring makes a polygon of n corners 10 ft from its middle.
func ring(n int) (plan.Shape, error) {
	var xy []float64
	for i := range n {
		at := 2 * math.Pi * float64(i) / float64(n)
		xy = append(xy, 10*math.Cos(at), 10*math.Sin(at))
	}
	return feet(xy...)
}

func TestMeasuredSidesAreClosed(t *testing.T) {
	s, err := sides([]float64{90, 90, 90}, 20.1, 15, 20, 15)
	require.NoError(t, err)
	want := []float64{20.1 - 0.1*20.1/70.1, 15, 20 + 0.1*20/70.1, 15} // to first order in what is missed
	var got []float64
	for _, l := range s.Sides() {
		got = append(got, l.Feet())
	}
	require.Empty(t, cmp.Diff(want, got, cmpopts.EquateApprox(0, 1e-4)), "0.1 ft is missed along two of the sides, and spread by length")
}

func TestShapesRefuse(t *testing.T) {
	for _, c := range []struct {
		name, why string
		make      made
		want      error
		text      string
	}{
		{"a bow tie", "the corners of a square in the wrong order", of(feet(0, 0, 10, 10, 10, 0, 0, 10)), plan.ErrCrossing,
			"sides cross: side 1 (from corner 1 to 2) crosses or touches side 3 (from corner 3 to 4); give the corners in order around the area"},
		{"a corner twice", "the first corner is not repeated at the end", of(feet(0, 0, 10, 0, 10, 10, 0, 0)), plan.ErrCornerTwice,
			"corner given twice: corners 1 and 4 are in one place; give each corner once"},
		{"there and back", "it has no area", of(feet(0, 0, 10, 0, 5, 0)), plan.ErrNoArea, "no area: all corners lie on one line"},
		{"a spike", "a side that runs back on itself", of(feet(0, 0, 10, 0, 10, 15, 10, 10, 0, 10)), plan.ErrCrossing, ""},
		{"a corner on another side", "two areas that meet in a point are two areas", of(feet(0, 0, 10, 0, 10, 10, 5, 0, 0, 10)), plan.ErrCrossing, ""},
		{"an eight with no area", "its halves cancel, but its corners lie on no line", of(feet(0, 0, 10, 0, 0, 10, 10, 10)), plan.ErrCrossing, ""},
		{"two corners", "they hold nothing", of(feet(0, 0, 10, 0)), plan.ErrCorners, "wrong number of corners: found 2; a polygon has 3 to 200"},
		{"201 corners", "more than a person measures", of(feet(make([]float64, 402)...)), plan.ErrCorners, ""},
		{"a corner that is no number", "it lies nowhere", of(feet(math.NaN(), 0, 1, 0, 0, 1)), plan.ErrShape, ""},
		{"a corner too far", "a wrong unit", of(feet(30000, 0, 1, 0, 0, 1)), plan.ErrShape,
			"not a shape: corner 1 is 30,000 ft; it must be -20,000 to 20,000 ft (limit of this library)"},
		{"no width", "no area", of(box(10, 0)), plan.ErrNoArea, "no area: width is 0 ft; it must be above 0 and at most 20,000 ft (limit of this library)"},
		{"less than no length", "no area", of(box(-1, 10)), plan.ErrNoArea, ""},
		{"too long", "a wrong unit", of(box(30000, 10)), plan.ErrShape, ""},
		{"no diameter", "no area", of(round(0)), plan.ErrNoArea, "no area: diameter is 0 ft; it must be above 0 and at most 20,000 ft (limit of this library)"},
		{"no area told", "no area", of(boxOf(0, 40)), plan.ErrNoArea, "no area: area is 0 sqft; it must be 1 to 400,000,000 sqft (limit of this library)"},
		{"a perimeter too short", "a square of 100 sq ft needs 40 ft", of(boxOf(100, 39.9)), plan.ErrPerimeter,
			"perimeter too short for the area: perimeter is 39.9 ft; it must be 40 to 40,000 ft (a square has the shortest perimeter of all rectangles of an area)"},
		{"sides that do not close", "1 ft is missed in 69 ft", of(sides([]float64{90, 90, 90}, 20, 15, 19, 15)), plan.ErrOpen,
			"sides do not close: the last side ends 12 in from where the first began; up to 8.28 in would be measuring error"},
		{"angles that do not add up", "four of 90 degrees would", of(sides([]float64{90, 90, 90, 80}, 20, 15, 20, 15)), plan.ErrOpen,
			"sides do not close: the angles add up to 350 degrees; inside 4 sides they make 360"},
		{"no angles", "sides alone can be bent", of(sides(nil, 20, 15, 20, 15)), plan.ErrCorners,
			"wrong number of corners: found 4 sides and 0 angles; give 3 to 200 sides and an angle between each and the next"},
		{"a full turn", "it is no corner", of(sides([]float64{90, 360, 90}, 20, 15, 20, 15)), plan.ErrShape, ""},
		{"201 corners of a ring", "one more than is taken", of(ring(201)), plan.ErrCorners, ""},
		{"two sides", "they hold nothing", of(sides([]float64{90}, 20, 15)), plan.ErrCorners, ""},
		{"an angle too many", "there is no side after it", of(sides([]float64{90, 90, 90, 90, 90}, 20, 15, 20, 15)), plan.ErrCorners, ""},
		{"201 sides", "more than a person measures", of(sides(make([]float64, 201), make([]float64, 201)...)), plan.ErrCorners, ""},
		{"a bit over 1 % missed", "0.715 ft in 70.715", of(sides([]float64{90, 90, 90}, 20, 15, 20.715, 15)), plan.ErrOpen, ""},
		{"angles that add up to a bit over 2 degrees more", "more than measuring error", of(sides([]float64{90, 90, 90, 92.03}, 20, 15, 20, 15)), plan.ErrOpen, ""},
		{"no turn", "it is no corner", of(sides([]float64{90, 0, 90}, 20, 15, 20, 15)), plan.ErrShape, ""},
		{"a bit too long", "a wrong unit", of(box(20100, 10)), plan.ErrShape, "not a shape: length is 20,100 ft; it must be above 0 and at most 20,000 ft (limit of this library)"},
		{"a bit too far left", "a wrong unit", of(feet(0, 0, 1, 0, 0, -20100)), plan.ErrShape,
			"not a shape: corner 3 is -20,100 ft; it must be -20,000 to 20,000 ft (limit of this library)"},
		{"a thousandth of a millimeter", "it is nothing", of(plan.Rectangle(quantity.Meters(1e-6), 1)), plan.ErrNoArea, "no area: length is less than a thousandth of a millimeter"},
		{"less than the least area", "a wrong unit", of(boxOf(0.98, 40)), plan.ErrNoArea, ""},
		{"more than the greatest area", "a wrong unit", of(boxOf(4.05e8, 80498)), plan.ErrNoArea, ""},
		{"a perimeter too long", "a wrong unit", of(boxOf(100, 40100)), plan.ErrPerimeter, ""},
		{"a line but for rounding", "a thousandth of a millimeter is nothing", of(meters(0, 0, 10, 0, 5, 9e-7)), plan.ErrNoArea, ""},
		{"corners in one place but for rounding", "a thousandth of a millimeter is nothing", of(meters(0, 0, 10, 0, 10, 10, 9e-7, 0)), plan.ErrCornerTwice, ""},
		{"a corner by another side", "a thousandth of a millimeter is nothing", of(meters(0, 0, 10, 0, 10, 10, 5, 9e-7, 0, 10)), plan.ErrCrossing, ""},
		{"a side of nothing", "it is no side", of(sides([]float64{90, 90, 90}, 20, 0, 20, 15)), plan.ErrNoArea, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := c.make()
			require.ErrorIs(t, err, c.want, c.why)
			require.ErrorIs(t, err, plan.ErrShape)
			require.True(t, s.IsZero())
			if c.text != "" {
				require.EqualError(t, err, c.text)
			}
		})
	}
	_, err := boxOf(100, 39)
	var out *calculation.RangeError
	require.ErrorAs(t, err, &out, "a rule that calls it makes the job a refusal")
}

func TestNoShape(t *testing.T) {
	var none plan.Shape
	require.True(t, none.IsZero())
	require.Zero(t, none.Area())
	require.Zero(t, none.Perimeter())
	require.Empty(t, none.Corners())
	require.Equal(t, "no shape", none.String())
	_, err := plan.AreaBeyond(none, 0)
	require.ErrorIs(t, err, plan.ErrNone)
}

// star is a generated polygon of which each corner is seen from the middle: its
// distance and direction.
type star struct{ radius, angle []float64 }

func newStar(r *rand.Rand) star {
	n := 3 + r.IntN(10)
	s := star{}
	weights, sum := make([]float64, n), 0.0
	for i := range weights {
		weights[i] = 0.2 + r.Float64()
		sum += weights[i]
	}
	at := r.Float64() * 2 * math.Pi
	for i := range weights {
		at += 2 * math.Pi * weights[i] / sum
		s.angle = append(s.angle, at)
		s.radius = append(s.radius, 3+40*r.Float64()*r.Float64())
	}
	return s
}

func (s star) shape(r *rand.Rand) (plan.Shape, error) {
	x, y := 200*r.Float64(), 200*r.Float64()
	var xy []float64
	for i, l := range s.radius {
		xy = append(xy, x+l*math.Cos(s.angle[i]), y+l*math.Sin(s.angle[i]))
	}
	return feet(xy...)
}

// TestPolygonsAgainstTriangles holds area and perimeter to the triangles between
// the middle and each side, by the sine and cosine rules.
func TestPolygonsAgainstTriangles(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	tried := 0
	for tried < 1000 {
		s := newStar(r)
		shape, err := s.shape(r)
		if err != nil { // a triangle that does not go around its middle can be one line
			require.ErrorIs(t, err, plan.ErrShape)
			continue
		}
		tried++
		area, around := 0.0, 0.0
		for i, a := range s.radius {
			next := (i + 1) % len(s.radius)
			b, between := s.radius[next], s.angle[next]-s.angle[i]
			area += a * b * math.Sin(between) / 2
			around += math.Sqrt(a*a + b*b - 2*a*b*math.Cos(between))
		}
		require.InEpsilon(t, math.Abs(area), shape.Area().SquareFeet(), 1e-9, "%s", shape)
		require.InEpsilon(t, around, shape.Perimeter().Feet(), 1e-9, "%s", shape)
	}
}

// TestWherePolygonsBegin holds that it does not matter with which corner a polygon
// begins, and which way around it is told.
func TestWherePolygonsBegin(t *testing.T) {
	for _, c := range []struct {
		name, why string
		corners   []float64 // in meters
		want      error
	}{
		{"an L", "a shape", []float64{0, 0, 30, 0, 30, 10, 20, 10, 20, 20, 0, 20}, nil},
		{"a bow tie", "two sides cross", []float64{0, 0, 10, 10, 10, 0, 0, 10}, plan.ErrCrossing},
		{"a star", "every side crosses two", []float64{0, 10, 6, -8, -9, 3, 9, 3, -6, -8}, plan.ErrCrossing},
		{"a corner on another side", "two areas that meet", []float64{0, 0, 10, 0, 10, 10, 5, 0, 0, 10}, plan.ErrCrossing},
		{"a corner near another side", "2 thousandths of a millimeter are between them", []float64{0, 0, 10, 0, 10, 10, 5, 2e-6, 0, 10}, nil},
		{"a spike", "a side that runs back on itself", []float64{0, 0, 10, 0, 10, 15, 10, 10, 0, 10}, plan.ErrCrossing},
		{"a short spike", "the side goes on beyond the one it runs back on", []float64{0, 0, 10, 0, 10, 10, 10, 5, 20, 12, 0, 20}, plan.ErrCrossing},
		{"a flat triangle", "just not on one line", []float64{0, 0, 10, 0, 5, 2e-6}, nil},
		{"a line with a corner between", "its ends are the second and the third", []float64{5, 0, 0, 0, 10, 0, 7, 0}, plan.ErrNoArea},
	} {
		n := len(c.corners) / 2
		for k := range 2 * n {
			xy := make([]float64, 0, 2*n)
			for i := range n {
				at := (k + i) % n
				if k >= n {
					at = (k + n - i) % n
				}
				xy = append(xy, c.corners[2*at], c.corners[2*at+1])
			}
			_, err := meters(slices.Clone(xy)...)
			require.ErrorIs(t, err, c.want, "%s, %v: %s", c.name, xy, c.why)
		}
	}
}

// TestCornerToBlame holds which corner, side or angle an error is laid to.
func TestCornerToBlame(t *testing.T) {
	for _, c := range []struct {
		name, why string
		make      made
		want      int // -1 is none
	}{
		{"a bow tie", "without any one corner it is a triangle", of(feet(0, 0, 10, 10, 10, 0, 0, 10)), -1},
		{"a corner twice", "the second of the two, though without the first it is right as well", of(feet(0, 0, 10, 0, 10, 10, 0, 0)), 3},
		{"one corner far out", "a square without it; without another, sides cross still", of(feet(0, 0, 10, 0, 10, 10, 5, -5, 0, 10)), 3},
		{"a line", "it has no area without any", of(feet(0, 0, 10, 0, 5, 0)), -1},
		{"a corner too far", "the second", of(feet(0, 0, 1, 30000, 0, 1)), 1},
		{"an angle of nothing", "the third", of(sides([]float64{90, 90, 0}, 20, 15, 20, 15)), 2},
		{"a side of nothing", "the third", of(sides([]float64{90, 90, 90}, 20, 15, 0, 15)), 2},
	} {
		_, err := c.make()
		at := -1
		if blamed := (*plan.CornerError)(nil); errors.As(err, &blamed) {
			at = blamed.Corner
			require.EqualError(t, err, blamed.Err.Error())
		}
		require.Equal(t, c.want, at, "%s: %s", c.name, c.why)
	}
}

func TestTextOfShapes(t *testing.T) {
	for _, c := range []struct {
		make     made
		want     string
		sides    []float64
		nCorners int
	}{
		{of(plan.Circle(6)), "circle 6 m across", []float64{6 * math.Pi}, 0},
		{of(plan.Rectangle(3, 2)), "rectangle 3 m by 2 m", []float64{3, 2, 3, 2}, 4},
		{of(meters(0, 0, 0, 3, 4, 0)), "polygon of 3 corners: (0 mm, 0 mm), (0 mm, 3 m), (4 m, 0 mm)", []float64{3, 5, 4}, 3},
	} {
		s, err := c.make()
		require.NoError(t, err)
		require.Equal(t, c.want, s.Text(quantity.SI))
		var got []float64
		for _, side := range s.Sides() {
			got = append(got, side.Meters())
		}
		require.InDeltaSlice(t, c.sides, got, 1e-9, "in the order in which they were given")
		require.Len(t, s.Corners(), c.nCorners)
	}
	require.Empty(t, plan.Shape{}.Sides())
	// 1 in 100 million of the square of the half is what rounding leaves of a square.
	for _, c := range []struct {
		short, apart float64 // by how much less the area is, and how far the sides are apart
	}{{0.99e-8, 0}, {1.015e-8, 200 * math.Sqrt(1.015e-8)}} {
		s, err := boxOf(1e4*(1-c.short), 400)
		require.NoError(t, err)
		require.InDelta(t, c.apart, (s.Sides()[0] - s.Sides()[1]).Feet(), 1e-5+1e-3*c.apart)
	}
}
