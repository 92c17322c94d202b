package trial_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/internal/trial"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/rules"
)

// What the trials of the standard rulebook reach at least.
const (
	leastTrials  = 150
	leastClauses = 90.0 // percent, by the masking form of the measure
)

func standard(t *testing.T) (*engine.Book, []trial.Trial) {
	t.Helper()
	book, err := groundrule.Standard()
	require.NoError(t, err)
	trials, err := trial.Load(rulebook.Layer{Label: rules.Label, FS: rules.Files()})
	require.NoError(t, err)
	return inside.Rules(book), trials
}

// TestStandardTrials holds the standard rulebook to what is expected of it, and
// the trials to what they must reach of it.
func TestStandardTrials(t *testing.T) {
	book, trials := standard(t)
	report, err := measured(t, book, trials)
	require.NoError(t, err)
	t.Log(told(t, report))

	require.Zero(t, report.Failed, "trials fail")
	require.GreaterOrEqual(t, len(trials), leastTrials)
	require.Equal(t, report.Coverage.RulesReached().Total, report.Coverage.RulesReached().Of, "every rule answers in some trial")
	require.GreaterOrEqual(t, report.Coverage.ClausesCovered().Percent(), leastClauses)
	require.GreaterOrEqual(t, report.Coverage.ClausesSeen().Percent(), leastClauses)
}

// TestStandardTrialsSayWhy wants of each trial a sentence that says why it is
// there, and of common practice that it says so.
func TestStandardTrialsSayWhy(t *testing.T) {
	_, trials := standard(t)
	practice := 0
	for i := range trials {
		why := trials[i].Why
		require.True(t, strings.HasSuffix(why, ".") && len(strings.Fields(why)) > 3, "%s: why is no sentence: %q", trials[i].Name(), why)
		if strings.Contains(why, "ommon practice, no published source") {
			practice++
		}
	}
	require.GreaterOrEqual(t, practice, 30, "the trials of common practice")
}

// TestStandardTrialsAreRepeatable: the same rulebook and trials give the same
// bytes.
func TestStandardTrialsAreRepeatable(t *testing.T) {
	book, trials := standard(t)
	var texts [2]string
	for i := range texts {
		report, err := measured(t, book, trials)
		require.NoError(t, err)
		texts[i] = told(t, report)
	}
	require.Equal(t, texts[0], texts[1])
}
