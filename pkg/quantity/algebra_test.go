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
			p, ok := Product(c.a, c.b)
			require.Equal(t, c.product, p)
			require.Equal(t, c.product != NoDimension, ok)
			turned, _ := Product(c.b, c.a)
			require.Equal(t, p, turned, "products turn round")
			q, ok := Quotient(c.a, c.b)
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
			if q, ok := Quotient(a, b); ok {
				back, ok := Product(q, b)
				require.True(t, ok)
				require.Equal(t, a, back, "%s over %s", a, b)
			}
		}
		like, ok := Quotient(a, a)
		require.Equal(t, a != DimTemperature, ok)
		if ok {
			require.Equal(t, DimRatio, like)
		}
	}
}

func TestMultiplyAndDivide(t *testing.T) {
	area, err := Multiply(Feet(20).Quantity(), Feet(30).Quantity())
	require.NoError(t, err)
	require.Equal(t, "600 ft2", area.Text(US))
	volume, err := Multiply(area, Inches(6).Quantity())
	require.NoError(t, err)
	require.Equal(t, "11.11 yd3", volume.Text(US))
	mass, err := Multiply(volume, PCF(140).Quantity())
	require.NoError(t, err)
	require.Equal(t, "21 tons", mass.Text(US), "300 ft3 at 140 pcf are 42,000 lb")
	pressure, err := Divide(PoundsForce(9000).Quantity(), Quantity{DimArea, 0.00064516 * 112.5})
	require.NoError(t, err)
	require.Equal(t, "80 psi", pressure.Text(US))
	depth, err := Multiply(InchesPerHour(0.5).Quantity(), Hours(48).Quantity())
	require.NoError(t, err)
	require.Equal(t, "24 in", depth.Text(US))
	ratio, err := Divide(Inches(3).Quantity(), Inches(12).Quantity())
	require.NoError(t, err)
	require.Equal(t, DimRatio, ratio.Dim)
	require.InDelta(t, 0.25, ratio.SI, 1e-15)
	fall, err := Multiply(Percent(2).Quantity(), Feet(10).Quantity())
	require.NoError(t, err)
	require.Equal(t, Feet(0.2).Quantity(), fall)
	bank, err := Divide(Quantity{DimVolume, 500 * cubicYard}, Percent(95).Quantity())
	require.NoError(t, err)
	require.Equal(t, "526.3 yd3", bank.Text(US), "not 52,632")
}

func TestMultiplyAndDivideRefuse(t *testing.T) {
	length, zero := Inches(6).Quantity(), Length(0).Quantity()
	_, err := Multiply(length, PSI(1).Quantity())
	require.NoError(t, err, "a pressure over a depth is a line strength")
	_, err = Multiply(PSI(1).Quantity(), PSI(1).Quantity())
	require.ErrorIs(t, err, ErrDimension)
	require.ErrorContains(t, err, "a pressure times a pressure")
	_, err = Divide(Celsius(10).Quantity(), Celsius(5).Quantity())
	require.ErrorIs(t, err, ErrDimension, "twice as warm means nothing on this scale")
	_, err = Divide(length, zero)
	require.ErrorIs(t, err, ErrNotFinite)
	require.ErrorContains(t, err, "a length over a length of 0")
	_, err = Divide(zero, zero)
	require.ErrorIs(t, err, ErrNotFinite)
	big := Quantity{DimRatio, math.MaxFloat64}
	_, err = Multiply(big, big)
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Divide(big, Quantity{DimRatio, 0.1})
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Multiply(length, Quantity{DimLength, math.NaN()})
	require.ErrorIs(t, err, ErrNotFinite)
	_, err = Multiply(Quantity{}, length)
	require.ErrorIs(t, err, ErrDimension)
}
