package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCompare(t *testing.T) {
	cases := []struct {
		why  string
		a, b Measure
		want int
	}{
		{"sum of parts", Inches(2) + Inches(4), Inches(6), 0},
		{"many parts", Inches(0.1) + Inches(0.2), Inches(0.3), 0},
		{"two systems", Millimeters(152.4), Inches(6), 0},
		{"less", Inches(5.99), Inches(6), -1},
		{"more by a thousandth", Inches(6.001), Inches(6), 1},
		{"just inside the tolerance", Length(1), Length(1 + 0.9e-9), 0},
		{"just outside the tolerance", Length(1), Length(1 + 1.1e-9), -1},
		{"tolerance is relative, so small values stay apart", Rate(1e-12), Rate(1.1e-12), -1},
		{"zero and zero", Length(0), Length(math.Copysign(0, -1)), 0},
		{"zero and the least", Length(0), Length(5e-324), -1},
		{"signs", Inches(-6), Inches(6), -1},
		{"freezing in both scales", Fahrenheit(32), Celsius(0), 0},
		{"near freezing, noise of the turn", Celsius(1e-8), Celsius(0), 0},
		{"near freezing, a real difference", Celsius(1e-6), Celsius(0), 1},
		{"huge", Length(math.MaxFloat64), Length(-math.MaxFloat64), 1},
	}
	for _, c := range cases {
		t.Run(c.why, func(t *testing.T) {
			got, err := c.a.Quantity().Compare(c.b.Quantity())
			require.NoError(t, err)
			require.Equal(t, c.want, got)
			back, err := c.b.Quantity().Compare(c.a.Quantity())
			require.NoError(t, err)
			require.Equal(t, -c.want, back, "the other way round")
		})
	}
}

func TestCompareRefuses(t *testing.T) {
	_, err := Inches(6).Quantity().Compare(PSI(6).Quantity())
	require.ErrorIs(t, err, ErrDimension)
	require.ErrorContains(t, err, "a length cannot be compared with a pressure")
	_, err = Inches(6).Quantity().Compare(Quantity{DimRatio, 6})
	require.ErrorIs(t, err, ErrDimension, "a bare number is no length")
	_, err = Quantity{}.Compare(Quantity{})
	require.ErrorIs(t, err, ErrDimension)
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		_, err = Inches(6).Quantity().Compare(Quantity{DimLength, x})
		require.ErrorIs(t, err, ErrNotFinite)
		_, err = Quantity{DimLength, x}.Compare(Inches(6).Quantity())
		require.ErrorIs(t, err, ErrNotFinite, "the other side")
	}
}

func TestRounding(t *testing.T) {
	half := Inches(0.5)
	cases := []struct {
		name, why string
		l, step   Length
		up, down  Length
	}{
		{"between", "to either side", Inches(6.1), half, Inches(6.5), Inches(6)},
		{"noise above a multiple", "no crew builds half an inch more for it", Inches(6.0000000001), half, Inches(6), Inches(6)},
		{"noise below a multiple", "nor half an inch less", Inches(5.9999999999), half, Inches(6), Inches(6)},
		{"noise of a sum", "0.1 and 0.2 are 0.30000000000000004", Inches(0.1) + Inches(0.2), Inches(0.1), Inches(0.3), Inches(0.3)},
		{"noise of a difference", "what is left of nothing is nothing", Inches(2) + Inches(4) - Inches(6) + 1e-17, half, 0, 0},
		{"more than noise", "a part in a million is told apart", Inches(6.00001), half, Inches(6.5), Inches(6)},
		{"below zero", "up is toward more", Inches(-6.1), half, Inches(-6), Inches(-6.5)},
		{"zero", "no step is needed", 0, half, 0, 0},
		{"less than a step", "a whole step, or none", Inches(0.1), half, half, 0},
		{"under a step below zero", "no negative zero", Inches(-0.1), half, 0, -half},
		{"metric step", "any unit of the dimension", Millimeters(151), Millimeters(10), Millimeters(160), Millimeters(150)},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			up, err := c.l.Quantity().RoundUp(c.step.Quantity())
			require.NoError(t, err)
			require.InDelta(t, float64(c.up), up.SI, 1e-15, c.why)
			require.False(t, math.Signbit(up.SI) && up.SI == 0, "no negative zero")
			down, err := c.l.Quantity().RoundDown(c.step.Quantity())
			require.NoError(t, err)
			require.InDelta(t, float64(c.down), down.SI, 1e-15, c.why)
			again, err := up.RoundUp(c.step.Quantity())
			require.NoError(t, err)
			require.InDelta(t, up.SI, again.SI, 1e-15, "rounding twice changes nothing")
		})
	}
}

func TestRoundingRefuses(t *testing.T) {
	for _, round := range []func(q, step Quantity) (Quantity, error){Quantity.RoundUp, Quantity.RoundDown} {
		for _, step := range []Length{0, -1} {
			_, err := round(Inches(6).Quantity(), step.Quantity())
			require.ErrorContains(t, err, "step of rounding must be above 0")
		}
		_, err := round(Inches(6).Quantity(), PSI(1).Quantity())
		require.ErrorIs(t, err, ErrDimension)
		for _, bad := range []Length{Length(math.NaN()), Length(math.Inf(1))} {
			_, err := round(bad.Quantity(), Meters(1).Quantity())
			require.ErrorIs(t, err, ErrNotFinite)
			_, err = round(Meters(1).Quantity(), bad.Quantity())
			require.ErrorIs(t, err, ErrNotFinite)
		}
		_, err = round(Length(math.MaxFloat64).Quantity(), Length(5e-324).Quantity())
		require.ErrorIs(t, err, ErrNotFinite, "a count of steps past all numbers")
	}
}
