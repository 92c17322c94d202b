package impact

import (
	"slices"

	"example.com/groundrule/pkg/internal/differ"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/logic"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// decision follows a decision that came out differently.
func (t *trace) decision(name string) {
	b, was := t.c.before.Decision(name)
	a, is := t.c.after.Decision(name)
	if !was || !is {
		t.blame("decision", name)
		return
	}
	before, errBefore := t.before.DecidedBy(name)
	after, errAfter := t.after.DecidedBy(name)
	if errBefore != nil || errAfter != nil {
		// It cannot be told which edit did it, so every one that can have a part is
		// a cause.
		t.found = append(t.found, t.c.reaches(name)...)
		return
	}
	if before.Asked != after.Asked {
		t.blame("decision", name, "when")
		t.condition(b.When, a.When)
		return
	}
	if !before.Asked || !t.material(before.Answer, after.Answer) && before.Answer.Equal(after.Answer) && slices.Equal(differ.Chosen(before), differ.Chosen(after)) {
		return
	}
	t.blame("decision", name, "answers", "take", "order of rules")
	switch {
	case before.Override != nil:
		t.follow(before.Override.Answer)
	case after.Override == nil:
		t.rules(before, after)
	}
}

// applied is a rule in one run: nil rule if the book has none of that name.
type applied struct {
	rule   *engine.Rule
	state  rulebook.State
	answer value.Value // of a rule that holds and was reached
}

func (a applied) chosen() bool { return a.state == rulebook.Chosen }
func (a applied) holds() bool  { return a.chosen() || a.state == rulebook.Held }

func apply(d *engine.Decided, id string) applied {
	for i, r := range d.Decision.Rules {
		if r.ID == id {
			return applied{r, d.States[i], d.Answers[i]}
		}
	}
	return applied{}
}

// rules follows the rules on which the later answer rests: that whose answer was
// taken, and those that would have answered otherwise if they had come out, or
// stood there, as they did before.
func (t *trace) rules(before, after *engine.Decided) {
	for _, r := range differ.Either(after.Decision.Rules, before.Decision.Rules, func(r *engine.Rule) string { return r.ID }) {
		id := r.ID
		was, is := apply(before, id), apply(after, id)
		switch {
		case is.chosen():
			t.comesTo(was, is, true)
			t.answers(was, is)
		case was.rule == nil:
		case was.chosen() && is.rule == nil:
			t.blame("rule", id)
		case after.Decision.Take == rulebook.Largest, after.Decision.Take == rulebook.Smallest:
			t.givesWay(was, is, after)
		case after.Decision.Take == rulebook.First:
			in := after.Decision
			if is.rule == nil {
				in = before.Decision
			}
			if standsBefore(id, after.Rule, in) {
				t.comesTo(was, is, false)
			}
		case !is.holds():
			t.comesTo(was, is, false)
		}
	}
}

// standsBefore reports whether a rule stands before another; it does where the
// other does not stand there at all.
func standsBefore(id string, other *engine.Rule, in *engine.Decision) bool {
	at := func(id string) int {
		return slices.IndexFunc(in.Rules, func(r *engine.Rule) bool { return r.ID == id })
	}
	return other == nil || at(other.ID) < 0 || at(id) < at(other.ID)
}

// comesTo follows why the condition of a rule comes to what it does in the later
// run. It needs no edit where what is as before settles it.
func (t *trace) comesTo(was, is applied, holds bool) {
	if was.rule == nil {
		t.blame("rule", is.rule.ID)
		return
	}
	if t.settled(was.rule.When) == logic.Of(holds) {
		return
	}
	if is.rule == nil {
		t.blame("rule", was.rule.ID)
		return
	}
	t.blame("rule", was.rule.ID, "when", "decision")
	t.condition(was.rule.When, is.rule.When)
}

// givesWay follows a rule whose answer, as it was, would be taken in place of
// the later one.
func (t *trace) givesWay(was, is applied, after *engine.Decided) {
	order := 1
	if after.Decision.Take == rulebook.Smallest {
		order = -1
	}
	beyond := func(v value.Value) bool {
		came, ok := v.Compare(after.Answer)
		return ok && order*came > 0
	}
	if !beyond(was.answer) && !beyond(t.asItWas(was.rule)) {
		return
	}
	switch {
	case is.rule == nil:
		t.blame("rule", was.rule.ID)
	case is.holds():
		t.answers(was, is)
	default:
		t.comesTo(was, is, false)
	}
}

// asItWas works out what a rule of the earlier rulebook would answer with the
// values of the later run; the zero value if it would not hold.
func (t *trace) asItWas(r *engine.Rule) value.Value {
	if r.When.Tree().Eval(t.clauseNow) != logic.Yes {
		return value.Value{}
	}
	v, err := t.c.before.AnswerFormula(r).On(t.now)
	if err != nil {
		return value.Value{}
	}
	return v
}

// answers follows what the answer of a rule reads, unless it is the same in both
// runs.
func (t *trace) answers(was, is applied) {
	if !was.answer.IsZero() && was.answer.Equal(is.answer) && !t.material(was.answer) {
		return
	}
	t.blame("rule", is.rule.ID, "answer")
	if was.rule != nil {
		t.follow(was.rule.Answer.Text)
	}
	t.follow(is.rule.Answer.Text)
}
