package survey

import (
	"math"
	"slices"
)

// possible is the set of abstract jobs left when those are taken out that
// package site refuses: values that no job may tell, and values that contradict
// each other. It takes out no job that the site would take; that is tested.
func (m *model) possible(k *desk) node {
	parts := []node{m.bounded(k), m.related("soil.plasticity_index", "soil.liquid_limit", "soil.plastic_limit"),
		m.needs("soil.liquid_limit_ratio", "soil.liquid_limit_oven_dried", "soil.liquid_limit"),
		m.notBoth(m.told("traffic.trucks_per_day"), m.told("traffic.trucks_over_life")),
		m.notBoth(m.told("traffic.esal_per_day"), m.told("traffic.esal_over_life")),
		m.notBoth(m.yes("soil.nonplastic"), m.told("soil.liquid_limit")),
		m.notBoth(m.yes("soil.nonplastic"), m.told("soil.plastic_limit")),
		m.notBoth(m.yes("frost.frost_free"), m.aboveZero("frost.freezing_index")),
		m.notBoth(m.yes("frost.frost_free"), m.aboveZero("frost.depth")),
		m.notBoth(m.no("soil.organic"), m.words("soil.word", "peat")),
		m.notBoth(m.no("soil.organic"), m.words("soil.uscs", "OL", "OH", "PT")),
	}
	for _, in := range m.book.Inputs() {
		if in.Required {
			parts = append(parts, m.told(in.Name))
		}
	}
	return m.d.and(parts...)
}

// declared reports whether the book was opened with an input; a set about one that
// was not holds every job.
func (m *model) declared(name string) bool { return m.isInput(name) }

func (m *model) told(name string) node {
	if !m.declared(name) {
		return never
	}
	return m.known(name)
}

func (m *model) notBoth(a, b node) node { return m.d.not(m.d.and(a, b)) }

func (m *model) yes(name string) node { return m.flag(name, 1) }
func (m *model) no(name string) node  { return m.flag(name, 0) }

func (m *model) flag(name string, cell int) node {
	if !m.declared(name) {
		return never
	}
	return m.name(name, oneCell(cell))
}

func (m *model) words(name string, words ...string) node {
	if !m.declared(name) {
		return never
	}
	var in set
	for cell := range m.cells[name].count() {
		v, _ := m.cells[name].single(cell)
		if w, ok := v.Word(); ok && slices.Contains(words, w.Go) {
			in = in.with(cell)
		}
	}
	return m.name(name, in)
}

// aboveZero is the set of jobs in which a measured input surely is above zero.
func (m *model) aboveZero(name string) node {
	if !m.declared(name) {
		return never
	}
	var in set
	for cell := range m.cells[name].count() {
		low, lowOK, _, _ := m.cells[name].ends(cell)
		v, one := m.cells[name].single(cell)
		if one && numberOf(v) > 0 || lowOK && numberOf(low) >= 0 {
			in = in.with(cell)
		}
	}
	return m.name(name, in)
}

// related says that a worked-out input is there where both its sources are, and
// there alone.
func (m *model) related(name, a, b string) node {
	if !m.declared(name) || !m.declared(a) || !m.declared(b) {
		return always
	}
	both, here := m.d.and(m.told(a), m.told(b)), m.told(name)
	return m.d.or(m.d.and(both, here), m.d.and(m.d.not(both), m.d.not(here)))
}

// needs says that a worked-out input is there only where both its sources are.
func (m *model) needs(name, a, b string) node {
	if !m.declared(name) || !m.declared(a) || !m.declared(b) {
		return always
	}
	return m.d.or(m.d.not(m.told(name)), m.d.and(m.told(a), m.told(b)))
}

// bounded leaves out the cells of which no job may tell a value.
func (m *model) bounded(k *desk) node {
	out := always
	for _, input := range m.book.Inputs() {
		name := input.Name
		low, high, ok := m.limitsOf(k, name)
		if !ok || m.cells[name].shape != ordered || m.cells[name].count() > mostCells {
			continue
		}
		in := oneCell(m.notTold(name))
		for cell := range m.cells[name].count() {
			if m.cells[name].reaches(cell, low, high) {
				in = in.with(cell)
			}
		}
		if in.count() <= m.cells[name].count() {
			out = m.d.and(out, m.d.in(m.input(name), in))
		}
	}
	return out
}

// limitsOf returns the least and most that an input can be.
func (m *model) limitsOf(k *desk, name string) (low, high float64, ok bool) {
	at := name
	if sieve, isSieve := sieveOf(name); isSieve {
		at = sieve
	}
	if i, isEntry := k.index[at]; isEntry && k.entries[i].form == numeric {
		return k.low[i], k.high[i], true
	}
	if name == "soil.plasticity_index" || name == "soil.liquid_limit_ratio" {
		return 0, math.Inf(1), true
	}
	return 0, 0, false
}

// reaches reports whether a cell has a value from low to high.
func (c *cells) reaches(cell int, low, high float64) bool {
	if v, one := c.single(cell); one {
		return numberOf(v) >= low && numberOf(v) <= high
	}
	from, fromOK, to, toOK := c.ends(cell)
	return !(fromOK && numberOf(from) >= high) && !(toOK && numberOf(to) <= low)
}
