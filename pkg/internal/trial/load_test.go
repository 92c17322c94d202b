package trial_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
)

// TestFaults returns each fault with where it stands, and the nearest name.
func TestFaults(t *testing.T) {
	const job = "job: {use: foot, base: dense, area: 100 sq ft}"
	one := func(rest string) string {
		return "trials:\n  - trial: A\n    why: To try.\n    " + job + "\n    " + rest + "\n"
	}
	cases := []struct{ name, why, text, want string }{
		{"unknown key", "a slip of the pen in a key", one("expects: {status: designed}"), `5:5: unknown key "expects" in a trial`},
		{"unknown expectation", "a slip of the pen below", one("expect: {answer: {depth: 4 in}}"), `5:14: unknown key "answer" in what is expected`},
		{"no trials", "a file of nothing else", "about: Nothing.\n", `1:1: a trial file needs the key "trials"`},
		{"no why", "every trial says why", "trials:\n  - trial: A\n    " + job + "\n    expect: {status: designed}\n", `2:5: a trial needs the key "why"`},
		{"no why of a case", "every case too", one("cases: [{case: one, expect: {status: designed}}]"), `5:13: a case needs the key "why"`},
		{"expects nothing", "a trial that cannot fail", one("settings: {}"), "2:5: the trial expects nothing"},
		{"expects an empty mapping", "one that says so", one("expect: {}"), "5:13: nothing is expected"},
		{"twice", "an id stands for one trial", one("expect: {status: designed}") + "  - trial: A\n    why: Again.\n    " + job + "\n    expect: {status: designed}\n", "6:12: the trial A is there already; found A; trials/yard.yaml:2:12: it stands here first"},
		{"case twice", "so does a case's", one("cases: [{case: x, why: To try., expect: {status: designed}}, {case: x, why: To try., expect: {status: designed}}]"), "the case A/x is there already"},
		{"list of mappings", "a list of names holds names", one("expect: {failed: [{DEEP: 1}]}"), `5:23: a name under "failed" is a single value`},
		{"not a list", "a single name is no list", one("expect: {failed: DEEP}"), `5:22: "failed" of what is expected must be a list`},
		{"answers as a list", "answers are names with values", one("expect: {answers: [depth]}"), "5:23: the answers are written as names with values"},
		{"job of the wrong kind", "the job is read as job files are", strings.Replace(one("expect: {status: designed}"), "100 sq ft", "100 in", 1), `4:45: area cannot be read`},
		{"job with an unknown key", "and as strictly", strings.Replace(one("expect: {status: designed}"), "area:", "aera:", 1), `4:35: unknown key "aera" in a job`},
		{"change with an unknown key", "so is a change", one("cases: [{case: x, why: To try., change: {sole: {cbr: [2]}}, expect: {status: designed}}]"), `5:46: unknown key "sole" in a job`},

		{"unknown decision", "with the nearest", one("expect: {answers: {deph: 4 in}}"), `5:24: no decision is called deph; found deph; wanted a decision of the rulebook; did you mean "depth"?`},
		{"unknown rule", "of that decision", one("expect: {rules: {cover: COVER-TURV}}"), `5:29: no rule of cover is called COVER-TURV; found COVER-TURV; wanted a rule of cover of the rulebook; did you mean "COVER-TURF"?`},
		{"rule of another decision", "says whose it is", one("expect: {rules: {cover: DEPTH-WET}}"), "5:29: rule DEPTH-WET decides depth, not cover"},
		{"unknown word", "of the answer's vocabulary", one("expect: {answers: {cover: turv}}"), `5:31: cover: this is not a word of cover_word; found turv; wanted one of slab, turf; did you mean "turf"?`},
		{"unknown limit", "with the nearest", one("expect: {crossed: [DEPTH-NOT-LES]}"), `5:24: no limit is called DEPTH-NOT-LES; found DEPTH-NOT-LES; wanted a limit of the rulebook; did you mean "DEPTH-NOT-LESS"?`},
		{"unknown check", "with the nearest", one("expect: {failed: [DEEPP]}"), `5:23: no check is called DEEPP; found DEEPP; wanted a check of the rulebook; did you mean "DEEP"?`},
		{"unknown caution", "with the nearest", one("expect: {cautions: [SLABB]}"), `did you mean "SLAB"?`},
		{"unknown refusal", "with the nearest", one("expect: {status: refused, refusals: [YRD]}"), `did you mean "YARD"?`},
		{"unknown course", "with the nearest", one("expect: {courses: {present: [topp]}}"), `5:34: no course is called topp; found topp; wanted a course of the rulebook; did you mean "top"?`},
		{"unknown held", "with the nearest", one("expect: {held: [DEPTH-WED]}"), `did you mean "DEPTH-WET"?`},
		{"unknown status", "with the nearest", one("expect: {status: designd}"), `5:22: a design has no such status; found designd; wanted designed, refused, stopped; did you mean "designed"?`},
		{"unknown setting", "with the nearest", one("settings: {leest: 5 in}\n    expect: {status: designed}"), `5:16: no setting is called leest; found leest; wanted a setting of the rulebook; did you mean "least"?`},
		{"number for a length", "a unit is wanted", one("expect: {answers: {depth: 4}}"), "5:31: depth: a unit is missing, and a length is wanted; found 4; wanted one of the units in, "},
		{"length for a number", "no unit is wanted", one("expect: {answers: {strength: 4 in}}"), "5:34: strength: this is not a number; found 4 in; wanted a number without a unit"},
		{"list for a length", "a single value is wanted", one("expect: {answers: {depth: [4 in]}}"), "5:31: depth is length, and this is not; found a list"},
		{"nothing for a length", "a value is wanted", one("expect: {answers: {depth: }}"), "depth is length, and this is not"},
		{"between of a word", "words have no order", one("expect: {between: {cover: [turf, slab]}}"), "5:31: cover is cover_word; between takes the least and the most"},
		{"between of one", "two are wanted", one("expect: {between: {depth: [4 in]}}"), "5:31: depth is length; between takes the least and the most"},
		{"between turned about", "no value lies there", one("expect: {between: {depth: [5 in, 4 in]}}"), "5:31: the least is more than the most"},
		{"setting of the wrong kind", "as the setting's own value", one("settings: {least: 4}\n    expect: {status: designed}"), "5:23: least: a unit is missing, and a length is wanted"},
		{"setting beyond its limit", "without a variance", one("settings: {least: 2 in}\n    expect: {status: designed}"), "5:23: the setting cannot be tried at this value: least is at least 3 in; found 2 in; wanted a value within the limits, or {by_variance: VALUE}"},
		{"variance for nothing", "a variance for a value within the limits", one("settings: {least: {by_variance: 3 in}}\n    expect: {status: designed}"), "5:37: least crosses no limit at this value, and needs no variance; found 3 in; wanted a value beyond the limits, or one without by_variance"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			trials, err := load(c.text)
			if err == nil {
				_, err = measured(t, open(t), trials)
			}
			var faults diagnostic.List
			require.ErrorAs(t, err, &faults, c.why)
			require.NotEmpty(t, faults)
			require.Contains(t, err.Error(), c.want, c.why)
			var first *diagnostic.Diagnostic
			require.ErrorAs(t, err, &first)
			require.Equal(t, "trials/yard.yaml", first.Place.File)
			require.NotZero(t, first.Place.Line)
		})
	}
}

// TestFaultsAreGatheredOnce: a fault of the job is one fault, however many cases
// share the job.
func TestFaultsAreGatheredOnce(t *testing.T) {
	_, err := load(`trials:
  - trial: A
    why: To try.
    job: {use: foot, base: dense}
    cases:
      - {case: x, why: To try., expect: {status: designed}}
      - {case: y, why: To try., expect: {status: designed}}
  - trial: B
    why: To try.
    job: {use: foot, base: dense, area: 1 sq ft}
    expect: {status: designed, more: 1}
`)
	var faults diagnostic.List
	require.ErrorAs(t, err, &faults)
	require.Len(t, faults, 2)
}

func TestLoadReadsTheFolderInOrder(t *testing.T) {
	file := func(id string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("trials:\n  - {trial: " + id + ", why: To try., job: {use: foot, base: dense, area: 1 sq ft}, expect: {status: designed}}\n")}
	}
	ours := rulebook.Layer{Label: "ours", FS: fstest.MapFS{"trials/b.yaml": file("B"), "trials/a.yml": file("A"), "trials/notes.txt": file("C"),
		"trials/deeper/c.yaml": file("D"), "trials/.git/f.yaml": file("F"), "elsewhere/e.yaml": file("E")}}
	some := rulebook.Layer{Label: "some", FS: fstest.MapFS{"g.yaml": file("G")}}
	trials, err := trial.Load(ours, some, ours, rulebook.Layer{Label: "./some/", FS: some.FS})
	require.NoError(t, err)
	var got []string
	for i := range trials {
		got = append(got, trials[i].Place.File+" "+trials[i].Name())
	}
	require.Equal(t, []string{"ours/trials/a.yml A", "ours/trials/b.yaml B", "ours/trials/deeper/c.yaml D", "some/g.yaml G"}, got,
		"each once, and those of a folder that has no folder of trials from itself")

	twice := rulebook.Layer{Label: "twice", FS: fstest.MapFS{"a.yaml": file("A"), "b.yaml": file("A"), "c.yaml": &fstest.MapFile{Data: []byte("about: No trials.\n")}}}
	_, err = trial.Load(twice)
	require.ErrorContains(t, err, "twice/b.yaml:2:13: the trial A is there already; found A; twice/a.yaml:2:13: it stands here first")
	require.ErrorContains(t, err, `twice/c.yaml:1:1: a trial file needs the key "trials"`, "all files are looked at")

	_, err = trial.Load(rulebook.Layer{Label: "none", FS: os.DirFS(filepath.Join(t.TempDir(), "none"))})
	require.ErrorIs(t, err, fs.ErrNotExist)
	_, err = trial.Load(rulebook.Layer{Label: "pipe", FS: fstest.MapFS{"p.yaml": &fstest.MapFile{Mode: fs.ModeNamedPipe}}})
	require.ErrorContains(t, err, "not a regular file")
}

// TestCasesLayOverTheJob: entry by entry, a list as a whole, null takes away.
func TestCasesLayOverTheJob(t *testing.T) {
	trials := read(t, `trials:
  - trial: A
    why: To try.
    job: {use: foot, base: dense, area: 1 sq ft, soil: {word: clay, cbr: [3, 2]}, frost: {depth: 3 ft}}
    settings: {least: 5 in}
    expect: {answers: {depth: 5 in}}
    cases:
      - {case: x, why: To try., change: {soil: {cbr: [9]}, frost: null}, settings: {strict: true}, expect: {answers: {depth: 5 in, cover: slab}}}
      - {case: y, why: To try., change: {soil: {cbr: null}}, settings: {least: 6 in}, expect: {answers: {depth: 6 in, cover: turf}}}
`)
	require.Len(t, trials, 3)
	require.Equal(t, "A", trials[0].Name())
	require.Equal(t, "A/x", trials[1].Name())
	require.Equal(t, []float64{3, 2}, trials[0].Job.Soil.CBR)
	require.Equal(t, []float64{9}, trials[1].Job.Soil.CBR)
	require.Nil(t, trials[1].Job.Frost.Depth)
	require.NotNil(t, trials[2].Job.Frost.Depth)
	require.Empty(t, trials[2].Job.Soil.CBR)
	require.EqualValues(t, "clay", trials[2].Job.Soil.Word)
	report, err := measured(t, open(t), trials)
	require.NoError(t, err)
	require.Equal(t, 3, report.Passed)
}

// FuzzRead: whatever the file, it is read or reported, and never panics.
func FuzzRead(f *testing.F) {
	f.Add([]byte(walk + "    expect: {answers: {depth: 4 in}, courses: {from_bottom: [top]}}\n"))
	f.Add([]byte(walk + "    cases:\n      - {case: a, why: b, change: {soil: null}, settings: {least: {like: x}}, expect: {between: {depth: [1 in, 2 in]}}}\n"))
	f.Add([]byte("trials: [{trial: A, job: [], expect: []}]"))
	book := open(&testing.T{})
	f.Fuzz(func(t *testing.T, data []byte) {
		trials, err := load(string(data))
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		_, _ = measured(t, book, trials)
	})
}
