package geosynthetic

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
)

// Constants of the platform equation of Giroud & Han (2004). The form, the
// 0.204, the 3.48 with its exponent 0.3, the cap of 5 and the 0.9 are relayed
// by lecture slides of the second author; the others are from memory.
const (
	strengthPerCBR   = 30.0 // kPa of undrained strength per point of CBR (memory)
	referenceRut     = 75.0 // mm (memory)
	modulusRatioBy   = 3.48 // 36 / 10.34, from base and subgrade moduli by CBR (relayed)
	modulusRatioExp  = 0.3
	modulusRatioMost = 5.0
	spreadPerRatio   = 0.204
	mobilisationDrop = 0.9 // xi (relayed)
)

// Bearing capacity factors of the platform equation (memory): pi, 2 + pi and
// 1 + 3/2 pi, to the three figures of the publication.
var platformFactors = map[Support]float64{NoSupport: 3.14, FabricSupport: 5.14, GridSupport: 5.71}

// PlatformThicknessLeast is the least thickness of a platform, 0.10 m, so that
// it can be built and a geosynthetic holds in it. Giroud & Han (2004), from
// memory.
const PlatformThicknessLeast quantity.Length = 0.10

const giroudHan = "Giroud & Han (2004)"

// Where the platform equation may be used. CBR below 5, ruts of 50 to 100 mm
// and the aperture stability modulus to 0.8 are the publication's, passes of
// 100 to 10,000 its calibration (all from memory). The rest is judged here:
// loads and pressures within one half of the 40 kN wheel and the 550 kPa of
// the calibration, which keeps out cars of 4 to 9 kN a wheel; ground not softer
// than the CBR of 0.5 that is a specialist's; stone at least as strong as the
// firmest ground the equation takes.
var (
	platformWheel    = calculation.Range{Name: "wheel load", Unit: "kN", Low: 20, High: 60, Document: giroudHan + ", judged around the calibration at 40 kN"}
	platformPressure = calculation.Range{Name: "tire pressure", Unit: "kPa", Low: 275, High: 825, Document: giroudHan + ", judged around the calibration at 550 kPa"}
	platformPasses   = calculation.Range{Name: "passes", Low: 100, High: 10000, Document: giroudHan}
	platformRut      = calculation.Range{Name: "rut", Unit: "mm", Low: 50, High: 100, Document: giroudHan}
	platformGround   = calculation.Range{Name: "subgrade cbr", Low: 0.5, High: 5, Below: true, Document: giroudHan + ", least value judged"}
	platformStone    = calculation.Range{Name: "base cbr", Low: 5, High: 100, Document: giroudHan + ", judged"}
	platformModulus  = calculation.Range{Name: "aperture stability modulus", Unit: "N·m/degree", Low: 0, High: 0.8, Above: true, Document: giroudHan}
	modulusOfNoGrid  = calculation.Range{Name: "aperture stability modulus without a grid", Unit: "N·m/degree", Low: 0, High: 0, Document: giroudHan}
)

// PlatformCase is what the thickness of a working platform depends on.
type PlatformCase struct {
	// WheelLoad is half the axle load; a dual wheel counts as one. 20 to 60 kN.
	WheelLoad quantity.Force
	// TirePressure is the contact pressure, taken as the inflation pressure.
	// 275 to 825 kPa.
	TirePressure quantity.Pressure
	// Passes of the axle over the platform, 100 to 10,000.
	Passes float64
	// Rut allowed at the surface of the platform, 50 to 100 mm.
	Rut quantity.Length
	// SubgradeCBR in percent, 0.5 to below 5: soft, wet, fine-grained ground.
	SubgradeCBR float64
	// BaseCBR of the platform's stone in percent, 5 to 100.
	BaseCBR float64
	// Support under the stone.
	Support Support
	// ApertureModulus is the aperture stability modulus of a grid (ASTM D7864)
	// in N·m/degree, above 0 to 0.8; without a grid it must be 0. The equation is
	// calibrated at 0.32 and 0.65, on punched and drawn biaxial grids; for any
	// other kind of grid it says nothing.
	ApertureModulus float64
	// Constants names the set.
	Constants PlatformConstants
}

// Platform is a sized working platform.
type Platform struct {
	// Thickness to build, never less than [PlatformThicknessLeast].
	Thickness quantity.Length
	// BeforeLeast is the root of the equation, before the least thickness was
	// applied; 0 if the ground carries the wheel without stone.
	BeforeLeast quantity.Length
	// WithoutBase is the wheel load that the bare ground carries on the same
	// contact area. A wheel at or under it needs no stone for bearing.
	WithoutBase quantity.Force
}

// Size returns the thickness of a working platform on soft ground after
// Giroud & Han (2004):
//
//	h = [a + (b - c*J^2) (r/h)^1.5 log10 N] / [1 + 0.204 (R_E - 1)]
//	    * { sqrt[ P/(pi r^2) / (s/75 mm * (1 - 0.9 exp(-(r/h)^2)) * N_c * c_u) ] - 1 } * r
//
// It sizes an unsurfaced working platform for a rut of 50 to 100 mm. That rut
// would ruin a paver surface, so the answer is never the finished base of a
// paver surface alone: the base is sized for itself, on the platform.
//
// Outside the ranges of [PlatformCase] the error is a [calculation.RangeError].
func (c PlatformCase) Size() (Platform, error) {
	if err := c.check(); err != nil {
		return Platform{}, err
	}
	fit, strength := platformFits[c.Constants], strengthPerCBR*c.SubgradeCBR
	rut := c.Rut.Millimeters() / referenceRut
	area := float64(c.WheelLoad) / float64(c.TirePressure)
	p := Platform{
		Thickness:   PlatformThicknessLeast,
		WithoutBase: quantity.Force(rut * area * platformFactors[NoSupport] * float64(quantity.Kilopascals(strength))),
	}
	if c.WheelLoad > p.WithoutBase {
		ratio := min(modulusRatioBy*portable.Pow(c.BaseCBR, modulusRatioExp)/c.SubgradeCBR, modulusRatioMost)
		eq := platformEquation{
			level:    fit.a,
			passing:  (fit.b - float64(fit.c*c.ApertureModulus*c.ApertureModulus)) * portable.Log10(c.Passes),
			spread:   1 + float64(spreadPerRatio*(ratio-1)),
			overload: c.TirePressure.Kilopascals() / (rut * platformFactors[c.Support] * strength),
		}
		p.BeforeLeast = quantity.Length(eq.lastShortfall() * math.Sqrt(area/math.Pi))
		p.Thickness = max(p.BeforeLeast, PlatformThicknessLeast)
	}
	return p, nil
}

// check refuses what lies outside the ranges.
func (c PlatformCase) check() error {
	modulus := modulusOfNoGrid
	if c.Support == GridSupport {
		modulus = platformModulus
	}
	return cmp.Or(
		calculation.CheckWord("constants", c.Constants),
		calculation.CheckWord("support", c.Support),
		platformWheel.CheckMeasure(c.WheelLoad),
		platformPressure.CheckMeasure(c.TirePressure),
		platformPasses.Check(c.Passes),
		platformRut.CheckMeasure(c.Rut),
		platformGround.Check(c.SubgradeCBR),
		platformStone.Check(c.BaseCBR),
		modulus.Check(c.ApertureModulus),
	)
}

// PlatformThicknessBy is [PlatformCase.Size] for the rule language.
func PlatformThicknessBy(set PlatformConstants, wheelLoad quantity.Force, tirePressure quantity.Pressure, passes float64, rut quantity.Length,
	subgradeCBR, baseCBR float64, support Support, apertureModulus float64) (quantity.Length, error) {
	p, err := PlatformCase{
		WheelLoad: wheelLoad, TirePressure: tirePressure, Passes: passes, Rut: rut,
		SubgradeCBR: subgradeCBR, BaseCBR: baseCBR, Support: support,
		ApertureModulus: apertureModulus, Constants: set,
	}.Size()
	return p.Thickness, err
}
