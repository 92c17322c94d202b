package cells

import (
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

func inches(x float64) value.Value { return value.Measured(quantity.Inches(x)) }

func lengthCells(points ...float64) *Cells {
	c := New("length", nil)
	for _, p := range points {
		c.Split(inches(p))
	}
	return c
}

// list returns the cells of a set in rising order.
func (s Set) list() []int {
	var out []int
	for cell := range Most {
		if s.Has(cell) {
			out = append(out, cell)
		}
	}
	return out
}

func TestCellsOfLengths(t *testing.T) {
	c := lengthCells(6, 4)
	require.False(t, c.Split(value.Measured(quantity.Feet(0.5))), "6 in is there already, in whatever unit")
	require.False(t, c.Split(value.Number(3)), "a number is no length")
	require.Equal(t, 5, c.Count())
	for _, each := range []struct {
		at   float64
		cell int
		why  string
	}{{3, 0, "below"}, {4, 1, "at the first"}, {4 + 1e-10, 1, "within the tolerance of a comparison"}, {4.1, 2, "between"}, {6, 3, "at the second"}, {7, 4, "above"}} {
		cell, ok := c.Of(inches(each.at))
		require.True(t, ok)
		require.Equal(t, each.cell, cell, each.why)
	}
	_, ok := c.Of(value.Number(3))
	require.False(t, ok)
}

func TestCellsWhereAComparisonHolds(t *testing.T) {
	c := lengthCells(4, 6)
	for _, each := range []struct {
		op     string
		values []value.Value
		want   []int
	}{
		{"<", []value.Value{inches(4)}, []int{0}}, {"<=", []value.Value{inches(4)}, []int{0, 1}},
		{">", []value.Value{inches(4)}, []int{2, 3, 4}}, {">=", []value.Value{inches(6)}, []int{3, 4}},
		{"==", []value.Value{inches(6)}, []int{3}}, {"!=", []value.Value{inches(6)}, []int{0, 1, 2, 4}},
		{"in", []value.Value{inches(4), inches(6)}, []int{1, 3}},
	} {
		in, ok := c.Where(each.op, each.values)
		require.True(t, ok, each.op)
		require.Equal(t, each.want, in.list(), each.op)
	}
	for _, op := range []string{"<", "==", "!=", "known", "?"} {
		_, ok := c.Where(op, []value.Value{inches(5)})
		require.False(t, ok, "%s of a value that is no point cannot be told", op)
	}
}

func TestCellsOfWordsTextsAndLists(t *testing.T) {
	a, b := &value.Word{Vocabulary: "v", Name: "a"}, &value.Word{Vocabulary: "v", Name: "b"}
	words := New("v", []*value.Word{a, b})
	require.False(t, words.Split(value.OfWord(a)))
	in, ok := words.Where("!=", []value.Value{value.OfWord(a)})
	require.True(t, ok)
	require.Equal(t, []int{1}, in.list())

	texts := New(value.TextKind, nil)
	require.True(t, texts.Split(value.Text("x")))
	cell, ok := texts.Of(value.Text("y"))
	require.True(t, ok)
	require.Equal(t, 1, cell, "any other text")
	_, one := texts.Single(cell)
	require.False(t, one)

	lists := New(value.ListOf(value.NumberKind), nil)
	require.Equal(t, 1, lists.Count())
	_, ok = lists.Where("==", []value.Value{value.List(value.NumberKind, nil)})
	require.False(t, ok, "lists are not told apart")
}

// A name that is handed on is split at least as finely as what takes it.
func TestCarriedCells(t *testing.T) {
	source, target := lengthCells(2, 4, 6), lengthCells(4)
	for cell := range source.Count() {
		to, ok := cellWithin(source, cell, target)
		require.True(t, ok)
		want := map[int]int{0: 0, 1: 0, 2: 0, 3: 1, 4: 2, 5: 2, 6: 2}[cell]
		require.Equal(t, want, to, "cell %d, %s", cell, source.Says(cell))
	}
	require.Equal(t, []int{4, 5, 6}, Carried(source, target, One(2)).list())
	unsplit := lengthCells()
	to, ok := cellWithin(unsplit, 0, lengthCells())
	require.True(t, ok)
	require.Zero(t, to)
}

func TestCellsReach(t *testing.T) {
	c := lengthCells(0)
	require.False(t, c.Reaches(0, 0, 10), "nothing lies below 0")
	require.True(t, c.Reaches(1, 0, 10))
	require.True(t, c.Reaches(2, 0, 10))
	require.False(t, c.Reaches(1, 1e-9, 10))
}

func TestSet(t *testing.T) {
	s := First(70).Without(First(65))
	require.Equal(t, []int{65, 66, 67, 68, 69}, s.list())
	require.Equal(t, 5, s.Count())
	require.True(t, s.And(First(65)).Empty())
}
