package document

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestBreakWidth holds what ends a line of YAML, at the end of a file too.
func TestBreakWidth(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		at, want        int
	}{
		{"LF", "the common case", "a\nb", 1, 1},
		{"CR", "an old one", "a\rb", 1, 1},
		{"CR at the end", "nothing follows it", "a\r", 1, 1},
		{"CR LF", "they are one", "a\r\nb", 1, 2},
		{"CR LF at the end", "nothing follows them", "a\r\n", 1, 2},
		{"LF CR", "they are two", "a\n\r", 1, 1},
		{"next line", "U+0085", "a\u0085b", 1, 2},
		{"another of its first byte", "U+0084 is none", "a\u0084b", 1, 0},
		{"line separator", "U+2028", "a\u2028b", 1, 3},
		{"paragraph separator", "U+2029", "a\u2029b", 1, 3},
		{"another of their first byte", "U+202A is none", "a\u202ab", 1, 0},
		{"a letter", "it ends nothing", "ab", 1, 0},
		{"past the end", "there is nothing", "ab", 2, 0},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, breakWidth(c.text, c.at), c.why) })
	}
}

// TestForbiddenCharacter holds both sides of each end of what a file may hold.
func TestForbiddenCharacter(t *testing.T) {
	for _, r := range []rune{'\t', '\n', '\r', ' ', '~', 0x85, 0xA0, 0xD7FF, 0xE000, 0xFEFE, 0xFF00, 0xFFFD, 0x10000, 0x10FFFF} {
		require.Equal(t, -1, forbiddenCharacter("ab"+string(r)), "%U", r)
	}
	for _, r := range []rune{0, 8, 0xB, 0xE, 0x1F, 0x7F, 0x84, 0x86, 0x9F, 0xFEFF, 0xFFFE, 0xFFFF} {
		require.Equal(t, 2, forbiddenCharacter("ab"+string(r)), "%U", r)
	}
}

// TestMarksOfARefusedNode holds that no place is claimed for a character of a
// scalar that begins with what is refused.
func TestMarksOfARefusedNode(t *testing.T) {
	for name, data := range map[string]string{
		"quoted": "a: !t 'bc'\n", "double": "a: !t \"bc\"\n", "literal": "a: !t |\n  bc\n", "folded": "a: !t >\n  bc\n", "anchored": "a: &t 'bc'\n",
	} {
		t.Run(name, func(t *testing.T) {
			root, _ := Read("f.yaml", []byte(data), Limits{})
			n := root.Fields()[0].Value
			require.Equal(t, "f.yaml:1:4", n.At(1).String())
			require.Equal(t, 1, n.Width())
		})
	}
}

// TestSeek holds the places of both ways to count lines, forward and back: U+2028 ends a
// line for the parser alone.
func TestSeek(t *testing.T) {
	c := cursor{data: "ab\u2028c\r\nd", line: 1, column: 1}
	for _, want := range []struct {
		name                                   string
		yamlLine, yamlColumn, offset, line, at int
	}{
		{"a letter", 0, 1, 1, 1, 2},
		{"the same again", 0, 1, 1, 1, 2},
		{"behind the separator", 1, 0, 5, 1, 4},
		{"behind CR LF", 2, 0, 8, 2, 1},
		{"back in the line before", 1, 1, 6, 1, 5},
		{"back in the same line", 1, 0, 5, 1, 4},
		{"the beginning", 0, 0, 0, 1, 1},
		{"past the end of a line", 0, 9, 2, 1, 3},
		{"past the end of the file", 2, 9, 9, 2, 2},
	} {
		c.seek(want.yamlLine, want.yamlColumn)
		require.Equal(t, [3]int{want.offset, want.line, want.at}, [3]int{c.offset, c.line, c.column}, want.name)
	}
}

// TestLineSlips holds how each slip in a line is mended, whether or not that makes a file
// that can be read, and whether it is told where the parser stopped.
func TestLineSlips(t *testing.T) {
	for _, c := range []struct {
		name, line, want string
		there            bool
	}{
		{"a space that is not plain", "a:\u00a01", "a: 1", false},
		{"several of them", "- a:\u2003 \u30001", "- a: 1", false},
		{"no space behind a colon", "  a:b", "  a: b", false},
		{"no space behind a dash", "  -b", "  - b", false},
		{"no colon", "a_b c", "a_b: c", false},
		{"an open quote", `a: "b `, `a: "b"`, true},
		{"an open apostrophe", "a: 'b ", "a: 'b'", true},
		{"a backslash", `a: "b\c's"`, `a: 'b\c''s'`, true},
		{"an apostrophe", "a: 'it's'", `a: "it's"`, false},
		{"text behind the quote", `a: "b" c`, `a: '"b" c'`, false},
		{"a sign", "a: %b ", `a: "%b"`, false},
		{"text behind a bracket", "a: [b] c", `a: "[b] c"`, false},
		{"a second colon", "a: b: c", `a: "b: c"`, true},
		{"a colon between brackets", "{a: b:c, d: 1}", `{a: "b:c", d: 1}`, false},
		{"an open brace", "{a: 1", "{a: 1}", true},
		{"an open bracket", "[1, 2", "[1, 2]", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, s := range lineSlips {
				if part := s.line.FindStringSubmatch(c.line); part != nil {
					require.Equal(t, c.want, s.mend(part), s.says)
					require.Equal(t, c.there, s.there)
					return
				}
			}
			t.Error("it is taken for no slip")
		})
	}
	require.Equal(t, "   a: 1", oddIndent.mend(oddIndent.line.FindStringSubmatch("\u00a0 \u2003a: 1")), "as many plain spaces")
}

// TestIndents holds what a line that begins at the wrong place could be.
func TestIndents(t *testing.T) {
	type right struct {
		line int
		text string
	}
	for _, c := range []struct {
		name, why string
		lines     []string
		at        int
		want      []right
	}{
		{"a tab", "as those above it, the nearest first", []string{"a:", "  b: 1", "\tc: 2"}, 2, []right{{2, "  c: 2"}, {2, "c: 2"}}},
		{"a tab behind a space", "the same", []string{"  a:", " \tb: 1"}, 1, []right{{1, "  b: 1"}}},
		{"one space too many", "as the line above", []string{"a:", "  b: 1", "   c: 2"}, 2, []right{{2, "  c: 2"}}},
		{"one too few above", "that line, or all that follow", []string{"a:", "  b: 1", " c: 2", "  d: 3"}, 3, []right{{2, "  c: 2"}, {3, " d: 3"}}},
		{"further in", "it may belong to the line above", []string{"a: 1", "    b: 2"}, 1, nil},
		{"the first line", "nothing stands above it", []string{" a: 1"}, 0, []right{{0, "a: 1"}}},
		{"past the end", "the last line", []string{"a: 1"}, 5, nil},
		{"a dash missing", "the first of the lines further in", []string{"  x: 1", "", "    y: 2", "    z: 3", "  - w"}, 4, []right{{1, "  - "}}},
		{"an item among keys", "its own line could be the first", []string{"a:", "  x: 1", "  - y"}, 2, []right{{2, "  - - y"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []right
			for _, m := range indents(c.lines, c.at) {
				got = append(got, right{m.line, m.text})
			}
			require.Equal(t, c.want, got, c.why)
		})
	}
}

// TestHalfPairs holds which escapes of JSON are half of a character.
func TestHalfPairs(t *testing.T) {
	for _, c := range []struct{ name, text, at string }{
		{"a whole pair", `\ud83d\ude00`, ""},
		{"a letter", `\u0041`, ""},
		{"below the pairs", `\ud7ff`, ""},
		{"above them", `\ue000`, ""},
		{"the first half", `\ud800`, "f.json:1:3"},
		{"the last second half", `\uDFFF`, "f.json:1:3"},
		{"a first half before a letter", `x\uDBFF\u0041`, "f.json:1:4"},
		{"behind another escape", `\u0041\n\udc00`, "f.json:1:11"},
		{"two first halves and a second", `\ud800\ud83d\ude00`, "f.json:1:3"},
		{"behind a backslash", `\\ud800`, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := Read("f.json", []byte(`["`+c.text+`"]`), Limits{})
			if c.at == "" {
				require.Empty(t, faults)
				return
			}
			require.ErrorContains(t, faults, c.at+": ")
		})
	}
}
