package logic_test

import (
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/internal/logic"
)

func clause(i int) *logic.Tree                { return &logic.Tree{Clause: i} }
func all(parts ...*logic.Tree) *logic.Tree    { return &logic.Tree{Op: logic.All, Parts: parts} }
func either(parts ...*logic.Tree) *logic.Tree { return &logic.Tree{Op: logic.Any, Parts: parts} }
func not(part *logic.Tree) *logic.Tree        { return &logic.Tree{Op: logic.Not, Parts: []*logic.Tree{part}} }

const y, n, u, f = logic.Yes, logic.No, logic.Unknown, logic.Failed

func TestTree(t *testing.T) {
	cases := []struct {
		name, why string
		tree      *logic.Tree
		clauses   []logic.Truth
		want      logic.Truth
		asked     []int
		deciding  []int
		text      string
	}{
		{"none", "no condition always holds", nil, nil, y, nil, nil, "true"},
		{"nothing joined", "all of nothing holds", all(), nil, y, nil, nil, ""},
		{"clause", "a clause is itself", clause(0), []logic.Truth{n}, n, []int{0}, []int{0}, "0"},
		{"all hold", "every one had to", all(clause(0), clause(1)), []logic.Truth{y, y}, y, []int{0, 1}, []int{0, 1}, "0 && 1"},
		{"one of all does not", "it alone settles the matter, and the rest is not asked", all(clause(0), clause(1), clause(2)), []logic.Truth{y, n, y}, n, []int{0, 1}, []int{1}, "0 && 1 && 2"},
		{"one of any holds", "it alone settles the matter", either(clause(0), clause(1), clause(2)), []logic.Truth{n, y, y}, y, []int{0, 1}, []int{1}, "0 || 1 || 2"},
		{"none of any holds", "each failing was needed", either(clause(0), clause(1)), []logic.Truth{n, n}, n, []int{0, 1}, []int{0, 1}, "0 || 1"},
		{"not", "what settles the part settles the whole", not(all(clause(0), clause(1))), []logic.Truth{y, n}, y, []int{0, 1}, []int{1}, "!(0 && 1)"},
		{"not of a clause", "needs no brackets", not(clause(0)), []logic.Truth{y}, n, []int{0}, []int{0}, "!0"},
		{"error gives way", "as in CEL, the other side settles it", all(clause(0), clause(1)), []logic.Truth{f, n}, n, []int{0, 1}, []int{1}, "0 && 1"},
		{"error does not give way", "the other side does not settle it, and the error is told", all(clause(0), clause(1)), []logic.Truth{f, y}, f, []int{0, 1}, []int{0}, "0 && 1"},
		{"error before unknown", "an error is worse than not knowing", all(clause(0), clause(1)), []logic.Truth{f, u}, f, []int{0, 1}, []int{0}, "0 && 1"},
		{"error behind unknown", "in whichever order", either(clause(0), clause(1)), []logic.Truth{u, f}, f, []int{0, 1}, []int{1}, "0 || 1"},
		{"unknown", "nothing settles it, and no clause is told to", either(clause(0), clause(1)), []logic.Truth{n, u}, u, []int{0, 1}, nil, "0 || 1"},
		{"unknown gives way", "what is not known does not matter", either(clause(0), clause(1)), []logic.Truth{u, y}, y, []int{0, 1}, []int{1}, "0 || 1"},
		{"not of unknown", "is not known either", not(clause(0)), []logic.Truth{u}, u, []int{0}, nil, "!0"},
		{"nested", "an error inside is absorbed, one outside is not", all(either(clause(0), clause(1)), clause(2)), []logic.Truth{f, y, f}, f, []int{0, 1, 2}, []int{2}, "(0 || 1) && 2"},
		{"shared clause", "a clause that stands twice is one", either(all(clause(0), clause(1)), all(not(clause(0)), clause(2))), []logic.Truth{n, y, y}, y, []int{0, 0, 2}, []int{0, 2}, "(0 && 1) || (!0 && 2)"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var asked []int
			got := c.tree.Eval(func(i int) logic.Truth { asked = append(asked, i); return c.clauses[i] })
			require.Equal(t, c.want, got, c.why)
			require.Empty(t, cmp.Diff(c.asked, asked), "clauses asked")
			require.Empty(t, cmp.Diff(c.deciding, c.tree.Deciding(func(i int) logic.Truth { return c.clauses[i] })), "clauses that decide")
			require.Equal(t, c.text, c.tree.Text(strconv.Itoa))
		})
	}
}

func TestOtherNumbers(t *testing.T) {
	tree := either(all(clause(0), clause(1)), not(clause(0)))
	moved := tree.At(func(i int) int { return 10 * (i + 1) })
	require.Equal(t, []int{10, 20}, moved.Clauses())
	require.Equal(t, "(10 && 20) || !10", moved.Text(strconv.Itoa))
	require.Equal(t, []int{0, 1}, tree.Clauses(), "the tree itself stays")
	require.Equal(t, y, logic.Of(true))
	require.Equal(t, n, logic.Of(false))
	require.Equal(t, f, f.Not())
	var none *logic.Tree
	require.Nil(t, none.Clauses())
}
