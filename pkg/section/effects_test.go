package section_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// effects writes differences as lines, what makes each behind it.
func effects(all []section.Effect) []string {
	var out []string
	for _, e := range all {
		what := strings.Join(strings.Fields(e.Course+" "+e.Quantity+" "+e.What), " ")
		line := fmt.Sprintf("%s: %s -> %s", what, e.Without, e.With)
		if e.RuleWithout+e.RuleWith != "" {
			line += fmt.Sprintf(" (%s -> %s)", e.RuleWithout, e.RuleWith)
		}
		if makes := effects(e.Makes); makes != nil {
			line += " by " + strings.Join(makes, "; ")
		}
		out = append(out, line)
	}
	return out
}

// used is what a rule read.
func used(name string, origin rulebook.Origin, v float64) section.Used {
	return section.Used{Name: name, Label: "the " + name, Origin: origin, Value: value.Number(v)}
}

// reason is one of a decision with the rule that was taken.
func reason(decision, rule string, answer float64, read ...section.Used) section.Reason {
	return section.Reason{Decision: decision, Label: "the " + decision, Answer: value.Number(answer), Taken: []section.Rule{{ID: rule, Used: read}}}
}

// laid is a course with attributes of one decision each.
func laid(name string, attributes ...section.Attribute) section.Course {
	return section.Course{Name: name, Label: strings.ToUpper(name), Rule: "COURSE-" + name, Attributes: attributes}
}

func attribute(name, rule string, v float64) section.Attribute {
	return section.Attribute{Name: name, Label: "its " + name, Value: value.Number(v), Decision: name + "_decided", Rule: rule}
}

// TestEffects holds what differs between two sections, in what order, and what makes
// the difference.
func TestEffects(t *testing.T) {
	const site, setting, term, decision = rulebook.FromSite, rulebook.FromSetting, rulebook.FromTerm, rulebook.FromDecision
	base := func(v float64, rule string, reasons ...section.Reason) *section.Section {
		return &section.Section{Courses: []section.Course{laid("base", attribute("thickness", rule, v))}, Reasons: reasons}
	}
	stone := func(amount float64) []section.Quantity {
		return []section.Quantity{{ID: "STONE", About: section.Plain("stone"), Amount: value.Number(amount)}}
	}
	wet := []section.Account{{Sort: "word", Name: "wet"}, {Sort: "term", Name: "wet", Reads: []string{"soil", "rain"}}}
	deep := func(v float64) value.Value { return value.Measured(quantity.Inches(v)) }
	for _, c := range []struct {
		name, why string
		was, is   *section.Section
		want      []string
	}{
		{"nothing", "a section differs in nothing from one like it", base(4, "A"), base(4, "A"), nil},
		{"courses", "one that is new stands behind that which it follows", &section.Section{Courses: []section.Course{laid("soil"), laid("base"), laid("sand"), laid("paver")}},
			&section.Section{Courses: []section.Course{laid("soil"), laid("fabric"), laid("grid"), laid("base"), laid("paver")}},
			[]string{"FABRIC laid: no -> yes ( -> COURSE-fabric)", "GRID laid: no -> yes ( -> COURSE-grid)", "SAND laid: yes -> no (COURSE-sand -> )"}},
		{"attributes", "by value or by rule, also one that is new or gone",
			&section.Section{Courses: []section.Course{laid("base", attribute("lifts", "A", 1), attribute("same", "A", 1), attribute("gone", "A", 1), attribute("rule", "A", 1))}},
			&section.Section{Courses: []section.Course{laid("base", attribute("lifts", "A", 2), attribute("same", "A", 1), attribute("new", "B", 3), attribute("rule", "B", 1))}},
			[]string{"BASE its lifts: 1 -> 2 (A -> A)", "BASE its new: nothing -> 3 ( -> B)", "BASE its gone: 1 -> nothing (A -> )", "BASE its rule: 1 -> 1 (A -> B)"}},
		{"the dig", "behind the courses", &section.Section{Depth: deep(9)}, &section.Section{Depth: deep(10)}, []string{"dig: 9 in -> 10 in"}},
		{"quantities", "where both have them", &section.Section{Quantities: stone(3)}, &section.Section{Quantities: stone(4)}, []string{"STONE stone: 3 -> 4"}},
		{"a quantity gone", "by the name that it had", &section.Section{Quantities: stone(3)}, &section.Section{Quantities: []section.Quantity{}}, []string{"STONE stone: 3 -> nothing"}},
		{"no quantities", "one was made without them", &section.Section{Quantities: stone(3)}, &section.Section{}, nil},

		{"another rule", "it answers in place of the first", base(4, "A", reason("thickness_decided", "A", 4)), base(6, "B", reason("thickness_decided", "B", 6)),
			[]string{"BASE its thickness: 4 -> 6 (A -> B) by the thickness_decided: 4 -> 6 (A -> B)"}},
		{"another value", "of the job, that the same rule read", base(4, "A", reason("thickness_decided", "A", 4, used("cbr", site, 5), used("least", setting, 4))),
			base(6, "A", reason("thickness_decided", "A", 6, used("cbr", site, 3), used("least", setting, 4))), []string{"BASE its thickness: 4 -> 6 (A -> A) by the cbr: 5 -> 3"}},
		{"another decision", "followed to what that rests on", base(4, "A", reason("thickness_decided", "A", 4, used("need", decision, 4)), reason("need", "N", 4, used("cbr", site, 5))),
			base(6, "A", reason("thickness_decided", "A", 6, used("need", decision, 6)), reason("need", "N", 6, used("cbr", site, 3))), []string{"BASE its thickness: 4 -> 6 (A -> A) by the cbr: 5 -> 3"}},
		{"a term", "through the decision that it reads and that differs", func() *section.Section {
			s := base(4, "A", reason("thickness_decided", "A", 4, used("wet", term, 0)), reason("soil", "S", 1), reason("rain", "R", 1))
			s.Accounts = wet
			return s
		}(), func() *section.Section {
			s := base(6, "A", reason("thickness_decided", "A", 6, used("wet", term, 1)), reason("soil", "S", 1), reason("rain", "R2", 2))
			s.Accounts = wet
			return s
		}(), []string{"BASE its thickness: 4 -> 6 (A -> A) by the rain: 1 -> 2 (R -> R2)"}},
		{"a term alone", "where nothing that it reads has a reason", base(4, "A", reason("thickness_decided", "A", 4, used("wet", term, 0))), base(6, "A", reason("thickness_decided", "A", 6, used("wet", term, 1))),
			[]string{"BASE its thickness: 4 -> 6 (A -> A) by the wet: 0 -> 1"}},
		{"one cause twice", "it is told once", base(4, "A", reason("thickness_decided", "A", 4, used("need", decision, 4), used("cbr", site, 5)), reason("need", "N", 4, used("cbr", site, 5))),
			base(6, "A", reason("thickness_decided", "A", 6, used("need", decision, 6), used("cbr", site, 3)), reason("need", "N", 6, used("cbr", site, 3))), []string{"BASE its thickness: 4 -> 6 (A -> A) by the cbr: 5 -> 3"}},
		{"two rules of one thing", "each is told", base(4, "A", reason("thickness_decided", "A", 4, used("need", decision, 4), used("cover", decision, 2)), reason("need", "N", 4), reason("cover", "C", 2)),
			base(6, "A", reason("thickness_decided", "A", 6, used("need", decision, 6), used("cover", decision, 3)), reason("need", "N2", 6), reason("cover", "C2", 3)),
			[]string{"BASE its thickness: 4 -> 6 (A -> A) by the need: 4 -> 6 (N -> N2); the cover: 2 -> 3 (C -> C2)"}},
		{"in a circle", "a decision that is looked at already is not followed again", base(4, "A", reason("thickness_decided", "A", 4, used("need", decision, 4)), reason("need", "N", 4, used("thickness_decided", decision, 4))),
			base(6, "A", reason("thickness_decided", "A", 6, used("need", decision, 6)), reason("need", "N", 6, used("thickness_decided", decision, 6))), []string{"BASE its thickness: 4 -> 6 (A -> A)"}},
		{"by a person", "who decided, and not that somebody did", base(4, "A", reason("thickness_decided", "A", 4)),
			base(6, "override", section.Reason{Decision: "thickness_decided", Label: "thickness", Answer: value.Number(6), Taken: []section.Rule{{ID: "override", By: "J. Orr"}}}),
			[]string{"BASE its thickness: 4 -> 6 (A -> override) by thickness: 4 -> 6 (A -> J. Orr)"}},
		{"asked in one alone", "nothing can be compared", base(4, "A"), base(6, "B", reason("thickness_decided", "B", 6)), []string{"BASE its thickness: 4 -> 6 (A -> B)"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.want, effects(c.was.Effects(c.is)), c.why)
			require.NotNil(t, c.was.Effects(c.is), "none is an empty list, as the JSON has it")
		})
	}
}
