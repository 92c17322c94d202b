package groundrule

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// overrides tells what persons decided, and what each makes of the section.
func (t *teller) overrides() {
	for _, d := range t.o.Decided {
		if d.Asked && d.Override != nil {
			t.s.Overrides = append(t.s.Overrides, section.Override{Decision: d.Decision.Name, Label: label(t.b.rules, d.Decision.Name), Answer: d.Answer, Asked: true,
				Instead: d.Instead, By: d.Override.By, Because: d.Override.Because, Effects: t.effects(d.Decision.Name)})
		}
	}
	for _, o := range t.o.Unasked {
		t.s.Overrides = append(t.s.Overrides, section.Override{Decision: o.Decision, Label: label(t.b.rules, o.Decision), Answer: value.Text(o.Answer),
			By: o.By, Because: o.Because, Effects: []section.Effect{}})
	}
}

// effects tells what differs in the section from that without one override. Where
// that one comes to no section, nothing is told.
func (t *teller) effects(decision string) []section.Effect {
	rest := slices.DeleteFunc(inside.Overrides(t.job), func(o engine.Override) bool { return o.Decision == decision })
	o, err := t.b.rules.Run(t.job, rest)
	if err != nil || len(o.Refusals) > 0 {
		return []section.Effect{}
	}
	without, err := begin(t.b, t.job, o)
	if err != nil {
		return []section.Effect{}
	}
	without.reasons()
	without.courses()
	return slices.DeleteFunc(without.s.Effects(t.s), func(e section.Effect) bool { return e.Without.Equal(e.With) })
}

// crossed tells the answers beyond a limit, whose doing it is, and what permits
// it.
func (t *teller) crossed() {
	for _, c := range t.o.Crossed {
		l := c.Limit
		told := section.Crossed{Limit: l.ID, Decision: c.Decided.Decision.Name, Label: label(t.b.rules, c.Decided.Decision.Name), Answer: c.Decided.Answer,
			Wanted:  t.b.wanted(l, c.Value),
			Because: t.say(l.Because), Source: t.cite(l.Source), Place: l.Place, By: []string{}}
		for _, o := range c.Overrides {
			told.By = append(told.By, t.b.told("crossed_person", "by", o.By, "what", label(t.b.rules, o.Decision)).US)
		}
		for _, a := range c.Amended {
			if by := t.b.told("sheet_by", "name", a.By.Name, "company", a.By.Company, "who", a.By.Who, "when", a.By.When.String()).US; !slices.Contains(told.By, by) {
				told.By = append(told.By, by)
			}
		}
		if c.Variance != nil {
			told.Variance = c.Variance.Name
		}
		t.s.Crossed = append(t.s.Crossed, told)
	}
}

// lifted tells what amendments took away and would have spoken.
func (t *teller) lifted() {
	for _, l := range t.o.Lifted() {
		told := section.Lifted{Sort: l.Sort, ID: l.ID, Decision: l.Decision, Replaced: l.Replaced, Amended: deep.Copy(l.Amended), Place: l.Place}
		if l.Says != nil {
			if said, err := t.o.Say(l.Says); err == nil {
				told.Says = both(t.b.rules, said.Text)
			}
		}
		t.s.Lifted = append(t.s.Lifted, told)
	}
}

// absent tells the courses that are not laid, and the questions that are not
// asked, each with what failed.
func (t *teller) absent() {
	if t.s.Status == section.Refused {
		return // there is nothing for it to be absent from
	}
	for _, c := range t.b.rules.Courses() {
		if !slices.Contains(t.o.Courses, c) {
			t.notThere("course", c.Name, c.Label, t.o.WhyNot(c.When, c.Amended))
		}
	}
	for _, d := range t.o.Decided {
		if !d.Asked {
			t.notThere("decision", d.Decision.Name, label(t.b.rules, d.Decision.Name), t.o.WhyNot(d.Decision.When, d.Decision.Amended))
		}
	}
}

// notThere tells why something is not there: the clauses that failed, the reasons
// of the decisions that these read, and of those that gave them.
func (t *teller) notThere(sort, name, shown string, told []engine.ClauseTold) {
	out := section.Absent{Sort: sort, Name: name, Label: shown, Clauses: t.clauses(told), Because: []section.Sentence{}}
	seen := map[string]bool{}
	var visit func(clauses []section.Clause)
	visit = func(clauses []section.Clause) {
		for _, c := range clauses {
			for _, v := range c.Values {
				if v.Origin != rulebook.FromDecision || seen[v.Name] {
					continue
				}
				seen[v.Name] = true
				r := t.s.Reason(v.Name)
				for _, rule := range r.Taken {
					if rule.Standing == rulebook.NoStanding { // what the site is has reasons of its own
						out.Because = append(out.Because, rule.Because)
						visit(rule.Clauses)
					}
				}
				out.Set = append(out.Set, amendedIn(r.Passed)...)
			}
		}
	}
	visit(out.Clauses)
	t.s.Absent = append(t.s.Absent, out)
}

// amendedIn lists the amended settings by which rules do not apply.
func amendedIn(rules []section.Rule) []section.Used {
	var out []section.Used
	for _, rule := range rules {
		for _, c := range rule.Clauses {
			for _, v := range c.Values {
				if v.Amended != nil && rule.State == rulebook.NotHeld && !slices.ContainsFunc(out, func(u section.Used) bool { return u.Name == v.Name }) {
					out = append(out, v)
				}
			}
		}
	}
	return out
}

// accounts tells what each setting, term, word and material that the reasons name
// rests on, down to its source.
func (t *teller) accounts() {
	seen := map[string]bool{}
	word := func(v value.Value) {
		w, ok := v.Word()
		if !ok || seen[w.Name] {
			return
		}
		told := t.b.rules.Word(w.Name)
		if told.Source.IsZero() {
			return
		}
		seen[w.Name] = true
		t.s.Accounts = append(t.s.Accounts, section.Account{Sort: strings.ReplaceAll(told.Sort, "_", " "), Name: w.Name, Label: w.Label, Because: section.Plain(told.Because.Text),
			Source: t.cite(told.Source), Place: told.Place, Amended: deep.Copy(told.Amended)})
	}
	var name func(n string)
	name = func(n string) {
		if seen[n] {
			return
		}
		seen[n] = true
		if s, ok := t.b.rules.Setting(n); ok {
			t.s.Accounts = append(t.s.Accounts, section.Account{Sort: "setting", Name: n, Label: label(t.b.rules, n), Value: s.Value, Because: t.say(s.Why),
				Source: t.cite(s.Source), Place: s.Place, Amended: deep.Copy(s.Amended)})
			word(s.Value)
		}
		if term, ok := t.b.rules.Term(n); ok {
			reads := t.b.rules.Reads(n)
			t.s.Accounts = append(t.s.Accounts, section.Account{Sort: "term", Name: n, Label: label(t.b.rules, n), Reads: reads, Because: t.say(term.Why),
				Source: t.cite(term.Source), Place: term.Place, Amended: deep.Copy(term.Amended)})
			for _, each := range reads {
				name(each)
			}
		}
	}
	used := func(values []section.Used) {
		for _, v := range values {
			name(v.Name)
			word(v.Value)
		}
	}
	for _, r := range t.s.Refusals {
		for _, c := range r.Clauses {
			used(c.Values)
		}
	}
	for _, r := range t.s.Reasons {
		word(r.Answer)
		for _, rules := range [][]section.Rule{r.Taken, r.Passed} {
			for i := range rules {
				used(rules[i].Used)
				for _, c := range rules[i].Clauses {
					used(c.Values)
				}
			}
		}
	}
	slices.SortFunc(t.s.Accounts, func(a, b section.Account) int { return strings.Compare(a.Name, b.Name) })
}
