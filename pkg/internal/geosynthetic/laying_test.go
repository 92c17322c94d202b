package geosynthetic_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/quantity"
)

func TestFabricOverlap(t *testing.T) {
	const fhwa, m288 = geosynthetic.FHWAOverlap, geosynthetic.M288Overlap
	for _, tc := range []struct {
		name             string
		cbr              float64
		set              geosynthetic.OverlapSet
		least, most, end float64 // m; 0 is refused
		side, ends       geosynthetic.Seam
	}{
		{"the tables part between 2 and 3: FHWA", 2.5, fhwa, 0.30, 0.45, 0.90, geosynthetic.Lapped, geosynthetic.LappedOrSewn},
		{"the tables part between 2 and 3: M 288", 2.5, m288, 0.60, 1.00, 1.00, geosynthetic.Lapped, geosynthetic.LappedOrSewn},
		{"firm, M 288", 3.1, m288, 0.30, 0.45, 1.00, geosynthetic.Lapped, geosynthetic.LappedOrSewn},
		{"a shared CBR goes to the softer row, FHWA", 2, fhwa, 0.60, 0.90, 0.90, geosynthetic.Lapped, geosynthetic.LappedOrSewn},
		{"a shared CBR goes to the softer row, M 288", 3, m288, 0.60, 1.00, 1.00, geosynthetic.Lapped, geosynthetic.LappedOrSewn},
		{"CBR 1 goes to the softer row, FHWA", 1, fhwa, 0.90, 0.90, 0.90, geosynthetic.LappedOrSewn, geosynthetic.LappedOrSewn},
		{"CBR 1 goes to the softer row, M 288", 1, m288, 1.00, 1.00, 1.00, geosynthetic.LappedOrSewn, geosynthetic.LappedOrSewn},
		{"0.5 may still be lapped", 0.5, fhwa, 0.90, 0.90, 0.90, geosynthetic.LappedOrSewn, geosynthetic.LappedOrSewn},
		{"under 0.5 it is sewn and has no lap, FHWA", 0.49, fhwa, 0, 0, 0, geosynthetic.Sewn, geosynthetic.Sewn},
		{"under 0.5 it is sewn and has no lap, M 288", 0.49, m288, 0, 0, 0, geosynthetic.Sewn, geosynthetic.Sewn},
	} {
		t.Run(tc.name, func(t *testing.T) {
			for _, length := range []struct {
				of   func(float64, geosynthetic.OverlapSet) (quantity.Length, error)
				want float64
			}{
				{geosynthetic.FabricOverlapLeast, tc.least}, {geosynthetic.FabricOverlapMost, tc.most}, {geosynthetic.FabricEndOverlap, tc.end},
			} {
				got, err := length.of(tc.cbr, tc.set)
				require.InDelta(t, length.want, got.Meters(), 1e-12)
				var outside *calculation.RangeError
				require.Equal(t, length.want == 0, errors.As(err, &outside), "%v", err)
			}
			side, err := geosynthetic.FabricSeam(tc.cbr, tc.set)
			require.NoError(t, err)
			require.Equal(t, tc.side, side)
			ends, err := geosynthetic.FabricEndSeam(tc.cbr, tc.set)
			require.NoError(t, err)
			require.Equal(t, tc.ends, ends)
		})
	}
	_, err := geosynthetic.FabricSeam(2, "house")
	require.ErrorContains(t, err, `set is "house"`)
	_, err = geosynthetic.FabricSeam(0, fhwa)
	require.ErrorContains(t, err, "cbr is 0")
}

// The softer the ground, the longer the lap, in both tables.
func TestFabricOverlapNeverFallsAsCBRFalls(t *testing.T) {
	for _, set := range []geosynthetic.OverlapSet{geosynthetic.FHWAOverlap, geosynthetic.M288Overlap} {
		before := quantity.Length(0)
		for cbr := 20.0; cbr >= 0.5; cbr -= 0.01 {
			lap, err := geosynthetic.FabricOverlapLeast(cbr, set)
			require.NoError(t, err)
			require.GreaterOrEqual(t, lap, before)
			before = lap
		}
	}
}

func TestGridHoldsStone(t *testing.T) {
	for _, tc := range []struct {
		name               string
		aperture, d50, d85 float64 // mm
		want               bool
	}{
		{"ordinary dense base", 33, 10, 19, true},
		{"aperture equal to D50", 20, 20, 25, true},
		{"aperture under D50, stone rides on the ribs", 19.9, 20, 25, false},
		{"aperture of 2 D85", 40, 10, 20, true},
		{"stone falls through", 40.1, 10, 20, false},
		{"aperture under 12.5 mm", 12.4, 5, 10, false},
		{"aperture of 75 mm", 75, 40, 60, true},
		{"aperture over 75 mm", 75.1, 40, 60, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.GridHoldsStone(quantity.Millimeters(tc.aperture), quantity.Millimeters(tc.d50), quantity.Millimeters(tc.d85))
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
	_, err := geosynthetic.GridHoldsStone(quantity.Millimeters(33), quantity.Millimeters(20), quantity.Millimeters(19))
	require.ErrorContains(t, err, "d50 cannot be above d85")
}

// The limits 7.5 mm and 0.85 mm are the worked example of a granular filter
// over a base of D85 1.5 mm and D15 0.17 mm, in a coastal engineering manual
// whose title is not known, and so in no published row.
func TestSeparatorUnderGrid(t *testing.T) {
	mm := quantity.Millimeters
	for _, tc := range []struct {
		name                     string
		d15, d50, soil50, soil85 float64 // mm
		want                     bool
	}{
		{"at 5 times D85", 7.5, 20, 1, 1.5, false},
		{"over 5 times D85", 7.51, 20, 1, 1.5, true},
		{"at 25 times D50", 5, 25, 1, 1.5, false},
		{"over 25 times D50", 5, 25.1, 1, 1.5, true},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.GridNeedsSeparator(mm(tc.d15), mm(tc.d50), mm(tc.soil50), mm(tc.soil85))
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
	drains, err := geosynthetic.StoneDrainsGround(mm(0.8501), mm(0.17))
	require.NoError(t, err)
	require.True(t, drains)
	drains, err = geosynthetic.StoneDrainsGround(mm(0.8499), mm(0.17))
	require.NoError(t, err)
	require.False(t, drains)
}

func TestGridHeight(t *testing.T) {
	for _, tc := range []struct {
		name         string
		base, height float64 // in
		place        geosynthetic.GridPlace
	}{
		{"a patio's base", 6, 0, geosynthetic.BottomOfBase},
		{"just under 14 in", 13.99, 0, geosynthetic.BottomOfBase},
		{"14 in itself", 14, 7, geosynthetic.MidDepthOfBase},
		{"a deep base", 20, 10, geosynthetic.MidDepthOfBase},
	} {
		t.Run(tc.name, func(t *testing.T) {
			place, err := geosynthetic.GridPlaceFor(quantity.Inches(tc.base))
			require.NoError(t, err)
			require.Equal(t, tc.place, place)
			height, err := geosynthetic.GridHeight(quantity.Inches(tc.base))
			require.NoError(t, err)
			require.InDelta(t, tc.height, height.Inches(), 1e-9)
		})
	}
	require.InDelta(t, 6, geosynthetic.CoverUnderPlant().Inches(), 1e-12)
	stone, err := geosynthetic.LargestStoneInLift(quantity.Inches(6))
	require.NoError(t, err)
	require.InDelta(t, 3, stone.Inches(), 1e-12)
}

func TestBenefitRatios(t *testing.T) {
	ratio, err := geosynthetic.TrafficBenefitRatio(6000, 2000)
	require.NoError(t, err)
	require.Equal(t, 3.0, ratio)
	passes, err := geosynthetic.PassesWithBenefit(2000, ratio)
	require.NoError(t, err)
	require.Equal(t, 6000.0, passes, "the ratio put back gives the passes")
	reduction, err := geosynthetic.BaseCourseReduction(quantity.Inches(10), quantity.Inches(7))
	require.NoError(t, err)
	require.InDelta(t, 30, reduction, 1e-9)
	base, err := geosynthetic.ReducedBase(quantity.Inches(10), reduction)
	require.NoError(t, err)
	require.InDelta(t, 7, base.Inches(), 1e-9, "the reduction put back gives the base")
	_, err = geosynthetic.BaseCourseReduction(quantity.Inches(7), quantity.Inches(10))
	require.ErrorContains(t, err, "no thicker")
	_, err = geosynthetic.ReducedBase(quantity.Inches(10), 100)
	require.Error(t, err, "no base at all is no base")
	_, err = geosynthetic.TrafficBenefitRatio(0, 2000)
	require.Error(t, err)
}

func TestWhereGeosyntheticsHelp(t *testing.T) {
	for _, tc := range []struct {
		name string
		got  func() (bool, error)
		want bool
	}{
		{"CBR under 3", func() (bool, error) { return geosynthetic.HelpsByCBR(2.99) }, true},
		{"CBR 3", func() (bool, error) { return geosynthetic.HelpsByCBR(3) }, false},
		{"under 90 kPa", func() (bool, error) { return geosynthetic.HelpsByStrength(quantity.Kilopascals(89)) }, true},
		{"90 kPa", func() (bool, error) { return geosynthetic.HelpsByStrength(quantity.Kilopascals(90)) }, false},
		{"R under 20", func() (bool, error) { return geosynthetic.HelpsByRValue(19) }, true},
		{"R 20", func() (bool, error) { return geosynthetic.HelpsByRValue(20) }, false},
		{"under 30 MPa", func() (bool, error) { return geosynthetic.HelpsByModulus(quantity.Megapascals(29)) }, true},
		{"30 MPa", func() (bool, error) { return geosynthetic.HelpsByModulus(quantity.Megapascals(30)) }, false},
		{"fat clay", func() (bool, error) { return geosynthetic.HelpsBySoil("CH"), nil }, true},
		{"clean sand", func() (bool, error) { return geosynthetic.HelpsBySoil("SP"), nil }, false},
		{"an AASHTO clay", func() (bool, error) { return geosynthetic.HelpsBySoil("A-7-6"), nil }, true},
		{"fabric reinforces under 4", func() (bool, error) { return geosynthetic.ArmyFabricReinforces(3.9) }, true},
		{"and not at 4", func() (bool, error) { return geosynthetic.ArmyFabricReinforces(4) }, false},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := tc.got()
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
}

func TestAdviceByCBR(t *testing.T) {
	for _, tc := range []struct {
		name string
		cbr  float64
		want geosynthetic.ArmyAdvice
	}{
		{"0.5 is a platform", 0.5, geosynthetic.PlatformWithBoth}, {"2", 2, geosynthetic.BothAdvised},
		{"just over 2", 2.01, geosynthetic.FabricUsual}, {"4, as seen", 4, geosynthetic.GridConsidered},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.ArmyAdviceFor(tc.cbr)
			require.NoError(t, err)
			require.Equal(t, tc.want, got)
		})
	}
	for _, tc := range []struct {
		name string
		cbr  float64
		want geosynthetic.FabricFunction
	}{
		{"above 2", 2.5, geosynthetic.Filters}, {"1 to 2", 1.5, geosynthetic.FiltersAndSeparates},
		{"under 1", 0.9, geosynthetic.FiltersAndReinforces}, {"beyond the table", 3.1, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.FabricFunctionFor(tc.cbr)
			require.Equal(t, tc.want == "", err != nil)
			require.Equal(t, tc.want, got)
		})
	}
	for _, tc := range []struct {
		name      string
		cbr, base float64 // mm
		want      geosynthetic.BaseReinforcement
	}{
		{"soft", 2.9, 200, geosynthetic.StabilizeFirst}, {"usual", 3, 300, geosynthetic.ReinforcementUsual},
		{"a thick base", 8, 301, geosynthetic.ReinforcementMiddle}, {"firm", 8.1, 200, geosynthetic.ReinforcementUnusual},
		{"a base thinner than the table's", 5, 149, ""},
	} {
		t.Run(tc.name, func(t *testing.T) {
			got, err := geosynthetic.BaseReinforcementFor(tc.cbr, quantity.Millimeters(tc.base))
			require.Equal(t, tc.want == "", err != nil)
			require.Equal(t, tc.want, got)
		})
	}
}

func TestAgencyGridOverlap(t *testing.T) {
	require.InDelta(t, 0.6, geosynthetic.AgencyGridOverlap(true).Meters(), 1e-12)
	require.InDelta(t, 0.9, geosynthetic.AgencyGridOverlap(false).Meters(), 1e-12)
}
