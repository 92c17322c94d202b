// Package cells splits the values of names where rules tell them apart, and keeps
// sets of jobs by the cells in which the values of a job lie.
package cells

import (
	"fmt"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/value"
)

// Cells splits the values of one name at every value that anything compares it
// with, so that all values in a cell are alike to every condition. Numbers and
// quantities are split into the compared values themselves and the open
// stretches between them, words and yes-or-no into one cell each, texts into
// those compared and one cell for every other text. A kind with no order and no
// closed list has one cell.
//
// Numbers and quantities are the same within the tolerance of
// [quantity.Quantity.Compare], here as in the rules: the cell of a compared value is as
// wide as that.
type Cells struct {
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

// New returns the cells of a kind: one for each word, or one that [Cells.Split]
// splits.
func New(kind value.Kind, words []*value.Word) *Cells {
	c := &Cells{kind: kind}
	switch _, isDimension := quantity.DimensionNamed(string(kind)); {
	case kind == value.BoolKind:
		c.shape, c.points = listed, []value.Value{value.Bool(false), value.Bool(true)}
	case len(words) > 0:
		c.shape = listed
		for _, w := range words {
			c.points = append(c.points, value.OfWord(w))
		}
	case kind == value.TextKind:
		c.shape = listedOr
	case kind == value.NumberKind || isDimension:
		c.shape = ordered
	}
	return c
}

// Split adds a point, and reports whether it was new.
func (c *Cells) Split(at value.Value) bool {
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

// SplitAs splits at every point of other cells of the same kind, and reports
// whether any was new.
func (c *Cells) SplitAs(other *Cells) bool {
	more := false
	for _, p := range other.points {
		more = c.Split(p) || more
	}
	return more
}

// Kind is the kind of the values.
func (c *Cells) Kind() value.Kind { return c.kind }

// Ordered reports whether the values are numbers or quantities, in rising cells.
func (c *Cells) Ordered() bool { return c.shape == ordered }

// Whole reports whether there is one cell, whatever the values are.
func (c *Cells) Whole() bool { return c.shape == whole }

// order compares numbers, or quantities of one dimension, as the rules do.
func order(a, b value.Value) int {
	found, _ := a.Compare(b)
	return found
}

// Count is how many cells there are.
func (c *Cells) Count() int {
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

// Of returns the cell that a value lies in, and false for a value of another kind.
func (c *Cells) Of(v value.Value) (int, bool) {
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

// Single returns the one value of a cell, and false for a cell of many.
func (c *Cells) Single(cell int) (value.Value, bool) {
	switch {
	case c.shape == ordered && cell%2 == 1:
		return c.points[cell/2], true
	case c.shape != ordered && cell < len(c.points):
		return c.points[cell], true
	}
	return value.Value{}, false
}

// Ends returns the points between which a stretch lies; ok is false at an end
// where it goes on for ever.
func (c *Cells) Ends(cell int) (low value.Value, lowOK bool, high value.Value, highOK bool) {
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

// All returns every cell.
func (c *Cells) All() Set { return First(c.Count()) }

// Where returns the cells in which a comparison holds. ok is false for one that
// the cells cannot tell.
func (c *Cells) Where(op string, values []value.Value) (out Set, ok bool) {
	for cell := range c.Count() {
		holds, ok := c.holds(cell, op, values)
		if !ok {
			return Set{}, false
		}
		if holds {
			out = out.With(cell)
		}
	}
	return out, true
}

func (c *Cells) holds(cell int, op string, values []value.Value) (holds, ok bool) {
	switch op {
	case "==", "in":
		has, one := c.Single(cell)
		for _, v := range values {
			at, inside := c.Of(v)
			if _, isOne := c.Single(at); !inside || !isOne {
				return false, false
			}
			holds = holds || one && has.Is(v)
		}
		return holds, true
	case "!=":
		holds, ok = c.holds(cell, "==", values)
		return !holds, ok
	}
	if c.shape != ordered || len(values) != 1 {
		return false, false
	}
	at, inside := c.Of(values[0])
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

// Says tells in words which values lie in a cell.
func (c *Cells) Says(cell int) string {
	if v, one := c.Single(cell); one {
		return Text(v)
	}
	switch c.shape {
	case listedOr:
		return "any other text"
	case ordered:
		low, lowOK, high, highOK := c.Ends(cell)
		switch {
		case lowOK && highOK && Text(low) == Text(high): // nearer than is printed
			return "about " + Text(low)
		case lowOK && highOK:
			return fmt.Sprintf("between %s and %s", Text(low), Text(high))
		case lowOK:
			return "above " + Text(low)
		case highOK:
			return "below " + Text(high)
		}
	}
	return "any"
}

// Text writes a value as the rule language would, where it can.
func Text(v value.Value) string {
	if w, ok := v.Word(); ok {
		return w.Name
	}
	if s, ok := v.PlainText(); ok {
		return fmt.Sprintf("%q", s)
	}
	return v.Text(quantity.US)
}

// Carried returns the cells of the source whose values lie in cells of the target.
// The source is split wherever the target is.
func Carried(source, target *Cells, in Set) Set {
	var out Set
	for cell := range source.Count() {
		if to, ok := cellWithin(source, cell, target); ok && in.Has(to) {
			out = out.With(cell)
		}
	}
	return out
}

// cellWithin finds the cell of the target in which a cell of the source lies.
func cellWithin(source *Cells, cell int, target *Cells) (int, bool) {
	if v, one := source.Single(cell); one {
		return target.Of(v)
	}
	switch source.shape {
	case listedOr:
		return len(target.points), true
	case ordered:
		if low, lowOK, _, _ := source.Ends(cell); lowOK {
			at, ok := target.Of(low)
			return (at + 1) / 2 * 2, ok // the stretch above a point, or the one it lies in
		}
	}
	return 0, true // the target has no point below the first of the source
}

// Reaches reports whether a cell has a value from low to high; a cell of what has no order
// always does.
func (c *Cells) Reaches(cell int, low, high float64) bool {
	if !c.Ordered() {
		return true
	}
	if v, one := c.Single(cell); one {
		return NumberOf(v) >= low && NumberOf(v) <= high
	}
	from, fromOK, to, toOK := c.Ends(cell)
	return !(fromOK && NumberOf(from) >= high) && !(toOK && NumberOf(to) <= low)
}

// NumberOf returns a number, or a quantity in SI units.
func NumberOf(v value.Value) float64 { q, _ := v.Measure(); return q.SI }
