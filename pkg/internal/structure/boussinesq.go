package structure

import (
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// BoussinesqCircle returns the vertical stress on the axis beneath an evenly
// loaded circle, in ground of one stiffness:
//
//	q*(1 - 1/(1 + (a/z)^2)^1.5)
//
// At depth zero it is the pressure itself. Pressure above 0 up to 10,000 psi,
// radius 1 mm to 100 m, depth 0 to 100 m.
//
// Boussinesq; checked against the table of Spangler, 1951 (relayed).
func BoussinesqCircle(pressure quantity.Pressure, radius, depth quantity.Length) (quantity.Pressure, error) {
	if err := first(checkPressure(pressure), checkRadius(radius), checkDepth(depth)); err != nil {
		return 0, err
	}
	return pressure * quantity.Pressure(circleShare(float64(radius), float64(depth))), nil
}

// circleShare is the stress as a share of the pressure. With w the cosine of the
// angle under which the depth sees the radius it is 1 - w^3, here with 1 - w
// taken out, so that it keeps its digits at great depth.
func circleShare(a, z float64) float64 {
	aa, zz := float64(a*a), float64(z*z)
	w := math.Sqrt(zz / (aa + zz))
	return aa / (aa + zz) * (1 + w + float64(w*w)) / (1 + w)
}

// pointDepthBound: directly beneath a point load the stress has no limit at depth zero.
var pointDepthBound = bound{"depth", "m", 1e-3, 100, false, ownLimit}

// BoussinesqPoint returns the vertical stress beneath a point load, at a depth
// and at an offset to the side:
//
//	3P/(2*pi*z^2) / (1 + (r/z)^2)^2.5
//
// Load above 0 up to a million lbf, depth 1 mm to 100 m, offset 0 to 100 m.
//
// Boussinesq (memory).
func BoussinesqPoint(load quantity.Force, depth, offset quantity.Length) (quantity.Pressure, error) {
	offsetBound := bound{"offset", "m", 0, 100, false, ownLimit}
	if err := first(checkLoad(load), pointDepthBound.check(depth.Meters()), offsetBound.check(offset.Meters())); err != nil {
		return 0, err
	}
	z, r := float64(depth), float64(offset)/float64(depth)
	return quantity.Pressure(3 * float64(load) / (2 * math.Pi * z * z) * portable.Pow(1+float64(r*r), -2.5)), nil
}

// BoussinesqCorner returns the vertical stress beneath a corner of an evenly
// loaded rectangle, by the closed solution
//
//	q/(2*pi) * (atan(l*b/(z*R)) + l*b*z/R * (1/(l^2+z^2) + 1/(b^2+z^2))),  R^2 = l^2 + b^2 + z^2
//
// At depth zero it is a quarter of the pressure. Pressure above 0 up to 10,000
// psi, sides 1 mm to 100 m, depth 0 to 100 m.
//
// Newmark, 1935 (memory).
func BoussinesqCorner(pressure quantity.Pressure, length, width, depth quantity.Length) (quantity.Pressure, error) {
	if err := first(checkPressure(pressure), checkSide(length), checkSide(width), checkDepth(depth)); err != nil {
		return 0, err
	}
	return pressure * quantity.Pressure(cornerShare(float64(length), float64(width), float64(depth))), nil
}

func cornerShare(l, b, z float64) float64 {
	ll, bb, zz := float64(l*l), float64(b*b), float64(z*z)
	r := math.Sqrt(ll + bb + zz)
	angle := math.Atan2(l*b, z*r) // a quarter turn at depth zero
	rest := l * b * z / r * (1/(ll+zz) + 1/(bb+zz))
	return (angle + rest) / (2 * math.Pi)
}

// BoussinesqSquare returns the vertical stress on the axis beneath an evenly
// loaded square: four times the stress beneath the corner of a quarter of it.
// Ranges and source as for [BoussinesqCorner].
func BoussinesqSquare(pressure quantity.Pressure, side, depth quantity.Length) (quantity.Pressure, error) {
	if err := first(checkPressure(pressure), checkSide(side), checkDepth(depth)); err != nil {
		return 0, err
	}
	half := float64(side) / 2
	return pressure * quantity.Pressure(4*cornerShare(half, half, float64(depth))), nil
}

func boussinesqCalculations() []calculation.Function {
	pressure := calculation.Param{Name: "pressure", About: "even pressure on the surface, above 0 up to 10,000 psi"}
	depth := calculation.Param{Name: "depth", About: "depth beneath the surface, 0 to 100 m"}
	stress := calculation.Param{Name: "stress", About: "vertical stress"}
	return []calculation.Function{
		{
			Name:    "boussinesq_circle",
			About:   "The vertical stress on the axis beneath an evenly loaded circle.",
			Params:  []calculation.Param{pressure, {Name: "radius", About: "radius of the circle, 1 mm to 100 m"}, depth},
			Result:  stress,
			Range:   "radius 1 mm to 100 m, depth 0 to 100 m",
			Sources: []value.Source{sourceBoussinesq},
			Example: "boussinesq_circle(psi(80), inches(6), inches(8))",
			Go:      BoussinesqCircle,
		},
		{
			Name:  "boussinesq_point",
			About: "The vertical stress beneath a point load.",
			Params: []calculation.Param{
				{Name: "load", About: "load, above 0 up to a million lbf"},
				{Name: "depth", About: "depth beneath the surface, 1 mm to 100 m"},
				{Name: "offset", About: "distance to the side of the load, 0 to 100 m"},
			},
			Result:  stress,
			Range:   "depth 1 mm to 100 m",
			Sources: []value.Source{sourcePoint},
			Example: "boussinesq_point(lbf(9000), inches(24), inches(0))",
			Go:      BoussinesqPoint,
		},
		{
			Name:  "boussinesq_corner",
			About: "The vertical stress beneath a corner of an evenly loaded rectangle.",
			Params: []calculation.Param{
				pressure, {Name: "length", About: "length of the rectangle, 1 mm to 100 m"},
				{Name: "width", About: "width of the rectangle, 1 mm to 100 m"}, depth,
			},
			Result:  stress,
			Range:   "sides 1 mm to 100 m, depth 0 to 100 m",
			Sources: []value.Source{sourceCorner},
			Example: "boussinesq_corner(psi(80), inches(8), inches(4), inches(8))",
			Go:      BoussinesqCorner,
		},
		{
			Name:    "boussinesq_square",
			About:   "The vertical stress on the axis beneath an evenly loaded square.",
			Params:  []calculation.Param{pressure, {Name: "side", About: "side of the square, 1 mm to 100 m"}, depth},
			Result:  stress,
			Range:   "side 1 mm to 100 m, depth 0 to 100 m",
			Sources: []value.Source{sourceCorner},
			Example: "boussinesq_square(psi(80), inches(10), inches(8))",
			Go:      BoussinesqSquare,
		},
	}
}
