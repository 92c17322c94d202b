package plan

import "example.com/groundrule/pkg/quantity"

// Grown returns the polygons that [AreaBeyond] measures.
func Grown(s Shape, d quantity.Length) (out [][]Point) {
	for _, polygon := range s.grown(d.Meters()) {
		var corners []Point
		for _, c := range polygon {
			corners = append(corners, Point{quantity.Meters(c.x), quantity.Meters(c.y)})
		}
		out = append(out, corners)
	}
	return out
}

// Least returns a number of rolls or panels below which the strips of a layout cannot be
// cut, and whether it is proven to have the fewest, and of those the fewest joints.
func (l Layout) Least() (units int, proven bool) {
	if l.IsZero() {
		return 0, false
	}
	return l.bound, l.exact
}
