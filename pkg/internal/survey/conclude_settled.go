package survey

import (
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
	type piece struct {
		named Named
		set   cells.Node
	}
	var pieces []piece
	if s.refusal == nil && (s.decision == nil || !c.q.eye.early[s.name]) {
		for _, r := range c.q.m.book.Refusals() {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return c.q.m.d.Not(c.q.m.condition(r.When())) }); ok {
				pieces = append(pieces, piece{Named{"not refused by " + r.ID, r.Place}, n})
			}
		}
	}
	for _, cond := range conditions {
		for _, p := range topParts(cond) {
			if n, ok := cells.Guarded(cells.Always, func() cells.Node { return c.q.m.tree(p.part) }); ok {
				pieces = append(pieces, piece{p.named(c.q.m.book), n})
			}
		}
	}
	empty := func(ps []piece) bool {
		n, ok := cells.Guarded(cells.Always, func() cells.Node {
			out := c.q.m.d.And(c.q.domain, c.q.settingsStand())
			for _, p := range ps {
				out = c.q.m.d.And(out, p.set)
			}
			return out
		})
		return ok && n == cells.Never
	}
	if !empty(pieces) {
		return nil
	}
	for i := 0; i < len(pieces); {
		if rest := slices.Delete(slices.Clone(pieces), i, i+1); empty(rest) {
			pieces = rest
		} else {
			i++
		}
	}
	var out []Named
	for _, p := range pieces {
		out = append(out, p.named)
	}
	return out
}

// topPart is a part of a condition that must hold for it to hold.
type topPart struct {
	condition *engine.Condition
	part      *logic.Tree
}

func topParts(c *engine.Condition) []topPart {
	if c == nil {
		return nil
	}
	root := c.Tree()
	if root.Op != logic.All {
		return []topPart{{c, root}}
	}
	var out []topPart
	for _, kid := range root.Parts {
		out = append(out, topPart{c, kid})
	}
	return out
}

func (p topPart) named(b *engine.Book) Named {
	return Named{p.part.Text(b.ClauseText), placeOf(p.condition, p.part)}
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
			c.unreached(a)
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

func (c *conclusion) unreached(a *aim) {
	u := Unreached{What: a.subject.what, Name: a.subject.name, Says: a.asks(), Place: a.subject.place, Jobs: c.s.ran, Aimed: a.tried}
	if a.subject.decision != nil && a.what == applies {
		r := ruleNamed(a.subject.decision.Rules[a.rule])
		u.Rule, u.Place = &r, r.Place
	}
	c.report.Unreached = append(c.report.Unreached, u)
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
		if u, ok := c.describe(v); ok {
			c.report.Unanalyzed = append(c.report.Unanalyzed, u)
		}
	}
	slices.SortStableFunc(c.report.Unanalyzed, func(a, b Unanalyzed) int { return a.Places[0].Compare(b.Places[0]) })
}

func (c *conclusion) describe(v variable) (Unanalyzed, bool) {
	m, from := c.q.m, strings.Join(v.reads, ", ")
	switch v.role {
	case clauseOpen:
		return Unanalyzed{m.book.ClauseText(v.clause), c.placesOf(v.clause), "it compares values calculated from " + from}, true
	case valueOpen:
		u := Unanalyzed{Text: v.name, Why: "it is calculated from " + from}
		if w, ok := m.worked[v.name]; ok {
			for _, clause := range w.clauses {
				u.Places = append(u.Places, c.placesOf(clause)...)
			}
			for _, check := range w.checks {
				u.Places = append(u.Places, check.Place)
			}
		}
		return u, len(u.Places) > 0
	case answerOpen:
		if t, ok := c.q.m.book.Term(v.name); ok {
			f, _ := c.q.m.book.TermFormula(t)
			return Unanalyzed{v.name + " = " + f.Text(), []diagnostic.Place{f.Place()}, "it is calculated from " + from}, true
		}
		d, _ := c.q.m.book.Decision(v.name)
		u := Unanalyzed{Why: "it is calculated from " + from}
		for _, rule := range v.rules {
			f := c.q.m.book.AnswerFormula(d.Rules[rule])
			u.Text = v.name + " = " + f.Text()
			u.Places = append(u.Places, f.Place())
		}
		return u, true
	}
	return Unanalyzed{}, false
}

// placesOf lists where a clause stands.
func (c *conclusion) placesOf(clause int) []diagnostic.Place {
	var out []diagnostic.Place
	for _, each := range conditions(c.q.m.book) {
		for _, at := range each.condition.Clauses() {
			if at.Index() == clause {
				out = append(out, at.Place)
			}
		}
	}
	slices.SortFunc(out, diagnostic.Place.Compare)
	return out
}
