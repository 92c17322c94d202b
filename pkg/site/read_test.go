package site_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

func TestReadWhole(t *testing.T) {
	want := &site.Site{
		Job: "Maple Court patio", Client: "R. Ellery", Place: "14 Maple Court", Region: "Lower County", Date: "2026-04-20",
		Area: quantity.SquareFeet(400), Perimeter: new(quantity.Feet(82)),
		Use: "car_driveway", Base: "dense",
		Traffic: site.Traffic{
			TrucksPerDay: new(2.0), ESALPerDay: new(1.5), Life: new(quantity.Years(20)),
			WheelLoad: new(quantity.PoundsForce(9000)), TirePressure: new(quantity.PSI(80)),
		},
		Soil: site.Subgrade{
			Word: "clay", Consistency: "very stiff", Group: "CL", CBR: []float64{3, 4.5, 4},
			Points: []site.Point{{Place: "by the garage", Consistency: "hard"}, {Place: "by the fence", PocketPenetrometer: new(mustPressure(t, "1 tsf")), CBR: new(4.0), Probe: new(quantity.Inches(2))}},
			DCP: site.DCP{Hammer: "8 kg", Readings: []site.Blows{
				{Count: 5, Penetration: quantity.Millimeters(55)}, {Count: 10, Penetration: quantity.Inches(4)},
			}},
			UndrainedStrength:  new(quantity.Kilopascals(50)),
			PocketPenetrometer: new(mustPressure(t, "2,000 psf")), Probe: new(quantity.Inches(3)),
			Sieves: []site.Sieve{
				{Opening: quantity.Millimeters(4.75), Passing: quantity.Percent(95)}, {Opening: quantity.Millimeters(0.075), Passing: quantity.Percent(62)},
				{Opening: quantity.Millimeters(19), Passing: quantity.Percent(100)},
			},
			Passing002: new(quantity.Percent(30)), LiquidLimit: new(34.0), PlasticLimit: new(18.0), Nonplastic: new(false),
			LiquidLimitOvenDried: new(32.0), Organic: new(false), UncontrolledFill: new(false), Expansive: new(false), Contaminated: new(false),
		},
		Water: site.Water{GroundwaterDepth: new(quantity.Feet(5)), WetGround: new(false)},
		Frost: site.Frost{
			FreezingIndex: new(quantity.FahrenheitDays(900)), Depth: new(quantity.Inches(40)),
			MeanAnnualTemperature: new(quantity.Fahrenheit(48)), FreezingSeason: new(quantity.Days(90)), FrostFree: new(false),
		},
		Rain: site.Rain{
			StorageWanted: new(true), Depth: new(quantity.Inches(2)), RunOnArea: new(quantity.SquareFeet(300)),
			InfiltrationRate: new(quantity.InchesPerHour(0.5)), DrainTimeLimit: new(quantity.Hours(48)),
		},
		SurfaceSlope: new(quantity.Percent(2)),
		Paver:        site.Paver{Thickness: new(quantity.Millimeters(60)), Herringbone: new(true)},
		Nearby: site.Nearby{
			Utilities: new(true), WellDistance: new(quantity.Feet(120)), FoundationDistance: new(quantity.Feet(8)),
		},
		Joints: "sand", Compactor: "plate_compactor", BuiltIn: "inches",
		Overrides: []site.Override{{Decision: "base_thickness", Answer: "inches(8)", By: "J. Orr", Because: "Clay: the last job settled."}},
		Note:      "Gate is 36 in wide.\n# the dog is friendly\n",
	}
	got := read(t, patio)
	for _, f := range site.Fields() {
		if x, given := f.Get(want); given {
			y, _ := f.Get(got)
			require.Empty(t, cmp.Diff(x, y, alike), f.Path)
		}
	}
	require.NoError(t, want.Validate(), "what a file may say may be built in Go")
}

// A field of the Go type that no entry of the table fills would stay empty here.
func TestTableFillsEveryField(t *testing.T) {
	a, b := read(t, patio), read(t, other)
	mmPerBlow := read(t, least+"soil: {dcp: {mm_per_blow: 12}}\n")
	areas := read(t, yard)
	round := read(t, "use: foot\nbase: dense\nshape: {diameter: 10 ft}\n")
	sided := read(t, "use: foot\nbase: dense\nshape: {corners: [{side: 3 ft, angle: 90}, {side: 4 ft, angle: 36.87}, {side: 5 ft}]}\n")
	var walk func(path string, vs ...reflect.Value)
	walk = func(path string, vs ...reflect.Value) {
		if vs[0].Kind() == reflect.Struct {
			for i := range vs[0].NumField() {
				if f := vs[0].Type().Field(i); f.IsExported() {
					var each []reflect.Value
					for _, v := range vs {
						each = append(each, v.Field(i))
					}
					walk(path+"."+f.Name, each...)
				}
			}
			return
		}
		for _, v := range vs {
			if !v.IsZero() {
				return
			}
		}
		t.Errorf("no entry fills %s", path)
	}
	open, err := site.Read("job.yaml", []byte(least+"company: {pool_distance: 6 ft}\nalternatives: [{name: clean stone, base: open}]\n"))
	require.NoError(t, err)
	walk("Site", reflect.ValueOf(*a), reflect.ValueOf(*b), reflect.ValueOf(*mmPerBlow), reflect.ValueOf(*areas), reflect.ValueOf(*round), reflect.ValueOf(*sided), reflect.ValueOf(*open))
}

func TestReadForms(t *testing.T) {
	tests := []struct {
		name, why, text string
		want            func(*site.Site)
	}{
		{"least", "only three entries are needed", "", func(*site.Site) {}},
		{"nulls", "an entry left empty is as good as none", "note:\nsoil:\nperimeter: ~\n", func(*site.Site) {}},
		{"slope as a fall", "slabs are set by inches in a foot", "surface_slope: 1/4 in per ft\n",
			func(s *site.Site) { s.SurfaceSlope = new(quantity.Share(0.25 * 0.0254 / 0.3048)) }},
		{"slope with a slash", "the same, written shorter", "surface_slope: 20 mm/m\n",
			func(s *site.Site) { s.SurfaceSlope = new(quantity.Percent(2)) }},
		{"slope over a length", "the run may be other than one", "surface_slope: 2 in / 10 ft\n",
			func(s *site.Site) { s.SurfaceSlope = new(quantity.Share(2 * 0.0254 / 3.048)) }},
		{"slope in words", "a person says percent", "surface_slope: 3 percent\n",
			func(s *site.Site) { s.SurfaceSlope = new(quantity.Percent(3)) }},
		{"passing with its sign", "with the sign or the word, and without", "soil: {passing_0_02_mm: 12%, sieves: [{sieve: No. 200, passing: 28.5 percent}]}\n",
			func(s *site.Site) {
				s.Soil.Passing002 = new(quantity.Percent(12))
				s.Soil.Sieves = []site.Sieve{{Opening: quantity.Millimeters(0.075), Passing: quantity.Percent(28.5)}}
			}},
		{"one reading", "a single CBR needs no brackets", "soil: {cbr: 4}\n",
			func(s *site.Site) { s.Soil.CBR = []float64{4} }},
		{"word by another spelling", "case, spaces and hyphens are no matter of meaning", "soil: {uscs: gw_gm, consistency: Very-Stiff, word: SANDY CLAY}\n",
			func(s *site.Site) {
				s.Soil.Group, s.Soil.Consistency, s.Soil.Word = "GW-GM", "very stiff", "sandy_clay"
			}},
		{"Army order", "older manuals write GM-GC for GC-GM", "soil: {uscs: GM-GC}\n",
			func(s *site.Site) { s.Soil.Group = "GC-GM" }},
		{"true and false", "files written by programs say true", "soil: {organic: true, expansive: false}\n",
			func(s *site.Site) { s.Soil.Organic, s.Soil.Expansive = new(true), new(false) }},
		{"zero is a value", "groundwater at the surface is not groundwater unknown", "water: {groundwater: 0 ft}\nsoil: {sieves: [{sieve: No. 200, passing: 0}]}\n",
			func(s *site.Site) {
				s.Water.GroundwaterDepth = new(quantity.Length(0))
				s.Soil.Sieves = []site.Sieve{{Opening: quantity.Millimeters(0.075)}}
			}},
		{"sieve by its opening", "hydrometer sizes have no name", "soil: {sieves: [{sieve: 0.005 mm, passing: 12}]}\n",
			func(s *site.Site) {
				s.Soil.Sieves = []site.Sieve{{Opening: quantity.Millimeters(0.005), Passing: quantity.Percent(12)}}
			}},
		{"light hammer", "one word with or without its space", "soil: {dcp: {hammer: 4.6kg, mm_per_blow: [20, 31.5]}}\n",
			func(s *site.Site) {
				s.Soil.DCP = site.DCP{Hammer: "4.6 kg", MMPerBlow: []float64{20, 31.5}}
			}},
		{"no frost, as a map says it", "an index of 0 says the same once more", "frost: {frost_free: yes, freezing_index: 0 F-days}\n",
			func(s *site.Site) {
				s.Frost.FrostFree, s.Frost.FreezingIndex = new(true), new(quantity.FahrenheitDays(0))
			}},
		{"circle", "a round patio, both figures rounded to the foot, is no contradiction", "perimeter: 70 ft\n",
			func(s *site.Site) { s.Perimeter = new(quantity.Feet(70)) }},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			want := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
			tc.want(want)
			sameSite(t, want, read(t, least+tc.text))
		})
	}
}

func TestReadJSON(t *testing.T) {
	s, err := standard(t).Read("job.json", []byte(`{"area": "400 sq ft", "use": "foot", "base": "open",
		"soil": {"cbr": [3, 4], "organic": false}, "water": {"groundwater": null}}`))
	require.NoError(t, err)
	sameSite(t, &site.Site{
		Area: quantity.SquareFeet(400), Use: "foot", Base: "open",
		Soil: site.Subgrade{CBR: []float64{3, 4}, Organic: new(false)},
	}, s)
}

// Every fault of one file comes in one run, in the order of the file.
func TestReadReportsEveryFault(t *testing.T) {
	_, err := standard(t).Read("job.yaml", []byte(`job: Maple Court
area: 400 ft
perimter: 82 ft
use: fot
soil:
  cbr: [3, -4.5, 400, x]
  sieves:
    - {sieve: No. 200, passing: 95}
    - {sieve: No. 4, passing: 62}
  liquid_limit: 14
  plastic_limit: 18
water: [1]
surface_slope: 2
overrides:
  - decision: base_thickness
    answer: ""
    by: J. Orr
`))
	var got []diagnostic.Code
	var list diagnostic.List
	require.ErrorAs(t, err, &list)
	for _, d := range list {
		got = append(got, diagnostic.Code(strings.TrimPrefix(d.Place.String(), "job.yaml:")+" ")+d.Code)
	}
	want := []diagnostic.Code{
		"1:1 " + document.CodeMissingKey, // base
		"2:11 " + site.CodeQuantity,      // at the unit
		"3:1 " + document.CodeUnknownKey,
		"4:6 " + site.CodeWord,
		"6:12 " + site.CodeRange,
		"6:18 " + site.CodeRange,
		"6:23 " + document.CodeNotNumber,
		"8:33 " + site.CodeContradiction,
		"10:17 " + site.CodeContradiction,
		"12:8 " + document.CodeNotMapping,
		"13:16 " + site.CodeQuantity,
		"15:5 " + document.CodeMissingKey, // because
		"16:13 " + document.CodeMissingKey,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("faults differ (-want +got):\n%s\n%v", diff, err)
	}
}

func TestErrorIsFoundInEveryForm(t *testing.T) {
	s, err := standard(t).Read("job.yaml", []byte("area: 400 sq ft\nuse: fot\nbase: dense\n"))
	require.Nil(t, s)
	var whole *site.Error
	var list diagnostic.List
	var one *diagnostic.Diagnostic
	require.True(t, errors.As(err, &whole) && errors.As(err, &list) && errors.As(err, &one))
	want := &diagnostic.Diagnostic{
		Place: at(2, 6), Width: 3, Path: "use", Code: site.CodeWord, Message: "use is not a known word for what the paving will carry", Found: `"fot"`,
		Wanted:  "one of foot, car_driveway, heavy_driveway, light_parking, fire_lane, residential_street, collector_street, truck_yard",
		Nearest: "foot",
	}
	if diff := cmp.Diff(want, one); diff != "" {
		t.Errorf("diagnostic differs (-want +got):\n%s", diff)
	}
	require.Equal(t, list.Error(), err.Error())
}

func TestReadNoJob(t *testing.T) {
	for _, tc := range []struct {
		name, why, text string
		want            diagnostic.Code
	}{
		{"empty", "an empty file is a file with nothing filled in", "", document.CodeEmpty},
		{"list", "a job is no list", "- area: 400 sq ft\n", document.CodeNotMapping},
		{"text", "nor a word", "patio\n", document.CodeNotMapping},
		{"alias", "what is read must be what is seen", "area: &a 400 sq ft\nuse: foot\nbase: dense\nperimeter: *a\n", document.CodeAnchor},
		{"duplicate key", "the second would hide the first", least + "use: fire_lane\n", document.CodeDuplicateKey},
	} {
		t.Run(tc.name, func(t *testing.T) {
			_, err := standard(t).Read("job.yaml", []byte(tc.text))
			var one *diagnostic.Diagnostic
			require.ErrorAs(t, err, &one)
			require.Equal(t, tc.want, one.Code, err.Error())
		})
	}
}

func mustPressure(t *testing.T, text string) quantity.Pressure {
	q, err := quantity.ParseAs(quantity.DimPressure, text)
	require.NoError(t, err)
	return quantity.Pressure(q.SI)
}
