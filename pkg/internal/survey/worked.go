package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/value"
)

// turned returns how the right side of a comparison compares with the left.
func turned(op string) string {
	if other, turns := map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<="}[op]; turns {
		return other
	}
	return op
}

// clauseComparison returns the comparison that a clause makes; ok is false for a
// clause that makes none, or that no job changes.
func (m *model) clauseComparison(i int) (c engine.Comparison, ok bool) {
	if c, ok = m.book.ClauseComparison(i); ok {
		return c, true
	}
	if known, done := m.compares[i]; done {
		return known, known.Name != ""
	}
	left, op, right, ok := m.book.ClauseSides(i)
	if ok = ok && len(m.notSettings(m.book.ClauseNames(i))) > 0; ok {
		c, ok = m.sides(left, op, right)
	}
	if w := m.worked[c.Name]; ok && w != nil {
		w.clauses = append(w.clauses, i)
	}
	m.compares[i] = c
	return c, ok
}

// checkComparison returns the comparison that a check makes.
func (m *model) checkComparison(c *engine.Check) (engine.Comparison, bool) {
	checked, limit, ok := m.book.CheckFormulas(c)
	if !ok {
		return engine.Comparison{}, false
	}
	op := ">="
	if c.AtMost {
		op = "<="
	}
	out, ok := m.sides(checked, op, limit)
	if w := m.worked[out.Name]; ok && w != nil && !slices.Contains(w.places, c.Place) {
		w.places = append(w.places, c.Place)
	}
	return out, ok
}

// sides turns a comparison of two expressions into one of a single value with a
// fixed value. ok is false where values of their kind have no cells.
func (m *model) sides(left engine.Formula, op string, right engine.Formula) (c engine.Comparison, ok bool) {
	if _, fixed := m.constant(left); fixed {
		left, op, right = right, turned(op), left
	}
	of := &calculated{key: left.Text(), text: left.Text(), parts: []string{left.Text()}, reads: m.notSettings(left.Names()), on: left.On}
	kind := left.Kind()
	at, fixed := m.constant(right)
	if !fixed {
		if left.Text() > right.Text() {
			left, op, right = right, turned(op), left
		}
		if !m.newCells(kind).Ordered() {
			return engine.Comparison{}, false
		}
		of, kind, at = m.orderOf(left, right), value.NumberKind, value.Number(0)
	}
	if m.cells[of.key] == nil {
		cs := m.newCells(kind)
		if cs.Whole() {
			return engine.Comparison{}, false
		}
		m.cells[of.key], m.worked[of.key] = cs, of
	}
	return engine.Comparison{Name: of.key, Op: op, Values: []value.Value{at}}, true
}

// orderOf is below 0 where the first of two values is the smaller, 0 where they
// are the same, and above 0 where it is the larger.
func (m *model) orderOf(a, b engine.Formula) *calculated {
	text := a.Text() + " compared with " + b.Text()
	return &calculated{key: text, text: text, parts: []string{a.Text(), b.Text()}, reads: m.notSettings(append(a.Names(), b.Names()...)),
		on: func(values values) (value.Value, error) {
			x, err := a.On(values)
			if err != nil {
				return value.Value{}, err
			}
			y, err := b.On(values)
			if err != nil {
				return value.Value{}, err
			}
			order, _ := x.Compare(y)
			return value.Number(float64(order)), nil
		}}
}
