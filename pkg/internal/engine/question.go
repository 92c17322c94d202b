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

// input is the name of what a job tells of a question of the company.
func (e *entry) input() string { return jobnode.Company + "." + e.id() }

// decisionOf makes the decision of a question of the company, nil for one of a key of
// the job and for one that lacks what is reported when it is compiled.
func decisionOf(n *entry) *decisionEntry {
	answers, because := n.node.Field("answers"), n.node.Field("because")
	if n.name == nil || answers == nil || because == nil || n.node.Field("source") == nil {
		return nil
	}
	presumed, told := n.node.Field("presumed"), n.made("known("+n.input()+")")
	d := &decisionEntry{entry: n, answers: answers, take: n.made(string(rulebook.First))}
	measured := []document.Field{n.field("answer", n.made(n.input())), n.field("because", n.made("The job gives {"+n.input()+"}.")), n.field("standing", n.made(string(rulebook.Measured)))}
	if is := presumed.Field("value"); is == nil {
		d.when = told
		d.rules = append(d.rules, n.part(ruleSort, "-TOLD", measured...))
	} else {
		d.rules = append(d.rules, n.part(ruleSort, "-TOLD", append(measured, n.field("when", told))...), n.part(ruleSort, "-PRESUMED", n.field("answer", answerOf(is)),
			n.field("because", presumed.Field("because")), n.field("standing", n.made(string(rulebook.Presumed))), n.field("confirm", presumed.Field("confirm"))))
	}
	d.Decision = rulebook.Decision{Name: n.id(), Asks: n.node.Field("asks").Text(), Kind: value.Kind(answers.Text()), Take: rulebook.First, Question: n.input(),
		When: text(d.when), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	for _, key := range []string{"at_least", "at_most"} {
		if is := n.node.Field(key); is != nil {
			d.limits = append(d.limits, n.part(limitSort, strings.ToUpper("-"+strings.TrimPrefix(key, "at_")), n.field(key, answerOf(is)), n.field("because", because)))
		}
	}
	return d
}

// made is a text that the library writes in the place of an entry's name.
func (e *entry) made(text string) *document.Node {
	return document.Join([]document.Piece{{Text: text, At: e.name}}, "")
}

// field is a key, in the place of an entry's name, with what stands under it.
func (e *entry) field(key string, value *document.Node) document.Field {
	return document.Field{Key: document.Key(key, e.name), Value: value}
}

// part is a rule or a limit that the library makes of an entry, with the entry's source
// and an id of its name: POOL-DISTANCE-TOLD of pool_distance.
func (e *entry) part(s sort, suffix string, fields ...document.Field) *entry {
	id := document.Key(strings.ToUpper(strings.ReplaceAll(e.id(), "_", "-"))+suffix, e.name)
	node := document.Gather(append(fields, e.field(string(s), id), e.field("source", e.node.Field("source")))...)
	return &entry{sort: s, name: id, node: node, of: e.id(), chapter: e.chapter, amended: e.amended}
}

// questions declares what jobs tell of the questions of the files.
func (c *compiler) questions() {
	for _, n := range c.in.of[questionSort] {
		said := n.node.Field
		answers, asks, presumed := said("answers"), said("asks").Text(), said("presumed").Field("value")
		kind := value.Kind(answers.Text())
		if decisionOf(n) == nil || !c.claim(n.input(), n.name) || !c.kindKnown(kind, answers, "a question") {
			continue
		}
		out := Question{Name: n.id(), Asks: asks, Kind: kind}
		_, list := kind.Element()
		words := slices.ContainsFunc(c.declares.Vocabularies, func(v language.Vocabulary) bool { return v.Kind == kind })
		if list || kind != value.BoolKind && !language.IsOrdered(kind) && !words {
			fault(&c.faults, answers, codeKind, "a job cannot answer with this", string(kind), "bool, number, a dimension such as length, or a vocabulary")
			continue
		}
		for _, each := range []struct {
			n  *document.Node
			to *value.Value
		}{{said("at_least"), &out.AtLeast}, {said("at_most"), &out.AtMost}, {presumed, &out.Presumed}} {
			if each.n == nil {
				continue
			}
			if each.n != presumed && !language.IsOrdered(kind) {
				fault(&c.faults, each.n, codeNoOrder, "answers of this kind have no order", string(kind), "no at_least and no at_most")
				continue
			}
			*each.to, _ = c.literal(each.n, kind)
			if _, unit, ok := strings.Cut(strings.TrimSpace(each.n.Text()), " "); ok && out.Unit == "" {
				out.Unit = unit
			}
		}
		if !out.Presumed.IsZero() {
			c.within(out.Presumed, out.AtLeast, out.AtMost, presumed, "no job may say what is presumed here")
		}
		c.book.questions = append(c.book.questions, out)
		in := rulebook.Input{Name: n.input(), Kind: kind, About: asks}
		c.book.inputs[in.Name] = in
		c.book.byName[in.Name] = in
		c.declares.Names = append(c.declares.Names, language.Name{Name: in.Name, Kind: kind, MayLack: true})
	}
}

// Questions lists the questions of the files, in their order.
func (b *Book) Questions() []Question { return slices.Clone(b.questions) }
