package engine

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/rulebook"
)

const (
	little      = "chapter: little\nabout: A chapter.\n"
	misspelt    = "chapter: bad\nabout: A chapter.\nreffusals: []\n"
	unknownKey  = `unknown key "reffusals" in a chapter; found "reffusals"; wanted chapter, about, settings, sources, vocabularies, kinds, materials, load_cases, base_types, soil_names, compactors, edge_kinds, questions, terms, decisions, courses, checks, cautions, refusals, promises, quantities, steps, tolerances, stops, options, remedies, client or lines; did you mean "refusals"?`
	notRuleFile = "this is not a rule file; found a job; wanted chapter: NAME, as every rule file begins"
)

// TestFolders holds which files of a folder are read as rules, and that nothing
// is passed over that a writer may think is read.
func TestFolders(t *testing.T) {
	cases := []struct {
		name, why string
		files     map[string]string
		want      []string
	}{
		{"sub-folder", "a rulebook may be laid out as its keeper likes", map[string]string{"a.yaml": little, "more/b.yaml": misspelt}, []string{"rules/more/b.yaml:3:1: " + unknownKey}},
		{"yml", "others write it so", map[string]string{"a.yaml": little, "b.yml": misspelt}, []string{"rules/b.yml:3:1: " + unknownKey}},
		{"capitals", "an old machine writes them", map[string]string{"a.yaml": little, "B.YAML": misspelt}, []string{"rules/B.YAML:3:1: " + unknownKey}},
		{"hidden file", "an editor keeps its copy there", map[string]string{"a.yaml": little, ".b.yaml": misspelt}, nil},
		{"hidden folder", "so does whatever keeps the versions", map[string]string{"a.yaml": little, ".git/b.yaml": misspelt}, nil},
		{"prices", "they are kept beside the rules too", map[string]string{"a.yaml": little, "prices/b.yaml": "prices: ours\n"}, nil},
		{"trials", "they are kept beside the rules", map[string]string{"a.yaml": little, "trials/b.yaml": misspelt, "more/trials/b.yaml": misspelt}, nil},
		{"notes", "anything may lie beside rules", map[string]string{"a.yaml": little, "notes.txt": misspelt, "b.yaml.bak": misspelt}, nil},
		{"no rule file", "a wrong folder", map[string]string{"notes.txt": little}, []string{"rules: no rule file (.yaml) lies here"}},
		{"job", "one thing is said of it, not one of each key", map[string]string{"a.yaml": little, "job.yaml": "area: 400 sq ft\nuse: foot\nbase: dense\n"}, []string{"rules/job.yaml:1:1: " + notRuleFile}},
		{"trial", "trials are kept in a folder of theirs", map[string]string{"a.yaml": little, "b.yaml": "trials: []\n"}, []string{"rules/b.yaml:1:1: this is not a rule file; found a trial; wanted chapter: NAME, as every rule file begins"}},
		{"price list", "it is said where it belongs", map[string]string{"a.yaml": little, "b.yaml": "prices: ours\n"}, []string{"rules/b.yaml:1:1: this is not a rule file; price lists are kept in a folder prices; found a price list; wanted chapter: NAME, as every rule file begins"}},
		{"empty file", "what it lacks is everything", map[string]string{"a.yaml": little, "b.yaml": ""}, []string{"rules/b.yaml: the file is empty"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Label = "rules"
			_, err := Open(filesOf(c.files), setup)
			if len(c.want) == 0 {
				require.NoError(t, err, c.why)
				return
			}
			require.Empty(t, cmp.Diff(c.want, linesOf(t, err)), c.why)
		})
	}
}

// TestUnreadableFiles holds that what is not a file, and a link to a folder, are
// faults at their place and nothing is waited for.
func TestUnreadableFiles(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("links need rights there")
	}
	dir := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	write("a.yaml", little)
	require.NoError(t, os.Symlink(filepath.Join(dir, "a.yaml"), filepath.Join(dir, "linked.yaml")))
	setup := testSetup()
	setup.Label = "rules"
	_, err := Open(os.DirFS(dir), setup)
	require.NoError(t, err, "a link to a file is read")

	require.NoError(t, os.Symlink(os.DevNull, filepath.Join(dir, "endless.yaml")))
	require.NoError(t, os.Mkdir(filepath.Join(dir, "folder.yaml"), 0o755))
	_, err = Open(os.DirFS(dir), setup)
	require.Equal(t, []string{"rules/endless.yaml: this is not a regular file"}, linesOf(t, err))

	require.NoError(t, os.Symlink(t.TempDir(), filepath.Join(dir, "elsewhere")))
	_, err = Open(os.DirFS(dir), setup)
	require.Equal(t, []string{"rules/elsewhere: this is a link to a folder; links to folders are not followed"}, linesOf(t, err))

	_, err = Open(os.DirFS(filepath.Join(dir, "none")), setup)
	require.ErrorIs(t, err, fs.ErrNotExist)
	require.Contains(t, err.Error(), "rulebook: stat rules:", "the folder is told as it was named")
}

// TestLimitsCanBeLowered holds that whoever opens a rulebook of strangers can
// bound what is read and told.
func TestLimitsCanBeLowered(t *testing.T) {
	many := chapterOf("cautions:\n" + strings.Repeat("  - {}\n", 30))
	cases := []struct {
		name, why string
		limits    rulebook.Limits
		want      []string
		more      int
	}{
		{"files", "one too many", rulebook.Limits{Files: 1}, []string{"words.yaml: a folder of rules has at most 1 files"}, 0},
		{"bytes", "of one file", rulebook.Limits{Bytes: 100}, []string{
			"a.yaml: the file is too large to read: 266 bytes; at most 100 bytes can be read", "words.yaml: the file is too large to read: 787 bytes; at most 100 bytes can be read"}, 0},
		{"faults", "the rest is counted", rulebook.Limits{Faults: 2}, []string{`a.yaml:4:5: a caution needs the key "caution"; wanted caution`, `a.yaml:4:5: a caution needs the key "says"; wanted says`}, 88},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			setup := testSetup()
			setup.Limits = c.limits
			_, err := Open(filesOf(map[string]string{"a.yaml": many, "words.yaml": wordsFile}), setup)
			var wrong *rulebook.Error
			require.ErrorAs(t, err, &wrong)
			var got []string
			for _, f := range wrong.Faults {
				got = append(got, f.Error())
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
			require.Equal(t, c.more, wrong.More)
		})
	}
	_, err := Open(filesOf(map[string]string{"a.yaml": many, "words.yaml": wordsFile}), testSetup())
	var wrong *rulebook.Error
	require.ErrorAs(t, err, &wrong)
	require.Len(t, wrong.Faults, mostFaults)
	require.Equal(t, 40, wrong.More)
	require.True(t, strings.HasSuffix(err.Error(), "\nand 40 more"))
}

// TestWholeRulebooks holds that a rulebook which could design nothing is an error
// where a whole one is asked for.
func TestWholeRulebooks(t *testing.T) {
	setup := testSetup()
	setup.Label, setup.Whole = "rules", true
	_, err := Open(fstest.MapFS{"a.yaml": {Data: []byte(little)}}, setup)
	require.Equal(t, []string{
		"rules: the rulebook has no course; wanted courses, or another folder: a section of nothing would be a depth of 0",
		"rules: the rulebook has no refusal; wanted refusals: no rulebook covers every job",
		"rules: the rulebook has no caution; wanted cautions: what whoever builds the section must be told",
	}, linesOf(t, err))
	setup.Whole = false
	_, err = Open(fstest.MapFS{"a.yaml": {Data: []byte(little)}}, setup)
	require.NoError(t, err)
}
