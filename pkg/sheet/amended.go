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
		parts = append(parts, a.Name+" (by "+a.Who+" of "+a.Company+", "+a.When.String()+": "+strings.TrimSuffix(fullStop(a.Why), ".")+")")
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
	return "amendment " + a.Name + " by " + a.Who + " of " + a.Company + ", " + a.When.String()
}

// change says how an amendment changed an entry: who changed it, when and why, and
// what it was before.
func change(a *rulebook.Amended) string {
	out := byWhom(a.By) + ", at " + a.Place.String()
	for _, was := range a.Replaced {
		out += "; before it " + was.ID + ", at " + was.Place.String()
		if was.By != nil {
			out += ", " + byWhom(*was.By)
		}
		for _, key := range was.Was {
			if key.Key != "because" && key.Key != "source" {
				out += ", " + key.Key + " `" + key.Text + "`"
			}
		}
	}
	return out + ". " + capital(fullStop(a.Because))
}

// settingChange says how an amendment changed a setting, and on whose authority.
func (t *text) settingChange(v section.Used) string {
	out := "Setting " + v.Name + " = " + t.value(v.Value) + ": " + change(v.Amended)
	for _, a := range t.s.Accounts {
		if a.Sort == "setting" && a.Name == v.Name {
			out += " Source of the value: " + t.cited(a.Source)
		}
	}
	return out
}

// amendedSettings lists the settings that rules read and an amendment set, each
// once, in the order of reading.
func amendedSettings(rules []section.Rule) []section.Used {
	var out []section.Used
	seen := map[string]bool{}
	add := func(values []section.Used) {
		for _, v := range values {
			if v.Amended != nil && !seen[v.Name] {
				seen[v.Name] = true
				out = append(out, v)
			}
		}
	}
	for _, rule := range rules {
		for _, c := range rule.Clauses {
			add(c.Values)
		}
		add(rule.Used)
	}
	return out
}

// rested lists what the values that the page names rest on.
func (r *reasoner) rested() []section.Account {
	named := map[string]bool{}
	note := func(values []section.Used) {
		for _, v := range values {
			named[v.Name] = true
			if w, ok := v.Value.Word(); ok {
				named[w.Name] = true
			}
		}
	}
	for _, reason := range slices.Concat(r.reasons(), r.under()) {
		if w, ok := reason.Answer.Word(); ok {
			named[w.Name] = true
		}
		for _, rule := range reason.Taken {
			note(rule.Used)
			for _, c := range rule.Clauses {
				note(c.Values)
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
		if a.Amended != nil {
			r.put(4, "Amended: ", change(a.Amended))
		}
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
