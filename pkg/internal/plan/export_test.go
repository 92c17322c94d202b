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
