package impact

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
)

// reaches lists every edit that the entries of some names can depend on at all:
// those of decisions, terms and settings, of rules, and of checks and refusals
// by their ids.
func (c *comparer) reaches(names ...string) []int {
	found := map[int]bool{}
	for _, b := range []*engine.Book{inside.Rules(c.before), inside.Rules(c.after)} {
		r := reach{c: c, book: b, seen: map[string]bool{}, found: found}
		for _, n := range names {
			r.from(n)
		}
	}
	return slices.Sorted(maps.Keys(found))
}

type reach struct {
	c     *comparer
	book  *engine.Book
	seen  map[string]bool
	found map[int]bool
}

func (r *reach) blame(sort Entry, name string) {
	if i, ok := r.c.byID[string(sort)+" "+name]; ok && r.c.edits[i].bears() {
		r.found[i] = true
	}
}

func (r *reach) from(name string) {
	if name == "" || r.seen[name] {
		return
	}
	r.seen[name] = true
	for _, sort := range []Entry{SettingEntry, TermEntry, DecisionEntry, CheckEntry, RefusalEntry, CautionEntry, CourseEntry} {
		r.blame(sort, name)
	}
	for _, read := range r.book.Reads(name) {
		r.from(read)
	}
	if d, ok := r.book.Decision(name); ok {
		for _, rule := range d.Rules {
			r.blame(RuleEntry, rule.ID)
			r.materials(rule.Answer.Text)
		}
	}
	for _, d := range r.book.Decisions() {
		if slices.ContainsFunc(d.Rules, func(rule *engine.Rule) bool { return rule.ID == name }) {
			r.from(d.Name)
		}
	}
	r.conditions(name)
}

func (r *reach) materials(text string) {
	for name := range r.c.materials {
		if namesIn(text, name) {
			r.blame(MaterialEntry, name)
		}
	}
}

// conditions follows a check or a refusal.
func (r *reach) conditions(id string) {
	for _, c := range r.book.Checks() {
		if c.ID != id {
			continue
		}
		r.all(c.When().Names())
		r.all(c.Holds().Names())
		if value, limit, ok := r.book.CheckFormulas(c); ok {
			r.all(value.Names())
			r.all(limit.Names())
		}
	}
	for _, each := range r.book.Refusals() {
		if each.ID == id {
			r.all(each.When().Names())
		}
	}
}

func (r *reach) all(names []string) {
	for _, n := range names {
		r.from(n)
	}
}
