package sheet

import (
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// variances shows by whose permission a setting crosses its limit. It is on the
// face of every sheet, so that nobody takes the exception for the rule.
func (p *page) variances(list []rulebook.Variance) {
	if len(list) == 0 {
		return
	}
	p.heading("APPROVED EXCEPTIONS")
	for _, v := range list {
		p.put(2, "- ", "The setting "+v.Setting+" is "+p.value(v.Value)+", "+beyond(v.Value, v.Limit)+" its limit of "+p.value(v.Limit)+
			". Approved by "+v.Who+", through "+v.Until.String()+": "+fullStop(v.Why)+" Variance "+v.Name+".")
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

// settingChange says how an amendment changed a setting.
func (p *page) settingChange(v section.Used) string {
	return "Setting " + v.Name + " = " + p.value(v.Value) + ": " + change(v.Amended)
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

// amendedSettings lists every amended setting that the page names.
func (r *reasoner) amendedSettings() {
	var rules []section.Rule
	for _, q := range r.questions {
		rules = append(append(rules, q.reason.Taken...), q.reason.Passed...)
	}
	for _, reason := range r.under() {
		rules = append(rules, reason.Taken...)
	}
	settings := amendedSettings(rules)
	if len(settings) == 0 {
		return
	}
	r.heading("SETTINGS THAT AN AMENDMENT SET")
	for _, v := range settings {
		r.put(2, "- ", r.settingChange(v))
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
