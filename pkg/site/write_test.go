package site_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// roundTrip writes a site and reads it back.
func roundTrip(t testing.TB, s *site.Site) {
	t.Helper()
	text, err := site.Write(s)
	require.NoError(t, err)
	back, err := site.Read("job.yaml", text)
	require.NoError(t, err, "%s", text)
	sameSite(t, s, back)
	again, err := site.Write(back)
	require.NoError(t, err)
	require.Equal(t, string(text), string(again), "writing what was read changes nothing")
}

func TestWriteReadsBack(t *testing.T) {
	for _, text := range []string{least, patio, other, least + "surface_slope: 1/4 in per ft\n"} {
		roundTrip(t, read(t, text))
	}
}

// What was written in a unit of the trade is written back in one.
func TestWriteKeepsTradeUnits(t *testing.T) {
	text, err := site.Write(read(t, `area: 37.5 sq m
use: foot
base: panel
perimeter: 82 ft
soil: {sieves: [{sieve: 3/8 in, passing: 90}, {sieve: 0.02 mm, passing: 5}]}
frost: {depth: 3-1/8 in, mean_annual_temperature: 48.5 F, freezing_index: 500 C-days}
surface_slope: 1/4 in/ft
note: "yes: 3"
`))
	require.NoError(t, err)
	require.Equal(t, `area: 37.5 m2
perimeter: 82 ft
use: foot
base: panel
soil:
  sieves:
    - sieve: 3/8 in
      passing: 90
    - sieve: 0.02 mm
      passing: 5
frost:
  freezing_index: 900 F-days
  depth: 3.125 in
  mean_annual_temperature: 48.5 F
surface_slope: 0.25 in per ft
note: "yes: 3"
`, string(text))
}

// Numbers are written as people write them, where that is no long row of noughts.
func TestWriteNumbers(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1e-7: "0.0000001", 9e-8: "9e-08", 999e6: "999000000", 0.1: "0.1"} {
		s := read(t, least)
		s.Traffic.ESALOverLife = &x
		text, err := site.Write(s)
		require.NoError(t, err)
		require.Contains(t, string(text), "esal_over_life: "+want+"\n")
	}
}

// TestWriteReadsBackAnySite fills sites at random, with round values of trade
// units and with any float64 at all, and drops those that do not validate.
func TestWriteReadsBackAnySite(t *testing.T) {
	const wanted = 200
	r := rand.New(rand.NewPCG(7, 11))
	tried, kept := 0, 0
	for ; kept < wanted && tried < 20*wanted; tried++ {
		s := randomSite(r)
		if s.Validate() != nil {
			continue
		}
		kept++
		roundTrip(t, s)
	}
	require.Equal(t, wanted, kept, "of %d tried", tried)
	t.Logf("%d sites of %d tried", kept, tried)
}

// randomSite fills about a third of the fields, and mends most contradictions.
func randomSite(r *rand.Rand) *site.Site {
	s := &site.Site{}
	fill(r, reflect.ValueOf(s).Elem(), true)
	s.Areas, s.Alternatives, s.Edges, s.Shape.Corners, s.Shape.Diameter = nil, nil, nil, nil, nil // few of which would be possible
	if s.Shape.Length == nil || s.Shape.Width == nil {
		s.Shape = site.Shape{}
	}
	for _, f := range site.Fields() {
		x, given := f.Get(s)
		if !given || reflect.ValueOf(x).Kind() != reflect.Float64 {
			continue
		}
		if least, most := f.Bounds(); reflect.ValueOf(x).Float() < least || reflect.ValueOf(x).Float() > most {
			_ = f.Set(s, least+r.Float64()*(most-least)) // a number is what these fields take
		}
	}
	for i := range s.Soil.Sieves {
		s.Soil.Sieves[i].Passing = quantity.Percent(float64(100 / (i + 1)))
		s.Soil.Sieves[i].Opening = quantity.Length(math.Pow(10, -float64(i)-2*r.Float64()))
	}
	for i := range s.Overrides {
		s.Overrides[i].Decision += string(rune('a' + i))
	}
	g := &s.Soil
	if g.LiquidLimit != nil && g.PlasticLimit != nil {
		*g.PlasticLimit = *g.LiquidLimit * r.Float64()
	}
	if s.Shape.Length != nil {
		s.Area, s.Perimeter = quantity.Area(*s.Shape.Length**s.Shape.Width), nil
	}
	if s.Perimeter != nil && *s.Perimeter < quantity.Length(4*math.Sqrt(float64(s.Area))) {
		s.Perimeter = nil
	}
	g.Nonplastic, s.Frost.FrostFree, g.Organic = new(false), new(false), new(true)
	s.Traffic.TrucksOverLife, s.Traffic.ESALPerDay = nil, nil
	if len(g.DCP.Readings) > 0 {
		g.DCP.MMPerBlow = nil
	}
	return s
}

func fill(r *rand.Rand, v reflect.Value, must bool) {
	if !v.CanSet() || !must && r.IntN(3) > 0 {
		return
	}
	if w, ok := v.Interface().(value.Worded); ok {
		words := w.Vocabulary().Words
		v.SetString(words[r.IntN(len(words))].GoValue())
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		always := v.Type() == reflect.TypeFor[site.Override]() || v.Type() == reflect.TypeFor[site.Blows]() || v.Type() == reflect.TypeFor[site.Sieve]()
		for i := range v.NumField() {
			name := v.Type().Field(i).Name
			fill(r, v.Field(i), always || name == "Area" || name == "Use" || name == "Base" || v.Field(i).Kind() == reflect.Struct)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(r, v.Elem(), true)
	case reflect.Slice:
		if v.Type().Elem() == reflect.TypeFor[site.Site]() {
			return // areas, each with areas
		}
		v.Set(reflect.MakeSlice(v.Type(), 1+r.IntN(3), 4))
		for i := range v.Len() {
			fill(r, v.Index(i), true)
		}
	case reflect.String:
		v.SetString(randomText(r))
	case reflect.Bool:
		v.SetBool(r.IntN(2) == 0)
	case reflect.Int:
		v.SetInt(int64(1 + r.IntN(40)))
	case reflect.Float64:
		v.SetFloat(randomFloat(r, v))
	}
}

// randomFloat returns a round number of some unit of the trade half of the time.
func randomFloat(r *rand.Rand, v reflect.Value) float64 {
	if m, ok := v.Interface().(quantity.Measure); ok && r.IntN(2) == 0 {
		units := m.Quantity().Dim.Units()
		if q, err := units[r.IntN(len(units))].Quantity(float64(r.IntN(4000)) / 8); err == nil {
			return q.SI
		}
	}
	switch r.IntN(4) {
	case 0:
		return float64(r.IntN(100))
	case 1:
		return r.Float64() / 2
	case 2:
		return math.Float64frombits(r.Uint64() >> 2) // 0 to 2, most of it tiny
	}
	return r.ExpFloat64() * 30
}

func randomText(r *rand.Rand) string {
	runes := []rune("aZ 09:#-'\"\\\n\t{}[],&*!|>%@`?~äß½中\u00a0\u2028\u200b\ufeff😀=<")
	out := make([]rune, r.IntN(12))
	for i := range out {
		out[i] = runes[r.IntN(len(runes))]
	}
	if strings.TrimSpace(string(out)) == "" {
		return "one"
	}
	words := []string{"null", "yes", "~", "1e3", "- a", "a: b", " a", "a ", "true", "<<", "inches(8)", "..."}
	if r.IntN(3) == 0 {
		return words[r.IntN(len(words))]
	}
	return string(out)
}
