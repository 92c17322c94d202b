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
		{"anchor on a mapping", "", "f.yaml", "a: &x\n  b: 1\n", document.Limits{}, []string{"anchor 1:4"}, false},
		{"alias", "the anchor is refused as well", "f.yaml", "a: &x 1\nb: *x\n", document.Limits{}, []string{"anchor 1:4", "alias 2:4"}, false},
		{"alias as key", "", "f.yaml", "a: &x 1\n*x : 2\n", document.Limits{}, []string{"anchor 1:4", "alias 2:1"}, false},
		{"alias of nothing", "most likely text that begins with a star", "f.yaml", "a: 1\nb: *panel\n", document.Limits{}, []string{"alias 2:4"}, true},
		{"tag", "it would change what the text means", "f.yaml", "a: !!str 1\nb: !own 2\nc: !own {d: 1}\n", document.Limits{}, []string{"tag 1:4", "tag 2:4", "tag 3:4"}, false},
		{"lone tag", "leaves no trace in the parser's node", "f.yaml", "a: ! 1\nb: '! 1'\n", document.Limits{}, []string{"tag 1:4"}, false},
		{"tag before a key", "is the mapping's place too, and said once", "f.yaml", "!!str a: 1\n", document.Limits{}, []string{"tag 1:1"}, false},
		{"merge key", "", "f.yaml", "<<: {a: 1}\nb: 2\n", document.Limits{}, []string{"merge-key 1:1"}, false},
		{"quoted merge sign", "in quotes it is text", "f.yaml", "'<<': 1\n", document.Limits{}, nil, false},
		{"duplicate key", "", "f.yaml", "a: 1\nb: 2\na: 3\n", document.Limits{}, []string{"duplicate-key 3:1"}, false},
		{"duplicate key, quoted", "quotes do not make it another", "f.yaml", "a: 1\n\"\\x61\": 3\n", document.Limits{}, []string{"duplicate-key 2:1"}, false},
		{"three times", "each is said", "f.yaml", "x: {a: 1, a: 2, a: 3}\n", document.Limits{}, []string{"duplicate-key 1:11", "duplicate-key 1:17"}, false},
		{"same key in two mappings", "is no fault", "f.yaml", "x: {a: 1}\ny: {a: 1}\n", document.Limits{}, nil, false},
		{"duplicate key, JSON", "", "f.json", `{"a": 1, "a": 2}`, document.Limits{}, []string{"duplicate-key 1:10"}, false},
		{"list as key", "", "f.yaml", "? [a]\n: 1\n", document.Limits{}, []string{"key-not-text 1:3"}, false},
		{"no key", "", "f.yaml", "?\n: 1\n", document.Limits{}, []string{"key-not-text 1:2"}, false},
		{"empty key in quotes", "is text, and JSON allows it", "f.json", `{"": 1}`, document.Limits{}, nil, false},
		{"two documents", "", "f.yaml", "a: 1\n---\nb: 2\n", document.Limits{}, []string{"several-documents 2:1"}, false},
		{"one document, marked", "the marks alone are no fault", "f.yaml", "---\na: 1\n...\n", document.Limits{}, nil, false},
		{"several faults", "all are said in one run", "f.yaml", "a: &x 1\na: !t 2\n<<: *x\n", document.Limits{},
			[]string{"anchor 1:4", "duplicate-key 2:1", "tag 2:4", "merge-key 3:1", "alias 3:5"}, false},

		{"empty", "", "f.yaml", "", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"comments only", "", "f.yaml", "# a\n\n# b\n", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"empty JSON", "is read as YAML, since no { comes first", "f.json", " \n", document.Limits{}, []string{"file-empty 0:0"}, true},
		{"size", "", "f.yaml", strings.Repeat("#", 101), small, []string{"file-too-large 0:0"}, true},
		{"size, at the limit", "", "f.yaml", "a: b" + strings.Repeat(" ", 96), small, nil, false},
		{"depth", "", "f.yaml", "a:\n  b:\n    c: 1\n", small, []string{"nested-too-deep 3:5"}, true},
		{"depth, at the limit", "", "f.yaml", "a:\n  b: 1\n", small, nil, false},
		{"depth, JSON", "", "f.json", `[[[1]]]`, small, []string{"nested-too-deep 1:4"}, true},
		{"depth, JSON, at the limit", "", "f.json", `[[1]]`, small, nil, false},
		{"nodes", "", "f.yaml", "[1, 2, 3, 4, 5, 6]", small, []string{"too-many-nodes 1:17"}, true},
		{"nodes, at the limit", "", "f.yaml", "[1, 2, 3, 4, 5]", small, nil, false},
		{"nodes, JSON", "", "f.json", "[1, 2, 3, 4, 5, 6]", small, []string{"too-many-nodes 1:17"}, true},
		{"nodes, JSON, at the limit", "", "f.json", "[1, 2, 3, 4, 5]", small, nil, false},
		{"text", "", "f.yaml", "a: 12345678901\n", small, []string{"text-too-long 1:4"}, true},
		{"text, at the limit", "", "f.yaml", "a: 1234567890\n", small, nil, false},
		{"text of a key", "", "f.yaml", "12345678901: a\n", small, []string{"text-too-long 1:1"}, true},
		{"text, JSON", "", "f.json", `["12345678901"]`, small, []string{"text-too-long 1:2"}, true},
		{"text, JSON, at the limit", "", "f.json", `["1234567890"]`, small, nil, false},

		{"not UTF-8", "", "f.yaml", "a: b\nc: \xff\n", document.Limits{}, []string{"not-utf8 2:4"}, true},
		{"UTF-16", "its mark is no UTF-8", "f.yaml", "\xff\xfea\x00", document.Limits{}, []string{"not-utf8 1:1"}, true},
		{"control character", "", "f.yaml", "a: b\x1b[31m\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"zero byte", "the parser ends there", "f.yaml", "a: b\x00\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"byte order mark within", "nobody sees it", "f.yaml", "a: b\ufeff\n", document.Limits{}, []string{"bad-character 1:5"}, true},
		{"control character, JSON", "must be escaped there", "f.json", "[\"a\x01\"]", document.Limits{}, []string{"syntax 1:4"}, true},

		{"tab", "at the character", "f.yaml", "a:\n\tb: 1\n", document.Limits{}, []string{"syntax 2:1"}, true},
		{"open quote", "where it opens, not where the file ends", "f.yaml", "a: 1\nb: \"x\nc: 1\n", document.Limits{}, []string{"syntax 2:4"}, true},
		{"open list", "", "f.yaml", "a: 1\nb: [x\n", document.Limits{}, []string{"syntax 2:5"}, true},
		{"two colons", "at the second", "f.yaml", "a: 1\nb: c: d\n", document.Limits{}, []string{"syntax 2:5"}, true},
		{"wrong indent", "", "f.yaml", "a:\n  - b: 1\n c: 2\n", document.Limits{}, []string{"syntax 3:2"}, true},
		{"on the first line", "for which the parser gives no line", "f.yaml", "a: b: c\n", document.Limits{}, []string{"syntax 1:5"}, true},
		{"bad escape", "", "f.yaml", "a: \"x\\qy\"\n", document.Limits{}, []string{"syntax 1:6"}, true},
		{"JSON in YAML, slash escape", "not covered: only a file named .json is read by the letter", "f.yaml", `{"a": "\/"}`, document.Limits{}, []string{"syntax 1:8"}, true},

		{"JSON, comma at the end", "", "f.json", "[1,\n]", document.Limits{}, []string{"syntax 2:1"}, true},
		{"JSON, no comma", "", "f.json", `{"a": 1 "b": 2}`, document.Limits{}, []string{"syntax 1:9"}, true},
		{"JSON, no quotes", "YAML would take it", "f.json", `{a: 1}`, document.Limits{}, []string{"syntax 1:2"}, true},
		{"JSON, comment", "YAML would take it", "f.json", "{} # c", document.Limits{}, []string{"syntax 1:4"}, true},
		{"JSON, not ended", "", "f.json", `{"a": [1`, document.Limits{}, []string{"syntax 1:9"}, true},
		{"JSON, leading zero", "", "f.json", `[01]`, document.Limits{}, []string{"syntax 1:2"}, true},
		{"JSON, lone surrogate", "it is no character", "f.json", `["a\ud83d"]`, document.Limits{}, []string{"syntax 1:4"}, true},
		{"JSON, two values", "", "f.json", `{} {}`, document.Limits{}, []string{"syntax 1:4"}, true},
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
	for _, c := range []struct{ name, want, got string }{
		{"the file's mapping", "3:1", place(root)},
		{"a block mapping, at its first key", "4:3", place(f[0].Value)},
		{"a flow list, at its bracket", "4:6", place(f[0].Value.Fields()[0].Value)},
		{"an empty value, after its colon", "5:3", place(f[1].Value)},
		{"a quoted scalar, at its quote", "6:4", place(f[2].Value)},
		{"a block list, at its first dash", "8:1", place(f[3].Value)},
		{"a block scalar, at its sign", "8:3", place(f[3].Value.Items()[0])},
	} {
		require.Equal(t, c.want, c.got, c.name)
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
