package survey

import (
	"errors"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/value"
)

// values gives names their values; false for one that has none.
type values = func(name string) (value.Value, bool)

// calculated is something that is worked out of names: an answer, a term, a clause
// that makes no comparison, or a value that clauses and checks compare, such as
// greatest(soil.cbr), or the order of two values, which is below 0, 0 or above 0. A
// value that is compared stands among the names under its key and has cells as they
// do, so that all comparisons of it are told apart at the same points.
type calculated struct {
	key     string   // what reads the same is the same
	text    string   // as a report writes it
	parts   []string // the expression; of an order both
	reads   []string // the names it reads but for settings
	on      func(values) (value.Value, error)
	why     string             // it was left open, if not because it is calculated
	clauses []int              // that it is, or that compare it
	places  []diagnostic.Place // of what else is it, or compares it
}

// table is what a calculation comes to for each combination of single values of
// the names that it reads.
type table struct {
	comes   []cells.Node // the jobs in which it comes to each cell
	covered cells.Node   // those of any combination
}

// mostRows is how many combinations are worked out for one calculation.
const mostRows = 2000

// formula is the set of jobs in which an expression comes to a value in the
// cells of the target; it is asked only where the expression is worked out.
func (m *model) formula(f engine.Formula, owner string, target *cells.Cells, in cells.Set) cells.Node {
	all := target.All()
	switch in = in.And(all); {
	case in.Empty():
		return cells.Never
	case in == all:
		return cells.Always
	}
	if source, ok := m.cells[f.Text()]; ok && source.Kind() == target.Kind() && source.Count() <= cells.Most {
		return m.name(f.Text(), cells.Carried(source, target, in))
	}
	if c, ok := f.Comparison(); ok && target.Kind() == value.BoolKind {
		if is, ok := m.comparison(c); ok {
			return m.yesOrNo(is, in)
		}
	}
	c := &calculated{key: "answer " + owner + " " + f.Text(), text: owner + " = " + f.Text(), parts: []string{f.Text()}, reads: m.notSettings(f.Names()), on: f.On, places: []diagnostic.Place{f.Place()}}
	return m.calculated(c, owner, target, in)
}

// calculated is the set of jobs in which a calculation comes to a value in the
// cells. Where every name that it reads has a single value it is worked out;
// elsewhere it is left open.
func (m *model) calculated(f *calculated, owner string, target *cells.Cells, in cells.Set) cells.Node {
	if target.Count() > cells.Most {
		return m.d.In(m.open(f, leftOpen, owner, cells.New(value.NoKind, nil)), cells.One(0))
	}
	t := m.table(f, target)
	out := cells.Never
	for cell, when := range t.comes {
		if in.Has(cell) {
			out = m.d.Or(out, when)
		}
	}
	left := m.d.Not(t.covered)
	for _, name := range f.reads {
		if left == cells.Never {
			return out
		}
		if cs, ok := m.cells[name]; ok && cs.Count() <= cells.Most {
			left = m.d.And(left, m.name(name, cs.All()))
		}
	}
	if left == cells.Never {
		return out
	}
	return m.d.Or(out, m.d.And(m.d.Not(t.covered), m.d.In(m.open(f, leftOpen, owner, target), in)))
}

// open returns the variable of a calculation that is left open.
func (m *model) open(f *calculated, role role, owner string, target *cells.Cells) int {
	v, ok := m.openVar[f.key]
	if !ok {
		v = m.addVariable(variable{role, owner, target, f}, target.Count())
		m.openVar[f.key] = v
	}
	for _, at := range f.places {
		if of := m.variables[v].calculated; !slices.Contains(of.places, at) {
			of.places = append(of.places, at)
		}
	}
	return v
}

func (m *model) table(f *calculated, target *cells.Cells) *table {
	if t, ok := m.tables[f.key]; ok {
		return t
	}
	t := &table{comes: make([]cells.Node, target.Count())}
	m.tables[f.key] = t
	rows := 1
	for _, name := range f.reads {
		if rows *= len(m.singles(name)); rows > mostRows {
			return t
		}
	}
	m.fill(t, f, target, map[string]value.Value{}, cells.Always)
	return t
}

// singles returns the cells of a name that hold one value and that some job has.
func (m *model) singles(name string) []int {
	cs, ok := m.cells[name]
	if !ok || cs.Count() > cells.Most {
		return nil
	}
	var out []int
	for cell := range cs.Count() {
		if _, one := cs.Single(cell); one && m.name(name, cells.One(cell)) != cells.Never {
			out = append(out, cell)
		}
	}
	return out
}

// fill works out the rows below what is chosen for the first names. A
// combination whose calculation fails stays open.
func (m *model) fill(t *table, f *calculated, target *cells.Cells, chosen map[string]value.Value, when cells.Node) {
	if when == cells.Never {
		return
	}
	if len(chosen) < len(f.reads) {
		name := f.reads[len(chosen)]
		for _, cell := range m.singles(name) {
			chosen[name], _ = m.cells[name].Single(cell)
			m.fill(t, f, target, chosen, m.d.And(when, m.name(name, cells.One(cell))))
			delete(chosen, name)
		}
		return
	}
	v, err := f.on(func(name string) (value.Value, bool) { v, ok := chosen[name]; return v, ok })
	if err != nil {
		return
	}
	if cell, ok := target.Of(v); ok {
		t.comes[cell] = m.d.Or(t.comes[cell], when)
		t.covered = m.d.Or(t.covered, when)
	}
}

// turned tells how the right side of a comparison compares with the left.
var turned = map[string]string{"<": ">", "<=": ">=", ">": "<", ">=": "<=", "==": "==", "!=": "!="}

// clauseComparison returns the comparison that a clause makes; ok is false for a
// clause that makes none, or that no job changes.
func (m *model) clauseComparison(i int) (c engine.Comparison, ok bool) {
	if c, ok = m.book.ClauseComparison(i); ok {
		return c, true
	}
	if known, done := m.compares[i]; done {
		return known, known.Name != ""
	}
	if len(m.notSettings(m.book.ClauseNames(i))) > 0 {
		left, op, right, compares := m.book.ClauseSides(i)
		if compares {
			c, compares = m.sides(left, op, right)
		}
		if !compares {
			c = engine.Comparison{Name: m.clauseItself(i).key, Op: "==", Values: []value.Value{value.Bool(true)}}
		} else if w := m.worked[c.Name]; w != nil {
			w.clauses = append(w.clauses, i)
		}
	}
	m.compares[i] = c
	return c, c.Name != ""
}

// clauseItself is whether a clause holds, as a value that is worked out: for a clause that
// makes no comparison, or one of too many cells.
func (m *model) clauseItself(i int) *calculated {
	text := m.book.ClauseText(i)
	f := &calculated{key: "clause " + text, text: text, parts: []string{text}, reads: m.notSettings(m.book.ClauseNames(i)), why: "it compares values calculated from", clauses: []int{i},
		on: func(values values) (value.Value, error) {
			is, err := m.book.ClauseOn(i, values)
			return value.Bool(is), err
		}}
	if len(f.reads) > 0 && m.worked[f.key] == nil {
		m.cells[f.key], m.worked[f.key] = m.newCells(value.BoolKind), f
	}
	return f
}

// bound is how a value compares with the most, or the least, that it may be.
var bound = map[bool]string{true: "<=", false: ">="}

// checkComparison returns the comparison that a check makes.
func (m *model) checkComparison(c *engine.Check) (engine.Comparison, bool) {
	checked, limit, ok := m.book.CheckFormulas(c)
	if !ok {
		return engine.Comparison{}, false
	}
	out, ok := m.sides(checked, bound[c.AtMost], limit)
	if w := m.worked[out.Name]; ok && w != nil && !slices.Contains(w.places, c.Place) {
		w.places = append(w.places, c.Place)
	}
	return out, ok
}

// sides turns a comparison of two expressions into one of a single value with a
// fixed value. ok is false where values of their kind have no cells.
func (m *model) sides(left engine.Formula, op string, right engine.Formula) (c engine.Comparison, ok bool) {
	if _, fixed := m.constant(left); fixed {
		left, op, right = right, turned[op], left
	}
	of := &calculated{key: left.Text(), text: left.Text(), parts: []string{left.Text()}, reads: m.notSettings(left.Names()), on: left.On}
	kind := left.Kind()
	at, fixed := m.constant(right)
	if !fixed {
		if left.Text() > right.Text() {
			left, op, right = right, turned[op], left
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
			y, other := b.On(values)
			order, _ := x.Compare(y)
			return value.Number(float64(order)), errors.Join(err, other)
		}}
}
