package ground

import (
	"cmp"
	"math"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
)

const berggren = "TM 5-852-6, modified Berggren"

// Constants of the frost depth (seen in USACE method sheets and TM 5-852-5),
// turned from the US units in which they are printed: latent heat of water 144
// Btu/lb; specific heat of dry soil 0.17 Btu/lb-F, and 0.75 for each pound of
// its water, the mean of ice and water.
const (
	joulesPerBTUPound  = 2326.0 // 1 Btu/lb in J/kg
	joulesPerBTUPoundF = 4186.8 // 1 Btu/lb-F in J/kg-K
	fusionOfWater      = 144 * joulesPerBTUPound
	heatOfSoil         = 0.17 * joulesPerBTUPoundF
	heatOfMoisture     = 0.75 * joulesPerBTUPoundF
)

var (
	// Freezing lasts from a day to a year.
	aSeason = calculation.Range{Low: 1, High: 366, Unit: "days", Document: berggren}
	// Below freezing the ground never thaws, and the method for it is another.
	aMeanAnnual = calculation.Range{Low: 0, High: 40, Unit: "C", Document: berggren + ", ground that thaws each summer"}
	aFreezing   = calculation.Range{Low: 0, High: 20_000, Above: true, Unit: "F days", Document: berggren}
	// Past these the solution still holds; no ground that freezes is there.
	anAlpha = calculation.Range{Low: 0, High: 1e6, Document: berggren + ", thermal ratio"}
	aMu     = calculation.Range{Low: 1e-9, High: 10, Document: berggren + ", fusion parameter"}
)

// FrostGround is what the frost depth is worked out from.
type FrostGround struct {
	// SurfaceIndex is the freezing index at the surface, n times that of the
	// air; above 0 to 20,000 F days.
	SurfaceIndex quantity.FreezingIndex
	// Conductivity is the mean of frozen and unfrozen; above 0 to 10 W/m-K.
	Conductivity Conductivity
	// DryDensity is 50 to 160 pcf.
	DryDensity quantity.Density
	// Moisture is in percent of dry mass, above 0 to what the pores hold.
	Moisture float64
	// MeanAnnual is the mean annual temperature, 0 to 40 C.
	MeanAnnual quantity.Temperature
	// Season is how long the freezing lasts, 1 to 366 days.
	Season quantity.Time
}

// FrostProfile is a frost depth with what led to it.
type FrostProfile struct {
	// Latent is the latent heat of the soil's water in J/m3, and Heat the heat
	// capacity of the soil in J/m3-K.
	Latent, Heat float64
	// Alpha is the thermal ratio v0/vs, Mu the fusion parameter C vs/L.
	Alpha, Mu float64
	// Lambda corrects Stefan's depth for the heat that the soil holds; it is 1
	// at most.
	Lambda float64
	// Stefan is the depth without that correction, Depth the depth with it.
	Stefan, Depth quantity.Length
}

// Frost returns the frost depth by the modified Berggren equation, X = lambda
// sqrt(2 k nF/L), which is lambda sqrt(48 k nF/L) in US units. Seen in USACE
// method sheets; lambda is worked out (see [BerggrenLambda]) and not read from a
// chart.
func Frost(g FrostGround) (FrostProfile, error) {
	var p FrostProfile
	stefan, err := StefanDepth(g.SurfaceIndex, g.Conductivity, g.DryDensity, g.Moisture)
	if err != nil {
		return p, err
	}
	mu, err := FusionParameter(g.SurfaceIndex, g.Season, g.DryDensity, g.Moisture)
	if err != nil {
		return p, err
	}
	alpha, err := ThermalRatio(g.SurfaceIndex, g.Season, g.MeanAnnual)
	if err != nil {
		return p, err
	}
	lambda, err := BerggrenLambda(alpha, mu)
	if err != nil {
		return p, err
	}
	latent, heat := volumeHeats(g.DryDensity, g.Moisture)
	return FrostProfile{Latent: latent, Heat: heat, Alpha: alpha, Mu: mu, Lambda: lambda,
		Stefan: stefan, Depth: quantity.Length(lambda * float64(stefan))}, nil
}

// volumeHeats is L = 144 gd w/100 and C = gd (0.17 + 0.75 w/100), per volume.
func volumeHeats(dry quantity.Density, moisture float64) (latent, heat float64) {
	w := moisture / 100
	return float64(fusionOfWater * float64(dry) * w), float64(dry) * (heatOfSoil + float64(heatOfMoisture*w))
}

// StefanDepth is sqrt(2 k nF/L), the frost depth without regard to the heat that
// the soil holds, so no less than the true depth. Ranges as in [FrostGround].
func StefanDepth(surface quantity.FreezingIndex, k Conductivity, dry quantity.Density, moisture float64) (quantity.Length, error) {
	if err := cmp.Or(aFreezing.Named("surface freezing index").Check(surface.FahrenheitDays()),
		aConductivity.Named("conductivity").Check(float64(k)), checkMoist(dry, moisture, 0)); err != nil {
		return 0, err
	}
	latent, _ := volumeHeats(dry, moisture)
	depth := math.Sqrt(2 * float64(k) * float64(surface) / latent)
	return onlyIf(quantity.Length(depth), aFrostDepth.Named("frost depth").Check(depth))
}

// Nearly dry ground would freeze without end in these equations.
var aFrostDepth = calculation.Range{Low: 0, High: 30, Unit: "m", Document: "depth of seasonal frost"}

// BerggrenDepth is the depth of [Frost].
func BerggrenDepth(surface quantity.FreezingIndex, k Conductivity, dry quantity.Density, moisture float64,
	meanAnnual quantity.Temperature, season quantity.Time) (quantity.Length, error) {
	p, err := Frost(FrostGround{SurfaceIndex: surface, Conductivity: k, DryDensity: dry, Moisture: moisture,
		MeanAnnual: meanAnnual, Season: season})
	return p.Depth, err
}

// meanFrost is vs = nF/t, how far the surface is below freezing on average.
func meanFrost(surface quantity.FreezingIndex, season quantity.Time) (float64, error) {
	if err := cmp.Or(aFreezing.Named("surface freezing index").Check(surface.FahrenheitDays()),
		aSeason.Named("freezing season").Check(season.Days())); err != nil {
		return 0, err
	}
	return float64(surface) / float64(season), nil
}

// ThermalRatio is alpha = v0/vs: how far the mean annual temperature is above
// freezing, over how far the surface is below it while it freezes.
func ThermalRatio(surface quantity.FreezingIndex, season quantity.Time, meanAnnual quantity.Temperature) (float64, error) {
	vs, err := meanFrost(surface, season)
	if err := cmp.Or(err, aMeanAnnual.Named("mean annual temperature").Check(meanAnnual.Celsius())); err != nil {
		return 0, err
	}
	alpha := meanAnnual.Celsius() / vs
	return onlyIf(alpha, anAlpha.Named("thermal ratio").Check(alpha))
}

// FusionParameter is mu = C vs/L: the heat given up by cooling over that given
// up by freezing.
func FusionParameter(surface quantity.FreezingIndex, season quantity.Time, dry quantity.Density, moisture float64) (float64, error) {
	vs, err := meanFrost(surface, season)
	if err := cmp.Or(err, checkMoist(dry, moisture, 0)); err != nil {
		return 0, err
	}
	latent, heat := volumeHeats(dry, moisture)
	mu := heat * vs / latent
	return onlyIf(mu, aMu.Named("fusion parameter").Check(mu))
}
