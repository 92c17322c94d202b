package document_test

import (
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// codes returns the code and place of each fault, in file order.
func codes(faults diagnostic.List) []string {
	faults.Sort()
	var out []string
	for _, d := range faults {
		out = append(out, fmt.Sprintf("%s %d:%d", d.Code, d.Place.Line, d.Place.Column))
	}
	return out
}

func TestReadRefuses(t *testing.T) {
	small := document.Limits{Bytes: 100, Depth: 3, Nodes: 6, Text: 10}
	cases := []struct {
		name, why string
		file      string
		data      string
		limits    document.Limits
		want      []string
		none      bool // no node is given
	}{
		{"anchor", "what it names could change elsewhere", "f.yaml", "a: &x 1\nb: 2\n", document.Limits{}, []string{"anchor 1:4"}, false},
		{"anchor on a mapping", "it stands before a whole block", "f.yaml", "a: &x\n  b: 1\n", document.Limits{}, []string{"anchor 1:4"}, false},
		{"alias", "the anchor is refused as well", "f.yaml", "a: &x 1\nb: *x\n", document.Limits{}, []string{"anchor 1:4", "alias 2:4"}, false},
		{"alias as key", "an alias may stand where a key does", "f.yaml", "a: &x 1\n*x : 2\n", document.Limits{}, []string{"anchor 1:4", "alias 2:1"}, false},
		{"alias of nothing", "most likely text that begins with a star", "f.yaml", "a: 1\nb: *panel\n", document.Limits{}, []string{"alias 2:4"}, true},
		{"tag", "it would change what the text means", "f.yaml", "a: !!str 1\nb: !own 2\nc: !own {d: 1}\n", document.Limits{}, []string{"tag 1:4", "tag 2:4", "tag 3:4"}, false},
		{"lone tag", "leaves no trace in the parser's node", "f.yaml", "a: ! 1\nb: '! 1'\n", document.Limits{}, []string{"tag 1:4"}, false},
		{"tag before a key", "is the mapping's place too, and said once", "f.yaml", "!!str a: 1\n", document.Limits{}, []string{"tag 1:1"}, false},
		{"merge key", "it brings in keys that do not stand there", "f.yaml", "<<: {a: 1}\nb: 2\n", document.Limits{}, []string{"merge-key 1:1"}, false},
		{"quoted merge sign", "in quotes it is text", "f.yaml", "'<<': 1\n", document.Limits{}, nil, false},
		{"duplicate key", "which of the two is meant nobody can tell", "f.yaml", "a: 1\nb: 2\na: 3\n", document.Limits{}, []string{"duplicate-key 3:1"}, false},
		{"duplicate key, quoted", "quotes do not make it another", "f.yaml", "a: 1\n\"\\x61\": 3\n", document.Limits{}, []string{"duplicate-key 2:1"}, false},
		{"three times", "each is said", "f.yaml", "x: {a: 1, a: 2, a: 3}\n", document.Limits{}, []string{"duplicate-key 1:11", "duplicate-key 1:17"}, false},
		{"same key in two mappings", "is no fault", "f.yaml", "x: {a: 1}\ny: {a: 1}\n", document.Limits{}, nil, false},
		{"duplicate key, JSON", "JSON's own rules leave it open", "f.json", `{"a": 1, "a": 2}`, document.Limits{}, []string{"duplicate-key 1:10"}, false},
		{"list as key", "YAML allows it; nobody could ask for it", "f.yaml", "? [a]\n: 1\n", document.Limits{}, []string{"key-not-text 1:3"}, false},
		{"no key", "YAML takes it for null", "f.yaml", "?\n: 1\n", document.Limits{}, []string{"key-not-text 1:2"}, false},
		{"empty key in quotes", "is text, and JSON allows it", "f.json", `{"": 1}`, document.Limits{}, nil, false},
		{"two documents", "the second would be passed over", "f.yaml", "a: 1\n---\nb: 2\n", document.Limits{}, []string{"several-documents 2:1"}, false},
		{"two documents, the second broken", "it is read so far that its fault is found", "f.yaml", "a: 1\n---\nb: c: d\n", document.Limits{}, []string{"syntax 3:5"}, true},
		{"one document, marked", "the marks alone are no fault", "f.yaml", "---\na: 1\n...\n", document.Limits{}, nil, false},
		{"several faults", "all are said in one run", "f.yaml", "a: &x 1\na: !t 2\n<<: *x\n", document.Limits{},
			[]string{"anchor 1:4", "duplicate-key 2:1", "tag 2:4", "merge-key 3:1", "alias 3:5"}, false},

		{"empty", "an empty file is most likely a slip", "f.yaml", "", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"comments only", "comments say nothing to a program", "f.yaml", "# a\n\n# b\n", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"empty JSON", "is read as YAML, since no { comes first", "f.json", " \n", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"size", "one byte beyond the limit", "f.yaml", strings.Repeat("#", 101), small, []string{"file-too-large 0:0"}, true},
		{"size, at the limit", "the limit itself is allowed", "f.yaml", "a: b" + strings.Repeat(" ", 96), small, nil, false},
		{"depth", "one level beyond the limit, keys and values counted", "f.yaml", "a:\n  b:\n    c: 1\n", small, []string{"nested-too-deep 3:5"}, true},
		{"depth, at the limit", "the limit itself is allowed", "f.yaml", "a:\n  b: 1\n", small, nil, false},
		{"depth, JSON", "the other reader has the same limit", "f.json", `[[[1]]]`, small, []string{"nested-too-deep 1:4"}, true},
		{"depth, JSON, at the limit", "the limit itself is allowed", "f.json", `[[1]]`, small, nil, false},
		{"nodes", "one beyond the limit, the list itself counted", "f.yaml", "[1, 2, 3, 4, 5, 6]", small, []string{"too-many-nodes 1:17"}, true},
		{"nodes, at the limit", "the limit itself is allowed", "f.yaml", "[1, 2, 3, 4, 5]", small, nil, false},
		{"nodes, JSON", "the other reader has the same limit", "f.json", "[1, 2, 3, 4, 5, 6]", small, []string{"too-many-nodes 1:17"}, true},
		{"nodes, JSON, at the limit", "the limit itself is allowed", "f.json", "[1, 2, 3, 4, 5]", small, nil, false},
		{"text", "one byte beyond the limit", "f.yaml", "a: 12345678901\n", small, []string{"text-too-long 1:4"}, true},
		{"text, at the limit", "the limit itself is allowed", "f.yaml", "a: 1234567890\n", small, nil, false},
		{"text of a key", "a key is a scalar too", "f.yaml", "12345678901: a\n", small, []string{"text-too-long 1:1"}, true},
		{"text, JSON", "the other reader has the same limit", "f.json", `["12345678901"]`, small, []string{"text-too-long 1:2"}, true},
		{"text, JSON, at the limit", "the limit itself is allowed", "f.json", `["1234567890"]`, small, nil, false},

		{"not UTF-8", "a byte that begins no character", "f.yaml", "a: b\nc: \xff\n", document.Limits{}, []string{"not-utf8 2:4"}, true},
		{"UTF-16", "its mark is no UTF-8", "f.yaml", "\xff\xfea\x00", document.Limits{}, []string{"not-utf8 1:1"}, true},
		{"control character", "it would reach the reader's terminal", "f.yaml", "a: b\x1b[31m\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"zero byte", "the parser ends there", "f.yaml", "a: b\x00\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"byte order mark within", "nobody sees it", "f.yaml", "a: b\ufeff\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"control character, JSON", "must be escaped there", "f.json", "[\"a\x01\"]", document.Limits{}, []string{"syntax 1:4"}, true},

		{"tab", "at the character", "f.yaml", "a:\n\tb: 1\n", document.Limits{}, []string{"syntax 2:1"}, true},
		{"open quote", "where it opens, not where the file ends", "f.yaml", "a: 1\nb: \"x\nc: 1\n", document.Limits{}, []string{"syntax 2:4"}, true},
		{"open list", "where it opens", "f.yaml", "a: 1\nb: [x\n", document.Limits{}, []string{"syntax 2:5"}, true},
		{"two colons", "at the second", "f.yaml", "a: 1\nb: c: d\n", document.Limits{}, []string{"syntax 2:5"}, true},
		{"wrong indent", "at the line that fits nowhere", "f.yaml", "a:\n  - b: 1\n c: 2\n", document.Limits{}, []string{"syntax 3:2"}, true},
		{"on the first line", "for which the parser gives no line", "f.yaml", "a: b: c\n", document.Limits{}, []string{"syntax 1:5"}, true},
		{"bad escape", "at the letter that no escape has", "f.yaml", "a: \"x\\qy\"\n", document.Limits{}, []string{"syntax 1:6"}, true},
		{"JSON in YAML, slash escape", "not covered: only a file named .json is read by the letter", "f.yaml", `{"a": "\/"}`, document.Limits{}, []string{"syntax 1:8"}, true},

		{"JSON, comma at the end", "the commonest slip of those who write JSON by hand", "f.json", "[1,\n]", document.Limits{}, []string{"syntax 2:1"}, true},
		{"JSON, no comma", "at what stands where the comma should", "f.json", `{"a": 1 "b": 2}`, document.Limits{}, []string{"syntax 1:9"}, true},
		{"JSON, no quotes", "YAML would take it", "f.json", `{a: 1}`, document.Limits{}, []string{"syntax 1:2"}, true},
		{"JSON, comment", "YAML would take it", "f.json", "{} # c", document.Limits{}, []string{"syntax 1:4"}, true},
		{"JSON, not ended", "at the end of the file", "f.json", `{"a": [1`, document.Limits{}, []string{"syntax 1:9"}, true},
		{"JSON, leading zero", "YAML would take it, and older YAML as octal", "f.json", `[01]`, document.Limits{}, []string{"syntax 1:3"}, true},
		{"JSON, lone surrogate", "it is no character", "f.json", `["a\ud83d"]`, document.Limits{}, []string{"syntax 1:4"}, true},
		{"JSON, lone low surrogate", "it is no character either", "f.json", `["a\udc00"]`, document.Limits{}, []string{"syntax 1:4"}, true},
		{"JSON, two high surrogates", "a pair has one of each", "f.json", `["\uD83D\uD83D"]`, document.Limits{}, []string{"syntax 1:3"}, true},
		{"JSON, below the surrogates", "U+D7FF is a code like others", "f.json", `["\ud7ff"]`, document.Limits{}, nil, false},
		{"JSON, above the surrogates", "U+E000 is a code like others", "f.json", `["\ue000\uE000"]`, document.Limits{}, nil, false},
		{"JSON, escaped backslash before u", "it is no escape of a character", "f.json", `["\\ud83d"]`, document.Limits{}, nil, false},
		{"JSON, two values", "the second would be passed over", "f.json", `{} {}`, document.Limits{}, []string{"syntax 1:4"}, true},
		{"YAML named JSON", "is read as YAML", "f.json", "a: 1\n", document.Limits{}, nil, false},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read(c.file, []byte(c.data), c.limits)
			require.Empty(t, cmp.Diff(c.want, codes(faults)), "%s\n%v", c.why, faults)
			require.Equal(t, c.none, root == nil)
			for _, d := range faults {
				require.Equal(t, c.file, d.Place.File)
			}
		})
	}
}

// TestReadSays holds the words of what is refused, where they depend on it.
func TestReadSays(t *testing.T) {
	small := document.Limits{Bytes: 2000, Depth: 3, Nodes: 6, Text: 1024}
	for _, c := range []struct {
		name, why, file, data string
		limits                document.Limits
		want                  string
	}{
		{"size", "how much more need not have been read", "f.yaml", strings.Repeat("#", document.DefaultBytes+1), document.Limits{}, "f.yaml: the file is too large to read; wanted at most 1 MiB"},
		{"size, odd", "a limit of the caller's own", "f.yaml", strings.Repeat("#", 2001), small, "f.yaml: the file is too large to read; wanted at most 2000 bytes"},
		{"text", "both sizes in the unit that fits", "f.yaml", strings.Repeat("a", 1025), small, "f.yaml:1:1: a text is too long to read; found 1025 bytes; wanted at most 1 KiB"},
		{"depth", "the caller's limit", "f.yaml", "[[[[1]]]]", small, "f.yaml:1:4: the file is nested too deep to read; wanted at most 3 levels"},
		{"nodes", "the caller's limit", "f.yaml", "[1, 2, 3, 4, 5, 6]", small, "f.yaml:1:17: the file holds too many entries to read; wanted at most 6 keys, values, lists and mappings"},
		{"depth of one", "the least limit that there is", "f.yaml", "[1]", document.Limits{Depth: 1}, "f.yaml:1:2: the file is nested too deep to read; wanted at most 1 levels"},
		{"key twice, long", "it is cut where it would fill the line", "f.yaml", strings.Repeat("k", 50) + ": 1\n" + strings.Repeat("k", 50) + ": 1\n", document.Limits{}, "f.yaml:2:1: the key \"" + strings.Repeat("k", 40) + "...\" is written twice; f.yaml:1:1: first written here"},
		{"not UTF-8", "the byte, since no character is there", "f.yaml", "a: \xff", document.Limits{}, "f.yaml:1:4: the file is not UTF-8 text; found the byte 0xFF; wanted the file saved as UTF-8, as an editor offers"},
		{"control character", "by its number, since a terminal may obey it", "f.yaml", "a: \x1b", document.Limits{}, "f.yaml:1:4: the file holds a character that no text file should; found U+001B; wanted the file without it"},
		{"anchor", "its name as written", "f.yaml", "a: &x 1", document.Limits{}, "f.yaml:1:4: an anchor may not be used; found &x; write a: \"&x 1\""},
		{"tag", "its name as written", "f.yaml", "a: !own 1", document.Limits{}, "f.yaml:1:4: a tag may not be used; found !own; write a: \"!own 1\""},
		{"lone tag", "it has no name", "f.yaml", "a: ! 1", document.Limits{}, "f.yaml:1:4: a tag may not be used; found !; write a: \"! 1\""},
		{"alias of nothing", "how to write what was most likely meant", "f.yaml", "b: *panel", document.Limits{}, "f.yaml:1:4: an alias may not be used; found *panel; write b: \"*panel\""},
		{"key of no text", "what stands there", "f.yaml", "? [a]\n: 1", document.Limits{}, "f.yaml:1:3: a key must be text; found a list"},
		{"merge key", "the repair", "f.yaml", "<<: 1", document.Limits{}, "f.yaml:1:1: a merge key may not be used; found <<; wanted the keys it brings in, written out"},
		{"tab", "it looks like spaces", "f.yaml", "a:\n\tb: 1", document.Limits{}, "f.yaml:2:1: a tab indents the line, where only spaces can; write b: 1"},
		{"flow mapping", "a colon within ends a text there", "f.yaml", "a: {b: c d: e}", document.Limits{}, "f.yaml:1:8: a text with a colon in it needs quotes between { }; write a: {b: \"c d: e\"}"},
		{"syntax, first line", "the parser names no line there", "f.yaml", "a: b: c", document.Limits{}, "f.yaml:1:5: a text with a colon and a space in it needs quotes; write a: \"b: c\""},
		{"syntax, far down", "the column is looked for at the start of a file only", "f.yaml", strings.Repeat("# comment\n", 30_000) + "a: 1\nb: c: d\n", document.Limits{}, "f.yaml:30002: a colon stands where no key can: a key begins where those above it do, and a text with a colon needs quotes"},
		{"syntax, large file", "it is cut for the search between two characters", "f.yaml", "a: b: c\n#" + strings.Repeat("é", 150_000), document.Limits{}, "f.yaml:1:5: a colon stands where no key can: a key begins where those above it do, and a text with a colon needs quotes"},
		{"JSON, comma at the end", "what the parser says of it", "f.json", "[1,]", document.Limits{}, "f.json:1:4: this is not JSON: invalid character ']' looking for beginning of value"},
		{"JSON, not ended", "just after the last character", "f.json", "[1", document.Limits{}, "f.json:1:3: this is not JSON: unexpected end of JSON input"},
		{"JSON, two values", "at the second", "f.json", "{} {}", document.Limits{}, "f.json:1:4: this is not JSON: invalid character '{' after top-level value"},
		{"JSON, half a pair", "a decoder would put another character", "f.json", `["\\ \ud83d"]`, document.Limits{}, "f.json:1:6: this is not JSON: an escape is half of a surrogate pair, which is no character"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := document.Read(c.file, []byte(c.data), c.limits)
			require.Len(t, faults, 1)
			require.Equal(t, c.want, faults[0].Error(), c.why)
		})
	}
}

// TestNilNode holds that a node that is not there can be asked like any other.
// TestReadMarks holds how much of the file is marked, where it is more than a
// character.
func TestReadMarks(t *testing.T) {
	for _, c := range []struct {
		name, why, data string
		want            int
	}{
		{"alias of nothing", "the star and the name", "a: 1\nb: *panel\n", 6},
		{"key twice", "the second key", "key: 1\nkey: 2\n", 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := document.Read("f.yaml", []byte(c.data), document.Limits{})
			require.Len(t, faults, 1)
			require.Equal(t, c.want, faults[0].Width, c.why)
		})
	}
}

// TestWith holds what a mapping has with another laid over it.
func TestWith(t *testing.T) {
	read := func(file, data string) *document.Node {
		root, faults := document.Read(file, []byte(data), document.Limits{})
		require.NoError(t, faults.Err())
		return root
	}
	told := func(n *document.Node) string {
		var parts []string
		for _, f := range n.Fields() {
			parts = append(parts, f.Key.Text()+"="+f.Value.Text()+"@"+f.Value.Place().String())
		}
		return strings.Join(parts, " ")
	}
	under, over := read("a.yaml", "one: 1\ntwo: 2\nthree: 3\n"), read("b.yaml", "two: 4\nfour: 5\n")
	both := under.With(over)
	require.Equal(t, "one=1@a.yaml:1:6 two=4@b.yaml:1:6 three=3@a.yaml:3:8 four=5@b.yaml:2:7", told(both), "what is laid over stands in the place of what it is over, or behind")
	require.Equal(t, over.Place(), both.Place())
	require.Equal(t, "4", both.Field("two").Text())
	require.Nil(t, both.Field("five"))
	require.Equal(t, "one=1@a.yaml:1:6 two=2@a.yaml:2:6 three=3@a.yaml:3:8", told(under), "neither is changed")
	require.Nil(t, read("c.yaml", "one: null\n").Field("one"), "nothing stands there")

	// What stands under the keys of within is laid over in the same way, if both are mappings.
	deep := read("d.yaml", "a: {x: 1, y: 2}\nb: {x: 1}\nc: 1\nd: {x: 1}\n").With(read("e.yaml", "a: {y: 3}\nb: {y: 3}\nc: {y: 3}\nd: 4\n"), "a", "c", "d")
	require.Equal(t, "x=1@d.yaml:1:8 y=3@e.yaml:1:8", told(deep.Field("a")))
	require.Equal(t, "y=3@e.yaml:2:8", told(deep.Field("b")), "a key that is not of within")
	require.Equal(t, "y=3@e.yaml:3:8", told(deep.Field("c")), "over a text")
	require.Equal(t, "4", deep.Field("d").Text(), "a text over a mapping")
}

func TestNilNode(t *testing.T) {
	var n *document.Node
	require.Equal(t, document.NoShape, n.Shape())
	require.Equal(t, "nothing", n.Shape().String())
	require.Empty(t, n.Text())
	require.Empty(t, n.Fields())
	require.Empty(t, n.Items())
	require.False(t, n.Null())
	require.False(t, n.Quoted())
	require.Equal(t, 1, n.Width())
	require.Empty(t, n.Place().String())
}

// TestReadShapes holds that nothing is read as anything but what is written.
func TestReadShapes(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte(
		"a: 010\nb: yes\nc: 2024-01-02\nd: ~\ne:\nf: 'null'\ng: []\nh: {}\nj: [1, 'x']\n"), document.Limits{})
	require.NoError(t, faults.Err())
	var got []string
	for _, f := range root.Fields() {
		got = append(got, fmt.Sprintf("%s %v %q null=%v quoted=%v %d", f.Key.Text(), f.Value.Shape(),
			f.Value.Text(), f.Value.Null(), f.Value.Quoted(), len(f.Value.Items())+len(f.Value.Fields())))
	}
	want := []string{
		`a a single value "010" null=false quoted=false 0`,
		`b a single value "yes" null=false quoted=false 0`,
		`c a single value "2024-01-02" null=false quoted=false 0`,
		`d a single value "~" null=true quoted=false 0`,
		`e a single value "" null=true quoted=false 0`,
		`f a single value "null" null=false quoted=true 0`,
		`g a list "" null=false quoted=false 0`,
		`h a mapping "" null=false quoted=false 0`,
		`j a list "" null=false quoted=false 2`,
	}
	require.Empty(t, cmp.Diff(want, got))
}

// TestPlaces holds the places of nodes that are no scalar, or an empty one.
func TestPlaces(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("# c\n\na:\n  b: [x]\nc:\nd: 'e'\nf:\n- |\n g\n"), document.Limits{})
	require.NoError(t, faults.Err())
	place := func(n *document.Node) string { return strings.TrimPrefix(n.Place().String(), "f.yaml:") }
	f := root.Fields()
	for _, c := range []struct{ name, why, want, got string }{
		{"the file's mapping", "comments and blank lines are no part of it", "3:1", place(root)},
		{"a block mapping", "it has no sign of its own, so it is at its first key", "4:3", place(f[0].Value)},
		{"a flow list", "at its bracket", "4:6", place(f[0].Value.Fields()[0].Value)},
		{"an empty value", "after its colon, where it would have begun", "5:3", place(f[1].Value)},
		{"a quoted scalar", "at its quote, which is part of what is wrong with it", "6:4", place(f[2].Value)},
		{"a block list", "at its first dash", "8:1", place(f[3].Value)},
		{"a block scalar", "at its sign, not its text", "8:3", place(f[3].Value.Items()[0])},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.got, c.why) })
	}
}

// TestManyGoroutines is for the race detector: nodes find their characters when
// they are first asked for.
func TestManyGoroutines(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: |\n  one\n  two\n"), document.Limits{})
	require.NoError(t, faults.Err())
	n := root.Fields()[0].Value
	var wg sync.WaitGroup
	got := make([]string, 16)
	for i := range got {
		wg.Go(func() { got[i] = n.At(4).String() })
	}
	wg.Wait()
	for _, g := range got {
		require.Equal(t, "f.yaml:3:3", g)
	}
}
