package trial_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/trial"
)

func TestFirstFailure(t *testing.T) {
	for _, c := range []struct {
		name, why, cases string
		first, was       string // of the trial that fails first; "" if none does
	}{
		{"none", "all that is expected comes", "      - {case: a, why: x, expect: {answers: {cover: turf}}}\n", "", ""},
		{"second", "the first passes, and after the second none is run", `
      - {case: a, why: x, expect: {answers: {cover: turf}}}
      - {case: b, why: x, expect: {answers: {cover: slab}}}
      - {case: c, why: x, expect: {answers: {depth: 1 in}}}
`, "WALK/b", "turf"},
		{"limit", "a setting beyond its limit without leave", "      - {case: a, why: x, settings: {least: 2.9 in}, expect: {status: designed}}\n", "WALK/a", "least is at least 3 in"},
		{"needless leave", "leave where no limit is crossed", "      - {case: a, why: x, settings: {least: {by_variance: 3 in}}, expect: {status: designed}}\n", "WALK/a", "needs no leave"},
	} {
		t.Run(c.name, func(t *testing.T) {
			trials := read(t, walk+"    cases:\n"+c.cases)
			first, err := trial.FirstFailure(open(t), trials)
			require.NoError(t, err)
			if c.first == "" {
				require.Nil(t, first, c.why)
				return
			}
			require.Equal(t, c.first, first.Name, c.why)
			require.Contains(t, first.Failures[0].Was, c.was, c.why)
		})
	}
}

// TestFirstFailureOfNames: what the rulebook does not have is an error, not a
// failure, even beside a limit that is crossed.
func TestFirstFailureOfNames(t *testing.T) {
	trials := read(t, walk+`    cases:
      - {case: a, why: x, settings: {least: 2 in}, expect: {status: designed}}
      - {case: b, why: x, expect: {answers: {cover: moss}}}
`)
	_, err := trial.FirstFailure(open(t), trials)
	var bad *trial.Error
	require.ErrorAs(t, err, &bad)
	require.Len(t, bad.Faults, 1)
	require.Equal(t, trial.CodeWord, bad.Faults[0].Code)
}

// TestFirstFailureIsThatOfRun: both tell the same of the same trials.
func TestFirstFailureIsThatOfRun(t *testing.T) {
	book, trials := standard(t)
	first, err := trial.FirstFailure(book, trials)
	require.NoError(t, err)
	require.Nil(t, first)

	other, err := groundrule.Open(fstest.MapFS{"yard.yaml": &fstest.MapFile{Data: []byte(yard)}})
	require.NoError(t, err)
	yards := read(t, walk+"    cases:\n      - {case: a, why: x, expect: {answers: {depth: 4 in}}}\n      - {case: b, why: x, expect: {answers: {depth: 5 in}}}\n")
	report, err := trial.Run(other, yards)
	require.NoError(t, err)
	first, err = trial.FirstFailure(other, yards)
	require.NoError(t, err)
	require.Equal(t, report.Results[1], *first)
}
