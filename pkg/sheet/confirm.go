package sheet

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/section"
)

// confirm lists what nobody measured, with what comes of each answer, and what the
// job does not say and would change the section. What changes nothing is told in one
// line. A section without its questions does not tell these apart.
func (t *text) confirm() {
	var idle []string
	asked := map[string]bool{}
	heading := false
	for _, p := range t.s.Confirm {
		open := t.open(p.Keys)
		if t.s.Questions != nil && len(p.Keys) > 0 && len(open) == 0 {
			idle = append(idle, p.Label+" ("+t.value(p.Value)+")")
			continue
		}
		if !heading {
			heading = true
			t.heading("CONFIRM BEFORE BUILDING (assumed, not measured)")
		}
		t.put(2, "[ ] ", capital(p.Label)+", assumed: "+t.value(p.Value)+". ("+strings.TrimSpace(p.Asks)+")")
		t.put(6, "", "Assumed because: "+t.sentence(p.How)+" Rule "+p.Rule+".")
		if p.Confirm != "" {
			t.put(6, "", "To confirm: "+fullStop(p.Confirm))
		}
		t.questions(open, asked)
	}
	if len(idle) > 0 {
		t.blank()
		t.put(2, "", "Assumed too, and no likely answer changes this section: "+fullStop(strings.Join(idle, ", ")))
	}
	heading = false
	for _, q := range t.s.Questions {
		if asked[q.Key] {
			continue
		}
		asked[q.Key] = true
		if !heading {
			heading = true
			t.heading("ASK BEFORE BUILDING (not given; it may change this section)")
		}
		t.put(2, "[ ] ", q.Asks+" ("+q.Key+")")
		if how := t.sentence(q.How); how != "" {
			t.put(6, "", how)
		}
		t.list(t.choices(q, map[string]bool{}))
	}
}

// open lists the questions of some keys.
func (t *text) open(keys []string) []section.Question {
	return slices.DeleteFunc(slices.Clone(t.s.Questions), func(q section.Question) bool { return !slices.Contains(keys, q.Key) })
}

// questions tells what comes of the questions that were not told yet. One of which
// the same comes as of those before is only named.
func (t *text) questions(open []section.Question, asked map[string]bool) {
	var others []string
	said := map[string]bool{}
	for _, q := range open {
		if asked[q.Key] {
			continue
		}
		asked[q.Key] = true
		if lines := t.choices(q, said); len(lines) > 0 {
			t.put(6, "", q.Asks+" ("+q.Key+")")
			t.list(lines)
		} else {
			others = append(others, q.Key)
		}
	}
	if len(others) > 0 {
		t.put(6, "", "It is told too by: "+strings.Join(others, ", ")+".")
	}
}

func (t *text) list(lines []string) {
	for _, line := range lines {
		t.put(6, "- ", line)
	}
}

// choices says what comes of each answer; answers of which the same comes are told
// together, and those that change nothing, or of which that was said, are left out.
func (t *text) choices(q section.Question, said map[string]bool) []string {
	names := map[string][]string{}
	var order, out []string
	for _, c := range q.Choices {
		comes := t.comes(c)
		if comes == "" || said[comes] {
			continue
		}
		if names[comes] == nil {
			order = append(order, comes)
		}
		name := c.Label
		if name == "" {
			name = c.Answer
		}
		names[comes] = append(names[comes], name)
	}
	for _, comes := range order {
		said[comes] = true
		out = append(out, oneOf(names[comes])+": "+fullStop(comes))
	}
	return out
}

// oneOf names the one or the other.
func oneOf(names []string) string {
	last := len(names) - 1
	if last == 0 {
		return names[0]
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// comesMost is how many differences of an answer are told.
const comesMost = 3

// comes tells what comes of an answer: the weightiest alone.
func (t *text) comes(o section.Otherwise) string {
	var parts []string
	for _, d := range o.Differs {
		parts = append(parts, d.In(t.system))
	}
	if rest := len(parts) - comesMost; rest > 0 {
		parts = append(parts[:comesMost], "and more")
	}
	return strings.Join(parts, "; ")
}
