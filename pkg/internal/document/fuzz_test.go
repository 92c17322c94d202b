package document

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
)

// seeds are files that together use every way of writing a scalar.
var seeds = []string{
	"a: plain\n", "a: plain words\n  over two\n\n\n  and more  \n# c\nb: 1\n", "a: x #y # z\n",
	"é: ü plain é # ä\n", "日本: [語, 'それ', \"x\"]\n", "- - - a\n  - b\n-\n- c",
	"'a''b': \"c\\\"d\\u00e9\\x41\\U0001F600\\\n   e\\\n\n f\\ \"\n", "a: 'one\n  two\n\n  three  '\n",
	"a: \"one\t \n  two  \n\n\n  three\\n \\\n  \\  four\"\n", "a: ''\nb: \"\"\nc:\nd: ~\n",
	"a: |\n  one\n   two\n\n  three\nb: 1\n", "a: |+\n  one\n\n\nb: 1\n", "a: |-\n  one\n", "a: |2-\n    one\n  two\n",
	"a: |1+ # c\n  one\n\n", "a: >\n  one\n  two\n\n  three\n    more\n    more\n\n  four\n", "a: >-\n\n\n  one\n\ttab\n",
	"a: >+\n\n  one\n\n\n", "- |\n x\n- >\n y\n", "- a: |\n    x\n  b: >2\n      y\n", "|\n text\n", ">2-\n   x\n  y\n",
	"a: |\r\n  one\r\n  two\r\nb: >\r\n  three\r\n  four\r\nc: \"x\r\n  y\"\r\nd: p\r\n  q\r\n", "a: |\n\n  \nb: 1\n", "a: |3\n    \n\n",
	"\ufeffa: b\n", "a: 'x\u2028 y'\nb: z\u0085  w\n", "a: >\n  x\u2029  y\n", "[a, b: c, {d: e}, \"f\":g, ? h : i]", "a: {x: 1, y}\n",
	"? a\n: b\n? |\n  k\n: v\n", "a: - b\n", "a: b: c\n", "\ta: b\n", "a: [\n", "a: *x\n", "a: &x 1\n", "a: !t x\nb: ! y\n", "<<: {a: 1}\n",
	"a: 1\na: 2\n", "---\na: 1\n...\n", "a: 1\n---\nb: 2\n", "%YAML 1.1\n---\na\n", "\"\\/\"", "{\"a\": \"\\/ \\ud83d\\ude00\"}", "x\ry\r\n",
	"a:\n- b\n-\tc\n", "a: |\n  x", "a: >\n  x\n y", "'a\n\n\n b': 1", "a #b: c#d\n",
}

// fuzzLimits are small, so that the fuzzer gets past them.
var fuzzLimits = Limits{Bytes: 1 << 14, Depth: 20, Nodes: 2000, Text: 1 << 12}

// FuzzYAML holds that no file brings a panic, and that in a file which is
// taken every character of every scalar is found again in the file.
func FuzzYAML(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
		f.Add([]byte("outer:\n  - " + strings.ReplaceAll(s, "\n", "\n    ")))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		root, faults := Read("f.yaml", data, fuzzLimits)
		checkFaults(t, data, faults)
		if root == nil {
			if len(faults) == 0 {
				t.Fatal("no node, and nothing said about it")
			}
			return
		}
		if !anyProperty(faults) {
			checkTree(t, string(data), root)
		}
		useTree(root)
	})
}

// anyProperty reports whether a node was refused for what stands before it; where
// such a node's text starts is not known.
func anyProperty(faults diagnostic.List) bool {
	for _, d := range faults {
		if d.Code == CodeAnchor || d.Code == CodeTag {
			return true
		}
	}
	return false
}

// checkFaults holds that every place said to be wrong is a place of the file.
func checkFaults(t *testing.T, data []byte, faults diagnostic.List) {
	t.Helper()
	lines := editorLines(string(data))
	for _, d := range faults {
		p := d.Place
		if d.Code == "" || d.Message == "" || p.File != "f.yaml" && p.File != "f.json" {
			t.Fatalf("incomplete: %+v", d)
		}
		if p.Line < 0 || p.Line > len(lines) || p.Line > 0 && p.Column > utf8.RuneCountInString(lines[p.Line-1])+1 {
			t.Fatalf("outside of the file: %v", d)
		}
	}
}

// editorLines cuts the text into lines as an editor does.
func editorLines(s string) []string {
	s = strings.TrimPrefix(s, byteOrderMark)
	s = strings.ReplaceAll(s, "\r\n", "\n")
	return strings.Split(strings.ReplaceAll(s, "\r", "\n"), "\n")
}

func walk(n *Node, visit func(*Node)) {
	visit(n)
	for _, item := range n.Items() {
		walk(item, visit)
	}
	for _, f := range n.Fields() {
		walk(f.Key, visit)
		walk(f.Value, visit)
	}
}

// checkTree holds each character of each scalar against the file.
func checkTree(t *testing.T, data string, root *Node) {
	t.Helper()
	lines := editorLines(data)
	runes := make([][]rune, len(lines))
	for i, l := range lines {
		runes[i] = []rune(l)
	}
	walk(root, func(n *Node) {
		if n.shape != Scalar {
			return
		}
		count := utf8.RuneCountInString(n.text)
		if len(n.places()) != count+1 {
			t.Fatalf("the text %q at %v was not found again", n.text, n.Place())
		}
		before := n.Place()
		i := 0
		for _, want := range n.text {
			p := n.At(i)
			i++
			if p.Compare(before) < 0 {
				t.Fatalf("%q: character %d at %v is before %v", n.text, i, p, before)
			}
			before = p
			line := runes[p.Line-1]
			if p.Column > len(line) { // at the end of a line only a break, or what folding made of it
				if want != ' ' && want != '\n' {
					t.Fatalf("%q: %q at %v is after the end of the line", n.text, want, p)
				}
				continue
			}
			if got := line[p.Column-1]; got != want && !standsFor(n.style, got, want) {
				t.Fatalf("%q: %q at %v is %q in the file", n.text, want, p, got)
			}
		}
	})
}

// standsFor reports whether got of the file may be where want of the text is from.
func standsFor(s style, got, want rune) bool {
	switch {
	case got == '\\':
		return s == doubleQuoted || s == jsonText
	case got == '\u0085':
		return want == ' ' || want == '\n'
	case got == ' ' || got == '\t': // blanks before a break
		return want == ' ' || unicode.IsSpace(want)
	}
	return false
}

// useTree calls everything that can be asked of a node.
func useTree(root *Node) {
	walk(root, func(n *Node) {
		var faults diagnostic.List
		_ = n.At(-1)
		_ = n.At(1 << 30)
		_ = n.Width()
		_, _, _ = n.Null(), n.Quoted(), n.Place()
		e := n.Entry("a thing", &faults)
		for _, key := range []string{"a", "b", "absent"} {
			e.Need(key)
			e.NeedText(key)
			e.Bool(key)
			e.Items(key)
		}
		n.Entry("a thing", &faults).Done()
		_ = faults.Error()
	})
}

// FuzzJSON holds the JSON reader against the standard library's.
func FuzzJSON(f *testing.F) {
	for _, s := range append(seeds, `{"a":[1,-0.5e+3,true,false,null,"x\n\u00e9\ud83d\ude00\/"], "b" : {}}`,
		`["\ud83d"]`, `["\ud83dx"]`, `[01]`, `[1.]`, `[1,]`, `{"a" 1}`, `{"a":1}x`, `["a	b"]`, `[nul]`, "[1\t,\r\n2]", `["é\"日"]`, `{"":1}`) {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		root, faults := Read("f.json", data, fuzzLimits)
		checkFaults(t, data, faults)
		o := &original{file: "f.json", data: strings.TrimPrefix(string(data), byteOrderMark)}
		if !isJSON(o) || !utf8.Valid(data) || len(data) > fuzzLimits.Bytes {
			return
		}
		valid := json.Valid([]byte(o.data))
		if len(faults) == 0 && !valid {
			t.Fatalf("%q was taken", data)
		}
		for _, d := range faults {
			if valid && d.Code == CodeSyntax && !strings.Contains(d.Message, "surrogate") {
				t.Fatalf("%q is JSON: %v", data, d)
			}
		}
		if root == nil {
			return
		}
		checkTree(t, string(data), root)
		useTree(root)
		if len(faults) == 0 {
			d := json.NewDecoder(bytes.NewReader([]byte(o.data)))
			d.UseNumber()
			var want any
			if err := d.Decode(&want); err != nil {
				t.Fatal(err)
			}
			if diff := sameJSON(root, want); diff != "" {
				t.Fatalf("%q: %s", data, diff)
			}
		}
	})
}

// sameJSON says in what the node differs from what the standard library read.
func sameJSON(n *Node, want any) string {
	switch want := want.(type) {
	case map[string]any:
		if n.shape != Mapping || len(n.fields) != len(want) {
			return fmt.Sprintf("%v is not %v", n.Place(), want)
		}
		for _, f := range n.fields {
			v, ok := want[f.Key.text]
			if !ok {
				return "no key " + f.Key.text
			}
			if diff := sameJSON(f.Value, v); diff != "" {
				return diff
			}
		}
		return ""
	case []any:
		if n.shape != Sequence || len(n.items) != len(want) {
			return fmt.Sprintf("%v is not %v", n.Place(), want)
		}
		for i, v := range want {
			if diff := sameJSON(n.items[i], v); diff != "" {
				return diff
			}
		}
		return ""
	case nil:
		if n.Null() {
			return ""
		}
	case string:
		if n.Quoted() && n.text == want {
			return ""
		}
	default:
		if !n.Quoted() && n.text == fmt.Sprint(want) {
			return ""
		}
	}
	return fmt.Sprintf("%q at %v is not %v", n.text, n.Place(), want)
}
