package engine

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// TestFileLimits holds that a hostile folder of rules ends in errors of its own,
// and soon.
func TestFileLimits(t *testing.T) {
	repeat := strings.Repeat
	bomb := "chapter: &a [x, x]\nabout: &b [*a, *a]\nterms: &c [*b, *b]\n"
	when := func(text string) string {
		return chapterOf("cautions:\n  - {caution: C1, says: s, source: practice, when: '" + text + "'}\n")
	}
	for _, c := range []struct {
		name, why, file string
		want            []string
	}{
		{"empty", "a file of nothing is a slip in saving it", "", []string{"a.yaml: the file is empty"}},
		{"not a chapter", "a list on the first line has no keys to go by", "[1, 2]\n", []string{"a.yaml:1:1: a chapter must be keys with values; found a list; wanted lines such as \"key: value\" under it"}},
		{"too large", "the size is looked at first", "# " + repeat("x", 1<<20) + "\n", []string{"a.yaml: the file is too large to read: 1048579 bytes; at most 1 MiB can be read"}},
		{"too deep", "the YAML reader would go down level by level", "a: " + repeat("[", 100) + repeat("]", 100), []string{"a.yaml:1:43: the file is nested too deep to read"}},
		{"alias bomb", "an alias is refused where it stands, before it grows", bomb, []string{
			"a.yaml:1:10: an anchor may not be used", `a.yaml:1:10: "chapter" of a chapter must be a single value`, "a.yaml:2:8: an anchor may not be used", `a.yaml:2:8: "about"`,
			"a.yaml:2:12: an alias may not be used; found *a; wanted what it stands for, written out", "a.yaml:2:16: an alias", "a.yaml:3:8: an anchor", "a.yaml:3:8: the terms are written",
			"a.yaml:3:12: an alias", "a.yaml:3:16: an alias"}},
		{"brackets", "the parser of expressions goes down by a level for each", when(repeat("(", 3000)), []string{"a.yaml:4:53: the expression is too long or too deeply nested; wanted at most 4000 characters and 40 levels; name a part of it as a term"}},
		{"nots", "a ! before each bracket makes it no shallower", when(repeat("!(", 300) + "wet" + repeat(")", 300)), []string{"a.yaml:4:53: the expression is too long or too deeply nested; wanted at most 4000 characters and 40 levels; name a part of it as a term"}},
		{"too long", "length alone is refused before it is parsed", when("wet" + repeat(" && wet", 700)), []string{"a.yaml:4:53: the expression is too long or too deeply nested; wanted at most 4000 characters and 40 levels; name a part of it as a term"}},
		{"too many clauses", "short enough to be parsed, and still too much to explain", when("wet" + repeat(" && wet", 300)), []string{"a.yaml:4:53: the expression has too many parts; found 601 parts; wanted 400 parts at most; name a part of it as a term"}},
		{"100 clauses", "a long condition that a person might write is taken", when("wet" + repeat(" && wet", 100)), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			begun := time.Now()
			got := faultsOf(t, c.file)
			require.Less(t, time.Since(begun), 2*time.Second)
			require.Len(t, got, len(c.want), "%v", got)
			for i, want := range c.want {
				require.Truef(t, strings.HasPrefix(got[i], want), "%s\n%s", got[i], cmp.Diff(want, got[i]))
			}
		})
	}
}

func TestTooManyFiles(t *testing.T) {
	files := map[string]string{}
	for i := range mostFiles + 1 {
		files[fmt.Sprintf("f%04d.yaml", i)] = "chapter: c\nabout: a\n"
	}
	_, err := Open(filesOf(files), testSetup())
	require.Equal(t, []string{"f0500.yaml: a folder of rules has at most 500 files"}, linesOf(t, err))
	_, err = Open(filesOf(map[string]string{"readme.txt": "x"}), testSetup())
	require.Equal(t, []string{".: no rule file (.yaml) lies here"}, linesOf(t, err))
}

// TestManyClauses holds that a long chain is worked out from the left, every
// clause of it.
func TestManyClauses(t *testing.T) {
	var parts []string
	for i := range 98 {
		parts = append(parts, fmt.Sprintf("cbr>%d", 100+i))
	}
	out, err := mustOpen(t, chapterOf(decisions(decision("a", "number", "first", "",
		[3]string{"A", strings.Join(parts, "||") + "||wet", "1"}, [3]string{"B", "", "2"})))).Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, "a=1 by A", answers(out))
	told := out.Clauses(out.Decided[0].Rule.When)
	require.Len(t, told, 99)
	for i, c := range told {
		require.True(t, c.Reached)
		require.Equal(t, i == 98, c.Holds)
	}
	require.Len(t, out.Deciding(out.Decided[0].Rule.When), 1)
}
