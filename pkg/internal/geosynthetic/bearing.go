package geosynthetic

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Rutting is the traffic and rut that an unsurfaced platform is to stand,
// after TM 5-818-8.
type Rutting string

// The regimes.
const (
	LittleRut Rutting = "many passes, little rut"
	DeepRut   Rutting = "few passes, deep rut"
)

// Vocabulary lists the regimes.
func (Rutting) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "rutting",
		About: "The traffic and rut that an unsurfaced platform is to stand.",
		Words: []value.WordEntry{
			{Name: "little_rut", Label: string(LittleRut), About: "More than 1,000 passes of 18-kip axles, rut under 2 in."},
			{Name: "deep_rut", Label: string(DeepRut), About: "Fewer than 100 passes, rut of 4 in and more."},
		},
	}
}

const armyManual = "TM 5-818-8 (1995), para. 2-7"

// Bearing capacity factors of the older method: 2.8 and 5.0 seen in FM
// 5-430-00-1 App. H, 3.3 and 6.0 from memory.
var armyFactors = map[Rutting]map[Support]float64{
	LittleRut: {NoSupport: 2.8, FabricSupport: 5.0},
	DeepRut:   {NoSupport: 3.3, FabricSupport: 6.0},
}

// BearingFactor returns the bearing capacity factor N_c of the older platform
// method (TM 5-818-8, after Steward, Williamson & Mohney 1977). The method knows
// bare ground and fabric; a grid is refused.
func BearingFactor(support Support, rutting Rutting) (float64, error) {
	if err := calculation.CheckWord("rutting", rutting); err != nil {
		return 0, err
	}
	factor, known := armyFactors[rutting][support]
	if !known {
		return 0, &calculation.WordError{Name: "support", Got: string(support), Want: []string{string(NoSupport), string(FabricSupport)}, Document: armyManual}
	}
	return factor, nil
}

// The ranges of the older method's quantities are not given in what was read;
// these keep its use to construction wheels.
var (
	armyWheel    = calculation.Range{Name: "wheel load", Unit: "kN", Low: 1, High: 200, Document: boundOfSense}
	armyPressure = calculation.Range{Name: "contact pressure", Unit: "kPa", Low: 50, High: 1500, Document: boundOfSense}
	armyStrength = calculation.Range{Name: "cohesion", Unit: "kPa", Low: 1, High: 200, Document: boundOfSense}
	armyFactor   = calculation.Range{Name: "bearing factor", Low: 1, High: 10, Document: boundOfSense}
	armyAllowed  = calculation.Range{Name: "allowable stress", Unit: "kPa", Low: 1, High: 2000, Document: boundOfSense}
)

// AllowableStress returns what the ground may carry, N_c times its undrained
// cohesion. TM 5-818-8 para. 2-7, seen. Cohesion 1 to 200 kPa, factor 1 to 10.
func AllowableStress(cohesion quantity.Pressure, bearingFactor float64) (quantity.Pressure, error) {
	if err := cmp.Or(armyStrength.CheckMeasure(cohesion), armyFactor.Check(bearingFactor)); err != nil {
		return 0, err
	}
	return quantity.Pressure(float64(cohesion) * bearingFactor), nil
}

// BearingThickness returns the thickness of stone that brings the stress of a wheel
// down to what the ground may carry: the depth z at which
// p (1 - (1 + (a/z)^2)^-1.5) is the allowable stress, worked out in closed
// form. It is 0 where the ground may carry the contact pressure itself.
//
// The older method reads this depth from a chart (TM 5-818-8 figure 2-6; FM
// 5-430-00-1 App. H); that the chart is Boussinesq's is relayed. It sizes a
// working platform, never the finished base of a paver surface alone, and
// rounded, sandy or dirty stone does not spread the load so far. Load 1 to 200
// kN, pressure 50 to 1500 kPa, allowable stress 1 to 2000 kPa.
func BearingThickness(wheelLoad quantity.Force, contact, allowable quantity.Pressure) (quantity.Length, error) {
	if err := cmp.Or(armyWheel.CheckMeasure(wheelLoad), armyPressure.CheckMeasure(contact), armyAllowed.CheckMeasure(allowable)); err != nil {
		return 0, err
	}
	if allowable >= contact {
		return 0, nil
	}
	square := portable.Pow(1-float64(allowable/contact), -2.0/3) - 1
	radius := math.Sqrt(float64(wheelLoad) / (math.Pi * float64(contact)))
	return quantity.Length(radius / math.Sqrt(square)), nil
}
