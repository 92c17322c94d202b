package geosynthetic_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

// The closed form is the inverse of the stress formula: put back, it gives the
// allowable stress again.
func TestBearingThicknessIsTheInverseOfTheStress(t *testing.T) {
	for _, load := range []float64{1, 20, 45, 200} {
		for _, pressure := range []float64{50, 420, 550, 1500} {
			for _, part := range []float64{0.01, 0.1, 0.5, 0.9, 0.999} {
				allowed := max(part*pressure, 1)
				wheel, contact := quantity.Kilonewtons(load), quantity.Kilopascals(pressure)
				depth, err := geosynthetic.BearingThickness(wheel, contact, quantity.Kilopascals(allowed))
				require.NoError(t, err)
				require.Positive(t, float64(depth))
				if depth > 10 {
					continue // deeper than the stress is asked for
				}
				stress, err := geosynthetic.StressUnderWheel(wheel, contact, depth)
				require.NoError(t, err)
				require.InEpsilon(t, allowed, stress.Kilopascals(), 1e-9, "%g kN, %g kPa, depth %g", load, pressure, depth)
			}
		}
	}
}

func TestBearingThicknessEnds(t *testing.T) {
	wheel, contact := quantity.Kilonewtons(45), quantity.Kilopascals(550)
	none, err := geosynthetic.BearingThickness(wheel, contact, contact)
	require.NoError(t, err)
	require.Zero(t, none, "ground that carries the contact pressure needs no stone")
	least, err := geosynthetic.BearingThickness(50*wheel/45, 1500e3, 1e3)
	require.NoError(t, err)
	require.Less(t, float64(least), 10.0)
	at0, err := geosynthetic.StressUnderWheel(wheel, contact, 0)
	require.NoError(t, err)
	require.Equal(t, contact, at0)
}

// The product with fabric is cut off on the page; 5.0 * 4.20 psi by hand.
func TestAllowableStressWithFabric(t *testing.T) {
	factor, err := geosynthetic.BearingFactor(geosynthetic.FabricSupport, geosynthetic.LittleRut)
	require.NoError(t, err)
	stress, err := geosynthetic.AllowableStress(quantity.PSI(4.20), factor)
	require.NoError(t, err)
	require.InDelta(t, 21.0, stress.PSI(), 1e-9)
}

func TestRuttingFor(t *testing.T) {
	for _, tc := range []struct {
		name   string
		rut    float64 // in
		passes float64
		want   geosynthetic.Rutting // "" is refused
	}{
		{"a haul road", 1.5, 5000, geosynthetic.LittleRut},
		{"a few trucks", 4, 99, geosynthetic.DeepRut},
		{"2 in is no longer under 2 in", 2, 5000, ""},
		{"1,000 passes are not more than 1,000", 1.5, 1000, ""},
		{"100 passes are not fewer than 100", 5, 100, ""},
		{"between the two", 3, 500, ""},
		{"no rut at all", 0, 5000, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.RuttingFor(quantity.Inches(tc.rut), tc.passes)
			if tc.want == "" {
				var outside *calculation.RangeError
				require.True(t, errors.As(err, &outside), "%v", err)
				return
			}
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
}

func TestBearingFactors(t *testing.T) {
	_, err := geosynthetic.BearingFactor(geosynthetic.GridSupport, geosynthetic.LittleRut)
	require.ErrorContains(t, err, "none or fabric", "the older method knows no grid")
	_, err = geosynthetic.BearingFactor(geosynthetic.NoSupport, "some")
	require.ErrorContains(t, err, `rutting is "some"`)
	for support, want := range map[geosynthetic.Support]float64{
		geosynthetic.NoSupport: 2.8, geosynthetic.FabricSupport: 3.6, geosynthetic.GridSupport: 5.8,
	} {
		got, err := geosynthetic.AggregateRoadBearingFactor(support)
		require.NoError(t, err)
		require.Equal(t, want, got)
	}
}

// Load rules by hand: 80 kN axle, 80 psi, 36 kN on 400 kPa is 0.09 m2.
func TestLoadRules(t *testing.T) {
	single, err := geosynthetic.SingleAxleWheelLoad(quantity.Kilonewtons(80))
	require.NoError(t, err)
	require.InDelta(t, 40, single.Kilonewtons(), 1e-9)
	tandem, err := geosynthetic.TandemAxleWheelLoad(quantity.Kilonewtons(80))
	require.NoError(t, err)
	require.InDelta(t, 48, tandem.Kilonewtons(), 1e-9)
	dual, err := geosynthetic.DualContactPressure(quantity.PSI(80))
	require.NoError(t, err)
	require.InDelta(t, 60, dual.PSI(), 1e-9)
	side, err := geosynthetic.ContactSide(quantity.Kilonewtons(36), quantity.Kilopascals(400))
	require.NoError(t, err)
	require.InDelta(t, 0.3, side.Meters(), 1e-12)
}
