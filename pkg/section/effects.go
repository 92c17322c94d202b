package section

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Effects lists what differs in another section: whether each course is laid, what it
// is made of and by which rule, from the bottom up, then the dig, then how much is
// taken of what, where both were made with the form [Takeoff]. Of sections with their
// reasons it says what makes the difference.
func (s *Section) Effects(then *Section) []Effect {
	out := []Effect{}
	course := func(c Course) string { return c.Name }
	for _, name := range merged(names(s.Courses, course), names(then.Courses, course)) {
		was, is := s.Course(name), then.Course(name)
		switch {
		case was.Name == "":
			out = append(out, Effect{Course: is.Label, What: "laid", Without: value.Bool(false), With: value.Bool(true), RuleWith: is.Rule})
		case is.Name == "":
			out = append(out, Effect{Course: was.Label, What: "laid", Without: value.Bool(true), With: value.Bool(false), RuleWithout: was.Rule})
		default:
			out = append(out, s.attributes(then, was, is)...)
		}
	}
	if !s.Depth.Equal(then.Depth) {
		out = append(out, Effect{What: "dig", Without: s.Depth, With: then.Depth})
	}
	id := func(q Quantity) string { return q.ID }
	for _, name := range merged(names(s.Quantities, id), names(then.Quantities, id)) {
		is := func(q *Quantity) bool { return q.ID == name }
		was, now := find(s.Quantities, is), find(then.Quantities, is)
		if !was.Amount.Equal(now.Amount) && s.Quantities != nil && then.Quantities != nil {
			about := now.About
			if now.ID == "" {
				about = was.About
			}
			out = append(out, Effect{Quantity: name, What: about.US, Without: was.Amount, With: now.Amount})
		}
	}
	return out
}

// names returns the name of each, or what else it is told by.
func names[T any](list []T, name func(T) string) (out []string) {
	for _, each := range list {
		out = append(out, name(each))
	}
	return out
}

// merged puts names of a second list that a first has not behind those that they
// follow.
func merged(first, second []string) []string {
	out := slices.Clone(first)
	at := 0
	for _, name := range second {
		if i := slices.Index(out, name); i >= 0 {
			at = i + 1
			continue
		}
		out = slices.Insert(out, at, name)
		at++
	}
	return out
}

// attributes lists what differs of a course that both lay, also where the same value
// has another rule.
func (s *Section) attributes(then *Section, was, is Course) (out []Effect) {
	name := func(a Attribute) string { return a.Name }
	for _, each := range merged(names(was.Attributes, name), names(is.Attributes, name)) {
		a, b := was.Attribute(each), is.Attribute(each)
		if a.Value.Equal(b.Value) && a.Rule == b.Rule {
			continue
		}
		e := Effect{Course: is.Label, What: b.Label, Without: a.Value, With: b.Value, RuleWithout: a.Rule, RuleWith: b.Rule}
		decision := b.Decision
		if b.Name == "" {
			e.What, decision = a.Label, a.Decision
		}
		if !a.Value.Equal(b.Value) {
			e.Makes = s.makes(then, decision, map[string]bool{})
		}
		out = append(out, e)
	}
	return out
}

// makes says what makes the difference of a decision: another rule that answers it or
// what it rests on, or another value that it reads.
func (s *Section) makes(then *Section, decision string, seen map[string]bool) (out []Effect) {
	was, is := s.Reason(decision), then.Reason(decision)
	if seen[decision] || was.Decision == "" || is.Decision == "" {
		return nil
	}
	seen[decision] = true
	id := func(r Rule) string { return cmp.Or(r.By, r.ID) } // who decided, in place of the rules
	if before, after := names(was.Taken, id), names(is.Taken, id); !slices.Equal(before, after) {
		return []Effect{{What: is.Label, Without: was.Answer, With: is.Answer, RuleWithout: strings.Join(before, ", "), RuleWith: strings.Join(after, ", ")}}
	}
	used := func(r Reason) (all []Used) {
		for _, rule := range r.Taken {
			all = append(all, rule.Used...)
		}
		return all
	}
	before := used(was)
	for _, u := range used(is) {
		old := find(before, func(each *Used) bool { return each.Name == u.Name })
		if old.Value.Equal(u.Value) {
			continue
		}
		var deeper []Effect
		switch u.Origin {
		case rulebook.FromDecision:
			deeper = s.makes(then, u.Name, seen)
		case rulebook.FromTerm:
			term := find(then.Accounts, func(a *Account) bool { return a.Sort == "term" && a.Name == u.Name })
			for _, read := range term.Reads {
				if !s.Reason(read).Answer.Equal(then.Reason(read).Answer) {
					deeper = append(deeper, s.makes(then, read, seen)...)
				}
			}
		}
		if len(deeper) == 0 && (u.Origin != rulebook.FromDecision || !seen[u.Name]) {
			deeper = []Effect{{What: u.Label, Without: old.Value, With: u.Value}}
		}
		for _, each := range deeper {
			if !slices.ContainsFunc(out, func(e Effect) bool { return e.What == each.What && e.RuleWith == each.RuleWith }) {
				out = append(out, each)
			}
		}
	}
	return out
}
