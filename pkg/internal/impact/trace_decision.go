package impact

import (
	"slices"

	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/inside"
	"example.com/groundrule/pkg/rulebook"
)

// decision follows a decision that came out differently.
func (t *trace) decision(name string) {
	b, was := inside.Rules(t.c.before).Decision(name)
	a, is := inside.Rules(t.c.after).Decision(name)
	if !was || !is {
		t.blame(DecisionEntry, name)
		return
	}
	before, errBefore := t.before.DecidedBy(name)
	after, errAfter := t.after.DecidedBy(name)
	if errBefore != nil || errAfter != nil {
		t.reaches(name)
		return
	}
	if before.Asked != after.Asked {
		t.blame(DecisionEntry, name, "when")
		t.condition(b.When(), a.When())
		return
	}
	edited := t.material(before.Answer)
	edited = t.material(after.Answer) || edited
	if !before.Asked || !edited && before.Answer.Equal(after.Answer) && sameDeciding(before, after) {
		return
	}
	t.blame(DecisionEntry, name, "answers", "take", "order of rules")
	if before.Override != nil || after.Override != nil {
		t.override(before)
		return
	}
	t.rules(before, after)
}

// sameDeciding reports whether the same rules decided in both runs.
func sameDeciding(before, after *engine.Decided) bool {
	chosen := func(d *engine.Decided) []string {
		var out []string
		for i, s := range d.States {
			if s == rulebook.Chosen {
				out = append(out, d.Decision.Rules[i].ID)
			}
		}
		return out
	}
	return slices.Equal(chosen(before), chosen(after))
}

// override follows the names that a person's answer reads.
func (t *trace) override(d *engine.Decided) {
	if d.Override == nil {
		return
	}
	for _, word := range words(d.Override.Answer) {
		t.name(word)
		if t.c.materials[word] {
			t.blame(MaterialEntry, word)
		}
	}
}

// reaches blames every edit that a name can depend on at all, where it cannot be
// told which did.
func (t *trace) reaches(names ...string) {
	for _, i := range t.c.reaches(names...) {
		t.found[i] = true
	}
}
