package sheet

import (
	"fmt"
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// face shows, near the top, all by which the section is not what the rulebook
// alone would give: amendments, exceptions, what persons decided, what was taken
// away, and what is beyond a limit.
func (t *text) face() {
	t.amendedBy()
	t.variances(t.s.Variances)
	t.overrides()
	t.lifted()
	t.crossed()
}

// amendedBy names the companies whose amendments are in force.
func (t *text) amendedBy() {
	var companies []string
	for _, a := range t.s.Amendments {
		if !slices.Contains(companies, a.Company) {
			companies = append(companies, a.Company)
		}
	}
	if len(companies) > 0 {
		t.put(0, "", "By the rulebook as amended by "+list(companies)+".")
	}
}

// standing says how many of the values of the section rest on no document that
// was read, and how many on none at all.
func (t *text) standing() {
	var all, memory, unpublished int
	for _, c := range t.s.Courses {
		for _, a := range c.Attributes {
			if a.Source == "" {
				continue // a person's
			}
			on := a.RestsOn
			if len(on) == 0 {
				on = []string{a.Source}
			}
			all++
			recalled, none := false, false
			for _, name := range on {
				s := t.s.Source(name)
				none = none || !s.Published()
				recalled = recalled || s.Known == value.Memory
			}
			switch {
			case none:
				unpublished++
			case recalled:
				memory++
			}
		}
	}
	if all > 0 {
		t.put(0, "", fmt.Sprintf("Of the %d values of this section, %d rest on common practice or on a rulebook's own numbers, with no published source, and %d on publications recalled from memory; WHY says which.", all, unpublished, memory))
	}
}

// overrides lists what a person decided in place of the rules, and what that makes
// of the section.
func (t *text) overrides() {
	if len(t.s.Overrides) == 0 {
		return
	}
	t.heading("DECIDED BY A PERSON, in place of the rules")
	for _, o := range t.s.Overrides {
		instead := "the rules give no answer"
		switch {
		case !o.Asked:
			t.put(2, "- ", capital(o.Label)+": "+t.value(o.Answer)+", by "+o.By+". This job does not ask that question, so the answer changes nothing.")
			continue
		case !o.Instead.IsZero():
			instead = "the rules give " + t.value(o.Instead)
		}
		t.put(2, "- ", capital(o.Label)+": "+t.value(o.Answer)+", by "+o.By+"; "+instead+".")
		t.put(4, "Why: ", fullStop(o.Because))
		var effects []string
		for _, e := range o.Effects {
			what := e.What
			if e.Course != "" {
				what = e.Course + ", " + e.What
			}
			effects = append(effects, what+" "+t.orNone(e)+" instead of "+t.orNone(section.Effect{With: e.Without}))
		}
		if len(effects) == 0 {
			effects = []string{"nothing in the section differs"}
		}
		t.put(4, "Effect: ", fullStop(strings.Join(effects, "; ")))
	}
}

func (t *text) orNone(e section.Effect) string {
	if e.With.IsZero() {
		return "none"
	}
	return t.value(e.With)
}

// lifted lists what amendments took away and would have spoken on this job.
func (t *text) lifted() {
	if len(t.s.Lifted) == 0 {
		return
	}
	t.heading("TAKEN AWAY BY AMENDMENT, and would apply to this job")
	for _, l := range t.s.Lifted {
		says := t.sentence(l.Says)
		if says == "" {
			says = "It cannot be worked out any more."
		}
		t.put(2, "- ", capital(l.Sort)+" "+l.ID+": "+fullStop(says))
		how := "Taken away by "
		if l.Replaced {
			how = "Weakened by "
		}
		t.put(4, "", how+byWhom(l.Amended.By)+", at "+l.Amended.Place.String()+": "+fullStop(l.Amended.Because))
	}
}

// crossed lists answers beyond a limit of their decision.
func (t *text) crossed() {
	if len(t.s.Crossed) == 0 {
		return
	}
	t.heading("BEYOND A LIMIT")
	for _, c := range t.s.Crossed {
		t.put(2, "- ", capital(c.Label)+": "+t.value(c.Answer)+"; wanted: "+fullStop(t.quoted(c.Wanted))+" "+t.sentence(c.Because))
		if len(c.By) > 0 {
			t.put(4, "By ", fullStop(strings.Join(c.By, "; ")))
		}
		permitted := "Nothing permits it, so the design is stopped."
		if c.Variance != "" {
			permitted = "Permitted by variance " + c.Variance + "."
		}
		t.put(4, "", permitted)
		t.put(4, "", "Limit "+c.Limit+". Source: "+t.cited(c.Source))
	}
}

// absent lists the courses of the rulebook that this section does not have, and
// what the job says without any effect, each with the reason.
func (t *text) absent() {
	t.missed("course", "NOT IN THIS SECTION")
	t.missed("input", "SAID IN THE JOB, WITHOUT EFFECT HERE")
}

func (t *text) missed(sort, heading string) {
	of := slices.DeleteFunc(slices.Clone(t.s.Absent), func(a section.Absent) bool { return a.Sort != sort })
	if len(of) == 0 {
		return
	}
	t.heading(heading)
	var reasons []string
	names := map[string][]string{}
	for _, a := range slices.Backward(of) {
		why := t.missing(a)
		if len(names[why]) == 0 {
			reasons = append(reasons, why)
		}
		names[why] = append(names[why], a.Label)
	}
	for _, why := range reasons {
		t.put(2, "- ", list(names[why])+": "+why)
	}
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
