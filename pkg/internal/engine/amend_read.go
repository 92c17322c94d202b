package engine

import (
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amendment reads one amendment file. What it adds is written as in a chapter.
func (r *reader) amendment(root *document.Node) *amendmentEntry {
	e := root.Entry("an amendment", &r.faults)
	a := &amendmentEntry{added: &written{}, node: e.Get("amendment")}
	a.Name, a.Who, a.Why, a.Place = e.NeedText("amendment"), e.NeedText("who"), e.NeedText("why"), root.Place()
	if a.node != nil {
		a.Place = a.node.Place()
	}
	r.chapter = "amendment " + a.Name
	a.When = r.date(e.Need("when"))
	a.From, a.Until = r.date(e.Get("from")), r.date(e.Get("until"))
	a.over = e.Items("over")
	a.Over = append(a.Over, namesIn(a.over, (*document.Node).Text)...)
	r.each(e.Get("settings"), "the settings", func(key, n *document.Node) { a.settings = append(a.settings, r.settingChange(key, n)) })
	r.each(e.Get("words"), "the words", func(key, n *document.Node) { a.words = append(a.words, r.wordsChange(key, n)) })
	for _, n := range e.Items("rules") {
		a.changes = append(a.changes, r.change(n))
	}
	for _, n := range e.Items("variances") {
		a.variances = append(a.variances, r.variance(n))
	}
	outer := r.out
	r.out = a.added
	r.each(e.Get("new_settings"), "the new settings", r.setting)
	r.additions(e)
	r.out = outer
	e.Done()
	return a
}

// date reads a day; the zero Date if there is none, or if it is reported.
func (r *reader) date(n *document.Node) rulebook.Date {
	if n == nil {
		return rulebook.Date{}
	}
	d, err := rulebook.ParseDate(n.Text())
	if err != nil {
		fault(&r.faults, n, codeDate, "this is not a date", n.Text(), "a day such as 2026-03-01")
	}
	return d
}

func (r *reader) settingChange(key, n *document.Node) settingChange {
	e := n.Entry("a setting's change", &r.faults)
	s := settingChange{key: key, value: e.Need("value"), because: e.Need("because"), source: e.Get("source"),
		from: r.date(e.Get("from")), until: r.date(e.Get("until"))}
	e.Done()
	return s
}

func (r *reader) wordsChange(key, n *document.Node) wordsChange {
	out := wordsChange{key: key}
	r.each(n, "the words", func(key, n *document.Node) { out.words = append(out.words, r.word(key, n)) })
	return out
}

func (r *reader) change(n *document.Node) changeEntry {
	e := n.Entry("a rule's change", &r.faults)
	text := func(key string) *document.Node {
		if e.Get(key) != nil && e.NeedText(key) != "" { // an empty text is a fault of its own
			return e.Get(key)
		}
		return nil
	}
	c := changeEntry{node: n, replace: text("replace"), retire: text("retire"), to: text("to"), before: text("before"), after: text("after"), because: e.Text("because")}
	doing := 0
	for _, key := range []string{"replace", "retire", "add"} {
		if e.Get(key) != nil {
			doing++
		}
	}
	replaces, with := e.Get("replace") != nil, e.Get("with")
	if c.before != nil && c.after != nil || doing != 1 || replaces != (with != nil) {
		fault(&r.faults, n, codeChange, "a change does one thing", "",
			"replace: ID and with: a rule; or retire: ID; or add: a rule and to: a decision, with before: ID or after: ID if its place matters")
	}
	if with != nil {
		c.with = r.replacement(with, c.replace.Text())
	}
	if add := e.Get("add"); add != nil {
		c.add = r.rule(add)
	}
	e.Done()
	return c
}

// replacement reads a rule that stands in for another; without an id of its own
// it keeps that one's.
func (r *reader) replacement(n *document.Node, id string) *ruleEntry {
	for _, f := range n.Fields() {
		if f.Key.Text() == "rule" {
			return r.rule(n)
		}
	}
	e := n.Entry("a rule", &r.faults)
	out := r.ruleBody(e, n)
	out.ID = id
	e.Done()
	return out
}

func (r *reader) variance(n *document.Node) varianceEntry {
	e := n.Entry("a variance", &r.faults)
	v := varianceEntry{node: n, setting: e.Get("setting"), to: e.Need("to")}
	v.Variance = rulebook.Variance{Name: e.NeedText("variance"), Setting: e.NeedText("setting"), Who: e.NeedText("who"), Why: e.NeedText("why"),
		From: r.date(e.Get("from")), Until: r.date(e.Need("until")), Place: n.Place()}
	e.Done()
	return v
}
