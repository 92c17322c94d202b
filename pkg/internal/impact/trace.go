package impact

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/logic"
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
	found         []int // edits, perhaps more than once
}

// causes follows from one starting point and returns the edits found, in the
// order of the report.
func (t *trace) causes(follow func()) []int {
	t.seen, t.found = map[string]bool{}, nil
	follow()
	slices.Sort(t.found)
	return slices.Compact(t.found)
}

// blame finds an edit of an entry to be a cause, where one of the fields
// changed; an entry added or removed always is.
func (t *trace) blame(sort Entry, name string, fields ...string) bool {
	i, ok := t.c.edit(sort, name)
	if !ok {
		return false
	}
	e := &t.c.edits[i]
	if e.Done == Changed && len(fields) > 0 && !slices.ContainsFunc(e.Fields, func(f Field) bool { return slices.Contains(fields, f.Name) }) {
		return false
	}
	t.found = append(t.found, i)
	return true
}

// follow follows the names that a text reads, and blames the edits of the
// materials that it names.
func (t *trace) follow(text string) {
	for _, word := range language.Words(text) {
		t.name(word)
		t.word(word)
	}
}

func (t *trace) name(name string) {
	if t.seen[name] {
		return
	}
	t.seen[name] = true
	if t.blame("setting", name, "value") || !t.differs(name) {
		return
	}
	was, _ := t.c.before.OriginOf(name)
	is, _ := t.c.after.OriginOf(name)
	switch {
	case was == rulebook.FromTerm && is == rulebook.FromTerm:
		t.term(name)
	case was == rulebook.FromDecision && is == rulebook.FromDecision:
		t.decision(name)
	default: // it is another sort of thing now
		t.blame("term", name)
		t.blame("decision", name)
	}
}

func (t *trace) term(name string) {
	t.blame("term", name, "is", "when", "value")
	was, _ := t.c.before.Term(name)
	is, _ := t.c.after.Term(name)
	t.condition(was.When, is.When)
	t.condition(was.TermCondition, is.TermCondition)
	for _, e := range []*edition{t.c.before, t.c.after} {
		term, _ := e.Term(name)
		if f, ok := e.TermFormula(term); ok {
			t.follow(f.Text())
		}
	}
}

// differs reports whether a name has other values in the two runs, or has one in
// only one of them. It also blames an edited material that is the value.
func (t *trace) differs(name string) bool {
	was, errBefore := t.before.Value(name)
	is, errAfter := t.after.Value(name)
	if (errBefore == nil) != (errAfter == nil) {
		return true
	}
	return t.material(was, is) || !was.Equal(is)
}

// material blames the edits of materials that values are, or list.
func (t *trace) material(values ...value.Value) bool {
	found := false
	for _, v := range values {
		if all, ok := v.List(); ok {
			found = t.material(all...) || found
		} else if w, ok := v.Word(); ok {
			found = t.word(w.Name) || found
		}
	}
	return found
}

// word blames the edit of a word, such as a material.
func (t *trace) word(name string) bool {
	return slices.ContainsFunc(t.c.entries[name], func(e *entry) bool { return e.isWord && t.blame(e.sort, name) })
}

// condition follows the clauses that came out differently. Clauses that read
// the same are compared; one that only one of the conditions has is followed.
func (t *trace) condition(before, after *engine.Condition) {
	t.before.AskAll(before)
	t.after.AskAll(after)
	states := func(o *engine.Outcome, c *engine.Condition) map[string]logic.Truth {
		out := map[string]logic.Truth{}
		for _, each := range c.Clauses() {
			out[each.Text] = o.Clause(each.Index)
		}
		return out
	}
	was, is := states(t.before, before), states(t.after, after)
	for _, each := range slices.Concat(before.Clauses(), after.Clauses()) {
		a, inBefore := was[each.Text]
		b, inAfter := is[each.Text]
		// One that could not be asked in one of the runs, for want of a value, is
		// not told apart.
		if inBefore && inAfter && (a == b || a == logic.Unknown || b == logic.Unknown) {
			continue
		}
		t.follow(each.Text)
	}
}

// settled tells what a condition of the earlier rulebook comes to by those of
// its clauses that come to the same on the values of both runs, and unknown if
// they do not settle it.
func (t *trace) settled(c *engine.Condition) logic.Truth {
	t.before.AskAll(c)
	return c.Tree().Eval(func(clause int) logic.Truth {
		now := t.clauseNow(clause)
		if t.before.Clause(clause) != now {
			return logic.Unknown
		}
		return now
	})
}

// clauseNow works out a clause of the earlier rulebook on the values of the
// later run.
func (t *trace) clauseNow(clause int) logic.Truth {
	is, err := t.c.before.ClauseOn(clause, t.now)
	if err != nil {
		return logic.Unknown
	}
	return logic.Of(is)
}

// now returns the values of the later run.
func (t *trace) now(name string) (value.Value, bool) {
	v, err := t.after.Value(name)
	return v, err == nil
}
