package mutation

import (
	"cmp"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/rules"
)

// TestStandard measures the standard rulebook's trials and writes the report
// beside this file. It takes minutes, so it runs only if asked:
//
//	GROUNDRULE_MUTATION=1 go test ./pkg/internal/mutation -run Standard -timeout 60m
//
// With GROUNDRULE_MUTATION=survivors it tries again only what the last report
// lists as not noticed, with since=REV only what stands on lines of the rules that
// have come since that commit, and with a pattern, such as '^(8|95)', only changes of
// the files whose names match; then it writes nothing.
func TestStandard(t *testing.T) {
	which := os.Getenv("GROUNDRULE_MUTATION")
	if which == "" {
		t.Skip("takes minutes; set GROUNDRULE_MUTATION=1")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	trials, err := trial.Load(rulebook.Layer{Label: rules.Label, FS: rules.Files()})
	require.NoError(t, err)
	mutants, err := mutantsOf(rules.Files(), book)
	require.NoError(t, err)
	rev, since := strings.CutPrefix(which, "since=")
	switch {
	case which == "1":
	case which == "survivors":
		mutants = survivors(t, mutants)
	case since:
		mutants = changed(t, mutants, rev)
	default:
		name := regexp.MustCompile(which)
		mutants = slices.DeleteFunc(mutants, func(m mutant) bool { return !name.MatchString(m.file) })
	}
	t.Log(len(mutants), "changes")
	report, err := measure(t.Context(), rules.Files(), trials, mutants)
	require.NoError(t, err)
	if which != "1" {
		t.Log(report.String())
		return
	}
	require.NoError(t, os.WriteFile("testdata/standard.txt", []byte(report.String()), 0o644))
	require.GreaterOrEqual(t, report.share(), 0.99, report.String())
}

// survivors returns the mutants that the last report lists as not noticed. Lines
// and columns may have moved since, so they are not compared; of changes that
// are else alike all are tried.
func survivors(t *testing.T, mutants []mutant) []mutant {
	data, err := os.ReadFile("testdata/standard.txt")
	require.NoError(t, err)
	place := regexp.MustCompile(`:\d+:\d+: `)
	listed := map[string]bool{}
	for line := range strings.Lines(string(data)) {
		listed[place.ReplaceAllString(strings.TrimSpace(line), ": ")] = true
	}
	return slices.DeleteFunc(mutants, func(m mutant) bool {
		return !listed[place.ReplaceAllString(m.String(), ": ")]
	})
}

// changed returns the mutants on lines that have come since a commit.
func changed(t *testing.T, mutants []mutant, rev string) []mutant {
	diff, err := exec.Command("git", "diff", "--unified=0", rev, "--", "../../../rules").Output()
	require.NoError(t, err)
	lines, file := map[string]bool{}, ""
	hunk := regexp.MustCompile(`^@@ -\S+ \+(\d+)(?:,(\d+))? @@`)
	for line := range strings.Lines(string(diff)) {
		if name, is := strings.CutPrefix(line, "+++ b/rules/"); is {
			file = strings.TrimSpace(name)
		}
		if m := hunk.FindStringSubmatch(line); m != nil {
			from, err := strconv.Atoi(m[1])
			require.NoError(t, err)
			many, err := strconv.Atoi(cmp.Or(m[2], "1"))
			require.NoError(t, err)
			for at := range many {
				lines[fmt.Sprint(file, ":", from+at)] = true
			}
		}
	}
	return slices.DeleteFunc(mutants, func(m mutant) bool { return !lines[fmt.Sprint(m.file, ":", m.Place.Line)] })
}

// TestReport keeps the last report that stands in the repository to its promise.
// A change of the rules does not ask for a new one; whoever wants to know how the
// trials guard them now measures again.
func TestReport(t *testing.T) {
	data, err := os.ReadFile("testdata/standard.txt")
	require.NoError(t, err)
	require.Regexp(t, `were noticed by a trial: (9[5-9]|100)\.[0-9] %`, string(data))
}
