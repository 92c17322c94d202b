package page

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func text(t *testing.T, write func(*Page)) string {
	t.Helper()
	var p Page
	write(&p)
	var b strings.Builder
	require.NoError(t, p.Write(&b))
	return b.String()
}

func TestPage(t *testing.T) {
	long := strings.Repeat("abcdefghi ", Width/10+1)                  // words of ten columns with their blank
	full := strings.TrimSpace(strings.Repeat("abcdefghi ", Width/10)) // one column less than a line has
	for _, c := range []struct {
		name, why string
		write     func(*Page)
		want      string
	}{
		{"paragraph", "what does not fit goes under the text", func(p *Page) { p.Put(0, "- ", long) },
			"- " + strings.TrimSuffix(full, " abcdefghi") + "\n  abcdefghi abcdefghi\n"},
		{"line to the edge", "with one column before it the text ends where the line does", func(p *Page) { p.Line(1, "%s", full) }, " " + full + "\n"},
		{"line over the edge", "one column more and the last word moves, four columns further in", func(p *Page) { p.Line(2, "%s", full) },
			"  " + strings.TrimSuffix(full, " abcdefghi") + "\n      abcdefghi\n"},
		{"narrow page", "18 columns beside the indent and 14 below, each full", func(p *Page) { p.Columns = 20; p.Line(2, "aaaa bbbb cccc ddd eeee ffff gggg hhhh") },
			"  aaaa bbbb cccc ddd\n      eeee ffff gggg\n      hhhh\n"},
		{"narrow page, one column over", "one more in each line and its last word moves", func(p *Page) { p.Columns = 20; p.Line(2, "aaaa bbbb cccc dddd eeee ffff ggggg hhhh") },
			"  aaaa bbbb cccc\n      dddd eeee ffff\n      ggggg hhhh\n"},
		{"less than no columns", "it is as wide as one that does not say", func(p *Page) { p.Columns = -5; p.Line(1, "%s", full) }, " " + full + "\n"},
		{"letters of two bytes", "columns are counted and not bytes", func(p *Page) { p.Columns = 12; p.Put(0, "µ ", "éééé éééé éé") }, "µ éééé éééé\n  éé\n"},
		{"unbroken", "no line is broken at a space that joins a number to its unit", func(p *Page) { p.Columns = 10; p.Line(0, "aa 100\u00a0mm 12\u202f345") },
			"aa 100\u00a0mm\n    12\u202f345\n"},
		{"long word", "a word that is longer than a line is left whole", func(p *Page) { p.Line(0, "a %s b", strings.Repeat("x", 120)) },
			"a\n    " + strings.Repeat("x", 120) + "\n    b\n"},
		{"long word first", "no line is left empty before it", func(p *Page) { p.Line(0, "%s b", strings.Repeat("x", 120)) },
			strings.Repeat("x", 120) + "\n    b\n"},
		{"heading after a blank line", "what was written is a line, though it is empty", func(p *Page) { p.Blank(); p.Heading("ONE") }, "\n\nONE\n"},
		{"nothing", "an empty paragraph is a line without its blanks", func(p *Page) { p.Put(2, "- ", "") }, "  -\n"},
		{"headings", "the first has no blank line before it", func(p *Page) { p.Heading("ONE"); p.Heading("TWO") }, "ONE\n\nTWO\n"},
		{"verbatim", "columns stay where they are", func(p *Page) { p.Verbatim(1, "a    b\n c\n") }, " a    b\n  c\n"},
		{"terminal", "no control character, and none that turns the direction of writing, gets out",
			func(p *Page) { p.Put(0, "\x1b", "a\x1b[31mb\u009bc\u202ed\x00"); p.Verbatim(0, "x\ty\x07\x7f\ufffd") }, "?a?[31mb?c?d?\nx?y???\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, text(t, c.write)), c.why)
		})
	}
}

func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "a bed": "A bed", "épaisseur": "Épaisseur", "57 stone": "57 stone"} {
		require.Equal(t, want, Capital(text))
	}
}

func TestLines(t *testing.T) {
	for _, c := range []struct {
		name, why, text string
		width           int
		want            []string
	}{
		{"to the edge", "nine columns hold two words of four", "aaaa bbbb cccc", 9, []string{"aaaa bbbb", "cccc"}},
		{"over the edge", "eight do not", "aaaa bbbb cccc", 8, []string{"aaaa", "bbbb", "cccc"}},
		{"blanks", "any blanks are one, and none stand at an end", " a \n b\t", 9, []string{"a b"}},
		{"nothing", "there is always a line", "", 9, []string{""}},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Lines(c.text, c.width), c.why) })
	}
}

// TestShown: what a file holds cannot act on a terminal, and its lines stay lines.
func TestShown(t *testing.T) {
	for _, c := range []struct{ name, why, text, want string }{
		{"lines", "the end of a line is no more than that", "a\nb\n", "a\nb\n"},
		{"an escape", "it could color, or worse", "\x1b[31mred", "?[31mred"},
		{"back to the start of the line", "it could write over what was shown", "a\rb", "a?b"},
		{"a tab", "its width is the terminal's own", "a\tb", "a?b"},
		{"unbroken spaces", "both are shown as they are", "1\u00a0mm 2\u202fmm", "1\u00a0mm 2\u202fmm"},
		{"another space", "only the two that join a number to its unit are kept", "a\u2003b", "a?b"},
		{"no character", "what could not be read", "\xff", "?"},
		{"letters", "of any language", "é µ 字", "é µ 字"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Shown(c.text), c.why) })
	}
}

func TestFill(t *testing.T) {
	for _, c := range []struct {
		name, why, line string
		holes           []string
		want            string
	}{
		{"no holes", "a line is left as it is", "Tools", nil, "Tools"},
		{"two holes", "each by its name, in whatever order", "{b} of {a}", []string{"a", "1", "b", "2"}, "2 of 1"},
		{"three holes", "every second text is a name", "{a} {b} {c}", []string{"a", "1", "b", "2", "c", "3"}, "1 2 3"},
		{"twice", "a hole may stand twice", "{a} {a}", []string{"a", "1"}, "1 1"},
		{"a value that looks like a hole", "what was filled in is not filled again", "{a}", []string{"a", "{b}", "b", "2"}, "{b}"},
		{"a name in the words", "it is no hole without its braces", "a {a}", []string{"a", "1"}, "a 1"},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, Fill(c.line, c.holes...), c.why) })
	}
}

func TestWriterFails(t *testing.T) {
	full := errors.New("full")
	var p Page
	p.Blank()
	require.ErrorIs(t, p.Write(writer{full}), full)
}

type writer struct{ err error }

func (w writer) Write([]byte) (int, error) { return 0, w.err }
