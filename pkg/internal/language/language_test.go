package language

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// TestBuildRefuses holds what cannot be declared.
func TestBuildRefuses(t *testing.T) {
	for _, c := range []struct {
		name, why string
		declare   func(b *Declarations)
		want      string
		is        error
	}{
		{"vocabulary called length", "its words would be compared with lengths", func(b *Declarations) { b.vocabulary("length", words("length", "long"), nil) },
			`the name of a kind is taken: no vocabulary, material or object can be called "length"`, ErrKindTaken},
		{"vocabulary called number", "every rulebook has numbers, though none declares them", func(b *Declarations) { b.vocabulary("number", words("number", "one"), nil) },
			`the name of a kind is taken: no vocabulary, material or object can be called "number"`, ErrKindTaken},
		{"vocabulary called as in CEL", "it would be read as a text", func(b *Declarations) { b.vocabulary("string", words("string", "twine"), nil) },
			`the name of a kind is taken: no vocabulary, material or object can be called "string"`, ErrKindTaken},
		{"object called bool", "objects of calculations take no name of a kind either", func(b *Declarations) { b.Objects = append(b.Objects, "bool") }, `the name of a kind is taken: no vocabulary, material or object can be called "bool"`, ErrKindTaken},
		{"name of no kind", "a slip in a kind would leave the name without operators", func(b *Declarations) { b.Names = append(b.Names, Name{Name: "x", Kind: "lenght"}) }, `name x: "lenght" is not a kind of value`, nil},
		{"function twice", "which of the two a rule calls would be chance", func(b *Declarations) {
			b.Functions = append(b.Functions, testFunctions()[0])
			b.Functions = append(b.Functions, testFunctions()[0])
		}, "calculation is not described as it is written: the name modulus is taken", calculation.ErrShape},
		{"function without a source", "a calculation is held to its description when it is declared", func(b *Declarations) {
			f := testFunctions()[0]
			f.Sources = nil
			b.Functions = append(b.Functions, f)
		}, "calculation is not described as it is written: modulus: no source", calculation.ErrShape},
		{"function called as a unit", "a rule would lose its way to write a length", func(b *Declarations) {
			f := testFunctions()[0]
			f.Name = "inches"
			b.Functions = append(b.Functions, f)
		}, "calculation is not described as it is written: the name inches is taken", calculation.ErrShape},
		{"function called known", "every guard would be read as a call of it", func(b *Declarations) { f := testFunctions()[0]; f.Name = "known"; b.Functions = append(b.Functions, f) }, "calculation is not described as it is written: the name known is taken", calculation.ErrShape},
		{"result that nobody declared", "nor could one be handed on", func(b *Declarations) {
			b.Functions = append(b.Functions, testFunctions()[slices.IndexFunc(testFunctions(), func(f calculation.Function) bool { return f.Name == "wheel_of" })])
		}, `wheel_of, result: "wheel" is not a kind of value`, nil},
		{"object that nobody declared", "a value of that kind could never be made", func(b *Declarations) { b.Functions = append(b.Functions, testFunctions()[3]) }, `spread, argument wheel: "wheel" is not a kind of value`, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := &Declarations{}
			c.declare(b)
			_, err := New(*b)
			require.EqualError(t, err, c.want, c.why)
			if c.is != nil {
				require.ErrorIs(t, err, c.is)
			}
		})
	}
}

// TestDescriptions holds that every function is described, and that its example
// can be tried where it needs no names.
func TestDescriptions(t *testing.T) {
	e := testEnv(t)
	seen := map[string]bool{}
	for _, d := range e.Functions() {
		require.False(t, seen[d.Name], d.Name)
		seen[d.Name] = true
		require.NotEmpty(t, d.Signatures, d.Name)
		require.NotEmpty(t, d.About, d.Name)
		if d.Function == nil && d.Name != "known" {
			x, faults := e.Expression(d.Example, value.NoKind, nil)
			require.Empty(t, faults, d.Example)
			_, err := x.Eval(testFrame(e))
			require.NoError(t, err, d.Example)
		}
	}
	for _, u := range quantity.Units() {
		require.True(t, seen[u.Builder], u.Builder)
	}
}

// TestWordLookup holds by which names a word is found.
func TestWordLookup(t *testing.T) {
	e := testEnv(t)
	for _, label := range []string{"open_graded", "open graded"} {
		w, ok := e.WordLabeled("base_type", label)
		require.True(t, ok, label)
		require.Equal(t, "open_graded", w.Name)
	}
	_, ok := e.WordLabeled("grid", "open_graded")
	require.False(t, ok, "a word is of one vocabulary")
	n, ok := e.NameOf("water")
	require.True(t, ok && n.MayLack)
}
