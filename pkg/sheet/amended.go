package sheet

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// variances shows what is permitted by whom. It is on the face of every sheet, so
// that nobody takes the exception for the rule.
func (p *page) variances(list []rulebook.Variance) {
	if len(list) == 0 {
		return
	}
	p.heading("APPROVED EXCEPTIONS")
	for _, v := range list {
		var what string
		switch {
		case v.Setting != "":
			what = "The setting " + v.Setting + " is " + p.value(v.Value) + ", " + beyond(v.Value, v.Limit) + " its limit of " + p.value(v.Limit)
		case v.Bound != "":
			what = "An answer may go beyond limit " + v.Bound + ", as far as " + p.value(v.Value)
		default:
			what = v.Retires + " is taken away or weakened by an amendment"
		}
		p.put(2, "- ", what+". Approved by "+v.Who+", through "+v.Until.String()+": "+fullStop(v.Why)+" Variance "+v.Name+".")
	}
}

// laidOver says which amendments were in force, and on which day.
func (p *page) laidOver(s *section.Section) {
	var parts []string
	for _, a := range s.Amendments {
		parts = append(parts, strings.TrimPrefix(byWhom(a), "amendment ")+": "+strings.TrimSuffix(fullStop(a.Why), "."))
	}
	if len(parts) > 0 {
		p.put(0, "", "Amendments in force, in this order: "+strings.Join(parts, "; ")+".")
	}
	if !s.AsOf.IsZero() {
		p.put(0, "", "Rules in force on "+s.AsOf.String()+".")
	}
	var idle []string
	for _, i := range s.Idle {
		idle = append(idle, i.What+" ("+span(i)+")")
	}
	if len(idle) > 0 {
		p.put(0, "", "Not in force on that day: "+strings.Join(idle, "; ")+".")
	}
}

// span says on which days something holds.
func span(i rulebook.Idle) string {
	switch {
	case i.Until.IsZero():
		return "from " + i.From.String()
	case i.From.IsZero():
		return "through " + i.Until.String()
	}
	return i.From.String() + " through " + i.Until.String()
}

// byWhom names an amendment with who made it and when.
func byWhom(a rulebook.Amendment) string {
	return "amendment \"" + a.Name + "\" of " + a.Company + " (" + a.Who + ", " + a.When.String() + ")"
}

// change says how an amendment added or changed an entry: who did, when and why,
// and what it was before.
func change(a *rulebook.Amended) string {
	how := "Changed by "
	if len(a.Replaced) == 0 {
		how = "Added by "
	}
	out := how + byWhom(a.By) + ", at " + a.Place.String() + ": " + fullStop(a.Because)
	before := " Before: "
	for _, was := range a.Replaced {
		out += before + was.ID + ", at " + was.Place.String()
		if was.By != nil {
			out += ", by " + byWhom(*was.By)
		}
		with := ", with "
		for _, key := range was.Was {
			if key.Key != "because" && key.Key != "source" {
				out += with + key.Key + " `" + key.Text + "`"
				with = ", "
			}
		}
		out, before = out+".", " Before that: "
	}
	return out
}

// changedBy says how an amendment added or changed an entry, if one did.
func (p *page) changedBy(indent int, a *rulebook.Amended) {
	if a != nil {
		p.put(indent, "", change(a))
	}
}

// butFor names what amendments set and a rule of the rulebook reads: the source of
// the rule does not say what they say.
func butFor(rule *section.Rule) string {
	var names []string
	for _, v := range readBy(rule) {
		if v.Amended != nil && rule.Amended == nil && !slices.Contains(names, v.Name) {
			names = append(names, v.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return ", but for " + list(names)
}

// readBy lists the values that a rule read, those of its clauses first.
func readBy(rule *section.Rule) []section.Used {
	var out []section.Used
	for _, c := range rule.Clauses {
		out = append(out, c.Values...)
	}
	return append(out, rule.Used...)
}

// touched lists what a rule rests on and amendments changed: the settings and terms
// that it reads, what these read, and the words and materials among the values.
func touched(s *section.Section, rule *section.Rule) []section.Used {
	var out []section.Used
	seen := map[string]bool{}
	var note func(v section.Used)
	note = func(v section.Used) {
		if seen[v.Name] {
			return
		}
		seen[v.Name] = true
		a := account(s, v.Name)
		if v.Amended == nil {
			v.Amended = a.Amended
		}
		if v.Amended != nil {
			out = append(out, v)
		}
		for _, name := range a.Reads {
			note(section.Used{Name: name, Value: account(s, name).Value})
		}
		if w, ok := v.Value.Word(); ok {
			note(section.Used{Name: w.Name})
		}
	}
	for _, v := range append(readBy(rule), section.Used{Value: rule.Answer}) {
		note(v)
	}
	return out
}

// account returns what a name rests on, the zero Account if nothing is told of it.
func account(s *section.Section, name string) section.Account {
	for _, a := range s.Accounts {
		if a.Name == name {
			return a
		}
	}
	return section.Account{}
}

// rested lists what the values that the page names rest on.
func (r *reasoner) rested() []section.Account {
	named := map[string]bool{}
	for _, reason := range slices.Concat(r.reasons(), r.under()) {
		for _, rule := range reason.Taken {
			for _, v := range append(readBy(&rule), section.Used{Value: rule.Answer}, section.Used{Value: reason.Answer}) {
				named[v.Name] = true
				if w, ok := v.Value.Word(); ok {
					named[w.Name] = true
				}
			}
		}
		for _, rule := range slices.Concat(reason.Taken, reason.Passed) {
			for _, v := range touched(r.s, &rule) {
				named[v.Name] = true
			}
		}
	}
	out := []section.Account{}
	for _, a := range r.s.Accounts {
		if named[a.Name] {
			out = append(out, a)
		}
	}
	return out
}

func (r *reasoner) reasons() []section.Reason {
	out := make([]section.Reason, len(r.questions))
	for i, q := range r.questions {
		out[i] = q.reason
	}
	return out
}

// accounts tells where the settings, terms, words and materials come from that
// the page names.
func (r *reasoner) accounts() {
	list := r.rested()
	if len(list) == 0 {
		return
	}
	r.heading("SETTINGS, TERMS, WORDS AND MATERIALS")
	for _, a := range list {
		is := ""
		if !a.Value.IsZero() {
			is = " = " + r.value(a.Value)
		}
		r.put(2, "", capital(a.Sort)+" "+a.Name+is+", at "+a.Place.String())
		r.put(4, "", fullStop(r.sentence(a.Because))+" Source: "+cite(r.s.Source(a.Source).Text, r.s.Source(a.Source).Known))
		if note := r.s.Source(a.Source).Note; note != "" {
			r.put(4, "note: ", fullStop(note))
		}
		r.changedBy(4, a.Amended)
	}
}

// footing says which amendments were in force, and on which day.
func (r *reasoner) footing() {
	if len(r.s.Amendments) == 0 && r.s.AsOf.IsZero() {
		return
	}
	r.blank()
	r.laidOver(r.s)
}
