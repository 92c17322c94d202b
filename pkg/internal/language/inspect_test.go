package language

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/value"
)

func TestIsName(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		want            bool
	}{
		{"plain", "letters, digits and the low line", "cover_2", true},
		{"capital", "capitals are letters", "Cover", true},
		{"in a group", "each part is a name", "soil.cbr", true},
		{"nothing", "an empty text names nothing", "", false},
		{"digit first", "it would begin a number", "2_cover", false},
		{"space", "it would be two names", "soil cbr", false},
		{"empty part", "two dots name nothing between them", "soil..cbr", false},
		{"reserved", "CEL does not read it as a name", "package", false},
		{"reserved part", "nor as a part of one", "soil.package", false},
		{"true", "it is a value", "true", false},
		{"in", "it is an operator", "in", false},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, IsName(c.text), c.why) })
	}
}

func TestIsTaken(t *testing.T) {
	for _, c := range []struct {
		name, why string
		kind      value.Kind
		want      bool
	}{
		{"dimension", "its values are quantities", "line_strength", true},
		{"number", "every language has it", value.NumberKind, true},
		{"text", "every language has it", value.TextKind, true},
		{"CEL's own", "CEL would take it for its type", "timestamp", true},
		{"none", "a kind has a name", value.NoKind, true},
		{"ratio", "a plain ratio is a number, and no kind of its own", "ratio", false},
		{"another", "a rulebook may declare it", "base_type", false},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, IsTaken(c.kind), c.why) })
	}
}

func TestIsJoined(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct {
		name, why, text string
		want            bool
	}{
		{"and", "two clauses", "wet && wet", true},
		{"or", "two clauses", "wet || wet", true},
		{"not", "a clause denied is no clause", "!wet", true},
		{"one clause", "nothing joins it", "cbr < 3", false},
		{"a name", "it is read as it is", "wet", false},
		{"joined within", "only what joins all of it counts", "wet == (wet && wet)", false},
		{"broken", "what cannot be read is told elsewhere", "wet &&", false},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, e.IsJoined(c.text), c.why) })
	}
}

// TestListings holds what a language tells of itself, in which order, and that
// what it hands out is a copy.
func TestListings(t *testing.T) {
	e := testEnv(t)
	require.Empty(t, cmp.Diff([]value.Kind{"base_type", "grid", "grid_product", "sand"}, e.Vocabularies()))
	var properties []string
	for _, p := range e.Properties("grid_product") {
		properties = append(properties, p.Name+" "+string(p.Kind))
	}
	require.Empty(t, cmp.Diff([]string{"aperture length", "note text", "strength line_strength"}, properties))
	require.Empty(t, e.Properties("grid"), "a plain vocabulary has none")

	words := e.Words("grid")
	require.Empty(t, cmp.Diff([]string{"no_grid", "biaxial", "multiaxial"}, wordNames(words)))
	words[0] = nil
	require.NotNil(t, e.Words("grid")[0])
	_, ok := e.NameOf("nobody")
	require.False(t, ok)
}

// TestListed holds that a list in a message ends.
func TestListed(t *testing.T) {
	names := strings.Fields("a b c d e f g h")
	require.Equal(t, "a, b, c, d, e, f, g, h", Listed(names))
	names = append(names, "i")
	require.Equal(t, "a, b, c, d, e, f, g, h, ...", Listed(names))
	require.Equal(t, "i", names[8], "the list is left as it was")
}

// TestValueOfAName holds that a value is asked for where no expression has read it.
func TestValueOfAName(t *testing.T) {
	e := testEnv(t)
	v, err := testFrame(e).Value("cbr")
	require.NoError(t, err)
	require.Equal(t, value.Number(3), v)
	_, err = testFrame(e).Value("spare")
	require.EqualError(t, err, "spare is missing")
}

// TestBriefFrame holds that a frame for one expression answers as one for a
// whole design, and asks for each name once too.
func TestBriefFrame(t *testing.T) {
	e := testEnv(t)
	asked := map[string]int{}
	values := testValues(e)
	frame := e.NewBriefFrame(func(name string) (value.Value, error) { asked[name]++; return values[name], nil },
		func(name string) (bool, error) { return name == "water", nil })
	for text, want := range map[string]bool{"cbr == 3": true, "cbr > 3": false, "known(water)": true, "known(swell)": false} {
		c, faults := e.Condition(text, nil)
		require.Empty(t, faults, text)
		got, err := c.Clauses[0].Holds(frame)
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	v, err := frame.Value("cbr")
	require.NoError(t, err)
	require.Equal(t, value.Number(3), v)
	require.Equal(t, map[string]int{"cbr": 1}, asked)
}

// TestFollow holds that a frame that follows another has its values, and asks again for
// those alone that it is told to forget.
func TestFollow(t *testing.T) {
	e := testEnv(t)
	known := func(string) (bool, error) { return true, nil }
	asked := ""
	of := func(cbr float64) func(string) (value.Value, error) {
		return func(name string) (value.Value, error) {
			asked += fmt.Sprintf("%s %g; ", name, cbr)
			return map[string]value.Value{"cbr": value.Number(cbr), "zero": value.Number(0), "soil.cbr": value.Number(cbr)}[name], nil
		}
	}
	read := func(f *Frame, names ...string) (got []string) {
		for _, name := range names {
			v, err := f.Value(name)
			require.NoError(t, err)
			got = append(got, v.String())
		}
		return got
	}
	first := e.NewFrame(of(3), known)
	require.Equal(t, []string{"3", "0"}, read(first, "cbr", "zero"))

	second := e.NewFrame(of(4), known)
	second.Follow(first)
	require.Equal(t, []bool{true, true, false}, []bool{second.Has("cbr"), second.Has("zero"), second.Has("soil.cbr")})
	second.Forget("cbr")
	require.Equal(t, []bool{false, true}, []bool{second.Has("cbr"), second.Has("zero")})
	require.Equal(t, []string{"4", "0", "4"}, read(second, "cbr", "zero", "soil.cbr"))

	third := e.NewFrame(of(5), known)
	third.Follow(second)
	third.Forget("soil.cbr")
	require.Equal(t, []string{"4", "0", "5"}, read(third, "cbr", "zero", "soil.cbr"), "what the second asked anew is taken over too")
	require.Equal(t, []string{"3", "0", "3"}, read(first, "cbr", "zero", "soil.cbr"), "the first is not touched")
	require.Equal(t, []string{"4", "4"}, read(second, "cbr", "soil.cbr"), "nor the second")
	require.Equal(t, "cbr 3; zero 3; cbr 4; soil.cbr 4; soil.cbr 5; soil.cbr 3; ", asked, "nothing else is asked for twice")
}

// sketch writes an outline in one line.
func sketch(o *Outline) string {
	if o == nil {
		return "none"
	}
	var parts []string
	for _, p := range o.Parts {
		parts = append(parts, sketch(p))
	}
	of := "(" + strings.Join(parts, ", ") + ")"
	switch {
	case !o.Value.IsZero():
		return o.Value.String()
	case o.Name != "":
		return "$" + o.Name
	case o.Property != "":
		return "." + o.Property + of
	case o.Call != "":
		return o.Call + of
	}
	return "[" + o.Op + "]" + of
}

// TestOutline holds how expressions are taken apart, and which names they read.
func TestOutline(t *testing.T) {
	e := testEnv(t)
	for _, c := range []struct{ name, why, text, want, reads string }{
		{"name", "a value of the job", "soil.cbr", "$soil.cbr", "soil.cbr"},
		{"word", "a value that is written out", "base == panel", "[==]($base, panel)", "base"},
		{"property", "of what has it", "net.strength > kn_per_m(20)", "[>](.strength($net), 1,370 lb/ft)", "net net.strength"},
		{"number with a unit", "a value that is written out", "cover > inches(6)", "[>]($cover, 6 in)", "cover"},
		{"number with a unit of a sum", "it is worked out", "cover > inches(2 + 4)", "[>]($cover, inches([+](2, 4)))", "cover"},
		{"negative number", "a value that is written out", "cbr > -3", "[>]($cbr, -3)", "cbr"},
		{"negative of a name", "it is worked out", "-cbr < 3", "[<]([-]($cbr), 3)", "cbr"},
		{"call", "with its arguments", "larger(cbr, 3) > 2", "[>](larger($cbr, 3), 2)", "cbr"},
		{"known", "a name in a call", "known(water)", "known($water)", "water"},
		{"list", "its items", "cbr in [1, 2]", "[in]($cbr, [](1, 2))", "cbr"},
		{"text", "a value that is written out", "label == 'north'", "[==]($label, north)", "label"},
		{"no expression", "there is nothing to tell", "cbr >", "none", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := e.Outline(c.text)
			require.Equal(t, c.want, sketch(o), c.why)
			if o != nil {
				require.Equal(t, c.reads, strings.Join(o.Names(nil), " "))
			}
		})
	}
}
