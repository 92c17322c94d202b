package site_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/site"
)

// Every field says all that a form, an error and a reader of its documentation
// need, and its example is read.
func TestFieldsAreWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range standard(t).Fields() {
		t.Run(f.Path, func(t *testing.T) {
			require.False(t, seen[f.Path], "twice")
			seen[f.Path] = true
			require.NotEmpty(t, f.About)
			require.NotEmpty(t, f.Label)
			require.NotEmpty(t, f.Wanted())
			require.False(t, f.Derived())
			switch f.Form {
			case site.GroupForm:
				require.Empty(t, f.Kind())
				require.False(t, f.Rules)
				return
			case site.ListForm:
				require.NotEmpty(t, f.Item)
				return
			case site.WordForm:
				require.NotEmpty(t, f.Vocabulary.Words)
			case site.NumberForm, site.NumbersForm, site.MeasuredForm:
				require.True(t, f.Dim.Valid())
				low, high := f.Bounds()
				require.Less(t, low, high)
			}
			require.NotEmpty(t, f.Kind())
			path := strings.ReplaceAll(f.Path, "[]", "[0]")
			s := read(t, least)
			require.NoError(t, site.Check(path, f.Example))
			require.NoError(t, s.Set(path, f.Example))
			if f.Path != path {
				return
			}
			x, given := f.Get(s)
			require.Equal(t, f.Example != "" || f.Required, given)
			if given {
				again := read(t, least)
				require.NoError(t, f.Set(again, f.Sample()))
				y, _ := f.Get(again)
				require.Equal(t, x, y, "the sample is the example")
			}
		})
	}
}

func ExampleRead() {
	_, err := site.Read("maple-court.yaml", []byte(`job: Maple Court patio
area: 400 sq ft
use: foot
base: dense
soil:
  uscs: CJ
water:
  groundwater: 5
`))
	fmt.Println(err)
	// Output:
	// maple-court.yaml:6:9: soil.uscs is not a known word for soil groups of the unified classification, ASTM D2487; found "CJ"; wanted one of GW, GP, GM, GC, GC-GM, GW-GM, GW-GC, GP-GM, GP-GC, SW, SP, SM, SC, SC-SM, SW-SM, SW-SC, SP-SM, SP-SC, CL, ML, CL-ML, CH, MH, OL, OH, PT; did you mean "CL"?
	// maple-court.yaml:8:17: water.groundwater cannot be read: a unit is missing, and a length is wanted; found "5"; wanted length, such as 5 ft; units are in, ft, yd, mm, cm, m, um
}

func ExampleSite_Input() {
	s, err := site.Read("maple-court.yaml", []byte(`area: 400 sq ft
use: foot
base: dense
soil:
  liquid_limit: 34
  plastic_limit: 18
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, name := range []string{"area", "soil.plasticity_index", "soil.cbr"} {
		value, given := s.Input(name)
		fmt.Println(name, value, given)
	}
	// Output:
	// area 400 sq ft true
	// soil.plasticity_index 16 true
	// soil.cbr <nil> false
}
