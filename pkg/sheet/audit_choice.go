package sheet

import (
	"cmp"
	"slices"
	"strings"

	pages "example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/internal/paper"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// choice tells one decision: what it asked, the answer, the rule with what made it hold,
// and every rule that was passed over with what failed in it.
func (l *leaf) choice(r section.Reason) *paper.Block {
	out := paper.Part(r.Decision, l.chosen(r), paper.Text(r.Asks))
	out.Folds = true
	if len(r.Taken)+len(r.Passed) > 1 {
		out.Add(paper.Text(l.Lines["audit_take_"+string(r.Take)]))
	}
	out.Add(l.changed(r.Amended)...)
	for _, rule := range r.Taken {
		out.Add(l.taken(rule))
	}
	for _, each := range l.s.Lifted {
		if each.Sort == "rule" && each.Decision == r.Decision {
			out.Add(l.liftedBy(each))
		}
	}
	var rest []string
	for _, rule := range r.Passed {
		if rule.State == rulebook.NotReached {
			rest = append(rest, rule.ID)
		} else {
			out.Add(l.passed(r, rule))
		}
	}
	if len(rest) > 0 {
		out.Add(paper.Item(l.line("audit_not_reached", "rules", strings.Join(rest, ", "))))
	}
	return out
}

// chosen says what a decision answers.
func (l *leaf) chosen(r section.Reason) string {
	return l.line("audit_choice", "what", pages.Capital(cmp.Or(r.Label, r.Decision)), "decision", r.Decision, "answer", l.exact(r.Answer))
}

// taken tells a rule whose answer was taken, or a person who decided.
func (l *leaf) taken(rule section.Rule) *paper.Block {
	holes := []string{"rule", rule.ID, "place", rule.Place.String(), "answer", l.exact(rule.Answer), "by", rule.By, "because", l.say(rule.Because)}
	if rule.By != "" {
		return paper.Item(l.line("audit_person", holes...))
	}
	out := paper.Item(l.line("audit_rule", holes...)).Add(l.source(rule.Source))
	if names := amendedNames(rule); len(names) > 0 {
		out.Add(paper.Note(l.line("audit_but_for", "names", strings.Join(names, ", "))))
	}
	for _, name := range rule.RestsOn {
		out.Add(paper.Note(l.line("audit_passes_on", "source", l.cited(name))))
	}
	if rule.Standing != "" {
		out.Add(paper.Text(l.line("audit_standing", "standing", l.called("standing_", string(rule.Standing)))))
	}
	out.Add(l.changed(rule.Amended)...)
	if len(rule.Clauses) == 0 {
		out.Add(paper.Text(l.line("audit_always")))
	}
	shown := map[string]bool{}
	for _, c := range rule.Clauses {
		out.Add(paper.Item(l.clause(c, true)))
		for _, v := range c.Values {
			shown[v.Name] = true
		}
	}
	if rest := slices.DeleteFunc(slices.Clone(rule.Used), func(v section.Used) bool { return shown[v.Name] }); len(rest) > 0 {
		out.Add(paper.Text(l.line("audit_read", "values", l.values(rest))))
	}
	return out
}

// amendedNames lists what amendments set and a rule of the rulebook reads.
func amendedNames(rule section.Rule) (names []string) {
	for _, v := range readBy(&rule) {
		if v.Amended != nil && rule.Amended == nil && !slices.Contains(names, v.Name) {
			names = append(names, v.Name)
		}
	}
	return names
}

// passed tells a rule whose answer was not taken, and why not.
func (l *leaf) passed(r section.Reason, rule section.Rule) *paper.Block {
	why := "audit_held"
	switch {
	case rule.State != rulebook.Held:
		why = "audit_not_held"
	case len(r.Taken) > 0 && r.Taken[0].By != "":
		why = "audit_held_person"
	case rule.Answer.Equal(r.Answer):
		why = "audit_held_same"
	case r.Take == rulebook.Largest || r.Take == rulebook.Smallest:
		why = "audit_held_" + string(r.Take)
	}
	out := paper.Item(l.line("audit_passed", "rule", rule.ID, "place", rule.Place.String(), "why", l.line(why, "answer", l.exact(rule.Answer))))
	if rule.State == rulebook.NotHeld {
		for _, c := range rule.Clauses {
			out.Add(paper.Item(l.clause(c, false)))
		}
	}
	return out.Add(l.changed(rule.Amended)...)
}

// clause tells part of a condition: what it came to, and with which values. A clause
// under a "not" settles the matter by coming out the other way.
func (l *leaf) clause(c section.Clause, wanted bool) string {
	name := map[[2]bool]string{{true, true}: "audit_true", {true, false}: "audit_true_unwanted", {false, true}: "audit_false_wanted", {false, false}: "audit_false"}[[2]bool{c.Holds, wanted}]
	out := l.line(name, "text", c.Text)
	if c.Column != "" {
		out = l.line("audit_column", "column", c.Column, "clause", out)
	}
	if len(c.Values) == 0 {
		return fullStop(out)
	}
	return l.line("audit_with", "clause", out, "values", l.values(c.Values))
}

// values lists values, each with where it comes from.
func (l *leaf) values(values []section.Used) string {
	var parts []string
	for _, v := range values {
		name := "audit_value"
		switch {
		case v.Amended != nil:
			name += "_amended"
		case v.Presumed:
			name += "_presumed"
		}
		parts = append(parts, l.line(name, "name", v.Name, "value", l.exact(v.Value), "origin", l.called("sort_", string(v.Origin))))
	}
	return strings.Join(parts, "; ")
}

// changed tells how an amendment added or changed an entry: who did, when and why, and
// what it was before.
func (l *leaf) changed(a *rulebook.Amended) []*paper.Block {
	if a == nil {
		return nil
	}
	name := "sheet_changed"
	if len(a.Replaced) == 0 {
		name = "sheet_added"
	}
	out := []*paper.Block{paper.Text(l.line(name, "by", l.by(a.By), "place", a.Place.String(), "why", fullStop(a.Because)))}
	for _, was := range a.Replaced {
		var keys []string
		for _, key := range was.Was {
			if key.Key != "because" && key.Key != "source" {
				keys = append(keys, key.Key+" `"+key.Text+"`")
			}
		}
		name, by := "sheet_before", ""
		if was.By != nil {
			name, by = "sheet_before_by", l.by(*was.By)
		}
		out = append(out, paper.Text(l.line(name, "id", was.ID, "place", was.Place.String(), "by", by, "was", strings.Join(keys, ", "))))
	}
	return out
}

// by names an amendment with who made it and when.
func (l *leaf) by(a rulebook.Amendment) string {
	return l.line("sheet_by", "name", a.Name, "company", a.Company, "who", a.Who, "when", a.When.String())
}

// source cites a source of the section.
func (l *leaf) source(name string) *paper.Block {
	return paper.Note(l.line("sheet_source", "source", l.cited(name)))
}

// cited is a source of the section with how it is known, unless the document was seen.
func (l *leaf) cited(name string) string { return fullStop(cmp.Or(l.document(l.s.Source(name)), name)) }

func (l *leaf) document(s section.Source) string {
	of := s.Document
	if of != "" && s.Clause != "" {
		of += ", "
	}
	of += s.Clause
	line := "source_" + string(s.Known)
	switch {
	case s.Known == value.Seen || s.Known == "":
		return cmp.Or(of, s.Text)
	case s.Known == value.Relayed && s.Via == "":
		line += "_otherwise"
	case of == "":
		line += "_alone"
	case s.Known == value.Company && s.ID == string(value.Company): // the document is then the company
		line += "_of"
	}
	return l.line(line, "of", of, "via", s.Via)
}
