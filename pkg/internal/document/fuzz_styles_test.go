package document

import (
	"strings"
	"testing"
	"unicode/utf8"

	"gopkg.in/yaml.v3"
)

// FuzzStyles writes a text in every style that YAML has, nested and not, and
// holds that it is read back, and that every character of it is found. No
// fallback is allowed here.
func FuzzStyles(f *testing.F) {
	for _, s := range []string{
		"", "a", "base == panel", "a b\nc d\n", "a\n\n  b\n\tc\n\nd", " a ", "\n\na\n\n", "it's \"x\" \\ #c: d", "é≤😀 — ½\n", "a\u2028b\u0085c",
		strings.Repeat("word ", 60), strings.Repeat("long line of words ", 12) + "\n" + strings.Repeat("and more ", 30) + "\n",
		"~", "true", "- a", "a: b", "a\r\nb\rc", "\x00\x07\x1b", "*x", "&x", "!x", "%x", "@", "`", "? a", "| a", "> a",
	} {
		f.Add(s, uint8(0))
		f.Add(s, uint8(3))
	}
	styles := []yaml.Style{0, yaml.SingleQuotedStyle, yaml.DoubleQuotedStyle, yaml.LiteralStyle, yaml.FoldedStyle}
	f.Fuzz(func(t *testing.T, text string, nesting uint8) {
		if !utf8.ValidString(text) || len(text) > 2000 {
			return
		}
		for _, style := range styles {
			data, ok := write(text, style, int(nesting%6))
			if !ok {
				continue
			}
			for _, data := range []string{data, strings.ReplaceAll(data, "\n", "\r\n")} {
				checkStyle(t, data)
			}
		}
	})
}

// write writes the text in the style, so many lists and mappings deep; it is
// false if YAML cannot hold it.
func write(text string, style yaml.Style, nesting int) (_ string, ok bool) {
	defer func() {
		if recover() != nil {
			ok = false
		}
	}()
	n := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: text, Style: style}
	for i := range nesting {
		if i%2 == 0 {
			key := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "é key"}
			n = &yaml.Node{Kind: yaml.MappingNode, Content: []*yaml.Node{key, n}}
			continue
		}
		first := &yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: "first"}
		n = &yaml.Node{Kind: yaml.SequenceNode, Content: []*yaml.Node{first, n}}
	}
	data, err := yaml.Marshal(n)
	return string(data), err == nil
}

func checkStyle(t *testing.T, data string) {
	t.Helper()
	// What the writer makes of odd texts is not always what it was given; what
	// the parser makes of it is the measure.
	var plainNode yaml.Node
	if yaml.Unmarshal([]byte(data), &plainNode) != nil || forbiddenCharacter(data) >= 0 {
		return
	}
	root, faults := Read("f.yaml", []byte(data), fuzzLimits)
	for _, d := range faults {
		switch d.Code {
		case CodeTag, CodeTooLarge, CodeTooLong, CodeEmpty:
			return // the writer had to use a tag, or the text is long
		}
		t.Fatalf("%q: %v", data, d)
	}
	checkTree(t, data, root)
	last := root
	for last.shape != Scalar {
		if last.shape == Mapping {
			last = last.fields[0].Value
		} else {
			last = last.items[1]
		}
	}
	want := plainNode.Content[0]
	for want.Kind != yaml.ScalarNode {
		want = want.Content[1]
	}
	if last.text != want.Value {
		t.Fatalf("%q is read as %q, not %q", data, last.text, want.Value)
	}
}
