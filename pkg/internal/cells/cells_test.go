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
	require.False(t, c.Split(value.Number(3)), "a number is not a length")
	require.Equal(t, 5, c.Count())
	require.Equal(t, []int{0, 1, 2, 3, 4}, c.All().list())
	require.True(t, c.Ordered())
	require.False(t, c.Whole())
	for _, each := range []struct {
		name, why string
		at        float64
		cell      int
		says      string
		one       bool
	}{
		{"below", "less than the least point", 3, 0, "below 4 in", false},
		{"first", "at the first point", 4, 1, "4 in", true},
		{"nearly", "within the tolerance of a comparison", 4 + 1e-10, 1, "4 in", true},
		{"between", "between both points", 4.1, 2, "between 4 in and 6 in", false},
		{"second", "at the second point", 6, 3, "6 in", true},
		{"above", "more than the greatest point", 7, 4, "above 6 in", false},
	} {
		t.Run(each.name, func(t *testing.T) {
			cell, ok := c.Of(inches(each.at))
			require.True(t, ok)
			require.Equal(t, each.cell, cell, each.why)
			require.Equal(t, each.says, c.Says(cell))
			v, one := c.Single(cell)
			require.Equal(t, each.one, one)
			if one {
				require.Equal(t, each.says, v.Text(quantity.US))
			}
		})
	}
	_, ok := c.Of(value.Number(3))
	require.False(t, ok, "a value of another kind has no cell")
	require.Equal(t, "any", lengthCells().Says(0), "where nothing is compared all values are alike")
	require.Equal(t, "about 4 in", lengthCells(4, 4.001).Says(2), "a stretch whose ends are printed alike is not between them")
}

func TestEnds(t *testing.T) {
	c := lengthCells(4, 6)
	for _, each := range []struct {
		name, why     string
		cell          int
		low, high     float64
		lowOK, highOK bool
	}{
		{"below", "it has no least", 0, 0, 4, false, true},
		{"at a point", "a point is no stretch", 1, 0, 0, false, false},
		{"between", "between the points", 2, 4, 6, true, true},
		{"above", "it has no most", 4, 6, 0, true, false},
	} {
		t.Run(each.name, func(t *testing.T) {
			low, lowOK, high, highOK := c.Ends(each.cell)
			require.Equal(t, []bool{each.lowOK, each.highOK}, []bool{lowOK, highOK}, each.why)
			require.InDelta(t, quantity.Inches(each.low).Meters(), NumberOf(low), 1e-12)
			require.InDelta(t, quantity.Inches(each.high).Meters(), NumberOf(high), 1e-12)
		})
	}
}

func TestWhereAComparisonHolds(t *testing.T) {
	c := lengthCells(4, 6)
	for _, each := range []struct {
		name, why, op string
		values        []float64
		want          []int // nil where the cells cannot tell
	}{
		{"less", "the stretch before the point", "<", []float64{4}, []int{0}},
		{"at most", "and the point", "<=", []float64{4}, []int{0, 1}},
		{"more", "all behind the point", ">", []float64{4}, []int{2, 3, 4}},
		{"at least", "and the point", ">=", []float64{6}, []int{3, 4}},
		{"equal", "the point alone", "==", []float64{6}, []int{3}},
		{"not equal", "all but the point", "!=", []float64{6}, []int{0, 1, 2, 4}},
		{"in", "the points of a list", "in", []float64{4, 6}, []int{1, 3}},
		{"no point, less", "its cell holds more and less", "<", []float64{5}, nil},
		{"no point, equal", "its cell holds others too", "==", []float64{5}, nil},
		{"no point, not equal", "nor can the opposite be told", "!=", []float64{5}, nil},
		{"one of a list", "one of the values is no point", "in", []float64{4, 5}, nil},
		{"two values", "only a list has several", "<", []float64{4, 6}, nil},
		{"no comparison", "an operator that there is not", "?", []float64{4}, nil},
	} {
		t.Run(each.name, func(t *testing.T) {
			var values []value.Value
			for _, x := range each.values {
				values = append(values, inches(x))
			}
			in, ok := c.Where(each.op, values)
			require.Equal(t, each.want != nil, ok, each.why)
			require.Equal(t, each.want, in.list(), each.why)
		})
	}
	_, ok := c.Where("<", []value.Value{value.Number(4)})
	require.False(t, ok, "nor can a comparison with a value of another kind be told")
}

func TestCellsOfWordsTextsAndLists(t *testing.T) {
	a, b := &value.Word{Vocabulary: "v", Name: "a"}, &value.Word{Vocabulary: "v", Name: "b"}
	words := New("v", []*value.Word{a, b})
	require.Equal(t, value.Kind("v"), words.Kind())
	require.False(t, words.Split(value.OfWord(a)), "each word has a cell from the beginning")
	in, ok := words.Where("!=", []value.Value{value.OfWord(a)})
	require.True(t, ok)
	require.Equal(t, []int{1}, in.list())
	require.Equal(t, "b", words.Says(1))
	_, ok = words.Of(value.OfWord(&value.Word{Vocabulary: "v", Name: "c"}))
	require.False(t, ok, "a word that the vocabulary does not have")
	_, ok = words.Where("<", []value.Value{value.OfWord(a)})
	require.False(t, ok, "words have no order")

	yes := New(value.BoolKind, nil)
	cell, ok := yes.Of(value.Bool(true))
	require.True(t, ok)
	require.Equal(t, 1, cell)
	require.Equal(t, 2, yes.Count())

	texts := New(value.TextKind, nil)
	require.True(t, texts.Split(value.Text("x")))
	require.False(t, texts.Split(value.Text("x")))
	require.Equal(t, 2, texts.Count())
	cell, ok = texts.Of(value.Text("y"))
	require.True(t, ok)
	require.Equal(t, 1, cell)
	require.Equal(t, "any other text", texts.Says(cell))
	require.Equal(t, `"x"`, texts.Says(0))
	_, one := texts.Single(cell)
	require.False(t, one)
	in, ok = texts.Where("!=", []value.Value{value.Text("x")})
	require.True(t, ok)
	require.Equal(t, []int{1}, in.list())
	_, ok = texts.Where("==", []value.Value{value.Text("z")})
	require.False(t, ok, "a text that is no point")

	lists := New(value.ListOf(value.NumberKind), nil)
	require.Equal(t, 1, lists.Count())
	require.True(t, lists.Whole())
	require.False(t, lists.Split(value.List(value.NumberKind, nil)))
	_, ok = lists.Where("==", []value.Value{value.List(value.NumberKind, nil)})
	require.False(t, ok, "lists are not told apart")
}

func TestSplitAs(t *testing.T) {
	c := lengthCells(4)
	require.True(t, c.SplitAs(lengthCells(4, 6)))
	require.Equal(t, lengthCells(4, 6), c)
	require.False(t, c.SplitAs(lengthCells(6)), "nothing is new")
	numbers := New(value.NumberKind, nil)
	numbers.Split(value.Number(3))
	require.False(t, c.SplitAs(numbers), "of another kind")
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
	texts, some := New(value.TextKind, nil), New(value.TextKind, nil)
	texts.Split(value.Text("x"))
	texts.Split(value.Text("y"))
	some.Split(value.Text("y"))
	require.Equal(t, []int{1}, Carried(texts, some, One(0)).list(), "the text that both tell apart")
	require.Equal(t, []int{0, 2}, Carried(texts, some, One(1)).list(), "any other")
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
	require.False(t, c.Reaches(1, -10, -1e-9))
	inch := quantity.Inches(1).Meters()
	require.False(t, lengthCells(1).Reaches(2, 0, inch), "nothing above the most")
	require.True(t, lengthCells(1).Reaches(2, 0, inch*1.001))
	require.True(t, lengthCells(1).Reaches(0, inch*0.999, 10*inch))
	require.False(t, lengthCells(1).Reaches(0, inch, 10*inch), "nothing below the least")
	require.True(t, New(value.BoolKind, nil).Reaches(0, 1, 2), "a yes or no has no order")
}

func TestSet(t *testing.T) {
	s := First(70).Without(First(65))
	require.Equal(t, []int{65, 66, 67, 68, 69}, s.list())
	require.Equal(t, 5, s.Count())
	require.True(t, s.And(First(65)).Empty())
	require.False(t, s.And(First(66)).Empty())
	require.Equal(t, Most, First(Most+5).Count(), "there are no more cells")
	require.True(t, s.With(3).Has(3))
	require.False(t, s.Has(3), "a set is a value")
	require.Equal(t, []int{255}, One(255).list())
}
