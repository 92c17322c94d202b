package sheet

import (
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// checks shows what the section must satisfy, and whether it does.
func (t *text) checks(title string, checks []section.Check) {
	if len(checks) == 0 {
		return
	}
	t.heading(title)
	for i := range checks {
		c := &checks[i]
		mark := "[ok]       "
		switch {
		case !c.Holds && c.Failing == rulebook.Stops:
			mark = "[STOP]     "
		case !c.Holds:
			mark = "[CAUTION]  "
		}
		t.put(2, mark, t.outcome(c))
		under := 2 + len(mark)
		if !c.Holds {
			t.put(under, "", t.sentence(c.Says))
			if because := t.sentence(c.Because); because != "" {
				t.put(under, "", because)
			}
			if seen := t.read(c.Clauses); seen != "" {
				t.put(under, "On this job: ", seen)
			}
		}
		t.put(under, "", "Check "+c.ID+". Source: "+t.cited(c.Source))
		t.changedBy(under, c.Amended)
	}
}

// outcome says what a check asks and what it found: "Is it thick enough? Yes: 8
// in, at least 6 in needed."
func (t *text) outcome(c *section.Check) string {
	answer := "No"
	if c.Holds {
		answer = "Yes"
	}
	if c.Value.IsZero() || c.Limit.IsZero() {
		return c.Asks + " " + answer + "."
	}
	found, limit := t.value(c.Value), t.value(c.Limit)
	if found == limit && !c.Value.Equal(c.Limit) {
		found, limit = c.Value.Text(t.system), c.Limit.Text(t.system)
	}
	if found == limit && !c.Holds {
		found = map[section.Bound]string{section.AtMost: "just over ", section.AtLeast: "just under "}[c.Bound] + found
	}
	switch c.Bound {
	case section.AtLeast:
		limit = "at least " + limit + " needed"
	case section.AtMost:
		limit = "at most " + limit + " allowed"
	default:
		limit = "the limit is " + limit
	}
	return c.Asks + " " + answer + ": " + found + ", " + limit + "."
}

func (t *text) cautions() {
	if len(t.s.Cautions) == 0 {
		return
	}
	t.heading("CAUTIONS")
	for _, c := range t.s.Cautions {
		t.put(2, "- ", t.sentence(c.Says))
		t.put(4, "", "Caution "+c.ID+". Source: "+t.cited(c.Source))
		t.changedBy(4, c.Amended)
	}
}

// absorbed lists errors in rules that changed nothing.
func (t *text) absorbed() {
	if len(t.s.Absorbed) == 0 {
		return
	}
	t.heading("RULE ERRORS WITHOUT EFFECT (report to whoever maintains the rules)")
	for _, each := range t.s.Absorbed {
		t.put(2, "- ", fullStop(each))
	}
}

// read names the values behind clauses, each once.
func (t *text) read(clauses []section.Clause) string {
	var parts []string
	seen := map[string]bool{}
	for _, c := range clauses {
		for _, v := range c.Values {
			if seen[v.Name] {
				continue
			}
			seen[v.Name] = true
			part := v.Label + " " + t.value(v.Value)
			if v.Presumed {
				part += " (assumed)"
			}
			if v.Amended != nil {
				part += " (set by amendment " + v.Amended.By.Name + ")"
			}
			parts = append(parts, part)
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return strings.Join(parts, "; ") + "."
}

// cited returns a source with its note, which is shown once on the sheet.
func (t *text) cited(name string) string {
	s := t.s.Source(name)
	if s.Name == "" {
		s.Text = name
	}
	out := cite(s.Text, s.Known)
	if s.Note != "" && !t.noted[s.ID+s.Note] {
		t.noted[s.ID+s.Note] = true
		out += " Note: " + fullStop(s.Note)
	}
	return out
}
