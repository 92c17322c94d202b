package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whatever percentage a person writes comes back as it was, to the bit: the
// Unified Soil Classification rounds percentages to whole numbers, and 28.5 %
// must not be a hair under its half.
func TestPercentComesBack(t *testing.T) {
	for tenths := range 10_001 {
		x := float64(tenths) / 10
		require.Equal(t, x, Percent(x).Percent())
		require.Equal(t, -x, Percent(-x).Percent()+0)
	}
	require.Equal(t, 0.285, Percent(28.5).Fraction())
	require.True(t, math.IsNaN(Percent(math.NaN()).Percent()))
	require.True(t, math.IsInf(Percent(math.Inf(-1)).Percent(), -1))
}

func TestShareText(t *testing.T) {
	cases := []struct {
		name, why string
		s         Share
		text      string
	}{
		{"whole", "as the trade writes it", Percent(12), "12 %"},
		{"fraction of a percent", "no sixteenth digit", Percent(28.5), "28.5 %"},
		{"nothing", "0 is a share too", 0, "0 %"},
		{"less than nothing", "whether it makes sense is for the caller", Percent(-3), "-3 %"},
		{"any bits", "no short percentage has them, so the decimals of the fraction are moved", Share(1.0 / 3), "33.33333333333333 %"},
		{"bits that no percentage has", "8.000000000000004 and its neighbor are both turned into other bits", Share(math.Nextafter(0.08, 1) + 0x1p-56), "8.000000000000003e0 %"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			text, err := c.s.MarshalText()
			require.NoError(t, err)
			require.Equal(t, c.text, string(text), c.why)
			q, err := Parse(string(text))
			require.NoError(t, err)
			require.Equal(t, c.s.Quantity(), q, c.why)
		})
	}
	_, err := Share(math.NaN()).MarshalText()
	require.ErrorIs(t, err, ErrNotFinite)
}
