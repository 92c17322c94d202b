package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestPromiseFaults holds what a promise cannot say, and what is said of it.
func TestPromiseFaults(t *testing.T) {
	for _, c := range []struct{ name, why, promise, want string }{
		{"nothing", "a promise owes something", "because: told", "a promise says one thing"},
		{"two things", "which of them is owed?", "always: decision_have > inches(0), never: decision_have > inches(9), because: told", "a promise says one thing"},
		{"half of one", "as what moves?", "then: decision_have never falls, because: told", "a promise says one thing"},
		{"no way", "up or down?", "as: decision_have, then: decision_have never falls, because: told", "this does not say which way it goes"},
		{"no never", "it is what it never does that is owed", "as: decision_have falls, then: decision_have falls, because: told", "this does not say which way it goes"},
		{"a term that moves", "a term is only worked out", "as: term_have falls, then: decision_have never falls, because: told", "only an input or a decision moves by itself"},
		{"a misspelt name", "the nearest is told", "as: decision_hav falls, then: decision_have never falls, because: told", `did you mean "decision_have"`},
		{"a word that falls", "words have no order", "as: decision_have falls, then: material_have never falls, because: told", "values of this kind have no order"},
		{"a name that is not there", "in what is owed too", "as: decision_have falls, then: nothing_here never falls, because: told", "no value or word is called nothing_here"},
		{"no because", "as of any other entry", "always: decision_have > inches(0)", `needs the key "because"`},
		{"a name that is taken", "a reason names an entry alone", "promise: RULE-HAVE, always: decision_have > inches(0), because: told", "RULE-HAVE is there already"},
	} {
		t.Run(c.name, func(t *testing.T) {
			line := c.promise
			if !strings.HasPrefix(line, "promise:") {
				line = "promise: NEW, " + line
			}
			_, err := Open(filesOf(map[string]string{"house.yaml": house + "  - {" + line + ", source: practice}\n"}), testSetup())
			require.ErrorContains(t, err, c.want, c.why)
		})
	}
}

// TestLiftedPromise holds that a promise that is taken by permission is told where a
// job breaks it.
func TestLiftedPromise(t *testing.T) {
	const retires = keeper + "retire:\n  - {promise: PROMISE-OTHER, because: gone}\n" + "variances:\n  - {variance: v, retires: PROMISE-OTHER, who: O, why: W., until: 2027-01-01}\n"
	thick := "add:\n  - {rule: NEW, to: decision_have, answer: inches(96), because: told, source: company}\n"
	for _, c := range []struct {
		name, why, more string
		told            bool
	}{
		{"broken", "it would have spoken", thick, true},
		{"kept", "nothing is to be told", "", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(retires, "retire:", "retire:\n  - {refusal: REFUSAL-HAVE, because: gone}\n  - {refusal: REFUSAL-OTHER, because: gone}", 1)
			for _, id := range []string{"REFUSAL-HAVE", "REFUSAL-OTHER"} {
				text += "  - {variance: v" + id + ", retires: " + id + ", who: O, why: W., until: 2027-01-01}\n"
			}
			book, err := openHouse(text + c.more)
			require.NoError(t, err)
			out, err := book.Run(plain(), nil)
			require.NoError(t, err)
			told := false
			for _, l := range out.Lifted() {
				told = told || l.ID == "PROMISE-OTHER"
			}
			require.Equal(t, c.told, told, c.why)
		})
	}
}
