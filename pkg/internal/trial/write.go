package trial

import (
	"fmt"
	"io"
	"strings"
)

// Write writes the report as text: what failed, the counts, and what the trials
// do not reach. The error is the writer's.
func (r *Report) Write(w io.Writer) error {
	var b strings.Builder
	for i := range r.Results {
		r.Results[i].write(&b)
	}
	fmt.Fprintf(&b, "%d trials: %d pass, %d fail\n", len(r.Results), r.Passed, r.Failed)
	if r.Coverage != nil {
		b.WriteString("\n")
		r.Coverage.write(&b)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (r *Result) write(b *strings.Builder) {
	if len(r.Failures) == 0 {
		return
	}
	fmt.Fprintf(b, "%s: %s fails\n  %s\n", r.Place, r.Name, r.Why)
	for _, f := range r.Failures {
		fmt.Fprintf(b, "  %s: %s\n    was     %s\n    wanted  %s\n", f.Place, f.What, f.Was, f.Wanted)
		if f.Rule != "" {
			fmt.Fprintf(b, "    by      %s", f.Rule)
			if f.RulePlace.Line > 0 {
				fmt.Fprintf(b, " at %s", f.RulePlace)
			}
			b.WriteString("\n")
		}
		if f.Because != "" {
			fmt.Fprintf(b, "    because %s\n", f.Because)
		}
	}
	b.WriteString("\n")
}

func (c *Coverage) write(b *strings.Builder) {
	for _, line := range []struct {
		what  string
		share Share
	}{
		{"rules reached", c.RulesReached()},
		{"clauses seen true and false", c.ClausesSeen()},
		{"clauses seen to decide, true and false", c.ClausesCovered()},
	} {
		fmt.Fprintf(b, "%-40s %4d of %4d, %5.1f %%\n", line.what, line.share.Of, line.share.Total, line.share.Percent())
	}
	for i := range c.Rules {
		if r := &c.Rules[i]; !r.Reached() {
			fmt.Fprintf(b, "\n%s: rule %s of %s never answers", r.Place, r.Rule, r.Decision)
			if r.Held > 0 {
				fmt.Fprintf(b, "; it holds %s, and another governs", times(r.Held))
			}
		}
	}
	for i := range c.Clauses {
		if one := &c.Clauses[i]; !one.Covered() {
			fmt.Fprintf(b, "\n%s: %s: %s\n    %s", one.Place, one.In, one.Text, one.missing())
		}
	}
	b.WriteString("\n")
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
			parts = append(parts, fmt.Sprintf("%s %s, and never decides so", side.is, times(side.seen)))
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
