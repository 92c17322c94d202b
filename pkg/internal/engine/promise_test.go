package engine

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
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

// TestPromisesOfJobs holds which jobs break a promise, and what is compared by one that
// speaks of two jobs.
func TestPromisesOfJobs(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(decision("depth", "length", "first", "", [3]string{"D1", "cbr < 5", "inches(8)"}, [3]string{"D2", "", "inches(4)"})),
		"promises:\n"+
			"  - {promise: KEEPS, when: wet, always: depth > inches(5), because: told, source: practice}\n"+
			"  - {promise: AVOIDS, never: depth > inches(5), because: told, source: practice}\n"+
			"  - {promise: FOLLOWS, when: wet, as: cbr rises, then: depth never rises, because: told, source: practice}\n"+
			"  - {promise: BACK, as: depth falls, then: cbr never falls, because: told, source: practice}\n"))
	promises := book.Promises()
	for i, want := range []struct {
		id, as, then      string
		rises, neverRises bool
	}{{"KEEPS", "", "", false, false}, {"AVOIDS", "", "", false, false}, {"FOLLOWS", "cbr", "depth", true, true}, {"BACK", "depth", "cbr", false, false}} {
		as, rises := promises[i].As()
		require.Equal(t, want.id, promises[i].ID, "in the order of the file")
		require.Equal(t, want.as, as, want.id)
		require.Equal(t, want.rises, rises, want.id)
		if want.then != "" {
			f, neverRises := book.Then(promises[i])
			require.Equal(t, []string{want.then}, f.Names(), want.id)
			require.Equal(t, want.neverRises, neverRises, want.id)
		}
	}
	for _, c := range []struct {
		name, why string
		job       site
		breaks    []string
		reach     string // of FOLLOWS, "" for none
	}{
		{"soft and wet", "8 in is over 5 in", plain(), []string{"AVOIDS"}, "8 in"},
		{"firm and wet", "4 in is not over 5 in", plain().with("cbr", 5.0), []string{"KEEPS"}, "4 in"},
		{"firm and dry", "what is owed on wet ground is not owed here", plain().with("cbr", 5.0).with("wet", false), nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.job, nil)
			require.NoError(t, err)
			var broken []string
			for _, p := range promises {
				breaks, err := out.Breaks(p)
				require.NoError(t, err)
				if breaks {
					broken = append(broken, p.ID)
				}
			}
			require.Equal(t, c.breaks, broken, c.why)
			v, ok := out.Reach(promises[2])
			require.Equal(t, c.reach != "", ok, c.why)
			if ok {
				require.Equal(t, c.reach, v.Text(quantity.US), c.why)
			}
		})
	}
}
