package impact

import (
	"cmp"
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/engine"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// entry is an entry of a rulebook as it is compared.
type entry struct {
	sort     Entry
	name, in string
	place    diagnostic.Place
	parts    []part
	// rules of a decision, in their order.
	rules []string
	// when is the condition of what is given or laid on some jobs, and holds that of
	// a check; nil without one, and of no entry at all.
	when, holds *engine.Condition
	// compares is what a check compares.
	compares string
	isWord   bool
}

// part is one field of an entry: a text, or a value.
type part struct {
	name, text string
	value      value.Value
	bears      bool
}

func (e *entry) id() string { return string(e.sort) + " " + e.name }

// reads lists the words by which the entry can read others: those of the parts
// that answers depend on.
func (e *entry) reads() []string {
	out := slices.Clone(e.rules)
	for _, p := range e.parts {
		if p.bears {
			out = append(out, language.Words(p.text)...)
		}
	}
	return out
}

// part returns the part of a name; its zero value if the entry has none.
func (e *entry) part(name string) part {
	for _, p := range e.parts {
		if p.name == name {
			return p
		}
	}
	return part{name: name}
}

// same reports whether two parts are the same to the last bit.
func (p part) same(q part) bool {
	if p.value.IsZero() || q.value.IsZero() {
		return p.text == q.text && p.value.IsZero() == q.value.IsZero()
	}
	a, isWord := p.value.Word()
	b, areWords := q.value.Word()
	if isWord || areWords {
		return isWord && areWords && a.Name == b.Name
	}
	return p.value.Kind() == q.value.Kind() && reflect.DeepEqual(p.value.Data(), q.value.Data())
}

func (p part) shown() string {
	if p.value.IsZero() {
		return p.text
	}
	return p.value.Text(quantity.US)
}

// listing gathers the entries of one book.
type listing struct {
	sources map[string]value.Source
	entries []*entry
}

func entriesOf(b *engine.Book) []*entry {
	l := &listing{sources: b.Sources()}
	for _, id := range slices.Sorted(maps.Keys(l.sources)) {
		s := l.sources[id]
		l.add("source", id, diagnostic.Place{}, says("document", s.Document), says("clause", s.Clause), says("known", string(s.Known)), says("via", s.Via), says("note", s.Note))
	}
	contents := b.Contents()
	for _, v := range contents.Vocabularies {
		e := l.add("vocabulary", string(v.Kind), diagnostic.Place{}, says("about", v.About))
		for _, p := range v.Properties {
			e.parts = append(e.parts, says("about "+p.Name, p.About), limit(p.Name+" at_least", p.AtLeast), limit(p.Name+" at_most", p.AtMost))
		}
		for _, w := range v.Words {
			if w.Sort == "word" {
				l.word(w)
			}
		}
	}
	for _, m := range b.Materials() {
		l.word(m)
	}
	for _, s := range b.Settings() {
		l.add("setting", s.Name, s.Place, says("about", s.About), holds("value", s.Value), limit("at_least", s.AtLeast), limit("at_most", s.AtMost), because(s.Why), l.source(s.Source))
	}
	for _, q := range b.Askings() {
		var mayBe []string
		for _, each := range q.MayBe {
			mayBe = append(mayBe, strings.TrimPrefix(each.When.Text+": ", ": ")+strings.Join(each.Values, ", "))
		}
		l.add("question", q.Key, q.Place, says("asks", q.Asks), says("test", q.Test), says("how", q.How.String()), says("when", q.When.Text()), says("may_be", strings.Join(mayBe, "; ")),
			because(q.Why), l.source(q.Source))
	}
	for _, t := range b.Terms() {
		text := t.TermCondition.Text()
		if f, ok := b.TermFormula(t); ok {
			text = f.Text()
		}
		l.add("term", t.Name, t.Place, decides("is", string(t.Kind)), decides("when", t.When.Text()), decides("value", text), says("about", t.About), because(t.Why), l.source(t.Source))
	}
	for _, d := range b.Decisions() {
		l.decision(d)
	}
	for _, c := range b.Courses() {
		l.course(c)
	}
	for _, c := range b.Checks() {
		l.check(c)
	}
	for _, c := range b.Cautions() {
		l.add("caution", c.ID, c.Place, decides("when", c.When.Text()), says("says", c.Says.String()), l.source(c.Source)).when = c.When
	}
	for _, r := range b.Refusals() {
		l.add("refusal", r.ID, r.Place, decides("when", r.When.Text()), says("says", r.Says.String()), says("who", r.Who.String()), l.source(r.Source)).when = r.When
	}
	for _, p := range contents.Promises {
		l.add("promise", p.ID, p.Place, says("when", p.When.Text), says("always", p.Always.Text), says("never", p.Never.Text), says("as", p.As.Text), says("then", p.Then.Text),
			says("because", p.Because.Text), l.source(p.Source))
	}
	for _, w := range b.Work() {
		e := l.add(Entry(w.Sort), w.ID, w.Place, decides("course", w.Course), decides("when", w.When.Text()), because(w.Why), l.source(w.Source))
		e.when = w.When
		if w.Part != "" {
			e.parts = append(e.parts, says("part", w.Part), decides("tells", strings.Join(w.Tells, ", ")))
		}
		for _, m := range w.Measures() {
			e.parts = append(e.parts, decides(m.Key, m.Text))
		}
		for _, key := range w.Sayings() {
			e.parts = append(e.parts, says(key, w.Says(key).String()))
		}
	}
	for _, x := range contents.Lines {
		l.add("line", x.Name, x.Place, says("says", x.Says.Text))
	}
	return l.entries
}

func (l *listing) add(sort Entry, name string, at diagnostic.Place, parts ...part) *entry {
	e := &entry{sort: sort, name: name, place: at, parts: parts}
	l.entries = append(l.entries, e)
	return e
}

// says is a part that no answer depends on, decides one that answers do.
func says(name, text string) part           { return part{name: name, text: text} }
func decides(name, text string) part        { return part{name: name, text: text, bears: true} }
func holds(name string, v value.Value) part { return part{name: name, value: v, bears: true} }
func limit(name string, v value.Value) part { return part{name: name, value: v} }

func because(t *engine.Template) part { return says("because", t.String()) }

// source is the source as the entry names it. A clause that is the source's own
// is left out, so that an edit of the source is not one of all that rest on it.
func (l *listing) source(s value.Source) part {
	text := s.ID
	if s.Clause != l.sources[s.ID].Clause {
		text += ", " + s.Clause
	}
	return says("source", text)
}

func (l *listing) word(m rulebook.Word) {
	e := l.add(Entry(m.Sort), m.Word.Name, m.Place, decides("kind", string(m.Word.Vocabulary)), says("label", m.Word.Label), says("about", m.Word.About),
		decides("also", strings.Join(m.Also, ", ")), decides("loosely", strings.Join(m.Loosely, ", ")), says("because", m.Because.Text), l.source(m.Source))
	e.isWord = true
	for _, name := range slices.Sorted(maps.Keys(m.Word.Properties())) {
		e.parts = append(e.parts, holds(name, m.Word.Property(name)))
		if own, ok := m.Own[name]; ok {
			e.parts = append(e.parts, says("because of "+name, own.Because.Text), l.source(own.Source))
		}
	}
}

func (l *listing) decision(d *engine.Decision) {
	e := l.add("decision", d.Name, d.Place, says("asks", d.Asks), says("about", d.About), decides("answers", string(d.Kind)), decides("take", string(d.Take)), decides("when", d.When.Text()))
	for _, r := range d.Rules {
		e.rules = append(e.rules, r.ID)
		rule := l.add("rule", r.ID, r.Place, decides("decision", d.Name), decides("when", r.When.Text()), decides("answer", r.Answer.Text), because(r.Because),
			l.source(r.Source), says("standing", string(r.Standing)), says("confirm", r.Confirm))
		rule.in = d.Name
	}
	for _, b := range d.Limits() {
		words := func(list []value.Word) string {
			var names []string
			for _, w := range list {
				names = append(names, w.Name)
			}
			return strings.Join(names, ", ")
		}
		l.add("limit", b.ID, b.Place, decides("decision", d.Name), decides("when", b.When.Text()), decides("at_least", b.AtLeast.Text), decides("at_most", b.AtMost.Text),
			decides("one_of", words(b.OneOf)), decides("none_of", words(b.NoneOf)), because(b.Because), l.source(b.Source)).in = d.Name
	}
}

func (l *listing) course(c *engine.Course) {
	e := l.add("course", c.Name, c.Place, decides("is", c.Is.Name), decides("when", c.When.Text()), says("label", c.Label), because(c.Because), l.source(c.Source))
	e.when = c.When
	for _, a := range c.Attributes {
		e.parts = append(e.parts, decides("attribute "+a.Name, a.Decision))
	}
	for _, key := range slices.Sorted(maps.Keys(c.Drawn)) {
		e.parts = append(e.parts, says("drawn "+key, c.Drawn[key]))
	}
}

func (l *listing) check(c *engine.Check) {
	e := l.add("check", c.ID, c.Place, decides("when", c.When.Text()), decides("holds", cmp.Or(c.Compares(), c.Holds.Text())), decides("failing", string(c.Failing)),
		says("asks", c.Asks), says("says", c.Says.String()), because(c.Because), l.source(c.Source))
	e.when, e.holds, e.compares = c.When, c.Holds, c.Compares()
}
