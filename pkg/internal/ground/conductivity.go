package ground

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Conductivity is a thermal conductivity in watts per meter and kelvin.
type Conductivity float64

// One Btu/(ft h F) in W/(m K), from the international table Btu.
const wattsPerBTU = 1055.05585262 / (3600 * 0.3048) * 1.8

// BTUPerFootHourF makes a conductivity from Btu per foot, hour and degree F.
func BTUPerFootHourF(x float64) Conductivity { return Conductivity(x * wattsPerBTU) }

// BTUPerFootHourF returns k in Btu per foot, hour and degree F.
func (k Conductivity) BTUPerFootHourF() float64 { return float64(k) / wattsPerBTU }

// RuleTypeName is the name of the type in the rule language.
func (Conductivity) RuleTypeName() string { return "conductivity" }

// String returns k in both units.
func (k Conductivity) String() string {
	return fmt.Sprintf("%.3g Btu/ft-hr-F (%.3g W/m-K)", k.BTUPerFootHourF(), float64(k))
}

// The units that [Conductivity.UnmarshalText] reads.
const (
	btuUnit  = "Btu/ft-hr-F"
	wattUnit = "W/m-K"
)

// UnmarshalText reads "0.76 Btu/ft-hr-F" or "1.3 W/m-K".
func (k *Conductivity) UnmarshalText(text []byte) error {
	number, unit, _ := strings.Cut(strings.TrimSpace(string(text)), " ")
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || !portable.Finite(x) {
		return fmt.Errorf("%q is not a conductivity: write a number and %s or %s", text, btuUnit, wattUnit)
	}
	switch strings.TrimSpace(unit) {
	case btuUnit:
		*k = BTUPerFootHourF(x)
	case wattUnit:
		*k = Conductivity(x)
	default:
		return fmt.Errorf("%q is not a unit of conductivity: write %s or %s", unit, btuUnit, wattUnit)
	}
	return nil
}

// From dry peat to sound rock.
var aConductivity = calculation.Range{Name: "conductivity", Low: 0, High: 10, Above: true, Unit: "W/m-K", Document: "conductivity of the ground"}

// KerstenSoil is the kind of soil for Kersten's equations.
type KerstenSoil string

// The kinds.
const (
	KerstenFine   KerstenSoil = "silt and clay"
	KerstenCoarse KerstenSoil = "sand and gravel"
)

// Vocabulary lists the kinds.
func (KerstenSoil) Vocabulary() value.Vocabulary {
	return value.Vocabulary{
		Name:  "thermal_soil",
		About: "kinds of soil for Kersten's conductivity",
		Words: []value.WordEntry{
			{Name: "thermal_silt_clay", Label: string(KerstenFine), About: "half or more is silt and clay; moisture from 7 %"},
			{Name: "thermal_sand_gravel", Label: string(KerstenCoarse), About: "sand and gravel; moisture from 1 %"},
		},
	}
}

// kersten holds the coefficients of Kersten (1949), University of Minnesota
// Bulletin 28, from memory, with the least moisture for which each holds, from
// memory too. Densities in pcf, moisture in percent, k in Btu-in/(ft2 h F).
var kersten = map[KerstenSoil]struct {
	leastMoisture                                                   float64
	thawedLog, thawedConstant, thawedPower                          float64
	frozenScale, frozenPower, frozenMoistScale, frozenMoisturePower float64
}{
	KerstenFine:   {7, 0.9, -0.2, 0.01, 0.01, 0.022, 0.085, 0.008},
	KerstenCoarse: {1, 0.7, 0.4, 0.01, 0.076, 0.013, 0.032, 0.0146},
}

const (
	kerstenDocument = "Kersten 1949, University of Minnesota Bulletin 28"
	inchesPerFoot   = 12
)

// Dry densities from a loose peaty silt to a dense graded stone. Soil grains of
// up to 2.9 times the density of water leave so much room for water: moisture
// over it is a slip of unit or of column.
var aDryDensity = calculation.Range{Name: "dry density", Low: 50, High: 160, Unit: "pcf", Document: "dry density of a mineral soil"}

const (
	waterPCF       = 62.4
	heaviestGrains = 2.9
)

// checkMoist refuses a dry density or a moisture that cannot be together.
func checkMoist(dry quantity.Density, moisture quantity.Share) error {
	if err := aDryDensity.CheckMeasure(dry); err != nil {
		return err
	}
	full := 100 * (waterPCF/dry.PCF() - 1/heaviestGrains)
	return calculation.Range{Name: "moisture", Low: 0, High: math.Round(full*10) / 10, Above: true, Unit: "%",
		Document: fmt.Sprintf("room for water at %.4g pcf", dry.PCF())}.CheckMeasure(moisture)
}

// MeanConductivity returns the mean of Kersten's conductivities of frozen and
// unfrozen soil, as the frost depth takes it: dry density 50 to 160 pcf, moisture
// over dry mass, from 7 % for silt and clay and 1 % for sand and gravel, the pores hold. From memory.
func MeanConductivity(soil KerstenSoil, dry quantity.Density, moisture quantity.Share) (Conductivity, error) {
	c := kersten[soil]
	wetEnough := calculation.Range{Name: "moisture", Low: c.leastMoisture, High: math.Inf(1), Unit: "%", Document: kerstenDocument + ", " + string(soil)}
	if err := cmp.Or(calculation.CheckWord("soil", soil), checkMoist(dry, moisture), wetEnough.CheckMeasure(moisture)); err != nil {
		return 0, err
	}
	percent := moisture.Percent()
	thawed := (float64(c.thawedLog*portable.Log10(percent)) + c.thawedConstant) * portable.Pow(10, float64(c.thawedPower*dry.PCF()))
	frozen := float64(c.frozenScale*portable.Pow(10, float64(c.frozenPower*dry.PCF()))) +
		float64(c.frozenMoistScale*portable.Pow(10, float64(c.frozenMoisturePower*dry.PCF()))*percent)
	return (BTUPerFootHourF(thawed/inchesPerFoot) + BTUPerFootHourF(frozen/inchesPerFoot)) / 2, nil
}
