package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A sheet that there is none of is a slip of the command line, told before anything is
// designed.
func TestSheetFlags(t *testing.T) {
	for _, c := range []struct {
		name, why string
		args      []string
		want      string
	}{
		{"no such sheet", "those that there are", []string{"--sheet", "poster"}, `not a sheet of this library: "poster"; wanted audit, `},
		{"no such form", "those that there are", []string{"--format", "pdf"}, `not a sheet of this library: the form "pdf"; wanted html, markdown, text or svg`},
		{"a sheet as JSON", "that is a form for programs", []string{"--json", "--sheet", "page"}, "--json is a form of its own"},
		{"a stream in a form", "it is JSON", []string{"--stream", "--format", "html"}, "--stream writes JSON"},
		{"found in a form", "it is text", []string{"--found", "soil.cbr=2", "--format", "html"}, "--found tells what differs, as text"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", append([]string{"design", job("patio")}, c.args...)...)
			require.Equal(t, exitBadUse, got.code, c.why)
			require.Contains(t, got.err, c.want, c.why)
			require.Empty(t, got.out)
		})
	}
}

// A sheet goes to a file, which nothing writes over unless it is told to, whatever came
// of the job.
func TestSheetToFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "sheet.html")
	got := tryYard("design", job("thin"), "--format", "html", "-o", path)
	require.Equal(t, exitNo, got.code, got.err)
	require.Empty(t, got.out)
	first, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Contains(t, string(first), "<!DOCTYPE html>")

	got = try("", "design", job("patio"), "-o", path)
	require.Equal(t, exitBadUse, got.code)
	require.Contains(t, got.err, "is there already, and nothing was written; name another file, or add --over")
	second, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, first, second)

	got = try("", "design", job("patio"), "-o", path, "--over", "--json")
	require.Equal(t, exitDone, got.code, got.err)
	second, err = os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, `{"schema"`, string(second[:len(`{"schema"`)]), "JSON goes to a file too")
}

// A text is as wide as the terminal says, within reason.
func TestColumnsOf(t *testing.T) {
	for text, want := range map[string]int{"": 0, "80": 80, "40": 40, "39": 0, "100": 100, "101": 100, "9999999999999999999": 0, "wide": 0, "-80": 0, "72.5": 0} {
		require.Equal(t, want, columnsOf(text), text)
	}
	require.Zero(t, (&call{out: &output{w: os.Stderr}, into: "x"}).columns(), "a file is no terminal")
}
