package survey

import (
	"slices"

	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
)

// hiders finds the rules that hide or outdo a rule: as few as do so together,
// the earliest of them if there is a choice.
func (q *asker) hiders(a *aim) []int {
	d := a.subject.decision
	dm := q.m.decision(d)
	var others []int
	for other := range d.Rules {
		if other != a.rule && (other < a.rule || d.Take != rulebook.First) {
			others = append(others, other)
		}
	}
	hidden := func(by []int) bool {
		n, ok := cells.Guarded(cells.Always, func() cells.Node {
			out := q.m.d.And(q.among(d), q.domain, q.settingsStand(), dm.holds[a.rule])
			for _, other := range by {
				out = q.m.d.And(out, dm.escapes(a.rule, other))
			}
			return out
		})
		return ok && n == cells.Never
	}
	for i := len(others) - 1; i >= 0; i-- {
		if fewer := slices.Delete(slices.Clone(others), i, i+1); hidden(fewer) {
			others = fewer
		}
	}
	return others
}

// escapes is the set of abstract jobs in which another rule does not keep a
// rule's answer from being taken.
func (dm *decisionModel) escapes(rule, other int) cells.Node {
	d := dm.m.d
	if dm.d.Take == rulebook.First {
		return d.Not(dm.holds[other])
	}
	out := cells.Never
	for cell := range dm.cells.Count() {
		_, one := dm.cells.Single(cell)
		in := dm.cells.All().Without(dm.better(cell))
		if other < rule && one {
			in = in.Without(cells.One(cell))
		}
		out = d.Or(out, d.And(dm.comes(rule, cells.One(cell)), d.Or(d.Not(dm.holds[other]), dm.comes(other, in))))
	}
	return out
}

// askHidden asks for a job in which a rule that never answers holds, and one of
// those that hide it answers.
func (q *asker) askHidden(s *subject, a *aim) {
	d, rule := s.decision, a.rule
	a.by = q.hiders(a)
	shows := func(x *seen) bool {
		return x.held(d, rule) && slices.ContainsFunc(a.by, func(other int) bool { return x.chose(d, other) })
	}
	q.add(s, holds, rule, 0, shows, func() cells.Node { return q.m.d.And(q.among(d), q.m.decision(d).holds[rule]) })
}

func namesOf(d *engine.Decision, rules []int) []Named {
	var out []Named
	for _, r := range rules {
		out = append(out, ruleNamed(d.Rules[r]))
	}
	return out
}
