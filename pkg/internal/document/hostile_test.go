package document_test

import (
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// TestHostile holds files that were made to hang or exhaust the reader. One that
// hangs is ended by the timeout of go test.
func TestHostile(t *testing.T) {
	const mega = document.DefaultBytes
	fill := func(s string) string { return strings.Repeat(s, mega/len(s)) }
	lines := func(n int, line func(i int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(line(i))
		}
		return b.String()
	}
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n" + lines(25, func(i int) string {
		c, p := string(rune('b'+i)), string(rune('a'+i))
		return c + ": &" + c + " [" + strings.Repeat("*"+p+",", 8) + "*" + p + "]\n"
	})
	cases := []struct {
		name, why string
		file      string
		data      string
		code      diagnostic.Code // "" where the file is good
	}{
		{"large", "the size is looked at first", "a.yaml", fill("a") + "a", document.CodeTooLarge},
		{"alias bomb", "25 levels of nine aliases are 9^25 nodes when expanded", "a.yaml", bomb, document.CodeAlias},
		{"flow lists", "the parser calls itself for each", "a.yaml", strings.Repeat("[", 100_000), document.CodeTooDeep},
		{"flow lists, all of the file", "as many as the size allows", "a.yaml", fill("["), document.CodeTooDeep},
		{"flow mappings", "the parser calls itself for each of these too", "a.yaml", fill("{"), document.CodeTooDeep},
		{"flow mappings with keys", "well formed as far as it goes", "a.yaml", fill("{a: "), document.CodeTooDeep},
		{"closed flow lists", "well formed, below the parser's own limit", "a.yaml", strings.Repeat("[", 9_000) + strings.Repeat("]", 9_000), document.CodeTooDeep},
		{"dashes", "compact nested lists", "a.yaml", fill("- "), document.CodeTooDeep},
		{"question marks", "compact nested keys", "a.yaml", fill("? "), document.CodeTooDeep},
		{"stairs", "a block mapping in a block mapping", "a.yaml", lines(1300, func(i int) string { return strings.Repeat(" ", i) + "a:\n" }), document.CodeTooDeep},
		{"empty items", "the most nodes per byte", "a.yaml", fill("-\n"), document.CodeTooMany},
		{"flow items", "many nodes on one line", "a.yaml", "[" + strings.Repeat("1,", mega/2-2) + "]", document.CodeTooMany},
		{"flow items on one line, within the limit", "columns must not be counted from the start for each", "a.yaml", "[" + strings.Repeat("1234567,", 90_000) + "]", ""},
		{"keys", "many keys in one mapping", "a.yaml", lines(49_000, func(i int) string {
			return "k" + string(rune('a'+i%26)) + strings.Repeat("x", i%7) + time.Duration(i).String() + ": 1\n"
		}), ""},
		{"comments", "nothing is read, over many lines", "a.yaml", fill("#\n"), document.CodeEmpty},
		{"comments before an item", "the place of what stands last", "a.yaml", fill("# c\n")[:mega-8] + "\n- a\n", ""},
		{"one long comment", "one line as long as the file may be", "a.yaml", "- a #" + strings.Repeat("c", mega-10) + "\n", ""},
		{"long plain text", "one scalar as long as the file may be", "a.yaml", fill("a"), document.CodeTooLong},
		{"long quoted text", "as a plain one", "a.yaml", `"` + strings.Repeat("a", mega-2) + `"`, document.CodeTooLong},
		{"open quote", "every prefix of it fails too", "a.yaml", `"` + strings.Repeat("a\n", 100_000), document.CodeSyntax},
		{"blank lines", "nothing at all, over many lines", "a.yaml", fill("\n"), document.CodeEmpty},
		{"spaces", "nothing at all, on one line", "a.yaml", fill(" "), document.CodeEmpty},
		{"block of spaces", "each indent is a possible one", "a.yaml", "a: |2\n" + strings.Repeat(strings.Repeat(" ", 4000)+"\n", 14) + "  x\n", ""},
		{"documents", "the parser reads each", "a.yaml", fill("---\n"), document.CodeSeveral},
		{"colons", "many keys that are none", "a.yaml", fill(": "), document.CodeSyntax},
		{"JSON lists", "the reader calls itself for each", "a.json", fill("["), document.CodeTooDeep},
		{"JSON objects", "the reader calls itself for each", "a.json", fill(`{"a":`), document.CodeTooDeep},
		{"JSON items", "the most nodes per byte", "a.json", "[" + strings.Repeat("1,", mega/2-2) + "1]", document.CodeTooMany},
		{"JSON long text", "one scalar as long as the file may be", "a.json", `["` + strings.Repeat("a", mega-4) + `"]`, document.CodeTooLong},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			root, faults := document.Read(c.file, []byte(c.data), document.Limits{})
			runtime.ReadMemStats(&after)
			t.Logf("%d MB", (after.TotalAlloc-before.TotalAlloc)>>20)
			require.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(400<<20), "memory taken in all, of which most is given back")
			if c.code == "" {
				require.NoError(t, faults.Err())
				require.NotNil(t, root)
				return
			}
			require.NotEmpty(t, faults)
			codes := map[diagnostic.Code]bool{}
			for _, d := range faults {
				codes[d.Code] = true
			}
			require.Contains(t, codes, c.code)
			t.Log(faults[len(faults)-1])
		})
	}
}
