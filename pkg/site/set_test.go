package site_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

func TestCheck(t *testing.T) {
	tests := []struct{ name, why, path, text, want string }{
		{"sound", "a length", "perimeter", "82 ft", ""},
		{"blank", "not known is no fault", "perimeter", " ", ""},
		{"blank where it is needed", "every job has an area", "area", "", "area is missing; wanted area, such as 400 sq ft"},
		{"no unit", "as in a file", "perimeter", "82", `perimeter cannot be read: a unit is missing, and a length is wanted; found "82"; wanted length, such as 82 ft; units are in, ft, yd, mm, cm, m, um`},
		{"out of range", "bounds are those of the file", "frost.mean_annual_temperature", "48 C", `frost.mean_annual_temperature is out of range; found "48 C"; wanted -76 to 104 F (-60 to 40 C)`},
		{"word", "in any spelling", "soil.consistency", "Very-Stiff", ""},
		{"unknown word", "with the nearest", "use", "fot", `use is not a known word for what the paving will carry; found "fot"; wanted one of foot, car_driveway, heavy_driveway, light_parking, fire_lane, residential_street, collector_street, truck_yard; did you mean "foot"?`},
		{"blank text", "a name is not made of blanks", "job", "\t", ""},
		{"unprintable text", "a sheet could not show it", "job", "a\x00", `job holds characters that cannot be printed; found "a\x00"; wanted plain text`},
		{"decimal comma", "it is not read as 345", "soil.liquid_limit", "34,5", `soil.liquid_limit is not a number; found "34,5"; wanted percent, such as 34`},
		{"number of programs", "nobody writes a limit so", "soil.liquid_limit", "0x22", `soil.liquid_limit is not a number; found "0x22"; wanted percent, such as 34`},
		{"one of several", "readings are counted from 0", "soil.cbr[2]", "201", `soil.cbr[2] is out of range; found "201"; wanted 0 to 200 %`},
		{"the only one", "one reading needs no brackets", "soil.cbr", "4.5 %", ""},
		{"in a list", "sieves are counted from 0", "soil.sieves[3].passing", "101", `soil.sieves[3].passing is out of range; found "101"; wanted 0 to 100 %`},
		{"sieve", "by its name", "soil.sieves[0].sieve", "No. 200", ""},
		{"half a blow", "blows are counted", "soil.dcp.readings[0].blows", "2.5", `soil.dcp.readings[0].blows is out of range; found "2.5"; wanted a whole number, 1 to 1,000,000`},
		{"slope", "a bare number may be either", "surface_slope", "0.02", `surface_slope is not a slope with its unit; found "0.02"; wanted slope, such as 2 %, 1/4 in per ft or 1:50`},
		{"group", "it holds no value itself", "soil", "clay", `soil is not the path of a value`},
		{"list", "nor does this", "soil.sieves", "x", `soil.sieves is not the path of a value`},
		{"no such key", "the nearest is offered", "soil.cbrr", "4", `soil.cbrr is not the path of a value; did you mean "soil.cbr"?`},
		{"key of another group", "where it stands", "cbr", "4", `cbr is not the path of a value; did you mean "soil.cbr"?`},
		{"not a count", "items are counted", "soil.cbr[x]", "4", `soil.cbr[x] is not the path of a value; did you mean "soil.cbr"?`},
		{"below the first", "from 0", "soil.cbr[-1]", "4", `soil.cbr[-1] is not the path of a value; did you mean "soil.cbr"?`},
		{"past the most", "a list has an end", "soil.cbr[1000]", "4", `soil.cbr[1000] is not the path of a value`},
		{"counted value", "a length is not a list", "perimeter[0]", "4 ft", `perimeter[0] is not the path of a value; did you mean "perimeter"?`},
		{"key below a number", "a reading has no keys", "soil.cbr[0].x", "4", `soil.cbr[0].x is not the path of a value`},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			err := standard(t).Check(tc.path, tc.text)
			if tc.want == "" {
				require.NoError(t, err, tc.why)
				return
			}
			require.EqualError(t, err, tc.want, tc.why)
			var one *diagnostic.Diagnostic
			require.ErrorAs(t, err, &one)
			require.Equal(t, tc.path, one.Path)
		})
	}
}

// A site can be filled in field by field, as a form does it.
func TestSetFillsASite(t *testing.T) {
	s := &site.Site{}
	for _, each := range []struct{ path, text string }{
		{"area", "400 sq ft"}, {"use", "foot"}, {"base", "open"}, {"soil.cbr[1]", "4"}, {"soil.cbr[0]", "3"}, {"note", "x"}, {"note", ""},
		{"soil.sieves[1].sieve", "No. 200"}, {"soil.sieves[0].sieve", "No. 4"}, {"soil.sieves[0].passing", "90 %"},
		{"soil.sieves[1].passing", "12"}, {"soil.organic", "No"}, {"frost.depth", "40 in"}, {"frost.depth", " "}, {"surface_slope", "2 %"},
	} {
		require.NoError(t, s.Set(each.path, each.text), each.path)
	}
	sameSite(t, read(t, `{area: 400 sq ft, use: foot, base: open, surface_slope: 2 %, soil: {cbr: [3, 4], organic: no,
  sieves: [{sieve: No. 4, passing: 90}, {sieve: No. 200, passing: 12}]}}`), s)
	require.Error(t, s.Set("surface_slope", "60 %"))
	require.Equal(t, quantity.Percent(2), *s.SurfaceSlope, "what is refused changes nothing")
}

func TestFieldSet(t *testing.T) {
	field := func(path string) site.Field {
		for _, f := range append(site.Fields(), site.Inputs()...) {
			if f.Path == path {
				return f
			}
		}
		t.Fatalf("no field %s", path)
		return site.Field{}
	}
	tests := []struct {
		name, why, path string
		give            any
		want            any // nil if it takes no such value
	}{
		{"quantity", "in SI", "perimeter", 25.0, quantity.Meters(25)},
		{"number", "as it is", "soil.liquid_limit", 30.0, 30.0},
		{"list of one", "a reading is a list", "soil.cbr", 3.0, []float64{3}},
		{"list", "all at once", "soil.cbr", []float64{3, 4}, []float64{3, 4}},
		{"word", "as a job file has it", "soil.uscs", "CL", "CL"},
		{"text", "any", "place", "plate", "plate"},
		{"flag", "yes", "soil.organic", true, true},
		{"derived from the curve", "a sieve is added", "soil.passing_no40", 0.35, quantity.Percent(35)},
		{"derived as given", "the other value that tells it", "soil.passing_0_02_mm", 0.12, quantity.Percent(12)},
		{"derived from the sounding", "a blow is added", "soil.penetration_index", 12.0, []float64{12}},
		{"size", "no one value gives it", "soil.d10", 0.1, nil},
		{"text for a number", "it is not one", "soil.liquid_limit", "30", nil},
		{"number for a word", "nor is this one", "soil.uscs", 3.0, nil},
		{"number for a flag", "nor this", "soil.organic", 1.0, nil},
		{"group", "it holds no value itself", "soil", 1.0, nil},
		{"in a list", "of which item?", "soil.sieves[].passing", 1.0, nil},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			s, f := &site.Site{}, field(tc.path)
			err := f.Set(s, tc.give)
			got, given := s.Input(tc.path)
			if !f.Rules {
				got, given = f.Get(s)
			}
			require.Equal(t, tc.want == nil, err != nil, "%v", err)
			require.Equal(t, tc.want != nil, given)
			require.Equal(t, tc.want, got, tc.why)
			if tc.want == nil || f.Derived() {
				return
			}
			require.NoError(t, f.Set(s, nil))
			_, given = f.Get(s)
			require.False(t, given, "nil takes it away")
		})
	}
}

// TestSolve: a site with what Solve returns comes out with the value that was
// wanted.
func TestSolve(t *testing.T) {
	inputs := map[string]site.Field{}
	for _, f := range site.Inputs() {
		inputs[f.Path] = f
	}
	for _, tc := range []struct {
		name, why, path string
		wanted, other   float64
		want            float64 // 0 where one value does not tell
	}{
		{"plasticity index", "the liquid limit is that much above the plastic limit", "soil.plasticity_index", 16, 20, 36},
		{"liquid limits", "the dried one is a part of the other", "soil.liquid_limit_ratio", 0.7, 50, 35},
		{"sieve curve", "it is worked out from many values", "soil.d10", 1, 1, 0},
		{"given", "nothing is worked out", "soil.liquid_limit", 30, 1, 0},
		{"not a number", "no value makes it so", "soil.plasticity_index", math.NaN(), 20, 0},
	} {
		t.Run(tc.name, func(t *testing.T) {
			f := inputs[tc.path]
			first, ok := f.Solve(tc.wanted, tc.other)
			require.Equal(t, tc.want != 0, ok, tc.why)
			if !ok {
				return
			}
			require.InDelta(t, tc.want, first, 1e-12, tc.why)
			s := &site.Site{}
			require.NoError(t, inputs[f.From[0]].Set(s, first))
			require.NoError(t, inputs[f.From[1]].Set(s, tc.other))
			got, given := f.Get(s)
			require.True(t, given)
			require.InDelta(t, tc.wanted, got, 1e-12, tc.why)
		})
	}
}

// TestSamples: the example of every field is the value that it sets.
func TestSamples(t *testing.T) {
	for path, want := range map[string]any{"soil": nil, "soil.sieves": nil, "perimeter": quantity.Feet(82).Meters(), "soil.organic": true} {
		for _, f := range site.Fields() {
			if f.Path == path {
				require.Equal(t, want, f.Sample(), "%s, such as %s", path, f.Example)
			}
		}
	}
}

func TestPlaceWithin(t *testing.T) {
	s := read(t, least+"compactor: hand tamper\n")
	at, written := s.PlaceWithin("compactor", 2)
	require.True(t, written)
	require.Equal(t, "job.yaml:4:14", at.String())
	_, written = s.PlaceWithin("note", 2)
	require.False(t, written)
	at, written = s.PlaceOf("")
	require.True(t, written, "a stream says in which line a job is")
	require.Equal(t, "job.yaml:1:1", at.String())
}
