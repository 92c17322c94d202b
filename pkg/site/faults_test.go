package site_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

// TestFaults reads one faulty line behind a sound job, so that line 4 is the
// line at fault.
// TestRefusedValueIsToldOnce: what the reader of files refuses is not told again as
// a value that is none.
func TestRefusedValueIsToldOnce(t *testing.T) {
	_, err := site.Read("job.yaml", []byte("area: &x 400 sq ft\nuse: *x\nbase: dense\n"))
	require.EqualError(t, err, "job.yaml:1:7: an anchor may not be used; found &x; write area: 400 sq ft\njob.yaml:2:6: an alias may not be used; found *x; wanted what it stands for, written out")
}

// TestLongestList: a list of just as many items as there may be is read like any
// other.
func TestLongestList(t *testing.T) {
	s := read(t, least)
	s.Soil.CBR = make([]float64, 1000)
	require.NoError(t, s.Validate())
	s.Soil.CBR[999] = 201
	require.ErrorContains(t, s.Validate(), "soil.cbr[999] is out of range")
}

func TestFaults(t *testing.T) {
	tests := []struct{ name, why, line, want string }{
		{"number without unit", "wrong units are the classic error", "perimeter: 82",
			`4:14: perimeter cannot be read: a unit is missing, and a length is wanted; found "82"; wanted length, such as 82 ft; units are in, ft, yd, mm, cm, m, um`},
		{"no number at all", "no unit is wanted before a number", "perimeter: abc",
			`4:12: perimeter cannot be read: no number to read; a quantity begins with one, as in 6 in; found "abc"; wanted length, such as 82 ft`},
		{"unit misspelt", "the mark stands at the unit", "perimeter: 82 fet",
			`4:15: perimeter cannot be read: unknown unit "fet"; found "82 fet"; wanted length, such as 82 ft; units are in, ft, yd, mm, cm, m, um; did you mean "ft"?`},
		{"unit in quotes", "the quote takes a column", `perimeter: "82 fet"`,
			`4:16: perimeter cannot be read: unknown unit "fet"; found "82 fet"; wanted length, such as 82 ft; units are in, ft, yd, mm, cm, m, um; did you mean "ft"?`},
		{"pound for pound-force", "a load is a force", "traffic: {wheel_load: 9000 lb}",
			`4:28: traffic.wheel_load cannot be read: "lb" measures a mass, and a force is wanted; found "9000 lb"; wanted force, such as 9,000 lbf; units are lbf, kip, kN, N; did you mean "lbf"?`},
		{"list for a value", "each entry has one shape", "compactor: [plate]",
			`4:12: compactor takes a single value; found a list; wanted one of hand_tamper, plate_compactor, reversible_plate, trench_roller, ride_on_roller`},
		{"value for a list", "the same, the other way", "overrides: none",
			`4:12: overrides takes a list; found "none"; wanted a list, each an override`},
		{"unknown key in a group", "keys are checked at every depth", "soil: {wrd: clay}",
			`4:8: unknown key "wrd" in soil; wanted word, consistency, uscs, cbr, dcp, undrained_strength, pocket_penetrometer, probe, boot, firmest_place, points, tested_in, topsoil_depth, fill_depth, firm_depth, refusal_depth, sieves, passing_0_02_mm, liquid_limit, plastic_limit, nonplastic, liquid_limit_oven_dried, organic, uncontrolled_fill, expansive, contaminated, soft_spots or fill_removed; did you mean "word"?`},
		{"borderline symbol", "one soil, one symbol", "soil: {uscs: CL/CH}",
			`4:14: soil.uscs is a borderline soil of two groups; give the weaker; found "CL/CH"; wanted one of GW, GP`},
		{"neither yes nor no", "a flag has no third word", "soil: {organic: maybe}",
			`4:17: soil.organic is neither yes nor no; found "maybe"; wanted yes or no`},
		{"CBR below zero", "impossible", "soil: {cbr: -1}", `4:13: soil.cbr is out of range; found "-1"; wanted 0 to 200 %`},
		{"CBR above 200", "a slip of the pen", "soil: {cbr: [3, 201]}", `4:17: soil.cbr[1] is out of range; found "201"; wanted 0 to 200 %`},
		{"liquid below plastic", "the limits are in that order by nature", "soil: {liquid_limit: 14, plastic_limit: 18}",
			`4:22: soil.liquid_limit is below soil.plastic_limit; found "14"; wanted 18 or more; job.yaml:4:41: see soil.plastic_limit`},
		{"nonplastic with limits", "one of them is wrong", "soil: {nonplastic: yes, plastic_limit: 18}",
			`4:20: soil.nonplastic cannot be yes beside a plastic limit; found "yes"; wanted only one of soil.nonplastic and soil.plastic_limit; job.yaml:4:40: see soil.plastic_limit`},
		{"rising curve", "no finer sieve passes more", "soil: {sieves: [{sieve: No. 200, passing: 40}, {sieve: No. 4, passing: 30}]}",
			`4:43: soil.sieves[0].passing is more than passes a coarser sieve; found "40"; wanted 30 % or less; job.yaml:4:72: see soil.sieves[1].passing`},
		{"rising to 0.02 mm", "the hydrometer is on the same curve", "soil: {sieves: [{sieve: No. 200, passing: 4}], passing_0_02_mm: 5}",
			`4:65: soil.passing_0_02_mm is more than passes a coarser sieve; found "5"; wanted 4 % or less; job.yaml:4:43: see soil.sieves[0].passing`},
		{"sieve twice", "No. 200 opens 0.075 mm", "soil: {sieves: [{sieve: No. 200, passing: 4}, {sieve: 75 um, passing: 4}]}",
			`4:47: soil.sieves[1] gives the same size again; found 75 um; job.yaml:4:17: see soil.sieves[0]`},
		{"no such sieve", "nor is 43 one of a series", "soil: {sieves: [{sieve: No. 39, passing: 4}]}",
			`4:25: soil.sieves[0].sieve is not a sieve of the US series; found "No. 39"; wanted sieve, such as No. 200 or 3/4 in, or an opening, such as 0.02 mm; did you mean "No. 30"?`},
		{"passing missing", "a zero must be written to be meant", "soil: {sieves: [{sieve: No. 200}]}",
			`4:17: soil.sieves[0].passing is missing; wanted percent, such as 62`},
		{"passing above 100", "a percentage", "soil: {sieves: [{sieve: No. 200, passing: 101}]}",
			`4:43: soil.sieves[0].passing is out of range; found "101"; wanted 0 to 100 %`},
		{"negative depth", "depth is counted downwards", "water: {groundwater: -1 ft}",
			`4:22: water.groundwater is out of range; found "-1 ft"; wanted 0 to 5,000 ft (0 to 1,524 m)`},
		{"negative index", "an index counts cold only", "frost: {freezing_index: -900 F-days}",
			`4:25: frost.freezing_index is out of range; found "-900 F-days"; wanted 0 to 20,000 F-days (0 to 11,111 C-days)`},
		{"frost-free with an index", "one of them is wrong", "frost: {frost_free: yes, freezing_index: 10 F-days}",
			`4:21: frost.frost_free cannot be yes beside a freezing index above 0; found "yes"; wanted only one of frost.frost_free and frost.freezing_index; job.yaml:4:42: see frost.freezing_index`},
		{"frost-free with a depth", "one of them is wrong", "frost: {frost_free: yes, depth: 10 in}",
			`4:21: frost.frost_free cannot be yes beside a frost depth above 0; found "yes"; wanted only one of frost.frost_free and frost.depth; job.yaml:4:33: see frost.depth`},
		{"Fahrenheit as Celsius", "the likeliest slip with temperatures", "frost: {mean_annual_temperature: 48 C}",
			`4:34: frost.mean_annual_temperature is out of range; found "48 C"; wanted -76 to 104 F (-60 to 40 C)`},
		{"steeper than 50 %", "no one paves so", "surface_slope: 51 %", `4:16: surface_slope is out of range; found "51 %"; wanted 0 to 50 %`},
		{"paver of a kilometer", "the unit is wrong", "paver: {thickness: 1000 m}", `4:20: paver.thickness is out of range; found "1000 m"; wanted 0.375 to 6 in (9.5 to 152.4 mm)`},
		{"liquid limit of a googol", "no soil has it", "soil: {liquid_limit: 1e100}", `4:22: soil.liquid_limit is out of range; found "1e100"; wanted 0 to 1,000 %`},
		{"life of a second", "a slip that halves the base of a street", "traffic: {life: 1 s}", `4:17: traffic.life is out of range; found "1 s"; wanted 1 to 100 years`},
		{"slope without unit", "2 and 0.02 are both written for 2 %", "surface_slope: 0.02",
			`4:16: surface_slope is not a slope with its unit; found "0.02"; wanted slope, such as 2 %, 1/4 in per ft or 1:50`},
		{"half a blow", "blows are counted", "soil: {dcp: {readings: [{blows: 2.5, penetration: 20 mm}]}}",
			`4:33: soil.dcp.readings[0].blows is out of range; found "2.5"; wanted a whole number, 1 to 1,000,000`},
		{"sounding twice", "which one holds?", "soil: {dcp: {mm_per_blow: 5, readings: [{blows: 5, penetration: 20 mm}]}}",
			`4:27: soil.dcp.mm_per_blow gives the sounding a second time; found "5"; wanted only one of soil.dcp.mm_per_blow and soil.dcp.readings; job.yaml:4:40: see soil.dcp.readings`},
		{"trucks twice", "a day's count and a life's may disagree", "traffic: {trucks_per_day: 1, trucks_over_life: 9}",
			`4:48: traffic.trucks_over_life counts the trucks a second time; found "9"; wanted only one of traffic.trucks_over_life and traffic.trucks_per_day; job.yaml:4:27: see traffic.trucks_per_day`},
		{"axles twice", "the same", "traffic: {esal_per_day: 1, esal_over_life: 9}",
			`4:44: traffic.esal_over_life counts the axles a second time; found "9"; wanted only one of traffic.esal_over_life and traffic.esal_per_day; job.yaml:4:25: see traffic.esal_per_day`},
		{"perimeter too short", "no shape has less edge than a circle", "perimeter: 60 ft",
			`4:12: perimeter is shorter than that of a circle of the area; found "60 ft"; wanted 70.9 ft or more; job.yaml:1:7: see area`},
		{"OH without organic soil", "the O says so", "soil: {uscs: OH, organic: no}",
			`4:27: soil.organic cannot be no in an organic group; found "no"; wanted only one of soil.organic and soil.uscs; job.yaml:4:14: see soil.uscs`},
		{"override twice", "a decision has one answer", "overrides: [{decision: a, answer: x, by: y, because: z}, {decision: a, answer: x, by: y, because: z}]",
			`4:69: overrides[1].decision is overridden already; found "a"; job.yaml:4:24: see overrides[0].decision`},
		{"override without reason", "every choice has a reason", "overrides: [{decision: a, answer: x, by: y, because: '  '}]",
			`4:54: overrides[0].because is blank; found "  "; wanted text, or nothing`},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			_, err := standard(t).Read("job.yaml", []byte(least+tc.line+"\n"))
			require.Error(t, err)
			// The list of symbols is long; its head is enough.
			got, _, _ := strings.Cut(strings.TrimPrefix(err.Error(), "job.yaml:"), ", GM, GC,")
			if diff := cmp.Diff(tc.want, got); diff != "" {
				t.Errorf("error differs (-want +got):\n%s", diff)
			}
		})
	}
}

// TestOneFault: what is wrong is said once, and not again of what rests on it.
func TestOneFault(t *testing.T) {
	tests := []struct {
		name, why, text string
		path            string
		code            diagnostic.Code
	}{
		{"area", "no perimeter is too short for an area that is not there", "area: -400 sq ft\nuse: foot\nbase: dense\nperimeter: 60 ft\n", "area", site.CodeRange},
		{"perimeter", "nor is one of no size", least + "perimeter: 0 ft\n", "perimeter", site.CodeRange},
		{"a list for a flag", "it is neither yes nor no besides", least + "soil: {organic: [yes]}\n", "soil.organic", document.CodeNotSingle},
		{"a list for a word", "it is not an unknown word besides", least + "soil: {word: [clay]}\n", "soil.word", document.CodeNotSingle},
		{"a list for a length", "nor a missing unit", "area: [400 sq ft]\nuse: foot\nbase: dense\n", "area", document.CodeNotSingle},
		{"a mapping for a reading", "nor a number", least + "soil: {cbr: [3, {a: 1}]}\n", "soil.cbr[1]", document.CodeNotSingle},
		{"nonplastic", "no limit contradicts what is neither yes nor no", least + "soil: {nonplastic: x, liquid_limit: 30}\n", "soil.nonplastic", document.CodeNotBool},
		{"limit", "nor what is not a number", least + "soil: {nonplastic: yes, liquid_limit: x}\n", "soil.liquid_limit", document.CodeNotNumber},
		{"liquid limit", "what is not possible is below nothing", least + "soil: {liquid_limit: -3, plastic_limit: 18}\n", "soil.liquid_limit", site.CodeRange},
		{"plastic limit", "the same, the other way", least + "soil: {liquid_limit: 14, plastic_limit: -18}\n", "soil.plastic_limit", site.CodeRange},
		{"frost depth", "of no depth that can be read", least + "frost: {frost_free: yes, depth: 3}\n", "frost.depth", site.CodeQuantity},
		{"sieve", "it is not the same again", least + "soil: {sieves: [{sieve: No. 4, passing: 3}, {sieve: x, passing: 3}]}\n", "soil.sieves[1].sieve", site.CodeQuantity},
		{"percent", "nor does more pass it", least + "soil: {sieves: [{sieve: No. 4, passing: 3}, {sieve: No. 200, passing: 300}]}\n", "soil.sieves[1].passing", site.CodeRange},
		{"0.02 mm", "nor this", least + "soil: {sieves: [{sieve: No. 4, passing: 3}], passing_0_02_mm: 300}\n", "soil.passing_0_02_mm", site.CodeRange},
		{"set of blows", "what is not there has no count", least + "soil: {dcp: {readings: [3]}}\n", "soil.dcp.readings[0]", document.CodeNotMapping},
		{"trucks", "of no number", least + "traffic: {trucks_per_day: x, trucks_over_life: 3}\n", "traffic.trucks_per_day", document.CodeNotNumber},
		{"override", "of no decision twice", least + "overrides: [{decision: [a], answer: x, by: y, because: z}]\n", "overrides[0].decision", document.CodeNotSingle},
		{"no job", "nothing is missing in a list", "- area: 400 sq ft\n", "", document.CodeNotMapping},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			_, err := site.Read("job.yaml", []byte(tc.text))
			var bad *site.Error
			require.ErrorAs(t, err, &bad, tc.why)
			require.Len(t, bad.Faults, 1, "%v", err)
			require.Equal(t, tc.path, bad.Faults[0].Path)
			require.Equal(t, tc.code, bad.Faults[0].Code)
		})
	}
}

func TestValidate(t *testing.T) {
	tests := []struct {
		name, why string
		change    func(*site.Site)
		want      string
	}{
		{"sound", "three values are enough", func(*site.Site) {}, ""},
		{"nothing", "the zero site is no job", func(s *site.Site) { *s = site.Site{} },
			"area is missing; wanted area, such as 400 sq ft\n" +
				"use is missing; wanted a word, such as foot\n" +
				"base is missing; wanted a word, such as dense"},
		{"negative area", "impossible", func(s *site.Site) { s.Area = quantity.SquareFeet(-3) },
			"area is out of range; found -3 sq ft; wanted above 0 and at most 10,000,000 sq ft (above 0 and at most 929,030 m2)"},
		{"no number", "NaN compares with nothing", func(s *site.Site) { s.Water.GroundwaterDepth = new(quantity.Length(math.NaN())) },
			"water.groundwater is out of range; found NaN m; wanted 0 to 5,000 ft (0 to 1,524 m)"},
		{"infinite", "nor is this a depth", func(s *site.Site) { s.Water.GroundwaterDepth = new(quantity.Length(math.Inf(1))) },
			"water.groundwater is out of range; found +Inf m; wanted 0 to 5,000 ft (0 to 1,524 m)"},
		{"misspelt word of a formula", "these are closed without a rulebook", func(s *site.Site) { s.Soil.DCP.Hammer = "8 lb" },
			`soil.dcp.hammer is not a known word for hammers of the dynamic cone penetrometer; found "8 lb"; wanted one of 8 kg, 4.6 kg`},
		{"reading", "lists are checked by item", func(s *site.Site) { s.Soil.CBR = []float64{3, 300} },
			"soil.cbr[1] is out of range; found 300; wanted 0 to 200 %"},
		{"empty blow", "a set of blows needs both", func(s *site.Site) { s.Soil.DCP.Readings = []site.Blows{{}} },
			"soil.dcp.readings[0].blows is missing; wanted a plain number, such as 5\n" +
				"soil.dcp.readings[0].penetration is missing; wanted length, such as 55 mm"},
		{"contradiction", "both paths are named", func(s *site.Site) { s.Soil.Nonplastic, s.Soil.LiquidLimit = new(true), new(30.0) },
			"soil.nonplastic cannot be yes beside a liquid limit; wanted only one of soil.nonplastic and soil.liquid_limit; see soil.liquid_limit"},
		{"bytes that are no text", "a file could not hold them", func(s *site.Site) { s.Note = "a\xff" },
			`note holds characters that cannot be printed; found "a\xff"; wanted plain text`},
		{"override without author", "someone must stand for it", func(s *site.Site) {
			s.Overrides = []site.Override{{Decision: "a", Answer: "b", Because: "c"}}
		}, "overrides[0].by is missing; wanted text"},
	}
	for _, tc := range tests {
		t.Run(tc.name, func(t *testing.T) {
			s := &site.Site{Area: quantity.SquareFeet(400), Use: "foot", Base: "dense"}
			tc.change(s)
			err := s.Validate()
			_, writeErr := site.Write(s)
			if tc.want == "" {
				require.NoError(t, err)
				require.NoError(t, writeErr)
				return
			}
			require.EqualError(t, err, tc.want)
			require.EqualError(t, writeErr, tc.want, "what does not validate is not written")
			var whole *site.Error
			var list diagnostic.List
			require.True(t, errors.As(err, &whole) && errors.As(err, &list))
			for _, d := range list {
				require.Zero(t, d.Place)
			}
		})
	}
	require.Error(t, (*site.Site)(nil).Validate())
}
