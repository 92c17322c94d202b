package engine

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// TestAbsorbed holds that an error on one side of && or || which the other side
// settles does not decide, and is shown. In CEL it is gone.
func TestAbsorbed(t *testing.T) {
	const byZero = ": arithmetic without a result: division by zero (with zero = 0)"
	at := func(place, text string) string { return "a.yaml:" + place + ": a, rule A: " + text + byZero }
	for _, c := range []struct {
		name, why, when string
		want            string
		absorbed        []string
		err             string
	}{
		{"or, error first", "it was worked out before wet settled the matter", "1 / zero > 3 || wet", "a=1 by A", []string{at("9:80", "1 / zero > 3")}, ""},
		{"or, error second", "it was not asked: nothing was absorbed", "wet || 1 / zero > 3", "a=1 by A", nil, ""},
		{"and, error first", "one clause that fails settles an && whatever the other came to", "1 / zero > 3 && !wet", "a=2 by B", []string{at("9:80", "1 / zero > 3")}, ""},
		{"and, error second", "an && that has failed asks nothing further", "!wet && 1 / zero > 3", "a=2 by B", nil, ""},
		{"or, not settled", "the other side does not hold", "1 / zero > 3 || !wet", "", nil, at("9:80", "1 / zero > 3")},
		{"and, not settled", "wet holds, so all hangs on what came to an error", "1 / zero > 3 && wet", "", nil, at("9:80", "1 / zero > 3")},
		{"two errors", "each is told: neither decided the matter", "1 / zero > 3 || 2 / zero > 3 || wet", "a=1 by A", []string{at("9:80", "1 / zero > 3"), at("9:96", "2 / zero > 3")}, ""},
		{"negated", "! does not make an error of it a yes", "!(1 / zero > 3) || wet", "a=1 by A", []string{at("9:82", "1 / zero > 3")}, ""},
		{"nested", "settled further out", "(1 / zero > 3 && wet) || wet", "a=1 by A", []string{at("9:81", "1 / zero > 3")}, ""},
		{"the same twice", "once is enough", "(1 / zero > 3 || wet) && (1 / zero > 3 || wet)", "a=1 by A",
			[]string{at("9:81", "1 / zero > 3")}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			out, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", c.when, "1"}, [3]string{"B", "", "2"})))).Run(plain(), nil)
			if c.err != "" {
				require.EqualError(t, err, c.err, c.why)
				return
			}
			require.NoError(t, err)
			require.Equal(t, c.want, answers(out), c.why)
			var absorbed []string
			for _, e := range out.Absorbed {
				var at *rulebook.RunError
				require.ErrorAs(t, e, &at)
				absorbed = append(absorbed, e.Error())
			}
			require.Empty(t, cmp.Diff(c.absorbed, absorbed), c.why)
		})
	}
}

// TestAbsorbedOnce holds that a clause that two rules share is worked out once,
// and that an error of it is told for whoever met it.
func TestAbsorbedOnce(t *testing.T) {
	out, err := mustOpen(t, chapterOf(decisions(
		decision("a", "number", "first", "", [3]string{"A", "1 / zero > 3 || wet", "1"}),
		decision("b", "number", "first", "", [3]string{"B", "wet && (1 / zero > 3 || wet)", "1"})))).Run(plain(), nil)
	require.NoError(t, err)
	require.Len(t, out.Absorbed, 2, "in a and in b, each at its own place")
	require.Contains(t, out.Absorbed[0].Error(), "a.yaml:9:80: a, rule A")
	require.Contains(t, out.Absorbed[1].Error(), "a.yaml:15:88: b, rule B")
}

// TestAbsorbedByRefusal holds that an error beside a refusal is told, though
// nothing else of a refused job is.
func TestAbsorbedByRefusal(t *testing.T) {
	out, err := mustOpen(t, chapterOf("refusals:\n  - {refusal: R, when: 1 / zero > 3 || wet, says: s, who: w, source: practice}\n")).Run(plain(), nil)
	require.NoError(t, err)
	require.Len(t, out.Refusals, 1)
	require.Len(t, out.Absorbed, 1)
	require.ErrorContains(t, out.Absorbed[0], "refusal R: 1 / zero > 3")
}

// TestSiteOfAnotherKind holds that what a site gives is checked before it is
// used: CEL takes any value for any name.
func TestSiteOfAnotherKind(t *testing.T) {
	book := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", "cbr > 2 && (!known(water) || water > inches(3))", "cbr"}, [3]string{"B", "", "2"}))))
	for _, c := range []struct {
		name, why string
		site      site
		want      string
		is        error
	}{
		{"a whole number", "Go's int is no kind of the library", plain().with("cbr", 3), "a Go value of type int cannot stand in a rule", ErrInput},
		{"a text", "a number in quotes is not taken for a number", plain().with("cbr", "3"), "cbr is text, declared as number", ErrInput},
		{"a bare number for a length", "the classic error again, from Go", plain().with("water", 6.0), "water is number, declared as length", ErrInput},
		{"another dimension", "both are quantities in Go, and only the dimension tells them apart", plain().with("water", quantity.PSI(3)), "water is pressure, declared as length", ErrInput},
		{"a small float", "a float32 would be 0.10000000149", plain().with("cbr", float32(0.1)), "a Go value of type float32 cannot stand in a rule", ErrInput},
		{"nothing", "a nil pointer in CEL reads as 0", plain().with("cbr", (*float64)(nil)), "a Go value of type *float64 cannot stand in a rule", ErrInput},
		{"required, not given", "only an input that may be missing can be guarded by known", site{"wet": true, "zero": 0.0}, "the site does not tell cbr", rulebook.ErrMissing},
		{"no number", "every comparison with it would be false without a word", plain().with("cbr", math.NaN()), "cbr is NaN: value is not a finite number", quantity.ErrNotFinite},
		{"infinite", "+Inf is more than any limit", plain().with("water", quantity.Length(math.Inf(1))), "water is +Inf: value is not a finite number", quantity.ErrNotFinite},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := book.Run(c.site, nil)
			require.ErrorIs(t, err, c.is, c.why)
			require.ErrorContains(t, err, c.want)
			var at *rulebook.RunError
			require.ErrorAs(t, err, &at)
			require.Equal(t, "a.yaml", at.Place.File)
		})
	}
}

// TestFaultyCalculation holds that a calculation that panics is told as an error.
func TestFaultyCalculation(t *testing.T) {
	_, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "", [3]string{"A", "", "panics(cbr)"})))).Run(plain(), nil)
	require.EqualError(t, err, "a.yaml:9:27: a, rule A: panics(cbr): panics(3): a calculation is at fault: a fault of its own (with cbr = 3)")
}
