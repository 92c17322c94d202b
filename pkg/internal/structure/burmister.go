package structure

import (
	"errors"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

const burmisterDocument = "range in which the two-layer solution of this library is checked"

var (
	stiffnessRatioBound = bound{"modulus ratio", "", 1, 1000, false, burmisterDocument}
	slendernessBound    = bound{"radius over thickness", "", 0.1, 2, false, burmisterDocument}
)

// errNotConverged is a fault of the integration, not of what was asked; no
// input in range is known to bring it about.
var errNotConverged = errors.New("two-layer integral did not settle")

// TwoLayerStress returns the vertical stress on the axis beneath an evenly loaded
// circle, at the bottom of a layer that lies on softer ground, by the elastic
// solution for two layers that do not slip on each other. The upper layer is 1
// to 1,000 times as stiff as the ground, the radius 0.1 to 2 times the
// thickness, Poisson's ratios 0 to 0.5. Within that range a thicker or a stiffer
// layer never raises the stress; thinner layers act as plates, beneath which the
// stress on the axis can pass the pressure itself, and are refused.
//
// The integral is carried to 1e-8 of the pressure. What it leaves out is that a
// granular layer carries no tension and stiffens under load, and no number for
// that is given here.
//
// Burmister, 1943; solved here from the Love stress function (computed), and
// equal to [BoussinesqCircle] where both layers are the same.
func TwoLayerStress(pressure quantity.Pressure, radius, thickness quantity.Length, upper, lower quantity.Pressure, upperPoisson, lowerPoisson float64) (quantity.Pressure, error) {
	err := first(checkPressure(pressure), checkRadius(radius), layerBound.check(thickness.Meters()),
		elasticBound.check(upper.Megapascals()), elasticBound.check(lower.Megapascals()),
		poissonBound.check(upperPoisson), poissonBound.check(lowerPoisson))
	if err != nil {
		return 0, err
	}
	ratio, slenderness := float64(upper/lower), float64(radius/thickness)
	if err := first(stiffnessRatioBound.check(ratio), slendernessBound.check(slenderness)); err != nil {
		return 0, err
	}
	share, err := interfaceShare(slenderness, ratio, upperPoisson, lowerPoisson)
	return pressure * quantity.Pressure(share), err
}

// interfaceShare integrates the interface stress over the Hankel parameter. With
// x = m*h, and a/h the radius over the thickness,
//
//	stress/pressure = a/h * integral of kernel(x)*J1(x*a/h) dx from 0 up
//
// The kernel dies as x*exp(-x), so that what lies past x = 40 is below 1e-15.
// Panels of eight Gauss points are halved until the sum settles.

func interfaceShare(slenderness, ratio, upperPoisson, lowerPoisson float64) (float64, error) {
	const (
		end    = 40.0
		settle = 1e-9
		most   = 4096
	)
	integrand := func(x float64) float64 {
		return interfaceKernel(x, ratio, upperPoisson, lowerPoisson) * math.J1(float64(x*slenderness))
	}
	last := math.Inf(1)
	for panels := 64; panels <= most; panels *= 2 {
		sum := 0.0
		for i := range panels {
			sum += gauss(integrand, panelEdge(i, panels, end), panelEdge(i+1, panels, end))
		}
		sum *= slenderness
		if math.Abs(sum-last) < settle {
			return sum, nil
		}
		last = sum
	}
	return 0, errNotConverged
}

// panelEdge crowds the panels near zero, where the kernel of a stiff layer bends.
func panelEdge(i, panels int, end float64) float64 {
	s := float64(i) / float64(panels)
	return end * s * s
}

// gauss integrates over one panel with eight Gauss-Legendre points.
func gauss(f func(float64) float64, low, high float64) float64 {
	points := [4]float64{0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363}
	weights := [4]float64{0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763}
	middle, half := low+(high-low)/2, (high-low)/2
	sum := 0.0
	for i, p := range points {
		sum += float64(weights[i] * (f(middle-float64(half*p)) + f(middle+float64(half*p))))
	}
	return half * sum
}

// response is what a term of the stress function gives at one depth: stress
// across and along the plane, displacement along and across it.
type response [4]float64

// respond works the response out for a term g of the stress function
// J0(m*r)*g(m*z), from g and its first three derivatives in m*z. Powers of m
// that every term shares are left out, as is the modulus shared by the two
// layers; compliance is the modulus of the lower over that of the layer.
//
//	stress across = (1-v)*g''' - (2-v)*g'        stress along = v*g'' + (1-v)*g
//	move along    = (1+v)/E * g'                 move across  = (1+v)/E * ((1-2v)*g'' - 2(1-v)*g)
func respond(g [4]float64, poisson, compliance float64) response {
	c := (1 + poisson) * compliance
	return response{
		float64((1-poisson)*g[3]) - float64((2-poisson)*g[1]),
		float64(poisson*g[2]) + float64((1-poisson)*g[0]),
		c * g[1],
		c * (float64((1-2*poisson)*g[2]) - float64(2*(1-poisson)*g[0])),
	}
}

// The terms of the stress function and their derivatives, at s = m*z from the
// plane where they are one: falling and rising exponentials, and s times them.
func falling(s float64) [4]float64 { e := math.Exp(-s); return [4]float64{e, -e, e, -e} }
func rising(s float64) [4]float64  { e := math.Exp(s); return [4]float64{e, e, e, e} }
func fallingLine(s float64) [4]float64 {
	e := math.Exp(-s)
	return [4]float64{s * e, (1 - s) * e, (s - 2) * e, (3 - s) * e}
}
func risingLine(s float64) [4]float64 {
	e := math.Exp(s)
	return [4]float64{s * e, (1 + s) * e, (s + 2) * e, (3 + s) * e}
}

// interfaceKernel returns the stress across the interface for a unit stress of
// one wave length across the surface; x is the thickness in that length. Four
// terms in the layer (the rising ones measured from the interface, so that none
// overflows) and two falling ones beneath are fixed by six conditions: stress
// across one and stress along zero at the surface, and all four responses
// equal at the interface.
func interfaceKernel(x, ratio, upperPoisson, lowerPoisson float64) float64 {
	at := func(s float64) [4]response {
		terms := [4][4]float64{falling(s), fallingLine(s), rising(s - x), risingLine(s - x)}
		var out [4]response
		for i, g := range terms {
			out[i] = respond(g, upperPoisson, 1/ratio)
		}
		return out
	}
	top, bottom := at(0), at(x)
	beneath := [2]response{respond(falling(0), lowerPoisson, 1), respond(fallingLine(0), lowerPoisson, 1)}
	var m [6][7]float64
	for j := range 4 {
		m[0][j], m[1][j] = top[j][0], top[j][1]
	}
	m[0][6] = 1
	for i := range 4 {
		for j := range 4 {
			m[2+i][j] = bottom[j][i]
		}
		for j := range 2 {
			m[2+i][4+j] = -beneath[j][i]
		}
	}
	unknown := solve6(m)
	return float64(unknown[4]*beneath[0][0]) + float64(unknown[5]*beneath[1][0])
}

// solve6 solves six linear equations by elimination with the largest pivot. The
// equations of interfaceKernel always have one solution: the four terms of the
// layer answer independently.
func solve6(m [6][7]float64) [6]float64 {
	for i := range 6 {
		pivot := i
		for r := i + 1; r < 6; r++ {
			if math.Abs(m[r][i]) > math.Abs(m[pivot][i]) {
				pivot = r
			}
		}
		m[i], m[pivot] = m[pivot], m[i]
		for r := i + 1; r < 6; r++ {
			f := m[r][i] / m[i][i]
			for c := i; c < 7; c++ {
				m[r][c] -= float64(f * m[i][c])
			}
		}
	}
	var x [6]float64
	for i := 5; i >= 0; i-- {
		sum := m[i][6]
		for c := i + 1; c < 6; c++ {
			sum -= float64(m[i][c] * x[c])
		}
		x[i] = sum / m[i][i]
	}
	return x
}

func burmisterCalculations() []calculation.Function {
	return []calculation.Function{{
		Name:  "two_layer_stress",
		About: "The vertical stress on softer ground beneath a layer and a loaded circle, by two-layer elastic theory.",
		Params: []calculation.Param{
			{Name: "pressure", About: "even pressure on the surface, above 0 up to 10,000 psi"},
			{Name: "radius", About: "radius of the circle, 0.1 to 2 times the thickness"},
			{Name: "thickness", About: "thickness of the layer, up to 10 m"},
			{Name: "upper", About: "elastic modulus of the layer"},
			{Name: "lower", About: "elastic modulus of the ground; the layer is 1 to 1,000 times as stiff"},
			{Name: "upper_poisson", About: "Poisson's ratio of the layer, 0 to 0.5"},
			{Name: "lower_poisson", About: "Poisson's ratio of the ground, 0 to 0.5"},
		},
		Result:  calculation.Param{Name: "stress", About: "vertical stress on the axis, at the bottom of the layer"},
		Range:   "layer 1 to 1,000 times as stiff, radius 0.1 to 2 times the thickness",
		Sources: []value.Source{sourceBurmister},
		Example: "two_layer_stress(psi(80), inches(6), inches(8), psi(22500), psi(7500), 0.5, 0.5)",
		Go:      TwoLayerStress,
	}}
}
