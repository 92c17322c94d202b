package survey

import (
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
)

// standardAsked skips a test of the standard rulebook, which takes the better
// part of a minute, unless GROUNDRULE_SURVEY is set.
func standardAsked(t *testing.T) *engine.Book {
	t.Helper()
	if os.Getenv("GROUNDRULE_SURVEY") == "" {
		t.Skip("set GROUNDRULE_SURVEY to survey the standard rulebook")
	}
	book, err := groundrule.Standard()
	require.NoError(t, err)
	return inside.Rules(book)
}

// TestStandard surveys the standard rulebook, and holds each finding to the
// engine once more.
func TestStandard(t *testing.T) {
	book := standardAsked(t)
	r, err := Run(t.Context(), book, Options{})
	require.NoError(t, err)
	t.Log(written(t, r))
	require.NotEmpty(t, r.Settled)
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
		_, err := Run(context.Background(), inside.Rules(book), Options{})
		require.NoError(b, err)
	}
}
