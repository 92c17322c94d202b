package engine

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
)

// guardedBook has a decision and terms that are there only where water is known.
const guardedBook = `chapter: tests
about: What is known guards what is read.
terms:
  high: {is: bool, about: water is near, source: practice, when: known(water), value: water < inches(24), because: told}
  twice: {is: length, about: twice as deep, source: practice, when: known(water) && cbr > 1, value: water * 2, because: told}
decisions:
  drain:
    asks: How deep is the drain?
    answers: length
    take: first
    when: known(water)
    rules:
      - {rule: D1, when: known(high) && high, answer: water, because: "water at {water}", source: practice}
      - {rule: D2, answer: inches(24), because: "below {water}", source: practice}
  base_of:
    asks: Which base?
    answers: base_type
    take: first
    rules:
      - {rule: B1, when: known(drain) && drain < inches(12), answer: open_graded, because: "a drain at {drain}", source: practice}
      - {rule: B2, when: known(twice), answer: panel, because: "twice is {twice}", source: practice}
      - {rule: B3, answer: dense_graded, because: dry, source: practice}
`

func TestKnownOfDecisionsAndTerms(t *testing.T) {
	book := mustOpen(t, guardedBook)
	for _, c := range []struct {
		name, why string
		site      site
		want      string
	}{
		{"no water", "neither is asked, and nothing reads what is not there", plain(), "drain not asked; base_of=dense-graded by B3"},
		{"deep", "both the decision and the term have a value, and each is read", plain().with("water", quantity.Inches(30)), "drain=24 in by D2; base_of=panel by B2"},
		{"high", "a guarded rule of the decision holds, and the next decision reads its answer", plain().with("water", quantity.Inches(6)), "drain=6 in by D1; base_of=open-graded by B1"},
		{"at the surface", "a water table at 0 is known, though Go's zero is the same", plain().with("water", quantity.Length(0)), "drain=0 in by D1; base_of=open-graded by B1"},
		{"soft", "the term's when fails for another reason", plain().with("water", quantity.Inches(30)).with("cbr", 0.5), "drain=24 in by D2; base_of=dense-graded by B3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.site, nil)
			require.NoError(t, err)
			require.Equal(t, c.want, answers(out), c.why)
		})
	}
}

// TestReadsAreGuarded holds that every place where a rulebook reads a value that
// may be missing is refused unless the value is known there.
func TestReadsAreGuarded(t *testing.T) {
	const missing = " may be missing here; found "
	refused := func(place, name string) []string {
		return []string{"a.yaml:" + place + ": " + name + missing + name + "; wanted known(" + name + ") asked before it, as in known(" + name + ") && ..."}
	}
	drain := decision("drain", "length", "first", "known(water)", [3]string{"D1", "", "water"})
	for _, c := range []struct {
		name, why, file string
		want            []string
	}{
		{"condition", "a comparison with nothing has no truth", chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A1", "water > inches(3)", "1"}))), refused("9:81", "water")},
		{"answer", "the rule's own when guards its answer", chapterOf(decisions(decision("a", "length", "first", "", [3]string{"A1", "known(water)", "water"}))), nil},
		{"answer without", "a condition on something else guards nothing", chapterOf(decisions(decision("a", "length", "first", "", [3]string{"A1", "wet", "water"}))), refused("9:29", "water")},
		{"answer by another rule's when", "the rule before may not have held", chapterOf(decisions(decision("a", "length", "first", "",
			[3]string{"A1", "known(water)", "water"}, [3]string{"A2", "", "water"}))), refused("10:29", "water")},
		{"decision's when", "guards all its rules", chapterOf(decisions(drain)), nil},
		{"decision's own when", "is not guarded by itself", chapterOf(decisions(decision("drain", "length", "first", "water > inches(3)", [3]string{"D1", "", "water"}))),
			append(refused("8:12", "water"), refused("10:29", "water")...)},
		{"decision that may not be asked", "a decision with a when of its own can be missing too", chapterOf(decisions(drain, decision("a", "length", "first", "", [3]string{"A1", "", "drain"}))), refused("16:29", "drain")},
		{"known of a decision always asked", "a question with one answer is a slip of whoever wrote it", chapterOf(decisions(decision("a", "length", "first", "", [3]string{"A1", "", "inches(3)"}),
			decision("b", "length", "first", "", [3]string{"B1", "known(a)", "a"}))),
			[]string{"a.yaml:15:87: a always has a value; wanted a condition without known(a)"}},
		{"known decision is no known water", "to know the drain is not to know the water", chapterOf(decisions(drain,
			decision("a", "length", "first", "known(drain)", [3]string{"A1", "", "water"}))), refused("17:29", "water")},
		{"term", "a term is worked out on every job unless it says otherwise", chapterOf(terms([4]string{"high", "bool", "", "water > inches(3)"})), refused("4:61", "water")},
		{"term with when", "its when is asked first", chapterOf(terms([4]string{"high", "bool", "known(water)", "water > inches(3)"})), nil},
		{"term that may be missing", "what hangs on a missing input may be missing as well", chapterOf(terms([4]string{"high", "bool", "known(water)", "water > inches(3)"}, [4]string{"low", "bool", "", "!high"})), refused("5:61", "high")},
		{"check", "the value and both sentences are looked at, each at its own place", chapterOf("checks:\n  - {check: C1, asks: deep enough, failing: stop, value: water, at_least: inches(3), says: 'at {water}', because: 'at {water}', source: practice}\n"),
			append(append(refused("4:58", "water"), refused("4:97", "water")...), refused("4:120", "water")...)},
		{"check with when", "one guard serves the value and both sentences", chapterOf("checks:\n  - {check: C1, asks: deep enough, failing: stop, when: known(water), value: water, at_least: inches(3), says: 'at {water}', because: 'at {water}', source: practice}\n"), nil},
		{"caution", "a sentence would have a hole in it", chapterOf("cautions:\n  - {caution: C1, when: wet, says: 'at {water}', source: practice}\n"), refused("4:41", "water")},
		{"refusal", "water is guarded here, and swell is not", chapterOf("refusals:\n  - {refusal: R1, when: wet && known(water), says: 'at {water}', who: 'whoever knows {soil.swell}', source: practice}\n"), refused("4:87", "soil.swell")},
		{"course", "an attribute reads its decision",
			chapterOf(decisions(drain), "courses:\n  - {course: c, label: C, is: stone, because: b, source: practice, attributes: {depth: drain}}\n"),
			[]string{"a.yaml:12:88: drain may be missing here; found drain; wanted known(drain) in the course's when"}},
		{"course with when", "one guard serves the sentence and the attribute", chapterOf(decisions(drain), "courses:\n  - {course: c, label: C, is: stone, when: known(drain), because: 'at {drain}', source: practice, attributes: {depth: drain}}\n"), nil},
		{"optional property", "a.aperture is guarded by known, and that of another material is not", chapterOf(decisions(decision("a", "net", "first", "", [3]string{"A1", "", "light_net"}),
			decision("b", "length", "first", "", [3]string{"B1", "known(a.aperture)", "a.aperture"}, [3]string{"B2", "", "heavy_net.aperture"}))), refused("16:29", "heavy_net.aperture")},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, faultsOf(t, c.file)), c.why)
		})
	}
}

// TestOptionalProperties holds that a property that a material lacks is missing,
// and never a zero.
func TestOptionalProperties(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(
		decision("net_of", "net", "first", "", [3]string{"N1", "wet", "heavy_net"}, [3]string{"N2", "", "light_net"}),
		decision("rib", "length", "first", "", [3]string{"R1", "known(net_of.aperture)", "net_of.aperture"}, [3]string{"R2", "", "inches(1)"}))))
	for _, c := range []struct {
		name, why string
		site      site
		want      string
	}{
		{"with it", "known asks the material that was chosen", plain(), "net_of=heavy net by N1; rib=1-3/8 in by R1"},
		{"without it", "an aperture of 0 would be a closed sheet", plain().with("wet", false), "net_of=light net by N2; rib=1 in by R2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := book.Run(c.site, nil)
			require.NoError(t, err)
			require.Equal(t, c.want, answers(out), c.why)
		})
	}
}
