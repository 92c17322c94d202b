package ground_test

import (
	"errors"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

func TestCalculationsAreDescribedAsWritten(t *testing.T) {
	snake := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	names := map[string]bool{}
	for _, f := range ground.Calculations() {
		_, err := f.Signature()
		require.NoError(t, err, f.Name)
		require.Regexp(t, snake, f.Name)
		require.False(t, names[f.Name], "%s is there twice", f.Name)
		names[f.Name] = true
		for _, s := range f.Sources {
			require.True(t, s.Known.Valid(), f.Name)
			require.NotEmpty(t, s.ID, f.Name)
		}
	}
}

// words are the vocabularies that the calculations use, by Go type.
func words(t *testing.T) map[reflect.Type]value.Vocabulary {
	out := map[reflect.Type]value.Vocabulary{}
	for _, f := range ground.Calculations() {
		sig, err := f.Signature()
		require.NoError(t, err)
		for _, k := range append(sig.Params, sig.Result) {
			if k.Form == calculation.Word {
				out[k.Go] = reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary()
			}
		}
	}
	return out
}

// No word stands for two things, so that a rule can name it without its
// vocabulary.
func TestWordsAreDistinct(t *testing.T) {
	identifier := regexp.MustCompile(`^[A-Za-z][A-Za-z0-9_]*$`)
	owner := map[string]string{}
	for _, v := range words(t) {
		labels := map[string]bool{}
		for _, w := range v.Words {
			require.Regexp(t, identifier, w.Name)
			require.Empty(t, owner[w.Name], "%s is a word of %s too", w.Name, v.Name)
			owner[w.Name] = v.Name
			require.False(t, labels[w.Label], "%s has the label %q twice", v.Name, w.Label)
			labels[w.Label] = true
			require.NotEmpty(t, w.About, w.Name)
		}
	}
	require.Greater(t, len(owner), 80)
}

// Each example is read as the rule language would, and gives an answer.
func TestExamplesGiveAnswers(t *testing.T) {
	vocabularies := words(t)
	functions := map[string]calculation.Function{}
	for _, f := range ground.Calculations() {
		functions[f.Name] = f
	}
	for _, f := range ground.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			require.True(t, strings.HasPrefix(f.Example, f.Name+"("), f.Example)
			_, err := call(functions, vocabularies, f.Example)
			require.NoError(t, err)
		})
	}
}

// call works out "name(a, b)".
func call(functions map[string]calculation.Function, vocabularies map[reflect.Type]value.Vocabulary, text string) (reflect.Value, error) {
	name, rest, _ := strings.Cut(strings.TrimSuffix(text, ")"), "(")
	f, ok := functions[name]
	if !ok {
		return reflect.Value{}, fmt.Errorf("no calculation %q", name)
	}
	f.Example = name + "(" + rest + ")"
	sig, in, err := exampleOf(functions, vocabularies, f)
	if err != nil {
		return reflect.Value{}, err
	}
	out := reflect.ValueOf(f.Go).Call(in)
	if sig.Fails && !out[1].IsNil() {
		return reflect.Value{}, out[1].Interface().(error)
	}
	return out[0], nil
}

// exampleOf reads the arguments of a calculation's example.
func exampleOf(functions map[string]calculation.Function, vocabularies map[reflect.Type]value.Vocabulary, f calculation.Function) (calculation.Signature, []reflect.Value, error) {
	sig, err := f.Signature()
	if err != nil {
		return sig, nil, err
	}
	_, rest, _ := strings.Cut(strings.TrimSuffix(f.Example, ")"), "(")
	args := split(rest)
	if len(args) != len(sig.Params) {
		return sig, nil, fmt.Errorf("%s: %d arguments, want %d", f.Example, len(args), len(sig.Params))
	}
	var in []reflect.Value
	for i, arg := range args {
		v, err := argument(functions, vocabularies, sig.Params[i], arg)
		if err != nil {
			return sig, nil, fmt.Errorf("%s: %w", f.Example, err)
		}
		in = append(in, v)
	}
	return sig, in, nil
}

func argument(functions map[string]calculation.Function, vocabularies map[reflect.Type]value.Vocabulary, k calculation.Kind, text string) (reflect.Value, error) {
	v := reflect.New(k.Go).Elem()
	switch k.Form {
	case calculation.Number:
		x, err := strconv.ParseFloat(text, 64)
		v.SetFloat(x)
		return v, err
	case calculation.Bool:
		b, err := strconv.ParseBool(text)
		v.SetBool(b)
		return v, err
	case calculation.Numbers:
		var xs []float64
		for _, each := range split(strings.Trim(text, "[]")) {
			x, err := strconv.ParseFloat(each, 64)
			if err != nil {
				return v, err
			}
			xs = append(xs, x)
		}
		v.Set(reflect.ValueOf(xs))
		return v, nil
	case calculation.Measured:
		builder, number, _ := strings.Cut(strings.TrimSuffix(text, ")"), "(")
		for _, u := range quantity.UnitsOf(k.Dim) {
			if u.Builder == builder {
				q, err := quantity.ParseAs(k.Dim, number+" "+u.Symbol)
				v.SetFloat(q.SI)
				return v, err
			}
		}
		return v, fmt.Errorf("no unit is built by %q", builder)
	case calculation.Word:
		for _, w := range vocabularies[k.Go].Words {
			if w.Name == text {
				v.SetString(w.Label)
				return v, nil
			}
		}
		return v, fmt.Errorf("%q is no %s", text, k.Name)
	case calculation.Object:
		return call(functions, vocabularies, text)
	}
	return v, errors.New("no such form")
}

// split cuts at the commas that stand in no bracket.
func split(text string) []string {
	var out []string
	depth, from := 0, 0
	for i, r := range text {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ',':
			if depth == 0 {
				out = append(out, strings.TrimSpace(text[from:i]))
				from = i + 1
			}
		}
	}
	return append(out, strings.TrimSpace(text[from:]))
}
