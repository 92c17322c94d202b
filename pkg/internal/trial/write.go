package trial

import (
	"fmt"
	"strings"

	"example.com/groundrule/pkg/internal/page"
)

// Tell writes the report as text: what failed, the counts, and what the trials
// do not reach.
func (r *Report) Tell(p *page.Page) {
	for i := range r.Results {
		r.Results[i].tell(p)
	}
	p.Line(0, "%s", r.Summary())
	if r.Coverage != nil {
		p.Blank()
		r.Coverage.tell(p)
	}
}

// OK reports whether every trial passed.
func (r *Report) OK() bool { return r.Failed == 0 }

// Summary returns the counts in one line.
func (r *Report) Summary() string {
	n := len(r.Results)
	return fmt.Sprintf("%d %s: %d pass, %d fail", n, page.Noun(n, "trial"), r.Passed, r.Failed)
}

func (r *Result) tell(p *page.Page) {
	if len(r.Failures) == 0 {
		return
	}
	p.Line(0, "%s: %s fails", r.Place, r.Name)
	p.Line(2, "%s", r.Why)
	for _, f := range r.Failures {
		p.Line(2, "%s: %s", f.Place, f.What)
		p.Put(4, "was     ", f.Was)
		p.Put(4, "wanted  ", f.Wanted)
		switch {
		case f.Rule != "" && f.RulePlace.Line > 0:
			p.Put(4, "by      ", fmt.Sprintf("%s at %s", f.Rule, f.RulePlace))
		case f.Rule != "":
			p.Put(4, "by      ", f.Rule)
		}
		if f.Because != "" {
			p.Put(4, "because ", f.Because)
		}
	}
	p.Blank()
}

func (c *Coverage) tell(p *page.Page) {
	for _, line := range []struct {
		what  string
		share Share
	}{
		{"rules reached", c.RulesReached()},
		{"clauses seen true and false", c.ClausesSeen()},
		{"clauses seen to decide, true and false", c.ClausesCovered()},
	} {
		p.Verbatim(0, fmt.Sprintf("%-40s %4d of %4d, %5.1f %%", line.what, line.share.Of, line.share.Total, line.share.Percent()))
	}
	p.Blank()
	for i := range c.Rules {
		if r := &c.Rules[i]; !r.Reached() {
			beside := ""
			if r.Held > 0 {
				beside = fmt.Sprintf("; it holds %s, and another governs", times(r.Held))
			}
			p.Line(0, "%s: rule %s of %s never answers%s", r.Place, r.Rule, r.Decision, beside)
		}
	}
	for i := range c.Clauses {
		if one := &c.Clauses[i]; !one.Covered() {
			p.Line(0, "%s: %s: %s", one.Place, one.In, one.Text)
			p.Line(4, "%s", one.missing())
		}
	}
}

// missing says what the trials did not see of a clause.
func (c *ClauseCovered) missing() string {
	var parts []string
	for _, side := range []struct {
		is            string
		seen, decides int
	}{{"true", c.True, c.TrueDecides}, {"false", c.False, c.FalseDecides}} {
		switch {
		case side.seen == 0:
			parts = append(parts, "never "+side.is)
		case side.decides == 0:
			parts = append(parts, fmt.Sprintf("%s %s, but never decides", side.is, times(side.seen)))
		}
	}
	out := strings.Join(parts, "; ")
	if len(c.With) > 0 {
		out += "; asks the same as " + strings.Join(c.With, ", ")
	}
	return out
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}
