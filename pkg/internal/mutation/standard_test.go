package mutation_test

import (
	"context"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/mutation"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/rules"
)

// TestStandard measures the standard rulebook's trials and writes the report
// beside this file. It takes minutes, so it runs only if asked:
//
//	GROUNDRULE_MUTATION=1 go test ./pkg/internal/mutation -run Standard -timeout 60m
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

// TestReport keeps the last report that stands in the repository to its promise.
// A change of the rules does not ask for a new one; whoever wants to know how the
// trials guard them now measures again.
func TestReport(t *testing.T) {
	data, err := os.ReadFile("testdata/standard.txt")
	require.NoError(t, err)
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
