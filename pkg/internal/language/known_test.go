package language

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/value"
)

// unguarded is the fault of a read without a guard.
func unguarded(name string) string {
	return "[" + name + "] may-be-missing: " + name + " may be missing here; found " + name + "; wanted known(" + name + ") asked before it, as in known(" + name + ") && ..."
}

// TestGuards holds that a value that may be missing is read only where it is
// known, by every way in which a condition can tell.
func TestGuards(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text string
		given           []string
		refused         []string // the names read without a guard, each time
	}{
		{"unguarded", "a missing value would read as zero", "water > inches(3)", nil, []string{"water"}},
		{"twice", "each read is told", "water > inches(3) && water < inches(9)", nil, []string{"water", "water"}},
		{"and", "", "known(water) && water > inches(3)", nil, nil},
		{"and, turned", "asked in the order of the text", "water > inches(3) && known(water)", nil, []string{"water"}},
		{"and, later", "", "known(water) && wet && water > inches(3)", nil, nil},
		{"and, of another", "", "known(swell) && water > inches(3)", nil, []string{"water"}},
		{"or", "where known fails the right side is asked", "known(water) || water > inches(3)", nil, []string{"water"}},
		{"or of not", "", "!known(water) || water > inches(3)", nil, nil},
		{"not of and", "it may have failed for wet", "!(known(water) && wet) && water > inches(3)", nil, []string{"water"}},
		{"not of or", "both failed", "!(!known(water) || wet) && water > inches(3)", nil, nil},
		{"not not", "", "!!known(water) && water > inches(3)", nil, nil},
		{"either side", "known on both sides of ||", "(known(water) && wet || known(water) && cbr < 3) && water > inches(3)", nil, nil},
		{"one side", "", "(known(water) || wet) && water > inches(3)", nil, []string{"water"}},
		{"a read is no guard", "it says nothing of later", "known(water) && water > inches(3) || water < inches(9)", nil, []string{"water"}},
		{"two", "", "known(water) && known(swell) && water > inches(3) && swell > 2", nil, nil},
		{"chain", "a balanced chain of && is still asked from the left", "known(water) && wet && wet && wet && wet && wet && water > inches(3)", nil, nil},
		{"in a call", "", "larger(water, cover) > cover", nil, []string{"water"}},
		{"in a list", "", "cover in [water]", nil, []string{"water"}},
		{"given", "by the when of the decision", "water > inches(3)", []string{"water"}, nil},
		{"given, not of all", "", "water > inches(3) && swell > 2", []string{"water"}, []string{"swell"}},
		{"in a group", "", "old.base == panel", nil, []string{"old.base"}},
		{"in a group, guarded", "", "known(old.base) && old.base == panel", nil, nil},
		{"property", "an optional property of a material is a value that may be missing", "net.aperture > inches(1)", nil, []string{"net.aperture"}},
		{"property, guarded", "", "known(net.aperture) && net.aperture > inches(1)", nil, nil},
		{"property of a word", "", "heavy_net.aperture > inches(1)", nil, []string{"heavy_net.aperture"}},
		{"property of a word, guarded", "", "known(heavy_net.aperture) && heavy_net.aperture > inches(1)", nil, nil},
		{"property of another", "", "known(light_net.aperture) && heavy_net.aperture > inches(1)", nil, []string{"heavy_net.aperture"}},
		{"needed property", "every one has it", "net.strength > kn_per_m(10)", nil, nil},
		{"of what may be missing", "the material itself must be there first", "spare.strength > kn_per_m(10)", nil, []string{"spare"}},
		{"of what may be missing, asked", "even to ask for a property of it", "known(spare.aperture)", nil, []string{"spare"}},
		{"of what may be missing, guarded", "", "known(spare) && known(spare.aperture) && spare.aperture > inches(1)", nil, nil},
		{"both missing", "", "spare.aperture > inches(1)", nil, []string{"spare.aperture", "spare"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			given := Given{}
			for _, n := range c.given {
				given[n] = true
			}
			_, faults := e.Condition(c.text, given)
			var want []string
			for _, name := range c.refused {
				want = append(want, unguarded(name))
			}
			require.Empty(t, cmp.Diff(want, allWritten(c.text, faults)), c.why)
		})
	}
}

func TestKnownOfWhat(t *testing.T) {
	checkConditions(t, []faultCase{
		{"always known", "it would say nothing", "known(cbr)", []string{"[cbr] always-known: cbr always has a value; wanted a condition without known(cbr)"}},
		{"needed property", "", "known(net.strength)", []string{"[net.strength] always-known: net.strength always has a value; wanted a condition without known(net.strength)"}},
		{"word", "", "known(panel)", []string{"[panel] always-known: panel is a word of base_type, and words are always there; wanted the name of a value that may be missing"}},
		{"unknown", "", "known(watr)", []string{"[watr] unknown-name: no value is called watr; found watr; wanted the name of a value that may be missing; nearest water"}},
		{"unknown in a group", "", "known(old.bas)", []string{"[old.bas] unknown-name: no value is called old.bas; found old.bas; wanted the name of a value that may be missing; nearest old.base"}},
		{"unknown property", "", "known(net.apertur)", []string{"[net.apertur] unknown-property: net is a word of grid_product, which has no property called apertur; found apertur; wanted one of aperture, note, strength; nearest aperture"}},
		{"an expression", "", "known(cbr > 3)", []string{"[cbr > 3] known-of-nothing: known takes the name of a value; wanted known(name)"}},
		{"nothing", "", "known()", []string{"[known()] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"two", "", "known(water, swell)", []string{"[known(water, swell)] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"behind a dot", "", "water.known()", []string{"[water.known()] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"alone", "", "known", []string{"[known] function-as-value: known is a function, not a value; found known; wanted known(name) bool"}},
		{"hidden name", "the name behind known(water) cannot be written", "`known water` && wet",
			[]string{"[`] not-an-expression: this cannot be read as an expression; found `; wanted letters, digits and the signs of the rule language",
				"[`] not-an-expression: this cannot be read as an expression; found `; wanted letters, digits and the signs of the rule language"}},
	})
}

// TestKnownAnswers holds what known comes to, for zeros above all: a value of 0
// is there.
func TestKnownAnswers(t *testing.T) {
	e := testEnv(t)
	values := testValues(e)
	values["water"], values["swell"] = value.Value{}, value.Number(0)
	delete(values, "water")
	for _, c := range []struct {
		name, why, text string
		want            bool
	}{
		{"missing", "", "known(water)", false},
		{"zero", "CEL's has() is false of a zero", "known(swell)", true},
		{"property there", "", "known(net.aperture)", true},
		{"property not there", "", "known(light_net.aperture)", false},
		{"property of a word there", "", "known(heavy_net.note)", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			cond, faults := e.Condition(c.text, nil)
			require.Empty(t, faults)
			got, err := cond.Clauses[0].Holds(frameOf(e, values))
			require.NoError(t, err)
			require.Equal(t, c.want, got, c.why)
		})
	}
}

// TestSettles holds which names a condition leaves known where it holds.
func TestSettles(t *testing.T) {
	e := testEnv(t)
	for text, want := range map[string]string{
		"known(water)":                                           "water",
		"known(water) && known(swell)":                           "swell water",
		"known(water) || known(swell)":                           "",
		"known(water) && wet || known(water)":                    "water",
		"!known(water)":                                          "",
		"!(!known(water) || !known(swell))":                      "swell water",
		"known(water) && water > inches(3) || known(net.note)":   "",
		"known(net.note) && wet":                                 "net.note",
		"wet && cbr > 3":                                         "",
		"known(spare) && known(spare.aperture)":                  "spare spare.aperture",
		"(known(water) || wet) && !(wet && known(swell) == wet)": "",
	} {
		c, faults := e.Condition(text, nil)
		require.Empty(t, faults, text)
		var got []string
		for n := range c.Settles {
			got = append(got, n)
		}
		slices.Sort(got)
		require.Equal(t, want, strings.Join(got, " "), text)
	}
}
