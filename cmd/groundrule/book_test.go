package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/rules"
)

func data(name string) string { return filepath.Join("testdata", name) }

func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

func TestBookExitCodes(t *testing.T) {
	none := t.TempDir()
	tests := []struct {
		name, why string
		args      []string
		code      int
		out, err  string
	}{
		{"check", "what it holds", []string{"check"}, 0, "no faults: 2 files, 2 chapters, 4 decisions, 9 rules, 1 setting, 1 term, 0 materials, 4 courses, 1 check, 1 caution, 1 refusal\n", ""},
		{"check amended", "and what lies over it", []string{"check", "--amend", data("amend")}, 0, "9 rules, 1 setting, 1 term, 0 materials, 4 courses, 1 check, 1 caution, 1 refusal, 1 amendment in force\nin force: mill of The Mill (R. Tansy, 2026-02-03): Two patios settled last spring.\n", ""},
		{"check leave", "a variance in use", []string{"check", "--amend", data("leave"), "--as-of", "2026-03-01"}, 0, "1 amendment in force, 1 variance in use\nin force: low_doors of The Mill (J. Orr, 2026-02-04): The doors of Alder Row sit low.\n", ""},
		{"check before an amendment", "what is written and does not hold yet is told", []string{"check", "--amend", data("amend"), "--as-of", "2026-01-31"}, 0, "1 refusal\nnot in force on 2026-01-31: the amendment mill, from 2026-02-03\n", ""},
		{"check what is taken away", "it is counted, and who took it is told", []string{"check", "--amend", data("lifted"), "--as-of", "2026-03-01"}, 0, "1 variance in use, 2 entries taken away or changed\nin force: plain of The Mill (J. Orr, 2026-02-05): Fewer words.\n" +
			"changed: the check CHECK-PAVER, by plain of The Mill, at testdata/lifted/plain.yaml:8:5: Thin pavers chip.\n" +
			"taken away: the caution WEAK, by plain of The Mill, at testdata/lifted/plain.yaml:15:5: Our crews know it.\n" +
			"not in force on 2026-03-01: setting base_least of the amendment plain, from 2026-05-01\n", ""},
		{"check broken", "each at its line", []string{"check", "--amend", data("amend_broken")}, 2, "", "2 faults"},
		{"check a folder", "as one might try", []string{"check", "ours"}, 2, "", "a folder stands behind --rules or --amend"},
		{"trials", "those beside the rules", []string{"trials"}, 0, "2 pass, 0 fail", ""},
		{"trials of an edit", "those of the amendment", []string{"trials", "--amend", data("amend")}, 0, "1 pass, 0 fail", ""},
		{"trials before an edit", "they name a rule that it replaced", []string{"trials", data("rules"), "--amend", data("amend")}, 2, "", "no rule of base_thickness is called BASE-WEAK"},
		{"trials of no edit", "there are none beside it", []string{"trials", "--amend", data("leave"), "--as-of", "2026-03-01"}, 2, "", "there are no trials here"},
		{"trials of a folder", "those and no others", []string{"trials", data("trials_failing")}, 1, "testdata/trials_failing/wrong.yaml:2:5: THICK fails", ""},
		{"trials of rules", "the folder trials in it", []string{"trials", data("rules")}, 0, "2 trials", ""},
		{"trials with coverage", "what they do not reach", []string{"trials", "--coverage"}, 0, "rule CBR-READ of ground_cbr never answers", ""},
		{"trials of a folder given twice", "each runs once", []string{"trials", data("rules"), data("trials_failing"), "./" + data("rules") + "/"}, 1, "3 trials: 2 pass, 1 fail", ""},
		{"trials broken", "the line quoted", []string{"trials", data("trials_broken")}, 2, "", "6 |       answers: {base_thicknes: 7 in}"},
		{"trials none", "nothing tried is not a success", []string{"trials", none}, 2, "", "there are no trials here"},
		{"trials no folder", "a slip of the keys", []string{"trials", data("none")}, 2, "", "the trials: "},
		{"survey", "a gap of this rulebook", []string{"survey", "--within", "ground_cbr", "--jobs", "300"}, 1, "NO ANSWER", ""},
		{"survey in part", "where there is none", []string{"survey", "--within", "paver_thickness", "--within", "soil.word=clay", "--jobs", "300"}, 0, "No fault: 3 questions settled.", ""},
		{"survey of a chapter", "its only one", []string{"survey", "--within", "chapter=yard", "--within", "soil.word = peat", "--jobs", "300"}, 1, "NO ANSWER", ""},
		{"survey misspelt", "the nearest name", []string{"survey", "--within", "ground_cb"}, 2, "", `did you mean "ground_cbr"?`},
		{"survey of nothing", "an argument it is not", []string{"survey", "ground_cbr"}, 2, "", "stands behind --within"},
		{"survey with jobs", "two trials stand beside the rules", []string{"survey", job("patio"), "--within", "paver_thickness", "--within", "soil.word=clay", "--jobs", "300"}, 0, "3 of them from trials and", ""},
		{"survey with a job that is none", "the job file at its line", []string{"survey", job("faulty"), "--within", "ground_cbr", "--jobs", "300"}, 2, "", "testdata/jobs/faulty.yaml:"},
		{"prove", "a promise that is kept", []string{"prove", "--amend", data("promises"), "--as-of", "2026-03-01", "--within", "YARD-SOME-BASE", "--jobs", "300"}, 0, "1 promise: 1 proven, 0 refuted", ""},
		{"prove what is not so", "the job that breaks it", []string{"prove", "--amend", data("promises"), "--as-of", "2026-03-01", "--jobs", "300"}, 1, "REFUTED: promise YARD-THIN-BASE", ""},
		{"prove misspelt", "the nearest name", []string{"prove", "--amend", data("promises"), "--as-of", "2026-03-01", "--within", "YARD-SOME-BAS"}, 2, "", `did you mean "YARD-SOME-BASE"?`},
		{"prove of no promise", "there is none to keep", []string{"prove"}, 0, "0 promises: 0 proven, 0 refuted", ""},
		{"impact of nothing", "an edit is needed", []string{"impact", data("jobs"), "--before-rules", data("rules")}, 2, "", "both rulebooks are the same"},
		{"impact without jobs", "and jobs", []string{"impact", "--amend", data("amend")}, 2, "", "a folder of jobs is needed"},
		{"impact no folder", "a slip of the keys", []string{"impact", data("none"), "--amend", data("amend"), "--before-rules", data("rules")}, 2, "", "there is no file or folder of jobs testdata/none\n"},
		{"impact", "one job", []string{"impact", job("patio"), "--amend", data("amend"), "--before-rules", data("rules")}, 0, "changes 1 job", ""},
		{"impact of a broken edit", "its faults come before any job", []string{"impact", job("patio"), "--amend", data("amend_broken"), "--before-rules", data("rules")}, 2, "", "2 faults"},
		{"impact from a broken rulebook", "its faults come before any job", []string{"impact", job("patio"), "--before-amend", data("amend_broken"), "--before-rules", data("rules")}, 2, "", "2 faults"},
		{"impact no rules", "the flag that is wrong", []string{"impact", job("patio"), "--before-rules", data("none")}, 2, "", "--before-rules: "},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := tryYard(append([]string{"book"}, tt.args...)...)
			require.Equal(t, tt.code, got.code, "%s\n%s%s", tt.why, got.out, got.err)
			if tt.err == "" {
				require.NotEmpty(t, tt.out, "the case must say what is shown")
				require.Contains(t, got.out, tt.out)
				require.Empty(t, got.err)
			} else {
				require.Contains(t, got.err, tt.err)
				require.Empty(t, got.out)
			}
		})
	}
}

// The standard rulebook is without faults, and so is the command line of each
// book command of the help.
func TestBookStandard(t *testing.T) {
	got := try("", "book", "check")
	require.Equal(t, exitDone, got.code, got.err)
	require.Regexp(t, `^no faults: [1-9]\d* files, .*, [1-9]\d* quantities, [1-9]\d* steps, [1-9]\d* tolerances, [1-9]\d* stops, [1-9]\d* options, [1-9]\d* remedies, [1-9]\d* sentences for the client\n`, got.out)
	require.Equal(t, result{}, try("", "book", "check", "--json"))
}

func TestBookCheckJSON(t *testing.T) {
	got := tryYard("book", "check", "--json", "--amend", data("amend_broken"))
	require.Equal(t, exitBadUse, got.code)
	require.Empty(t, got.err)
	var codes []string
	lines := bufio.NewScanner(strings.NewReader(got.out))
	for lines.Scan() {
		var d diagnostic.Diagnostic
		require.NoError(t, json.Unmarshal(lines.Bytes(), &d))
		require.Equal(t, "testdata/amend_broken/slips.yaml", d.Place.File)
		codes = append(codes, string(d.Code))
	}
	require.Equal(t, []string{"limit-crossed", "unknown-entry"}, codes)
	got = try("", "book", "check", "--json", "--rules", data("none"))
	require.Equal(t, result{exitBadUse, "{\"place\":{\"file\":\"\"},\"code\":\"\",\"message\":\"--rules: there is no folder testdata/none\"}\n", ""}, got, "what is no fault of a file has no place")
}

// The files of one run: amendments over rules, leave, and the day.
func TestAmend(t *testing.T) {
	got := tryYard("design", job("patio"), "--sheet", "audit", "--amend", data("amend"))
	require.Equal(t, exitDone, got.code, got.err)
	require.Contains(t, flat(got.out), "In force: amendment \"mill\" of The Mill (R. Tansy, 2026-02-03): Two patios settled last spring.")
	text := flat(got.out)
	require.Contains(t, text, "Changed by amendment \"mill\" of The Mill (R. Tansy, 2026-02-03), at testdata/amend/mill.yaml:13:5: Weak ground settled under 6 in. Before: BASE-WEAK, at testdata/rules/yard.yaml:")
	require.Contains(t, text, "answer `base_least + inches(2)`")
	require.Contains(t, text, "Changed by amendment \"mill\" of The Mill (R. Tansy, 2026-02-03), at testdata/amend/mill.yaml:8:5: ")
	require.Contains(t, text, "testdata/amend/mill.yaml, by its SHA-256:", "the file is one that the section was made from")
	for _, args := range [][]string{{"why", job("patio"), "base"}, {"calc", "base_thickness", job("patio")}} {
		got := tryYard(append(args, "--amend", data("amend"))...)
		require.Equal(t, exitDone, got.code, got.err)
		require.Contains(t, got.out, "9 in")
	}
	got = tryYard("calc", "base_least", "--amend", data("amend"))
	require.Contains(t, got.out, "base_least = 5 in (setting, AMENDED)")

	got = tryYard("design", job("patio"), "--amend", data("leave"))
	require.Equal(t, exitBadUse, got.code, "a variance ends, and no day was told")
	require.Contains(t, got.err, "testdata/leave/leave.yaml:15:5: the variance alder_row holds on some days only")
	require.Contains(t, got.err, "add the date, such as --as-of 2026-03-01")
	got = tryYard("design", job("patio"), "--amend", data("leave"), "--as-of", "2026-03-01")
	require.Equal(t, exitDone, got.code, got.err)
	require.Contains(t, flat(got.out), "base_least is 3 in, beyond its limit of 4 in. Approved through 2026-06-30 by R. Tansy: The ground there is gravel.")
	require.Contains(t, got.out, "By the rules in force on 2026-03-01.")
	got = tryYard("design", job("patio"), "--amend", data("leave"), "--as-of", "2026-07-01")
	require.Contains(t, got.err, "the variance alder_row has expired")
	got = tryYard("design", job("patio"), "--amend", data("amend"), "--amend", data("leave"), "--as-of", "2026-03-01")
	require.Contains(t, got.err, "base_least is amended twice", "neither builds on the other")
	got = tryYard("design", job("patio"), "--as-of", "1 March")
	require.Contains(t, got.err, "--as-of takes a date such as 2026-03-01")
	got = tryYard("design", job("patio"), "--amend", data("none"))
	require.Contains(t, got.err, "--amend: ")

	got = tryYard("design", job("patio"), "--amend", data("leave"), "--as-of", "2026-03-01", "--json")
	var s section.Section
	require.NoError(t, json.Unmarshal([]byte(got.out), &struct {
		AsOf       *rulebook.Date
		Amendments *[]rulebook.Amendment
	}{&s.AsOf, &s.Amendments}))
	require.Len(t, s.Amendments, 1)
}

// crossing writes an amendment that sets a setting of the standard rulebook
// below its limit, and gives its folder and the place of the limit.
func crossing(t *testing.T, dir string) diagnostic.Place {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	for _, s := range book.Rules().Settings {
		if least, isLength := s.AtLeast.Length(); !isLength || least <= quantity.Inches(0.125) {
			continue
		}
		require.NoError(t, os.MkdirAll(dir, 0o755))
		text := fmt.Sprintf("amendment: thin\ncompany: Ours\nwho: J. Orr\nwhy: To see.\nwhen: 2026-01-01\nreplace:\n  - setting: %s\n    set:\n      value: %s\n      because: Thin.\n      source: company\n", s.Name, quantity.Inches(0.125))
		require.NoError(t, os.WriteFile(filepath.Join(dir, "10-sources.yaml"), []byte(text), 0o644))
		return s.Place
	}
	t.Fatal("no setting of the standard rulebook has a least length")
	return diagnostic.Place{}
}

// A fault over the standard rulebook quotes the amendment from its folder and
// the limit from the embedded files, also where both have one name.
func TestFaultsOverTheStandard(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, dir := range []string{"ours", rules.Label, "."} {
		place := crossing(t, dir)
		require.Equal(t, rules.Label, filepath.Dir(place.File))
		got := try("", "book", "check", "--amend", dir)
		require.Equal(t, exitBadUse, got.code)
		require.Contains(t, got.err, "10-sources.yaml:9:14: ")
		require.Contains(t, got.err, "9 |       value: 1/8 in", "quoted from %s", dir)
		require.Contains(t, got.err, place.File+":", "the limit stands in the standard rulebook")
		require.Contains(t, got.err, "at_least: ", "and is quoted from there")
		if dir != "ours" {
			require.NotContains(t, got.err, "\n"+rules.Label+"/10-sources.yaml:7:12")
			require.True(t, filepath.IsAbs(strings.SplitN(got.err, ":", 2)[0]), got.err)
		}
	}
}

func TestBookSchema(t *testing.T) {
	for _, k := range review.SchemaKinds() {
		got := try("", "book", "schema", k)
		require.Equal(t, exitDone, got.code, got.err)
		var head map[string]any
		require.NoError(t, json.Unmarshal([]byte(got.out), &head))
		require.Equal(t, "https://json-schema.org/draft/2020-12/schema", head["$schema"])
	}
	got := try("", "book", "schema", "jobs")
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, `did you mean "job"?`)
	require.Contains(t, try("", "book", "schema").err, "one kind of file is needed")
}

func TestBookJobs(t *testing.T) {
	got := try("", "book", "jobs", "--count", "5", "--seed", "7")
	require.Equal(t, exitDone, got.code, got.err)
	require.Equal(t, 5, strings.Count(got.out, "\n"))
	require.Equal(t, got, try("", "book", "jobs", "--seed", "7", "--count", "5"), "one seed gives one list")
	require.NotEqual(t, got, try("", "book", "jobs", "--count", "5"))
	require.Equal(t, exitBadUse, try("", "book", "jobs", "--count", "-1").code)
	require.Equal(t, exitBadUse, try("", "book", "jobs", "5").code)
}

func TestBookImpact(t *testing.T) {
	edit := []string{"--amend", data("amend"), "--before-rules", data("rules")}
	jobs := try("", "book", "jobs", "--count", "40").out
	lines := filepath.Join(t.TempDir(), "past.jsonl")
	require.NoError(t, os.WriteFile(lines, []byte(jobs), 0o644))
	fromFile := tryYard(append([]string{"book", "impact", lines}, edit...)...)
	require.Equal(t, exitDone, fromFile.code, fromFile.err)
	require.Contains(t, fromFile.out, "tried on 40 jobs")
	got := try(jobs, append(append([]string{"book", "impact", "-"}, edit...), yard...)...)
	require.Equal(t, fromFile, got, "standard input is as good as a file")
	both := tryYard(append([]string{"book", "impact", lines, job("patio")}, edit...)...)
	require.Contains(t, both.out, "tried on 41 jobs")

	folder := tryYard(append([]string{"book", "impact", data("jobs")}, edit...)...)
	require.Equal(t, exitBadUse, folder.code, "one of the jobs has faults")
	require.Contains(t, folder.out, "faulty.yaml")
	require.Contains(t, folder.out, "changes 1 job", "the others are told all the same")
	require.Contains(t, folder.err, "1 of 7 jobs change; 1 could not be read")

	asJSON := tryYard(append([]string{"book", "impact", job("patio"), "--json"}, edit...)...)
	var head struct{ Schema string }
	require.NoError(t, json.Unmarshal([]byte(asJSON.out), &head))
	require.Equal(t, "groundrule/impact", head.Schema)

	shown := func(n string) string {
		return tryYard(append([]string{"book", "impact", lines, "--shown", n}, edit...)...).out
	}
	require.Equal(t, shown("20"), fromFile.out, "so many are shown where nobody says")
	require.Less(t, len(shown("19")), len(fromFile.out), "there are more than those")
	require.Greater(t, len(shown("21")), len(fromFile.out))
	areas := try("", "book", "impact", "../../examples/jobs/four-areas.yaml", "--amend", "../../examples/wrenfold/amendments", "--as-of", "2026-06-01")
	require.Equal(t, exitDone, areas.code, areas.err)
	require.Contains(t, areas.out, "tried on 4 jobs", "each area is one")
	leave := tryYard("book", "impact", job("patio"), "--before-rules", data("rules"), "--before-amend", data("leave"), "--as-of", "2026-03-01", "--amend", data("amend"))
	require.Equal(t, exitDone, leave.code, "one day does for both: %s", leave.err)
}

func TestBookSurveyJSON(t *testing.T) {
	got := tryYard("book", "survey", "--within", "ground_cbr", "--jobs", "300", "--json")
	require.Equal(t, exitNo, got.code, got.err)
	require.True(t, json.Valid([]byte(got.out)))
	require.True(t, strings.HasPrefix(got.out, "{\n  \""), "it is indented")
	require.Empty(t, got.err, "no line of progress where there is no terminal")
}

// A rulebook is told what it holds, in one and in many, and what it lacks.
func TestBookCheckOfLittle(t *testing.T) {
	dir := t.TempDir()
	write := func(text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, "a.yaml"), []byte("chapter: a\nabout: little\nrefusals:\n  - {refusal: NO, when: area > sq_ft(1), says: No., who: Anyone., source: practice}\n"+text), 0o644))
	}
	write("")
	got := try("", "book", "check", "--rules", dir)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "the rulebook has no course [no-course]")
	require.Contains(t, got.err, "the rulebook has no caution [no-caution]")
	write(`cautions:
  - {caution: LOOK, says: Look., source: practice}
vocabularies:
  course_kind: {about: kinds, words: {soil: soil}, because: told, source: practice}
decisions:
  depth: {asks: How deep, answers: length, take: first, rules: [{rule: D, answer: inches(6), because: So., source: practice}]}
courses:
  - {course: base, label: Base, is: soil, because: So., source: practice, attributes: {thickness: depth}}
`)
	got = try("", "book", "check", "--rules", dir)
	require.Equal(t, "no faults: 1 file, 1 chapter, 1 decision, 1 rule, 0 settings, 0 terms, 0 materials, 1 course, 0 checks, 1 caution, 1 refusal\n", got.out, got.err)
}

// Jobs are made up of a seed, and the usual seed and count are what the help says.
func TestBookJobsSeeds(t *testing.T) {
	usual := try("", "book", "jobs")
	require.Equal(t, exitDone, usual.code)
	require.Equal(t, 100, strings.Count(usual.out, "\n"))
	require.Equal(t, usual, try("", "book", "jobs", "--seed", "1", "--count", "100"))
	require.NotEqual(t, usual, try("", "book", "jobs", "--seed", "2"))
	require.Equal(t, result{}, try("", "book", "jobs", "--count", "0"))
}

// The line of progress is written over itself and taken away.
func TestProgress(t *testing.T) {
	var b bytes.Buffer
	p := &progress{w: &b}
	p.show("walking", 1, 4)
	p.show("walking", 1, 4)
	p.show("jobs", 100, 0)
	p.show("one", 0, 1)
	p.end()
	require.Equal(t, "\rwalking: 25 %\rjobs: 100    \rone: 0 %     \r             \r", b.String())
	none := &progress{}
	none.show("walking", 1, 4)
	none.end()
	require.False(t, isTerminal(&b))
	file, err := os.Open(os.DevNull)
	require.NoError(t, err)
	defer file.Close()
	pipe, in, err := os.Pipe()
	require.NoError(t, err)
	defer pipe.Close()
	defer in.Close()
	require.False(t, isTerminal(in))
}

// Trials of one name in two files of a folder are one too many.
func TestTrialsTwice(t *testing.T) {
	dir := t.TempDir()
	text, err := os.ReadFile(filepath.Join(data("rules"), rulebook.TrialsFolder, "yard.yaml"))
	require.NoError(t, err)
	for _, name := range []string{"a.yaml", "b.yaml"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), text, 0o644))
	}
	got := tryYard("book", "trials", dir)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "b.yaml:3:12: the trial PATIO is there already")
	require.Contains(t, got.err, "a.yaml:3:12: it stands here first")
}

func TestBookTrialsJSON(t *testing.T) {
	got := tryYard("book", "trials", data("trials_failing"), "--json")
	require.Equal(t, exitNo, got.code, got.err)
	var r struct {
		Failed  int
		Results []struct {
			Name     string
			Failures []struct{ What, Was, Wanted string }
		}
		Coverage *struct{}
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &r))
	require.Equal(t, 1, r.Failed)
	require.Equal(t, "THICK", r.Results[0].Name)
	require.Len(t, r.Results[0].Failures, 1)
	require.Nil(t, r.Coverage)
}

// interrupting is a standard input at which nobody types: as soon as it is read
// the user interrupts instead.
type interrupting struct{ t *testing.T }

func (i interrupting) Read([]byte) (int, error) {
	me, err := os.FindProcess(os.Getpid())
	require.NoError(i.t, err)
	require.NoError(i.t, me.Signal(os.Interrupt))
	select {}
}

func TestBookImpactIsInterrupted(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "js" {
		t.Skip("a process cannot interrupt itself there")
	}
	var out, errs bytes.Buffer
	code := run([]string{"book", "impact", "-", "--amend", data("amend"), "--rules", data("rules"), "--before-rules", data("rules")}, interrupting{t}, &out, &errs)
	require.Equal(t, exitFailed, code)
	require.Empty(t, out.String())
	require.Equal(t, "groundrule book impact: interrupted; nothing was proven\n", errs.String())
}

// A link to a device in a folder of amendments is refused: it is not read whole,
// and not read again to quote the line at fault.
func TestDeviceAmongAmendments(t *testing.T) {
	dir := t.TempDir()
	if err := os.Symlink("/dev/zero", filepath.Join(dir, "a.yaml")); err != nil {
		t.Skip("no links here:", err)
	}
	if info, err := os.Stat(filepath.Join(dir, "a.yaml")); err != nil || info.Mode().IsRegular() {
		t.Skip("no such device here")
	}
	got := try("", "book", "check", "--amend", dir)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, flat(got.err+got.out), "this is not a regular file")
}
