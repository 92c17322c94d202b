package sheet

import (
	"cmp"
	"slices"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/section"
)

// What follows is told in full by the full and the audit sheet alike.

// presumed tells what nobody measured, why it is so, how it is confirmed, and what comes
// of each answer.
func (l *leaf) presumed() *paper.Block {
	out := l.part("sheet_presumed")
	for _, p := range l.s.Confirm {
		told := paper.Item(l.line("sheet_presumed_value", "what", pages.Capital(p.Label), "value", l.value(p.Value), "asks", strings.TrimSpace(p.Asks)))
		told.Add(paper.Text(l.line("sheet_presumed_how", "how", l.say(p.How), "rule", p.Rule)))
		if p.Confirm != "" {
			told.Add(paper.Text(l.line("sheet_to_confirm", "confirm", fullStop(p.Confirm))))
		}
		for _, q := range l.s.Questions {
			if slices.Contains(p.Keys, q.Key) {
				told.Add(l.question(q))
			}
		}
		out.Add(told)
	}
	return out
}

// notGiven tells what the job does not say and would change the section.
func (l *leaf) notGiven() *paper.Block {
	out := l.part("sheet_asked")
	for _, q := range l.s.Questions {
		if !slices.ContainsFunc(l.s.Confirm, func(p section.Presumed) bool { return slices.Contains(p.Keys, q.Key) }) {
			out.Add(l.question(q))
		}
	}
	return out
}

// question tells what is asked, and what comes of each answer that changes anything;
// answers of which the same comes are told together.
func (l *leaf) question(q section.Question) *paper.Block {
	out := paper.Item(l.line("sheet_question", "asks", q.Asks, "key", q.Key)).Add(paper.Text(l.say(q.How)))
	var all []string
	answers := map[string][]string{}
	for _, c := range q.Choices {
		var differs []string
		for _, d := range c.Differs {
			differs = append(differs, l.quoted(d))
		}
		comes := strings.Join(differs, "; ")
		if comes == "" {
			continue
		}
		if answers[comes] == nil {
			all = append(all, comes)
		}
		answers[comes] = append(answers[comes], cmp.Or(c.Label, l.System.Write(c.Answer)))
	}
	for _, comes := range all {
		out.Add(paper.Item(l.line("sheet_choice", "answers", strings.Join(answers[comes], ", "), "comes", fullStop(comes))))
	}
	return out
}

// checks tell what the section must satisfy, and whether it does.
func (l *leaf) checks() *paper.Block {
	out := l.part("sheet_checks")
	for _, c := range l.s.Checks {
		told := paper.Item(l.came(c))
		if !c.Holds {
			told.Add(paper.Text(l.say(c.Says)), paper.Text(l.say(c.Because)), l.seen(c.Clauses))
		}
		out.Add(told.Add(l.named(c.ID, c.Place.String(), c.Source)).Add(l.changed(c.Amended)...))
	}
	return out
}

// came says what a check asks and what it found.
func (l *leaf) came(c section.Check) string {
	name := map[bool]string{true: "sheet_check_yes", false: "sheet_check_no"}[c.Holds]
	if c.Bound != section.AtLeast && c.Bound != section.AtMost {
		return l.line(name, "asks", c.Asks)
	}
	found, limit := l.value(c.Value), l.value(c.Limit)
	if found == limit && !c.Value.Equal(c.Limit) {
		found, limit = l.exact(c.Value), l.exact(c.Limit)
	}
	if found == limit && !c.Holds {
		found = l.line(map[section.Bound]string{section.AtMost: "sheet_just_over", section.AtLeast: "sheet_just_under"}[c.Bound], "value", found)
	}
	return l.line(name+"_"+string(c.Bound), "asks", c.Asks, "value", found, "limit", limit)
}

// cautions tell all that is to be heeded.
func (l *leaf) cautions() *paper.Block {
	out := l.part("sheet_cautions")
	for _, c := range l.s.Cautions {
		out.Add(paper.Item(l.say(c.Says)).Add(l.named(c.ID, c.Place.String(), c.Source)).Add(l.changed(c.Amended)...))
	}
	return out
}

// named says by which entry something is told, where it stands, and its source.
func (l *leaf) named(id, place, source string) *paper.Block {
	return paper.Note(l.line("sheet_named", "id", id, "place", place, "source", l.cited(source)))
}

// seen tells the values behind clauses, each once.
func (l *leaf) seen(clauses []section.Clause) *paper.Block {
	var parts []string
	for _, c := range clauses {
		for _, v := range c.Values {
			parts = append(parts, v.Label+" "+l.assumed(v.Value, v.Presumed))
		}
	}
	if len(parts) == 0 {
		return nil
	}
	return paper.Text(l.line("sheet_values", "values", strings.Join(unique(parts), "; ")))
}

// absent tells which courses and questions of the rulebook this section does not have,
// and what the job says without effect, each with the reason.
func (l *leaf) absent() *paper.Block {
	out := l.part("sheet_absent")
	var reasons []string
	names := map[string][]string{}
	for _, a := range l.s.Absent {
		why := l.missed(a)
		if a.Sort == "input" {
			out.Add(paper.Item(l.line("sheet_idle_input", "what", pages.Capital(a.Label))))
			continue
		}
		if names[why] == nil {
			reasons = append(reasons, why)
		}
		names[why] = append(names[why], a.Label)
	}
	for _, why := range reasons {
		out.Add(paper.Item(l.line("sheet_absent_item", "what", pages.Capital(strings.Join(names[why], ", ")), "why", why)))
	}
	return out
}

// missed says why something is not there.
func (l *leaf) missed(a section.Absent) string {
	var parts []string
	for _, b := range a.Because {
		parts = append(parts, l.say(b))
	}
	if len(parts) == 0 {
		for _, c := range a.Clauses {
			parts = append(parts, l.failed(c)...)
		}
	}
	for _, c := range a.Clauses {
		if c.Amended != nil {
			for _, b := range l.changed(c.Amended) {
				parts = append(parts, b.Text)
			}
			break
		}
	}
	for _, v := range a.Set {
		parts = append(parts, l.line("sheet_is", "what", pages.Capital(v.Label), "value", l.value(v.Value)))
		for _, b := range l.changed(v.Amended) {
			parts = append(parts, b.Text)
		}
	}
	if len(parts) == 0 {
		return l.line("sheet_not_called_for")
	}
	return strings.Join(parts, " ")
}

// failed says what kept a clause from holding: how two values compare, or each of those
// that it read.
func (l *leaf) failed(c section.Clause) (out []string) {
	words := strings.Fields(c.Text)
	if len(words) == 3 && len(c.Values) == 2 {
		how := map[string]string{">": "sheet_more_than", ">=": "sheet_less_than", "<": "sheet_not_less", "<=": "sheet_above"}[words[1]]
		if a, b := c.Values[0], c.Values[1]; how != "" {
			return []string{l.line(how, "what", pages.Capital(plainly(a.Label)), "value", l.value(a.Value), "other", plainly(b.Label), "limit", l.value(b.Value))}
		}
	}
	for _, v := range c.Values {
		out = append(out, l.line("sheet_is", "what", pages.Capital(v.Label), "value", l.value(v.Value)))
	}
	return out
}
