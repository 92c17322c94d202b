package language

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// parserWords are CEL's own wording and names, which no writer of rules knows.
var parserWords = []string{"overload", "undeclared reference", "Syntax error", "mismatched input", "extraneous input", "no viable alternative",
	"token recognition", "expecting", "<EOF>", "_==_", "!error!", "dyn", "_var", "does not support field selection", "undefined field",
	"reserved identifier", "invalid int literal", "unexpected failed", "no such attribute"}

// checkFaults holds what every fault must be: within the text, told in words,
// and not in CEL's.
func checkFaults(t testing.TB, text string, faults []Fault) {
	t.Helper()
	length := utf8.RuneCountInString(text)
	for _, f := range faults {
		require.True(t, f.Offset >= 0 && f.Width >= 0 && f.Offset <= length && f.Offset+f.Width <= length+1, "%q: %d+%d", text, f.Offset, f.Width)
		require.NotEmpty(t, f.Code, "%q", text)
		require.NotEmpty(t, f.Message, "%q", text)
		require.NotEqual(t, diagnostic.Code("not-ready"), f.Code, "%q: %s", text, f.Message)
		for _, w := range parserWords {
			if !strings.Contains(text, w) {
				require.NotContains(t, f.Message+" "+f.Found+" "+f.Wanted, w, "%q", text)
			}
		}
	}
}

// TestNoParserWords holds it for slips of every sort, made of a good condition
// by taking a sign away, doubling it or putting another in its place.
func TestNoParserWords(t *testing.T) {
	e := testEnv(t)
	tokens := scan(`known(water) && water < inches(3) || !(cbr in [1, 2.5]) && base != panel && net.strength > load * cover`)
	var signs []string
	for _, s := range tokens {
		signs = append(signs, s.text)
	}
	try := func(parts ...[]string) {
		text := strings.Join(slices.Concat(parts...), " ")
		c, faults := e.Condition(text, nil)
		require.Equal(t, c == nil, len(faults) > 0, "%q", text)
		checkFaults(t, text, faults)
	}
	others := []string{"null", "wet", "grid", "length", "[]", "[1, 'a']", "{", "?", "=", "@", "1u", "-", "%", "has(net.note)", "'", ")", "in", ".", "biaxial", "6 in"}
	for i := range signs {
		try(signs[:i], signs[i+1:])
		try(signs[:i], signs[i:i+1], signs[i:])
		for _, other := range others {
			try(signs[:i], []string{other}, signs[i+1:])
		}
	}
}

// FuzzExpression throws any text at the compiler: it must end in an expression
// that comes to a value or an error, or in faults within the text.
func FuzzExpression(f *testing.F) {
	for _, text := range []string{"cbr > 3", "known(water) && water < inches(3)", "base in [panel, sand]", "6 in", "cover > 6\"", "'", "((((", "!!!!", "a.b.c", "known(net.aperture)",
		"r'\\' + '''x'''", "0x1F", "1e999", "wet ? 1 : 2", "{'a': 1}", "x{y: 1}", "[1, 'a']", "label == \"\\u00e9\"", "cbr // x", "größe ≥ 3", "inches(inches(3))", "-(-(-3))",
		"known(\"x\")", "spread(cover, tire) > load", "mean(readings) == 4", ".cbr == 3", "a in b in c", "7 / 2 - zero / zero", "larger(cover, depth) * 2 / time"} {
		f.Add(text)
	}
	e := testEnv(f)
	f.Fuzz(func(t *testing.T, text string) {
		c, faults := e.Condition(text, nil)
		require.Equal(t, c == nil, len(faults) > 0, "%q", text)
		checkFaults(t, text, faults)
		if c != nil {
			for _, clause := range c.Clauses {
				require.True(t, clause.Offset >= 0 && clause.Width > 0 && clause.Offset+clause.Width <= utf8.RuneCountInString(text), "%q", text)
				_, _ = clause.Holds(testFrame(e))
				clause.Comparison()
			}
		}
		x, faults := e.Expression(text, value.NoKind, Given{"water": true, "swell": true})
		require.Equal(t, x == nil, len(faults) > 0, "%q", text)
		checkFaults(t, text, faults)
		if x == nil {
			return
		}
		v, err := x.Eval(testFrame(e))
		if err != nil {
			require.NotContains(t, err.Error(), "no such overload", "%q", text)
			return
		}
		require.Equal(t, x.Kind, v.Kind(), "%q", text)
		_, isFinite := finite(v)
		require.True(t, isFinite, "%q gives %s", text, v.Text(quantity.SI))
	})
}
