package engine

import (
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// A question declares an input of the company, and the decision by which rules
// read it: it hands on what the job tells, or answers with what is presumed. So a
// question is told, asked why, tried, surveyed and compared as a decision is. One
// that does not say what it answers with is of a key that every job may have. Both
// say how people are asked: see asking.go.

// Question is an input that rule files declare.
type Question struct {
	Name, Asks string
	Kind       value.Kind
	// AtLeast and AtMost are what a job may tell, zero if there is no bound, and
	// Presumed what is presumed, zero if nothing is.
	AtLeast, AtMost, Presumed value.Value
	// Unit is the unit in which its values are written, "" if none has one.
	Unit string
}

type questionEntry struct {
	*entry
	asking                   asking
	asks, test               string
	answers, atLeast, atMost *document.Node
	presumed                 *document.Node // the value
	decision                 *decisionEntry
}

// Input is the name of what a job tells.
func (q *questionEntry) input() string { return jobnode.Company + "." + q.id() }

func (r *reader) question(n *entry) *questionEntry {
	e := r.open(n, "a question")
	q := &questionEntry{entry: n, asks: e.NeedText("asks"), test: e.Text("test"), answers: e.Get("answers"), atLeast: e.Get("at_least"), atMost: e.Get("at_most")}
	if q.answers != nil {
		e.NeedText("answers")
	}
	e.NeedText("because")
	because, source := e.Get("because"), e.Need("source")
	q.asking = r.asking(e, because, source)
	var why, confirm *document.Node
	if p := e.Get("presumed"); p != nil {
		pe := p.Entry("what is presumed", &r.faults)
		q.presumed, why, confirm = pe.Need("value"), pe.Need("because"), pe.Need("confirm")
		pe.Done()
	}
	e.Done()
	if n.name == nil || q.answers == nil || because == nil || source == nil {
		return q // of a key of the job, or reported
	}
	told := "known(" + q.input() + ")"
	field := func(key string, value *document.Node) document.Field {
		return document.Field{Key: document.Key(key, n.name), Value: value}
	}
	rule := func(suffix string, fields ...document.Field) *entry {
		id := document.Key(idOf(n)+suffix, n.name)
		node := document.Gather(append([]document.Field{field("rule", id), field("source", source)}, fields...)...)
		return &entry{sort: ruleSort, name: id, node: node, of: n.id(), chapter: n.chapter, amended: n.amended}
	}
	made := func(s string) *document.Node { return document.Join([]document.Piece{{Text: s, At: n.name}}, "") }
	d := &decisionEntry{entry: n, answers: q.answers, take: made(string(rulebook.First)), list: n.node}
	measured := []document.Field{field("answer", made(q.input())), field("because", made("The job gives {"+q.input()+"}.")), field("standing", made(string(rulebook.Measured)))}
	if q.presumed == nil {
		d.when = made(told)
		d.rules = append(d.rules, rule("-TOLD", measured...))
	} else {
		d.rules = append(d.rules, rule("-TOLD", append(measured, field("when", made(told)))...), rule("-PRESUMED", field("answer", answerOf(q.presumed)),
			field("because", why), field("standing", made(string(rulebook.Presumed))), field("confirm", confirm)))
	}
	d.Decision = rulebook.Decision{Name: n.id(), Asks: q.asks, Kind: value.Kind(q.answers.Text()), Take: rulebook.First, Question: q.input(),
		When: text(d.when), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	for _, bound := range []struct {
		n           *document.Node
		suffix, key string
	}{{q.atLeast, "-LEAST", "at_least"}, {q.atMost, "-MOST", "at_most"}} {
		if bound.n != nil {
			id := document.Key(idOf(n)+bound.suffix, n.name)
			node := document.Gather(field("limit", id), field(bound.key, answerOf(bound.n)), field("because", because), field("source", source))
			d.limits = append(d.limits, &entry{sort: limitSort, name: id, node: node, of: n.id(), chapter: n.chapter, amended: n.amended})
		}
	}
	q.decision = d
	return q
}

// idOf begins the ids of the rules and limits of a question: POOL-DISTANCE of
// pool_distance.
func idOf(n *entry) string { return strings.ToUpper(strings.ReplaceAll(n.id(), "_", "-")) }

// questions declares what jobs tell of the questions of the files.
func (c *compiler) questions() {
	for _, q := range c.in.questions {
		kind := value.Kind(q.answers.Text())
		if q.answers == nil || q.decision == nil || !c.claim(q.input(), q.name) || !c.kindKnown(kind, q.answers, "a question") {
			continue
		}
		out := Question{Name: q.id(), Asks: q.asks, Kind: kind}
		_, list := kind.Element()
		words := slices.ContainsFunc(c.declares.Vocabularies, func(v language.Vocabulary) bool { return v.Kind == kind })
		if list || kind != value.BoolKind && !ordered(kind) && !words {
			fault(&c.faults, q.answers, codeKind, "a job cannot answer with this", string(kind), "bool, number, a dimension such as length, or a vocabulary")
			continue
		}
		for _, each := range []struct {
			n  *document.Node
			to *value.Value
		}{{q.atLeast, &out.AtLeast}, {q.atMost, &out.AtMost}, {q.presumed, &out.Presumed}} {
			if each.n == nil {
				continue
			}
			if each.n != q.presumed && !ordered(kind) {
				fault(&c.faults, each.n, codeNoOrder, "answers of this kind have no order", string(kind), "no at_least and no at_most")
				continue
			}
			*each.to, _ = c.literal(each.n, kind)
			if _, unit, ok := strings.Cut(strings.TrimSpace(each.n.Text()), " "); ok && out.Unit == "" {
				out.Unit = unit
			}
		}
		if !out.Presumed.IsZero() {
			c.within(out.Presumed, out.AtLeast, out.AtMost, q.presumed, "no job may say what is presumed here")
		}
		c.book.questions = append(c.book.questions, out)
		in := rulebook.Input{Name: q.input(), Kind: kind, About: q.asks}
		c.book.inputs[in.Name] = in
		c.book.byName[in.Name] = in
		c.declares.Names = append(c.declares.Names, language.Name{Name: in.Name, Kind: kind, About: in.About, MayLack: true})
	}
}

// Questions lists the questions of the files, in their order.
func (b *Book) Questions() []Question { return slices.Clone(b.questions) }
