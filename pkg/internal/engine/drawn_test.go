package engine

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

// TestHowCoursesAreDrawn holds what a course can say of its drawing: what could not be
// drawn is refused when the rulebook is read.
func TestHowCoursesAreDrawn(t *testing.T) {
	for _, c := range []struct{ name, why, drawn, want string }{
		{"a symbol and its parts", "this is how it is done", "{symbol: bed, thick: thickness}", ""},
		{"not drawn", "a drawing then names it", "null", ""},
		{"no symbol", "nothing says what the part is of", "{thick: thickness}", "as what is it drawn?"},
		{"a symbol that there is not", "nobody could draw it", "{symbol: bad, thick: thickness}", `nothing is drawn so; found bad; wanted bed, block, edge`},
		{"a part of another symbol", "it would show nothing", "{symbol: bed, up: thickness}", "a drawing does not show this; found up; wanted thick, material, beyond or symbol"},
		{"an attribute that the course has not", "it would show nothing", "{symbol: bed, thick: thicknes}", `the course has no such attribute; found thicknes; wanted an attribute of the course; did you mean "thickness"?`},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(crew, "source: practice, attributes: {thickness: top}}", "source: practice, drawn: "+c.drawn+", attributes: {thickness: top}}", 1)
			require.NotEqual(t, crew, text)
			book, err := Open(filesOf(map[string]string{"a.yaml": text}), testSetup())
			if c.want != "" {
				require.Error(t, err, c.why)
				require.Contains(t, strings.Join(linesOf(t, err), "\n"), c.want, c.why)
				return
			}
			require.NoError(t, err, c.why)
			want := map[string]string{"symbol": "bed", "thick": "thickness"}
			if c.drawn == "null" {
				want = nil
			}
			require.Empty(t, cmp.Diff(want, book.Contents().Courses[2].Drawn), c.why)
		})
	}
}
