package geosynthetic_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

func TestFabricOverlap(t *testing.T) {
	const fhwa, m288 = geosynthetic.FHWAOverlap, geosynthetic.M288Overlap
	for _, tc := range []struct {
		name, why string
		cbr       float64
		set       geosynthetic.OverlapSet
		least     float64 // m; 0 is refused
		seam      geosynthetic.Seam
	}{
		{"FHWA at 2.5", "the tables part between 2 and 3", 2.5, fhwa, 0.30, geosynthetic.Lapped},
		{"M 288 at 2.5", "the tables part between 2 and 3", 2.5, m288, 0.60, geosynthetic.Lapped},
		{"FHWA just above 2", "the first row begins there", 2.01, fhwa, 0.30, geosynthetic.Lapped},
		{"M 288 just above 3", "the first row begins there", 3.01, m288, 0.30, geosynthetic.Lapped},
		{"FHWA at 2", "a shared CBR goes to the softer row", 2, fhwa, 0.60, geosynthetic.Lapped},
		{"M 288 at 3", "a shared CBR goes to the softer row", 3, m288, 0.60, geosynthetic.Lapped},
		{"FHWA at 1", "a shared CBR goes to the softer row", 1, fhwa, 0.90, geosynthetic.LappedOrSewn},
		{"M 288 at 1", "a shared CBR goes to the softer row", 1, m288, 1.00, geosynthetic.LappedOrSewn},
		{"FHWA at 0.5", "may still be lapped", 0.5, fhwa, 0.90, geosynthetic.LappedOrSewn},
		{"FHWA under 0.5", "is sewn and has no lap", 0.49, fhwa, 0, geosynthetic.Sewn},
		{"M 288 under 0.5", "is sewn and has no lap", 0.49, m288, 0, geosynthetic.Sewn},
	} {
		t.Run(tc.name, func(t *testing.T) {
			seam, err := geosynthetic.FabricSeam(tc.cbr, tc.set)
			require.NoError(t, err)
			require.Equal(t, tc.seam, seam, tc.why)
			least, err := geosynthetic.FabricOverlapLeast(tc.cbr, tc.set)
			require.InDelta(t, tc.least, least.Meters(), 1e-12, tc.why)
			if tc.least == 0 {
				require.ErrorContains(t, err, "cbr is 0.49; it must be 0.5 to 100")
				require.ErrorContains(t, err, "the seam is sewn")
			}
		})
	}
	_, err := geosynthetic.FabricSeam(2, "house")
	require.ErrorContains(t, err, `set is "house"`)
	_, err = geosynthetic.FabricSeam(0, fhwa)
	require.ErrorContains(t, err, "cbr is 0;")
}

func TestGridHoldsStone(t *testing.T) {
	for _, tc := range []struct {
		name, why          string
		aperture, d50, d85 float64 // mm
		want               bool
	}{
		{"ordinary dense base", "well inside", 33, 10, 19, true},
		{"aperture equal to D50", "still locks", 20, 20, 25, true},
		{"aperture under D50", "stone rides on the ribs", 19.9, 20, 25, false},
		{"aperture of 2 D85", "still holds", 40, 10, 20, true},
		{"aperture over 2 D85", "stone falls through", 40.1, 10, 20, false},
		{"aperture of 12.5 mm", "the smallest", 12.5, 5, 10, true},
		{"aperture under 12.5 mm", "too small for any stone", 12.4, 5, 10, false},
		{"aperture of 75 mm", "the largest", 75, 40, 60, true},
		{"aperture over 75 mm", "too large for any stone", 75.1, 40, 60, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.GridHoldsStone(quantity.Millimeters(tc.aperture), quantity.Millimeters(tc.d50), quantity.Millimeters(tc.d85))
			require.NoError(t, err)
			require.Equal(t, tc.want, got, tc.why)
		})
	}
	_, err := geosynthetic.GridHoldsStone(quantity.Millimeters(33), quantity.Millimeters(20), quantity.Millimeters(19))
	require.EqualError(t, err, "d50 is 20 mm; it must be 0.0001 to 19 mm (no larger than d85)")
}
