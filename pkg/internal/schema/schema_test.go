package schema_test

import (
	"bytes"
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
)

var update = flag.Bool("update", false, "write the golden files anew")

// Every file of the repository is one that its schema takes.
func TestRepository(t *testing.T) {
	tests := []struct {
		kind, why string
		files     []string
	}{
		{"chapter", "the standard rulebook", []string{"../../../rules/*.yaml", "../../../cmd/groundrule/testdata/rules/*.yaml"}},
		{"trial", "its trials", []string{"../../../rules/trials/*.yaml"}},
		{"job", "the examples", []string{"../../../examples/jobs/*.yaml"}},
		{"texts", "a part of the standard in French", []string{"../../../examples/texts-*/*.yaml"}},
		{"prices", "an invented company's", []string{"../../../examples/*/prices/*.yaml"}},
		{"amendment", "an invented company's", []string{"../../../examples/*/amendments/*.yaml", "../../../cmd/groundrule/testdata/amend/*.yaml", "../../../cmd/groundrule/testdata/leave/*.yaml"}},
	}
	for _, tt := range tests {
		t.Run(tt.kind, func(t *testing.T) {
			s, ok := schema.For(tt.kind, words(t))
			require.True(t, ok)
			for _, pattern := range tt.files {
				files, err := filepath.Glob(filepath.FromSlash(pattern))
				require.NoError(t, err)
				for _, file := range files {
					data, err := os.ReadFile(file)
					require.NoError(t, err)
					require.Empty(t, validate(s, instance(t, data)).faults, "%s: %s", tt.why, file)
				}
				require.NotEmpty(t, files, pattern)
			}
		})
	}
}

// Slips of the keys, as they are made: the reader refuses each, and so does the
// schema.
func TestBroken(t *testing.T) {
	tests := []struct {
		sample, name, why string
		old, new          string
	}{
		{"chapter", "unknown key", "a letter too few", "    at_least: 4 in\n    at_most", "    at_last: 4 in\n    at_most"},
		{"chapter", "missing key", "a rule without its reason", "        because: As always.\n", ""},
		{"chapter", "wrong shape", "rules written as names", "      - rule: NOTE-A\n        answer: \"'a'\"\n        because: So.\n        source: practice\n      - rule: NOTE-B\n        answer: \"'b'\"\n        because: So.\n        source: practice\n", "      NOTE-A: {answer: \"'a'\"}\n"},
		{"chapter", "wrong word", "no way of taking", "take: first", "take: biggest"},
		{"chapter", "wrong tag", "no way of knowing", "known: relayed", "known: heard"},
		{"chapter", "wrong name", "no expression can write it", "  base_least:\n", "  base-least:\n"},
		{"chapter", "reserved name", "the language keeps it", "  handbook:\n", "  package:\n"},
		{"chapter", "two limits", "a check asks one thing", "    at_most: inches(30)\n", "    at_most: inches(30)\n    at_least: inches(2)\n"},
		{"chapter", "yes for true", "only true and false will do", "optional: true", "optional: yes"},
		{"amendment", "no such day", "it has no month 13", "when: 2026-02-03", "when: 2026-13-03"},
		{"amendment", "two changes", "a change does one thing", "  - caution: CALL\n", "  - caution: CALL\n    set: {says: Call.}\n"},
		{"amendment", "before and after", "it cannot be both", "    after: BASE-DEEP\n", "    after: BASE-DEEP\n    before: BASE-DEEP\n"},
		{"amendment", "endless leave", "a variance ends", "    until: 2026-12-31\n", ""},
		{"job", "unknown key", "a letter too few", "perimeter:", "perimter:"},
		{"job", "missing key", "nobody says what it carries", "use: car_driveway\n", ""},
		{"job", "wrong shape", "a list where one is wanted", "area: 400 sq ft", "area: [400 sq ft]"},
		{"job", "wrong word", "a letter too few", "use: car_driveway", "use: car_drivway"},
		{"job", "no unit", "the classic error", "area: 400 sq ft", "area: 400"},
		{"job", "no unit in quotes", "nor that way", "area: 400 sq ft", "area: \"400\""},
		{"job", "bare slope", "2 and 0.02 are both written for 2 %", "surface_slope: 2 %", "surface_slope: 0.02"},
		{"job", "neither yes nor no", "a guess is no answer", "wet_ground: no", "wet_ground: maybe"},
		{"job", "no number", "a word", "liquid_limit: 34", "liquid_limit: high"},
		{"job", "half an override", "nobody answers for it", "    by: J. Orr\n", ""},
		{"trial", "expects nothing", "it can never fail", "        expect:\n          status: refused\n", "        expect: {}\n"},
		{"trial", "unknown key", "in the job too", "soil:\n        word: clay", "sol:\n        word: clay"},
		{"trial", "one limit", "between has two", "[8 in, 10 in]", "[8 in]"},
	}
	all := samples(t)
	for _, tt := range tests {
		t.Run(tt.sample+" "+tt.name, func(t *testing.T) {
			s := all[slices.IndexFunc(all, func(s sample) bool { return s.name == tt.sample })]
			text := string(sampleFile(t, s.file))
			require.Contains(t, text, tt.old)
			broken := []byte(strings.Replace(text, tt.old, tt.new, 1))
			require.Error(t, s.read(broken), "the reader: %s", tt.why)
			require.NotEmpty(t, validate(s.schema, instance(t, broken)).faults, tt.why)
		})
	}
}

// words is the table of a job with the words of the standard rulebook.
func words(t *testing.T) *site.Table {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book.Table()
}

// No field of a job is described in words that the schema does not understand.
func TestJobFieldsAreUnderstood(t *testing.T) {
	job := schema.Job(words(t))
	anything, err := json.Marshal(&schema.Schema{Type: []string{"string", "number", "boolean"}})
	require.NoError(t, err)
	for _, f := range words(t).Fields() {
		s := job
		for _, key := range strings.Split(f.Path, ".") {
			key, isList := strings.CutSuffix(key, "[]")
			s = s.Properties.Get(key)
			require.NotNil(t, s, f.Path)
			if isList {
				s = s.Items
			}
		}
		require.Contains(t, s.Description, f.About)
		bare := *s
		bare.Description, bare.Type = "", slices.DeleteFunc(slices.Clone(s.Type), func(t string) bool { return t == "null" })
		got, err := json.Marshal(&bare)
		require.NoError(t, err)
		require.NotEqual(t, string(anything), string(got), "%s takes %q", f.Path, f.Wanted())
	}
}

// Whatever spelling of a word, unit or sieve the reader of jobs takes, the
// schema takes.
func TestJobSpellings(t *testing.T) {
	job := schema.Job(words(t))
	accepted := 0
	try := func(key, text string) {
		t.Helper()
		quoted, err := json.Marshal(text)
		require.NoError(t, err)
		const least = "area: 400 sq ft\nuse: foot\nbase: dense\n"
		data := []byte(strings.Replace(least, key+": foot\n", "", 1) + strings.Replace(key, ".", ": {", 1) + ": " + string(quoted) + strings.Repeat("}", strings.Count(key, ".")) + "\n")
		_, err = words(t).Read("job.yaml", data)
		if unread(err) {
			return
		}
		accepted++
		require.Empty(t, validate(job, instance(t, data)).faults, "%s", data)
	}
	for _, f := range words(t).Fields() {
		for _, word := range f.Vocabulary.Words {
			for _, text := range []string{word.Label, word.Name, word.GoValue()} {
				for _, spelt := range []string{text, strings.ToUpper(text), strings.ReplaceAll(text, "_", " "), strings.ReplaceAll(text, "_", "-"), strings.ReplaceAll(text, "-", "_"), " " + text + " "} {
					try(f.Path, spelt)
				}
			}
		}
	}
	for _, text := range []string{"GM-GC", "gm_gc", "ML-CL", "GP-GW", "x"} {
		try("soil.uscs", text)
	}
	for key, dim := range map[string]quantity.Dimension{"perimeter": quantity.DimLength, "traffic.life": quantity.DimTime, "traffic.wheel_load": quantity.DimForce,
		"traffic.tire_pressure": quantity.DimPressure, "frost.freezing_index": quantity.DimFreezingIndex, "frost.mean_annual_temperature": quantity.DimTemperature, "rain.infiltration": quantity.DimRate} {
		for _, u := range dim.Units() {
			for _, unit := range append([]string{u.Symbol, u.Plural, u.Builder}, u.Spellings()...) {
				for _, number := range []string{"90 ", "9,000", "1/2 ", "3-1/8 ", "+.5 ", "1e3 "} {
					try(key, number+unit)
				}
			}
		}
		try(key, "12 ft 6 in")
		try(key, `12' 6"`)
	}
	for _, text := range []string{"2 %", "2%", "1/4 in per ft", "20 mm/m", "2 in / 10 ft", "1:50", "0.02", "2"} {
		try("surface_slope", text)
	}
	for _, text := range []string{"34", "34 %", "34%", "+3.4", ".5", "5.", "1e1", "1,000", " 34 ", "3 4", ""} {
		try("soil.liquid_limit", text)
	}
	for _, text := range []string{"yes", "No", "TRUE", "false", "y", "on"} {
		try("water.wet_ground", text)
	}
	require.Greater(t, accepted, 1000, "the spellings are such as the reader takes")
}

// unread reports whether the reader could not read a value; one that is out of range
// was read.
func unread(err error) bool {
	return slices.ContainsFunc(codesOf(err), func(code diagnostic.Code) bool { return code != site.CodeRange && code != site.CodeContradiction })
}

func TestSieves(t *testing.T) {
	job := schema.Job(words(t))
	for _, text := range []string{"No. 200", "#4", "200", "3/4 in", `3/4"`, "0.075 mm", "75 um", "no 40", "1-1/2 inch"} {
		quoted, err := json.Marshal(text)
		require.NoError(t, err)
		data := []byte("area: 400 sq ft\nuse: foot\nbase: dense\nsoil: {sieves: [{sieve: " + string(quoted) + ", passing: 10}]}\n")
		if _, err := words(t).Read("job.yaml", data); !unread(err) {
			require.Empty(t, validate(job, instance(t, data)).faults, text)
		}
	}
}

// The JSON says what the Go value says: it is read back to the same.
func TestGolden(t *testing.T) {
	for _, k := range schema.Kinds() {
		if k.Name == "section" {
			continue // made by a test of its own
		}
		t.Run(k.Name, func(t *testing.T) {
			var b, again bytes.Buffer
			require.NoError(t, k.Schema(words(t)).Write(&b))
			require.NoError(t, k.Schema(words(t)).Write(&again))
			require.Equal(t, b.String(), again.String())
			path := filepath.Join("testdata", k.Name+".schema.json")
			if *update {
				require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			if diff := cmp.Diff(string(want), b.String()); diff != "" {
				t.Errorf("%s (-want +got):\n%s", path, diff)
			}
			var parsed map[string]any
			require.NoError(t, json.Unmarshal(b.Bytes(), &parsed))
			sound(t, parsed, parsed, "#")
		})
	}
	_, ok := schema.For("jobs", nil)
	require.False(t, ok)
}

// known are the keywords of draft 2020-12 that the schemas use, with what may
// stand under them.
var known = map[string]string{"$schema": "text", "title": "text", "description": "text", "$ref": "ref", "type": "types", "enum": "list", "pattern": "text",
	"examples": "list", "properties": "schemas", "required": "list", "propertyNames": "schema", "additionalProperties": "schema", "items": "schema",
	"minProperties": "count", "minItems": "count", "maxItems": "count", "anyOf": "some", "oneOf": "some", "allOf": "some", "not": "schema", "$defs": "schemas"}

// sound holds a parsed schema to the standard, as far as it is used here.
func sound(t *testing.T, root map[string]any, x any, at string) {
	t.Helper()
	if _, isBool := x.(bool); isBool {
		return
	}
	s, ok := x.(map[string]any)
	require.True(t, ok, at)
	for keyword, under := range s {
		here := at + "/" + keyword
		switch known[keyword] {
		case "text":
			require.IsType(t, "", under, here)
		case "ref":
			var to any = root
			for _, step := range strings.Split(under.(string), "/")[1:] {
				require.Contains(t, to, step, here)
				to = to.(map[string]any)[step]
			}
		case "types":
			for _, each := range under.([]any) {
				require.Contains(t, []any{"null", "boolean", "number", "string", "array", "object"}, each, here)
			}
		case "list":
			require.NotEmpty(t, under, here)
		case "count":
			require.IsType(t, 0.0, under, here)
		case "schema":
			sound(t, root, under, here)
		case "schemas":
			for name, each := range under.(map[string]any) {
				sound(t, root, each, here+"/"+name)
			}
		case "some":
			require.NotEmpty(t, under, here)
			for _, each := range under.([]any) {
				sound(t, root, each, here)
			}
		default:
			t.Errorf("%s is no keyword", here)
		}
	}
}

// What the reader says is wanted of a word is what the schema offers.
func TestWordsAreOffered(t *testing.T) {
	_, err := words(t).Read("job.yaml", []byte("area: 400 sq ft\nuse: x\nbase: dense\n"))
	var one *diagnostic.Diagnostic
	require.ErrorAs(t, err, &one)
	var offered []string
	for _, w := range schema.Job(words(t)).Properties.Get("use").AnyOf[0].AnyOf[0].Enum {
		offered = append(offered, w.(string))
	}
	require.Equal(t, "one of "+strings.Join(offered, ", "), one.Wanted)
}
