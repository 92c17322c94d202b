package geosynthetic_test

import (
	"math"
	"reflect"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/internal/geosynthetic"
	"example.com/groundrule/pkg/internal/published"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Every description fits its function, and no two share a name.
func TestDescriptions(t *testing.T) {
	name := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	seen := map[string]bool{}
	for _, f := range geosynthetic.Calculations() {
		t.Run(f.Name, func(t *testing.T) {
			_, err := f.Signature()
			require.NoError(t, err)
			require.Regexp(t, name, f.Name)
			require.False(t, seen[f.Name], "the name is given twice")
			seen[f.Name] = true
			require.Regexp(t, "^"+f.Name+`\(.*\)$`, f.Example)
			for _, s := range f.Sources {
				require.True(t, s.Known.Valid())
				require.NotEmpty(t, s.ID)
				require.NotEmpty(t, s.String())
				require.Equal(t, s.Known == value.Computed, s.Document == "", "a computed source names no publication, any other does: %s", s)
			}
		})
	}
}

// A word is found by its name alone, so no two vocabularies may share one.
func TestWordsAreApart(t *testing.T) {
	name := regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*$`)
	of := map[string]string{}
	vocabularies := map[string]bool{}
	for _, v := range vocabulariesUsed(t) {
		require.False(t, vocabularies[v.Name], v.Name)
		vocabularies[v.Name] = true
		require.NotEmpty(t, v.About)
		labels := map[string]bool{}
		for _, w := range v.Words {
			require.Regexp(t, name, w.Name)
			require.Empty(t, of[w.Name], "%s is a word of %s and of %s", w.Name, of[w.Name], v.Name)
			of[w.Name] = v.Name
			require.False(t, labels[w.Label])
			labels[w.Label] = true
			require.NotEmpty(t, w.About)
		}
	}
	for _, f := range geosynthetic.Calculations() {
		require.Empty(t, of[f.Name], "%s is a function and a word", f.Name)
		require.False(t, vocabularies[f.Name], "%s is a function and a vocabulary", f.Name)
	}
}

func vocabulariesUsed(t *testing.T) []value.Vocabulary {
	var all []value.Vocabulary
	seen := map[reflect.Type]bool{}
	for _, f := range geosynthetic.Calculations() {
		sig, err := f.Signature()
		require.NoError(t, err)
		for _, k := range append(sig.Params, sig.Result) {
			if k.Form == calculation.Word && !seen[k.Go] {
				seen[k.Go] = true
				all = append(all, reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary())
			}
		}
	}
	return all
}

func TestPublished(t *testing.T) {
	published.Test(t, "../../../testdata/published/geosynthetic.yaml", geosynthetic.Calculations())
}

// FuzzCalculations throws anything at every function: none may panic, or give
// a number that is none, or a word that its vocabulary does not hold.
func FuzzCalculations(f *testing.F) {
	for _, x := range []float64{0, 1, -1, 0.5, 75, 550, 1e-300, 1e300, math.MaxFloat64, math.SmallestNonzeroFloat64, math.NaN(), math.Inf(1), math.Inf(-1)} {
		f.Add(x, x, x, x, uint8(0), "")
	}
	f.Add(40000.0, 550000.0, 1000.0, 0.075, uint8(2), "CL")
	f.Add(1.0, 2.0, 0.1, 0.3, uint8(1), "class 4")
	functions := geosynthetic.Calculations()
	f.Fuzz(func(t *testing.T, a, b, c, d float64, word uint8, text string) {
		for _, fn := range functions {
			tryOne(t, fn, [4]float64{a, b, c, d}, int(word), text)
		}
	})
}

// FuzzPlatform stays near the platform equation's ranges, which plain fuzzing
// seldom meets with all its arguments at once.
func FuzzPlatform(f *testing.F) {
	f.Add(uint16(0), uint16(0), uint16(0), uint16(0), uint16(0), uint16(0), uint16(0), uint8(0))
	f.Add(uint16(65535), uint16(65535), uint16(65535), uint16(65535), uint16(65535), uint16(65535), uint16(65535), uint8(5))
	f.Fuzz(func(t *testing.T, load, pressure, passes, rut, ground, stone, modulus uint16, kind uint8) {
		part := func(x uint16, low, high float64) float64 { return low + float64(x)/65535*(high-low) }
		c := geosynthetic.PlatformCase{
			WheelLoad: quantity.Kilonewtons(part(load, 19, 61)), TirePressure: quantity.Kilopascals(part(pressure, 270, 830)),
			Passes: part(passes, 90, 10100), Rut: quantity.Millimeters(part(rut, 49, 101)),
			SubgradeCBR: part(ground, 0.45, 5.05), BaseCBR: part(stone, 4, 101),
			Support:   []geosynthetic.Support{geosynthetic.NoSupport, geosynthetic.FabricSupport, geosynthetic.GridSupport}[kind%3],
			Constants: []geosynthetic.PlatformConstants{geosynthetic.PublishedConstants, geosynthetic.LaboratoryConstants}[kind/3%2],
		}
		if c.Support == geosynthetic.GridSupport {
			c.ApertureModulus = part(modulus, -0.01, 0.82)
		}
		p, err := c.Size()
		h := float64(p.BeforeLeast)
		switch {
		case err != nil:
			if p != (geosynthetic.Platform{}) {
				t.Fatalf("%+v: refused with an answer %+v", c, p)
			}
		case !calculation.Finite(h, float64(p.Thickness), float64(p.WithoutBase)):
			t.Fatalf("%+v gives %+v", c, p)
		case p.Thickness < geosynthetic.PlatformThicknessLeast || p.Thickness > 5:
			t.Fatalf("%+v gives %+v", c, p)
		case h > 0 && math.Abs(h-textbook(c, h)) > 1e-6:
			t.Fatalf("%+v: %g put back gives %g", c, h, textbook(c, h))
		}
	})
}

func tryOne(t *testing.T, fn calculation.Function, xs [4]float64, word int, text string) {
	sig, err := fn.Signature()
	if err != nil {
		t.Fatal(err)
	}
	in := make([]reflect.Value, len(sig.Params))
	for i, k := range sig.Params {
		in[i] = reflect.New(k.Go).Elem()
		switch k.Form {
		case calculation.Number, calculation.Measured:
			in[i].SetFloat(xs[i%4])
		case calculation.Bool:
			in[i].SetBool(word%2 == 0)
		case calculation.Text:
			in[i].SetString(text)
		case calculation.Word:
			words := reflect.Zero(k.Go).Interface().(value.Worded).Vocabulary().Words
			if at := (word + i) % (len(words) + 1); at < len(words) {
				in[i].SetString(words[at].Label)
			} else {
				in[i].SetString(text)
			}
		default:
			t.Fatalf("%s: argument %d of an unexpected form", fn.Name, i)
		}
	}
	out := reflect.ValueOf(fn.Go).Call(in)
	failed := sig.Fails && !out[1].IsNil()
	switch sig.Result.Form {
	case calculation.Number, calculation.Measured:
		if x := out[0].Float(); !calculation.Finite(x) || (failed && x != 0) {
			t.Fatalf("%s%v gives %g, failed %v", fn.Name, in, x, failed)
		}
	case calculation.Word:
		known := false
		for _, w := range out[0].Interface().(value.Worded).Vocabulary().Words {
			known = known || w.Label == out[0].String()
		}
		if known == failed {
			t.Fatalf("%s%v gives the word %q, failed %v", fn.Name, in, out[0].String(), failed)
		}
	}
}
