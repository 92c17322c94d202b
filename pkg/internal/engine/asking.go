package engine

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Asking is how people are asked for a value of a job.
type Asking struct {
	rulebook.Question
	How, Why *Template // how the answer is found out, and why it is asked
	When     *Condition
	cases    []*Condition // of MayBe
}

// Case returns the condition of a case of what it may be, nil if it always holds.
func (a *Asking) Case(i int) *Condition { return a.cases[i] }

// askings compiles how people are asked.
func (c *compiler) askings() {
	first := map[string]*document.Node{}
	for _, n := range c.in.of[questionSort] {
		key, answers := n.id(), n.node.Field("answers")
		if answers != nil {
			key = n.input()
		}
		in, ok := c.book.inputs[key]
		switch {
		case n.name == nil: // reported
			ok = false
		case first[key] != nil:
			twice(&c.faults, n.name, first[key], "the question is there already", key, "", "it stands here first")
			ok = false
		case !ok && answers == nil:
			fault(&c.faults, n.name, codeInput, "no job has a value of this name", key, "a key of jobs such as soil.consistency; or for a question of the company answers: and what with",
				namesIn(c.setup.Inputs, func(in rulebook.Input) string { return in.Name })...)
			fallthrough
		default:
			first[key] = n.name
		}
		if asking := c.asking(n, in, ok); ok {
			c.book.askings = append(c.book.askings, asking)
		}
	}
}

// asking reads a question, and compiles it where its input is known.
func (c *compiler) asking(n *entry, in rulebook.Input, known bool) *Asking {
	e := c.r.open(n, "a question")
	out := &Asking{Question: rulebook.Question{Key: in.Name, Asks: e.NeedText("asks"), Test: e.Text("test"), Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	if e.Get("answers") != nil {
		e.NeedText("answers")
	}
	atLeast, atMost := e.Get("at_least"), e.Get("at_most")
	e.NeedText("because")
	because, source, how, when := e.Get("because"), e.Need("source"), e.Get("how"), e.Get("when")
	var always []*document.Node // of what it may be, what is worth trying always
	var cases []*document.Entry
	for _, n := range e.Items("may_be") {
		if n.Shape() != document.Mapping {
			always = append(always, n)
			continue
		}
		each := n.Entry("values that it may be", &c.r.faults)
		each.Need("when")
		each.Items("values")
		each.Done()
		cases = append(cases, each)
	}
	presumed := e.Get("presumed")
	if presumed != nil {
		pe := presumed.Entry("what is presumed", &c.r.faults)
		for _, key := range []string{"value", "because", "confirm"} {
			pe.Need(key)
		}
		pe.Done()
	}
	if e.Done(); !known {
		return nil
	}
	t := &out.Question
	var given language.Given
	t.When, out.When, given = c.when(when, nil)
	t.How, out.How = c.sentence(how, given)
	t.Because, out.Why = c.sentence(because, nil)
	t.Source = c.sourceOf(source)
	kind := in.Kind
	if element, isList := kind.Element(); isList {
		kind = element
	}
	add := func(when *document.Node, values []string) {
		t.MayBe = append(t.MayBe, struct {
			When   rulebook.Text
			Values []string
		}{text(when), values})
		out.cases = append(out.cases, c.condition(when, given))
	}
	if len(always) > 0 {
		add(nil, c.asInJobs(always, kind))
	}
	for _, each := range cases {
		add(each.Get("when"), c.asInJobs(each.Get("values").Items(), kind))
	}
	if len(t.MayBe) == 0 {
		add(nil, c.anyOf(kind, present(atLeast, presumed.Field("value"), atMost)))
	}
	return out
}

// anyOf lists what a value of a kind may be where the question does not say: yes
// and no, every word, and what a question of the company bounds and presumes.
func (c *compiler) anyOf(kind value.Kind, said []*document.Node) []string {
	if kind == value.BoolKind {
		return []string{"yes", "no"}
	}
	if words := c.book.Words(kind); len(words) > 0 {
		return namesIn(words, func(w *value.Word) string { return cmp.Or(w.Go, w.Label) })
	}
	return namesIn(said, (*document.Node).Text)
}

// asInJobs reads values, and lists them as jobs write them.
func (c *compiler) asInJobs(nodes []*document.Node, kind value.Kind) (out []string) {
	for _, n := range nodes {
		v, ok := c.literal(n, kind)
		if w, isWord := v.Word(); isWord {
			out = append(out, cmp.Or(w.Go, w.Label))
		} else if ok {
			out = append(out, n.Text())
		}
	}
	return out
}

// Askings lists how people are asked, in the order of the files.
func (b *Book) Askings() []*Asking { return slices.Clone(b.askings) }

// MayBe lists what a value may be on a job that ran: nothing where it is not asked.
func (o *Outcome) MayBe(a *Asking) ([]string, error) {
	in := place{sort: "question", name: a.Key}
	if asked, err := o.run.holds(a.When, in); err != nil || !asked {
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
