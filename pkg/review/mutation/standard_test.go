package mutation_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review/mutation"
	"example.com/groundrule/pkg/review/trial"
	"example.com/groundrule/rules"
)

// TestStandard measures the standard rulebook's trials and writes the report
// beside this file. It takes minutes, so it runs only if asked:
//
//	GROUNDRULE_MUTATION=1 go test ./pkg/review/mutation -run Standard -timeout 60m
//
// With GROUNDRULE_MUTATION=survivors it tries again only what the last report
// lists as not noticed, and writes nothing.
func TestStandard(t *testing.T) {
	if os.Getenv("GROUNDRULE_MUTATION") == "" {
		t.Skip("takes minutes; set GROUNDRULE_MUTATION=1")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	trials, err := trial.Load(rules.Files)
	require.NoError(t, err)
	mutants, err := mutation.Mutants(rules.Files, book)
	require.NoError(t, err)
	again := os.Getenv("GROUNDRULE_MUTATION") == "survivors"
	if again {
		mutants = survivors(t, mutants)
	}
	report, err := mutation.Run(context.Background(), rules.Files, trials, mutants, nil)
	require.NoError(t, err)
	var b strings.Builder
	b.WriteString(measuredOn(t))
	require.NoError(t, report.Write(&b))
	if again {
		t.Log(b.String())
		return
	}
	require.NoError(t, os.WriteFile("testdata/standard.txt", []byte(b.String()), 0o644))
	require.GreaterOrEqual(t, report.Share(), 0.95, b.String())
}

// survivors returns the mutants that the last report lists as not noticed. Lines
// and columns may have moved since, so they are not compared; of changes that
// are else alike all are tried.
func survivors(t *testing.T, mutants []mutation.Mutant) []mutation.Mutant {
	data, err := os.ReadFile("testdata/standard.txt")
	require.NoError(t, err)
	place := regexp.MustCompile(`:\d+:\d+: `)
	listed := map[string]bool{}
	for line := range strings.Lines(string(data)) {
		listed[place.ReplaceAllString(strings.TrimSpace(line), ": ")] = true
	}
	return slices.DeleteFunc(mutants, func(m mutation.Mutant) bool {
		return !listed[place.ReplaceAllString(m.String(), ": ")]
	})
}

// TestReport keeps the report that stands in the repository to its promise.
func TestReport(t *testing.T) {
	data, err := os.ReadFile("testdata/standard.txt")
	require.NoError(t, err)
	require.True(t, strings.HasPrefix(string(data), measuredOn(t)), "the rules or the trials have changed; measure again with GROUNDRULE_MUTATION=1")
	require.Regexp(t, `were noticed by a trial: (9[5-9]|100)\.[0-9] %`, string(data))
}

// small is a rulebook of two rules, of which a job under feet tries one.
const small = `chapter: small
about: Small.
vocabularies:
  course_kind: {about: Sorts., words: {stone: stone}}
decisions:
  depth:
    asks: How deep?
    answers: number
    take: first
    rules:
      - {rule: LARGE, when: "known(paver.herringbone) && use == foot", answer: 4, because: x, source: practice}
      - {rule: SMALL, answer: 10, because: x, source: practice}
`

// measuredOn tells which rules and trials a report is of.
func measuredOn(t *testing.T) string {
	sum := sha256.New()
	for _, pattern := range []string{"*.yaml", "trials/*.yaml"} {
		names, err := fs.Glob(rules.Files, pattern)
		require.NoError(t, err)
		require.NotEmpty(t, names)
		for _, name := range names {
			data, err := fs.ReadFile(rules.Files, name)
			require.NoError(t, err)
			fmt.Fprintf(sum, "%s %d\n%s", name, len(data), data)
		}
	}
	return fmt.Sprintf("Rules and trials of SHA-256 %x.\n", sum.Sum(nil))
}

// TestSmall proves on a small rulebook that a change is noticed where a trial
// holds the rule, and not where none does.
func TestSmall(t *testing.T) {
	files := fstest.MapFS{"small.yaml": {Data: []byte(small)}}
	book, err := groundrule.Open(files)
	require.NoError(t, err)
	trials, err := trial.Read("t.yaml", []byte(`about: x
trials:
  - {trial: T, why: x, job: {use: foot, base: dense, area: 1 sq ft}, expect: {answers: {depth: 10}}}
`))
	require.NoError(t, err)
	mutants, err := mutation.Mutants(files, book)
	require.NoError(t, err)
	var seen []string
	for _, m := range mutants {
		seen = append(seen, m.From+" became "+m.To)
	}
	require.Equal(t, []string{"== became !=", "foot became car_driveway", "4 became 4.4", "10 became 11"}, seen)
	report, err := mutation.Run(context.Background(), files, trials, mutants, nil)
	require.NoError(t, err)
	require.Equal(t, 1, report.Count(mutation.Noticed), "only the answer that the trial expects")
	require.Equal(t, 3, report.Count(mutation.Survived))
	require.InDelta(t, 0.25, report.Share(), 1e-9)
}

// TestUnfit proves that nothing is measured by trials that fail, or do not bind,
// before any change: the share would say nothing.
func TestUnfit(t *testing.T) {
	for _, c := range []struct{ name, why, expect, says string }{
		{"fails", "the trial expects another answer", "{answers: {depth: 4}}", "T fails"},
		{"does not bind", "the trial names no decision of the rulebook", "{answers: {height: 4}}", "no decision is called height"},
	} {
		t.Run(c.name, func(t *testing.T) {
			trials, err := trial.Read("t.yaml", []byte("about: x\ntrials:\n  - {trial: T, why: x, job: {use: foot, base: dense, area: 1 sq ft}, expect: "+c.expect+"}\n"))
			require.NoError(t, err)
			_, err = mutation.Run(context.Background(), fstest.MapFS{"small.yaml": {Data: []byte(small)}}, trials, nil, nil)
			require.ErrorIs(t, err, mutation.ErrUnfit, c.why)
			require.ErrorContains(t, err, c.says, c.why)
		})
	}
}
