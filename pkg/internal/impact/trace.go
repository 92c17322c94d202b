package impact

import (
	"maps"
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// trace follows what came out differently back to the edits it rests on. Only
// names whose values differ between the two runs are followed, and of a decision
// only the rules by which it came out differently.
type trace struct {
	c             *comparer
	before, after *engine.Outcome
	seen          map[string]bool
	found         map[int]bool
}

func (c *comparer) trace(before, after *engine.Outcome) *trace {
	return &trace{c: c, before: before, after: after}
}

// causes follows from one starting point and gives the edits found, in the order
// of the report.
func (t *trace) causes(follow func()) []int {
	t.seen, t.found = map[string]bool{}, map[int]bool{}
	follow()
	return slices.Sorted(maps.Keys(t.found))
}

// edit returns the edit of an entry, nil if it has none that answers depend on.
func (t *trace) edit(sort Entry, name string) *Edit {
	if i, ok := t.c.byID[string(sort)+" "+name]; ok && t.c.edits[i].bears() {
		return &t.c.edits[i]
	}
	return nil
}

// blame finds an edit of an entry to be a cause, where one of the fields
// changed; an entry added or removed always is.
func (t *trace) blame(sort Entry, name string, fields ...string) bool {
	e := t.edit(sort, name)
	if e == nil {
		return false
	}
	if e.Done == Changed && len(fields) > 0 && !slices.ContainsFunc(fields, e.field) {
		return false
	}
	t.found[t.c.byID[e.ID]] = true
	return true
}

// names follows the names that a text reads.
func (t *trace) names(all []string) {
	for _, n := range all {
		t.name(n)
	}
}

func (t *trace) name(name string) {
	if t.seen[name] {
		return
	}
	t.seen[name] = true
	if t.blame(SettingEntry, name, "value") {
		return
	}
	was, _ := inside.Rules(t.c.before).OriginOf(name)
	is, _ := inside.Rules(t.c.after).OriginOf(name)
	if was == rulebook.FromSite && is == rulebook.FromSite || was == rulebook.FromSetting && is == rulebook.FromSetting || !t.differs(name) {
		return
	}
	switch {
	case was == rulebook.FromTerm || is == rulebook.FromTerm:
		t.term(name)
	case was == rulebook.FromDecision || is == rulebook.FromDecision:
		t.decision(name)
	}
}

func (t *trace) term(name string) {
	t.blame(TermEntry, name, "is", "when", "value")
	before, was := inside.Rules(t.c.before).Term(name)
	after, is := inside.Rules(t.c.after).Term(name)
	if !was || !is {
		return
	}
	t.condition(before.When(), after.When())
	t.condition(before.TermCondition(), after.TermCondition())
	for _, each := range []struct {
		book *engine.Book
		term *engine.Term
	}{{inside.Rules(t.c.before), before}, {inside.Rules(t.c.after), after}} {
		if f, ok := each.book.TermFormula(each.term); ok {
			t.names(f.Names())
			t.materialsIn(f.Text())
		}
	}
}

// differs reports whether a name has other values in the two runs, or has one in only
// one of them. It also blames an edited material that is the value.
func (t *trace) differs(name string) bool {
	was, errBefore := t.before.Value(name)
	is, errAfter := t.after.Value(name)
	if (errBefore == nil) != (errAfter == nil) {
		return true
	}
	edited := t.material(was) || t.material(is)
	return edited || !was.Equal(is)
}

// material blames the edits of materials that a value is, or lists.
func (t *trace) material(v value.Value) bool {
	if all, ok := v.List(); ok {
		found := false
		for _, each := range all {
			found = t.material(each) || found
		}
		return found
	}
	w, ok := v.Word()
	return ok && t.c.materials[w.Name] && t.blame(MaterialEntry, w.Name)
}

// materialsIn blames the edits of materials that a text names.
func (t *trace) materialsIn(text string) {
	for name := range t.c.materials {
		if namesIn(text, name) {
			t.blame(MaterialEntry, name)
		}
	}
}

// condition follows the clauses that came out differently. Clauses that read
// the same are compared; one that only one of the conditions has is followed.
func (t *trace) condition(before, after *engine.Condition) {
	t.before.AskAll(before)
	t.after.AskAll(after)
	was, is := before.Clauses(), after.Clauses()
	came, comes := t.before.ClauseStates(), t.after.ClauseStates()
	for _, a := range was {
		i := slices.IndexFunc(is, func(b engine.ClauseAt) bool { return b.Text == a.Text })
		if i >= 0 && !clauseDiffers(came[a.Index()], comes[is[i].Index()]) {
			continue
		}
		t.names(inside.Rules(t.c.before).ClauseNames(a.Index()))
		t.materialsIn(a.Text)
	}
	for _, b := range is {
		i := slices.IndexFunc(was, func(a engine.ClauseAt) bool { return a.Text == b.Text })
		if i < 0 || clauseDiffers(came[was[i].Index()], comes[b.Index()]) {
			t.names(inside.Rules(t.c.after).ClauseNames(b.Index()))
			t.materialsIn(b.Text)
		}
	}
}

// clauseDiffers reports whether a clause came out differently in the two runs. One
// that could not be asked in one of them, for want of a value, is not told apart.
func clauseDiffers(a, b engine.ClauseState) bool {
	return a != b && a != engine.Unasked && b != engine.Unasked
}

// namesIn reports whether a text of the rule language has a name in it.
func namesIn(text, name string) bool {
	for _, each := range words(text) {
		if each == name {
			return true
		}
	}
	return false
}

// words splits a text of the rule language into its names; of a name with dots
// each part is given too.
func words(text string) []string {
	var out []string
	inName := func(c byte) bool {
		return c == '_' || c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z'
	}
	for i := 0; i < len(text); {
		if !inName(text[i]) {
			i++
			continue
		}
		start := i
		for i < len(text) && inName(text[i]) {
			i++
		}
		out = append(out, text[start:i])
	}
	return out
}
