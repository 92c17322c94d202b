package sheet

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/section"
)

// Questions writes the first of some questions with its choices and what comes of
// each, and how many there are. The only error is that of w.
func Questions(w io.Writer, questions []section.Question, system quantity.System) error {
	p := &page{system: system}
	if len(questions) == 0 {
		p.Put(0, "", "Nothing is left to ask: no likely answer changes the section by more than the rulebook asks for.")
		return p.Write(w)
	}
	q := questions[0]
	p.Put(0, "", q.Asks+" ("+q.Key+")")
	for _, s := range []section.Sentence{q.Worth, q.How} {
		if said := p.sentence(s); said != "" {
			p.Put(0, "", said)
		}
	}
	p.Blank()
	for _, c := range q.Choices {
		name := c.Answer
		if c.Label != "" {
			name += " (" + c.Label + ")"
		}
		p.Put(2, "", name+": "+fullStop(cmp.Or(p.comes(c), "changes nothing")))
	}
	p.Put(2, "", "unknown: what is assumed stays.")
	p.Blank()
	if n := len(questions); n == 1 {
		p.Put(0, "", "It is the only question open.")
	} else {
		p.Put(0, "", fmt.Sprintf("%d questions are open; an answer may settle several.", n))
		for _, other := range questions[1:] {
			if slices.ContainsFunc(other.Choices, func(c section.Otherwise) bool {
				mass, _ := c.Mass.Measure()
				return mass.SI != 0 || c.Price != "" && c.Price != "0.00"
			}) {
				p.Put(2, "- ", other.Key+": "+p.sentence(other.Worth))
			}
		}
	}
	return p.Write(w)
}
