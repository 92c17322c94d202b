package diagnostic_test

import (
	"bytes"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/diagnostic"
)

func at(file string, line, column int) diagnostic.Place {
	return diagnostic.Place{File: file, Line: line, Column: column}
}

func TestPlaceString(t *testing.T) {
	for _, c := range []struct {
		name, why, want string
		place           diagnostic.Place
	}{
		{"whole file", "a limit on the file has no line", "a.yaml", at("a.yaml", 0, 0)},
		{"line", "a fault known to the line only", "a.yaml:3", at("a.yaml", 3, 0)},
		{"column", "as editors read it", "a.yaml:3:7", at("a.yaml", 3, 7)},
	} {
		t.Run(c.name, func(t *testing.T) { require.Equal(t, c.want, c.place.String(), c.why) })
	}
}

func TestSort(t *testing.T) {
	mk := func(p diagnostic.Place, m string) *diagnostic.Diagnostic {
		return &diagnostic.Diagnostic{Place: p, Message: m}
	}
	for _, c := range []struct {
		name, why string
		list      diagnostic.List
		want      []string
	}{
		{"file, line, column", "in this order of weight; 10 is after 9, as a number", diagnostic.List{
			mk(at("b", 1, 1), "6"), mk(at("a", 10, 1), "5"), mk(at("a", 9, 9), "4"), mk(at("a", 9, 2), "3"),
			mk(at("a", 9, 0), "2"), mk(at("a", 0, 0), "1"),
		}, []string{"1", "2", "3", "4", "5", "6"}},
		{"equals", "what was found first at a place stays first", diagnostic.List{
			mk(at("a", 2, 1), "x"), mk(at("a", 1, 1), "z"), mk(at("a", 1, 1), "y"),
		}, []string{"z", "y", "x"}},
		{"empty", "nothing to do", nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			c.list.Sort()
			var got []string
			for _, d := range c.list {
				got = append(got, d.Message)
			}
			require.Empty(t, cmp.Diff(c.want, got), c.why)
		})
	}
}

func TestListAsError(t *testing.T) {
	var none diagnostic.List
	require.NoError(t, none.Err(), "an empty list is no error, not even a typed one")

	var l diagnostic.List
	l.Addf(at("b.yaml", 2, 1), "second", "found %d", 2)
	l.Add(&diagnostic.Diagnostic{Place: at("a.yaml", 1, 1), Code: "first", Message: "one"})
	err := fmt.Errorf("reading the rulebook: %w", l.Err())

	var d *diagnostic.Diagnostic
	require.ErrorAs(t, err, &d)
	require.Equal(t, diagnostic.Code("first"), d.Code, "Err sorts, so that the first in the file is the first found")

	var list diagnostic.List
	require.ErrorAs(t, err, &list)
	require.Len(t, list, 2, "all of them can be had back")
	require.True(t, errors.Is(err, list[1]), "each is in the chain")
	require.Equal(t, "reading the rulebook: a.yaml:1:1: one\nb.yaml:2:1: found 2", err.Error())
}

func TestDiagnosticError(t *testing.T) {
	d := &diagnostic.Diagnostic{
		Place: at("a.yaml", 3, 7), Message: "no such word", Found: `"pannel"`, Wanted: "a base", Nearest: "panel",
		Related: []diagnostic.Related{{Place: at("b.yaml", 1, 1), Message: "declared here"}},
	}
	require.Equal(t, `a.yaml:3:7: no such word; found "pannel"; wanted a base; did you mean "panel"?; b.yaml:1:1: declared here`, d.Error())
	require.Equal(t, "<nil>", (*diagnostic.Diagnostic)(nil).Error(), "a nil one can be printed")
	d = &diagnostic.Diagnostic{Place: at("a.yaml", 3, 7), Message: "no ground is < 0 or & so", Found: "x", Repaired: "cbr > 0"}
	require.Contains(t, d.Error(), "cbr > 0")
	var b bytes.Buffer
	require.NoError(t, diagnostic.List{d}.Render(&b, nil))
	require.Contains(t, b.String(), "cbr > 0")
	b.Reset()
	require.NoError(t, diagnostic.List{d}.WriteJSONLines(&b))
	require.Contains(t, b.String(), "no ground is < 0 or & so", "signs are written as they are")
}

func TestNearest(t *testing.T) {
	words := []string{"panel", "open_graded", "dense_graded", "grid", "sand", "lift"}
	for _, c := range []struct {
		name, why, found string
		candidates       []string
		want             string
	}{
		{"one letter too many", "a letter struck twice counts as one slip", "pannel", words, "panel"},
		{"one letter too few", "what is left out counts as one slip", "pane", words, "panel"},
		{"one letter changed", "a neighboring key counts as one slip", "penel", words, "panel"},
		{"two neighbors swapped", "a swap is one slip, not two", "gird", words, "grid"},
		{"first two swapped", "at the beginning too", "rgid", []string{"grid"}, "grid"},
		{"first two swapped in a short word", "where one slip is all that is allowed", "ni", []string{"in"}, "in"},
		{"two swaps in a short word", "two slips in four letters are half the word", "rgdi", words, ""},
		{"case", "case does not count", "PANEL", words, "panel"},
		{"long word, four slips", "eight letters allow (8+1)/3 = 3", "dns_gadd", words, ""},
		{"long word, three slips", "nine letters allow (9+1)/3 = 3", "dns_gaded", words, "dense_graded"},
		{"nothing near", "gravel is three slips from panel, and another thing", "gravel", words, ""},
		{"one letter", "any other letter would be one slip away", "a", []string{"b", "A"}, "A"},
		{"two letters", "one of two letters may be wrong, or no unit would ever be found", "im", []string{"mm", "in"}, "mm"},
		{"equally near", "the earlier is taken, so that the answer does not hang on chance", "an", []string{"on", "in", "and"}, "on"},
		{"nearer but later", "the first that is near enough need not be the nearest", "sands", []string{"bonds", "sand"}, "sand"},
		{"exact but later", "a name in other capitals is nearer than any slip", "sand", []string{"band", "SAND"}, "SAND"},
		{"empty name", "nothing was meant", "", words, ""},
		{"no candidates", "an empty vocabulary has nothing near", "panel", nil, ""},
		{"not ASCII", "letters count, not bytes", "größe", []string{"grösse", "größer"}, "größer"},
		{"long candidate", "far longer than the name is far from it", "grid", []string{"grid_cover_least_of_all_the_settings"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, diagnostic.Nearest(c.found, c.candidates), c.why)
		})
	}
}
