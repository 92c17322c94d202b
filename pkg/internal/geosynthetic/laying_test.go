package geosynthetic_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
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
		{"FHWA just above 1", "the middle row begins there", 1.01, fhwa, 0.60, geosynthetic.Lapped},
		{"M 288 just above 1", "the middle row begins there", 1.01, m288, 0.60, geosynthetic.Lapped},
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

// The grid overlaps of Indiana DOT 617-R-188b sec. 617.04, seen.
func TestAgencyGridOverlap(t *testing.T) {
	require.Equal(t, 0.6, geosynthetic.AgencyGridOverlap(true).Meters(), "ground that people can walk on")
	require.Equal(t, 0.9, geosynthetic.AgencyGridOverlap(false).Meters(), "ground that does not carry people")
}

// A drainage fabric by AASHTO M 288 Table 2 as quoted in UFGS 02373, seen; the
// least permittivity and the largest opening of each row, at the edges of the rows.
func TestDrainFabric(t *testing.T) {
	for _, tc := range []struct {
		name, why             string
		fines                 float64 // percent
		permittivity, opening float64 // 1/s and mm
	}{
		{"no fines", "the first row begins there", 0, 0.5, 0.43},
		{"just below 15", "the first row ends there", 14.9, 0.5, 0.43},
		{"15", "belongs to the second row", 15, 0.2, 0.25},
		{"50", "is still in the second row", 50, 0.2, 0.25},
		{"just above 50", "the note prints the last row as greater than 15, read as 50", 50.1, 0.1, 0.22},
		{"all fines", "the last row ends there", 100, 0.1, 0.22},
	} {
		t.Run(tc.name, func(t *testing.T) {
			permittivity, err := geosynthetic.DrainFabricPermittivity(quantity.Percent(tc.fines))
			require.NoError(t, err)
			require.InDelta(t, tc.permittivity, float64(permittivity), 1e-12, tc.why)
			opening, err := geosynthetic.DrainFabricOpening(quantity.Percent(tc.fines))
			require.NoError(t, err)
			require.InDelta(t, tc.opening, opening.Millimeters(), 1e-12, tc.why)
		})
	}
}

// TestRangeEnds takes each argument at both ends of its range and just beyond, with
// the others as a job has them; those of a platform are in its own tests.
func TestRangeEnds(t *testing.T) {
	kN, kPa, mm, percent := quantity.Kilonewtons, quantity.Kilopascals, quantity.Millimeters, quantity.Percent
	for _, tc := range []struct {
		name, why string
		low, high float64
		call      func(x float64) error
	}{
		{"cohesion", "softer ground flows, and harder is rock", 1, 200, func(x float64) error { return refused(geosynthetic.AllowableStress(kPa(x), 2.8)) }},
		{"bearing factor", "those of the method are 2.8 to 6", 1, 10, func(x float64) error { return refused(geosynthetic.AllowableStress(kPa(30), x)) }},
		{"wheel load", "construction wheels", 1, 200, func(x float64) error { return refused(geosynthetic.BearingThickness(kN(x), kPa(550), kPa(84))) }},
		{"contact pressure", "construction wheels", 50, 1500, func(x float64) error { return refused(geosynthetic.BearingThickness(kN(45), kPa(x), kPa(40))) }},
		{"allowable stress", "200 kPa times the factor of 10", 1, 2000, func(x float64) error { return refused(geosynthetic.BearingThickness(kN(45), kPa(550), kPa(x))) }},
		{"fines by permittivity", "a part of a hundred", 0, 100, func(x float64) error { return refused(geosynthetic.DrainFabricPermittivity(percent(x))) }},
		{"fines by opening", "a part of a hundred", 0, 100, func(x float64) error { return refused(geosynthetic.DrainFabricOpening(percent(x))) }},
		{"D85", "from finer than any clay to 1 m", 0.0001, 1000, func(x float64) error {
			return refused(geosynthetic.FilterOpeningMost(mm(x), percent(20), 4, geosynthetic.Woven, geosynthetic.SteadyFlow))
		}},
		{"fines of a filtered soil", "a part of a hundred", 0, 100, func(x float64) error {
			return refused(geosynthetic.FilterOpeningMost(mm(1), percent(x), 4, geosynthetic.Woven, geosynthetic.SteadyFlow))
		}},
		{"uniformity", "D60 is at least D10", 1, 1e5, func(x float64) error {
			return refused(geosynthetic.FilterOpeningMost(mm(1), percent(20), x, geosynthetic.Woven, geosynthetic.SteadyFlow))
		}},
		{"CBR under a lap", "softer ground is sewn", 0.5, 100, func(x float64) error { return refused(geosynthetic.FabricOverlapLeast(x, geosynthetic.FHWAOverlap)) }},
		{"CBR under a seam", "what is softer than 0.1 flows", 0.1, 100, func(x float64) error { return refused(geosynthetic.FabricSeam(x, geosynthetic.FHWAOverlap)) }},
		{"aperture", "from finer than any clay to 1 m", 0.0001, 1000, func(x float64) error { return refused(geosynthetic.GridHoldsStone(mm(x), mm(12), mm(20))) }},
		{"D50 of stone", "no larger than its D85", 0.0001, 20, func(x float64) error { return refused(geosynthetic.GridHoldsStone(mm(25), mm(x), mm(20))) }},
		{"D85 of stone", "no smaller than its D50, to 1 m", 12, 1000, func(x float64) error { return refused(geosynthetic.GridHoldsStone(mm(25), mm(12), mm(x))) }},
	} {
		t.Run(tc.name, func(t *testing.T) {
			below := tc.low * 0.999
			if tc.low == 0 {
				below = -0.001
			}
			for _, x := range []float64{below, tc.high * 1.001} {
				var outside *calculation.RangeError
				require.ErrorAs(t, tc.call(x), &outside, "%g is beyond: %s", x, tc.why)
			}
			require.NoError(t, tc.call(tc.low), "%g: %s", tc.low, tc.why)
			require.NoError(t, tc.call(tc.high), "%g: %s", tc.high, tc.why)
		})
	}
}

// refused is the error alone of a call.
func refused[T any](_ T, err error) error { return err }

func TestCalculationsAreDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range geosynthetic.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.False(t, seen[f.Name], "described twice")
			seen[f.Name] = true
			sig, err := signature.Of(f)
			require.NoError(t, err)
			for i, p := range append(f.Params, f.Result) {
				require.NotEmpty(t, p.Name, "of value %d", i)
				require.NotEmpty(t, p.About, p.Name)
			}
			for _, k := range append(sig.Params, sig.Result) {
				if k.Form == signature.Word {
					require.NotEmpty(t, reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary().Words, k.Name)
				}
			}
			require.NotEmpty(t, f.Sources)
			require.True(t, strings.HasPrefix(f.Example, f.Name+"("), f.Example)
			require.Equal(t, f.Moves != "", f.Positive, "none of the results that move one way is below zero, and a proof must know it")
		})
	}
	for _, name := range []string{"platform_thickness_by", "filter_opening_most", "fabric_seam"} {
		require.True(t, seen[name], "a platform, a fabric and its laying: %s", name)
	}
}
