package quantity

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestJSONForm(t *testing.T) {
	cases := map[string]Measure{
		`{"value":0.1524,"unit":"m"}`:       Inches(6),
		`{"value":0.02,"unit":"1"}`:         Quantity{DimRatio, 0.02},
		`{"value":48000000,"unit":"K-s"}`:   FahrenheitDays(1000),
		`{"value":-40,"unit":"C"}`:          Fahrenheit(-40),
		`{"value":20000,"unit":"N/m"}`:      KilonewtonsPerMeter(20),
		`{"value":0.5,"unit":"1/s"}`:        Permittivity(0.5),
		`{"value":1e-9,"unit":"m/s"}`:       Rate(1e-9),
		`{"value":2400,"unit":"kg/m3"}`:     KgPerM3(2400),
		`{"value":1e+100,"unit":"Pa"}`:      Pressure(1e100),
		`{"value":0.2,"unit":"kg/m2"}`:      ArealMass(0.2),
		`{"value":3600,"unit":"s"}`:         Hours(1),
		`{"value":1000,"unit":"N"}`:         Kilonewtons(1),
		`{"value":2,"unit":"m2"}`:           SquareMeters(2),
		`{"value":2,"unit":"m3"}`:           Volume(2),
		`{"value":0.45359237,"unit":"kg"}`:  Pounds(1),
		`null`:                              Quantity{},
		`{"value":0.15,"unit":"m"}`:         Millimeters(150),
		`{"value":0.30479999,"unit":"m"}`:   Length(0.30479999),
		`{"value":1.7976e+308,"unit":"kg"}`: Mass(1.7976e308),
	}
	for want, m := range cases {
		data, err := json.Marshal(m.Quantity())
		require.NoError(t, err)
		require.Equal(t, want, string(data))
		var back Quantity
		require.NoError(t, json.Unmarshal(data, &back))
		require.Equal(t, m.Quantity(), back)
	}
}

// Property: the JSON form gives back the same bits, for every dimension.
func TestJSONIsExact(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, d := range Dimensions() {
		for range 500 {
			q := Quantity{d, math.Float64frombits(r.Uint64())}
			if q.check() != nil {
				continue
			}
			data, err := json.Marshal(q)
			require.NoError(t, err)
			var back Quantity
			require.NoError(t, json.Unmarshal(data, &back))
			require.Equal(t, q, back)
		}
	}
}

func TestJSONReadsTradeText(t *testing.T) {
	var got struct{ Depth, Cover, Left Quantity }
	require.NoError(t, json.Unmarshal([]byte(`{"depth": "3-1/8 in", "cover": {"unit": "in", "value": 4}, "left": null}`), &got))
	require.Equal(t, Inches(3.125).Quantity(), got.Depth)
	require.Equal(t, Inches(4).Quantity(), got.Cover)
	require.Equal(t, Quantity{}, got.Left)
}

func TestJSONRefuses(t *testing.T) {
	cases := map[string]string{
		"bare number":       `6`,
		"no unit":           `{"value": 6}`,
		"no value":          `{"unit": "in"}`,
		"null value":        `{"value": null, "unit": "in"}`,
		"unknown unit":      `{"value": 6, "unit": "inn"}`,
		"two meanings":      `{"value": 6, "unit": "lb/ft2"}`,
		"further field":     `{"value": 6, "unit": "in", "note": ""}`,
		"bad text":          `"6 inn"`,
		"list":              `[6, "in"]`,
		"too large":         `{"value": 1e999, "unit": "m"}`,
		"too large turned":  `{"value": 1e308, "unit": "kip"}`,
		"text for a number": `{"value": "6", "unit": "in"}`,
	}
	for why, text := range cases {
		q := Inches(1).Quantity()
		require.Error(t, json.Unmarshal([]byte(text), &q), why)
		require.Equal(t, Inches(1).Quantity(), q, "%s: what was there stays", why)
	}
	q := Quantity{}
	for _, direct := range []string{"", " ", `{`, `"`, `{"value": 6, "unit": "in"} x`} {
		require.Error(t, q.UnmarshalJSON([]byte(direct)), direct)
	}
	for _, bad := range []Quantity{{DimLength, math.NaN()}, {DimLength, math.Inf(-1)}, {NoDimension, 1}, {Dimension(99), 1}} {
		_, err := json.Marshal(bad)
		require.Error(t, err)
	}
}
