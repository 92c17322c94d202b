package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestProductsAndQuotients(t *testing.T) {
	cases := []struct{ a, b, product, quotient Dimension }{
		{DimLength, DimLength, DimArea, DimRatio},
		{DimArea, DimLength, DimVolume, DimLength},
		{DimVolume, DimDensity, DimMass, NoDimension},
		{DimMass, DimVolume, NoDimension, DimDensity},
		{DimMass, DimArea, NoDimension, DimArealMass},
		{DimArealMass, DimArea, DimMass, NoDimension},
		{DimDensity, DimLength, DimArealMass, NoDimension},
		{DimForce, DimArea, NoDimension, DimPressure},
		{DimPressure, DimArea, DimForce, NoDimension},
		{DimForce, DimLength, NoDimension, DimLineStrength},
		{DimForce, DimVolume, NoDimension, NoDimension}, // a unit weight as a force is no density
		{DimDensity, DimVolume, DimMass, NoDimension},   // and no force
		{DimLineStrength, DimLength, DimForce, DimPressure},
		{DimLength, DimTime, NoDimension, DimRate},
		{DimRate, DimTime, DimLength, NoDimension},
		{DimLength, DimRate, NoDimension, DimTime},
		{DimRate, DimLength, NoDimension, DimPermittivity},
		{DimRatio, DimPressure, DimPressure, NoDimension},
		{DimPressure, DimRatio, DimPressure, DimPressure},
		{DimRatio, DimRatio, DimRatio, DimRatio},
		{DimRatio, DimTime, DimTime, DimPermittivity},
		{DimFreezingIndex, DimTime, NoDimension, NoDimension}, // a mean difference is no reading
		{DimFreezingIndex, DimRatio, DimFreezingIndex, DimFreezingIndex},
		{DimTemperature, DimTime, NoDimension, NoDimension},
		{DimTemperature, DimTemperature, NoDimension, NoDimension},
		{DimTemperature, DimRatio, NoDimension, NoDimension},
		{DimRatio, DimTemperature, NoDimension, NoDimension},
		{DimShare, DimLength, DimLength, NoDimension}, // 2 % of 10 ft is 0.2 ft
		{DimLength, DimShare, DimLength, DimLength},   // what 95 % of is compacted
		{DimShare, DimRatio, DimShare, DimShare},
		{DimRatio, DimShare, DimShare, NoDimension}, // a number is no whole to be told back from its share
		{DimShare, DimShare, DimShare, DimRatio},
		{DimShare, DimTemperature, NoDimension, NoDimension},
		{NoDimension, DimLength, NoDimension, NoDimension},
		{Dimension(99), DimRatio, NoDimension, NoDimension},
	}
	for _, c := range cases {
		t.Run(c.a.String()+" and "+c.b.String(), func(t *testing.T) {
			p, ok := c.a.Product(c.b)
			require.Equal(t, c.product, p)
			require.Equal(t, c.product != NoDimension, ok)
			turned, _ := c.b.Product(c.a)
			require.Equal(t, p, turned, "products turn round")
			q, ok := c.a.Quotient(c.b)
			require.Equal(t, c.quotient, q)
			require.Equal(t, c.quotient != NoDimension, ok)
		})
	}
}

// Over every pair: a quotient is undone by a product, and like over like is a
// ratio, for all but temperatures.
func TestAlgebraHoldsTogether(t *testing.T) {
	for _, a := range Dimensions() {
		for _, b := range Dimensions() {
			if q, ok := a.Quotient(b); ok {
				back, ok := q.Product(b)
				require.True(t, ok)
				require.Equal(t, a, back, "%s over %s", a, b)
			}
		}
		like, ok := a.Quotient(a)
		require.Equal(t, a != DimTemperature, ok)
		if ok {
			require.Equal(t, DimRatio, like)
		}
	}
}

func TestMultiplyAndDivide(t *testing.T) {
	area, err := Feet(20).Quantity().Multiply(Feet(30).Quantity())
	require.NoError(t, err)
	require.Equal(t, "600 sq ft", area.Text(US))
	volume, err := area.Multiply(Inches(6).Quantity())
	require.NoError(t, err)
	require.Equal(t, "11.11 cu yd", volume.Text(US))
	mass, err := volume.Multiply(PCF(140).Quantity())
	require.NoError(t, err)
	require.Equal(t, "21 tons", mass.Text(US), "300 cu ft at 140 pcf are 42,000 lb")
	pressure, err := PoundsForce(9000).Quantity().Divide(Quantity{DimArea, 0.00064516 * 112.5})
	require.NoError(t, err)
	require.Equal(t, "80 psi", pressure.Text(US))
	depth, err := InchesPerHour(0.5).Quantity().Multiply(Hours(48).Quantity())
	require.NoError(t, err)
	require.Equal(t, "24 in", depth.Text(US))
	ratio, err := Inches(3).Quantity().Divide(Inches(12).Quantity())
	require.NoError(t, err)
	require.Equal(t, DimRatio, ratio.Dim)
	require.InDelta(t, 0.25, ratio.SI, 1e-15)
	fall, err := Percent(2).Quantity().Multiply(Feet(10).Quantity())
	require.NoError(t, err)
	require.Equal(t, Feet(0.2).Quantity(), fall)
	bank, err := Quantity{DimVolume, 500 * cubicYard}.Divide(Percent(95).Quantity())
	require.NoError(t, err)
	require.Equal(t, "526.3 cu yd", bank.Text(US), "not 52,632")
}

func TestMultiplyAndDivideRefuse(t *testing.T) {
	length, zero := Inches(6).Quantity(), Length(0).Quantity()
	_, err := length.Multiply(PSI(1).Quantity())
	require.NoError(t, err, "a pressure over a depth is a line strength")
	_, err = PSI(1).Quantity().Multiply(PSI(1).Quantity())
	require.ErrorIs(t, err, ErrDimension)
	require.ErrorContains(t, err, "a pressure times a pressure")
	_, err = Celsius(10).Quantity().Divide(Celsius(5).Quantity())
	require.ErrorIs(t, err, ErrDimension, "twice as warm means nothing on this scale")
	_, err = length.Divide(zero)
	require.ErrorIs(t, err, ErrNotFinite)
	require.ErrorContains(t, err, "a length over a length of 0")
	_, err = zero.Divide(zero)
	require.ErrorIs(t, err, ErrNotFinite)
	big := Quantity{DimRatio, math.MaxFloat64}
	_, err = big.Multiply(big)
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = big.Divide(Quantity{DimRatio, 0.1})
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = length.Multiply(Quantity{DimLength, math.NaN()})
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Quantity{}.Multiply(length)
	require.ErrorIs(t, err, ErrDimension)
}
