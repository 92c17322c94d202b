package drainage_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/drainage"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// feed gives out the fuzzed numbers one by one, over and over.
type feed struct {
	numbers []float64
	at      int
	text    string
	pick    uint
	// standard are the standard envelopes, and none.
	standard []drainage.Gradation
}

func (f *feed) number() float64 {
	x := f.numbers[f.at%len(f.numbers)]
	f.at++
	return x
}

// gradation makes one from fuzzed numbers where they allow it, else takes one
// of the standard envelopes or none.
func (f *feed) gradation() drainage.Gradation {
	percents := []float64{f.number(), f.number(), f.number()}
	size := f.number()
	g, err := drainage.NewGradation(
		drainage.Band{Opening: quantity.Length(size), Low: percents[0], High: percents[0]},
		drainage.Band{Opening: quantity.Length(size) / 2, Low: percents[1], High: percents[0]},
		drainage.Band{Opening: quantity.Length(size) / 5, Low: percents[2], High: percents[1]})
	if err == nil {
		return g
	}
	f.pick++
	return f.standard[f.pick%uint(len(f.standard))]
}

func (f *feed) value(kind signature.Kind) reflect.Value {
	out := reflect.New(kind.Go).Elem()
	switch kind.Form {
	case signature.Number, signature.Measured:
		out.SetFloat(f.number())
	case signature.Word:
		words := out.Interface().(value.Worded).Vocabulary().Words
		f.pick++
		if i := int(f.pick % uint(len(words)+1)); i < len(words) {
			out.SetString(words[i].Label)
		} else {
			out.SetString(f.text)
		}
	case signature.Text:
		out.SetString(f.text)
	case signature.Object:
		out.Set(reflect.ValueOf(f.gradation()))
	}
	return out
}

// FuzzCalculations throws any numbers at every calculation: no panic, no NaN, no
// infinity, and no error of a kind that a caller could not tell.
func FuzzCalculations(f *testing.F) {
	f.Add(0.05, 0.4, 1e-6, 7200.0, 50.0, uint(0), "No. 4: 100, No. 8: 5")
	f.Add(0.02, 85.0, 50.0, 15.0, 0.01, uint(3), "3/8 in")
	f.Add(math.MaxFloat64, math.MaxFloat64, 5e-324, 1e300, 0.999999999999, uint(1), "")
	f.Add(math.NaN(), math.Inf(1), math.Inf(-1), -1.0, 0.0, uint(2), "x")
	functions := drainage.Calculations()
	signatures := make([]signature.Signature, len(functions))
	for i, function := range functions {
		var err error
		if signatures[i], err = signature.Of(function); err != nil {
			f.Fatal(err)
		}
	}
	standard := []drainage.Gradation{{}}
	for _, c := range computedSizes {
		standard = append(standard, gradation(f, c.envelope))
	}
	f.Fuzz(func(t *testing.T, a, b, c, d, e float64, pick uint, text string) {
		numbers := []float64{a, b, c, d, e}
		for k, function := range functions {
			for start := range numbers {
				given := &feed{numbers: numbers, at: start, text: text, pick: pick, standard: standard}
				in := make([]reflect.Value, len(signatures[k].Params))
				for i, kind := range signatures[k].Params {
					in[i] = given.value(kind)
				}
				checkOutcome(t, function.Name, in, reflect.ValueOf(function.Go).Call(in))
			}
		}
	})
}

func checkOutcome(t *testing.T, name string, in, out []reflect.Value) {
	t.Helper()
	if len(out) == 2 && !out[1].IsNil() {
		err := out[1].Interface().(error)
		var outside *calculation.RangeError
		var unknown *calculation.WordError
		if !errors.As(err, &outside) && !errors.As(err, &unknown) && !errors.Is(err, drainage.ErrCannotTell) && !errors.Is(err, drainage.ErrGradation) {
			t.Fatalf("%s%v: an error of no kind: %v", name, in, err)
		}
	}
	if out[0].Kind() == reflect.Float64 {
		if x := out[0].Float(); !portable.Finite(x) || x < 0 {
			t.Fatalf("%s%v returns %g", name, in, x)
		}
	}
}
