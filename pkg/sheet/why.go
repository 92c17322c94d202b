package sheet

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
)

// group is the attributes of one course that have the same reason.
type group struct {
	key   string
	names []string // such as "thickness: 8 in"
	taken []section.Rule
	// beaten are, for each decision, the answers that another one governed.
	beaten []string
}

// why gives the reason for each course and attribute, each reason once.
func (t *text) why() {
	t.heading("WHY")
	for i := len(t.s.Courses) - 1; i >= 0; i-- {
		c := t.s.Courses[i]
		if i < len(t.s.Courses)-1 {
			t.blank()
		}
		t.put(2, "", c.Label)
		for _, g := range t.groups(c) {
			t.group(c, g)
		}
	}
}

// groups gathers a course's attributes by their reasons, its presence first.
func (t *text) groups(c section.Course) []*group {
	taken := t.s.Reason(c.Presence).Taken
	if len(taken) == 0 {
		taken = []section.Rule{{ID: c.Rule, Because: c.Because, Source: c.Source}}
	}
	out := t.gather(nil, "", taken, "")
	for _, a := range c.Attributes {
		if a.Value.IsZero() {
			continue
		}
		taken, beaten := t.reasonOf(a)
		out = t.gather(out, a.Label+": "+t.value(a.Value), taken, beaten)
	}
	return out
}

// reasonOf returns the rules behind an attribute, and what they governed.
func (t *text) reasonOf(a section.Attribute) ([]section.Rule, string) {
	r := t.s.Reason(a.Decision)
	if len(r.Taken) == 0 {
		return []section.Rule{{ID: a.Rule, Because: a.Because, Source: a.Source, By: t.decider(a.Decision)}}, ""
	}
	return r.Taken, t.beaten(r)
}

// decider returns the person who took a decision over, "" if nobody did.
func (t *text) decider(decision string) string {
	for _, o := range t.s.Overrides {
		if o.Decision == decision {
			return o.By
		}
	}
	return ""
}

func (t *text) gather(groups []*group, name string, taken []section.Rule, beaten string) []*group {
	var parts []string
	for _, rule := range taken {
		parts = append(parts, t.quoted(rule.Because), rule.Source, rule.By)
	}
	key := strings.Join(parts, "\n")
	at := slices.IndexFunc(groups, func(g *group) bool { return g.key == key })
	if at < 0 {
		groups = append(groups, &group{key: key, taken: taken})
		at = len(groups) - 1
	}
	g := groups[at]
	g.names = append(g.names, name)
	if beaten != "" && !slices.Contains(g.beaten, beaten) {
		g.beaten = append(g.beaten, beaten)
	}
	for _, rule := range taken {
		if !slices.ContainsFunc(g.taken, func(r section.Rule) bool { return r.ID == rule.ID }) {
			// The same words under another rule: name it, tell them once.
			g.taken = append(slices.Clip(g.taken), section.Rule{ID: rule.ID})
		}
	}
	return groups
}

func (t *text) group(c section.Course, g *group) {
	said := capital(fullStop(strings.Join(slices.DeleteFunc(g.names, func(n string) bool { return n == "" }), "; ")))
	if where, ok := t.told[g.key]; ok {
		t.put(4, "", strings.TrimSpace(said+" Reason: see "+where+" (rule "+list(ruleIDs(g.taken))+")."))
		t.governed(g)
		return
	}
	t.told[g.key] = c.Label
	if said != "" {
		t.put(4, "", said)
	}
	for _, rule := range g.taken {
		if because := t.sentence(rule.Because); because != "" {
			t.put(6, "", because)
		}
	}
	t.governed(g)
	for _, rule := range g.taken {
		switch {
		case rule.By != "":
			t.put(6, "", "Decided by "+rule.By+" in place of the rules.")
		case rule.Source == "":
			t.put(6, "", "Also rule "+rule.ID+".")
		default:
			source := "Source: "
			if len(amendedSettings([]section.Rule{rule})) > 0 {
				source = "It rests on a value that an amendment set, see below. Source of the rule: "
			}
			t.put(6, "", "Rule "+rule.ID+". "+source+t.cited(rule.Source))
		}
		t.changed(&rule)
	}
}

// changed says how amendments changed a rule: itself, and the settings that it
// read, each of these once on the sheet.
func (t *text) changed(rule *section.Rule) {
	if rule.Amended != nil {
		t.put(6, "", "Amended: "+change(rule.Amended))
	}
	for _, v := range amendedSettings([]section.Rule{*rule}) {
		if !t.amends[v.Name] {
			t.amends[v.Name] = true
			t.put(6, "", t.settingChange(v))
		}
	}
}

func (t *text) governed(g *group) {
	for _, beaten := range g.beaten {
		t.put(6, "", beaten)
	}
}

// beaten names the answers that the one taken governs, "" if there are none.
func (t *text) beaten(r section.Reason) string {
	if superlative(r.Take) == "" || r.Taken[0].By != "" {
		return ""
	}
	all := []string{t.value(r.Answer) + " (" + r.Taken[0].ID + ")"}
	for _, rule := range r.Passed {
		if rule.State == rulebook.Held && !rule.Answer.IsZero() {
			all = append(all, t.value(rule.Answer)+" ("+rule.ID+")")
		}
	}
	if len(all) == 1 {
		return ""
	}
	return "Of " + list(all) + ", the " + superlative(r.Take) + " governs."
}

func ruleIDs(rules []section.Rule) []string {
	var out []string
	for _, r := range rules {
		out = append(out, r.ID)
	}
	return out
}
