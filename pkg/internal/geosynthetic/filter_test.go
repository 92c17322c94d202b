package geosynthetic_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

func TestFilterOpeningMost(t *testing.T) {
	const steady, dynamic = geosynthetic.SteadyFlow, geosynthetic.DynamicFlow
	for _, tc := range []struct {
		name, why string
		fines, cu float64
		making    geosynthetic.FabricMaking
		flow      geosynthetic.FilterFlow
		want      float64 // of a D85 of 1 mm, in mm
	}{
		{"uniform soil", "B is 1 to Cu 2", 10, 1, geosynthetic.Nonwoven, steady, 1},
		{"Cu 2", "the branches meet", 10, 2, geosynthetic.Nonwoven, steady, 1},
		{"rising", "B is Cu/2", 10, 3, geosynthetic.Woven, steady, 1.5},
		{"Cu 4", "B is largest", 10, 4, geosynthetic.Woven, steady, 2},
		{"just above Cu 4", "the branches part there", 10, 4.1, geosynthetic.Woven, steady, 8 / 4.1},
		{"falling", "B is 8/Cu", 10, 5, geosynthetic.Woven, steady, 1.6},
		{"Cu 8", "the branches meet", 10, 8, geosynthetic.Woven, steady, 1},
		{"well graded", "B is 1 from Cu 8", 10, 20, geosynthetic.Woven, steady, 1},
		{"50 % fines", "still go by Cu", 50, 4, geosynthetic.Nonwoven, steady, 2},
		{"fine soil, woven", "B is 1, but 0.3 mm governs", 51, 4, geosynthetic.Woven, steady, 0.3},
		{"dynamic flow", "half of D85 whatever Cu", 10, 4, geosynthetic.Woven, dynamic, 0.5},
		{"fine soil in dynamic flow", "0.3 mm governs there too", 51, 4, geosynthetic.Nonwoven, dynamic, 0.3},
	} {
		t.Run(tc.name, func(t *testing.T) {
			most, err := geosynthetic.FilterOpeningMost(quantity.Millimeters(1), quantity.Percent(tc.fines), tc.cu, tc.making, tc.flow)
			require.NoError(t, err)
			require.InDelta(t, tc.want, most.Millimeters(), 1e-12, tc.why)
		})
	}
	for making, want := range map[geosynthetic.FabricMaking]float64{
		geosynthetic.Woven: 0.1, geosynthetic.WovenMonofilament: 0.1, geosynthetic.Nonwoven: 0.18} {
		most, err := geosynthetic.FilterOpeningMost(quantity.Millimeters(0.1), quantity.Percent(51), 4, making, steady)
		require.NoError(t, err)
		require.InDelta(t, want, most.Millimeters(), 1e-12, "%s on a fine soil that 0.3 mm does not govern", making)
	}
	_, err := geosynthetic.FilterOpeningMost(quantity.Millimeters(1), quantity.Percent(10), 0.99, geosynthetic.Woven, steady)
	require.EqualError(t, err, "uniformity is 0.99; it must be 1 to 100,000 (D60/D10 is at least 1; its most is a bound of sense, not from a publication)")
	_, err = geosynthetic.FilterOpeningMost(quantity.Millimeters(1), quantity.Percent(10), 1, "knitted", steady)
	require.EqualError(t, err, `making is "knitted"; it must be woven, woven monofilament or nonwoven (the words of fabric_making)`)
}
