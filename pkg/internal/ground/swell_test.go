package ground_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/ground"
)

func TestPotentialSwell(t *testing.T) {
	for _, c := range []struct {
		name, why string
		ll, pi    float64
		set       ground.SwellSet
		want      ground.SwellClass
	}{
		{"snethen low", "both low", 49, 24, ground.SwellBySnethen, ground.SwellLow},
		{"snethen by liquid limit", "50 is marginal", 50, 24, ground.SwellBySnethen, ground.SwellMarginal},
		{"snethen by plasticity index", "25 is marginal", 49, 25, ground.SwellBySnethen, ground.SwellMarginal},
		{"snethen upper edge", "60 and 35 are marginal still", 60, 35, ground.SwellBySnethen, ground.SwellMarginal},
		{"snethen disagree", "the higher of the two", 61, 20, ground.SwellBySnethen, ground.SwellHigh},
		{"snethen disagree by pi", "the higher of the two", 45, 36, ground.SwellBySnethen, ground.SwellHigh},
		{"closed low", "under 15", 60, 14.9, ground.SwellByUSBRClosed, ground.SwellLow},
		{"closed medium", "15 is on two bands: the higher", 60, 15, ground.SwellByUSBRClosed, ground.SwellMedium},
		{"closed high", "28 is on two bands: the higher", 60, 28, ground.SwellByUSBRClosed, ground.SwellHigh},
		{"closed 41", "the last band is over 41", 60, 41, ground.SwellByUSBRClosed, ground.SwellHigh},
		{"closed very high", "the last band is over 41", 60, 41.1, ground.SwellByUSBRClosed, ground.SwellVeryHigh},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := ground.PotentialSwell(c.ll, c.pi, c.set)
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
	_, err := ground.PotentialSwell(30, 31, ground.SwellBySnethen)
	require.EqualError(t, err, "plasticity index is 31; it must be 0 to 30 (no more than the liquid limit)")
}
