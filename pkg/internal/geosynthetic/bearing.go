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

const (
	armyManual = "TM 5-818-8 (1995), para. 2-7"
)

// Where the two regimes of TM 5-818-8 lie (seen).
const (
	littleRutBelow   = 2.0  // in
	littleRutPasses  = 1000 // more than
	deepRutFrom      = 4.0  // in
	deepRutPassesMax = 100  // fewer than
)

// RuttingFor returns the regime of an allowed rut and a number of passes of
// 18-kip axles. TM 5-818-8, seen. What lies between the two regimes is in
// neither, and is refused.
func RuttingFor(rut quantity.Length, passes float64) (Rutting, error) {
	if err := cmp.Or(
		calculation.Range{Name: "rut", Unit: "in", Low: 0, Above: true, High: 12, Document: boundOfSense}.Check(rut.Inches()),
		calculation.Range{Name: "passes", Low: 1, High: 1e7, Document: boundOfSense}.Check(passes),
	); err != nil {
		return "", err
	}
	switch {
	case rut.Inches() < littleRutBelow && passes > littleRutPasses:
		return LittleRut, nil
	case rut.Inches() >= deepRutFrom && passes < deepRutPassesMax:
		return DeepRut, nil
	}
	return "", calculation.OutOfRange("rut", rut.Inches(), "in",
		"under 2 in at more than 1,000 passes, or 4 in and more at fewer than 100", armyManual)
}

// Bearing capacity factors of the older method: 2.8 and 5.0 seen in FM
// 5-430-00-1 App. H, 3.3 and 6.0 from memory.
var armyFactors = map[Rutting]map[Support]float64{
	LittleRut: {NoSupport: 2.8, FabricSupport: 5.0},
	DeepRut:   {NoSupport: 3.3, FabricSupport: 6.0},
}

// BearingFactor is the bearing capacity factor N_c of the older platform
// method (TM 5-818-8, after Steward, Williamson & Mohney 1977). The method
// knows bare ground and fabric; a grid is refused.
func BearingFactor(support Support, rutting Rutting) (float64, error) {
	row, known := armyFactors[rutting]
	if !known {
		return 0, calculation.UnknownWord("rutting", rutting)
	}
	if factor, known := row[support]; known {
		return factor, nil
	}
	if support == GridSupport {
		return 0, &calculation.WordError{Name: "support", Got: string(support), Want: []string{string(NoSupport), string(FabricSupport)}, Document: armyManual}
	}
	return 0, calculation.UnknownWord("support", support)
}

// Bearing capacity factors for aggregate-surfaced roads in ETL 1110-1-189,
// after Tingle & Webster (2003); from memory. They disagree with the older
// method on fabric, and stand beside it as a choice of their own.
var aggregateRoadFactors = map[Support]float64{NoSupport: 2.8, FabricSupport: 3.6, GridSupport: 5.8}

// AggregateRoadBearingFactor is N_c for an aggregate-surfaced road: 2.8 bare,
// 3.6 on fabric, 5.8 on a grid that lies on fabric. ETL 1110-1-189 after
// Tingle & Webster (2003), from memory.
func AggregateRoadBearingFactor(support Support) (float64, error) {
	if factor, known := aggregateRoadFactors[support]; known {
		return factor, nil
	}
	return 0, calculation.UnknownWord("support", support)
}

// The ranges of the older method's quantities are not given in what was read;
// these keep its use to construction wheels.
var (
	armyWheel    = calculation.Range{Name: "wheel load", Unit: "kN", Low: 1, High: 200, Document: boundOfSense}
	armyAxle     = calculation.Range{Name: "axle load", Unit: "kN", Low: 2, High: 400, Document: boundOfSense}
	armyPressure = calculation.Range{Name: "contact pressure", Unit: "kPa", Low: 50, High: 1500, Document: boundOfSense}
	armyStrength = calculation.Range{Name: "cohesion", Unit: "kPa", Low: 1, High: 200, Document: boundOfSense}
	armyFactor   = calculation.Range{Name: "bearing factor", Low: 1, High: 10, Document: boundOfSense}
	armyAllowed  = calculation.Range{Name: "allowable stress", Unit: "kPa", Low: 1, High: 2000, Document: boundOfSense}
)

// AllowableStress is what the ground may carry, N_c times its undrained
// cohesion. TM 5-818-8 para. 2-7, seen. Cohesion 1 to 200 kPa, factor 1 to 10.
func AllowableStress(cohesion quantity.Pressure, bearingFactor float64) (quantity.Pressure, error) {
	if err := cmp.Or(armyStrength.Check(cohesion.Kilopascals()), armyFactor.Check(bearingFactor)); err != nil {
		return 0, err
	}
	return quantity.Pressure(float64(cohesion) * bearingFactor), nil
}

// Load rules of FM 5-430-00-1 App. H (seen).
const (
	wheelsPerAxle      = 2.0
	tandemLoadFactor   = 1.2
	dualPressureFactor = 0.75
)

// SingleAxleWheelLoad is the design wheel load of a single axle, half the
// axle. FM 5-430-00-1 App. H, seen. Axle 2 to 400 kN.
func SingleAxleWheelLoad(axle quantity.Force) (quantity.Force, error) {
	if err := armyAxle.Check(axle.Kilonewtons()); err != nil {
		return 0, err
	}
	return axle / wheelsPerAxle, nil
}

// TandemAxleWheelLoad is the design wheel load of one axle of a tandem, half
// the axle and 20 percent more. FM 5-430-00-1 App. H, seen. Axle 2 to 400 kN.
func TandemAxleWheelLoad(axle quantity.Force) (quantity.Force, error) {
	if err := armyAxle.Check(axle.Kilonewtons()); err != nil {
		return 0, err
	}
	return axle / wheelsPerAxle * tandemLoadFactor, nil
}

// DualContactPressure is the contact pressure of a dual wheel, 75 percent of
// the tire pressure. FM 5-430-00-1 App. H, seen. Pressure 50 to 1500 kPa.
func DualContactPressure(tire quantity.Pressure) (quantity.Pressure, error) {
	if err := armyPressure.Check(tire.Kilopascals()); err != nil {
		return 0, err
	}
	return tire * dualPressureFactor, nil
}

// ContactSide is the side of the contact as a square, sqrt(L/p). FM
// 5-430-00-1 App. H, seen. Load 1 to 200 kN, pressure 50 to 1500 kPa.
func ContactSide(wheelLoad quantity.Force, contact quantity.Pressure) (quantity.Length, error) {
	if err := cmp.Or(armyWheel.Check(wheelLoad.Kilonewtons()), armyPressure.Check(contact.Kilopascals())); err != nil {
		return 0, err
	}
	return quantity.Length(math.Sqrt(float64(wheelLoad) / float64(contact))), nil
}

// StressUnderWheel is the vertical stress at a depth under the middle of a
// circular load, p (1 - (1 + (a/z)^2)^-1.5) after Boussinesq. At depth 0 it is
// the contact pressure. Load 1 to 200 kN, pressure 50 to 1500 kPa, depth 0 to
// 10 m.
func StressUnderWheel(wheelLoad quantity.Force, contact quantity.Pressure, depth quantity.Length) (quantity.Pressure, error) {
	if err := cmp.Or(
		armyWheel.Check(wheelLoad.Kilonewtons()),
		armyPressure.Check(contact.Kilopascals()),
		calculation.Range{Name: "depth", Unit: "m", Low: 0, High: 10, Document: boundOfSense}.Check(depth.Meters()),
	); err != nil {
		return 0, err
	}
	if depth == 0 {
		return contact, nil
	}
	perDepth := float64(wheelLoad) / (math.Pi * float64(contact)) / float64(depth) / float64(depth)
	return quantity.Pressure(float64(contact) * (1 - portable.Pow(1+perDepth, -1.5))), nil
}

// BearingThickness is the thickness of stone that brings the stress of a wheel
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
	if err := cmp.Or(
		armyWheel.Check(wheelLoad.Kilonewtons()),
		armyPressure.Check(contact.Kilopascals()),
		armyAllowed.Check(allowable.Kilopascals()),
	); err != nil {
		return 0, err
	}
	if allowable >= contact {
		return 0, nil
	}
	square := portable.Pow(1-float64(allowable/contact), -2.0/3) - 1
	radius := math.Sqrt(float64(wheelLoad) / (math.Pi * float64(contact)))
	return quantity.Length(radius / math.Sqrt(square)), nil
}
