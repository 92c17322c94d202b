package printed

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestDenied(t *testing.T) {
	for _, c := range []struct{ name, why, clause, want string }{
		{"to be", "the usual case", "the soil is wet", "the soil is not wet"},
		{"several", "the verb follows the noun", "soft spots are dug out", "soft spots are not dug out"},
		{"there is", "not is not said of what there is", "there is a drain", "there is no drain"},
		{"any", "not any is none", "any truck uses it", "no truck uses it"},
		{"one of many", "that one is not far below would leave room for another that is", "a reading is far below the others", "no reading is far below the others"},
		{"all", "not all is said before the word", "all fill is dug out", "not all fill is dug out"},
		{"may", "permission is denied by not", "rain may soak in", "rain may not soak in"},
		{"must", "must not would forbid it", "rain must go", "rain need not go"},
		{"a later verb", "the verb of a clause within is not the one to deny", "fill was found that is loose", "fill was not found that is loose"},
		{"of it", "what a property says begins with its verb", "it carries trucks", "it does not carry trucks"},
		{"of it, with es", "the ending goes with the s", "it reaches far", "it does not reach far"},
		{"of it, to be", "is has its own way", "it is rock", "it is not rock"},
		{"no verb that is known", "nothing is guessed", "water goes through", "it is not so that water goes through"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, denied(c.clause), c.why) })
	}
}

func TestAre(t *testing.T) {
	for _, c := range []struct {
		name, why, noun string
		want            bool
	}{
		{"several", "the usual ending", "the CBR readings", true},
		{"one", "the usual noun", "the soil class", false},
		{"of several", "the head of the noun counts", "the least of the readings", false},
		{"several of one", "the head of the noun counts", "the voids of the stone", true},
		{"with a relative clause", "what follows is not the noun", "the readings that count", true},
		{"one that ends in s", "thickness is one", "the paver thickness", false},
		{"with a unit behind", "a comma ends the noun", "the readings, each in percent", true},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, are(c.noun), c.why) })
	}
}
