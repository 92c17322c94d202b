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
