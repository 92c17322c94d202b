package signature_test

import (
	"reflect"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

type tool string

func (tool) Vocabulary() value.Vocabulary { return value.Vocabulary{Name: "tool"} }

type gear struct{}

func (gear) Vocabulary() value.Vocabulary { return value.Vocabulary{Name: "gear"} }

type curve struct{}

func (curve) RuleTypeName() string { return "curve" }

type bag []quantity.Length

func (bag) Quantity() quantity.Quantity { return quantity.Quantity{} }

func TestKindOf(t *testing.T) {
	const cannot = "calculation is not described as it is written: "
	for _, c := range []struct {
		name, why string
		of        any
		form      signature.Form
		want      value.Kind
		fault     string
	}{
		{"number", "what has no unit", 1.0, signature.Number, value.NumberKind, ""},
		{"bool", "a yes or no", true, signature.Bool, value.BoolKind, ""},
		{"text", "any string that has no vocabulary", "", signature.Text, value.TextKind, ""},
		{"length", "a type of package quantity has its dimension", quantity.Length(0), signature.Measured, "length", ""},
		{"share", "a percentage is no number", quantity.Share(0), signature.Measured, "share", ""},
		{"word", "its vocabulary is its kind", tool(""), signature.Word, "tool", ""},
		{"readings", "the one kind of list", []float64(nil), signature.Numbers, "list(number)", ""},
		{"object", "it is passed on under its own name", curve{}, signature.Object, "curve", ""},
		{"whole number", "there is one kind of number", 1, signature.NoForm, "", cannot + "int cannot be an argument or a result"},
		{"list of texts", "no calculation reads any", []string(nil), signature.NoForm, "", cannot + "[]string cannot be an argument or a result"},
		{"vocabulary of no strings", "a word is told apart by its text", gear{}, signature.NoForm, "", cannot + "signature_test.gear has a vocabulary and must be a string type"},
		{"measure that is a list", "a quantity is one number", bag(nil), signature.NoForm, "", cannot + "signature_test.bag cannot be an argument or a result"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k, err := signature.KindOf(reflect.TypeOf(c.of))
			if c.fault != "" {
				require.EqualError(t, err, c.fault, c.why)
				require.ErrorIs(t, err, calculation.ErrShape)
			} else {
				require.NoError(t, err, c.why)
				require.Equal(t, reflect.TypeOf(c.of), k.Go)
			}
			require.Equal(t, c.form, k.Form, c.why)
			require.Equal(t, c.want, k.Value(), c.why)
		})
	}
}

// described is a calculation that is described as it is written.
func described() calculation.Function {
	return calculation.Function{
		Name: "spread", About: "how a load spreads",
		Params:  []calculation.Param{{Name: "depth", About: "below the top"}, {Name: "curve", About: "of the load"}},
		Result:  calculation.Param{Name: "share", About: "of the load"},
		Sources: []value.Source{{ID: "practice", Known: value.Practice}},
		Go:      func(quantity.Length, curve) (quantity.Share, error) { return 0, nil },
	}
}

func TestOf(t *testing.T) {
	sig, err := signature.Of(described())
	require.NoError(t, err)
	var got []value.Kind
	for _, k := range append(sig.Params, sig.Result) {
		got = append(got, k.Value())
	}
	require.Empty(t, cmp.Diff([]value.Kind{"length", "curve", "share"}, got))
	require.True(t, sig.Fails)

	sure := described()
	sure.Go = func(quantity.Length, curve) quantity.Share { return 0 }
	sig, err = signature.Of(sure)
	require.NoError(t, err)
	require.False(t, sig.Fails, "a function may return no error")
}

func TestOfRefuses(t *testing.T) {
	const meaning = "name, about and the result's meaning are all needed"
	for _, c := range []struct {
		name, why string
		change    func(*calculation.Function)
		want      string
	}{
		{"nothing to call", "a description alone works nothing out", func(f *calculation.Function) { f.Go = nil }, "no Go function"},
		{"not a function", "it cannot be called", func(f *calculation.Function) { f.Go = 3.0 }, "float64 is not a plain function"},
		{"any number of arguments", "each argument has a name and a meaning", func(f *calculation.Function) { f.Go = func(quantity.Length, ...curve) float64 { return 0 } },
			"func(quantity.Length, ...signature_test.curve) float64 is not a plain function"},
		{"one argument too few", "the names would stand with the wrong values", func(f *calculation.Function) { f.Params = f.Params[:1] }, "1 arguments described, 2 written"},
		{"no about", "it is listed with what it says", func(f *calculation.Function) { f.About = "" }, meaning},
		{"no meaning of the result", "a number is not shown without what it is", func(f *calculation.Function) { f.Result.About = "" }, meaning},
		{"no source", "every calculation says what stands behind it", func(f *calculation.Function) { f.Sources = nil }, "no source"},
		{"argument without a name", "an error names the argument", func(f *calculation.Function) { f.Params[1].Name = "" }, "argument 2 has no name or no meaning"},
		{"argument without a meaning", "nobody could give it", func(f *calculation.Function) { f.Params[0].About = "" }, "argument 1 has no name or no meaning"},
		{"argument of no kind", "no rule could give it", func(f *calculation.Function) { f.Go = func(quantity.Length, int) float64 { return 0 } },
			`argument "curve": calculation is not described as it is written: int cannot be an argument or a result`},
		{"nothing returned", "it is called for what it returns", func(f *calculation.Function) { f.Go = func(quantity.Length, curve) {} }, "must return a value, or a value and an error"},
		{"two values returned", "an expression has one value", func(f *calculation.Function) { f.Go = func(quantity.Length, curve) (float64, float64) { return 0, 0 } }, "must return a value, or a value and an error"},
		{"three results", "an error is the second or none", func(f *calculation.Function) {
			f.Go = func(quantity.Length, curve) (float64, error, error) { return 0, nil, nil }
		}, "must return a value, or a value and an error"},
		{"result of no kind", "no rule could use it", func(f *calculation.Function) { f.Go = func(quantity.Length, curve) int { return 0 } },
			"result: calculation is not described as it is written: int cannot be an argument or a result"},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := described()
			c.change(&f)
			_, err := signature.Of(f)
			require.EqualError(t, err, "calculation is not described as it is written: spread: "+c.want, c.why)
			require.ErrorIs(t, err, calculation.ErrShape)
		})
	}
	nameless := described()
	nameless.Name = ""
	_, err := signature.Of(nameless)
	require.EqualError(t, err, "calculation is not described as it is written: : "+meaning)
}
