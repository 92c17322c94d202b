package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// TestCutsOf holds how the pieces of one roll of 10 m are told, to the centimeter, or
// of one of 30 ft, to the inch.
func TestCutsOf(t *testing.T) {
	for _, c := range []struct {
		name, why string
		roll      quantity.Length
		pieces    []quantity.Length
		system    quantity.System
		want      string
	}{
		{"one and the rest", "3 of 10 m", 10, []quantity.Length{3}, quantity.SI, "3 m; 7 m left"},
		{"alike together", "only those that follow each other", 10, []quantity.Length{3, 2, 2, 3}, quantity.SI, "3 m, 2 x 2 m, 3 m"},
		{"to the next centimeter", "3.001 m are 3.01 m, twice", 10, []quantity.Length{3.001, 3.009}, quantity.SI, "2 x 3.01 m; 3.98 m left"},
		{"less than a centimeter left", "is nothing", 10, []quantity.Length{9.995}, quantity.SI, "10 m"},
		{"a centimeter left", "is told", 10, []quantity.Length{9.99}, quantity.SI, "9.99 m; 10 mm left"},
		{"no room for that", "told as they are, with what is left to the centimeter below", 10, []quantity.Length{2.001, 2.001, 2.001, 3.981}, quantity.SI, "3 x 2.001 m, 3.981 m; 10 mm left"},
		{"the whole roll", "nothing is left", 10, []quantity.Length{10}, quantity.SI, "10 m"},
		{"in inches", "9.001 ft are 9 ft 1 in; of 30 ft 20 ft 11 in are left", quantity.Feet(30), []quantity.Length{quantity.Feet(9.001)}, quantity.US, "9 ft 1 in; 20 ft 11 in left"},
	} {
		l := &laid{product: Product{Length: c.roll}}
		var pieces []Piece
		at := quantity.Length(0)
		for _, length := range c.pieces {
			pieces = append(pieces, Piece{At: at, Length: length})
			at += length
		}
		require.Equal(t, c.want, l.cutsOf(pieces, c.system, usually), "%s: %s", c.name, c.why)
	}
}

// TestCutsTogether holds which rolls are told as one, of rolls of 10 m.
func TestCutsTogether(t *testing.T) {
	piece := func(unit int, at, length quantity.Length) Piece {
		return Piece{Unit: unit, At: at, Length: length}
	}
	pieces := []Piece{piece(2, 0, 4), piece(0, 0, 6), piece(1, 0, 6), piece(3, 0, 6), piece(0, 6, 4), piece(1, 6, 4)}
	for panels, want := range map[bool][]string{
		false: {"rolls 1 to 2, each: 6 m, 4 m", "roll 3: 4 m; 6 m left", "roll 4: 6 m; 4 m left"},
		true:  {"panels 1 to 2, each: 6 m, 4 m", "panel 3: 4 m; 6 m left", "panel 4: 6 m; 4 m left"},
	} {
		l := Layout{&laid{product: Product{Width: 2, Length: 10}, panels: panels, pieces: pieces, units: 4, bound: 4}}
		require.Equal(t, want, l.Cuts(quantity.SI, usually))
		name := map[bool]string{false: "rolls", true: "panels"}[panels]
		for _, c := range []struct {
			bound int
			exact bool
			least string
		}{{4, false, ""}, {3, false, "; these strips take at least 3"}, {3, true, ""}} {
			l.bound, l.exact = c.bound, c.exact
			require.Equal(t, "6 pieces from 4 "+name+" of 2 m by 10 m"+c.least+": "+strings.Join(want, "; "), l.Text(quantity.SI))
		}
	}
}

func TestWhichWayStripsRun(t *testing.T) {
	box, err := Rectangle(4, 3)
	require.NoError(t, err)
	triangle, err := Polygon(Point{0, 0}, Point{4, 1}, Point{0, 3})
	require.NoError(t, err)
	right, err := Polygon(Point{0, 0}, Point{4, 0}, Point{0, 3})
	require.NoError(t, err)
	round, err := Circle(3)
	require.NoError(t, err)
	for _, c := range []struct {
		name  string
		shape Shape
		axis  point
		want  string
	}{
		{"a circle", round, point{1, 0}, "any way, all the same"},
		{"along a rectangle", box, point{1, 0}, "along its length"},
		{"along it, backward", box, point{-1, 0}, "along its length"},
		{"across a rectangle", box, point{0, -1}, "along its width"},
		{"along a side", triangle, point{0, 1}, "along side 3"},
		{"across a side", triangle, point{1, -4}.unit(), "across side 1"},
		{"along one and across another", right, point{0, 1}, "across side 1"},
		{"along none", box, point{1, 1}.unit(), "one way"},
	} {
		require.Equal(t, c.want, (&area{shape: c.shape, axis: c.axis}).runsBy(), c.name)
	}
}

// TestMarks holds what a picture shows of a place: an area 10 by 6, two pieces that
// lap from 3 to 4, in rows 1 high.
func TestMarks(t *testing.T) {
	ground := []trapezoid{{low: 0, high: 6, right: 10, rightTop: 10}}
	pieces := []Lain{{Piece{Unit: 0}, Point{0, 0}, Point{10, 4}}, {Piece{Unit: 1}, Point{0, 3}, Point{12, 7}}}
	for _, c := range []struct {
		name string
		at   point
		want byte
	}{
		{"the lower piece", point{5, 1}, '1'}, {"the upper piece", point{5, 5}, '2'}, {"the lap", point{5, 3.2}, '='},
		{"a row that the middle of the lap is not in", point{5, 2.6}, '1'}, {"just in that row", point{5, 3}, '='},
		{"trimmed above", point{5, 6.5}, '+'}, {"trimmed at the end", point{11, 5}, '+'},
		{"beyond the lower piece", point{11, 2}, ' '}, {"below", point{5, -1}, ' '}, {"left of all", point{-1, 2}, ' '},
	} {
		require.Equal(t, string(c.want), string(markAt(pieces, ground, c.at, 1)), c.name)
	}
	narrow := []Lain{{Piece{Unit: 0}, Point{0, 0}, Point{10, 4}}, {Piece{Unit: 1}, Point{0, 3.8}, Point{12, 7}}}
	for y, want := range map[float64]string{3.3: "1", 3.5: "=", 4.3: "=", 4.45: "2"} {
		require.Equal(t, want, string(markAt(narrow, ground, point{5, y}, 1)), "a lap of 0.2 about 3.9 at %g", y)
	}
}

// TestSmallPictures holds pictures that are worked out by hand.
func TestSmallPictures(t *testing.T) {
	m := quantity.Meters
	lay := func(length, width, strip, roll quantity.Length, levels float64) Layout {
		s, err := Rectangle(length, width)
		require.NoError(t, err)
		l, err := LayRolls(s, Product{Width: strip, Length: roll, Shortest: roll}, 0, levels)
		require.NoError(t, err)
		return l
	}
	both, err := lay(20, 4, 4, 20, 1).Merge(lay(10, 4, 4, 20, 1))
	require.NoError(t, err)
	row := func(mark string, n int) string { return strings.Repeat(mark, n) + "\n" }
	const last = "1, 2 ...: the roll; =: lap; +: turned up or trimmed\n"
	for _, c := range []struct {
		name, why string
		layout    Layout
		columns   int
		want      string
	}{
		{"one strip", "20 columns of 1 m, 2 rows of 2 m", lay(20, 4, 4, 20, 1), 20, "rectangle 20 m by 4 m; strips run along its length, left to right here\n" + row("1", 20) + row("1", 20) + last},
		{"the lowest level alone", "the others look the same", lay(20, 4, 4, 20, 3), 20, "rectangle 20 m by 4 m; strips run along its length, left to right here\n" + row("1", 20) + row("1", 20) + last},
		{"trimmed", "a strip of 4 m on 3 m: 4 rows of 1 m, the upper one trimmed", lay(5, 3, 4, 5, 1), 10, "rectangle 5 m by 3 m; strips run along its length, left to right here\n" + row("+", 10) + strings.Repeat(row("1", 10), 3) + last},
		{"10 columns at least", "of 2 m, and one row of 4 m", lay(20, 4, 4, 20, 1), 3, "rectangle 20 m by 4 m; strips run along its length, left to right here\n" + row("1", 10) + last},
		{"30 rows at most", "30 m in 30 rows of 1 m, and in 60 columns", lay(30, 30, 30, 30, 1), 100, "rectangle 30 m by 30 m; strips run along its length, left to right here\n" + strings.Repeat(row("1", 60), 30) + last},
		{"two areas", "one below the other; the second from another roll", both, 20, "rectangle 20 m by 4 m; strips run along its length, left to right here\n" + row("1", 20) + row("1", 20) +
			"rectangle 10 m by 4 m; strips run along its length, left to right here\n" + strings.Repeat(row("2", 20), 4) + last},
	} {
		require.Equal(t, c.want, c.layout.Draw(c.columns, quantity.SI), "%s: %s", c.name, c.why)
	}
	s, err := Rectangle(4, 2)
	require.NoError(t, err)
	panels, err := LayPanels(s, Panel{Length: m(2), Width: m(2)})
	require.NoError(t, err)
	require.Equal(t, "rectangle 4 m by 2 m; strips run along its length, left to right here\n1111122222\n1111122222\n1111122222\n1, 2 ...: the panel; =: lap; +: turned up or trimmed\n", panels.Draw(10, quantity.SI),
		"2 m are 2.5 rows of 0.8 m, rounded up")
}

// TestCalculations holds every calculation that a rule may call to what it answers
// on a job that is worked out by hand: 20 by 40 ft, two strips of 40 ft, or panels.
func TestCalculations(t *testing.T) {
	f := quantity.Feet
	patio, err := RectangleOf(quantity.SquareFeet(800), f(120))
	require.NoError(t, err)
	rolled, err := rollLayout(patio, f(12.5), f(300), f(1), f(3), 0, 1, f(10))
	require.NoError(t, err)
	require.Equal(t, "2 pieces from 1 roll of 12 ft 6 in by 300 ft: roll 1: 2 x 40 ft; 220 ft left", rolled.String())
	up, err := rollLayout(patio, f(12.5), f(50), f(1), f(3), f(1), 2, f(50))
	require.NoError(t, err)
	require.Equal(t, Product{Width: f(12.5), Length: f(50), Lap: f(1), EndLap: f(3), Shortest: f(50)}, up.product)
	require.Equal(t, [2]int{4, 4}, [2]int{up.Units(), len(up.Pieces())}, "two strips of 42 ft on each of two levels")
	panels, err := panelLayout(patio, f(4), f(2), f(2), f(1))
	require.NoError(t, err)
	require.Equal(t, [2]int{100, 105}, [2]int{panels.Units(), len(panels.Pieces())}, "every other course begins and ends with a half")
	require.Equal(t, [2]quantity.Length{f(4), f(2)}, [2]quantity.Length{panels.product.Length, panels.product.Width})
	narrow, err := panelLayout(patio, f(4), f(2), 0, f(1))
	require.NoError(t, err)
	require.Len(t, narrow.Pieces(), 100, "joints that are not moved")

	described := map[string]calculation.Function{}
	for _, c := range Calculations() {
		described[c.Name] = c
		require.NotEmpty(t, c.About)
		require.Contains(t, c.Example, c.Name+"(")
		require.Equal(t, c.Name == "area_beyond", c.Positive, "only it moves one way, and a proof must know that it is never below zero: %s", c.Name)
		require.Equal(t, c.Positive, c.Moves != "")
	}
	require.Len(t, described, 10)
	require.Equal(t, ".+", described["area_beyond"].Moves)
	none, nothing := Shape{}, Layout{}
	for name, want := range map[string]any{"layout_count": 1.0, "layout_bought": f(300).Meters() * f(12.5).Meters(), "layout_cut": f(80).Meters() * f(12.5).Meters(), "layout_cuts": "roll 1: 2 x 40 ft; 220 ft left"} {
		var got any
		var refused error
		switch call := described[name].Go.(type) {
		case func(Layout) (float64, error):
			got, err = call(rolled)
			_, refused = call(nothing)
		case func(Layout) (quantity.Area, error):
			var area quantity.Area
			area, err = call(rolled)
			_, refused = call(nothing)
			got = area.SquareMeters()
		case func(Layout) (string, error):
			got, err = call(rolled)
			_, refused = call(nothing)
		}
		require.NoError(t, err)
		require.ErrorIs(t, refused, ErrNone, name)
		if x, is := want.(float64); is {
			require.InEpsilon(t, x, got, 1e-9, name)
		} else {
			require.Equal(t, want, got, name)
		}
	}
	around, err := described["shape_perimeter"].Go.(func(Shape) (quantity.Length, error))(patio)
	require.NoError(t, err)
	require.InEpsilon(t, 120, around.Feet(), 1e-9)
	within, err := described["shape_area"].Go.(func(Shape) (quantity.Area, error))(patio)
	require.NoError(t, err)
	require.InEpsilon(t, 800, within.SquareFeet(), 1e-9)
	_, err = described["shape_area"].Go.(func(Shape) (quantity.Area, error))(none)
	require.ErrorIs(t, err, ErrNone)
}
