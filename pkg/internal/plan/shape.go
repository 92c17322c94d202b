package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

// Shape is the outline of an area: a polygon whose sides do not cross, or a
// circle. The zero Shape is none.
type Shape struct{ *outline }

// outline is what a Shape holds.
type outline struct {
	kind    kind
	told    []point // as given; none of a circle
	corners []point // counterclockwise; of a circle those of the polygon drawn around it
	radius  float64 // of a circle
}

type kind uint8

const (
	polygon kind = iota
	rectangle
	circle
)

// Point is a place on the plan, measured from one point of the user's choice: X
// to the right, Y up the page.
type Point struct{ X, Y quantity.Length }

const (
	mostCorners = 200
	// aroundCircle is how many sides the polygon has that is drawn around a circle
	// where rolls are laid over it; it is 0.08 % larger than the circle.
	aroundCircle = 64
	// openMost is the share of the perimeter by which measured sides may miss the
	// point where they began; what is missed is spread over the sides.
	openMost = 0.01
)

var (
	lengths = calculation.Range{Name: "length", Unit: "ft", Low: 0, High: 20000, Above: true, Document: ownLimit}
	areas   = calculation.Range{Name: "area", Unit: "sqft", Low: 1, High: 4e8, Document: ownLimit}
	places  = calculation.Range{Name: "corner", Unit: "ft", Low: -20000, High: 20000, Document: ownLimit}
)

// Rectangle returns a rectangle. Lengths are above 0 to 20,000 ft, else the error
// wraps [ErrNoArea] or [ErrShape].
func Rectangle(length, width quantity.Length) (Shape, error) {
	if err := cmp.Or(size("length", length), size("width", width)); err != nil {
		return Shape{}, err
	}
	x, y := length.Meters(), width.Meters()
	told := []point{{0, 0}, {x, 0}, {x, y}, {0, y}}
	return Shape{&outline{kind: rectangle, told: told, corners: told}}, nil
}

// size refuses a length that no side has.
func size(name string, l quantity.Length) error {
	err := lengths.Named(name).CheckMeasure(l)
	if err == nil && l.Meters() <= slack {
		err = fmt.Errorf("%s is less than a thousandth of a millimeter", name)
	}
	switch {
	case err == nil:
		return nil
	case l.Meters() <= slack:
		return fmt.Errorf("%w: %w", ErrNoArea, err)
	}
	return fmt.Errorf("%w: %w", ErrShape, err)
}

// Circle returns a circle. Its area and perimeter are exact; rolls are laid over
// a polygon of 64 sides that is drawn around it. Errors are those of [Rectangle].
func Circle(diameter quantity.Length) (Shape, error) {
	if err := size("diameter", diameter); err != nil {
		return Shape{}, err
	}
	radius := diameter.Meters() / 2
	outside := radius / heading(180.0/aroundCircle).x
	o := &outline{kind: circle, radius: radius}
	for i := range aroundCircle {
		o.corners = append(o.corners, heading((float64(i)+0.5)*360/aroundCircle).times(outside))
	}
	return Shape{o}, nil
}

// RectangleOf returns the rectangle of an area and a perimeter, the longer sides
// first. The perimeter of a square is the shortest that four sides can have; a
// shorter one is [ErrPerimeter] and a [calculation.RangeError].
func RectangleOf(area quantity.Area, perimeter quantity.Length) (Shape, error) {
	if err := areas.CheckMeasure(area); err != nil {
		return Shape{}, fmt.Errorf("%w: %w", ErrNoArea, err)
	}
	square := 4 * math.Sqrt(area.SquareMeters())
	around := calculation.Range{Name: "perimeter", Unit: "ft", Low: quantity.Meters(square).Feet(), High: 2 * lengths.High,
		Document: "a square has the shortest perimeter of all rectangles of an area"}
	if err := around.CheckMeasure(perimeter); err != nil {
		return Shape{}, fmt.Errorf("%w: %w", ErrPerimeter, err)
	}
	half := float64(perimeter.Meters() / 2)
	root := float64(half*half) - float64(4*area.SquareMeters())
	if root < 1e-8*half*half { // a square, but for rounding
		root = 0
	}
	long := (half + math.Sqrt(root)) / 2
	return Rectangle(quantity.Meters(long), quantity.Meters(area.SquareMeters()/long))
}

// Polygon returns the shape of 3 to 200 corners, given in order around it,
// either way. It refuses a corner given twice ([ErrCornerTwice]), sides that
// cross or touch ([ErrCrossing]) and corners on one line ([ErrNoArea]).
func Polygon(corners ...Point) (Shape, error) {
	told := make([]point, len(corners))
	for i, c := range corners {
		for _, l := range [2]quantity.Length{c.X, c.Y} {
			if err := places.Named(fmt.Sprintf("corner %d", i+1)).CheckMeasure(l); err != nil {
				return Shape{}, &CornerError{i, fmt.Errorf("%w: %w", ErrShape, err)}
			}
		}
		told[i] = point{c.X.Meters(), c.Y.Meters()}
	}
	return polygonOf(told)
}

func polygonOf(told []point) (Shape, error) {
	if n := len(told); n < 3 || n > mostCorners {
		return Shape{}, fmt.Errorf("%w: found %d; a polygon has 3 to %d", ErrCorners, n, mostCorners)
	}
	if err := simple(told); err != nil {
		return Shape{}, blamed(told, err)
	}
	corners := slices.Clone(told)
	if twiceArea(corners) < 0 {
		slices.Reverse(corners)
	}
	return Shape{&outline{told: told, corners: corners}}, nil
}

// simple reports what keeps corners from being those of a polygon.
func simple(c []point) error {
	n := len(c)
	for i := range c {
		for j := i + 1; j < n; j++ {
			if c[i].to(c[j]) <= slack {
				return fmt.Errorf("%w: corners %d and %d are in one place; give each corner once", ErrCornerTwice, i+1, j+1)
			}
		}
	}
	around := 0.0
	for i := range c {
		around += c[i].to(c[(i+1)%n])
	}
	if math.Abs(twiceArea(c)) <= around*slack && flat(c) {
		return fmt.Errorf("%w: all corners lie on one line", ErrNoArea)
	}
	for i := range c {
		for j := i + 1; j < n; j++ {
			if touch(c, i, j) {
				return fmt.Errorf("%w: side %d (from corner %d to %d) crosses or touches side %d (from corner %d to %d); give the corners in order around the area",
					ErrCrossing, i+1, i+1, (i+1)%n+1, j+1, j+1, (j+1)%n+1)
			}
		}
	}
	return nil
}

// blamed returns err as a [*CornerError] if the outline would be right with one corner
// left out, and only that one. Of two corners in one place it is the second.
func blamed(c []point, err error) error {
	at := -1
	for i := range c {
		switch {
		case simple(slices.Delete(slices.Clone(c), i, i+1)) != nil:
		case at >= 0 && c[at].to(c[i]) > slack:
			return err
		default:
			at = i
		}
	}
	if at < 0 {
		return err
	}
	return &CornerError{at, err}
}

// flat reports whether all corners lie on the line between the two that are
// farthest apart.
func flat(c []point) bool {
	a, b := c[0], c[0]
	for i := range c {
		for j := range c[:i] {
			if c[i].to(c[j]) > a.to(b) {
				a, b = c[i], c[j]
			}
		}
	}
	return !slices.ContainsFunc(c, func(p point) bool { return p.toSide(a, b) > slack })
}

// touch reports whether sides i and j meet anywhere but in a corner of both.
func touch(c []point, i, j int) bool {
	n := len(c)
	a, b, p, q := c[i], c[(i+1)%n], c[j], c[(j+1)%n]
	switch {
	case (i+1)%n == j:
		return q.toSide(a, b) <= slack || a.toSide(p, q) <= slack
	case (j+1)%n == i:
		return p.toSide(a, b) <= slack || b.toSide(p, q) <= slack
	}
	near := min(a.toSide(p, q), b.toSide(p, q), p.toSide(a, b), q.toSide(a, b)) <= slack
	ab, pq := b.minus(a), q.minus(p)
	crosses := ab.cross(p.minus(a)) > 0 != (ab.cross(q.minus(a)) > 0) && pq.cross(a.minus(p)) > 0 != (pq.cross(b.minus(p)) > 0)
	return near || crosses
}

func twiceArea(c []point) float64 {
	sum := 0.0
	for i := range c { // from the first corner, so that a place far away costs no figures
		sum += c[i].minus(c[0]).cross(c[(i+1)%len(c)].minus(c[0]))
	}
	return sum
}

// Sides returns the shape of sides measured one after the other and the angles
// inside it, in degrees: the first between the first and the second side, and
// so on; the last, between the last side and the first, may be left out. An
// angle is above 0 and below 360, over 180 where the outline turns inward.
//
// Measured sides never close exactly. What they miss by, up to 1 % of the
// perimeter, is spread over the sides in proportion to their lengths; more is
// [ErrOpen].
func Sides(sides []quantity.Length, angles []float64) (Shape, error) {
	n := len(sides)
	if n < 3 || n > mostCorners || len(angles) != n && len(angles) != n-1 {
		return Shape{}, fmt.Errorf("%w: found %d sides and %d angles; give 3 to %d sides and an angle between each and the next",
			ErrCorners, n, len(angles), mostCorners)
	}
	turned, around := 0.0, 0.0
	for i, a := range angles {
		within := calculation.Range{Name: fmt.Sprintf("angle %d", i+1), Unit: "degrees", High: 360, Above: true, Below: true, Document: ownLimit}
		if err := within.Check(a); err != nil {
			return Shape{}, &CornerError{i, fmt.Errorf("%w: %w", ErrShape, err)}
		}
		turned += 180 - a
	}
	if len(angles) == n && math.Abs(turned-360) > 2 {
		return Shape{}, fmt.Errorf("%w: the angles add up to %g degrees; inside %d sides they make %d", ErrOpen, float64(180*float64(n))-turned, n, 180*(n-2))
	}
	told := make([]point, n)
	var at point
	ahead := 0.0
	for i, s := range sides {
		if err := size(fmt.Sprintf("side %d", i+1), s); err != nil {
			return Shape{}, &CornerError{i, err}
		}
		told[i] = at
		at = at.plus(heading(ahead).times(s.Meters()))
		around += s.Meters()
		if i < len(angles) {
			ahead += 180 - angles[i]
		}
	}
	if missed := at.length(); missed > openMost*around {
		return Shape{}, fmt.Errorf("%w: the last side ends %s from where the first began; up to %s would be measuring error",
			ErrOpen, quantity.Meters(missed), quantity.Meters(openMost*around))
	}
	walked := 0.0
	for i, s := range sides {
		told[i] = told[i].minus(at.times(walked / around))
		walked += s.Meters()
	}
	return polygonOf(told)
}

// IsZero reports whether s is no shape at all.
func (s Shape) IsZero() bool { return s.outline == nil }

// RuleTypeName returns the name of the type in the rule language.
func (Shape) RuleTypeName() string { return "shape" }

// Area returns the area; that of the zero Shape is 0.
func (s Shape) Area() quantity.Area {
	switch {
	case s.IsZero():
		return 0
	case s.kind == circle:
		return quantity.SquareMeters(math.Pi * s.radius * s.radius)
	}
	return quantity.SquareMeters(twiceArea(s.corners) / 2)
}

// Perimeter returns the length all around; that of the zero Shape is 0.
func (s Shape) Perimeter() quantity.Length {
	var around quantity.Length
	for _, side := range s.Sides() {
		around += side
	}
	return around
}

// Sides returns the lengths of the sides in the order in which they were given,
// the first from the first corner to the second. A circle has one.
func (s Shape) Sides() []quantity.Length {
	switch {
	case s.IsZero():
		return nil
	case s.kind == circle:
		return []quantity.Length{quantity.Meters(2 * math.Pi * s.radius)}
	}
	sides := make([]quantity.Length, len(s.told))
	for i, c := range s.told {
		sides[i] = quantity.Meters(c.to(s.told[(i+1)%len(s.told)]))
	}
	return sides
}

// Corners returns the corners in the order in which they were given; a circle
// has none.
func (s Shape) Corners() []Point {
	if s.IsZero() {
		return nil
	}
	corners := make([]Point, len(s.told))
	for i, c := range s.told {
		corners[i] = Point{quantity.Meters(c.x), quantity.Meters(c.y)}
	}
	return corners
}

// String returns the shape in words and US units, such as "rectangle 40 ft by 20
// ft", or "no shape" for the zero Shape.
func (s Shape) String() string { return s.Text(quantity.US) }

// Text is [Shape.String] in one system of units.
func (s Shape) Text(system quantity.System) string {
	switch {
	case s.IsZero():
		return "no shape"
	case s.kind == circle:
		return "circle " + text(quantity.Meters(2*s.radius), system) + " across"
	case s.kind == rectangle:
		return fmt.Sprintf("rectangle %s by %s", text(s.Sides()[0], system), text(s.Sides()[1], system))
	}
	corners := make([]string, len(s.told))
	for i, c := range s.Corners() {
		corners[i] = fmt.Sprintf("(%s, %s)", text(c.X, system), text(c.Y, system))
	}
	return fmt.Sprintf("polygon of %d corners: %s", len(corners), strings.Join(corners, ", "))
}

func text(l quantity.Length, system quantity.System) string { return l.Quantity().Text(system) }
