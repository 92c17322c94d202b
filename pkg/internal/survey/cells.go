package survey

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// cells splits the values of one name at every value that anything compares it
// with, so that all values in a cell are alike to every condition. Numbers and
// quantities are split into the compared values themselves and the open
// stretches between them, words and yes-or-no into one cell each, texts into
// those compared and one cell for every other text. A kind with no order and no
// closed list has one cell.
//
// Numbers and quantities are the same within the tolerance of
// [quantity.Compare], here as in the rules: the cell of a compared value is as
// wide as that.
type cells struct {
	kind   value.Kind
	points []value.Value // in rising order for numbers and quantities
	shape  shape
}

type shape uint8

const (
	whole    shape = iota // one cell
	listed                // a cell for each point
	listedOr              // a cell for each point, and one for anything else
	ordered               // a cell below, at and above each point
)

// shapeOf returns how the values of a kind are split.
func shapeOf(kind value.Kind, words []*value.Word) shape {
	switch {
	case kind == value.NumberKind:
		return ordered
	case kind == value.BoolKind || len(words) > 0:
		return listed
	case kind == value.TextKind:
		return listedOr
	}
	if _, isDimension := quantity.DimensionNamed(string(kind)); isDimension {
		return ordered
	}
	return whole
}

func newCells(kind value.Kind, words []*value.Word) *cells {
	c := &cells{kind: kind, shape: shapeOf(kind, words)}
	switch {
	case kind == value.BoolKind:
		c.points = []value.Value{value.Bool(false), value.Bool(true)}
	case c.shape == listed:
		for _, w := range words {
			c.points = append(c.points, value.OfWord(w))
		}
	}
	return c
}

// split adds a point, and tells whether it was new.
func (c *cells) split(at value.Value) bool {
	if at.Kind() != c.kind || c.shape == whole || c.shape == listed {
		return false
	}
	i, found := slices.BinarySearchFunc(c.points, at, order)
	if c.shape == listedOr {
		i, found = len(c.points), slices.ContainsFunc(c.points, at.Equal)
	}
	if found {
		return false
	}
	c.points = slices.Insert(c.points, i, at)
	return true
}

// order compares numbers, or quantities of one dimension, as the rules do.
func order(a, b value.Value) int {
	found, _ := value.Compare(a, b)
	return found
}

// count is how many cells there are.
func (c *cells) count() int {
	switch c.shape {
	case listed:
		return len(c.points)
	case listedOr:
		return len(c.points) + 1
	case ordered:
		return 2*len(c.points) + 1
	}
	return 1
}

// of returns the cell that a value lies in, and false for a value of another kind.
func (c *cells) of(v value.Value) (int, bool) {
	if v.Kind() != c.kind {
		return 0, false
	}
	switch c.shape {
	case ordered:
		i, at := slices.BinarySearchFunc(c.points, v, order)
		if at {
			return 2*i + 1, true
		}
		return 2 * i, true
	case listed, listedOr:
		i := slices.IndexFunc(c.points, v.Equal)
		if i < 0 {
			return len(c.points), c.shape == listedOr
		}
		return i, true
	}
	return 0, true
}

// single returns the one value of a cell, and false for a cell of many.
func (c *cells) single(cell int) (value.Value, bool) {
	switch {
	case c.shape == ordered && cell%2 == 1:
		return c.points[cell/2], true
	case (c.shape == listed || c.shape == listedOr) && cell < len(c.points):
		return c.points[cell], true
	}
	return value.Value{}, false
}

// ends returns the points between which a stretch lies; ok is false at an end
// where it goes on for ever.
func (c *cells) ends(cell int) (low value.Value, lowOK bool, high value.Value, highOK bool) {
	if i := cell / 2; c.shape == ordered && cell%2 == 0 {
		if i > 0 {
			low, lowOK = c.points[i-1], true
		}
		if i < len(c.points) {
			high, highOK = c.points[i], true
		}
	}
	return low, lowOK, high, highOK
}

// all returns every cell.
func (c *cells) all() set { return firstCells(c.count()) }

// where returns the cells in which a comparison holds. ok is false for one that
// the cells cannot tell.
func (c *cells) where(op string, values []value.Value) (out set, ok bool) {
	for cell := range c.count() {
		holds, ok := c.holds(cell, op, values)
		if !ok {
			return set{}, false
		}
		if holds {
			out = out.with(cell)
		}
	}
	return out, true
}

func (c *cells) holds(cell int, op string, values []value.Value) (holds, ok bool) {
	switch op {
	case "==", "in":
		for _, v := range values {
			at, inside := c.of(v)
			if _, isOne := c.single(at); !inside || !isOne {
				return false, false
			}
			if at == cell {
				holds = true
			}
		}
		return holds, true
	case "!=":
		holds, ok = c.holds(cell, "==", values)
		return !holds, ok
	}
	if c.shape != ordered || len(values) != 1 {
		return false, false
	}
	at, inside := c.of(values[0])
	if !inside || at%2 == 0 {
		return false, false
	}
	switch op {
	case "<":
		return cell < at, true
	case "<=":
		return cell <= at, true
	case ">":
		return cell > at, true
	case ">=":
		return cell >= at, true
	}
	return false, false
}

// says tells in words which values lie in a cell.
func (c *cells) says(cell int) string {
	if v, one := c.single(cell); one {
		return valueText(v)
	}
	switch c.shape {
	case listedOr:
		return "any other text"
	case ordered:
		low, lowOK, high, highOK := c.ends(cell)
		switch {
		case lowOK && highOK:
			return fmt.Sprintf("between %s and %s", valueText(low), valueText(high))
		case lowOK:
			return "above " + valueText(low)
		case highOK:
			return "below " + valueText(high)
		}
	}
	return "any"
}

// valueText writes a value as the rule language would, where it can.
func valueText(v value.Value) string {
	if w, ok := v.Word(); ok {
		return w.Name
	}
	if s, ok := v.PlainText(); ok {
		return fmt.Sprintf("%q", s)
	}
	return v.Text(quantity.US)
}
