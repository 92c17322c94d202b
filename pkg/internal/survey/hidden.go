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
	return fewest(others, func(by []int) bool {
		return q.none(func() []cells.Node {
			out := []cells.Node{q.among(d), dm.holds[a.rule]}
			for _, other := range by {
				out = append(out, dm.escapes(a.rule, other))
			}
			return out
		})
	})
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
