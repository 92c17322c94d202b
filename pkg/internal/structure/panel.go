package structure

import (
	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

var (
	paverBound      = bound{"paver thickness", "mm", 0, 300, false, ownLimit}
	panelBound      = bound{"panel thickness", "mm", 0, 300, false, ownLimit}
	resistanceBound = bound{"resistance", "kPa", 1, 1e5, false, ownLimit}
)

// PanelStress returns the stress on the top face of a panel under a load on a
// square patch of the paver surface, the load having spread through the
// thickness of the paver. This is the stress to hold against the tested
// resistance of the panel, since within the panel the load only spreads
// further.
//
// The spread is that of [SpreadStress], 0.5 to 5, and must be declared: for
// patches of a few inches the verdict often turns on it. A load does not spread
// past the joints of a paver as it does within it, so a spread that makes the
// square wider than the paver is on the unsafe side; see [PaverStress]. The
// thickness is 0 to 300 mm. Common practice.
func PanelStress(load quantity.Force, patch, paver quantity.Length, spread float64) (quantity.Pressure, error) {
	if err := paverBound.check(paver.Millimeters()); err != nil {
		return 0, err
	}
	return SpreadStress(load, patch, paver, spread)
}

// PanelBedStress returns the stress beneath a panel, on the sand or soil that
// carries it: as [PanelStress], the load having spread through the panel too,
// at the same spread. The panel is 0 to 300 mm thick.
func PanelBedStress(load quantity.Force, patch, paver, panel quantity.Length, spread float64) (quantity.Pressure, error) {
	if err := first(paverBound.check(paver.Millimeters()), panelBound.check(panel.Millimeters())); err != nil {
		return 0, err
	}
	return SpreadStress(load, patch, paver+panel, spread)
}

// PaverStress returns the stress beneath one paver that carries a load alone and
// evenly. Load above 0 up to a million lbf, sides 1 mm to 100 m. Common practice.
func PaverStress(load quantity.Force, length, width quantity.Length) (quantity.Pressure, error) {
	if err := first(checkLoad(load), checkSide(length), checkSide(width)); err != nil {
		return 0, err
	}
	return quantity.Pressure(float64(load) / (float64(length) * float64(width))), nil
}

// PanelUtilisation returns a stress as a share of the resistance found by test; 1
// is the limit. The stress is above 0 up to 10,000 psi, the resistance 1 kPa to
// 100 MPa. The resistance must be that of the panel in hand at a stated strain;
// this package gives none for polypropylene beads, as none is published.
func PanelUtilisation(stress, resistance quantity.Pressure) (float64, error) {
	stressBound := bound{"stress", "psi", 0, 1e4, true, ownLimit}
	if err := first(stressBound.check(stress.PSI()), resistanceBound.check(resistance.Kilopascals())); err != nil {
		return 0, err
	}
	return float64(stress / resistance), nil
}

func panelCalculations() []calculation.Function {
	load := calculation.Param{Name: "load", About: "load on the patch, up to a million lbf"}
	patch := calculation.Param{Name: "patch", About: "side of the square patch, 1 mm to 100 m"}
	paver := calculation.Param{Name: "paver", About: "thickness of the paver, 0 to 300 mm"}
	spread := calculation.Param{Name: "spread", About: "units down for one unit out on every side: 2 is 2:1, 1 is 1:1; 0.5 to 5"}
	return []calculation.Function{
		{
			Name:    "panel_stress",
			About:   "The stress on the top face of a panel under a load on a square patch of the pavers above it.",
			Params:  []calculation.Param{load, patch, paver, spread},
			Result:  calculation.Param{Name: "stress", About: "mean stress on the panel, to hold against its tested resistance"},
			Range:   "paver 0 to 300 mm, spread 0.5 to 5",
			Sources: []value.Source{sourceSpread},
			Example: "panel_stress(lbf(300), inches(2), mm(60), 2.0)",
			Go:      PanelStress,
		},
		{
			Name:  "panel_bed_stress",
			About: "The stress beneath a panel, on what carries it, under a load on a square patch of the pavers above it.",
			Params: []calculation.Param{
				load, patch, paver, {Name: "panel", About: "thickness of the panel, 0 to 300 mm"}, spread,
			},
			Result:  calculation.Param{Name: "stress", About: "mean stress beneath the panel"},
			Range:   "paver and panel 0 to 300 mm each, spread 0.5 to 5",
			Sources: []value.Source{sourceSpread},
			Example: "panel_bed_stress(lbf(300), inches(2), mm(60), mm(19), 2.0)",
			Go:      PanelBedStress,
		},
		{
			Name:  "paver_stress",
			About: "The stress beneath one paver that carries a load alone.",
			Params: []calculation.Param{
				load, {Name: "length", About: "length of the paver, 1 mm to 100 m"},
				{Name: "width", About: "width of the paver, 1 mm to 100 m"},
			},
			Result:  calculation.Param{Name: "stress", About: "mean stress beneath the paver"},
			Range:   "sides 1 mm to 100 m",
			Sources: []value.Source{sourceSpread},
			Example: "paver_stress(lbf(300), mm(200), mm(100))",
			Go:      PaverStress,
		},
		{
			Name:  "panel_utilisation",
			About: "A stress as a share of a panel's tested resistance; 1 is the limit.",
			Params: []calculation.Param{
				{Name: "stress", About: "stress on the panel, above 0 up to 10,000 psi"},
				{Name: "resistance", About: "resistance found by test, 1 kPa to 100 MPa"},
			},
			Result:  calculation.Param{Name: "utilisation", About: "stress over resistance"},
			Range:   "resistance 1 kPa to 100 MPa",
			Sources: []value.Source{sourcePanel},
			Example: "panel_utilisation(kpa(45), kpa(75))",
			Go:      PanelUtilisation,
		},
	}
}
