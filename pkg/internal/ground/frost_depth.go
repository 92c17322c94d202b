package ground

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const berggren = "TM 5-852-6, modified Berggren"

// Constants of the frost depth, converted from the US units in which they are
// printed: latent heat of water 144 Btu/lb (seen in TM 5-852-5); specific heat of
// dry soil 0.17 Btu/lb-F, and 0.75 for each pound of its water, the mean of ice and
// water (both seen in a USACE method sheet). TM 5-852-5 itself has 0.2 for the soil,
// and 0.5 and 1.0 for frozen and thawed water.
const (
	joulesPerBTUPound  = 2326.0 // 1 Btu/lb in J/kg
	joulesPerBTUPoundF = 4186.8 // 1 Btu/lb-F in J/kg-K
	fusionOfWater      = 144 * joulesPerBTUPound
	heatOfSoil         = 0.17 * joulesPerBTUPoundF
	heatOfMoisture     = 0.75 * joulesPerBTUPoundF
)

var (
	// Freezing lasts from a day to a year.
	aSeason = calculation.Range{Name: "freezing season", Low: 1, High: 366, Unit: "days", Document: berggren}
	// Below freezing the ground never thaws, and the method for it is another.
	aMeanAnnual  = calculation.Range{Name: "mean annual temperature", Low: 0, High: 40, Unit: "C", Document: berggren + ", ground that thaws each summer"}
	surfaceIndex = calculation.Range{Name: "surface freezing index", Low: 0, High: 20_000, Above: true, Unit: "F-days", Document: berggren}
	// Nearly dry ground would freeze without end in these equations.
	aFrostDepth = calculation.Range{Name: "frost depth", Low: 0, High: 30, Unit: "m", Document: "depth of seasonal frost"}
	// Past these the solution still holds; no ground that freezes is there.
	anAlpha = calculation.Range{Name: "thermal ratio", Low: 0, High: 1e6, Document: berggren}
	aMu     = calculation.Range{Name: "fusion parameter", Low: 1e-9, High: 10, Document: berggren}
)

// volumeHeats is L = 144 gd w/100 and C = gd (0.17 + 0.75 w/100), per volume.
func volumeHeats(dry quantity.Density, moisture quantity.Share) (latent, heat float64) {
	w := moisture.Fraction()
	return float64(fusionOfWater * float64(dry) * w), float64(dry) * (heatOfSoil + float64(heatOfMoisture*w))
}

// StefanDepth returns sqrt(2 k nF/L), the frost depth without regard to the heat
// that the soil holds, so no less than the true depth. The freezing index at the
// surface is above 0 to 20,000 F-days, k the mean of frozen and unfrozen
// conductivity, above 0 to 10 W/m-K, the dry density 50 to 160 pcf, the moisture
// over dry mass above 0 to what the pores hold.
func StefanDepth(surface quantity.FreezingIndex, k Conductivity, dry quantity.Density, moisture quantity.Share) (quantity.Length, error) {
	if err := cmp.Or(surfaceIndex.CheckMeasure(surface), aConductivity.Check(float64(k)), checkMoist(dry, moisture)); err != nil {
		return 0, err
	}
	latent, _ := volumeHeats(dry, moisture)
	depth := quantity.Length(math.Sqrt(2 * float64(k) * float64(surface) / latent))
	return onlyIf(depth, aFrostDepth.CheckMeasure(depth))
}

// BerggrenDepth returns the frost depth by the modified Berggren equation, lambda
// times [StefanDepth]. Seen in USACE method sheets; lambda is worked out (see
// [BerggrenLambda]) and not read from a chart. The mean annual temperature is 0
// to 40 C, the season 1 to 366 days.
func BerggrenDepth(surface quantity.FreezingIndex, k Conductivity, dry quantity.Density, moisture quantity.Share,
	meanAnnual quantity.Temperature, season quantity.Time) (quantity.Length, error) {
	stefan, tooDeep := StefanDepth(surface, k, dry, moisture)
	mu, noMu := FusionParameter(surface, season, dry, moisture)
	alpha, noAlpha := ThermalRatio(surface, season, meanAnnual)
	if err := cmp.Or(tooDeep, noMu, noAlpha); err != nil {
		return 0, err
	}
	lambda, err := BerggrenLambda(alpha, mu)
	return quantity.Length(lambda * float64(stefan)), err
}

// meanFrost is vs = nF/t, how far the surface is below freezing on average.
func meanFrost(surface quantity.FreezingIndex, season quantity.Time) (float64, error) {
	return onlyIf(float64(surface)/float64(season), cmp.Or(surfaceIndex.CheckMeasure(surface), aSeason.CheckMeasure(season)))
}

// ThermalRatio returns alpha = v0/vs: how far the mean annual temperature is
// above freezing, over how far the surface is below it while it freezes.
func ThermalRatio(surface quantity.FreezingIndex, season quantity.Time, meanAnnual quantity.Temperature) (float64, error) {
	vs, err := meanFrost(surface, season)
	if err := cmp.Or(err, aMeanAnnual.CheckMeasure(meanAnnual)); err != nil {
		return 0, err
	}
	alpha := max(0, meanAnnual.Celsius()) / vs
	return onlyIf(alpha, anAlpha.Check(alpha))
}

// FusionParameter returns mu = C vs/L: the heat given up by cooling over that
// given up by freezing.
func FusionParameter(surface quantity.FreezingIndex, season quantity.Time, dry quantity.Density, moisture quantity.Share) (float64, error) {
	vs, err := meanFrost(surface, season)
	if err := cmp.Or(err, checkMoist(dry, moisture)); err != nil {
		return 0, err
	}
	latent, heat := volumeHeats(dry, moisture)
	mu := heat * vs / latent
	return onlyIf(mu, aMu.Check(mu))
}
