package survey

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
)

// part is one thing that conditions ask about: the set of jobs in which it is so, or
// as in the finding's job, and the words that say it.
type part struct {
	set   cells.Node
	says  string
	place diagnostic.Place
}

func setsOf(parts []part) []cells.Node {
	var out []cells.Node
	for _, p := range parts {
		out = append(out, p.set)
	}
	return out
}

// where tells what matters about a finding's job: the cells of the inputs and
// worked-out values that the conditions of its subject ask about. It leaves out
// those that may be any others in a job that shows the finding; where the walk
// cannot tell which, it leaves out none.
func (c *conclusion) where(a *aim, job *Job) []string {
	if a == nil || job == nil || !a.walked {
		return nil
	}
	parts := c.q.partsOf(a.subject, job.seen)
	shows := func(parts []part) bool {
		return c.q.none(func() []cells.Node {
			return append(setsOf(parts), c.q.among(a.subject), c.q.m.d.Not(a.region))
		})
	}
	if shows(parts) {
		parts = fewest(parts, shows)
	}
	var out []string
	for _, p := range parts {
		out = append(out, p.says)
	}
	return out
}

// conditions lists the conditions of a subject.
func (s *subject) conditions() []*engine.Condition {
	out := []*engine.Condition{s.when}
	switch {
	case s.decision != nil:
		for _, r := range s.decision.Rules {
			out = append(out, r.When())
		}
	case s.check != nil:
		out = append(out, s.check.Holds())
	case s.promise != nil:
		out = append(out, s.promise.Always(), s.promise.Never())
	}
	return out
}

// partsOf returns what the conditions of a subject ask about in a job, each once.
func (q *asker) partsOf(s *subject, x *seen) []part {
	var names []string
	for _, condition := range s.conditions() {
		for _, clause := range condition.Clauses() {
			if c, ok := q.m.clauseComparison(clause.Index()); ok {
				names = append(names, c.Name)
			}
		}
	}
	var out []part
	for _, name := range unique(names) {
		if p, known := q.m.partOfName(name, x); known {
			out = append(out, p)
		}
	}
	return out
}

// partOfName is the part of a name or of a worked value.
func (m *model) partOfName(name string, x *seen) (part, bool) {
	cs, w := m.cells[name], m.worked[name]
	if cs == nil || cs.Count() > cells.Most {
		return part{}, false
	}
	text, has := name, "asked"
	v, known := x.calculated(name)
	if m.isInput(name) {
		has = "told"
	} else if w != nil {
		found, err := w.on(x.calculated)
		v, known, text = found, err == nil, w.text
	}
	cell, inside := cs.Of(v)
	if known = known && inside; !known {
		set, _ := cells.Guarded(cells.Always, func() cells.Node { return m.d.Not(m.known(name)) })
		return part{set: set, says: name + ": not " + has}, w == nil
	}
	set, _ := cells.Guarded(cells.Always, func() cells.Node { return m.name(name, cells.One(cell)) })
	switch {
	case w != nil && len(w.parts) == 2:
		text = w.parts[0] + []string{": less than ", ": the same as ", ": more than "}[cell] + w.parts[1]
	case cs.Count() == 1:
		text += ": " + has
	default:
		text += ": " + cs.Says(cell)
	}
	return part{set: set, says: text}, true
}
