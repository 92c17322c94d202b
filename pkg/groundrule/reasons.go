package groundrule

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/deep"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

func (t *teller) refusals() {
	t.s.NotCrossed = len(t.b.rules.Refusals()) - len(t.o.Refusals)
	for _, r := range t.o.Refusals {
		t.s.Refusals = append(t.s.Refusals, section.Refusal{ID: r.ID, Says: t.say(r.Says), Who: t.say(r.Who),
			Source: t.cite(r.Source), Place: r.Place, Clauses: t.clauses(t.o.Deciding(r.When)), Amended: deep.Copy(r.Amended)})
	}
}

func (t *teller) reasons() {
	t.s.Reasons = slices.Grow(t.s.Reasons, len(t.o.Decided)+len(t.o.Courses)+len(t.o.Work))
	decided := t.o.Decided
	if t.s.Status == section.Refused {
		decided = t.behindRefusals()
	}
	for _, d := range decided {
		if !d.Asked {
			continue
		}
		r := t.reason(d)
		t.s.Reasons = append(t.s.Reasons, r)
		if d.Rule != nil && d.Rule.Standing == rulebook.Presumed {
			t.s.Confirm = append(t.s.Confirm, section.Presumed{Name: r.Decision, Label: r.Label, Asks: r.Asks, Value: d.Answer,
				How: t.why(d.Rule), Confirm: t.say(d.Rule.ToConfirm).US, Rule: d.Rule.ID})
		}
	}
}

// behindRefusals lists the decisions on which the refusals rest, each behind those that
// it rests on.
func (t *teller) behindRefusals() (out []*engine.Decided) {
	seen := map[string]bool{}
	var visit func(names []string)
	clauses := func(told []engine.ClauseTold) {
		for _, c := range told {
			for _, v := range c.Values {
				visit([]string{v.Name})
			}
		}
	}
	visit = func(names []string) {
		for _, name := range names {
			if seen[name] {
				continue
			}
			seen[name] = true
			d, isDecision := t.b.rules.Decision(name)
			if !isDecision {
				visit(t.b.rules.Reads(name)) // of a term
				continue
			}
			decided, came := t.o.Came(d)
			if !came || !decided.Asked {
				continue
			}
			for i, rule := range d.Rules {
				if decided.States[i] == rulebook.Chosen {
					clauses(t.o.Clauses(rule.When))
					visit(rule.AnswerNames())
				}
			}
			out = append(out, decided)
		}
	}
	for _, r := range t.o.Refusals {
		clauses(t.o.Deciding(r.When))
	}
	return out
}

func (t *teller) reason(d *engine.Decided) section.Reason {
	out := section.Reason{Decision: d.Decision.Name, Label: label(t.b.rules, d.Decision.Name), Asks: d.Decision.Asks, Answer: d.Answer,
		Take: d.Decision.Take, Taken: []section.Rule{}, Passed: make([]section.Rule, 0, len(d.Decision.Rules)), Amended: deep.Copy(d.Decision.Amended)}
	if d.Override != nil {
		out.Taken = append(out.Taken, section.Rule{ID: "override", State: rulebook.Chosen, Answer: d.Answer,
			Because: section.Plain(d.Override.Because), By: d.Override.By, Clauses: []section.Clause{}, Used: []section.Used{}})
	}
	for i, rule := range d.Decision.Rules {
		told := t.rule(rule, d.States[i], d.Answers[i])
		if d.States[i] == rulebook.Chosen {
			told.RestsOn = t.passedOn(rule, d.Answer, told.Source)
			out.Taken = append(out.Taken, told)
		} else {
			out.Passed = append(out.Passed, told)
		}
	}
	return out
}

// passedOn names what a rule's answer rests on beside the rule's own source: the
// sources of the answers of its own kind that it is made of, and of the words whose
// properties it reads. A rule that rests on a publication answers for itself.
func (t *teller) passedOn(r *engine.Rule, answer value.Value, own string) []string {
	var out []string
	if r.Source.Published() {
		return nil
	}
	add := func(source string) {
		if source != own && !slices.Contains(out, source) {
			out = append(out, source)
		}
	}
	for _, p := range t.properties(r) {
		if p.Source.Published() {
			add(t.cite(p.Source))
		}
	}
	names := r.AnswerNames()
	for i := 0; i < len(names); i++ { // what a term reads stands for it
		if origin, _ := t.b.rules.OriginOf(names[i]); origin == rulebook.FromTerm {
			names = append(names, t.b.rules.Reads(names[i])...)
		}
	}
	for _, name := range names {
		from := t.s.Reason(name)
		if len(from.Taken) == 0 || from.Answer.Kind() != answer.Kind() {
			continue
		}
		rests := from.Taken[0].RestsOn
		if len(rests) == 0 && from.Taken[0].Source != "" {
			rests = []string{from.Taken[0].Source}
		}
		for _, source := range rests {
			add(source)
		}
	}
	return out
}

// properties returns the properties of words that a rule's answer reads, each with
// its own because and source or, without them, the source of its word.
func (t *teller) properties(r *engine.Rule) (out []rulebook.Property) {
	if !strings.Contains(r.Answer.Text, ".") {
		return nil
	}
	for _, u := range t.o.Used(r) {
		w, _ := u.Value.Word()
		for _, name := range slices.Sorted(maps.Keys(w.Properties())) {
			if !slices.Contains(r.AnswerReads(), u.Name+"."+name) {
				continue
			}
			word := t.b.rules.Word(w.Name)
			p, ok := word.Own[name]
			if !ok {
				p.Source = word.Source
			}
			out = append(out, p)
		}
	}
	return out
}

// why says why a rule answers as it does, and where it passes on a property, why
// that is as it is.
func (t *teller) why(r *engine.Rule) section.Sentence {
	out := t.say(r.Because)
	for _, p := range t.properties(r) {
		if p.Because.Text == "" {
			continue
		}
		if out.US += " " + p.Because.Text; out.SI != "" {
			out.SI += " " + p.Because.Text
		}
	}
	return out
}

func (t *teller) rule(r *engine.Rule, state rulebook.State, answer value.Value) section.Rule {
	out := section.Rule{ID: r.ID, State: state, Place: r.Place, Chapter: r.Chapter, Source: t.cite(r.Source),
		Standing: r.Standing, Amended: deep.Copy(r.Amended), Clauses: []section.Clause{}, Used: []section.Used{}}
	if state != rulebook.NotReached {
		out.Clauses = t.clauses(t.o.Deciding(r.When))
	}
	if state == rulebook.NotReached || state == rulebook.NotHeld {
		out.AnswerText, out.BecauseTemplate = r.Answer.Text, r.Because.String()
		return out
	}
	out.Answer, out.Because, out.Used = answer, t.why(r), t.used(t.o.Used(r))
	return out
}

func (t *teller) clauses(told []engine.ClauseTold) []section.Clause {
	out := make([]section.Clause, 0, len(told))
	for _, c := range told {
		out = append(out, section.Clause{Text: c.Text, Place: c.Place, Column: c.Column, Holds: c.Holds, Values: t.used(c.Values), Amended: deep.Copy(c.Amended)})
	}
	return out
}

// used lists values with where they come from, and which were presumed.
func (t *teller) used(values []rulebook.NamedValue) []section.Used {
	out := used(t.b.rules, values)
	for i := range out {
		out[i].Presumed = t.o != nil && t.o.Presumed(out[i].Name)
	}
	return out
}

func used(rules *engine.Book, values []rulebook.NamedValue) []section.Used {
	out := make([]section.Used, 0, len(values))
	for _, v := range values {
		origin, _ := rules.OriginOf(v.Name)
		u := section.Used{Name: v.Name, Label: label(rules, v.Name), Value: v.Value, Origin: origin}
		if known, ok := siteLabels()[v.Name]; ok && origin == rulebook.FromSite && rules.Texts().Names[v.Name] == "" {
			u.Label = known
		}
		if setting, ok := rules.Setting(v.Name); ok {
			u.Amended = deep.Copy(setting.Amended)
		} else if term, ok := rules.Term(v.Name); ok {
			u.Amended = deep.Copy(term.Amended)
		}
		out = append(out, u)
	}
	return out
}
