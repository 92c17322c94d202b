package survey

import (
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/value"
)

// calculated is something that is worked out of names: an answer, a term, a
// clause.
type calculated struct {
	key   string   // what reads the same is the same
	reads []string // the names it reads but for settings
	on    func(values func(string) (value.Value, bool)) (value.Value, error)
}

// table is what a calculation comes to for each combination of single values of
// the names that it reads.
type table struct {
	rows    []row
	covered node // the jobs that some row is about
}

type row struct {
	when node
	cell int
}

// mostRows is how many combinations are worked out for one calculation.
const mostRows = 2000

// formula is the set of jobs in which an expression comes to a value in the
// cells of the target; it is asked only where the expression is worked out.
func (m *model) formula(f engine.Formula, owner variable, target *cells, in set) node {
	all := target.all()
	switch in = in.and(all); {
	case in.empty():
		return never
	case in == all:
		return always
	}
	if source, ok := m.cells[f.Text()]; ok && source.kind == target.kind && source.count() <= mostCells {
		return m.name(f.Text(), carried(source, target, in))
	}
	if c, ok := f.Comparison(); ok && target.kind == value.BoolKind {
		if is, ok := m.comparison(c); ok {
			if in.has(1) {
				return is
			}
			return m.d.not(is)
		}
	}
	return m.calculated(calculated{key: "answer " + owner.name + " " + f.Text(), reads: m.notSettings(f.Names()), on: f.On}, owner, target, in)
}

// carried returns the cells of the source whose values lie in cells of the target.
// The source is split wherever the target is.
func carried(source, target *cells, in set) set {
	var out set
	for cell := range source.count() {
		if to, ok := cellWithin(source, cell, target); ok && in.has(to) {
			out = out.with(cell)
		}
	}
	return out
}

// cellWithin finds the cell of the target in which a cell of the source lies.
func cellWithin(source *cells, cell int, target *cells) (int, bool) {
	if v, one := source.single(cell); one {
		return target.of(v)
	}
	switch source.shape {
	case listedOr:
		return len(target.points), true
	case ordered:
		low, lowOK, high, highOK := source.ends(cell)
		switch {
		case lowOK:
			at, ok := target.of(low)
			return (at + 1) / 2 * 2, ok // the stretch above a point, or the one it lies in
		case highOK:
			at, ok := target.of(high)
			return at / 2 * 2, ok
		}
	}
	return 0, true
}

// calculated is the set of jobs in which a calculation comes to a value in the
// cells. Where every name that it reads has a single value it is worked out;
// elsewhere it is left open.
func (m *model) calculated(f calculated, owner variable, target *cells, in set) node {
	if target.count() > mostCells {
		return m.d.in(m.open(f, owner, newCells(value.NoKind, nil)), oneCell(0))
	}
	t := m.table(f, target)
	out := never
	for _, r := range t.rows {
		if in.has(r.cell) {
			out = m.d.or(out, r.when)
		}
	}
	left := m.d.not(t.covered)
	for _, name := range f.reads {
		if left == never {
			return out
		}
		if cs, ok := m.cells[name]; ok && cs.count() <= mostCells {
			left = m.d.and(left, m.name(name, cs.all()))
		}
	}
	if left == never {
		return out
	}
	return m.d.or(out, m.d.and(m.d.not(t.covered), m.d.in(m.open(f, owner, target), in)))
}

// open returns the variable of a calculation that is left open.
func (m *model) open(f calculated, owner variable, target *cells) int {
	v, ok := m.openVar[f.key]
	if !ok {
		owner.cells, owner.reads = target, f.reads
		v = m.addVariable(owner, target.count())
		m.openVar[f.key] = v
		return v
	}
	for _, rule := range owner.rules {
		m.variables[v].addRule(rule)
	}
	return v
}

func (v *variable) addRule(rule int) {
	for _, r := range v.rules {
		if r == rule {
			return
		}
	}
	v.rules = append(v.rules, rule)
}

func (m *model) table(f calculated, target *cells) *table {
	if t, ok := m.tables[f.key]; ok {
		return t
	}
	t := &table{}
	m.tables[f.key] = t
	rows := 1
	for _, name := range f.reads {
		singles := m.singles(name)
		if rows *= len(singles); rows == 0 || rows > mostRows {
			return t
		}
	}
	m.fill(t, f, target, map[string]value.Value{}, always)
	return t
}

// singles returns the cells of a name that hold one value and that some job has.
func (m *model) singles(name string) []int {
	cs, ok := m.cells[name]
	if !ok || cs.count() > mostCells {
		return nil
	}
	var out []int
	for cell := range cs.count() {
		if _, one := cs.single(cell); one && m.name(name, oneCell(cell)) != never {
			out = append(out, cell)
		}
	}
	return out
}

// fill works out the rows below what is chosen for the first names. A
// combination whose calculation fails stays open.
func (m *model) fill(t *table, f calculated, target *cells, chosen map[string]value.Value, when node) {
	if when == never {
		return
	}
	if len(chosen) < len(f.reads) {
		name := f.reads[len(chosen)]
		for _, cell := range m.singles(name) {
			chosen[name], _ = m.cells[name].single(cell)
			m.fill(t, f, target, chosen, m.d.and(when, m.name(name, oneCell(cell))))
			delete(chosen, name)
		}
		return
	}
	v, err := f.on(func(name string) (value.Value, bool) { v, ok := chosen[name]; return v, ok })
	if err != nil {
		return
	}
	if cell, ok := target.of(v); ok {
		t.rows = append(t.rows, row{when, cell})
		t.covered = m.d.or(t.covered, when)
	}
}
