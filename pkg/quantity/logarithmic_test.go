package quantity

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// The standard library's logarithm and power, which may round otherwise on
// another machine, must agree to 12 figures; a share between near ends to fewer.
func TestLogarithmic(t *testing.T) {
	for _, low := range []float64{1e-6, 0.075, 1, 37.5} {
		for _, ratio := range []float64{1.001, 2, 10, 375} {
			// Rounding of x weighs the more the nearer the two ends are.
			near := 1e-12 + 1e-14/math.Log(ratio)
			for _, share := range []float64{0, 1e-3, 0.25, 1.0 / 3, 0.5, 0.999, 1} {
				high := low * ratio
				x := LogBetween(low, high, share)
				require.InEpsilon(t, low*math.Pow(ratio, share), x, 1e-12)
				require.InDelta(t, math.Log(x/low)/math.Log(ratio), LogShare(low, high, x), near)
				require.InDelta(t, share, LogShare(low, high, x), near)
			}
		}
	}
}
