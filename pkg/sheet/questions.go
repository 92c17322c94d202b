package sheet

import (
	"fmt"
	"io"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Questions writes the first of some questions with its choices and what comes of
// each, and how many there are. The only error is that of w.
func Questions(w io.Writer, questions []section.Question, system quantity.System) error {
	t := &text{page: page{system: system}}
	if len(questions) == 0 {
		t.put(0, "", "Nothing is left to ask: no likely answer changes the section by more than the rulebook asks for.")
		return t.writeTo(w)
	}
	q := questions[0]
	t.put(0, "", q.Asks+" ("+q.Key+")")
	if worth := t.sentence(q.Worth); worth != "" {
		t.put(0, "", worth)
	}
	if how := t.sentence(q.How); how != "" {
		t.put(0, "", how)
	}
	t.blank()
	for _, c := range q.Choices {
		name, comes := c.Answer, t.comes(c)
		if c.Label != "" {
			name += " (" + c.Label + ")"
		}
		if comes == "" {
			comes = "changes nothing"
		}
		t.put(2, "", name+": "+fullStop(comes))
	}
	t.put(2, "", "unknown: what is assumed stays.")
	t.blank()
	if n := len(questions); n == 1 {
		t.put(0, "", "It is the only question open.")
	} else {
		t.put(0, "", fmt.Sprintf("%d questions are open; an answer may settle several.", n))
		for _, other := range questions[1:] {
			if slices.ContainsFunc(other.Choices, func(c section.Otherwise) bool {
				mass, _ := c.Mass.Measure()
				return mass.SI != 0 || c.Price != "" && c.Price != "0.00"
			}) {
				t.put(2, "- ", other.Key+": "+t.sentence(other.Worth))
			}
		}
	}
	return t.writeTo(w)
}
