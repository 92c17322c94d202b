package site

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/plan"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Shape is the outline of an area, told in one of three ways: the length and the
// width of a rectangle, the diameter of a circle, or the corners of a polygon. Area
// and perimeter come of it.
type Shape struct {
	Length, Width, Diameter *quantity.Length
	// Corners in order around the area, either way: all by their places, or all by the
	// sides between them.
	Corners []Corner
}

// Corner is one corner of a polygon.
type Corner struct {
	// X and Y are its place, from any one point, to the right and up the page.
	X, Y *quantity.Length
	// Side is how long the side is that begins here, and Angle the angle in degrees,
	// measured inside the area, between that side and the next; that of the last side may
	// be left out.
	Side  *quantity.Length
	Angle *float64
}

// Edge is a part of the edge of an area, and what it meets.
type Edge struct {
	// Meets is what lies beyond it, in a word, and Joins the name of the other area of the
	// job, or of other paving, that does; not both.
	Meets, Joins string
	// Side is the side of the shape that it is on, counted from 1 as the shape was told; 0
	// for one that is not said.
	Side int
	// Length of the edge; nil for that of the whole side.
	Length *quantity.Length
}

// Beside is what is known of paving that this paving meets.
type Beside struct {
	Use, Base string
	// Depth of its section, from its finished surface to the bottom of its dig.
	Depth *quantity.Length
	// Length along which the two meet.
	Length *quantity.Length
}

// edgeKinds is the vocabulary of what lies beyond an edge.
const edgeKinds = "edge_kind"

var sideRange = between(1, 200, "") // as many as a polygon may have corners

var shapeFields = []*Field{
	{key: "length", at: of(func(s *Site) any { return &s.Shape.Length }), Range: above0(20e3, "ft"), Example: "20 ft", Contradictions: perArea,
		Label: "Length", About: "length of a rectangle, with its width"},
	{key: "width", at: of(func(s *Site) any { return &s.Shape.Width }), Range: above0(20e3, "ft"), Example: "15 ft", Contradictions: perArea,
		Label: "Width", About: "width of a rectangle, with its length"},
	{key: "diameter", at: of(func(s *Site) any { return &s.Shape.Diameter }), Range: above0(20e3, "ft"), Example: "12 ft",
		Label: "Diameter", About: "diameter of a circle", Contradictions: append([]Contradiction{
			{With: "shape.length", Because: "tells a circle beside a rectangle"}, {With: "shape.width", Because: "tells a circle beside a rectangle"}}, perArea...)},
	{key: "corners", at: of(func(s *Site) any { return &s.Shape.Corners }), Item: "a corner, by its place or by the side that begins there",
		Label: "Corners", About: "corners of a polygon in order around it, all by x and y or all by side and angle", keys: []string{"points", "sides"},
		Contradictions: append([]Contradiction{
			{With: "shape.length", Because: "tells a polygon beside a rectangle"}, {With: "shape.width", Because: "tells a polygon beside a rectangle"},
			{With: "shape.diameter", Because: "tells a polygon beside a circle"}}, perArea...), kids: []*Field{
			{key: "x", at: of(func(c *Corner) any { return &c.X }), Range: between(-20e3, 20e3, "ft"), Example: "20 ft", Label: "To the right", About: "how far to the right it is of any one point"},
			{key: "y", at: of(func(c *Corner) any { return &c.Y }), Range: between(-20e3, 20e3, "ft"), Example: "15 ft", Label: "Up the page", About: "how far up the page it is from that point"},
			{key: "side", at: of(func(c *Corner) any { return &c.Side }), Range: above0(20e3, "ft"), Example: "20 ft", Label: "Side", About: "length of the side that begins here"},
			{key: "angle", at: of(func(c *Corner) any { return &c.Angle }), Range: above0(360, ""), Example: "90", Label: "Angle",
				About: "angle in degrees, inside the area, between that side and the next; over 180 where the edge turns inward"},
		}},
}

var edgeFields = []*Field{
	{key: "meets", at: of(func(e *Edge) any { return &e.Meets }), words: edgeKinds, Example: "house",
		Label: "Meets", About: "what lies beyond the edge; or joins"},
	{key: "joins", at: of(func(e *Edge) any { return &e.Joins }), Example: "front walk",
		Label: "Joins", About: "name of the other area of the job, or of the paving that is there, that lies beyond the edge; or meets"},
	{key: "side", at: of(func(e *Edge) any { return &e.Side }), Whole: true, Range: sideRange, Example: "1", Label: "Side",
		About: "side of the shape, counted from 1 in the order in which it is told; of a rectangle 1 and 3 are its length"},
	{key: "length", at: of(func(e *Edge) any { return &e.Length }), Range: above0(100e3, "ft"), Example: "20 ft", Label: "Length", About: "length of the edge, if it is not the whole side"},
}

var besideFields = []*Field{
	{key: "depth", at: of(func(s *Site) any { return &s.Beside.Depth }), Rules: true, Range: above0(10, "ft"), Example: "8 in", Contradictions: perArea,
		Label: "Depth of the paving beside", About: "depth of the section of the paving beside, from its finished surface to the bottom of its dig"},
	{key: "use", at: of(func(s *Site) any { return &s.Beside.Use }), words: "load_case", Rules: true, Example: "foot", Contradictions: perArea,
		Label: "Use of the paving beside", About: "load case of the paving beside"},
	{key: "base", at: of(func(s *Site) any { return &s.Beside.Base }), words: "base_type", Rules: true, Example: "dense", Contradictions: perArea,
		Label: "Base of the paving beside", About: "kind of base of the paving beside"},
	{key: "length", at: of(func(s *Site) any { return &s.Beside.Length }), derive: func(s *Site) (any, bool) { return s.beside() }, Rules: true, Range: above0(100e3, "ft"), Example: "12 ft", Contradictions: perArea,
		Label: "Length along the paving beside", About: "length along which this paving meets the paving beside"},
}

// perArea contradicts what each area of a job says for itself.
var perArea = []Contradiction{{With: areasKey, Because: "is told of each area, and not of the whole job"}}

// outlined are the values that come of the shape.
var outlined = []string{"shape.length", "shape.width", "shape.diameter", "shape.corners"}

// shapeInput is the shape itself, for calculations.
func shapeInput() *Field {
	return &Field{Path: "shape", Label: "Shape", About: "shape of the area", Form: objectForm, object: value.Kind(plan.Shape{}.RuleTypeName()), From: outlined,
		derive: func(s *Site) (any, bool) {
			shape, _, err := s.Shape.outline()
			return shape, err == nil && !shape.IsZero()
		}}
}

// ofShape returns what comes of the shape or, without one, what is told.
func ofShape[T any](told func(*Site) (T, bool), comes func(plan.Shape) T) func(*Site) (any, bool) {
	return func(s *Site) (any, bool) {
		if shape, _, err := s.Shape.outline(); err == nil && !shape.IsZero() {
			return comes(shape), true
		}
		x, given := told(s)
		return x, given
	}
}

var (
	areaOf = ofShape(func(s *Site) (quantity.Area, bool) { return s.Area, s.Area != 0 }, plan.Shape.Area)
	around = ofShape(func(s *Site) (quantity.Length, bool) {
		if s.Perimeter == nil {
			return 0, false
		}
		return *s.Perimeter, true
	}, plan.Shape.Perimeter)
)

// The properties of what lies beyond an edge that say of how much of the edges it is so.
const (
	holdsPavers = "holds_pavers"
	stopsDig    = "stops_dig"
)

// meeting is how much of the edges meets other paving, or what has a property.
func meeting(path, property, about string) *Field {
	return &Field{
		Path: path, Label: "Edge " + strings.ReplaceAll(property, "_", " "), About: about, Form: MeasuredForm, Dim: quantity.DimLength,
		Range: upTo(100e3, "ft"), Example: "18 ft", From: []string{"edges", "beside.length"},
		derive: func(s *Site) (any, bool) {
			length, beside := s.beside()
			words := s.beyond(property)
			for _, e := range s.Edges {
				if e.Joins != "" && s.Part != "" || len(words) > 0 && slices.Contains(words, s.table.meets.wordOf(e.Meets)) {
					length += s.edgeLength(e)
				}
			}
			return length, beside || len(s.Edges) > 0
		},
		put: func(s *Site, x float64) {
			if words, length := s.beyond(property), quantity.Length(x); len(words) > 0 {
				s.Edges = append(s.Edges, Edge{Meets: words[0], Length: &length})
			}
		},
	}
}

// beyond lists the words for what lies beyond an edge that have a property, as far as
// a rulebook has said which there are.
func (s *Site) beyond(property string) (words []string) {
	if s.table == nil {
		return nil
	}
	for _, w := range s.table.meets.Vocabulary.Words {
		if slices.Contains(w.Has, property) {
			words = append(words, w.GoValue())
		}
	}
	return words
}

// beside returns how long paving that is no part of the job is met, as told of it or
// else of the edges that join it. Those of an area join other areas of the job.
func (s *Site) beside() (length quantity.Length, given bool) {
	if told := s.Beside.Length; told != nil {
		return *told, true
	}
	for _, e := range s.Edges {
		if e.Joins != "" && s.Part == "" {
			length += s.edgeLength(e)
		}
	}
	return length, length > 0
}

// outline returns the shape that is told, the zero one if none is, or what is wrong
// and the key at which it is.
func (s Shape) outline() (shape plan.Shape, key string, err error) {
	switch {
	case s.Diameter != nil:
		shape, err = plan.Circle(*s.Diameter)
		return shape, "diameter", err
	case len(s.Corners) > 0:
		return s.polygon()
	case s.Length == nil && s.Width == nil:
		return plan.Shape{}, "", nil
	case s.Width == nil:
		return plan.Shape{}, "length", errors.New("a rectangle needs its width too")
	case s.Length == nil:
		return plan.Shape{}, "width", errors.New("a rectangle needs its length too")
	}
	shape, err = plan.Rectangle(*s.Length, *s.Width)
	return shape, "length", err
}

// polygon returns the shape of the corners.
func (s Shape) polygon() (shape plan.Shape, key string, err error) {
	var corners []plan.Point
	var sides []quantity.Length
	var angles []float64
	for i, c := range s.Corners {
		placed, measured := c.X != nil && c.Y != nil, c.Side != nil && (c.Angle != nil || i == len(s.Corners)-1)
		switch {
		case placed && c.Side == nil && c.Angle == nil && sides == nil:
			corners = append(corners, plan.Point{X: *c.X, Y: *c.Y})
		case measured && c.X == nil && c.Y == nil && corners == nil:
			sides = append(sides, *c.Side)
			if c.Angle != nil {
				angles = append(angles, *c.Angle)
			}
		default:
			return plan.Shape{}, index("corners", i), errors.New("every corner needs x and y, or every one side and angle")
		}
	}
	if corners != nil {
		shape, err = plan.Polygon(corners...)
	} else {
		shape, err = plan.Sides(sides, angles)
	}
	if one := (*plan.CornerError)(nil); errors.As(err, &one) {
		return shape, index("corners", one.Corner), err
	}
	return shape, "corners", err
}

// shape reports a shape that there cannot be, and an area or a perimeter that is not
// that of the shape.
func (r *report) shape(s *Site) {
	if !r.sound(append(outlined, "area", "perimeter")...) {
		return
	}
	shape, key, err := s.Shape.outline()
	switch {
	case err != nil && !r.sound(join("shape", key)):
	case err != nil:
		r.add(join("shape", key), &fault{code: CodeShape, says: "is not a shape: " + err.Error()})
	case shape.IsZero():
		r.perimeter(s)
	case s.Area != 0 && apart(float64(s.Area), float64(shape.Area())):
		r.add("area", &fault{code: CodeContradiction, says: "is not that of the shape", found: writeQuantity(s.Area.Quantity()),
			want: fmt.Sprintf("about %s, or no area beside the shape", shape.Area()), also: []string{"shape"}})
	case s.Perimeter != nil && apart(float64(*s.Perimeter), float64(shape.Perimeter())):
		r.add("perimeter", &fault{code: CodeContradiction, says: "is not that of the shape", found: writeQuantity(s.Perimeter.Quantity()),
			want: fmt.Sprintf("about %s, or no perimeter beside the shape", shape.Perimeter()), also: []string{"shape"}})
	}
}

// apart reports whether two sizes differ by more than rounding to the foot explains.
func apart(a, b float64) bool { return math.Abs(a-b) > roundedSlack*b }

// edges reports edges that the shape has no room for.
func (r *report) edges(s *Site) {
	shape, _, err := s.Shape.outline()
	if err != nil {
		return
	}
	sides := shape.Sides()
	onSide := make([]quantity.Length, len(sides))
	var all quantity.Length
	for i, e := range s.Edges {
		at := index("edges", i)
		side := join(at, "side")
		switch {
		case !r.sound("edges", at, side, join(at, "length"), join(at, "meets"), join(at, "joins")):
		case (e.Meets == "") == (e.Joins == ""):
			r.add(at, &fault{code: CodeShape, says: "needs what it meets, or the paving that it joins, and not both"})
		case e.Side == 0 && e.Length == nil:
			r.add(at, &fault{code: CodeShape, says: "needs its length, or the side of the shape that it is"})
		case e.Side > len(sides):
			r.add(side, &fault{code: CodeShape, says: "is not a side of the shape", found: fmt.Sprint(e.Side), want: fmt.Sprintf("a shape with a side of that number; it has %d", len(sides))})
		default:
			length := s.edgeLength(e)
			all += length
			if e.Side > 0 {
				onSide[e.Side-1] += length
			}
			if e.Side > 0 && float64(onSide[e.Side-1]) > float64(sides[e.Side-1])*(1+roundedSlack) {
				r.add(at, &fault{code: CodeContradiction, says: "is more than is left of its side", found: length.String(), want: fmt.Sprintf("edges of %s in all on side %d", sides[e.Side-1], e.Side)})
			}
		}
	}
	if around, given := around(s); given && float64(all) > float64(around.(quantity.Length))*(1+roundedSlack) {
		r.add("edges", &fault{code: CodeContradiction, says: "are longer in all than the perimeter", found: all.String(), want: fmt.Sprintf("%s or less", around)})
	}
}

// edgeLength returns the length of an edge; 0 where nothing tells it.
func (s *Site) edgeLength(e Edge) quantity.Length {
	shape, _, _ := s.Shape.outline()
	switch sides := shape.Sides(); {
	case e.Length != nil:
		return *e.Length
	case e.Side > 0 && e.Side <= len(sides):
		return sides[e.Side-1]
	}
	return 0
}

// joins reports edges that join no other area of the job, and two areas that do not
// agree on how long they meet.
func (r *report) joins(s *Site) {
	var names []string
	for _, a := range s.Areas {
		names = append(names, a.Job)
	}
	for i, a := range s.Areas {
		for k, e := range a.Edges {
			at := join(join(index(areasKey, i), index("edges", k)), "joins")
			other := slices.IndexFunc(names, func(name string) bool { return plain(name) == plain(e.Joins) })
			switch {
			case e.Joins == "" || !r.sound(at):
			case other < 0:
				r.add(at, &fault{code: CodeWord, says: "is not the name of an area of this job", found: shown(e.Joins), want: "one of " + strings.Join(names, ", "), near: names})
			case other == i:
				r.add(at, &fault{code: CodeContradiction, says: "joins the area to itself", found: shown(e.Joins), want: "the name of another area"})
			default:
				own, others := s.along(i, other), s.along(other, i)
				if others > 0 && apart(float64(own), float64(others)) && i < other {
					r.add(at, &fault{code: CodeContradiction, says: "is not as long as " + names[other] + " has it", found: own.String(),
						want: "about " + others.String(), also: []string{join(index(areasKey, other), "edges")}})
				}
			}
		}
	}
}

// along returns how long one area says that it joins another.
func (s *Site) along(area, other int) (length quantity.Length) {
	for _, e := range s.Areas[area].Edges {
		if e.Joins != "" && plain(e.Joins) == plain(s.Areas[other].Job) {
			length += s.Areas[area].edgeLength(e)
		}
	}
	return length
}

// Meeting returns how long two areas of the job meet, by their places among Areas, as
// the edges of either say; 0 for two that do not.
func (s *Site) Meeting(area, other int) quantity.Length {
	return cmp.Or(s.along(area, other), s.along(other, area))
}
