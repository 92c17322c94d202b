package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestCrewSheet asks for the sheet that crews read, and for the reason of a step.
func TestCrewSheet(t *testing.T) {
	example := func(name string) string { return filepath.Join("..", "..", "examples", "jobs", name+".yaml") }
	golden(t, "crew_open_with_drain.txt", try("", "design", "--sheet", "crew", job("open_with_drain"), "--units", "si").out)
	for _, name := range []string{"refused-truck-yard", "stopped-uniaxial-grid"} {
		none := try("", "design", example(name), "--sheet", "crew")
		require.Equal(t, 1, none.code)
		require.Contains(t, none.out, "There is no crew sheet")
		require.NotContains(t, none.out, "[ ]", "nobody builds it")
	}
	require.Contains(t, try("", "why", example("patio-on-stiff-clay"), "DIG").out, "Every layer", "a step has a reason too")
	require.Contains(t, try("", "why", example("patio-on-stiff-clay"), "DIG-SOFT").err, "DIG-SOFT is a step, which this job does not have")
}
