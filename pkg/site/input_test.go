package site_test

import (
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// reserved are the words that CEL keeps for itself, and the names of its types
// and macros.
var reserved = strings.Fields(`true false null in as break const continue else for function if import let
	loop package namespace return var void while
	int uint double bool string bytes list map type dyn null_type optional
	has all exists exists_one filter size matches contains startsWith endsWith`)

func TestInputNames(t *testing.T) {
	name := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*(\.[a-z][a-z0-9]*(_[a-z0-9]+)*)*$`)
	groups, plain, seen := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for _, in := range site.Inputs() {
		require.Regexp(t, name, in.Path)
		require.NotEmpty(t, in.About, in.Path)
		require.NotEmpty(t, in.Kind(), in.Path)
		require.False(t, seen[in.Path], "%s twice", in.Path)
		seen[in.Path] = true
		parts := strings.Split(in.Path, ".")
		for _, p := range parts {
			require.NotContains(t, reserved, p, in.Path)
		}
		if len(parts) == 1 {
			plain[parts[0]] = true
		} else {
			groups[parts[0]] = true
		}
	}
	for g := range groups {
		require.False(t, plain[g], "%s cannot be a group and a value", g)
	}
	var words []value.WordEntry
	for _, path := range []string{"use", "base", "soil.word"} {
		words = append(words, standardWords(t, path)...)
	}
	for _, w := range words {
		require.Regexp(t, name, w.Name)
		require.False(t, groups[w.Name] || plain[w.Name] || seen[w.Name], "%s is an input or another word already", w.Name)
		seen[w.Name] = true
		require.NotContains(t, reserved, w.Name)
		require.NotEmpty(t, w.About)
	}
}

// kindOf returns the kind of a value that rules read.
func kindOf(t testing.TB, x any) value.Kind {
	t.Helper()
	v, err := value.Of(x, func(vocabulary value.Kind, label string) (*value.Word, bool) {
		return &value.Word{Vocabulary: vocabulary, Name: label}, true
	})
	require.NoError(t, err)
	return v.Kind()
}

// TestRulesReadWhatAJobTells: what rules do not read is for the sheet alone, or
// they read what is worked out from it.
func TestRulesReadWhatAJobTells(t *testing.T) {
	var unread []string
	for _, f := range site.Fields() {
		inList := strings.Contains(f.Path, "[")
		if f.Form != site.GroupForm && f.Form != site.ListForm && !inList && !f.Rules {
			unread = append(unread, f.Path)
		}
	}
	require.Equal(t, []string{"job", "part", "client", "date", "shape.length", "shape.width", "shape.diameter", "soil.dcp.mm_per_blow", "soil.passing_0_02_mm", "company", "note"}, unread)
}

// TestBounds: a field without an end of its own ends where numbers can no longer be
// written and read back, so that a number can be drawn between the ends.
func TestBounds(t *testing.T) {
	for _, f := range site.Fields() {
		least, most := f.Bounds()
		require.True(t, -1e101 < least && least <= most && most < 1e101, "%s: %g to %g", f.Path, least, most)
		if f.Path == "surface_slope" {
			require.Equal(t, [2]float64{0, 0.5}, [2]float64{least, most}, "0 to 50 %%, in SI")
		}
	}
}

// Every input has a value of its kind in one of two jobs.
func TestInputKinds(t *testing.T) {
	a, b := read(t, patio), read(t, other)
	for _, in := range site.Inputs() {
		s := a
		v, given := s.Input(in.Path)
		if !given {
			s = b
			v, given = s.Input(in.Path)
		}
		if in.Path == "soil.d10" || in.Path == "soil.d15" {
			require.False(t, given, "30 %% is finer than 0.02 mm, so that no one knows the size of 10 %%")
			continue
		}
		require.True(t, given, in.Path)
		if in.Form != site.WordForm { // a word is its text
			require.Equal(t, in.Kind(), kindOf(t, v), in.Path)
		}
		require.Equal(t, len(in.From) > 0, in.Derived(), in.Path)
	}
}

func TestWhatIsMissingStaysMissing(t *testing.T) {
	var given []string
	s := read(t, least)
	for _, in := range site.Inputs() {
		v, ok := s.Input(in.Path)
		if ok {
			given = append(given, in.Path)
		} else {
			require.Nil(t, v, in.Path)
		}
		require.Equal(t, in.Required, ok, in.Path)
	}
	require.Equal(t, []string{"area", "use", "base"}, given)
	_, ok := s.Input("soil.nosuch")
	require.False(t, ok)
	_, ok = (*site.Site)(nil).Input("use")
	require.False(t, ok)
	_, ok = (&site.Site{SurfaceSlope: new(quantity.Share(math.NaN()))}).Input("surface_slope")
	require.False(t, ok, "NaN is not known")
}

func TestDerivedInputs(t *testing.T) {
	curve := func(points ...float64) site.Site {
		var s site.Site
		for i := 0; i < len(points); i += 2 {
			s.Soil.Sieves = append(s.Soil.Sieves, site.Sieve{Opening: quantity.Millimeters(points[i]), Passing: quantity.Percent(points[i+1])})
		}
		return s
	}
	type no struct{}
	tests := []struct {
		name, why string
		site      site.Site
		input     string
		want      any // no{} if it cannot be told
	}{
		{"exact sieve", "no line is drawn where the sieve was used", curve(4.75, 95, 0.075, 62), "soil.passing_no200", quantity.Percent(62)},
		{"No. 4", "it opens 4.75 mm", curve(4.75, 88, 0.075, 62), "soil.passing_no4", quantity.Percent(88)},
		{"No. 10", "it opens 2 mm", curve(4.75, 95, 2, 81, 0.075, 62), "soil.passing_no10", quantity.Percent(81)},
		{"No. 40", "it opens 0.425 mm", curve(4.75, 95, 0.425, 71, 0.075, 62), "soil.passing_no40", quantity.Percent(71)},
		{"D15", "the sieve that passes 15 %", curve(4.75, 60, 0.3, 15, 0.15, 10), "soil.d15", quantity.Millimeters(0.3)},
		{"D30", "the sieve that passes 30 %", curve(4.75, 60, 0.6, 30, 0.15, 10), "soil.d30", quantity.Millimeters(0.6)},
		{"D60", "the sieve that passes 60 %", curve(4.75, 70, 1.2, 60, 0.15, 10), "soil.d60", quantity.Millimeters(1.2)},
		{"D85", "the sieve that passes 85 %", curve(4.75, 90, 2.4, 85, 0.15, 10), "soil.d85", quantity.Millimeters(2.4)},
		{"no size", "a curve of what is not a number tells nothing", curve(math.NaN(), 95, math.NaN(), 62), "soil.passing_no40", no{}},
		{"any order", "files list sieves as they please", curve(0.075, 62, 4.75, 95), "soil.passing_no4", quantity.Percent(95)},
		{"half way by logarithm", "1 mm is midway from 10 mm to 0.1 mm", curve(10, 80, 0.1, 20, 40, 100), "soil.d50", quantity.Millimeters(1)},
		{"between sieves", "No. 10 opens 2 mm: log 2/log 4 of the way up", curve(4, 90, 1, 40), "soil.passing_no10", quantity.Percent(65)},
		{"above all", "all passes a coarser sieve too", curve(2.36, 100, 0.075, 5), "soil.passing_no4", quantity.Percent(100)},
		{"above some", "what passes a coarser sieve is not known", curve(2.36, 99, 0.075, 5), "soil.passing_no4", no{}},
		{"below some", "nor what passes a finer", curve(4.75, 60, 0.425, 5), "soil.passing_no200", no{}},
		{"below none", "nothing passes a finer sieve either", curve(4.75, 60, 0.425, 0), "soil.passing_no200", quantity.Percent(0)},
		{"no curve", "nothing is presumed", site.Site{}, "soil.passing_no200", no{}},
		{"size at a sieve", "the sieve that passes 10 % is D10", curve(4.75, 60, 0.15, 10), "soil.d10", quantity.Millimeters(0.15)},
		{"size past the end", "no line is drawn beyond the curve", curve(4.75, 60, 0.15, 11), "soil.d10", no{}},
		{"size on a level", "a gap in the grading leaves the size open", curve(4.75, 90, 2, 60, 0.425, 60, 0.075, 5), "soil.d60", no{}},
		{"size below a level", "but not the next", curve(10, 90, 1, 60, 0.1, 60, 0.01, 0), "soil.d30", quantity.Millimeters(math.Sqrt(0.001))},
		{"0.02 mm as given", "the hydrometer's own value", site.Site{Soil: site.Subgrade{Passing002: new(quantity.Percent(7))}}, "soil.passing_0_02_mm", quantity.Percent(7)},
		{"0.02 mm from the curve", "0.02 is midway from 0.04 to 0.01", curve(0.04, 30, 0.01, 10), "soil.passing_0_02_mm", quantity.Percent(20)},
		{"plasticity index", "LL less PL", site.Site{Soil: site.Subgrade{LiquidLimit: new(34.0), PlasticLimit: new(18.0)}}, "soil.plasticity_index", 16.0},
		{"plasticity index of one limit", "both are needed", site.Site{Soil: site.Subgrade{LiquidLimit: new(34.0)}}, "soil.plasticity_index", no{}},
		{"nonplastic", "no index is made up", site.Site{Soil: site.Subgrade{Nonplastic: new(true)}}, "soil.plasticity_index", no{}},
		{"oven ratio", "dried over not dried", site.Site{Soil: site.Subgrade{LiquidLimit: new(40.0), LiquidLimitOvenDried: new(20.0)}}, "soil.liquid_limit_ratio", 0.5},
		{"oven ratio over nothing", "no division by zero", site.Site{Soil: site.Subgrade{LiquidLimit: new(0.0), LiquidLimitOvenDried: new(20.0)}}, "soil.liquid_limit_ratio", no{}},
		{"penetration", "70 mm in 14 blows", site.Site{Soil: site.Subgrade{DCP: site.DCP{Readings: []site.Blows{{14, quantity.Millimeters(70)}, {2, quantity.Millimeters(30)}}}}}, "soil.penetration_index", []float64{5, 15}},
		{"penetration as read", "already divided", site.Site{Soil: site.Subgrade{DCP: site.DCP{MMPerBlow: []float64{12}}}}, "soil.penetration_index", []float64{12}},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			v, given := tc.site.Input(tc.input)
			if (tc.want == any(no{})) != !given {
				t.Fatalf("got %v, given %v; wanted %v", v, given, tc.want)
			}
			if !given {
				return
			}
			near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(math.Abs(a), math.Abs(b)) })
			nearShare := cmp.Comparer(func(a, b quantity.Share) bool { return math.Abs(float64(a-b)) <= 1e-12 })
			nearLength := cmp.Comparer(func(a, b quantity.Length) bool { return math.Abs(float64(a-b)) <= 1e-12*math.Abs(float64(a)) })
			if diff := cmp.Diff(tc.want, v, near, nearShare, nearLength); diff != "" {
				t.Errorf("value differs (-want +got):\n%s", diff)
			}
		})
	}
}

// The two readings of one straight line undo each other.
func TestCurveReadsBothWays(t *testing.T) {
	s := read(t, patio)
	for name, percent := range map[string]float64{"soil.d50": 50, "soil.d60": 60, "soil.d85": 85} {
		v, given := s.Input(name)
		require.True(t, given)
		with := *s
		with.Soil.Sieves = append(slices.Clone(s.Soil.Sieves), site.Sieve{Opening: v.(quantity.Length), Passing: quantity.Percent(percent)})
		require.NoError(t, with.Validate(), "the point is on the curve, and breaks no order")
		for _, sieve := range []string{"soil.passing_no10", "soil.passing_no40"} {
			before, _ := s.Input(sieve)
			after, _ := with.Input(sieve)
			require.InDelta(t, float64(before.(quantity.Share)), float64(after.(quantity.Share)), 1e-9, "%s with %s", sieve, name)
		}
	}
}

func TestPlaceOf(t *testing.T) {
	s := read(t, `area: 400 sq ft
use: foot
base: dense
soil:
  cbr: [3, 4.5 %, 4]
  sieves:
    - {sieve: No. 4, passing: 95 %}
overrides:
  - decision: base_thickness
    answer: inches(8)
    by: J. Orr
    because: the last job settled
`)
	for _, tc := range []struct {
		name, why string
		want      diagnostic.Place
	}{
		{"area", "a value", at(1, 7)},
		{"soil.cbr[1]", "an item of a list", at(5, 12)},
		{"soil.sieves[0].passing", "a value in an item of a list", at(7, 31)},
		{"overrides[0].answer", "where a fault of the answer is shown", at(10, 13)},
		{"soil", "a whole group", at(5, 3)},
	} {
		got, ok := s.PlaceOf(tc.name)
		require.True(t, ok, tc.name)
		require.Equal(t, tc.want, got, tc.name)
	}
	require.Equal(t, at(9, 5), s.Overrides[0].Place)
	for _, name := range []string{"soil.nosuch", "soil.plasticity_index", "traffic.trucks_over_life", "overrides[1]"} {
		_, ok := s.PlaceOf(name)
		require.False(t, ok, name)
	}
	_, ok := (&site.Site{}).PlaceOf("area")
	require.False(t, ok, "what came from no file stands nowhere")
}

// A site is read from many goroutines at once.
func TestConcurrentReading(t *testing.T) {
	s := read(t, patio)
	want, err := site.Write(s)
	require.NoError(t, err)
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			for _, in := range site.Inputs() {
				s.Input(in.Path)
				s.PlaceOf(in.Path)
			}
			got, err := site.Write(s)
			if err != nil || string(got) != string(want) {
				t.Error("a second goroutine reads another site", err)
			}
		})
	}
	group.Wait()
}
