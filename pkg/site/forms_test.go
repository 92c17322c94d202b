package site_test

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/site"
)

// TestFormsAsPeopleHaveThem holds what else than a number with its unit is read.
func TestFormsAsPeopleHaveThem(t *testing.T) {
	for _, c := range []struct{ name, why, path, text, same, wrong string }{
		{"one to so many", "slopes are drawn so on plans", "surface_slope", "1:50", "2 %", ""},
		{"one in so many", "and said so", "surface_slope", "1 in 40", "2.5 %", ""},
		{"percent in words", "no key for the sign", "surface_slope", "2 percent", "2 %", ""},
		{"run over rise", "a bank of 3:1 is not a slope of paving, and would be 300 % read so", "surface_slope", "3:1", "", "is not a slope with its unit"},
		{"one to nothing", "no slope is endless", "surface_slope", "1:0", "", "is not a slope with its unit"},
		{"two sides", "people measure sides and not areas", "area", "20 x 20 ft", "400 sq ft", ""},
		{"sides with a unit each", "in full", "area", "20 ft x 10 ft", "200 sq ft", ""},
		{"sides with marks", "in signs", "area", "20' x 10'", "200 sq ft", ""},
		{"sides in words", "as said", "area", "12 by 10 ft", "120 sq ft", ""},
		{"sides in meters", "as on a metric plan", "area", "4 x 2.5 m", "10 m2", ""},
		{"sides of feet and inches", "a tape shows both", "area", "10 ft 6 in x 10 ft", "105 sq ft", ""},
		{"sides without a unit", "20 x 20 may be feet or meters", "area", "20 x 20", "", "cannot be read"},
		{"three sides", "a volume is no area", "area", "2 x 3 x 4 ft", "", "cannot be read"},
		{"acres", "as a deed says it", "area", "0.1 acres", "4356 sq ft", ""},
		{"tons on the square foot", "as the scale of a penetrometer says it", "soil.pocket_penetrometer", "1.5 tsf", "3000 psf", ""},
		{"kilograms on the square centimeter", "the other side of the same scale", "soil.pocket_penetrometer", "2 kg/cm2", "196.133 kPa", ""},
		{"the first mark", "the scale begins here", "soil.pocket_penetrometer", "0.25 tsf", "500 psf", ""},
		{"the last mark", "and ends here", "soil.pocket_penetrometer", "4.5 tsf", "9000 psf", ""},
		{"psi for tsf", "no scale shows so little", "soil.pocket_penetrometer", "2 psi", "", "in this range would be 2 tsf or 2 kg/cm2"},
		{"tsf for psi", "no scale shows so much", "soil.pocket_penetrometer", "30 tsf", "", "in this range would be 30 psi or 30 kPa"},
		{"tsf for psf", "the number tells the unit", "soil.pocket_penetrometer", "2000 tsf", "", "in this range would be 2000 psf"},
		{"kPa for tsf", "a strong clay in the wrong unit would be mud", "soil.pocket_penetrometer", "3 kPa", "", "in this range would be 3 tsf or 3 kg/cm2"},
		{"in no unit", "no unit makes a reading of it", "soil.pocket_penetrometer", "0.2 tsf", "", "wanted 0.25 to 4.5 tsf"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got, want site.Site
			err := got.Set(c.path, c.text)
			if c.wrong != "" {
				require.ErrorContains(t, err, c.wrong, c.why)
				return
			}
			require.NoError(t, err, c.why)
			require.NoError(t, want.Set(c.path, c.same))
			x, _ := got.Input(c.path)
			y, _ := want.Input(c.path)
			require.InEpsilon(t, reflect.ValueOf(y).Float(), reflect.ValueOf(x).Float(), 1e-12, c.why)
		})
	}
}
