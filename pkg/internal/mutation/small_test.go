package mutation

import (
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
)

// small is a rulebook whose trials try both rules, and one side of a number.
const small = `chapter: small
about: Small.
vocabularies:
  course_kind: {about: Sorts., words: {stone: stone}, because: told, source: practice}
settings:
  least: {value: 4, at_least: 3, because: x, source: practice}
decisions:
  depth:
    asks: How deep?
    answers: number
    take: first
    rules:
      - {rule: LARGE, when: "area > sq_ft(100)", answer: 9, because: x, source: practice}
      - {rule: SMALL, answer: least, because: x, source: practice}
courses:
  - {course: stone, label: Stone, is: stone, because: x, source: practice, attributes: {depth: depth}}
cautions:
  - {caution: ALWAYS, says: Mind., source: practice}
refusals:
  - {refusal: NEVER, when: "area < sq_ft(0)", says: No., who: Nobody., source: practice}
`

const trials = `trials:
  - {trial: SMALL, why: x, job: {use: foot, base: dense, area: 50 sq ft}, expect: {answers: {depth: 4}}}
  - {trial: LARGE, why: x, job: {use: foot, base: dense, area: 200 sq ft}, expect: {answers: {depth: 9}}}
  - {trial: LIMIT, why: The limit is held., job: {use: foot, base: dense, area: 50 sq ft}, settings: {least: {by_variance: 2.9}}, expect: {answers: {depth: 2.9}}}
`

func TestSmall(t *testing.T) {
	files := fstest.MapFS{"small.yaml": {Data: []byte(small)}}
	all, err := trial.Load(rulebook.Layer{Label: "trials", FS: fstest.MapFS{"t.yaml": {Data: []byte(trials)}}})
	require.NoError(t, err)
	book, err := groundrule.Open(files)
	require.NoError(t, err)
	mutants, err := mutantsOf(files, book)
	require.NoError(t, err)
	r, err := measure(t.Context(), files, all, mutants)
	require.NoError(t, err)
	got := map[string]outcome{}
	for _, each := range r {
		got[each.mutant.String()] = each.outcome
	}
	require.Empty(t, cmp.Diff(map[string]outcome{
		"small.yaml:6:18: least, value: 4 became 4.4":    noticed,
		"small.yaml:6:31: least, at_least: 3 became 3.3": survived, // 2.9 is below it too
		"small.yaml:13:35: LARGE, when: > became >=":     survived, // no trial lies at the edge
		"small.yaml:13:43: LARGE, when: 100 became 110":  survived,
		"small.yaml:13:58: LARGE, answer: 9 became 9.9":  noticed,
		"small.yaml:20:34: NEVER, when: < became <=":     survived,
		"small.yaml:20:42: NEVER, when: 0 became 1":      survived,
	}, got))
	require.InDelta(t, 2.0/7, r.share(), 1e-12)

	_, err = measure(t.Context(), fstest.MapFS{"small.yaml": {Data: []byte(small[:len(small)-10])}}, all, mutants)
	require.ErrorIs(t, err, errUnfit)
}
