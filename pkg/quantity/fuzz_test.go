package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzParse: nothing panics; what parses is finite, prints, and parses back.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"6 in", `6"`, "3-1/8 in", "3⅛″", `1' 6"`, `5'-11 1/2"`, "8,000 psi", "0.5 in/hr", "1.9 t/yd3", "1,000 °F·days",
		"1 x 10^-5 cm/s", "3×10⁻⁵ cm/s", "2 per cent", "0.5 1/s", "60 lb/ft2", "1,5 m", "1e999 m", "-40 F", "5 s⁻¹", "1/0 in",
		"72 h", "1e99 years", "1e-99 um", "999.97 mm", "47.999 in", "0.99999 in", "1e15 ft",
	} {
		f.Add(seed, uint8(DimLength))
	}
	f.Fuzz(func(t *testing.T, text string, want uint8) {
		if q, err := Parse(text); err == nil {
			require.NoError(t, q.check())
			requireReadsBack(t, q)
			as, err := ParseAs(q.Dim, text)
			require.NoError(t, err)
			require.Equal(t, q, as)
		}
		dim := Dimension(want)
		q, err := ParseAs(dim, text)
		if err != nil {
			var fault *ParseError
			require.ErrorAs(t, err, &fault)
			require.NotEmpty(t, fault.Problem)
			require.GreaterOrEqual(t, fault.Offset, 0)
			require.LessOrEqual(t, fault.Offset, len([]rune(fault.Text)))
			return
		}
		require.Equal(t, dim, q.Dim)
		requireReadsBack(t, q)
	})
}

// FuzzOperations throws any numbers at all that takes a value.
func FuzzOperations(f *testing.F) {
	f.Add(uint8(2), 1.5, uint8(2), 0.25, "in")
	f.Add(uint8(12), math.Inf(1), uint8(0), math.NaN(), "F")
	f.Add(uint8(2), math.MaxFloat64, uint8(99), 5e-324, "um")
	f.Fuzz(func(t *testing.T, d uint8, x float64, e uint8, y float64, unit string) {
		a, b := Quantity{Dimension(d), x}, Quantity{Dimension(e), y}
		for _, op := range []func(a, b Quantity) (Quantity, error){Quantity.Multiply, Quantity.Divide, Quantity.RoundUp, Quantity.RoundDown} {
			if q, err := op(a, b); err == nil {
				require.NoError(t, q.check())
			}
		}
		if c, err := a.Compare(b); err == nil {
			back, err := b.Compare(a)
			require.NoError(t, err)
			require.Equal(t, -c, back)
		}
		for _, s := range []System{EitherSystem, US, SI} {
			require.NotEmpty(t, a.Text(s))
		}
		if v, err := a.In(unit); err == nil {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
		if u, ok := UnitNamed(unit, NoDimension); ok {
			if q, err := u.Quantity(x); err == nil {
				require.NoError(t, q.check())
			}
		}
		if data, err := Share(x).MarshalText(); err == nil && (x == 0 || math.Abs(x) > smallestRead && math.Abs(x) < largestRead) {
			back, err := Parse(string(data))
			require.NoError(t, err)
			require.Equal(t, x, back.SI)
		}
	})
}
