package drainage_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/quantity"
)

// TestBarrierHeightHoldsTheLevelDepth goes the other way round: barriers of that
// height, at the spacing of the same source, leave the level depth usable.
// Computed; the usable depth is geometry, checked on its own.
func TestBarrierHeightHoldsTheLevelDepth(t *testing.T) {
	for _, level := range []float64{1, 7.5, 12.5, 40} {
		height, err := drainage.BarrierHeightDenver(quantity.Inches(level))
		require.NoError(t, err)
		require.InDelta(t, 1.5*level, height.Inches(), 1e-9)
		for _, slope := range []float64{0.001, 0.02, 0.03, 0.12} {
			spacing, err := drainage.BarrierSpacingDenver(height, slope)
			require.NoError(t, err)
			usable, err := drainage.UsableDepthOnSlope(height, slope, spacing)
			require.NoError(t, err)
			require.InDelta(t, level, usable.Inches(), 1e-9)
		}
	}
	_, err := drainage.BarrierHeightDenver(-1)
	require.Error(t, err)
}
