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

func TestWriterFails(t *testing.T) {
	full := errors.New("full")
	var p Page
	p.Blank()
	require.ErrorIs(t, p.Write(writer{full}), full)
}

type writer struct{ err error }

func (w writer) Write([]byte) (int, error) { return 0, w.err }
