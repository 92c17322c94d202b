package printed

import (
	"fmt"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
)

// TestSaid holds how conditions read, each as the condition of a caution that is added to
// the standard.
func TestSaid(t *testing.T) {
	const foot, dense, large = "the load case is foot", "the kind of base wanted is dense", "the area to be paved is more than 400 sq ft"
	cases := []struct{ name, why, when, want string }{
		{"is", "a word by its label", "use == foot", foot},
		{"is not", "as a person denies it", "use != foot", "the load case is not foot"},
		{"denied", "no sign is left of how it is written", "!(use == foot)", "the load case is not foot"},
		{"one of two", "either will do", "use in [foot, fire_lane]", "the load case is foot or fire lane"},
		{"one of three", "the last behind an or", "use in [foot, fire_lane, truck_yard]", "the load case is foot, fire lane or truck yard"},
		{"none of two", "neither will do", "!(use in [foot, fire_lane])", "the load case is neither foot nor fire lane"},
		{"one of one", "it is that one", "use in [foot]", foot},
		{"none of one", "it is not that one", "!(use in [foot])", "the load case is not foot"},
		{"more", "a quantity with its unit", "area > sq_ft(400)", large},
		{"not more", "it is at most that", "!(area > sq_ft(400))", "the area to be paved is at most 400 sq ft"},
		{"turned round", "what changes from job to job comes first", "sq_ft(400) < area", large},
		{"a setting turned round", "a setting is the same on every job", "grid_cover <= section_depth", "the section depth is at least 6 in (grid cover)"},
		{"two that stay", "they stand as they are written", "grid_cover <= inches(8)", "6 in (grid cover) is at most 8 in"},
		{"a sum that stays", "of a setting and a quantity", "grid_cover + inches(2) < section_depth", "the section depth is more than 6 in (grid cover) plus 2 in"},
		{"a yes or no", "that it is known need not be said", "known(soil.organic) && soil.organic", "organic soil was found"},
		{"neither yes", "not known, or no", "!(known(soil.organic) && soil.organic)", "nothing says that organic soil was found"},
		{"known", "alone it is said", "known(soil.organic)", "it is known whether organic soil was found"},
		{"not known", "and so is this", "!known(soil.organic)", "it is not known whether organic soil was found"},
		{"a property", "of a word", "use.carries_vehicles", "the load case carries any road vehicle"},
		{"without a property", "the verb is denied", "!use.carries_vehicles", "the load case does not carry any road vehicle"},
		{"a reading", "that it is given need not be said", "known(soil.cbr) && least(soil.cbr) < 3", "the least of the CBR readings is less than 3"},
		{"and", "two", "use == foot && base == dense", foot + " and " + dense},
		{"and of three", "commas between", "use == foot && base == dense && area > sq_ft(400)", foot + ", " + dense + " and " + large},
		{"or", "two", "use == foot || base == dense", foot + " or " + dense},
		{"or within and", "it is seen to belong together", "(use == foot || base == dense) && area > sq_ft(400)", "either " + foot + " or " + dense + ", and " + large},
		{"or of three within and", "it is a list", "(use == foot || base == dense || base == open) && area > sq_ft(400)", "one of these holds: " + foot + "; " + dense + "; or the kind of base wanted is open, and " + large},
		{"and within or", "it is seen to belong together", "use == foot && base == dense || area > sq_ft(400)", "both " + foot + " and " + dense + ", or " + large},
		{"and of three within or", "it is a list", "use == foot && base == dense && area < sq_ft(100) || area > sq_ft(400)",
			"all of these hold: " + foot + "; " + dense + "; and the area to be paved is less than 100 sq ft, or " + large},
		{"and denied", "each part is, and one is enough", "!(use == foot && base == dense)", "the load case is not foot or the kind of base wanted is not dense"},
		{"the same twice", "it is said once", "use == foot && use == foot", foot},
	}
	text := "amendment: more\ncompany: Ours\nwho: A\nwhen: 2026-03-01\nwhy: we ask more\nadd:\n"
	for i, c := range cases {
		text += fmt.Sprintf("  - {caution: MORE-%d, when: %q, says: Mind., source: company}\n", i, c.when)
	}
	day, err := rulebook.ParseDate("2026-06-01")
	require.NoError(t, err)
	book, err := groundrule.OpenStandard(groundrule.AsOf(day), groundrule.WithAmendments(rulebook.Layer{Label: "ours", FS: fstest.MapFS{"more.yaml": {Data: []byte(text)}}}))
	require.NoError(t, err)
	b := inside.Rules(book)
	s, said := newSpeaker(b), 0
	for _, each := range b.Cautions() {
		number, ours := strings.CutPrefix(each.ID, "MORE-")
		if !ours {
			continue
		}
		i, err := strconv.Atoi(number)
		require.NoError(t, err)
		t.Run(cases[i].name, func(t *testing.T) { require.Equal(t, cases[i].want, s.condition(each.When).line(), cases[i].why) })
		said++
	}
	require.Equal(t, len(cases), said)
}
