package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
)

// where tells in which cells a finding's job lies, of those inputs and worked-out
// values that matter: as few as make every job in these cells one that may show
// it too.
func (c *conclusion) where(a *aim, job *Job) []string {
	if a == nil || job == nil || !a.walked {
		return nil
	}
	m := c.q.m
	at := job.seen.cells(m)
	for i, v := range m.variables {
		if at[i] < 0 {
			at[i] = job.seen.calculatedCell(m, v)
		}
	}
	way, ok := m.d.Cheapest(a.region, func(variable, cell int) float64 {
		switch at[variable] {
		case cell:
			return 0
		case -1:
			return 1e-6
		}
		return 1
	})
	if !ok {
		return nil
	}
	way = slices.DeleteFunc(way, func(s cells.Step) bool { return m.variables[s.Variable].role == settingClause })
	others, ok := cells.Guarded(cells.Always, func() cells.Node {
		return m.d.And(c.q.domain, c.q.settingsStand(), m.d.Not(a.region))
	})
	// shows reports whether every job in these cells may show it.
	shows := func(way []cells.Step) bool {
		rest, ok := cells.Guarded(cells.Always, func() cells.Node {
			out := others
			for _, s := range way {
				out = m.d.And(out, m.d.In(s.Variable, cells.One(s.Cell)))
			}
			return out
		})
		return ok && rest == cells.Never
	}
	if !ok || !shows(way) {
		return nil
	}
	for i := len(way) - 1; i >= 0; i-- {
		if fewer := slices.Delete(slices.Clone(way), i, i+1); shows(fewer) {
			way = fewer
		}
	}
	var out []string
	for _, s := range way {
		if text := m.says(m.variables[s.Variable], s.Cell); !slices.Contains(out, text) {
			out = append(out, text)
		}
	}
	return out
}

// says tells in words that a variable lies in a cell.
func (m *model) says(v variable, cell int) string {
	name := v.name
	switch w := m.worked[v.name]; {
	case v.role == inputCell && cell == m.notTold(v.name):
		return name + ": not told"
	case v.role == clauseOpen:
		name = m.book.ClauseText(v.clause)
	case w != nil && w.other != "":
		return w.text + []string{": less than ", ": the same as ", ": more than "}[cell] + w.other
	case v.cells.Count() == 1:
		return name + ": told"
	}
	return name + ": " + v.cells.Says(cell)
}
