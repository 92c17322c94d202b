package impact

import (
	"slices"

	"example.com/groundrule/pkg/internal/differ"
)

// decision follows a decision that came out differently.
func (t *trace) decision(name string) {
	b, was := t.c.before.Decision(name)
	a, is := t.c.after.Decision(name)
	if !was || !is {
		t.blame(DecisionEntry, name)
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
		t.blame(DecisionEntry, name, "when")
		t.condition(b.When(), a.When())
		return
	}
	if !before.Asked || !t.material(before.Answer, after.Answer) && before.Answer.Equal(after.Answer) && slices.Equal(differ.Chosen(before), differ.Chosen(after)) {
		return
	}
	t.blame(DecisionEntry, name, "answers", "take", "order of rules")
	switch {
	case before.Override != nil:
		t.follow(before.Override.Answer)
	case after.Override == nil:
		t.rules(before, after)
	}
}
