package geosynthetic_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

// boussinesq is the vertical stress at a depth under the middle of a circular
// load, in kPa: the other way round.
func boussinesq(load, pressure, depth float64) float64 {
	square := load / (math.Pi * pressure)
	return pressure * (1 - math.Pow(1+square/(depth*depth), -1.5))
}

// Put back into the stress formula, the depth returns the allowable stress.
func TestBearingThicknessIsTheInverseOfTheStress(t *testing.T) {
	for _, load := range []float64{1, 20, 45, 200} {
		for _, pressure := range []float64{50, 420, 550, 1500} {
			for _, part := range []float64{0.01, 0.1, 0.5, 0.9, 0.999} {
				allowed := max(part*pressure, 1)
				depth, err := geosynthetic.BearingThickness(quantity.Kilonewtons(load), quantity.Kilopascals(pressure), quantity.Kilopascals(allowed))
				require.NoError(t, err)
				require.InEpsilon(t, allowed, boussinesq(load, pressure, depth.Meters()), 1e-6, "%g kN, %g kPa, depth %g", load, pressure, depth.Meters())
			}
		}
	}
	none, err := geosynthetic.BearingThickness(quantity.Kilonewtons(45), quantity.Kilopascals(550), quantity.Kilopascals(550))
	require.NoError(t, err)
	require.Zero(t, none, "ground that carries the contact pressure needs no stone")
}

// The factors of the older method and what the ground then carries at a cohesion of
// 4.20 psi. 2.8 and 5.0 are seen in FM 5-430-00-1 App. H, 3.3 and 6.0 from memory;
// only the first product is printed (11.8 psi in TM 5-818-8), the others are by hand.
func TestAllowableStress(t *testing.T) {
	for _, tc := range []struct {
		name, why    string
		support      geosynthetic.Support
		rutting      geosynthetic.Rutting
		factor, want float64
	}{
		{"bare, little rut", "the printed product", geosynthetic.NoSupport, geosynthetic.LittleRut, 2.8, 11.76},
		{"fabric, little rut", "its product is cut off on the page", geosynthetic.FabricSupport, geosynthetic.LittleRut, 5.0, 21.0},
		{"bare, deep rut", "a deeper rut calls up more", geosynthetic.NoSupport, geosynthetic.DeepRut, 3.3, 13.86},
		{"fabric, deep rut", "the greatest factor", geosynthetic.FabricSupport, geosynthetic.DeepRut, 6.0, 25.2},
	} {
		t.Run(tc.name, func(t *testing.T) {
			factor, err := geosynthetic.BearingFactor(tc.support, tc.rutting)
			require.NoError(t, err)
			require.Equal(t, tc.factor, factor, tc.why)
			stress, err := geosynthetic.AllowableStress(quantity.PSI(4.20), factor)
			require.NoError(t, err)
			require.InDelta(t, tc.want, stress.PSI(), 1e-9, tc.why)
		})
	}
}

func TestBearingFactorRefuses(t *testing.T) {
	_, err := geosynthetic.BearingFactor(geosynthetic.GridSupport, geosynthetic.LittleRut)
	require.EqualError(t, err, `support is "grid"; it must be none or fabric (TM 5-818-8 (1995), para. 2-7)`, "the older method knows no grid")
	_, err = geosynthetic.BearingFactor(geosynthetic.NoSupport, "some")
	require.ErrorContains(t, err, `rutting is "some"`)
}
