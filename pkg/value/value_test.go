package value_test

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

var biaxial = &value.Word{Vocabulary: "grid_type", Name: "biaxial_grid", Label: "biaxial geogrid", Go: "biaxial_grid"}

func TestText(t *testing.T) {
	cases := []struct {
		name, why string
		v         value.Value
		us, si    string
	}{
		{"none", "no value is told as none", value.Value{}, "nothing", "nothing"},
		{"whole", "a whole number has no point", value.Number(8), "8", "8"},
		{"thousands", "grouped as the trade writes them", value.Number(1250000), "1,250,000", "1,250,000"},
		{"negative thousands", "the sign stays in front", value.Number(-1250), "-1,250", "-1,250"},
		{"four figures", "what is measured has no more", value.Number(2.59874), "2.599", "2.599"},
		{"large", "no power of ten in a sheet", value.Number(123456.7), "123,457", "123,457"},
		{"tiny", "nor lost to zero", value.Number(0.0000123), "0.0000123", "0.0000123"},
		{"four digits", "grouped like any other, as quantities are", value.Number(6476.01), "6,476", "6,476"},
		{"yes", "a yes or no in words", value.Bool(true), "yes", "yes"},
		{"length", "in either system", value.Measured(quantity.Inches(6)), "6 in", "152.4 mm"},
		{"ratio", "a ratio is a number", value.Measured(quantity.Quantity{Dim: quantity.DimRatio, SI: 0.5}), "0.5", "0.5"},
		{"word", "its label", value.OfWord(biaxial), "biaxial geogrid", "biaxial geogrid"},
		{"list", "joined", value.List(value.NumberKind, []value.Value{value.Number(1), value.Number(2)}), "1, 2", "1, 2"},
		{"empty list", "told as none", value.List(value.NumberKind, nil), "none", "none"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.us, c.v.Text(quantity.US), c.why)
			require.Equal(t, c.si, c.v.Text(quantity.SI), c.why)
		})
	}
}

func TestString(t *testing.T) {
	require.Equal(t, "6 in, 8, biaxial geogrid, nothing", fmt.Sprintf("%v, %s, %v, %v",
		value.Measured(quantity.Inches(6)), value.Number(8), value.OfWord(biaxial), value.Value{}), "no log shows how a value is held")
}

// TestBriefOfMany holds that a number of more figures than a whole number of 32 bits has
// is told with all before the point, on whatever processor.
func TestBriefOfMany(t *testing.T) {
	require.Equal(t, "312,345,678,912 %", value.Measured(quantity.Percent(312345678912.4)).Brief(quantity.US))
}

func TestBrief(t *testing.T) {
	cases := []struct {
		name, why string
		v         value.Value
		want      string
	}{
		{"calculated", "nobody knows a CBR to four figures", value.Number(3.192), "3.2"},
		{"as measured", "what three figures tell is not rounded", value.Number(2.25), "2.25"},
		{"share", "nor what three figures tell of a small number", value.Number(0.015), "0.015"},
		{"small", "two figures, wherever the point stands", value.Number(0.04444), "0.044"},
		{"above ten", "three figures", value.Number(45.678), "45.7"},
		{"up to ten", "two figures of what rounds up to 10", value.Number(9.996), "10"},
		{"count", "a whole number is not rounded", value.Number(34899), "34,899"},
		{"thousands", "one that is not whole is", value.Number(34899.4), "34,900"},
		{"millions", "in words", value.Number(1749931.7), "1.75 million"},
		{"whole millions", "however whole", value.Number(12345678), "12.3 million"},
		{"up to a million", "the words begin with what is a million", value.Number(999999.6), "1,000,000"},
		{"negative", "the sign stays", value.Number(-3.192), "-3.2"},
		{"just a million", "it is one already", value.Number(1e6), "1 million"},
		{"just ten", "from ten on three figures count", value.Number(10.04), "10"},
		{"just below ten", "two figures of what is below", value.Number(9.949), "9.9"},
		{"negative millions", "the sign does not make it small", value.Number(-2.5e6), "-2.5 million"},
		{"nothing", "0 is whole", value.Number(0), "0"},
		{"length", "three figures, as in any text", value.Measured(quantity.Inches(2.3622)), "2.36 in"},
		{"long decimals", "nobody measures the fourth figure", value.Measured(quantity.Inches(13.51)), "13.5 in"},
		{"small length", "nor so small a part", value.Measured(quantity.Inches(0.2007)), "0.201 in"},
		{"sixteenths", "what a tape shows is not rounded", value.Measured(quantity.Inches(9.8125)), "9-13/16 in"},
		{"feet and inches", "nor are feet and inches", value.Measured(quantity.Inches(150.5)), "12 ft 6-1/2 in"},
		{"force", "whole digits are never rounded", value.Measured(quantity.PoundsForce(12345.6)), "12,346 lbf"},
		{"list", "each of its values", value.List(value.NumberKind, []value.Value{value.Number(3.192), value.Number(8)}), "3.2, 8"},
		{"empty list", "none is none", value.List(value.NumberKind, nil), "none"},
		{"word", "a word is its label", value.OfWord(biaxial), "biaxial geogrid"},
		{"negative decimals", "figures are counted without the sign", value.Measured(quantity.Inches(-2.3622)), "-2.36 in"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.v.Brief(quantity.US), c.why) })
	}
	for _, c := range []struct {
		name, why string
		v         value.Value
		want      string
	}{
		{"a foot", "a millimeter is enough", value.Measured(quantity.Millimeters(304.8)), "305 mm"},
		{"force", "three figures of kilonewtons", value.Measured(quantity.PoundsForce(1234.5)), "5.49 kN"},
		{"list", "each in the system", value.List("length", []value.Value{value.Measured(quantity.Millimeters(304.8))}), "305 mm"},
		{"number", "it has no system", value.Number(3.192), "3.2"},
	} {
		t.Run("SI "+c.name, func(t *testing.T) { require.Equal(t, c.want, c.v.Brief(quantity.SI), c.why) })
	}
}

// stone is an object that rules pass on.
type stone struct{ sizes []string }

func (s stone) String() string { return strings.Join(s.sizes, " to ") }

// depth is an object that tells itself in either system.
type depth struct{}

func (depth) String() string { return "a foot" }

func (depth) Text(system quantity.System) string {
	if system.Base() == quantity.SI {
		return "300 mm"
	}
	return "a foot"
}

func TestJSON(t *testing.T) {
	cases := []struct {
		name, why string
		v         value.Value
		want      string
	}{
		{"none", "what is not there is null", value.Value{}, `null`},
		{"number", "no unit", value.Number(2.5), `{"kind":"number","value":2.5,"us":"2.5"}`},
		{"figures", "the last bits, in which machines differ, do not show", value.Number(1.0 / 3), `{"kind":"number","value":0.333333333333,"us":"0.3333"}`},
		{"quantity", "in its SI unit", value.Measured(quantity.Inches(6)), `{"kind":"length","value":0.1524,"unit":"m","us":"6 in","si":"152.4 mm"}`},
		{"share", "in percent, as a person writes it", value.Measured(quantity.Percent(28.5)), `{"kind":"share","value":28.5,"unit":"%","us":"28.5 %"}`},
		{"quantity's figures", "those of a quantity neither", value.Measured(quantity.Inches(1.0 / 3)), `{"kind":"length","value":0.00846666666667,"unit":"m","us":"0.3333 in","si":"8.5 mm"}`},
		{"negative", "the sign stays", value.Measured(quantity.Inches(-1)), `{"kind":"length","value":-0.0254,"unit":"m","us":"-1 in","si":"-25.4 mm"}`},
		{"cold", "a temperature below the ice point", value.Measured(quantity.Fahrenheit(14)), `{"kind":"temperature","value":-10,"unit":"C","us":"14 F","si":"-10 C"}`},
		{"word", "its name, and its label as text", value.OfWord(biaxial), `{"kind":"grid_type","value":"biaxial_grid","us":"biaxial geogrid"}`},
		{"no", "false is a value", value.Bool(false), `{"kind":"bool","value":false,"us":"no"}`},
		{"text", "its signs are those of the text", value.Text(`a < b & "c"`), `{"kind":"text","value":"a < b & \"c\"","us":"a < b & \"c\""}`},
		{"no text", "an empty text is a text", value.Text(""), `{"kind":"text","value":"","us":""}`},
		{"list", "its values under items", value.List(value.NumberKind, []value.Value{value.Number(1)}), `{"kind":"list(number)","value":null,"us":"1","items":[{"kind":"number","value":1,"us":"1"}]}`},
		{"list of figures", "its text is of the numbers as they are written", value.List(value.NumberKind, []value.Value{value.Number(2.069373072865406e90)}), `{"kind":"list(number)","value":null,"us":"2.06937307287e+90","items":[{"kind":"number","value":2.06937307287e+90,"us":"2.06937307287e+90"}]}`},
		{"empty list", "an empty list, and not none", value.List("length", nil), `{"kind":"list(length)","value":null,"us":"none","items":[]}`},
		{"quantity between two figures", "its text is of the number as it is written, which rounds up", value.Measured(quantity.Percent(12.34499999999999)), `{"kind":"share","value":12.345,"unit":"%","us":"12.35 %"}`},
		{"object of two systems", "its text in each", value.Object("depth", depth{}), `{"kind":"depth","value":null,"us":"a foot","si":"300 mm"}`},
		{"object", "its text alone", value.Object("gradation", stone{[]string{"1 in", "No. 4"}}), `{"kind":"gradation","value":null,"us":"1 in to No. 4"}`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, asJSON(t, c.v), c.why)
			var back value.Value
			require.NoError(t, json.Unmarshal([]byte(c.want), &back))
			require.True(t, c.v.Equal(back), "%s: read back as %v", c.why, back)
			require.Equal(t, c.want, asJSON(t, back), "written again: %s", c.why)
			_, wasWord := c.v.Word()
			_, isWord := back.Word()
			require.Equal(t, wasWord, isWord, "an object is no word")
		})
	}
	var v = value.Number(1)
	require.NoError(t, json.Unmarshal([]byte("null"), &v))
	require.True(t, v.IsZero(), "null takes away what was there")
	_, err := json.Marshal(value.Number(math.NaN()))
	require.Error(t, err, "JSON cannot write it")
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		_, err = json.Marshal(value.Measured(quantity.Meters(x)))
		require.ErrorContains(t, err, "a value of kind length", "a length of %g is never written as 0", x)
	}
}

func asJSON(t *testing.T, v value.Value) string {
	t.Helper()
	var b strings.Builder
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	require.NoError(t, enc.Encode(v))
	return strings.TrimSuffix(b.String(), "\n")
}

// What is not a value as it is written is an error, and never a zero.
func TestJSONRefused(t *testing.T) {
	cases := []struct{ name, why, text, want string }{
		{"bare number", "nobody knows of what", `6`, "written as {kind, value, unit, us, si}"},
		{"no kind", "nor of this", `{"value":6}`, "the kind is missing"},
		{"no number", "null is no number", `{"kind":"number","value":null}`, "value is missing"},
		{"left out", "nor is nothing", `{"kind":"length","unit":"m"}`, "value is missing"},
		{"text for a number", "no guess", `{"kind":"number","value":"6"}`, "string"},
		{"number for a word", "no guess", `{"kind":"grid_type","value":6}`, "number"},
		{"other unit", "6 in would be 6 m", `{"kind":"length","value":6,"unit":"in"}`, `the unit is "in", and not "m"`},
		{"no unit", "6 of what", `{"kind":"length","value":6}`, `the unit is "", and not "m"`},
		{"mixed list", "each item is of the list's kind", `{"kind":"list(length)","items":[{"kind":"number","value":1}]}`, `an item is of kind "number"`},
		{"broken item", "the error is that of the item", `{"kind":"list(length)","items":[{"kind":"length","value":1}]}`, `the unit is ""`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v := value.Number(1)
			require.ErrorContains(t, json.Unmarshal([]byte(c.text), &v), c.want, c.why)
			require.Equal(t, value.Number(1), v, "what was there is left")
		})
	}
}

func TestEqual(t *testing.T) {
	inches := func(x float64) value.Value { return value.Measured(quantity.Inches(x)) }
	one, two := value.Number(1), value.Number(2)
	list := func(vs ...value.Value) value.Value { return value.List(value.NumberKind, vs) }
	tenth := 0.1
	cases := []struct {
		name, why string
		v, w      value.Value
		want      bool
	}{
		{"sum of lengths", "2 in and 4 in make 6 in, whatever the last bit", inches(6), value.Measured(quantity.Inches(2) + quantity.Inches(4)), true},
		{"another length", "a hundredth of an inch is another length", inches(6), inches(6.01), false},
		{"length and number", "a length is not a number", inches(6), value.Number(0.1524), false},
		{"sum of numbers", "numbers have the same tolerance", value.Number(tenth + 2*tenth), value.Number(0.3), true},
		{"words", "by name, wherever they were read", value.OfWord(biaxial), value.OfWord(&value.Word{Vocabulary: "grid_type", Name: "biaxial_grid", Label: "x"}), true},
		{"other words", "of one vocabulary", value.OfWord(biaxial), value.OfWord(&value.Word{Vocabulary: "grid_type", Name: "no_grid", Label: "biaxial geogrid"}), false},
		{"yes and no", "a bool is compared as it is", value.Bool(true), value.Bool(false), false},
		{"texts", "as they are written", value.Text("a"), value.Text("a"), true},
		{"lists", "item by item", list(one, two), list(one, two), true},
		{"other item", "the last item counts", list(one, two), list(one, one), false},
		{"shorter list", "a list is not its beginning", list(one, two), list(one), false},
		{"list of another kind", "both are empty", list(), value.List("length", nil), false},
		{"objects", "by text, since JSON keeps no more", value.Object("gradation", stone{[]string{"a"}}), value.Object("gradation", "a"), true},
		{"other objects", "another text is another object", value.Object("gradation", "a"), value.Object("gradation", "b"), false},
		{"object and word", "of one kind", value.Object("grid_type", "biaxial_grid"), value.OfWord(biaxial), false},
		{"none", "nothing is nothing", value.Value{}, value.Value{}, true},
		{"none and something", "zero is a value", value.Value{}, value.Number(0), false},
		{"not finite", "what is not a number is not itself", value.Number(math.NaN()), value.Number(math.NaN()), false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, c.v.Equal(c.w), c.why)
			require.Equal(t, c.want, c.w.Equal(c.v), "the other way about: %s", c.why)
			require.NotPanics(t, func() { _ = map[value.Value]bool{c.v: c.v == c.w} }, "a value can be compared, and be the key of a map")
		})
	}
}

func TestCompare(t *testing.T) {
	inches := func(x float64) value.Value { return value.Measured(quantity.Inches(x)) }
	cases := []struct {
		name, why string
		v, w      value.Value
		want      int
		ordered   bool
	}{
		{"less", "lengths have an order", inches(4), inches(6), -1, true},
		{"more", "numbers too", value.Number(6), value.Number(4), 1, true},
		{"same", "within the tolerance", inches(6), value.Measured(quantity.Inches(2) + quantity.Inches(4)), 0, true},
		{"length and number", "of two kinds neither is more", inches(6), value.Number(6), 0, false},
		{"two dimensions", "6 in is not more than 5 psi", inches(6), value.Measured(quantity.PSI(5)), 0, false},
		{"words", "a vocabulary has no order", value.OfWord(biaxial), value.OfWord(biaxial), 0, false},
		{"number and word", "not as if it were 0", value.Number(0), value.OfWord(biaxial), 0, false},
		{"none", "nothing is not 0", value.Value{}, value.Value{}, 0, false},
		{"not finite", "no order with it", value.Number(math.NaN()), value.Number(1), 0, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			order, ordered := c.v.Compare(c.w)
			require.Equal(t, c.want, order, c.why)
			require.Equal(t, c.ordered, ordered, c.why)
		})
	}
}

func TestKinds(t *testing.T) {
	require.Equal(t, value.NumberKind, value.DimensionKind(quantity.DimRatio), "a ratio is a number")
	require.Equal(t, value.Kind("length"), value.DimensionKind(quantity.DimLength))
	l, ok := value.Measured(quantity.Inches(6)).Length()
	require.True(t, ok)
	require.Equal(t, quantity.Inches(6), l)
	_, ok = value.Measured(quantity.PSI(6)).Length()
	require.False(t, ok, "a pressure is no length")
	require.Equal(t, "CL-ML", value.WordEntry{Name: "CL_ML", Label: "CL-ML"}.GoValue(), "the label, where Go has no other")
	require.Equal(t, "clml", value.WordEntry{Name: "CL_ML", Label: "CL-ML", Go: "clml"}.GoValue())
}

// TestIs holds what a rule that asks for a word or a value gets as its answer.
func TestIs(t *testing.T) {
	word := func(vocabulary value.Kind, name string, of *value.Word) *value.Word {
		return &value.Word{Vocabulary: vocabulary, Name: name, KindOf: of}
	}
	sand := word("soil", "sand", nil)
	clean := word("soil", "clean_sand", sand)
	washed := word("soil", "washed_sand", clean)
	for _, c := range []struct {
		name, why string
		v, asked  value.Value
		want      bool
	}{
		{"the word", "a word is itself", value.OfWord(sand), value.OfWord(sand), true},
		{"a kind of it", "what holds for sand holds for clean sand", value.OfWord(clean), value.OfWord(sand), true},
		{"a kind of a kind", "however far down", value.OfWord(washed), value.OfWord(sand), true},
		{"the wider word", "not all sand is clean", value.OfWord(sand), value.OfWord(clean), false},
		{"another vocabulary", "one name may be a word of two", value.OfWord(sand), value.OfWord(word("bedding", "sand", nil)), false},
		{"a text", "the name of a word is not the word", value.OfWord(sand), value.Text("sand"), false},
		{"a word of a text", "nor the other way about", value.Text("sand"), value.OfWord(sand), false},
		{"numbers", "as they are equal", value.Number(2), value.Number(2), true},
		{"other numbers", "as they are not", value.Number(2), value.Number(3), false},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.v.Is(c.asked), c.why) })
	}
}

// A list that was handed out or in can be changed without changing the value.
func TestListIsACopy(t *testing.T) {
	given := []value.Value{value.Number(1)}
	v := value.List(value.NumberKind, given)
	given[0] = value.Number(2)
	taken, ok := v.List()
	require.True(t, ok)
	taken[0] = value.Number(3)
	v.Data().([]value.Value)[0] = value.Number(4)
	require.Equal(t, "1", v.String())
	_, ok = value.Number(1).List()
	require.False(t, ok, "a number is no list")
	require.Equal(t, stone{[]string{"a"}}, value.Object("gradation", stone{[]string{"a"}}).Data(), "an object hands out what it holds")
}

// TestAs holds which values each accessor hands out, and that it reports of every
// other that it is none.
func TestAs(t *testing.T) {
	values := map[string]value.Value{
		"none": {}, "number": value.Number(2), "bool": value.Bool(true), "text": value.Text("a"), "length": value.Measured(quantity.Meters(3)),
		"pressure": value.Measured(quantity.Kilopascals(4)), "word": value.OfWord(biaxial), "list": value.List("length", nil), "object": value.Object("stone", "b"),
	}
	as := map[string]func(v value.Value) (any, bool){
		"number":                   func(v value.Value) (any, bool) { x, ok := v.Number(); return x, ok },
		"bool":                     func(v value.Value) (any, bool) { x, ok := v.Bool(); return x, ok },
		"text":                     func(v value.Value) (any, bool) { x, ok := v.PlainText(); return x, ok },
		"length":                   func(v value.Value) (any, bool) { x, ok := v.Length(); return x, ok },
		"length, pressure":         func(v value.Value) (any, bool) { x, ok := v.Quantity(); return x.SI, ok },
		"word":                     func(v value.Value) (any, bool) { x, ok := v.Word(); return x.Name, ok },
		"list":                     func(v value.Value) (any, bool) { x, ok := v.List(); return len(x), ok },
		"number, length, pressure": func(v value.Value) (any, bool) { x, ok := v.Measure(); return x.SI, ok },
	}
	held := map[string]any{"number": 2.0, "bool": true, "text": "a", "length": 3.0, "pressure": 4000.0, "word": "biaxial_grid", "list": 0}
	for kinds, read := range as {
		for name, v := range values {
			got, ok := read(v)
			require.Equal(t, strings.Contains(", "+kinds+", ", ", "+name+", "), ok, "%s as %s", name, kinds)
			if ok {
				require.EqualValues(t, held[name], got, "%s as %s", name, kinds)
			}
		}
	}
	ratio, _ := value.Number(2).Measure()
	require.Equal(t, quantity.DimRatio, ratio.Dim)
}

func TestMaterial(t *testing.T) {
	properties := map[string]value.Value{"strength": value.Number(3)}
	stone := biaxial.With(properties)
	require.Nil(t, biaxial.Properties(), "the plain word is left as it was")
	require.Equal(t, value.Number(3), stone.Property("strength"))
	require.True(t, stone.Property("weight").IsZero())
	properties["strength"], stone.Properties()["strength"] = value.Number(4), value.Number(5)
	require.Equal(t, value.Number(3), stone.Property("strength"), "neither what is given nor what is handed out is the word's own")
}

// pebble is an object that names itself.
type pebble struct{}

func (pebble) RuleTypeName() string { return "pebble" }

// TestOf proves that each Go type a site gives becomes a value of its kind.
func TestOf(t *testing.T) {
	clay := &value.Word{Vocabulary: "uscs", Name: "CL", Label: "CL", Go: "CL"}
	words := func(k value.Kind, label string) (*value.Word, bool) {
		if k == "uscs" && label == "CL" {
			return clay, true
		}
		return nil, false
	}
	cases := []struct {
		name, why string
		x         any
		kind      value.Kind
		text      string
	}{
		{"number", "a plain number", 2.5, value.NumberKind, "2.5"},
		{"yes or no", "a bool", true, value.BoolKind, "yes"},
		{"text", "a string that is of no vocabulary", "x", value.TextKind, "x"},
		{"quantity", "its dimension is its kind", quantity.Inches(6), "length", "6 in"},
		{"readings", "a list of numbers", []float64{1, 2}, value.ListOf(value.NumberKind), "1, 2"},
		{"word", "a string of a vocabulary", site.Group("CL"), "uscs", "CL"},
		{"value", "what is one already", value.Number(1), value.NumberKind, "1"},
		{"object", "what names itself", pebble{}, "pebble", "{}"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v, err := value.Of(c.x, words)
			require.NoError(t, err)
			require.Equal(t, c.kind, v.Kind(), c.why)
			require.Equal(t, c.text, v.String(), c.why)
		})
	}
	_, err := value.Of(site.Group("flying"), words)
	require.ErrorContains(t, err, `"flying" is not a word of uscs`)
	_, err = value.Of(struct{}{}, words)
	require.Error(t, err)
	element, ok := value.ListOf("length").Element()
	require.True(t, ok)
	require.Equal(t, value.Kind("length"), element)
	for _, k := range []value.Kind{"length", "list(length", "length)", ""} {
		_, ok := k.Element()
		require.False(t, ok, "%q is no list", k)
	}
}
