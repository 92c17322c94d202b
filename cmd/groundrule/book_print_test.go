package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

// TestBookPrint holds what book print and book diff write, where to, and that
// nothing is written over unasked.
func TestBookPrint(t *testing.T) {
	there := filepath.Join(t.TempDir(), "there.md")
	require.NoError(t, os.WriteFile(there, []byte("mine"), 0o644))
	wrenfold := "../../examples/wrenfold/amendments"
	for _, c := range []struct {
		name, why string
		args      []string
		code      int
		out, err  string
	}{
		{"Markdown", "it is what a terminal and a diff can show", []string{"print"}, exitDone, "# The rulebook", ""},
		{"HTML", "it is what a browser prints", []string{"print", "--html"}, exitDone, "<!DOCTYPE html>", ""},
		{"expressions", "an author checks the sentence against what was written", []string{"print", "--expressions"}, exitDone, "`base.panels`", ""},
		{"amended", "who changed a clause stands beside it", []string{"print", "--amend", wrenfold, "--as-of", "2026-06-01"}, exitDone, "Ines Wrenfold", ""},
		{"a folder as an argument", "folders of rules have a flag", []string{"print", "rules"}, exitBadUse, "", "--rules"},
		{"a file that is there", "a standard that was filled with notes is not lost", []string{"print", "-o", there}, exitBadUse, "", "nothing was written"},
		{"a folder that is not there", "the file cannot be made", []string{"print", "-o", "nowhere/x.md"}, exitBadUse, "", "nowhere/x.md"},
		{"what an amendment changes", "a folder of amendments is laid over the standard", []string{"diff", "standard", wrenfold, "--as-of", "2026-06-01"}, exitDone, "WRENFOLD-PLATE", ""},
		{"two days", "a change that comes later is told before it comes", []string{"diff", "--amend", wrenfold, "--before-as-of", "2026-02-10", "--as-of", "2026-06-01"}, exitDone, "(added)", ""},
		{"the same twice", "nothing can differ, so one of them was mistyped", []string{"diff", "standard", "standard"}, exitBadUse, "", "the same"},
		{"one", "there is nothing to compare it with", []string{"diff", wrenfold}, exitBadUse, "", "two rulebooks are needed"},
		{"a folder that does not exist", "it is named", []string{"diff", "standard", "nowhere"}, exitBadUse, "", "nowhere"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := try("", append([]string{"book"}, c.args...)...)
			require.Equal(t, c.code, got.code, got.err)
			require.Contains(t, got.out, c.out, c.why)
			require.Contains(t, got.err, c.err, c.why)
		})
	}
	early := try("", "book", "diff", wrenfold, "standard", "--as-of", "2026-02-10")
	require.Equal(t, exitDone, early.code, early.err)
	require.NotContains(t, early.out, "NEED-WRENFOLD-TABLE", "the day holds for both rulebooks, and the rule was not in force on it")
	late := try("", "book", "diff", wrenfold, "standard", "--as-of", "2026-06-01").out
	require.Contains(t, late, "`NEED-WRENFOLD-TABLE` (taken away)")
	require.Contains(t, late, "\n- [Amendment wrenfold surface](", "a chapter that was taken away has no number")
	kept, err := os.ReadFile(there)
	require.NoError(t, err)
	require.Equal(t, "mine", string(kept))
	require.Equal(t, exitDone, try("", "book", "print", "-o", there, "--over").code)
	over, err := os.ReadFile(there)
	require.NoError(t, err)
	require.Contains(t, string(over), "# The rulebook")
}

// TestInLanguage holds what is told of the texts that a language lacks.
func TestInLanguage(t *testing.T) {
	lacks := []string{"caution A: says", "caution B: says", "line c: says"}
	for _, c := range []struct {
		name, why string
		missing   []string
		most      int
		want      []string
	}{
		{"nothing lacks", "it is told that all are given", nil, 20, []string{"10 of 10 texts are given in fr"}},
		{"some lack", "each is named", lacks, 3, []string{"7 of 10 texts are given in fr", "missing: caution A: says", "missing: caution B: says", "missing: line c: says"}},
		{"more than are shown", "the rest is counted", lacks, 1, []string{"7 of 10 texts are given in fr", "missing: caution A: says", "missing: 2 more"}},
		{"none shown", "they are counted", lacks, 0, []string{"7 of 10 texts are given in fr", "missing: 3 more"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, inLanguage(rulebook.Contents{Language: "fr", Texts: 10, Missing: c.missing}, c.most), c.why)
		})
	}
	require.Empty(t, inLanguage(rulebook.Contents{Texts: 10}, 20), "the rulebook's own language lacks nothing")
}
