package portable

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLogarithmicScale(t *testing.T) {
	for _, low := range []float64{1e-6, 0.075, 1, 37.5} {
		for _, ratio := range []float64{1.001, 2, 10, 375} {
			t.Run(fmt.Sprintf("%g to %g times", low, ratio), func(t *testing.T) {
				high := low * ratio
				require.Equal(t, low, Between(low, high, 0))
				require.Equal(t, high, Between(low, high, 1))
				require.Zero(t, Share(low, high, low))
				require.Equal(t, 1.0, Share(low, high, high))
				// Rounding of x weighs the more the nearer the two ends are.
				near := 1e-15 + 1e-15/math.Log(ratio)
				for _, share := range []float64{1e-3, 0.25, 1.0 / 3, 0.5, 0.999} {
					x := Between(low, high, share)
					require.InEpsilon(t, low*math.Pow(ratio, share), x, 1e-15)
					require.InDelta(t, share, Share(low, high, x), near)
				}
			})
		}
	}
}
