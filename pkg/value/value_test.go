package value_test

import (
	"encoding/json"
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

func TestJSON(t *testing.T) {
	cases := []struct {
		name string
		v    value.Value
		want string
	}{
		{"none", value.Value{}, `null`},
		{"number", value.Number(2.5), `{"kind":"number","value":2.5,"us":"2.5","si":"2.5"}`},
		{"quantity", value.Measured(quantity.Inches(6)), `{"kind":"length","value":0.1524,"unit":"m","us":"6 in","si":"152.4 mm"}`},
		{"word", value.OfWord(biaxial), `{"kind":"grid_type","value":"biaxial_grid","us":"biaxial geogrid","si":"biaxial geogrid"}`},
		{"no", value.Bool(false), `{"kind":"bool","value":false,"us":"no","si":"no"}`},
		{"list", value.List(value.NumberKind, []value.Value{value.Number(1)}), `{"kind":"list(number)","value":null,"us":"1","si":"1","items":[{"kind":"number","value":1,"us":"1","si":"1"}]}`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := json.Marshal(c.v)
			require.NoError(t, err)
			require.Equal(t, c.want, string(got))
		})
	}
}

func TestEqual(t *testing.T) {
	six, sum := value.Measured(quantity.Inches(6)), value.Measured(quantity.Inches(2)+quantity.Inches(4))
	require.True(t, six.Equal(sum), "2 in and 4 in make 6 in, whatever the last bit")
	require.False(t, six.Equal(value.Measured(quantity.Inches(6.01))))
	require.False(t, six.Equal(value.Number(0.1524)), "a length is no number")
	tenths := []float64{0.1, 0.2}
	require.True(t, value.Number(tenths[0]+tenths[1]).Equal(value.Number(0.3)), "numbers too")
	require.True(t, value.OfWord(biaxial).Equal(value.OfWord(biaxial)))
	require.True(t, value.List(value.NumberKind, []value.Value{value.Number(1)}).Equal(value.List(value.NumberKind, []value.Value{value.Number(1)})))
	require.False(t, value.List(value.NumberKind, nil).Equal(value.List(value.NumberKind, []value.Value{value.Number(1)})))
}

// TestOf proves that each Go type a site gives becomes a value of its kind.
func TestOf(t *testing.T) {
	foot := &value.Word{Vocabulary: "load_case", Name: "foot", Label: "foot", Go: "foot"}
	words := func(k value.Kind, label string) (*value.Word, bool) {
		if k == "load_case" && label == "foot" {
			return foot, true
		}
		return nil, false
	}
	cases := []struct {
		name string
		x    any
		kind value.Kind
	}{
		{"number", 2.5, value.NumberKind},
		{"yes or no", true, value.BoolKind},
		{"text", "x", value.TextKind},
		{"quantity", quantity.Inches(6), "length"},
		{"readings", []float64{1, 2}, value.ListOf(value.NumberKind)},
		{"word", site.Foot, "load_case"},
		{"value", value.Number(1), value.NumberKind},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			v, err := value.Of(c.x, words)
			require.NoError(t, err)
			require.Equal(t, c.kind, v.Kind())
		})
	}
	_, err := value.Of(site.Use("flying"), words)
	require.ErrorContains(t, err, `"flying" is not a word of load_case`)
	_, err = value.Of(struct{}{}, words)
	require.Error(t, err)
	element, ok := value.ListOf("length").Element()
	require.True(t, ok)
	require.Equal(t, value.Kind("length"), element)
}
