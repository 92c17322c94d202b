package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestREADME keeps the section that the README shows to what the command prints.
func TestREADME(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, rest, ok := strings.Cut(string(readme), "```\nSECTION TO BUILD")
	require.True(t, ok, "the README shows a section")
	shown, _, ok := strings.Cut(rest, "\n```")
	require.True(t, ok)
	shown = "SECTION TO BUILD" + shown
	require.Greater(t, strings.Count(shown, "\n"), 30, "the README shows the whole table")

	var out, errs bytes.Buffer
	code := run([]string{"design", "../../examples/jobs/patio-on-stiff-clay.yaml"}, nil, &out, &errs)
	require.Equal(t, 0, code, errs.String())
	printed := out.String()
	require.True(t, strings.HasPrefix(printed, shown), "the README shows\n%s\n\nand the command prints\n%s", shown, printed[:min(len(printed), len(shown)+200)])
}
