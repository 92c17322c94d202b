package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestCrewSheets keeps the sheets that crews of the standard rulebook read, but for
// the foot with the hashes of the rule files.
func TestCrewSheets(t *testing.T) {
	example := func(name string) string { return filepath.Join("..", "..", "examples", "jobs", name+".yaml") }
	for _, c := range []struct {
		name, why string
		args      []string
	}{
		{"crew_patio.txt", "the usual job", []string{example("patio-on-stiff-clay")}},
		{"crew_driveway_on_soft_ground.txt", "nothing drives on the bottom", []string{example("driveway-on-soft-clay")}},
		{"crew_open_with_drain.txt", "a pipe in the stone, in millimeters", []string{job("open_with_drain"), "--units", "si"}},
		{"crew_panels.txt", "no stone and no plate", []string{example("patio-on-panels")}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", append([]string{"design", "--sheet", "crew"}, c.args...)...)
			require.Equal(t, 0, got.code, got.err)
			sheet, _, found := strings.Cut(got.out, "\nMade by")
			require.True(t, found, c.why)
			golden(t, c.name, sheet)
		})
	}
	refused := try("", "design", example("refused-truck-yard"), "--sheet", "crew")
	require.Equal(t, 1, refused.code)
	require.Contains(t, refused.out, "NOT COVERED, ENGINEER NEEDED", "nobody builds a refused job")
	require.NotContains(t, refused.out, "STEPS")
	stopped := try("", "design", example("stopped-uniaxial-grid"), "--sheet", "crew")
	require.Contains(t, stopped.out, "DO NOT BUILD")
	require.NotContains(t, stopped.out, "STEPS")
	require.Contains(t, try("", "design", example("walk-on-sand"), "--sheet", "whole").err, `--sheet takes crew, and "whole" was given`)
	require.Contains(t, try("", "why", example("patio-on-stiff-clay"), "DIG").out, "Every layer above copies the bottom.", "a step has a reason too")
	require.Contains(t, try("", "why", example("patio-on-stiff-clay"), "DIG-SOFT").err, "DIG-SOFT is a step, which this job does not have")
}
