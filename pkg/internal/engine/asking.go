package engine

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// asking is what the entry of a question says of how people are asked.
type asking struct {
	how, when, because, source *document.Node
	cases                      []askingCase
}

// askingCase are values worth trying, and when they are.
type askingCase struct {
	when   *document.Node
	values []*document.Node
}

// Asking is how people are asked for a value of a job.
type Asking struct {
	rulebook.Question
	how, because *Template
	when         *Condition
	cases        []*Condition // of MayBe
}

// How returns the sentence of how the answer is found out, nil if there is none.
func (a *Asking) How() *Template { return a.how }

// When returns the condition under which it is asked, nil if it always may be.
func (a *Asking) When() *Condition { return a.when }

// Case returns the condition of a case of what it may be, nil if it always holds.
func (a *Asking) Case(i int) *Condition { return a.cases[i] }

// Why returns the sentence of why it is asked.
func (a *Asking) Why() *Template { return a.because }

// asking reads how people are asked. A value alone is worth trying always.
func (r *reader) asking(e *document.Entry, because, source *document.Node) asking {
	out := asking{how: e.Get("how"), when: e.Get("when"), because: because, source: source}
	var always askingCase
	for _, n := range e.Items("may_be") {
		if n.Shape() != document.Mapping {
			always.values = append(always.values, n)
			continue
		}
		each := n.Entry("values that it may be", &r.faults)
		out.cases = append(out.cases, askingCase{when: each.Need("when"), values: each.Items("values")})
		each.Done()
	}
	if len(always.values) > 0 {
		out.cases = slices.Insert(out.cases, 0, always)
	}
	return out
}

// askings compiles how people are asked.
func (c *compiler) askings() {
	first := map[string]*document.Node{}
	for _, q := range c.in.questions {
		if q.name == nil {
			continue // reported
		}
		key := q.id()
		if q.answers != nil {
			key = q.input()
		}
		if first[key] != nil {
			twice(&c.faults, q.name, first[key], "the question is there already", key, "", "it stands here first")
			continue
		}
		first[key] = q.name
		in, ok := c.book.inputs[key]
		if !ok {
			if q.answers == nil {
				fault(&c.faults, q.name, codeInput, "no job has a value of this name", key, "a key of jobs such as soil.consistency; or for a question of the company answers: and what with",
					namesIn(c.setup.Inputs, func(in rulebook.Input) string { return in.Name })...)
			}
			continue
		}
		c.book.askings = append(c.book.askings, c.asking(q, in))
	}
}

func (c *compiler) asking(q *questionEntry, in rulebook.Input) *Asking {
	out := &Asking{Question: rulebook.Question{Key: in.Name, Asks: q.asks, Test: q.test, How: text(q.asking.how), When: text(q.asking.when), Because: text(q.asking.because),
		Source: c.sourceOf(q.asking.source), Place: q.place(), Chapter: q.chapter, Amended: q.amended}}
	out.when = c.condition(q.asking.when, nil)
	given := out.when.settles(nil)
	out.how, out.because = c.template(q.asking.how, given), c.template(q.asking.because, nil)
	kind := in.Kind
	if element, isList := kind.Element(); isList {
		kind = element
	}
	told := slices.Clone(out.MayBe)
	add := func(when *document.Node, values []string) {
		told = append(told, struct {
			When   rulebook.Text
			Values []string
		}{text(when), values})
		out.cases = append(out.cases, c.condition(when, given))
	}
	for _, each := range q.asking.cases {
		var values []string
		for _, n := range each.values {
			if v, ok := c.literal(n, kind); ok {
				values = append(values, inJob(v, n.Text()))
			}
		}
		add(each.when, values)
	}
	if len(told) == 0 {
		add(nil, c.anyOf(kind, q))
	}
	out.MayBe = told
	return out
}

// anyOf lists what a value of a kind may be where the question does not say: yes
// and no, every word, and what a question of the company bounds and presumes.
func (c *compiler) anyOf(kind value.Kind, q *questionEntry) []string {
	if kind == value.BoolKind {
		return []string{"yes", "no"}
	}
	var out []string
	for _, w := range c.book.Words(kind) {
		out = append(out, cmp.Or(w.Go, w.Label))
	}
	for _, n := range []*document.Node{q.atLeast, q.presumed, q.atMost} {
		if n != nil && len(c.book.Words(kind)) == 0 {
			out = append(out, n.Text())
		}
	}
	return out
}

// inJob is a value as a job writes it.
func inJob(v value.Value, text string) string {
	if w, ok := v.Word(); ok {
		return cmp.Or(w.Go, w.Label)
	}
	return text
}

// Askings lists how people are asked, the weightiest first.
func (b *Book) Askings() []*Asking { return slices.Clone(b.askings) }

// MayBe lists what a value may be on a job that ran: nothing where it is not asked.
func (o *Outcome) MayBe(a *Asking) ([]string, error) {
	in := place{name: "question", rule: a.Key}
	if asked, err := o.run.holds(a.when, in); err != nil || !asked {
		return nil, err
	}
	var out []string
	for i, each := range a.MayBe {
		holds, err := o.run.holds(a.cases[i], in)
		if err != nil {
			return nil, err
		}
		if holds {
			out = append(out, each.Values...)
		}
	}
	return out, nil
}
