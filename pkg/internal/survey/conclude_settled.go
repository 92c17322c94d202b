package survey

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/cells"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
)

// against finds parts of conditions that never hold together: as few as make a
// rule's condition hold for no job.
func (c *conclusion) against(s *subject, conditions ...*engine.Condition) []Named {
	m := c.q.m
	var parts []part
	for _, cond := range conditions {
		for _, p := range topParts(cond) {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return m.tree(p) }); ok {
				parts = append(parts, part{n, p.Text(m.book.ClauseText), placeOf(cond, p)})
			}
		}
	}
	slices.Reverse(parts) // the last that is left out stands first
	if s.refusal == nil && (s.decision == nil || !c.q.w.early[s.name]) {
		for _, r := range slices.Backward(m.book.Refusals()) {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return m.d.Not(m.condition(r.When())) }); ok {
				parts = append(parts, part{n, "not refused by " + r.ID, r.Place})
			}
		}
	}
	never := func(parts []part) bool { return c.q.none(func() []cells.Node { return setsOf(parts) }) }
	if !never(parts) {
		return nil
	}
	var out []Named
	for _, p := range slices.Backward(fewest(parts, never)) {
		out = append(out, Named{p.says, p.place})
	}
	return out
}

// topParts are the parts of a condition that must each hold for it to hold.
func topParts(c *engine.Condition) []*logic.Tree {
	switch {
	case c == nil:
		return nil
	case c.Tree().Op != logic.All:
		return []*logic.Tree{c.Tree()}
	}
	return c.Tree().Parts
}

// placeOf returns where the first clause of a part stands.
func placeOf(c *engine.Condition, p *logic.Tree) diagnostic.Place {
	for p.Op != logic.Clause && len(p.Parts) > 0 {
		p = p.Parts[0]
	}
	for _, at := range c.Clauses() {
		if at.Index() == p.Clause {
			return at.Place
		}
	}
	return c.Place()
}

// settle tells how far the questions about a subject are settled, and lists
// what was not reached.
func (c *conclusion) settle(s *subject) {
	out := Settled{What: s.what, Name: s.name, Chapter: s.chapter, Place: s.place, Exactly: true}
	for _, a := range s.aims {
		if a.what == holds {
			continue
		}
		how := Searched
		switch {
		case a.proven():
			how = Proven
		case a.hits > 0:
			how = Shown
		}
		out.Points = append(out.Points, Point{a.asks(), how})
		c.report.Questions[how]++
		if how == Searched {
			out.Exactly = false
			if c.report.Questions[Searched] == 1 || a.tried < c.report.Aimed {
				c.report.Aimed = a.tried
			}
		}
	}
	c.report.Settled = append(c.report.Settled, out)
}

// asks tells what an aim looks for.
func (a *aim) asks() string {
	d := a.subject.decision
	switch a.what {
	case noAnswer:
		return "a job without an answer"
	case twoAnswers:
		return fmt.Sprintf("a job for which %s and %s answer differently", d.Rules[a.rule].ID, d.Rules[a.other].ID)
	case applies:
		switch {
		case d == nil:
			return "a job to which it applies"
		case d.Take == rulebook.Largest || d.Take == rulebook.Smallest:
			return "a job for which " + d.Rules[a.rule].ID + " governs"
		}
		return "a job for which " + d.Rules[a.rule].ID + " answers"
	case lapses:
		return "a job to which it does not apply"
	case fails:
		return "a job that fails it"
	case passes:
		return "a job that meets it"
	case broken:
		return "a section that breaks it"
	}
	return "a job in which its condition holds"
}

// unanalyzed lists what the walk left open in the conditions of the scope.
func (c *conclusion) unanalyzed() {
	open := map[int]bool{}
	for _, s := range c.scope.subjects {
		for _, a := range s.aims {
			if !a.walked {
				c.report.Unanalyzed = append(c.report.Unanalyzed, Unanalyzed{Text: s.what + " " + s.name + ": " + a.asks(),
					Places: []diagnostic.Place{s.place}, Why: "there are too many cells to walk"})
			}
			for _, v := range c.q.m.d.Support(a.region) {
				open[v] = true
			}
		}
	}
	for i, v := range c.q.m.variables {
		if !open[i] {
			continue
		}
		if u, ok := c.q.m.describe(v); ok {
			c.report.Unanalyzed = append(c.report.Unanalyzed, u)
		}
	}
	slices.SortStableFunc(c.report.Unanalyzed, func(a, b Unanalyzed) int { return a.Places[0].Compare(b.Places[0]) })
}

// describe tells what was left open, and where it stands.
func (m *model) describe(v variable) (Unanalyzed, bool) {
	if v.role != leftOpen {
		return Unanalyzed{}, false
	}
	u := Unanalyzed{v.text, slices.Clone(v.places), cmp.Or(v.why, "it is calculated from") + " " + strings.Join(v.reads, ", ")}
	for _, clause := range v.clauses {
		u.Places = append(u.Places, m.places[clause]...)
	}
	slices.SortFunc(u.Places, diagnostic.Place.Compare)
	return u, len(u.Places) > 0
}
