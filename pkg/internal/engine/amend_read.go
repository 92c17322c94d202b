package engine

import (
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/rulebook"
)

// amendment reads one amendment file. What it adds is written as in a chapter.
func (r *reader) amendment(root *document.Node) *amendmentEntry {
	e := root.Entry("an amendment", &r.faults)
	a := &amendmentEntry{added: &written{}}
	a.Name, a.Who, a.Why, a.Place = e.NeedText("amendment"), e.NeedText("who"), e.NeedText("why"), root.Place()
	if n := e.Get("amendment"); n != nil {
		a.Place = n.Place()
	}
	r.chapter = "amendment " + a.Name
	if n := e.Need("when"); n != nil {
		a.When = r.date(n)
	}
	a.From, a.Until = r.dateUnder(e, "from"), r.dateUnder(e, "until")
	for _, n := range e.Items("over") {
		a.Over, a.overNodes = append(a.Over, n.Text()), append(a.overNodes, n)
	}
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

func (r *reader) date(n *document.Node) rulebook.Date {
	d, err := rulebook.ParseDate(n.Text())
	if err != nil {
		r.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: n.Width(), Code: codeDate, Message: "this is not a date", Found: n.Text(), Wanted: "a day such as 2026-03-01"})
	}
	return d
}

func (r *reader) dateUnder(e *document.Entry, key string) rulebook.Date {
	n := e.Get(key)
	if n == nil {
		return rulebook.Date{}
	}
	return r.date(n)
}

func (r *reader) settingChange(key, n *document.Node) settingChange {
	e := n.Entry("a setting's change", &r.faults)
	s := settingChange{name: key.Text(), value: e.Need("value"), because: e.Need("because"), source: e.Get("source"),
		from: r.dateUnder(e, "from"), until: r.dateUnder(e, "until"), at: key.Place()}
	e.Done()
	return s
}

func (r *reader) wordsChange(key, n *document.Node) wordsChange {
	out := wordsChange{vocabulary: key.Text(), at: key.Place()}
	r.each(n, "the words", func(key, n *document.Node) { out.words = append(out.words, r.word(key, n)) })
	return out
}

func (r *reader) change(n *document.Node) changeEntry {
	e := n.Entry("a rule's change", &r.faults)
	c := changeEntry{replace: e.Text("replace"), retire: e.Text("retire"), to: e.Text("to"), before: e.Text("before"), after: e.Text("after"),
		because: e.Text("because"), at: n.Place()}
	doing := 0
	for _, key := range []string{"replace", "retire", "add"} {
		if node := e.Get(key); node != nil {
			doing++
			c.targetNode = node
			if key != "add" {
				e.NeedText(key) // an empty id is a fault of its own
			}
		}
	}
	if c.before != "" && c.after != "" || doing != 1 || c.replace != "" && e.Get("with") == nil || c.replace == "" && e.Get("with") != nil {
		r.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Code: codeChange, Message: "a change does one thing",
			Wanted: "replace: ID and with: a rule; or retire: ID; or add: a rule and to: a decision, with before: ID or after: ID if its place matters"})
	}
	if with := e.Get("with"); with != nil {
		c.with = r.replacement(with, c.replace)
	}
	if add := e.Get("add"); add != nil {
		c.add = r.rule(add)
	}
	for _, key := range []string{"before", "after", "to"} {
		if node := e.Get(key); node != nil && (c.placeNode == nil || key != "to") {
			c.placeNode = node
		}
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
	v := varianceEntry{Variance: rulebook.Variance{Name: e.NeedText("variance"), Setting: e.NeedText("setting"), Who: e.NeedText("who"), Why: e.NeedText("why"),
		From: r.dateUnder(e, "from"), Place: n.Place()}, to: e.Need("to")}
	if until := e.Need("until"); until != nil {
		v.Until = r.date(until)
	}
	e.Done()
	return v
}
