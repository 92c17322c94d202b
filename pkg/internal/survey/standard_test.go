package survey

import (
	"context"
	"os"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
)

// standardAsked skips a test of the standard rulebook, which takes the better
// part of a minute, unless GROUNDRULE_SURVEY is set.
func standardAsked(t *testing.T) *groundrule.Book {
	t.Helper()
	if os.Getenv("GROUNDRULE_SURVEY") == "" {
		t.Skip("set GROUNDRULE_SURVEY to survey the standard rulebook")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return book
}

// worked returns the time for which the cores have worked for this test.
func worked(t *testing.T) time.Duration {
	t.Helper()
	var usage syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &usage))
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}

// TestStandard surveys the standard rulebook, and holds each finding to the
// engine once more.
func TestStandard(t *testing.T) {
	book := standardAsked(t)
	begun, before := time.Now(), worked(t)
	r, err := Run(context.Background(), book, Options{Progress: func(p Progress) {
		if os.Getenv("GROUNDRULE_SURVEY") == "progress" && (p.Done%5120 == 0 || p.Done == p.Total) {
			t.Logf("%8s %s %d/%d", time.Since(begun).Round(time.Millisecond), p.Stage, p.Done, p.Total)
		}
	}})
	require.NoError(t, err)
	took, work := time.Since(begun), worked(t)-before
	t.Logf("surveyed in %s, in which the cores worked for %s", took, work)
	// The cores may serve others too, so it is their work that is held to the
	// minute on two cores.
	require.Less(t, work, 2*time.Minute)
	require.NoError(t, r.Write(os.Stdout))
	for _, f := range r.Findings {
		if f.Job != nil {
			holdsInEngine(t, book, f)
		}
	}
}

func TestStandardWalkRulesOutNothingThatTheEngineDoes(t *testing.T) {
	soundOn(t, standardAsked(t), 3000)
}

func BenchmarkStandard(b *testing.B) {
	book, err := groundrule.Standard()
	require.NoError(b, err)
	for b.Loop() {
		_, err := Run(context.Background(), book, Options{})
		require.NoError(b, err)
	}
}
