package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// asks is the small rulebook with questions.
var asks = append([]string{"--amend", filepath.Join("testdata", "asks")}, yard...)

func TestAsk(t *testing.T) {
	for _, c := range []struct {
		name, why string
		args      []string
		code      int
		want      string
	}{
		{"next", "clay is told, so its strength is asked", []string{job("patio")}, exitDone, "What does the cone say? (soil.cbr)"},
		{"how", "with what is assumed", []string{job("patio")}, exitDone, "Ground of CBR 2.5 is assumed."},
		{"what comes of it", "in short words", []string{job("patio")}, exitDone, "5: 3 in less stone."},
		{"what changes nothing", "is said", []string{job("patio")}, exitDone, "2: changes nothing."},
		{"answered", "nothing is left to ask", []string{job("patio"), "soil.cbr=5"}, exitDone, "Nothing is left to ask"},
		{"unknown", "it is not asked again", []string{job("patio"), "soil.cbr=unknown"}, exitDone, "Nothing is left to ask"},
		{"no file", "what is wanted", nil, exitBadUse, "no job file given"},
		{"no answer", "how one is written", []string{job("patio"), "soil.cbr"}, exitBadUse, `an answer is KEY=ANSWER, such as soil.consistency=stiff, and "soil.cbr" was given`},
		{"wrong answer", "as a job file is told it", []string{job("patio"), "soil.cbr=much"}, exitBadUse, "soil.cbr"},
		{"wrong key", "and the nearest", []string{job("patio"), "soil.cbx=unknown"}, exitBadUse, `did you mean "soil.cbr"?`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", append(append([]string{"ask"}, c.args...), asks...)...)
			require.Equal(t, c.code, got.code, got.err)
			require.Contains(t, got.out+got.err, c.want, c.why)
		})
	}
	before, err := os.ReadFile(job("patio"))
	require.NoError(t, err)
	into := filepath.Join(t.TempDir(), "answered.yaml")
	got := try("", append([]string{"ask", job("patio"), "soil.cbr=5", "-o", into, "--json"}, asks...)...)
	require.Equal(t, exitDone, got.code, got.err)
	var form struct{ Questions []any }
	require.NoError(t, json.Unmarshal([]byte(got.out), &form))
	require.Empty(t, form.Questions)
	after, err := os.ReadFile(into)
	require.NoError(t, err)
	require.Contains(t, string(after), "cbr: [5]", "the job with its answer")
	same, err := os.ReadFile(job("patio"))
	require.NoError(t, err)
	require.Equal(t, before, same, "the job file stays as it is")
	got = try("", append([]string{"ask", job("patio"), "-o", into}, asks...)...)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "is there already, and nothing was written; name another file\n")
}

// Where a calculation does not reach a job, no answer can be weighed, and the end of
// the questions would be told for a job that has no section.
func TestAskWhereNothingCanBeWeighed(t *testing.T) {
	ours := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(ours, "firm.yaml"), []byte(`amendment: firm
company: The Mill
who: R. Tansy
when: 2026-02-03
why: Firm ground.
replace:
  - rule: CBR-HAND
    set: {answer: "cbr_high_from_consistency(soil.consistency, strength_to_cbr)", source: company}
    because: The high edge of hard clay is nowhere published.
`), 0o600))
	flags := []string{"--amend", ours, "--as-of", "2026-06-01"}
	into := filepath.Join(t.TempDir(), "answered.yaml")
	job := "job: Hard corner\narea: 400 sq ft\nuse: foot\nbase: dense\nsoil: {uscs: CL, consistency: hard}\n"
	got := try(job, append([]string{"ask", "-", "nearby.utilities=yes", "-o", into}, flags...)...)
	require.Equal(t, exitNo, got.code, got.err)
	require.Empty(t, got.out)
	require.Contains(t, got.err, "A calculation that this section needs does not reach this job: cbr_high_from_consistency(hard,")
	require.FileExists(t, into, "what was answered is kept")
	got = try(job, append([]string{"ask", "-", "--json"}, flags...)...)
	require.Equal(t, exitNo, got.code, got.err)
	var told struct{ Questions, Refusals []struct{ ID string } }
	require.NoError(t, json.Unmarshal([]byte(got.out), &told), "a screen is told as much as a person")
	require.Empty(t, told.Questions)
	require.Len(t, told.Refusals, 1)
}

// A job that is begun can be designed, and nothing is written over.
func TestBegin(t *testing.T) {
	path := filepath.Join(t.TempDir(), "job.yaml")
	for _, flags := range [][]string{asks, nil} {
		require.NoError(t, os.RemoveAll(path))
		got := try("", append([]string{"begin", path}, flags...)...)
		require.Equal(t, exitDone, got.code, got.err)
		require.Equal(t, "wrote "+path+"\n", got.out)
		if flags != nil {
			begun, err := os.ReadFile(path)
			require.NoError(t, err)
			golden(t, "job_begun.txt", string(begun))
		}
		if flags == nil {
			got = try("", "design", path)
			require.Equal(t, exitDone, got.code, got.err)
			continue
		}
		begun, err := os.ReadFile(path)
		require.NoError(t, err)
		golden(t, "job_begun.txt", string(begun))
	}
	was, err := os.ReadFile(path)
	require.NoError(t, err)
	got := try("", "begin", path)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "is there already, and nothing was written; name another file\n")
	is, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, was, is)
	require.Equal(t, exitBadUse, try("", "begin").code)
}
