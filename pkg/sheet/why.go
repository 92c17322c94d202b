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
	// amended are the changes of the decisions themselves, failed the rules that do
	// not hold.
	amended []*rulebook.Amended
	failed  []section.Rule
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
	var out []*group
	t.gather(&out, "", taken, "")
	for _, a := range c.Attributes {
		if a.Value.IsZero() {
			continue
		}
		taken, beaten := t.reasonOf(a)
		g := t.gather(&out, a.Label+": "+t.value(a.Value), taken, beaten)
		reason := t.s.Reason(a.Decision)
		if reason.Amended != nil && len(reason.Amended.Replaced) > 0 { // of a decision that is new its rules tell
			g.amended = append(g.amended, reason.Amended)
		}
		for _, rule := range reason.Passed {
			if rule.State == rulebook.NotHeld {
				g.failed = append(g.failed, rule)
			}
		}
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

func (t *text) gather(groups *[]*group, name string, taken []section.Rule, beaten string) *group {
	var parts []string
	for _, rule := range taken {
		parts = append(parts, t.quoted(rule.Because), rule.Source, rule.By)
	}
	key := strings.Join(parts, "\n")
	at := slices.IndexFunc(*groups, func(g *group) bool { return g.key == key })
	if at < 0 {
		at = len(*groups)
		*groups = append(*groups, &group{key: key, taken: taken})
	}
	g := (*groups)[at]
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
	return g
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
			if butFor(&rule) != "" {
				source = "It rests on a value that an amendment set, see below. Source of the rule: "
			}
			t.put(6, "", "Rule "+rule.ID+". "+source+t.cited(rule.Source))
			for _, on := range rule.RestsOn {
				t.put(6, "", "It passes on a value that rests on: "+t.cited(on))
			}
		}
		t.changedBy(6, rule.Amended)
		t.touched(&rule)
	}
	for _, a := range g.amended {
		t.changedBy(6, a)
	}
	for i := range g.failed {
		t.touched(&g.failed[i])
	}
}

// touched says how amendments changed what a rule rests on, each once on the sheet.
func (t *text) touched(rule *section.Rule) {
	for _, v := range touched(t.s, rule) {
		if !t.amends[v.Name] {
			t.amends[v.Name] = true
			t.put(6, "", t.valueChange(v))
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
