package gochange

import (
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The environment of [TestSingleChanges].
const (
	envPackages  = "GROUNDRULE_CHANGES"           // folders such as pkg/site,pkg/sheet, or all
	envCount     = "GROUNDRULE_CHANGES_N"         // changes to try in each package; 40
	envSeed      = "GROUNDRULE_CHANGES_SEED"      // 1
	envImporters = "GROUNDRULE_CHANGES_IMPORTERS" // direct (usual), none, all, or whole for the package's own tests, not short
	envWorkers   = "GROUNDRULE_CHANGES_WORKERS"   // how many at a time; 2
	envLeast     = "GROUNDRULE_CHANGES_LEAST"     // percent that must be noticed; 90
)

// TestSingleChanges draws changes of the Go code at random and fails for a
// package whose tests, and those of the packages that import it, notice too few
// of them. Some changes make no difference that can be seen, so all of them are
// never noticed.
func TestSingleChanges(t *testing.T) {
	asked := os.Getenv(envPackages)
	if asked == "" {
		t.Skip("set " + envPackages + " to try single changes of the Go code")
	}
	m, err := openModule(".")
	require.NoError(t, err)
	s := sample{
		count: number(t, envCount, 40), seed: number(t, envSeed, 1), workers: number(t, envWorkers, 2), least: 20 * time.Second, dir: t.TempDir(),
		importers: os.Getenv(envImporters) != "none", further: os.Getenv(envImporters) == "all", whole: os.Getenv(envImporters) == "whole",
	}
	least := number(t, envLeast, 90)
	folders := strings.Split(asked, ",")
	if asked == "all" {
		folders = m.folders()
	}
	for _, folder := range folders {
		t.Run(folder, func(t *testing.T) {
			r, err := s.try(m, folder, func(line string) { t.Log(line) })
			require.NoError(t, err)
			t.Log("\n" + r.String())
			got, tried := r.counts()
			require.Positive(t, tried, "no change was tried")
			require.GreaterOrEqual(t, 100*got, least*tried, "too few changes are noticed")
		})
	}
}

func number(t *testing.T, env string, usual int) int {
	text := os.Getenv(env)
	if text == "" {
		return usual
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err, env)
	return n
}

// folders are those of all packages that have code and tests.
func (m *module) folders() []string {
	var out []string
	for _, p := range m.packages {
		rel, err := filepath.Rel(m.root, p.Dir)
		if err == nil && len(p.GoFiles) > 0 && p.hasTests() && filepath.ToSlash(rel) != "pkg/internal/gochange" {
			out = append(out, filepath.ToSlash(rel))
		}
	}
	return out
}
