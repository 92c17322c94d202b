package sheet

import (
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// chosen describes a rule whose answer was taken.
func (r *reasoner) chosen(rule *section.Rule) {
	answer := ""
	if !rule.Answer.IsZero() {
		answer = " answers " + r.value(rule.Answer)
	}
	if rule.By != "" {
		r.put(2, "", rule.By+answer+", in place of the rules")
	} else {
		r.put(2, "", "Rule "+rule.ID+answer+", at "+rule.Place.String())
	}
	if because := r.sentence(rule.Because); because != "" {
		r.put(4, "because:  ", because)
	}
	if source := r.s.Source(rule.Source); rule.By == "" {
		but := strings.TrimPrefix(butFor(rule), ", ")
		if but != "" {
			but += ": "
		}
		r.put(4, "source:   ", but+cite(source.Text, source.Known)+" ["+string(source.Known)+"]")
		if source.Note != "" {
			r.put(4, "note:     ", fullStop(source.Note))
		}
	}
	if rule.Standing != "" {
		r.put(4, "standing: ", strings.ToUpper(string(rule.Standing)))
	}
	r.changedBy(4, rule.Amended)
	r.holds(rule)
	r.used(rule)
}

// holds lists the clauses that made a rule hold.
func (r *reasoner) holds(rule *section.Rule) {
	if rule.By != "" {
		return
	}
	if len(rule.Clauses) == 0 {
		r.put(4, "holds:    ", "always; it has no condition")
		return
	}
	for i := range rule.Clauses {
		mark := "holds:    "
		if i > 0 {
			mark = "and:      "
		}
		r.put(4, mark, r.clause(&rule.Clauses[i], true))
	}
}

// used lists the values that the rule read besides those of its clauses.
func (r *reasoner) used(rule *section.Rule) {
	shown := map[string]bool{}
	for _, c := range rule.Clauses {
		for _, v := range c.Values {
			shown[v.Name] = true
		}
	}
	var rest []section.Used
	for _, v := range rule.Used {
		if !shown[v.Name] {
			rest = append(rest, v)
		}
	}
	if len(rest) > 0 {
		r.put(4, "also read: ", r.values(rest))
	}
}

// passed describes a rule that did not answer, and why not.
func (r *reasoner) passed(reason *section.Reason, rule *section.Rule) {
	head := rule.ID + ", at " + rule.Place.String() + ": "
	if rule.Amended != nil {
		head = rule.ID + ", at " + rule.Place.String() + ", by " + byWhom(rule.Amended.By) + ": "
	}
	switch rule.State {
	case rulebook.NotReached:
		r.put(4, "- ", head+"not reached: an earlier rule had answered.")
	case rulebook.Held:
		r.put(4, "- ", head+"holds, but "+r.outdone(reason, rule)+".")
	default:
		out := ""
		if len(rule.Clauses) > 0 && rule.Clauses[0].Column != "" {
			out = "ruled out by "
		}
		r.put(4, "- ", head+"does not hold.")
		for i := range rule.Clauses {
			r.put(8, "", out+r.clause(&rule.Clauses[i], false))
		}
	}
}

// outdone says why a rule that holds was not taken.
func (r *reasoner) outdone(reason *section.Reason, rule *section.Rule) string {
	if rule.Answer.IsZero() {
		return "another answer was used"
	}
	own := " (" + r.value(rule.Answer) + ")"
	switch {
	case len(reason.Taken) > 0 && reason.Taken[0].By != "":
		return "a person decided in place of the rules; it gives " + r.value(rule.Answer)
	case rule.Answer.Equal(reason.Answer):
		return "another rule gave the same answer" + own
	case reason.Take == "largest":
		return "another answer was larger" + own
	case reason.Take == "smallest":
		return "another answer was smaller" + own
	}
	return "another answer was used" + own
}

// clause describes part of a condition: what it came to, and with which values. A
// clause under a "not" settles the matter by coming out the other way.
func (r *reasoner) clause(c *section.Clause, wanted bool) string {
	out := "`" + c.Text + "` is "
	if c.Column != "" {
		out = "column " + c.Column + ": " + out
	}
	switch {
	case c.Holds && wanted:
		out += "true"
	case c.Holds:
		out += "true, and this rule wants it false"
	case wanted:
		out += "false, as this rule wants it"
	default:
		out += "false"
	}
	if len(c.Values) > 0 {
		out += ", with " + r.values(c.Values)
	}
	return out
}

// values lists values, each with where it comes from.
func (p *page) values(values []section.Used) string {
	parts := make([]string, len(values))
	for i, v := range values {
		parts[i] = p.used(v)
	}
	return strings.Join(parts, "; ")
}

func (p *page) used(v section.Used) string {
	from := string(v.Origin)
	if from == "" {
		from = "unknown origin"
	}
	if v.Presumed {
		from += ", PRESUMED"
	}
	if v.Amended != nil {
		from += ", AMENDED"
	}
	return v.Name + " = " + p.value(v.Value) + " (" + from + ")"
}

// restsOn lists, in short, the decisions that the course's rules read.
func (r *reasoner) restsOn() {
	under := r.under()
	if len(under) == 0 {
		return
	}
	r.heading("WHAT THIS RESTS ON")
	for _, reason := range under {
		r.put(2, "", reason.Decision+" = "+r.value(reason.Answer)+" ("+reason.Asks+")")
		for _, rule := range reason.Taken {
			if rule.By != "" {
				r.put(4, "", "Decided by "+rule.By+" in place of the rules. "+r.sentence(rule.Because))
				continue
			}
			standing := ""
			if rule.Standing != "" {
				standing = " (" + string(rule.Standing) + ")"
			}
			r.put(4, "", "Rule "+rule.ID+standing+", at "+rule.Place.String()+". "+r.sentence(rule.Because)+" Source"+butFor(&rule)+": "+cite(r.s.Source(rule.Source).Text, r.s.Source(rule.Source).Known))
			r.changedBy(4, rule.Amended)
		}
	}
}

// under lists the reasons of the decisions that the questions' chosen rules
// read, and of those that these read in turn, each once.
func (r *reasoner) under() []section.Reason {
	seen := map[string]bool{}
	for _, q := range r.questions {
		seen[q.reason.Decision] = true
	}
	var out []section.Reason
	var visit func(reason section.Reason)
	visit = func(reason section.Reason) {
		for _, rule := range reason.Taken {
			for _, name := range names(&rule) {
				next := r.s.Reason(name)
				if next.Decision == "" || seen[name] {
					continue
				}
				seen[name] = true
				out = append(out, next)
				visit(next)
			}
		}
	}
	for _, q := range r.questions {
		visit(q.reason)
	}
	return out
}

// names lists what a rule read.
func names(rule *section.Rule) []string {
	var out []string
	for _, c := range rule.Clauses {
		for _, v := range c.Values {
			out = append(out, v.Name)
		}
	}
	for _, v := range rule.Used {
		out = append(out, v.Name)
	}
	return out
}

// failed says what kept a clause from holding: how two values compare, or each of
// those that it read.
func (p *page) failed(c section.Clause) []string {
	words := strings.Fields(c.Text)
	if how := map[string]string{">": "no more than", ">=": "less than", "<": "no less than", "<=": "more than"}; len(words) == 3 && len(c.Values) == 2 && how[words[1]] != "" {
		a, b := c.Values[0], c.Values[1]
		return []string{fullStop(capital(plainly(a.Label)) + ", " + p.value(a.Value) + ", is " + how[words[1]] + " the " + plainly(b.Label) + ", " + p.value(b.Value))}
	}
	var out []string
	for _, v := range c.Values {
		out = append(out, fullStop(capital(v.Label)+" is "+p.value(v.Value)))
	}
	return out
}

// missing says why something is not there.
func (p *page) missing(a section.Absent) string {
	var parts []string
	for _, b := range a.Because {
		parts = append(parts, fullStop(p.sentence(b)))
	}
	if len(parts) == 0 {
		for _, c := range a.Clauses {
			parts = append(parts, p.failed(c)...)
		}
	}
	for _, c := range a.Clauses {
		if c.Amended != nil {
			parts = append(parts, change(c.Amended))
			break
		}
	}
	for _, v := range a.Set {
		parts = append(parts, capital(v.Label)+" is "+p.value(v.Value)+" by "+byWhom(v.Amended.By)+": "+fullStop(v.Amended.Because))
	}
	if len(parts) == 0 {
		if a.Sort == "input" {
			return "the section is the same without it."
		}
		return "not called for here."
	}
	return strings.Join(parts, " ")
}
