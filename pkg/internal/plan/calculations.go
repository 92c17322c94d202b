package plan

import (
	"errors"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	sourceGeometry = value.Source{ID: "plane-geometry", Document: "plane geometry", Known: value.Computed}
	sourceLayout   = value.Source{ID: "roll-layout", Document: "search of this library for the layout with the fewest rolls", Known: value.Computed,
		Note: "no cut of the same strips takes fewer rolls than the bound that goes with it, by their sum or by the bound L2 of Martello and Toth (from memory)"}
)

// Calculations describes every calculation of the package that a rule may call.
func Calculations() []calculation.Function {
	param := func(name, about string) calculation.Param { return calculation.Param{Name: name, About: about} }
	shape, layout := param("shape", "outline of the area"), param("layout", "which piece lies where, and from which roll or panel it is cut")
	area, length := param("area", "area"), param("length", "of a roll, 5 to 5,000 ft")
	geometry, search := []value.Source{sourceGeometry}, []value.Source{sourceLayout}
	const (
		patio  = "rectangle_of(sq_ft(800), feet(120))"
		rolled = "roll_layout(" + patio + ", feet(12.5), feet(300), feet(1), feet(3), feet(0), 1.0, feet(10))"
	)
	one := func(name, about string, result calculation.Param, from []value.Source, argument calculation.Param, call string, function any) calculation.Function {
		return calculation.Function{Name: name, About: about, Params: []calculation.Param{argument}, Result: result, Sources: from,
			Example: name + "(" + call + ")", Go: function}
	}
	return []calculation.Function{
		{Name: "rectangle_of", About: "The rectangle of an area and a perimeter.", Params: []calculation.Param{area, param("perimeter", "length all around")}, Result: shape,
			Range: "an area of 1 to 400,000,000 sq ft; a perimeter no shorter than that of a square", Sources: geometry, Example: patio, Go: RectangleOf},
		one("shape_area", "The area of a shape.", area, geometry, shape, patio, of(Shape.Area)),
		one("shape_perimeter", "The length around a shape.", param("perimeter", "length all around"), geometry, shape, patio, of(Shape.Perimeter)),
		{Name: "area_beyond", About: "The area of a shape and of the ground up to a distance beyond its sides.",
			Params: []calculation.Param{shape, param("distance", "how far beyond the sides, 0 to 100 ft")}, Result: area, Range: "a distance of 0 to 100 ft",
			Sources: geometry, Moves: ".+", Positive: true, Example: "area_beyond(" + patio + ", inches(6))", Go: AreaBeyond},
		{Name: "roll_layout", About: "How strips of rolls are laid over a shape.",
			Params: []calculation.Param{shape, param("width", "of a roll, 0.5 to 100 ft"), length, param("lap", "of strips side by side, less than half of the width"),
				param("end_lap", "of pieces in one strip, less than half of a roll"), param("turn_up", "how far it is turned up at the sides, 0 to 20 ft"),
				param("levels", "on how many levels it is laid, 1 to 20"), param("shortest", "how short a piece may be that is joined to others in a strip, 0 to 5,000 ft")},
			Result: layout, Range: "up to 500 strips", Sources: search, Example: rolled, Go: rollLayout},
		{Name: "panel_layout", About: "How panels are laid over a shape in courses.",
			Params: []calculation.Param{shape, param("length", "of a panel along a course, 0.5 to 50 ft"), param("width", "of a panel, 0.5 to 50 ft"),
				param("offset", "of the joints from one course to the next, up to the length"), param("shortest", "how short a cut panel may be where it can be helped, up to half of the length")},
			Result: layout, Range: "up to 500 courses", Sources: search, Example: "panel_layout(" + patio + ", feet(4), feet(2), feet(2), feet(1))", Go: panelLayout},
		one("layout_count", "How many rolls or panels a layout takes.", param("count", "whole rolls or panels"), search, layout, rolled, of(count)),
		one("layout_bought", "The area of the rolls or panels that a layout takes.", area, search, layout, rolled, of(Layout.Bought)),
		one("layout_cut", "The area of the pieces of a layout, laps and trimming included.", area, search, layout, rolled, of(Layout.Cut)),
		one("layout_cuts", "What is cut from each roll or panel.", param("cuts", "one sentence for rolls that are cut alike"), search, layout, rolled, of(cuts)),
	}
}

func rollLayout(s Shape, width, length, lap, endLap, turnUp quantity.Length, levels float64, shortest quantity.Length) (Layout, error) {
	return LayRolls(s, Product{Width: width, Length: length, Lap: lap, EndLap: endLap, Shortest: shortest}, turnUp, levels)
}

func panelLayout(s Shape, length, width, offset, shortest quantity.Length) (Layout, error) {
	return LayPanels(s, Panel{Length: length, Width: width, Offset: offset, Shortest: shortest})
}

func count(l Layout) float64 { return float64(l.Units()) }
func cuts(l Layout) string   { return strings.Join(l.Cuts(quantity.US, usually), "; ") }

// ErrNone is for the zero Shape or Layout.
var ErrNone = errors.New("no shape or layout is given")

// of makes a calculation of what a shape or a layout tells of itself.
func of[T interface{ IsZero() bool }, R any](tells func(T) R) func(T) (R, error) {
	return func(x T) (told R, err error) {
		if x.IsZero() {
			return told, ErrNone
		}
		return tells(x), nil
	}
}
