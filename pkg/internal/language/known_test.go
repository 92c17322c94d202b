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
		{"and", "the plain guard, as everyone writes it", "known(water) && water > inches(3)", nil, nil},
		{"and, turned", "asked in the order of the text", "water > inches(3) && known(water)", nil, []string{"water"}},
		{"and, later", "what stands between does not undo the guard", "known(water) && wet && water > inches(3)", nil, nil},
		{"and, of another", "a guard counts for the name in it alone", "known(swell) && water > inches(3)", nil, []string{"water"}},
		{"or", "where known fails the right side is asked", "known(water) || water > inches(3)", nil, []string{"water"}},
		{"or of not", "the right side is asked only where it is known", "!known(water) || water > inches(3)", nil, nil},
		{"not of and", "it may have failed for wet", "!(known(water) && wet) && water > inches(3)", nil, []string{"water"}},
		{"not of or", "both failed", "!(!known(water) || wet) && water > inches(3)", nil, nil},
		{"not not", "two denials are none", "!!known(water) && water > inches(3)", nil, nil},
		{"either side", "known on both sides of ||", "(known(water) && wet || known(water) && cbr < 3) && water > inches(3)", nil, nil},
		{"one side", "the other side may have held while it was missing", "(known(water) || wet) && water > inches(3)", nil, []string{"water"}},
		{"a read is no guard", "it says nothing of later", "known(water) && water > inches(3) || water < inches(9)", nil, []string{"water"}},
		{"two", "guards add up", "known(water) && known(swell) && water > inches(3) && swell > 2", nil, nil},
		{"chain", "a balanced chain of && is still asked from the left", "known(water) && wet && wet && wet && wet && wet && water > inches(3)", nil, nil},
		{"in a call", "a function's argument is read as well", "larger(water, cover) > cover", nil, []string{"water"}},
		{"in a list", "an item of a list is read as well", "cover in [water]", nil, []string{"water"}},
		{"given", "by the when of the decision", "water > inches(3)", []string{"water"}, nil},
		{"given, not of all", "the decision's when settles one name, not every other", "water > inches(3) && swell > 2", []string{"water"}, []string{"swell"}},
		{"in a group", "a dotted name may be missing like any other", "old.base == panel", nil, []string{"old.base"}},
		{"in a group, guarded", "known takes the whole dotted name", "known(old.base) && old.base == panel", nil, nil},
		{"property", "an optional property of a material is a value that may be missing", "net.aperture > inches(1)", nil, []string{"net.aperture"}},
		{"property, guarded", "known can ask for a property of a name's product", "known(net.aperture) && net.aperture > inches(1)", nil, nil},
		{"property of a word", "a product named outright may lack the property too", "heavy_net.aperture > inches(1)", nil, []string{"heavy_net.aperture"}},
		{"property of a word, guarded", "and known can ask for that", "known(heavy_net.aperture) && heavy_net.aperture > inches(1)", nil, nil},
		{"property of another", "that one product has it says nothing of the next", "known(light_net.aperture) && heavy_net.aperture > inches(1)", nil, []string{"heavy_net.aperture"}},
		{"needed property", "every one has it", "net.strength > kn_per_m(10)", nil, nil},
		{"of what may be missing", "the material itself must be there first", "spare.strength > kn_per_m(10)", nil, []string{"spare"}},
		{"of what may be missing, asked", "even to ask for a property of it", "known(spare.aperture)", nil, []string{"spare"}},
		{"of what may be missing, guarded", "first the material, then its property", "known(spare) && known(spare.aperture) && spare.aperture > inches(1)", nil, nil},
		{"both missing", "each of the two guards that are needed is told", "spare.aperture > inches(1)", nil, []string{"spare.aperture", "spare"}},
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

// TestGuardsOfAnExpression holds that an expression, which cannot ask, reads what
// may be missing only where it is given.
func TestGuardsOfAnExpression(t *testing.T) {
	e := testEnv(t)
	x, faults := e.Expression("water + cover", "length", nil)
	require.Nil(t, x)
	require.Empty(t, cmp.Diff([]string{unguarded("water")}, allWritten("water + cover", faults)))
	_, faults = e.Expression("water + cover", "length", Given{"water": true})
	require.Empty(t, faults)
}

func TestKnownOfWhat(t *testing.T) {
	checkConditions(t, []faultCase{
		{"always known", "it would say nothing", "known(cbr)", []string{"[cbr] always-known: cbr always has a value; wanted a condition without known(cbr)"}},
		{"needed property", "the kind of material says that every product has it", "known(net.strength)", []string{"[net.strength] always-known: net.strength always has a value; wanted a condition without known(net.strength)"}},
		{"word", "a word is what values are compared with, not a value", "known(panel)", []string{"[panel] always-known: panel is a word of base_type, and words are always there; wanted the name of a value that may be missing"}},
		{"unknown", "the nearest is sought among the names that may be missing", "known(watr)", []string{"[watr] unknown-name: no value is called watr; found watr; wanted the name of a value that may be missing; nearest water"}},
		{"unknown in a group", "the dotted name is compared as a whole", "known(old.bas)", []string{"[old.bas] unknown-name: no value is called old.bas; found old.bas; wanted the name of a value that may be missing; nearest old.base"}},
		{"unknown property", "the properties of the kind are listed", "known(net.apertur)", []string{"[apertur] unknown-property: net is a word of grid_product, which has no property called apertur; found apertur; wanted one of aperture, note, strength; nearest aperture"}},
		{"an expression", "whether a comparison is known is not a question", "known(cbr > 3)", []string{"[cbr > 3] known-of-nothing: known takes the name of a value; wanted known(name)"}},
		{"nothing", "the call is marked, as there is no argument", "known()", []string{"[known()] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"two", "known of both would hide which one is missing", "known(water, swell)", []string{"[known(water, swell)] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"behind a dot", "CEL allows a call to be written so", "water.known()", []string{"[water.known()] known-of-nothing: known takes the name of one value that may be missing; wanted known(name)"}},
		{"alone", "without brackets it would be a value", "known", []string{"[known] function-as-value: known is a function, not a value; found known; wanted known(name) bool"}},
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
		{"missing", "the plain answer of no", "known(water)", false},
		{"zero", "CEL's has() is false of a zero", "known(swell)", true},
		{"property there", "of the product that the name has", "known(net.aperture)", true},
		{"property not there", "of a product named outright", "known(light_net.aperture)", false},
		{"property of a word there", "a text is there as well as a quantity is", "known(heavy_net.note)", true},
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
