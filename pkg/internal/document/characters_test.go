package document_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/document"
)

// find returns the first scalar below n whose text is text.
func find(n *document.Node, text string) *document.Node {
	if n.Shape() == document.Scalar && n.Text() == text {
		return n
	}
	for _, item := range n.Items() {
		if m := find(item, text); m != nil {
			return m
		}
	}
	for _, f := range n.Fields() {
		for _, part := range []*document.Node{f.Key, f.Value} {
			if m := find(part, text); m != nil {
				return m
			}
		}
	}
	return nil
}

// places writes each character of the text with its line and column, and the
// end as $. A run of characters that follow each other on a line is one word.
func places(n *document.Node) string {
	var out []string
	line, column := 0, 0
	add := func(i int, s string) {
		p := n.At(i)
		if p.Line == line && p.Column == column+1 {
			out[len(out)-1] += s
		} else {
			out = append(out, fmt.Sprintf("%d:%d %s", p.Line, p.Column, s))
		}
		line, column = p.Line, p.Column
	}
	runes := []rune(n.Text())
	for i, r := range runes {
		switch r {
		case '\n':
			add(i, "¶")
		case ' ':
			add(i, "·")
		case '\t':
			add(i, "→")
		default:
			add(i, string(r))
		}
	}
	add(len(runes), "$")
	return strings.Join(out, " | ")
}

func TestAt(t *testing.T) {
	cases := []struct {
		name, why string
		data      string
		text      string
		want      string
	}{
		// Plain.
		{"plain", "the common case", "when: base == panel\n", "base == panel", "1:7 base·==·panel$"},
		{"plain with a comment", "the comment and the space before it are no part", "when: a b   # c\n", "a b", "1:7 a·b$"},
		{"plain with signs", "a colon or # inside a word ends nothing", "when: a:b#c d\n", "a:b#c d", "1:7 a:b#c·d$"},
		{"plain, two spaces within", "they stand as they are", "when: a  b\n", "a  b", "1:7 a··b$"},
		{"plain, tab within", "a tab is one character", "when: a\tb\n", "a\tb", "1:7 a→b$"},
		{"plain, after a tab", "a tab counts as one column", "when:\tab\n", "ab", "1:7 ab$"},
		{"plain, over lines", "a fold is where the upper line ended", "when: a &&\n  b\n", "a && b", "1:7 a·&&· | 2:3 b$"},
		{"plain, trailing blanks at the fold", "they fall away", "when: a  \t\n    b\n", "a b", "1:7 a· | 2:5 b$"},
		{"plain, blank line", "two breaks give one", "when: a\n\n  b\n", "a\nb", "1:7 a | 2:1 ¶ | 3:3 b$"},
		{"plain, three blank lines", "each further break stays, with blanks or without", "when: a\n\n \n\n  b\n", "a\n\n\nb", "1:7 a | 2:1 ¶ | 3:2 ¶ | 4:1 ¶ | 5:3 b$"},
		{"plain, in a flow list", "ends at the comma", "x: [a b, c]\n", "a b", "1:5 a·b$"},
		{"plain, in a flow list over lines", "indent does not count there", "x: [a\nb, c]\n", "a b", "1:5 a· | 2:1 b$"},
		{"plain key", "a key is a scalar too", "a b: c\n", "a b", "1:1 a·b$"},
		{"plain item", "a dash within a dash", "x:\n- - a b\n", "a b", "2:5 a·b$"},
		{"plain, at the end of the file", "no line break there", "x: ab", "ab", "1:4 ab$"},
		{"plain, CR LF", "CR LF is one break", "a: x\r\nwhen: a\r\n  b\r\n\r\n  c\r\n", "a b\nc", "2:7 a· | 3:3 b | 4:1 ¶ | 5:3 c$"},
		{"plain, CR", "a lone CR ends a line too", "a: x\rwhen: a\r  b\r", "a b", "2:7 a· | 3:3 b$"},
		{"plain, non-ASCII before", "columns count characters, not bytes", "größe: ab\n", "ab", "1:8 ab$"},
		{"plain, non-ASCII within", "one of two, three and four bytes", "a: é≤😀b\n", "é≤😀b", "1:4 é≤😀b$"},
		{"plain, after a byte order mark", "the mark is no character of the file", "\ufeffa: b\n", "b", "1:4 b$"},
		{"plain, U+2028 before", "the YAML parser ends a line there, an editor does not", "a: 'x\u2028  y'\nb: cd\n", "cd", "2:4 cd$"},

		// Single-quoted.
		{"single", "begins after the quote, and ends at the other", "when: 'a b'\n", "a b", "1:8 a·b$"},
		{"single, doubled quote", "two in the file are one in the text", "when: 'a''b'\n", "a'b", "1:8 a' | 1:11 b$"},
		{"single, doubled quote at the end", "the end is behind both", "when: 'a'''\n", "a'", "1:8 a' | 1:11 $"},
		{"double, escape at the end", "the end is behind all of it", `when: "a\x41"`, "aA", "1:8 aA | 1:13 $"},
		{"single, backslash", "is no escape there", `when: 'a\nb'`, `a\nb`, `1:8 a\nb$`},
		{"single, over lines", "blanks before the fold fall away in quotes too", "when: 'a \n   b'\n", "a b", "1:8 a· | 2:4 b$"},
		{"single, blank lines", "the first break falls away, the rest stay", "when: 'a\n\n\n   b'\n", "a\n\nb", "1:8 a | 2:1 ¶ | 3:1 ¶ | 4:4 b$"},
		{"single, blanks at both ends", "within the quotes they count", "when: ' a '\n", " a ", "1:8 ·a·$"},
		{"single, break at both ends", "each becomes a space", "when: '\n  a\n  '\n", " a ", "1:8 · | 2:3 a· | 2:4 $"},
		{"single, empty", "the end is between the quotes", "when: ''\n", "", "1:8 $"},

		// Double-quoted.
		{"double", "the common case", `when: "a b"`, "a b", "1:8 a·b$"},
		{"double, escapes", "an escape is at its backslash", `when: "a\"b\\c"`, `a"b\c`, `1:8 a" | 1:11 b\ | 1:14 c$`},
		{"double, one-letter escapes", "a control character and a space of no break among them", `when: "\t\n\e\_x"`, "\t\n\x1b\u00a0x", "1:8 → | 1:10 ¶ | 1:12 \x1b | 1:14 \u00a0 | 1:16 x$"},
		{"double, hexadecimal escapes", "of two, four and eight digits", `when: "\x41\u00e9\U0001F600b"`, "Aé😀b", "1:8 A | 1:12 é | 1:18 😀 | 1:28 b$"},
		{"double, over lines", "blanks before the fold fall away", "when: \"a\t \n  b\"\n", "a b", "1:8 a· | 2:3 b$"},
		{"double, escaped break", "leaves nothing", "when: \"a\\\n  b\"\n", "ab", "1:8 a | 2:3 b$"},
		{"double, escaped break after a space", "the space stays", "when: \"a \\\n  b\"\n", "a b", "1:8 a· | 2:3 b$"},
		{"double, escaped break before a blank line", "the blank line stays a break", "when: \"a\\\n\n  b\"\n", "a\nb", "1:8 a | 2:1 ¶ | 3:3 b$"},
		{"double, escaped blank at the start of a line", "stays though the line is folded", "when: \"a\n  \\ b\"\n", "a  b", "1:8 a· | 2:3 · | 2:5 b$"},
		{"double, CR LF", "one break, folded and escaped", "when: \"a\r\n  b\\\r\n  c\"\r\n", "a bc", "1:8 a· | 2:3 b | 3:3 c$"},
		{"double key", "a key may be quoted", `"a b": c`, "a b", "1:2 a·b$"},

		// Literal.
		{"literal", "the end is on the last line, not below it", "when: |\n  a\n  b\nx: y\n", "a\nb\n", "2:3 a¶ | 3:3 b¶ | 3:4 $"},
		{"literal, more indented", "what is beyond the first line's indent counts", "when: |\n  a\n    b\n", "a\n  b\n", "2:3 a¶ | 3:3 ··b¶ | 3:6 $"},
		{"literal, indent told", "the first line may then begin with spaces", "when: |2\n    a\n  b\n", "  a\nb\n", "2:3 ··a¶ | 3:3 b¶ | 3:4 $"},
		{"literal, indent told, nested", "it counts from the mapping's own", "x:\n  when: |2-\n      a\n    b\n", "  a\nb", "3:5 ··a¶ | 4:5 b$"},
		{"literal, indent and chomping told", "in either order", "x:\n  when: |+1\n    a\n\n", " a\n\n", "3:4 ·a¶ | 4:1 ¶ | 4:1 $"},
		{"literal, strip", "no break at the end", "when: |-\n  a\n\n", "a", "2:3 a$"},
		{"literal, keep", "all breaks at the end", "when: |+\n  a\n\n\nx: y\n", "a\n\n\n", "2:3 a¶ | 3:1 ¶ | 4:1 ¶ | 4:1 $"},
		{"literal, blank lines", "before, within and shorter than the indent", "when: |\n\n  a\n \n  b\n", "\na\n\nb\n", "2:1 ¶ | 3:3 a¶ | 4:2 ¶ | 5:3 b¶ | 5:4 $"},
		{"literal, header comment", "it is no part of the text", "when: | # c\n  a\n", "a\n", "2:3 a¶ | 2:4 $"},
		{"literal, tab within", "a tab is one character, and no indent", "when: |\n  a\tb\n  \tc\n", "a\tb\n\tc\n", "2:3 a→b¶ | 3:3 →c¶ | 3:5 $"},
		{"literal, trailing blanks", "stand as they are", "when: |\n  a  \n", "a  \n", "2:3 a··¶ | 2:6 $"},
		{"literal, # within", "is no comment there", "when: |\n  a # b\n", "a # b\n", "2:3 a·#·b¶ | 2:8 $"},
		{"literal, CR LF", "CR LF is one break", "when: |\r\n  a\r\n  b\r\n", "a\nb\n", "2:3 a¶ | 3:3 b¶ | 3:4 $"},
		{"literal, no break at the end of the file", "then the text has none either", "when: |\n  ab", "ab", "2:3 ab$"},
		{"literal, non-ASCII", "columns count characters, not bytes", "ä: |\n  é≤b\n", "é≤b\n", "2:3 é≤b¶ | 2:6 $"},
		{"literal, in a list", "indented from the dash", "- |\n a\n- b\n", "a\n", "2:2 a¶ | 2:3 $"},
		{"literal, whole file", "no mapping about it", "|\n a\n", "a\n", "2:2 a¶ | 2:3 $"},

		// Folded.
		{"folded", "one break is a space, where the line ended", "when: >\n  a\n  b\nx: y\n", "a b\n", "2:3 a· | 3:3 b¶ | 3:4 $"},
		{"folded, blank line", "the first break falls away", "when: >\n  a\n\n  b\n", "a\nb\n", "2:3 a | 3:1 ¶ | 4:3 b¶ | 4:4 $"},
		{"folded, more indented", "such lines are not folded, nor is what is beside them", "when: >\n  a\n    b\n    c\n  d\n", "a\n  b\n  c\nd\n", "2:3 a¶ | 3:3 ··b¶ | 4:3 ··c¶ | 5:3 d¶ | 5:4 $"},
		{"folded, more indented after a blank line", "both breaks stay", "when: >\n  a\n\n    b\n", "a\n\n  b\n", "2:3 a¶ | 3:1 ¶ | 4:3 ··b¶ | 4:6 $"},
		{"folded, tab begins a line", "counts as more indented", "when: >\n  a\n  \tb\n", "a\n\tb\n", "2:3 a¶ | 3:3 →b¶ | 3:5 $"},
		{"folded, strip, blank line first", "a blank line before the text stays", "when: >-\n\n  a\n  b\n", "\na b", "2:1 ¶ | 3:3 a· | 4:3 b$"},
		{"folded, keep", "breaks at the end are not folded", "when: >+\n  a\n\n", "a\n\n", "2:3 a¶ | 3:1 ¶ | 3:1 $"},
		{"folded, indent told", "a first line that begins with a space is not folded", "when: >1\n  a\n b\n", " a\nb\n", "2:2 ·a¶ | 3:2 b¶ | 3:3 $"},
		{"folded, CR LF", "CR LF is one break", "when: >\r\n  a\r\n  b\r\n", "a b\n", "2:3 a· | 3:3 b¶ | 3:4 $"},
		{"folded, trailing blanks", "a > scalar keeps them before the fold", "when: >\n  a \n  b\n", "a  b\n", "2:3 a·· | 3:3 b¶ | 3:4 $"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.yaml", []byte(c.data), document.Limits{})
			require.NoError(t, faults.Err())
			n := find(root, c.text)
			require.NotNil(t, n, "the text is as expected")
			require.Empty(t, cmp.Diff(c.want, places(n)), c.why)
		})
	}
}

func TestAtJSON(t *testing.T) {
	for _, c := range []struct{ name, why, data, text, want string }{
		{"text", "the common case", `{"a": "b c"}`, "b c", "1:8 b·c$"},
		{"escapes", "an escape is at its backslash", `["a\"\\\/\n\tb"]`, "a\"\\/\n\tb", `1:3 a" | 1:6 \ | 1:8 / | 1:10 ¶ | 1:12 → | 1:14 b$`},
		{"unicode escapes", "a surrogate pair is one character", `["\u00e9\ud83d\uDE00b"]`, "é😀b", "1:3 é | 1:9 😀 | 1:21 b$"},
		{"tabs between", "YAML would not have them", "{\n\t\"a\":\t\"b\"\n}", "b", "2:8 b$"},
		{"non-ASCII", "columns count characters, not bytes", `{"größe": "é≤"}`, "é≤", "1:12 é≤$"},
		{"number", "it has no quotes to skip", "[1,\r\n -2.5e3]", "-2.5e3", "2:2 -2.5e3$"},
		{"word", "it has no quotes to skip", "[true]", "true", "1:2 true$"},
		{"U+2028 within", "no line ends there", "[\"a\u2028b\", \"c\"]", "c", "1:10 c$"},
		{"delete character", "JSON allows it, YAML does not", "[\"a\x7fb\"]", "a\x7fb", "1:3 a\x7fb$"},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, faults := document.Read("f.json", []byte(c.data), document.Limits{})
			require.NoError(t, faults.Err())
			n := find(root, c.text)
			require.NotNil(t, n, "the text is as expected")
			require.Empty(t, cmp.Diff(c.want, places(n)), c.why)
		})
	}
}

func TestAtOutside(t *testing.T) {
	root, faults := document.Read("f.yaml", []byte("a: bc\nd: [e]\n"), document.Limits{})
	require.NoError(t, faults.Err())
	n := root.Fields()[0].Value
	require.Equal(t, "f.yaml:1:4", n.At(-5).String(), "below 0 is read as 0")
	require.Equal(t, "f.yaml:1:6", n.At(1000).String(), "past the end is just after the last")
	require.Equal(t, "f.yaml:2:4", root.Fields()[1].Value.At(1).String(), "a list has no characters")
	require.Equal(t, "", (*document.Node)(nil).At(0).String(), "a nil node is nowhere")
}

func TestWidth(t *testing.T) {
	for _, c := range []struct {
		name, why, data, text string
		want                  int
	}{
		{"plain", "the common case", "a: bcd\n", "bcd", 3},
		{"single", "the quotes count", "a: 'b''d'\n", "b'd", 6},
		{"double", "escapes count as written", `a: "b\u00e9"`, "bé", 9},
		{"over lines", "only the first line", "a: bcd\n  ef\n", "bcd ef", 3},
		{"block", "only the sign", "a: |\n  bcd\n", "bcd\n", 1},
		{"empty", "at least 1", "a:\n", "", 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			root, _ := document.Read("f.yaml", []byte(c.data), document.Limits{})
			require.Equal(t, c.want, find(root, c.text).Width(), c.why)
		})
	}
}
