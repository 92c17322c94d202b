package engine

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"
)

func TestCircles(t *testing.T) {
	one := func(id, when, answer string) [3]string { return [3]string{id, when, answer} }
	const order = "; wanted an order in which each can be worked out before it is used"
	for _, c := range []struct {
		name, why, file string
		want            []string
	}{
		{"direct", "a circle of one is the shortest there is", chapterOf(decisions(decision("a", "number", "first", "", one("A", "a > 3", "1")))),
			[]string{"a.yaml:4:3: these need each other; found a needs a" + order}},
		{"of a term", "terms are looked at as decisions are", chapterOf(terms([4]string{"x", "number", "", "x + 1"})), []string{"a.yaml:4:3: these need each other; found x needs x" + order}},
		{"of two", "by an answer and by a condition", chapterOf(decisions(decision("a", "number", "first", "", one("A", "", "b + 1")),
			decision("b", "number", "first", "", one("B", "a > 3", "1"), one("C", "", "2")))),
			[]string{"a.yaml:4:3: these need each other; found a needs b needs a" + order + "; a.yaml:10:3: b is declared here"}},
		{"through terms", "the whole way is shown", chapterOf(terms([4]string{"x", "bool", "", "wet && a > 3"}, [4]string{"y", "bool", "", "!x"}),
			decisions(decision("a", "number", "first", "", one("A", "cbr > 3 || y", "1")))),
			[]string{"a.yaml:4:3: these need each other; found x needs a needs y needs x" + order + "; a.yaml:7:3: a is declared here; a.yaml:5:3: y is declared here"}},
		{"through a decision's when", "to know whether it is asked, it would have to be answered", chapterOf(decisions(
			decision("a", "number", "first", "b > 3", one("A", "", "1")), decision("b", "number", "first", "", one("B", "known(a) && a > 3", "1"), one("C", "", "2")))),
			[]string{"a.yaml:4:3: these need each other; found a needs b needs a" + order + "; a.yaml:11:3: b is declared here"}},
		{"through known", "known(a) asks a's when, which needs b", chapterOf(decisions(
			decision("a", "number", "first", "b > 3", one("A", "", "1")), decision("b", "number", "first", "", one("B", "known(a)", "1"), one("C", "", "2")))),
			[]string{"a.yaml:4:3: these need each other; found a needs b needs a" + order + "; a.yaml:11:3: b is declared here"}},
		{"two circles", "both are told", chapterOf(decisions(decision("a", "number", "first", "", one("A", "", "a + b")), decision("b", "number", "first", "", one("B", "", "a")))),
			[]string{"a.yaml:4:3: these need each other; found a needs a" + order,
				"a.yaml:4:3: these need each other; found a needs b needs a" + order + "; a.yaml:10:3: b is declared here"}},
		{"in a sentence", "a sentence is written afterwards and may read anything", chapterOf(decisions(
			"  a: {asks: what, answers: number, take: first, rules: [{rule: A, answer: 1, because: 'of {a} and {b}', source: practice}]}\n",
			decision("b", "number", "first", "", one("B", "", "a")))), nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Empty(t, cmp.Diff(c.want, faultsOf(t, c.file)), c.why)
		})
	}
}

// TestOrderOfUse holds that decisions are worked out after what they use,
// wherever they stand in the files.
func TestOrderOfUse(t *testing.T) {
	book := mustOpen(t, chapterOf(terms([4]string{"x", "number", "", "c * 2"}), decisions(
		decision("a", "number", "first", "known(b)", [3]string{"A", "", "b + x"}),
		decision("b", "number", "first", "d > 0", [3]string{"B", "", "c + 1"}),
		decision("c", "number", "first", "", [3]string{"C", "cbr > 1", "3"}),
		decision("d", "number", "first", "", [3]string{"D", "", "1"}))))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, "c=3 by C; d=1 by D; b=4 by B; a=10 by A", answers(out))
	var inFiles []string
	for _, d := range book.Decisions() {
		inFiles = append(inFiles, d.Name)
	}
	require.Equal(t, "a b c d", strings.Join(inFiles, " "), "the book keeps the order of the files")
}

// TestLongChain holds that a long chain of needs is worked out, and a long
// circle told.
func TestLongChain(t *testing.T) {
	const length = 2000
	var list [][4]string
	for i := range length {
		list = append(list, [4]string{fmt.Sprintf("t%d", i), "number", "", fmt.Sprintf("t%d + 1", i+1)})
	}
	end := [4]string{fmt.Sprintf("t%d", length), "number", "", "cbr"}
	book := mustOpen(t, chapterOf(terms(append(list, end)...), decisions(decision("a", "number", "first", "", [3]string{"A", "", "t0"}))))
	out, err := book.Run(plain(), nil)
	require.NoError(t, err)
	require.Equal(t, "a=2,003 by A", answers(out))
	end[3] = "t0"
	faults := faultsOf(t, chapterOf(terms(append(list, end)...)))
	require.Len(t, faults, 1)
	require.Contains(t, faults[0], "t0 needs t1 needs t2")
	require.Equal(t, length+1, strings.Count(faults[0], " needs "))
}
