package site_test

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/portable"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// FuzzRead reads any bytes: it must not panic, what it accepts must validate
// and be written back as it was read, and what it refuses must name a place.
func FuzzRead(f *testing.F) {
	for _, text := range []string{"", least, patio, other, "area: 1 in\nuse:\nbase: 'open'\nsoil: {cbr: [1, x, {}], sieves: [1, {}]}\noverrides: [{}]",
		least + "soil: {dcp: {mm_per_blow: 12}, sieves: [{sieve: 1 m, passing: 1e-3}]}\nsurface_slope: 1 in per 3 ft\nnote: |\n  a\n\n  b",
		`{"area": "400 sq ft", "use": "foot", "base": "open", "rain": {"storage": true}}`} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, err := site.Read("job.yaml", data)
		if err != nil {
			var list diagnostic.List
			if s != nil || !errors.As(err, &list) || len(list) == 0 {
				t.Fatalf("refused without a list: %v", err)
			}
			for _, d := range list {
				if d.Place.File != "job.yaml" || d.Code == "" || d.Message == "" {
					t.Fatalf("incomplete: %#v", d)
				}
			}
			return
		}
		if err := s.Validate(); err != nil {
			t.Fatalf("read, but does not validate: %v", err)
		}
		checkInputs(t, s)
		roundTrip(t, s)
	})
}

// FuzzSite puts any number into each field of a site built in Go.
func FuzzSite(f *testing.F) {
	for _, x := range []float64{0, 1, -1, 50, 0.075e-3, 1e-101, 5e-324, 1e101, math.MaxFloat64, math.NaN(), math.Inf(1), math.Inf(-1)} {
		f.Add(x, x, 3)
		f.Add(x, 0.3, 40)
	}
	f.Fuzz(func(t *testing.T, x, y float64, skip int) {
		s := &site.Site{
			Area: 1, Use: "foot", Base: "dense",
			Soil: site.Subgrade{
				CBR: make([]float64, 1), DCP: site.DCP{Readings: make([]site.Blows, 1)},
				Sieves: []site.Sieve{{Opening: quantity.Length(x), Passing: quantity.Share(y)}, {Opening: quantity.Length(y), Passing: quantity.Share(x)}, {Opening: quantity.Length(x * y), Passing: 0.4}},
			},
		}
		n := 0
		setFloats(reflect.ValueOf(s).Elem(), func() float64 {
			n++
			if n%2 == 0 {
				return y
			}
			return x
		}, func() bool { return skip > 0 && n%(skip%40+1) == 0 })
		err := s.Validate()
		checkInputs(t, s)
		if err == nil {
			roundTrip(t, s)
		}
	})
}

// setFloats fills the fields that hold numbers, but those of the sieves.
func setFloats(v reflect.Value, next func() float64, skip func() bool) {
	switch {
	case !v.CanSet() || v.Type() == reflect.TypeFor[[]site.Sieve]():
	case v.Kind() == reflect.Struct:
		for i := range v.NumField() {
			setFloats(v.Field(i), next, skip)
		}
	case v.Kind() == reflect.Slice:
		for i := range v.Len() {
			setFloats(v.Index(i), next, skip)
		}
	case v.Kind() == reflect.Pointer && v.Type().Elem().Kind() == reflect.Float64:
		x := next()
		if !skip() {
			v.Set(reflect.New(v.Type().Elem()))
			v.Elem().SetFloat(x)
		}
	case v.Kind() == reflect.Float64:
		v.SetFloat(next())
	case v.Kind() == reflect.Int:
		if x := next(); math.Abs(x) < 1e9 {
			v.SetInt(int64(x))
		}
	}
}

// checkInputs wants every input that is given to be finite and of its kind.
func checkInputs(t *testing.T, s *site.Site) {
	for _, in := range site.Inputs() {
		v, given := s.Input(in.Path)
		if !given {
			continue
		}
		if r := reflect.ValueOf(v); r.Kind() == reflect.Float64 && !portable.Finite(r.Float()) {
			t.Fatalf("%s is %v", in.Path, v)
		}
	}
}
