package structure

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// The ranges of geometry and load that no publication sets. They are far beyond
// any paver section and keep every result finite.
var (
	loads     = calculation.Range{Name: "load", Unit: "lbf", Low: 0, High: 1e6, Above: true, Document: ownLimit}
	pressures = calculation.Range{Name: "pressure", Unit: "psi", Low: 0, High: 1e4, Above: true, Document: ownLimit}
	depths    = calculation.Range{Name: "depth", Unit: "m", Low: 0, High: 100, Document: ownLimit}
	patches   = calculation.Range{Name: "patch", Unit: "m", Low: 1e-3, High: 100, Document: ownLimit}
	pavers    = calculation.Range{Name: "paver thickness", Unit: "mm", Low: 0, High: 300, Document: ownLimit}
	// Takes in the spreads in use, 1 and 2, with room on both sides.
	spreads = calculation.Range{Name: "spread", Unit: "down for 1 out", Low: 0.5, High: 5, Document: ownLimit}
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
	err := cmp.Or(pressures.CheckMeasure(pressure), patches.Named("radius").CheckMeasure(radius), depths.CheckMeasure(depth))
	if err != nil {
		return 0, err
	}
	// With w the cosine of the angle under which the depth sees the radius this is
	// 1 - w^3, here with 1 - w taken out, so that it keeps its digits at great depth.
	aa, zz := float64(radius*radius), float64(depth*depth)
	w := math.Sqrt(zz / (aa + zz))
	return pressure * quantity.Pressure(aa/(aa+zz)*(1+w+float64(w*w))/(1+w)), nil
}

// PanelStress returns the stress on the top face of a panel under a load on a
// square patch of the paver surface, the load having spread evenly to every side
// through the thickness of the paver. This is the stress to hold against the
// tested resistance of the panel, since within the panel the load only spreads
// further.
//
// The spread is how far down the load goes for each unit out on every side: 2 is
// the 2:1 spread, under which the square widens by the thickness, and 1 is the
// 1:1 spread, under which it widens by twice the thickness. It is 0.5 to 5 and
// must be declared: for patches of a few inches the verdict often turns on it. A
// load does not spread past the joints of a paver as it does within it, so a
// spread that makes the square wider than the paver is on the unsafe side. Load
// above 0 up to a million lbf, patch 1 mm to 100 m, paver 0 to 300 mm.
//
// The stress is a mean over the widened square; elastic theory puts the stress
// on the axis above it. Common practice.
func PanelStress(load quantity.Force, patch, paver quantity.Length, spread float64) (quantity.Pressure, error) {
	err := cmp.Or(loads.CheckMeasure(load), patches.CheckMeasure(patch), pavers.CheckMeasure(paver), spreads.Check(spread))
	if err != nil {
		return 0, err
	}
	wide := float64(patch) + 2*float64(paver)/spread
	return quantity.Pressure(float64(load) / (wide * wide)), nil
}

func stressCalculations() []calculation.Function {
	return []calculation.Function{
		{
			Name:  "boussinesq_circle",
			About: "The vertical stress on the axis beneath an evenly loaded circle.",
			Params: []calculation.Param{
				param("pressure", "even pressure on the circle, above 0 up to 10,000 psi"),
				param("radius", "radius of the circle, 1 mm to 100 m"),
				param("depth", "depth beneath the circle, 0 to 100 m"),
			},
			Result:  param("stress", "vertical stress on the axis"),
			Range:   "depth 0 to 100 m",
			Sources: []value.Source{sourceBoussinesq},
			Example: "boussinesq_circle(psi(80), inches(6), inches(8))",
			Go:      BoussinesqCircle,
		},
		{
			Name:  "panel_stress",
			About: "The stress on the top face of a panel under a load on a square patch of the pavers above it.",
			Params: []calculation.Param{
				param("load", "load on the patch, above 0 up to a million lbf"),
				param("patch", "side of the square patch, 1 mm to 100 m"),
				param("paver", "thickness of the paver, 0 to 300 mm"),
				param("spread", "units down for one unit out on every side: 2 is 2:1, 1 is 1:1; 0.5 to 5"),
			},
			Result:   param("stress", "mean stress on the panel, to hold against its tested resistance"),
			Range:    "paver 0 to 300 mm, spread 0.5 to 5",
			Sources:  []value.Source{sourceSpread},
			Example:  "panel_stress(lbf(300), inches(2), mm(60), 2.0)",
			Go:       PanelStress,
			Moves:    "+--.",
			Positive: true,
		},
	}
}
