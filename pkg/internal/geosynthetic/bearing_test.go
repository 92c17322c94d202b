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

// The product with fabric is cut off on the page; 5.0 * 4.20 psi by hand.
func TestAllowableStressWithFabric(t *testing.T) {
	factor, err := geosynthetic.BearingFactor(geosynthetic.FabricSupport, geosynthetic.LittleRut)
	require.NoError(t, err)
	stress, err := geosynthetic.AllowableStress(quantity.PSI(4.20), factor)
	require.NoError(t, err)
	require.InDelta(t, 21.0, stress.PSI(), 1e-9)
}

func TestBearingFactorRefuses(t *testing.T) {
	_, err := geosynthetic.BearingFactor(geosynthetic.GridSupport, geosynthetic.LittleRut)
	require.EqualError(t, err, `support is "grid"; it must be none or fabric (TM 5-818-8 (1995), para. 2-7)`, "the older method knows no grid")
	_, err = geosynthetic.BearingFactor(geosynthetic.NoSupport, "some")
	require.ErrorContains(t, err, `rutting is "some"`)
}
