package ground_test

import (
	"encoding/binary"
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/ground"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// FuzzCalculations throws arbitrary values at every calculation: none may panic,
// nor give a value that is no finite number, with an error or without.
func FuzzCalculations(f *testing.F) {
	functions := ground.Calculations()
	for i := range functions {
		f.Add(uint16(i), 100.0, 58.0, 30.0, 20.0, 12.0, 40.0, 3.0, uint32(0), "", []byte{1, 2, 3})
		f.Add(uint16(i), 0.01, 0.02, 0.03, 1e-3, 5.0, 6.0, 7.0, uint32(77), "CL", []byte{})
		f.Add(uint16(i), math.NaN(), math.Inf(1), -1.0, 5e-324, math.MaxFloat64, -0.0, math.Inf(-1), uint32(1), "x", []byte{255})
	}
	f.Fuzz(func(t *testing.T, which uint16, a, b, c, d, e, g, h float64, pick uint32, word string, list []byte) {
		fn := functions[int(which)%len(functions)]
		throw(t, fn, []float64{a, b, c, d, e, g, h}, pick, word, list)
	})
}

func throw(t *testing.T, fn calculation.Function, xs []float64, pick uint32, word string, list []byte) {
	sig, err := fn.Signature()
	if err != nil {
		t.Fatal(err)
	}
	var in []reflect.Value
	for i, k := range sig.Params {
		v := reflect.New(k.Go).Elem()
		switch k.Form {
		case calculation.Number, calculation.Measured, calculation.Object:
			v.SetFloat(xs[i%len(xs)])
		case calculation.Bool:
			v.SetBool(pick>>(i%32)&1 == 1)
		case calculation.Word:
			if w := v.Interface().(value.Worded).Vocabulary().Words; word == "" {
				v.SetString(w[int(pick>>i)%len(w)].Label)
			} else {
				v.SetString(word)
			}
		case calculation.Numbers:
			v.Set(reflect.ValueOf(floats(list, xs)))
		default:
			t.Fatalf("%s: no way to throw %v", fn.Name, k.Go)
		}
		in = append(in, v)
	}
	_ = tryCall(t, fn, sig, in)
}

// tryCall calls and gives the calculation's own error.
func tryCall(t *testing.T, fn calculation.Function, sig calculation.Signature, in []reflect.Value) error {
	out := reflect.ValueOf(fn.Go).Call(in)
	if out[0].Kind() == reflect.Float64 && !calculation.Finite(out[0].Float()) {
		t.Fatalf("%s%v = %v", fn.Name, in, out[0])
	}
	var err error
	if sig.Fails {
		err, _ = out[1].Interface().(error)
	}
	switch {
	case err != nil && strings.TrimSpace(err.Error()) == "":
		t.Fatalf("%s%v: an error that says nothing", fn.Name, in)
	case err != nil && !out[0].IsZero():
		t.Fatalf("%s%v: both %v and %v", fn.Name, in, out[0], err)
	case err == nil && out[0].Kind() == reflect.String && out[0].String() == "":
		t.Fatalf("%s%v: no word and no error", fn.Name, in)
	}
	return err
}

// floats makes a list: single bytes as small numbers, runs of eight as floats.
func floats(list []byte, xs []float64) []float64 {
	var out []float64
	for len(list) >= 8 && list[0]&1 == 1 {
		out = append(out, math.Float64frombits(binary.LittleEndian.Uint64(list)))
		list = list[8:]
	}
	for _, b := range list {
		out = append(out, float64(b)/4)
	}
	if len(list) == 1 {
		out = append(out, xs...)
	}
	return out
}

// The same without a fuzzer, around the example of each calculation, so that the
// formulas behind the ranges are reached in every run.
func TestCalculationsStayFinite(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	vocabularies, functions := words(t), map[string]calculation.Function{}
	for _, fn := range ground.Calculations() {
		functions[fn.Name] = fn
	}
	for _, fn := range ground.Calculations() {
		sig, args, err := exampleOf(functions, vocabularies, fn)
		if err != nil {
			t.Fatal(err)
		}
		answers := 0
		for range 300 {
			in := make([]reflect.Value, len(args))
			wide := math.Exp(r.Float64()*6 - 4)
			for i, arg := range args {
				in[i] = arg
				if arg.Kind() == reflect.Float64 && r.IntN(3) > 0 {
					in[i] = reflect.New(arg.Type()).Elem()
					in[i].SetFloat(arg.Float() * math.Exp(r.NormFloat64()*wide))
				}
			}
			if tryCall(t, fn, sig, in) == nil {
				answers++
			}
		}
		if answers == 0 {
			t.Errorf("%s never answers near its example", fn.Name)
		}
	}
}

// FuzzClassify throws arbitrary samples: an answer has a group of the vocabulary
// and a name; the other functions agree with it.
func FuzzClassify(f *testing.F) {
	f.Add(95.0, 40.0, 5.0, 1.0, 0.1, 0.2, 0.3, 40.0, 20.0, 30.0, false)
	f.Add(40.0, 7.0, 0.0, 0.0, 0.2, 1.0, 9.0, 0.0, 0.0, 0.0, true)
	// Once gave a suspect beside its error.
	f.Add(6.7, 5.5, 0.0, -52.0, 0.2, 1.8, 1.5, 130.0, 3.0, 59.0, false)
	f.Fuzz(func(t *testing.T, p4, p200, cu, cc, d10, d30, d60, ll, pl, oven float64, np bool) {
		s := ground.Sample{P4: p4, P200: p200, Cu: cu, Cc: cc, D10: quantity.Length(d10), D30: quantity.Length(d30), D60: quantity.Length(d60),
			LL: ll, PL: pl, LLOvenDried: oven, Nonplastic: np}
		got, err := ground.Classify(s)
		if err != nil {
			if got != (ground.Classification{}) {
				t.Fatalf("%+v: %+v with an error", s, got)
			}
			return
		}
		if _, err := ground.ParseGroup(string(got.Group)); err != nil || got.Name == "" {
			t.Fatalf("%+v: %+v", s, got)
		}
		again, err := ground.Classify(s)
		if err != nil || again.Group != got.Group || again.Name != got.Name {
			t.Fatalf("%+v: %+v and then %+v", s, got, again)
		}
	})
}
