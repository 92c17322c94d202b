package geosynthetic_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

func TestRetentionFactor(t *testing.T) {
	for _, tc := range []struct {
		name      string
		fines, cu float64
		making    geosynthetic.FabricMaking
		want      float64
	}{
		{"uniform soil", 10, 1, geosynthetic.Nonwoven, 1},
		{"at 2 the branches meet", 10, 2, geosynthetic.Nonwoven, 1},
		{"rising", 10, 3, geosynthetic.Woven, 1.5},
		{"at 4 it is largest", 10, 4, geosynthetic.Woven, 2},
		{"falling", 10, 5, geosynthetic.Woven, 1.6},
		{"at 8 the branches meet", 10, 8, geosynthetic.Woven, 1},
		{"well graded", 10, 20, geosynthetic.Woven, 1},
		{"50 percent fines still go by cu", 50, 4, geosynthetic.Nonwoven, 2},
		{"fine soil, woven", 51, 4, geosynthetic.Woven, 1},
		{"fine soil, monofilament is woven too", 51, 4, geosynthetic.WovenMonofilament, 1},
		{"fine soil, nonwoven", 51, 4, geosynthetic.Nonwoven, 1.8},
	} {
		t.Run(tc.name, func(t *testing.T) {
			b, err := geosynthetic.RetentionFactor(tc.fines, tc.cu, tc.making)
			require.NoError(t, err)
			require.InDelta(t, tc.want, b, 1e-12)
		})
	}
	_, err := geosynthetic.RetentionFactor(10, 0.99, geosynthetic.Woven)
	require.ErrorContains(t, err, "uniformity")
}

// B has no jump at cu 2, 4 and 8.
func TestRetentionFactorHasNoJump(t *testing.T) {
	for _, cu := range []float64{2, 4, 8} {
		below, err := geosynthetic.RetentionFactor(0, cu-1e-9, geosynthetic.Woven)
		require.NoError(t, err)
		above, err := geosynthetic.RetentionFactor(0, cu+1e-9, geosynthetic.Woven)
		require.NoError(t, err)
		require.InDelta(t, below, above, 1e-8)
	}
}

func TestFilterOpening(t *testing.T) {
	mm := quantity.Millimeters
	for _, tc := range []struct {
		name        string
		soil        geosynthetic.FilterSoil
		making      geosynthetic.FabricMaking
		flow        geosynthetic.FilterFlow
		least, most float64 // mm
	}{
		{"sand in steady flow: B is 8/5", geosynthetic.FilterSoil{D10: mm(0.1), D15: mm(0.12), D60: mm(0.5), D85: mm(1), Fines: 5}, geosynthetic.Woven, geosynthetic.SteadyFlow, 0.36, 1.6},
		{"the same in dynamic flow", geosynthetic.FilterSoil{D10: mm(0.1), D15: mm(0.12), D60: mm(0.5), D85: mm(1), Fines: 5}, geosynthetic.Woven, geosynthetic.DynamicFlow, 0.36, 0.5},
		{"uniform sand takes the largest opening", geosynthetic.FilterSoil{D10: mm(0.2), D15: mm(0.22), D60: mm(0.5), D85: mm(0.6), Fines: 2}, geosynthetic.Nonwoven, geosynthetic.SteadyFlow, 0.75, 0.75},
		{"fine soil is held to 0.3 mm", geosynthetic.FilterSoil{D10: mm(0.001), D15: mm(0.002), D60: mm(0.06), D85: mm(0.9), Fines: 65}, geosynthetic.Nonwoven, geosynthetic.SteadyFlow, 0.006, 0.3},
		{"fine soil in dynamic flow too", geosynthetic.FilterSoil{D10: mm(0.001), D15: mm(0.002), D60: mm(0.06), D85: mm(0.9), Fines: 65}, geosynthetic.Nonwoven, geosynthetic.DynamicFlow, 0.006, 0.3},
	} {
		t.Run(tc.name, func(t *testing.T) {
			least, most, err := geosynthetic.FilterOpening(tc.soil, tc.making, tc.flow)
			require.NoError(t, err)
			require.InDelta(t, tc.least, least.Millimeters(), 1e-9)
			require.InDelta(t, tc.most, most.Millimeters(), 1e-9)
		})
	}
}

func TestFilterOpeningWhereNoneFits(t *testing.T) {
	mm := quantity.Millimeters
	soil := geosynthetic.FilterSoil{D10: mm(0.1), D15: mm(0.3), D60: mm(0.35), D85: mm(0.4)}
	_, _, err := geosynthetic.FilterOpening(soil, geosynthetic.Woven, geosynthetic.DynamicFlow)
	require.ErrorIs(t, err, geosynthetic.ErrNoOpening)
	soil.D15 = mm(0.4)
	_, _, err = geosynthetic.FilterOpening(soil, geosynthetic.Woven, geosynthetic.SteadyFlow)
	require.ErrorContains(t, err, "at most D15, which is at most D60")
}

func TestFilterPermeabilityAndClogging(t *testing.T) {
	k, err := geosynthetic.FilterPermeability(1e-5, geosynthetic.LessCritical)
	require.NoError(t, err)
	require.Equal(t, quantity.Rate(1e-5), k)
	k, err = geosynthetic.FilterPermeability(1e-5, geosynthetic.Critical)
	require.NoError(t, err)
	require.InDelta(t, 1e-4, float64(k), 1e-18)
	for making, want := range map[geosynthetic.FabricMaking]float64{geosynthetic.Nonwoven: 50, geosynthetic.Woven: 4, geosynthetic.WovenMonofilament: 4} {
		got, err := geosynthetic.FilterOpenness(making)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
	passes, err := geosynthetic.GradientRatioPasses(3)
	require.NoError(t, err)
	require.False(t, passes, "3 is not below 3")
}

func TestArmyFilterLimits(t *testing.T) {
	for _, tc := range []struct {
		name        string
		d85, fines  float64
		least, most float64 // mm; 0 is refused
	}{
		{"sand is held by its own D85", 0.6, 20, 0.150, 0.6},
		{"half fines go by the No. 70 sieve", 0.6, 50, 0.150, 0.212},
		{"just under 85", 0.6, 84.9, 0.150, 0.212},
		{"no fabric filter from 85", 0.6, 85, 0, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			least, err := geosynthetic.ArmyFilterOpeningLeast(tc.fines)
			require.Equal(t, tc.least == 0, err != nil)
			most, err := geosynthetic.ArmyFilterOpeningMost(quantity.Millimeters(tc.d85), tc.fines)
			require.Equal(t, tc.most == 0, err != nil)
			require.InDelta(t, tc.least, least.Millimeters(), 1e-12)
			require.InDelta(t, tc.most, most.Millimeters(), 1e-12)
		})
	}
}
