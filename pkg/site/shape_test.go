package site_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// Area and perimeter come of a shape, however it is told, and rules read all three.
func TestShapes(t *testing.T) {
	const head = "use: foot\nbase: dense\n"
	for _, c := range []struct {
		name, why, text string
		area            quantity.Area
		perimeter       quantity.Length
		is              string
	}{
		{"rectangle", "the usual patio", "shape: {length: 20 ft, width: 15 ft}", quantity.SquareFeet(300), quantity.Feet(70), "rectangle 20 ft by 15 ft"},
		{"rectangle as an area", "what people write for it", "area: 20 x 15 ft", quantity.SquareFeet(300), quantity.Feet(70), "rectangle 20 ft by 15 ft"},
		{"circle", "a fire pit", "shape: {diameter: 20 ft}", quantity.SquareFeet(314.159265), quantity.Feet(62.831853), "circle 20 ft across"},
		{"by corners", "an L, which turns inward once", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 20 ft, y: 0 ft}, {x: 20 ft, y: 10 ft}, {x: 10 ft, y: 10 ft}, {x: 10 ft, y: 20 ft}, {x: 0 ft, y: 20 ft}]}",
			quantity.SquareFeet(300), quantity.Feet(80), "polygon of 6 corners: (0 in, 0 in), (20 ft, 0 in), (20 ft, 10 ft), (10 ft, 10 ft), (10 ft, 20 ft), (0 in, 20 ft)"},
		{"by sides and angles", "as a tape and a square give it; the last angle is what is left",
			"shape: {corners: [{side: 20 ft, angle: 90}, {side: 15 ft, angle: 90}, {side: 20 ft, angle: 90}, {side: 15 ft}]}", quantity.SquareFeet(300), quantity.Feet(70), ""},
		{"beside its sizes", "both rounded to the foot", "area: 314 sq ft\nperimeter: 63 ft\nshape: {diameter: 20 ft}", quantity.SquareFeet(314.159265), quantity.Feet(62.831853), "circle 20 ft across"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := read(t, head+c.text+"\n")
			area, _ := s.Input("area")
			require.InEpsilon(t, float64(c.area), float64(area.(quantity.Area)), 1e-7, c.why)
			perimeter, _ := s.Input("perimeter")
			require.InEpsilon(t, float64(c.perimeter), float64(perimeter.(quantity.Length)), 1e-7)
			shape, given := s.Input("shape")
			require.True(t, given)
			if c.is != "" {
				require.Equal(t, c.is, kindOfText(shape))
			}
			roundTrip(t, s)
		})
	}
	_, given := read(t, least+"perimeter: 82 ft\n").Input("shape")
	require.False(t, given, "an area and a perimeter are those of many shapes")
}

func kindOfText(shape any) string { return shape.(interface{ String() string }).String() }

// An area that is set as a rectangle has its shape, until it is set as another.
func TestSetRectangle(t *testing.T) {
	s := read(t, least)
	require.NoError(t, s.Set("area", "20 ft by 15 ft"))
	require.Empty(t, cmp.Diff(quantity.Feet(20), *s.Shape.Length, alike))
	require.NoError(t, s.Set("area", "300 sq ft"))
	require.NotNil(t, s.Shape.Length, "the same size")
	require.NoError(t, s.Set("area", "500 sq ft"))
	require.Equal(t, site.Shape{}, s.Shape)
	require.NoError(t, s.Validate())
}

// A shape that there cannot be, and an edge that it has no room for, is told where it
// stands.
func TestShapesThatCannotBe(t *testing.T) {
	const square = "shape: {length: 10 ft, width: 10 ft}\n"
	for _, c := range []struct{ name, why, text, want string }{
		{"sides cross", "the corners are out of order", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft, y: 10 ft}, {x: 10 ft, y: 0 ft}, {x: 0 ft, y: 10 ft}]}",
			"3:18: shape.corners is not a shape: sides cross: side 1 (from corner 1 to 2) crosses or touches side 3"},
		{"corner twice", "a slip of copying", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft, y: 0 ft}, {x: 10 ft, y: 0 ft}, {x: 0 ft, y: 10 ft}]}",
			"3:60: shape.corners[2] is not a shape: corner given twice: corners 2 and 3 are in one place"},
		{"the first corner again at the end", "who closes the outline gives one corner too many", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft, y: 0 ft}, {x: 10 ft, y: 10 ft}, {x: 0 ft, y: 0 ft}]}",
			"3:82: shape.corners[3] is not a shape: corner given twice: corners 1 and 4 are in one place"},
		{"one corner out of place", "without it the outline of the other five is right, and without no other", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 20 ft, y: 0 ft}, {x: 20 ft, y: 20 ft}, {x: 10 ft, y: -5 ft}, {x: 10 ft, y: 20 ft}, {x: 0 ft, y: 20 ft}]}",
			"3:82: shape.corners[3] is not a shape: sides cross: side 1 (from corner 1 to 2) crosses or touches side 3"},
		{"a full turn", "an angle stands with its corner", "shape: {corners: [{side: 20 ft, angle: 90}, {side: 15 ft, angle: 360}, {side: 20 ft, angle: 90}, {side: 15 ft}]}",
			"3:45: shape.corners[1] is not a shape: not a shape: angle 2 is 360 degrees"},
		{"no area", "three corners on one line", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft, y: 0 ft}, {x: 20 ft, y: 0 ft}]}", "3:18: shape.corners is not a shape: no area"},
		{"area of zero", "nothing to pave", "area: 0 sq ft", `3:7: area is out of range; found "0 sq ft"`},
		{"length of zero", "nor here", "shape: {length: 0 ft, width: 10 ft}", `3:17: shape.length is out of range; found "0 ft"`},
		{"perimeter too short", "no line of 30 ft holds 400 sq ft", "area: 400 sq ft\nperimeter: 30 ft", "4:12: perimeter is shorter than that of a circle of the area"},
		{"sides that do not close", "the last ends far from where the first began", "shape: {corners: [{side: 20 ft, angle: 90}, {side: 15 ft, angle: 90}, {side: 10 ft, angle: 90}, {side: 15 ft}]}",
			"3:18: shape.corners is not a shape: sides do not close"},
		{"two corners", "they make no area", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft, y: 0 ft}]}", "3:18: shape.corners is not a shape: wrong number of corners"},
		{"a corner half told", "its height is missing", "shape: {corners: [{x: 0 ft, y: 0 ft}, {x: 10 ft}, {x: 10 ft, y: 10 ft}]}",
			"3:39: shape.corners[1] is not a shape: every corner needs x and y, or every one side and angle"},
		{"no width", "a rectangle of one side", "shape: {length: 10 ft}", "3:17: shape.length is not a shape: a rectangle needs its width too"},
		{"no length", "nor of the other", "shape: {width: 10 ft}", "3:16: shape.width is not a shape: a rectangle needs its length too"},
		{"round and square", "told in two ways", "shape: {diameter: 9 ft, length: 10 ft, width: 10 ft}", "3:19: shape.diameter tells a circle beside a rectangle"},
		{"another area", "the shape has 100 sq ft", "area: 120 sq ft\n" + square, `3:7: area is not that of the shape; found "120 sq ft"; wanted about 100 sq ft`},
		{"another perimeter", "it has 40 ft", "perimeter: 50 ft\n" + square, `3:12: perimeter is not that of the shape; found "50 ft"; wanted about 40 ft`},
		{"a side that is not there", "a rectangle has four", square + "edges: [{meets: house, side: 5}]", `4:30: edges[0].side is not a side of the shape; found "5"`},
		{"no side at all", "nothing tells how long it is", square + "edges: [{meets: house}]", "4:9: edges[0] needs its length, or the side of the shape that it is"},
		{"more than a side", "4 ft are left", square + "edges: [{meets: house, side: 1, length: 6 ft}, {meets: lawn, side: 1, length: 6 ft}]", "4:48: edges[1] is more than is left of its side"},
		{"more than all around", "of an area whose shape is not told", "area: 100 sq ft\nperimeter: 40 ft\nedges: [{meets: lawn, length: 42 ft}]", "5:8: edges are longer in all than the perimeter"},
		{"meets nothing", "what for is it told?", square + "edges: [{side: 1}]", "4:9: edges[0] needs what it meets, or the paving that it joins"},
		{"no such thing", "of the words of the rulebook", square + "edges: [{meets: hous, side: 1}]", `4:17: edges[0].meets is not a known word for what lies beyond an edge of the paving; found "hous"`},
		{"joins what is not there", "the walk has another name", "areas:\n  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: wlk, side: 1}]}\n  - {name: walk, area: 60 sq ft}",
			`4:71: areas[0].edges[0].joins is not the name of an area of this job; found "wlk"; wanted one of patio, walk; did you mean "walk"?`},
		{"joins itself", "an area has no joint with itself", "areas:\n  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: Patio, side: 1}]}\n  - {name: walk, area: 60 sq ft}",
			"4:71: areas[0].edges[0].joins joins the area to itself"},
		{"two lengths", "the walk has 4 ft where the patio has 9 ft", "areas:\n  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: walk, side: 1}]}\n  - {name: walk, area: 60 sq ft, edges: [{joins: patio, length: 4 ft}]}",
			"4:71: areas[0].edges[0].joins is not as long as walk has it"},
		{"edges of the whole", "of which area?", "areas: [{name: a, area: 9 sq ft}]\nedges: [{meets: house, length: 3 ft}]", "4:8: edges is told of each area, and not of the whole job"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := standard(t).Read("job.yaml", []byte("use: foot\nbase: dense\n"+c.text+"\n"))
			require.ErrorContains(t, err, "job.yaml:"+c.want, c.why)
			var wrong *site.Error
			require.ErrorAs(t, err, &wrong)
			require.LessOrEqual(t, len(wrong.Faults), 2, "%v", err)
		})
	}
}

// Two areas meet where an edge of either says so, as long as it says.
func TestMeeting(t *testing.T) {
	s := read(t, `use: foot
base: dense
areas:
  - {name: patio, shape: {length: 9 ft, width: 9 ft}, edges: [{joins: walk, side: 1, length: 4 ft}, {meets: house, side: 3}]}
  - {name: Walk, area: 60 sq ft}
  - {name: bed edge, area: 20 sq ft}
`)
	for _, pair := range [][2]int{{0, 1}, {1, 0}} {
		require.Empty(t, cmp.Diff(quantity.Feet(4), s.Meeting(pair[0], pair[1]), alike))
	}
	require.Zero(t, s.Meeting(0, 2))
	roundTrip(t, s)
	require.NoError(t, s.Parts()[0].Validate(), "a part may join paving that is no part of it")
}

// Paving that is no part of the job is met as long as that is told, and by no edge where
// areas of the job join; the pavers are held along both.
func TestBesideAndJoined(t *testing.T) {
	for _, c := range []struct {
		name, why, beside string
		length, held      quantity.Length // 0 for what is not told
	}{
		{"areas alone", "they hold each other", "", 0, 9},
		{"beside, for so long", "both hold", "beside: {depth: 3 in, length: 5 ft}, ", 5, 14},
		{"beside, nobody knows how long", "the joint of the areas does not tell it", "beside: {depth: 3 in}, ", 0, 9},
	} {
		t.Run(c.name, func(t *testing.T) {
			part := read(t, "use: foot\nbase: dense\nareas:\n  - {name: patio, "+c.beside+"shape: {length: 9 ft, width: 9 ft}, edges: [{joins: walk, side: 1}]}\n  - {name: walk, area: 60 sq ft}\n").Parts()[0]
			for path, want := range map[string]quantity.Length{"beside.length": c.length, "edges.held": c.held} {
				x, given := part.Input(path)
				require.Equal(t, want > 0, given, path)
				if given {
					require.InDelta(t, float64(want), x.(quantity.Length).Feet(), 1e-9, path)
				}
			}
		})
	}
}
