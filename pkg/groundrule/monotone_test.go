package groundrule_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
)

// TestWeakerGroundNeverGetsLess proves that the standard rulebook never lays
// less stone on weaker ground, all else being the same: an auditor's first
// question.
func TestWeakerGroundNeverGetsLess(t *testing.T) {
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, use := range []string{"foot", "car_driveway", "heavy_driveway", "light_parking", "fire_lane", "residential_street"} {
		for _, base := range []string{"dense", "open"} {
			for _, group := range []string{"SP", "SM", "SC", "CL", "CH", "ML"} {
				for _, hard := range []bool{false, true} {
					last := quantity.Length(1e9)
					for _, cbr := range []float64{1.25, 1.4, 1.9, 2, 2.5, 2.99, 3, 3.4, 4, 4.01, 4.99, 5, 6, 8, 8.5, 10, 12, 12.1, 15, 20, 30} {
						job := combined(use, base, cbr, hard)
						job.Soil.Group = groupNamed(group)
						d, err := book.Design(job)
						require.NoError(t, err)
						v, _ := d.Answer("stone_depth")
						depth, ok := v.Length()
						require.True(t, ok)
						require.LessOrEqual(t, float64(depth), float64(last)*(1+1e-9), "%s, %s base on %s, hard %v: CBR %g takes %s, weaker ground %s", use, base, group, hard, cbr,
							depth.Quantity().Text(quantity.US), last.Quantity().Text(quantity.US))
						last = depth
					}
				}
			}
		}
	}
}
