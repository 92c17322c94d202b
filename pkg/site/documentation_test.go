package site_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/site"
)

// Each entry is written into a job by its own documentation, and must be read.
func TestFieldsSayWhatIsRead(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range site.Fields() {
		require.False(t, seen[f.Path], f.Path)
		seen[f.Path] = true
		require.NotEmpty(t, f.About, f.Path)
		require.NotEmpty(t, f.Reads, f.Path)
		example := "some text"
		_, such, shown := strings.Cut(f.Reads, "such as ")
		switch {
		case shown:
			example, _, _ = strings.Cut(such, ", ")
			example, _, _ = strings.Cut(example, " or ")
		case strings.HasPrefix(f.Reads, "one of "):
			example, _, _ = strings.Cut(strings.TrimPrefix(f.Reads, "one of "), ",")
		case f.Reads == "yes or no":
			example = "yes"
		case f.Reads != "text": // a group or a list has entries of its own
			continue
		}
		if strings.Contains(f.Path, "[]") {
			continue
		}
		t.Run(f.Path, func(t *testing.T) {
			keys := strings.Split(f.Path, ".")
			line := fmt.Sprintf("%s: %q", keys[len(keys)-1], example)
			for i := len(keys) - 2; i >= 0; i-- {
				line = keys[i] + ": {" + line + "}"
			}
			text := line + "\n"
			for _, needed := range []string{"area: 400 sq ft\n", "use: foot\n", "base: dense\n"} {
				if !strings.HasPrefix(needed, f.Path+":") {
					text += needed
				}
			}
			s := read(t, text)
			_, written := s.PlaceOf(f.Path)
			require.True(t, written)
		})
	}
	for _, path := range []string{"area", "soil.sieves[].passing", "overrides[].because"} {
		require.True(t, seen[path], path)
	}
}

func ExampleRead() {
	_, err := site.Read("maple-court.yaml", []byte(`job: Maple Court patio
area: 400 sq ft
use: foot
base: dense
soil:
  word: claay
water:
  groundwater: 5
`))
	fmt.Println(err)
	// Output:
	// maple-court.yaml:6:9: soil.word is no word for the ground, in a plain word, by eye and feel; found "claay"; wanted one of rock, gravel, sand, silty_sand, clayey_sand, silt, loam, sandy_clay, clay, topsoil, peat, fill, unknown; did you mean "clay"?
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
