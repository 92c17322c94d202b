package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

var update = flag.Bool("update", false, "write the golden files anew")

// result is what one run of the command gave.
type result struct {
	code     int
	out, err string
}

func try(stdin string, args ...string) result {
	var out, err bytes.Buffer
	code := run(args, strings.NewReader(stdin), &out, &err)
	return result{code, out.String(), err.String()}
}

// yard is a small rulebook for tests, so that they do not move with the
// standard one.
var yard = []string{"--rules", filepath.Join("testdata", "rules")}

func job(name string) string { return filepath.Join("testdata", "jobs", name+".yaml") }

func tryYard(args ...string) result { return try("", append(args, yard...)...) }

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (-want +got):\n%s", path, diff)
	}
}

func TestExitCodes(t *testing.T) {
	tests := []struct {
		name, why string
		args      []string
		code      int
		out, err  string // what must stand there
	}{
		{"designed", "the usual case", []string{"design", job("patio")}, 0, "Alder Row patio\n", ""},
		{"stopped", "a check fails", []string{"design", job("thin")}, 1, "! Do not build.", ""},
		{"refused", "outside what is covered", []string{"design", job("trucks")}, 1, "A licensed civil engineer.", ""},
		{"faulty job", "whoever wrote the job must act", []string{"design", job("faulty")}, 2, "", "faulty.yaml:2:10"},
		{"no answer", "whoever wrote the rules must act", []string{"design", job("peat")}, 2, "", "yard.yaml:33:3: ground_cbr: no rule answers"},
		{"bad override", "its place is in the job file", []string{"design", job("override")}, 2, "", "override.yaml:6:15"},
		{"no job file", "it does not exist", []string{"design", job("none")}, 2, "", "there is no job file testdata/jobs/none.yaml"},
		{"a folder", "job files lie in it", []string{"design", filepath.Dir(job("patio"))}, 2, "", "testdata/jobs is a folder; name a job file in it"},
		{"no argument", "a newcomer's first try", []string{"design"}, 2, "", "no job file given\nusage: groundrule design JOB"},
		{"two jobs", "one at a time", []string{"design", "a", "b"}, 2, "", "one job file at a time; 2 given"},
		{"why", "the reason of one course", []string{"why", job("patio"), "base"}, 0, "`weak` is true", ""},
		{"why by label", "as the sheet calls it", []string{"why", job("patio"), "Drain layer"}, 0, "WHY Drain layer", ""},
		{"why stopped", "what was tried has reasons too", []string{"why", job("thin"), "pavers"}, 1, "! Do not build.", ""},
		{"why refused", "there are no courses", []string{"why", job("trucks"), "base"}, 1, "! Not covered by these rules.", ""},
		{"why a decision", "it is asked like a layer", []string{"why", job("patio"), "ground_cbr"}, 0, "WHY ground_cbr, on Alder Row patio", ""},
		{"why a decision, refused", "the limits are told instead", []string{"why", job("trucks"), "ground_cbr"}, 1, "! Not covered by these rules.", ""},
		{"why alone, refused", "what refuses it can be asked", []string{"why", job("trucks")}, 1, "REFUSALS\n  TRUCKS (Trucks stand in this yard.)\n", ""},
		{"why of a refusal", "with what it rests on", []string{"why", job("trucks"), "trucks"}, 1, "WHY TRUCKS", ""},
		{"why alone", "what can be asked", []string{"why", job("patio")}, 0, "LAYERS, from the top down\n  pavers\n", ""},
		{"why alone, stopped", "the exit code is that of the design", []string{"why", job("thin")}, 1, "DECISIONS\n", ""},
		{"why misspelt", "the nearest name, and where all are listed", []string{"why", job("patio"), "paver"}, 2, "", `this section has no layer and no decision "paver"; did you mean "pavers"?; the layers are pavers, base, drain_layer and subgrade` + "\nall that can be asked: groundrule why testdata/jobs/patio.yaml\n"},
		{"why not laid", "the layer exists, but not here", []string{"why", job("thin"), "drain_layer"}, 1, "WHY NOT Drain layer, on Thin pavers\nThis course is not laid here: Weak is no.\n", ""},
		{"why not asked", "the decision exists, but not here", []string{"why", job("thin"), "drain_fill"}, 1, "WHY NOT drain fill, on Thin pavers\nThis question is not asked here: Weak is no.\n", ""},
		{"why a term", "it has a value, but no rules", []string{"why", job("thin"), "weak"}, 2, "", "\nweak is a term; its value: groundrule calc 'weak' testdata/jobs/thin.yaml\n"},
		{"why a setting", "it has a value, but no rules", []string{"why", job("thin"), "base_least"}, 2, "", "\nbase_least is a setting; its value: groundrule calc 'base_least'\n"},
		{"why nothing", "a newcomer's first try", []string{"why"}, 2, "", "no job file given\n"},
		{"why too much", "one thing at a time", []string{"why", job("patio"), "base", "pavers"}, 2, "", "a job file and one name; 3 arguments given\n"},
		{"why alone, as JSON", "the section has them all", []string{"why", job("patio"), "--json"}, 2, "", "--json needs the name of a layer or a decision"},
		{"calc", "an expression alone", []string{"calc", "round_up(mm(155), inches(0.5))"}, 0, "6-1/2 in\n  in SI: 0.1651 m\n", ""},
		{"calc with a job", "the example of the help", []string{"calc", "area / feet(20)", job("patio"), "--units", "si"}, 0, "6.096 m", ""},
		{"calc of a decision", "what the rulebook works out", []string{"calc", "base_thickness", job("patio")}, 0, "base_thickness = 6 in (decision)", ""},
		{"calc of a refused job", "its values are still there", []string{"calc", "area", job("trucks")}, 0, "9,000 sq ft", ""},
		{"calc of a word", "its name in the language", []string{"calc", "use", job("patio")}, 0, "the word foot of load_case", ""},
		{"calc missing", "the job does not say", []string{"calc", "surface_slope", job("patio")}, 2, "", "surface_slope"},
		{"calc without job", "nothing to read from", []string{"calc", "area"}, 2, "", "area is worked out from a job; add a job file: groundrule calc 'area' JOB\n"},
		{"calc misfit", "wrong units are the classic error", []string{"calc", "inches(6) + 3"}, 2, "", "expression:1:"},
		{"calc with no such job", "the job's fault comes first", []string{"calc", "area", "none.yaml"}, 2, "", "there is no job file none.yaml\n"},
		{"calc with a faulty job", "at its lines", []string{"calc", "area", job("faulty")}, 2, "", "faulty.yaml:2:10"},
		{"calc with a broken rulebook", "the rules' faults come first", []string{"calc", "1", "--amend", data("amend_broken")}, 2, "", "2 faults"},
		{"design with a broken rulebook", "the rules' faults come first", []string{"design", job("faulty"), "--amend", data("amend_broken")}, 2, "", "2 faults"},
		{"a sentence without a value", "whoever wrote the sentence must act", []string{"design", job("patio"), "--amend", data("sentence")}, 2, "", "testdata/sentence/step.yaml:17:34: a sentence: "},
		{"calc minus", "a flag it is not", []string{"calc", "-3 + 5"}, 2, "", "put -- before"},
		{"calc nothing", "an expression is needed", []string{"calc"}, 2, "", "no expression given; write one in quotes\n"},
		{"calc too much", "blanks end an argument where there are no quotes", []string{"calc", "1", "+", "1"}, 2, "", "an expression in quotes and a job file, and no more; 3 arguments given\n"},
		{"calc list as JSON", "there is no such form", []string{"calc", "--list", "--json"}, 2, "", "--list has no JSON form\n"},
		{"calc list and more", "one or the other", []string{"calc", "--list", "1 + 1"}, 2, "", "--list takes no expression"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tryYard(tt.args...)
			require.Equal(t, tt.code, got.code, "%s\n%s%s", tt.why, got.out, got.err)
			if tt.err == "" {
				require.NotEmpty(t, tt.out, "the case must say what is shown")
				require.Contains(t, got.out, tt.out)
				require.Empty(t, got.err, "nothing is wrong with the files")
			} else {
				require.Contains(t, got.err, tt.err)
				require.Empty(t, got.out, "an error does not mix with a sheet")
			}
		})
	}
}

func TestRulesFlag(t *testing.T) {
	tests := []struct{ name, why, dir, want string }{
		{"no folder", "a slip of the keys", "testdata/none", "--rules: there is no folder testdata/none\n"},
		{"a file", "one file is no rulebook", "main.go", "--rules: main.go is a file, and a folder is needed\n"},
		{"no rules", "an empty rulebook decides nothing", t.TempDir(), "no rule file (.yaml) lies here"},
		{"faulty rules", "each at its line", "testdata/broken", "4 faults"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := try("", "design", "--rules", tt.dir, job("patio"))
			require.Equal(t, exitBadUse, got.code, tt.why)
			require.Contains(t, got.err, tt.want)
		})
	}
}

// What is wrong with a command line is said on standard error, with flags as the
// help writes them, and nothing in it can act on the terminal.
func TestCommandLineErrors(t *testing.T) {
	for _, c := range []struct {
		name, why string
		args      []string
		want      string // the first line
	}{
		{"no word", "an unset variable", []string{""}, `groundrule: there is no command ""; the commands are help, begin, design, compare, ask, why, takeoff, price, calc, book, version`},
		{"help of no word", "an unset variable", []string{"help", ""}, `groundrule: there is no command ""; the commands are help, begin, design, compare, ask, why, takeoff, price, calc, book, version`},
		{"no word, then help", "an unset variable", []string{"", "help"}, `groundrule: there is no command ""; the commands are help, begin, design, compare, ask, why, takeoff, price, calc, book, version`},
		{"no word of a group", "an unset variable", []string{"book", ""}, `groundrule book: there is no command ""; the commands are help, begin, check, trials, survey, prove, impact, jobs, names, schema, print, diff`},
		{"misspelt command", "the nearest is proposed", []string{"desing", "x"}, `groundrule: there is no command "desing"; did you mean "design"?; the commands are help, begin, design, compare, ask, why, takeoff, price, calc, book, version`},
		{"misspelt in a group", "of those of the group", []string{"help", "book", "chek"}, `groundrule book: there is no command "chek"; did you mean "check"?; the commands are help, begin, check, trials, survey, prove, impact, jobs, names, schema, print, diff`},
		{"misspelt flag", "the nearest is proposed", []string{"design", "x", "--unit", "si"}, `groundrule design: there is no flag --unit; did you mean "--units"?; the flags are --units, --sheet, --format, -o, --over, --prices, --json, --found, --in, --stream, --rules, --amend, --as-of, --language (put -- before an argument that begins with -)`},
		{"a flag of another command", "each has its own", []string{"design", "-list"}, `groundrule design: there is no flag --list; the flags are --units, --sheet, --format, -o, --over, --prices, --json, --found, --in, --stream, --rules, --amend, --as-of, --language (put -- before an argument that begins with -)`},
		{"flag of a command that has none", "there is nothing to list", []string{"version", "--x"}, `groundrule version: there is no flag -x (put -- before an argument that begins with -)`},
		{"no value", "it ends the line", []string{"design", "x", "--units"}, `groundrule design: --units needs a value: --units us|si`},
		{"empty value", "an unset variable must not mean the standard rulebook", []string{"design", "--rules", "", "x"}, `groundrule design: --rules has an empty value; it takes DIR`},
		{"empty value behind =", "the same", []string{"design", "--amend=", "x"}, `groundrule design: --amend has an empty value; it takes DIR`},
		{"units", "the words are us and si", []string{"design", "--units", "metric", "x"}, `groundrule design: --units takes us or si, and "metric" was given`},
		{"day", "a date is written one way", []string{"design", "--as-of", "3/1/2026", "x"}, `groundrule design: --as-of takes a date such as 2026-03-01, and "3/1/2026" was given`},
		{"day that is not in the calendar", "it is no date", []string{"design", "--as-of=2026-02-30", "x"}, `groundrule design: --as-of takes a date such as 2026-03-01, and "2026-02-30" was given`},
		{"number", "words are no number", []string{"book", "jobs", "--count", "many"}, `groundrule book jobs: --count takes a whole number from 0 up, and "many" was given`},
		{"number below 0", "there are no fewer jobs than none", []string{"book", "jobs", "--count", "-1"}, `groundrule book jobs: --count takes a whole number from 0 up, and "-1" was given`},
		{"seed", "it is a number too", []string{"book", "jobs", "--seed", "-1"}, `groundrule book jobs: --seed takes a whole number from 0 up, and "-1" was given`},
		{"an unknown form", "there are two", []string{"design", "--json=1", "x"}, `groundrule design: --json takes full, crew, client, takeoff, questions, indented or several with commas between, and "1" was given`},
		{"a form of what has none", "a section alone has forms", []string{"book", "check", "--json=full"}, `groundrule book check: --json takes no value here, and "full" was given`},
		{"an argument too many", "the version is of the program", []string{"version", "x"}, `groundrule version: it takes no arguments, and 1 given`},
		{"escapes in a command", "they would act on the terminal", []string{"\x1b[31m"}, `groundrule: there is no command "\x1b[31m"; the commands are help, begin, design, compare, ask, why, takeoff, price, calc, book, version`},
		{"a flag of one letter", "with one dash", []string{"design", "x", "-o"}, "groundrule design: -o needs a value: -o FILE"},
		{"escapes in a flag", "they would act on the terminal", []string{"design", "--\x1b[31m"}, `groundrule design: there is no flag --\x1b[31m; the flags are --units, --sheet, --format, -o, --over, --prices, --json, --found, --in, --stream, --rules, --amend, --as-of, --language (put -- before an argument that begins with -)`},
		{"escapes in a path", "they would act on the terminal", []string{"design", "/\x1b[31m\u202e"}, `groundrule design: there is no job file /\x1b[31m\u202e`},
		{"escapes in a folder", "they would act on the terminal", []string{"design", "--amend", "\u009b31m", "x"}, `groundrule design: --amend: there is no folder \u009b31m`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", c.args...)
			require.Equal(t, exitBadUse, got.code, c.why)
			require.Empty(t, got.out)
			first, _, _ := strings.Cut(got.err, "\n")
			require.Equal(t, c.want, first, c.why)
		})
	}
}

// The version names the program and each file of the standard rulebook.
func TestVersion(t *testing.T) {
	got := try("", "version")
	require.Equal(t, exitDone, got.code)
	require.Regexp(t, `(?s)^groundrule .*go1\.[0-9]+.*\nstandard rulebook:\n(  [0-9a-f]{64}  rules/[0-9a-z-]+\.yaml\n)+$`, got.out)
	require.Equal(t, got, try("", "--version"))
}

// A program that fails says so, and that its user is not to blame.
func TestFailure(t *testing.T) {
	var out, faults bytes.Buffer
	code := run([]string{"design", "-"}, failing{}, &out, &faults)
	require.Equal(t, exitFailed, code)
	require.Empty(t, out.String())
	require.True(t, strings.HasPrefix(faults.String(), "groundrule: the program failed, which is not your fault: a slip\n"), faults.String())
}

type failing struct{}

func (failing) Read([]byte) (int, error) { panic("a slip") }

// Faults are data too for a program that asked for JSON.
func TestFaultsAsJSON(t *testing.T) {
	for _, c := range []struct {
		name, why string
		args      []string
		want      []string // place and message of each line
	}{
		{"a job", "each fault is a line", []string{"design", job("faulty"), "--json"}, []string{
			"testdata/jobs/faulty.yaml:2:10", "testdata/jobs/faulty.yaml:3:6", "testdata/jobs/faulty.yaml:5:1"}},
		{"why", "the same", []string{"why", job("faulty"), "base", "--json"}, []string{
			"testdata/jobs/faulty.yaml:2:10", "testdata/jobs/faulty.yaml:3:6", "testdata/jobs/faulty.yaml:5:1"}},
		{"a rulebook with a gap", "whoever wrote the rules must act", []string{"design", job("peat"), "--json"}, []string{"testdata/rules/yard.yaml:33:3"}},
		{"no file", "it has no place", []string{"design", "none.yaml", "--json"}, []string{" there is no job file none.yaml"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := tryYard(c.args...)
			require.Equal(t, exitBadUse, got.code, c.why)
			require.Empty(t, got.err)
			var places []string
			for line := range strings.Lines(got.out) {
				var d diagnostic.Diagnostic
				require.NoError(t, json.Unmarshal([]byte(line), &d))
				require.NotEmpty(t, d.Message)
				if d.Place.File == "" {
					d.Message = " " + d.Message
					places = append(places, d.Message)
					continue
				}
				places = append(places, d.Place.String())
			}
			require.Equal(t, c.want, places, c.why)
		})
	}
}

// Flags stand before or after the arguments, with one dash or two.
func TestFlagsAnywhere(t *testing.T) {
	want := try("", "design", job("patio"), "--units", "si", "--rules", yard[1])
	require.Equal(t, exitDone, want.code, want.err)
	require.Contains(t, want.out, "152.4 mm")
	require.NotContains(t, want.out, "Built in", "what a flag says is not told of the job")
	for _, args := range [][]string{
		{"design", "--units", "si", "--rules", yard[1], job("patio")},
		{"design", "--units=SI", job("patio"), "-rules=" + yard[1]},
		{"design", "--units=si", "--rules", yard[1], "--", job("patio")},
	} {
		if diff := cmp.Diff(want, try("", args...), cmp.AllowUnexported(result{})); diff != "" {
			t.Errorf("%q (-want +got):\n%s", args, diff)
		}
	}
	minus := try("", "calc", "--rules", yard[1], "--", "-3 + 5")
	require.Equal(t, result{code: exitDone, out: "2\n"}, minus)
}

func TestStandardInput(t *testing.T) {
	data, err := os.ReadFile(job("patio"))
	require.NoError(t, err)
	got := try(string(data), "design", "-", "--rules", yard[1])
	require.Equal(t, tryYard("design", job("patio")), got)
	got = try("area: 400\nuse: foot\nbase: dense\n", "design", "-", "--rules", yard[1])
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "stdin:1:10")
	require.Contains(t, got.err, "1 | area: 400")
	// A file that is too large is not quoted, nor cut off and read as the whole.
	got = try("area: 400 sq ft\nuse: foot\nbase: dense\n"+strings.Repeat("#", 3<<20), "design", "-", "--rules", yard[1])
	require.Equal(t, result{code: exitBadUse, err: "stdin: the file is too large to read [file-too-large]\n  wanted:  at most 1 MiB\n"}, got)
}

func TestJSON(t *testing.T) {
	tests := []struct {
		name, why string
		args      []string
		code      int
		schema    string
		status    section.Status
		reasons   bool
		lines     bool
	}{
		{"designed", "for other programs", []string{"design", job("patio"), "--json"}, 0, section.Schema, section.Designed, false, false},
		{"in full", "every reason", []string{"design", job("patio"), "--json=full"}, 0, section.Schema, section.Designed, true, false},
		{"indented", "to be read", []string{"design", job("patio"), "--json=indented"}, 0, section.Schema, section.Designed, false, true},
		{"both", "every reason, to be read", []string{"design", "--json=full,indented", job("patio")}, 0, section.Schema, section.Designed, true, true},
		{"refused", "its limits are data too", []string{"design", job("trucks"), "--json"}, 1, section.Schema, section.Refused, false, false},
		{"stopped", "and its failed checks", []string{"design", job("thin"), "--json"}, 1, section.Schema, section.Stopped, false, false},
		{"why", "one course, always in full", []string{"why", job("patio"), "base", "--json"}, 0, "groundrule/reason", section.Designed, true, false},
		{"why indented", "one course, to be read", []string{"why", job("patio"), "base", "--json=indented"}, 0, "groundrule/reason", section.Designed, true, true},
		{"why refused", "there is no course", []string{"why", "--json", job("trucks"), "base"}, 1, section.Schema, section.Refused, false, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tryYard(tt.args...)
			require.Equal(t, tt.code, got.code, tt.why)
			require.Empty(t, got.err)
			var head struct {
				Schema string
				Status section.Status
			}
			require.NoError(t, json.Unmarshal([]byte(got.out), &head))
			require.Equal(t, tt.schema, head.Schema)
			require.Equal(t, tt.status, head.Status)
			require.Equal(t, tt.reasons, strings.Contains(got.out, `"reasons":`), tt.why)
			require.Equal(t, tt.lines, strings.Count(got.out, "\n") > 1, tt.why)
		})
	}
}

func TestGolden(t *testing.T) {
	tests := []struct {
		name, why string
		args      []string
	}{
		{"help.txt", "what a newcomer sees first", nil},
		{"help_design.txt", "the help of one command", []string{"help", "design"}},
		{"help_calc.txt", "with its examples", []string{"calc", "--help"}},
		{"help_ask.txt", "the help of a command with answers", []string{"help", "ask"}},
		{"ask.txt", "the next question, with its choices", append([]string{"ask", job("patio")}, asks...)},
		{"help_book.txt", "a group of commands", []string{"book"}},
		{"help_book_impact.txt", "two rulebooks", []string{"book", "impact", "--help"}},
		{"faulty_amendment.txt", "with the line that it goes against", append([]string{"book", "check", "--amend", data("amend_broken")}, yard...)},
		{"faulty_job.txt", "lines quoted and marked", append([]string{"design", job("faulty")}, yard...)},
		{"faulty_rules.txt", "the same for rule files", []string{"design", job("patio"), "--rules", filepath.Join("testdata", "broken")}},
		{"no_answer.txt", "a rulebook with a gap", append([]string{"design", job("peat")}, yard...)},
		{"calc.txt", "value, what was read", append([]string{"calc", "larger(base_thickness, mm(160)) + base_least", job("patio"), "--units", "si"}, yard...)},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := try("", tt.args...)
			golden(t, tt.name, got.out+got.err)
		})
	}
}

func TestHelp(t *testing.T) {
	whole := try("")
	require.Equal(t, exitDone, whole.code)
	for _, args := range [][]string{{"help"}, {"--help"}, {"-h"}, {"help", "help"}} {
		require.Equal(t, whole, try("", args...), "%q", args)
	}
	for _, c := range told.Commands {
		require.Contains(t, whole.out, c.About)
		helpOf(t, c)
		for _, under := range c.Under {
			require.Contains(t, try("", c.Name).out, under.About)
			helpOf(t, under)
		}
	}
	for _, args := range [][]string{{"desing"}, {"help", "desing"}} {
		got := try("", args...)
		require.Equal(t, exitBadUse, got.code)
		require.Contains(t, got.err, `did you mean "design"?`)
	}
	for _, args := range [][]string{{"book", "chek"}, {"help", "book", "chek"}, {"book", "help", "chek"}} {
		got := try("", args...)
		require.Equal(t, exitBadUse, got.code)
		require.Contains(t, got.err, `did you mean "check"?`)
	}
}

// Each command that commands.yaml tells of does something, and each of its flags is
// told and has a place for its value.
func TestCommands(t *testing.T) {
	values := (&call{}).values()
	var named int
	for _, c := range told.Commands {
		for _, each := range append(c.Under, c) {
			if each.Under == nil {
				named++
				require.NotNil(t, runs[each.Name], each.Name)
			}
			for _, name := range each.Flags {
				require.NotEmpty(t, told.Flags[name][1], "%s: %s", each.Name, name)
				require.NotNil(t, values.Lookup(name), "%s: %s", each.Name, name)
			}
			require.Equal(t, each.Takes == nil, each.Else == "", each.Name)
		}
	}
	require.Len(t, runs, named, "and nothing else runs")
}

// helpOf asks for the help of a command in every way, and holds it to the page.
func helpOf(t *testing.T, c *command) {
	t.Helper()
	words := strings.Fields(c.Name)
	help := try("", append([]string{"help"}, words...)...)
	require.Equal(t, exitDone, help.code)
	require.Equal(t, help, try("", append(words, "--help")...), c.Name)
	if group, word, under := strings.Cut(c.Name, " "); under {
		require.Equal(t, help, try("", group, "help", word))
	}
	for _, name := range c.Flags {
		require.Regexp(t, `(?m)^  -{1,2}`+name+`\b`, help.out, c.Name)
	}
	for _, line := range strings.Split(help.out, "\n") {
		require.LessOrEqual(t, len(line), 80, c.Name)
	}
	require.True(t, strings.HasPrefix(help.out, c.Usage))
}

// The job that the help shows must be one that can be read.
func TestHelpJob(t *testing.T) {
	_, rest, _ := strings.Cut(told.Introduction, "job.yaml:\n\n")
	text, _, found := strings.Cut(rest, "\n\n")
	require.True(t, found)
	_, err := site.Read("help", []byte(strings.ReplaceAll("\n"+text, "\n  ", "\n")))
	require.NoError(t, err)
}

// What a calculation refuses is said once, in the units of the sheet, beside the
// expression.
func TestCalcErrors(t *testing.T) {
	for _, c := range []struct {
		name, why, expression string
		want                  string
	}{
		{"out of range", "the value and the range, in the units that were asked for", "wheel_cover(lbf(9000), psi(80000), 7)",
			"expression:1:1: tire pressure is 551.6 MPa; it must be 34.47 kPa to 3.447 MPa (limit of this library) [no-answer]\n" +
				"      1 | wheel_cover(lbf(9000), psi(80000), 7)\n        | ^~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~~\n  found:   wheel_cover(40.03 kN, 551.6 MPa, 7)\n"},
		{"no result", "the expression is not said twice", "round_up(mm(155), inches(0))",
			"expression:1:1: arithmetic without a result: the step of rounding must be above 0, got 0 in [no-answer]\n" +
				"      1 | round_up(mm(155), inches(0))\n        | ^~~~~~~~~~~~~~~~~~~~~~~~~~~~\n"},
		{"no such function", "where they are listed", "wheel_covr(3)",
			"expression:1:1: no function is called wheel_covr [unknown-function]\n" +
				"      1 | wheel_covr(3)\n        | ^~~~~~~~~~\n  found:   wheel_covr\n  did you mean \"wheel_cover\"?\n\n" +
				"every function with its arguments: groundrule calc --list\n"},
		{"a bare number", "marked alone, with the repair, and where arguments are listed", "wheel_cover(9000, psi(80), 7)",
			"expression:1:13: argument load of wheel_cover is of the wrong kind [wrong-arguments]\n" +
				"      1 | wheel_cover(9000, psi(80), 7)\n        |             ^~~~\n  found:   9000, which is a number\n  wanted:  a force, such as lbf(9000)\n\n" +
				"every function with its arguments: groundrule calc --list\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, result{exitBadUse, "", c.want}, tryYard("calc", c.expression, "--units", "si"), c.why)
		})
	}
}

func TestCalcJSON(t *testing.T) {
	got := tryYard("calc", "base_thickness", job("patio"), "--json")
	require.Equal(t, exitDone, got.code, got.err)
	var r struct {
		Schema, Expression string
		Value              value.Value
		Values             []section.Used
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &r))
	require.Equal(t, "groundrule/calculation", r.Schema)
	require.Equal(t, "base_thickness", r.Expression)
	require.Contains(t, tryYard("calc", "1 < 2 && true", "--json").out, `"expression": "1 < 2 && true"`, "as it was written")
	require.Equal(t, "6 in", r.Value.Text(quantity.US))
	require.Len(t, r.Values, 1)
	require.Equal(t, "base_thickness", r.Values[0].Name)
	got = tryYard("calc", "wheel_covr(3)", "--json")
	require.Equal(t, exitBadUse, got.code)
	require.Empty(t, got.err)
	require.Contains(t, got.out, `"code":"unknown-function"`)
}

// The list names every function, and every source of every calculation.
func TestList(t *testing.T) {
	got := tryYard("calc", "--list")
	require.Equal(t, exitDone, got.code, got.err)
	words := strings.Join(strings.Fields(got.out), " ")
	last := -1
	for _, group := range []string{"LANGUAGE", "UNITS", "CALCULATIONS"} {
		at := strings.Index(got.out, group)
		require.Greater(t, at, last, group)
		last = at
	}
	require.NotEmpty(t, groundrule.Calculations())
	require.Contains(t, words, "fines: what the fines are one of: silty_fines, clayey_fines, silty_clayey_fines gives:")
	for _, f := range groundrule.Calculations() {
		require.Contains(t, got.out, "\n  "+f.Name+"(")
		require.Contains(t, words, strings.Join(strings.Fields(f.Range), " "), f.Name)
		for _, s := range f.Sources {
			require.Contains(t, words, strings.Join(strings.Fields(s.Document), " "), f.Name)
		}
	}
}

// A calculation in an expression brings its sources with it, and the example of
// each can be tried as it stands.
func TestCalcSources(t *testing.T) {
	book, err := groundrule.Open(os.DirFS(yard[1]))
	require.NoError(t, err)
	for _, f := range groundrule.Calculations() {
		var out, faults bytes.Buffer
		c := &call{command: &command{Name: "calc"}, args: []string{f.Example}, out: &out, err: &faults}
		require.NoError(t, c.calculate(book, nil), faults.String())
		require.Contains(t, out.String(), "CALCULATIONS\n", f.Example)
		require.Contains(t, out.String(), "  "+f.Name+": ", f.Example)
		require.Contains(t, out.String(), "source: ", f.Example)
	}
}

// wrenfold are the amendments of an invented company.
var wrenfold = filepath.Join("..", "..", "examples", "wrenfold", "amendments")

// Every example of the repository is a job that the standard rulebook designs,
// or refuses with a sheet.
func TestExamples(t *testing.T) {
	_, err := groundrule.Standard()
	require.NoError(t, err)
	jobs, err := filepath.Glob(filepath.Join("..", "..", "examples", "jobs", "*.yaml"))
	require.NoError(t, err)
	require.NotEmpty(t, jobs)
	for _, path := range jobs {
		t.Run(filepath.Base(path), func(t *testing.T) {
			for _, flags := range [][]string{{"--units", "us"}, {"--units", "si"}, {"--amend", wrenfold, "--as-of", "2026-06-01"}} {
				got := try("", append([]string{"design", path}, flags...)...)
				require.Contains(t, []int{exitDone, exitNo}, got.code, got.err)
				require.NotEmpty(t, got.out)
				require.Empty(t, got.err)
			}
			got := try("", "design", path, "--json")
			require.True(t, json.Valid([]byte(got.out)))
			whyEach(t, path, []byte(got.out))
		})
	}
}

// whyEach asks why of every course of a designed job.
func whyEach(t *testing.T, path string, data []byte) {
	t.Helper()
	var s struct{ Courses []struct{ Name string } }
	require.NoError(t, json.Unmarshal(data, &s))
	for _, c := range s.Courses {
		got := try("", "why", path, c.Name)
		require.Contains(t, []int{exitDone, exitNo}, got.code, got.err)
		require.Contains(t, got.out, "(course."+c.Name+"): yes", c.Name)
	}
}

type brokenPipe struct{}

func (brokenPipe) Write([]byte) (int, error) { return 0, errors.New("the pipe is closed") }

// A sheet that could not be written is not a success.
func TestBrokenOutput(t *testing.T) {
	for _, args := range [][]string{{"design", job("patio")}, {"design", "--json", job("patio")}, {"why", job("patio"), "base"}, {"calc", "1 + 1"}, {"calc", "--list"},
		{"help"}, {"help", "design"}, {"book"}, {"version"}, {"design", "--json", job("faulty")},
		{"compare", job("patio")}, {"compare", job("patio"), job("thin")}, {"takeoff", job("patio")}, {"book", "check"}, {"book", "print"}, {"book", "jobs"}, {"book", "schema", "job"},
		{"book", "impact", job("patio"), "--amend", data("amend"), "--before-rules", data("rules")}} {
		if flags := len(args) > 1 || args[0] == "calc"; flags && args[0] != "help" {
			args = append(args, yard...)
		}
		var err bytes.Buffer
		code := run(args, strings.NewReader(""), brokenPipe{}, &err)
		require.Equal(t, exitFailed, code, "%q", args)
		require.Equal(t, "groundrule: the output cannot be written: the pipe is closed\n", err.String())
	}
	args := append([]string{"design", job("faulty")}, yard...)
	require.Equal(t, exitBadUse, run(args, strings.NewReader(""), io.Discard, brokenPipe{}), "nor are faults that could not be told")
}
