package engine

import (
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// reader reads chapters into a written rulebook, gathering faults as it goes.
type reader struct {
	out     *written
	faults  diagnostic.List
	chapter string

	amendments []*amendmentEntry
	limits     rulebook.Limits
	files      []rulebook.File

	// unread reports whether a file could not be read at all, so that nothing can be
	// said of what refers to it.
	unread bool
}

// file reads one file: a chapter or an amendment.
func (r *reader) file(name string, data []byte) {
	root, faults := document.Read(name, data, document.Limits{Bytes: r.limits.Bytes})
	r.faults = append(r.faults, faults...)
	if root == nil || slices.ContainsFunc(faults, func(d *diagnostic.Diagnostic) bool { return d.Code == document.CodeSyntax }) {
		r.unread = true
	}
	if root == nil {
		if len(faults) == 0 {
			r.faults.Addf(diagnostic.Place{File: name}, document.CodeEmpty, "the file says nothing")
		}
		return
	}
	keys := namesIn(root.Fields(), func(f document.Field) string { return f.Key.Text() })
	switch {
	case slices.Contains(keys, "amendment"):
		r.amendments = append(r.amendments, r.amendment(root))
		return
	case root.Shape() == document.Mapping && !slices.Contains(keys, "chapter"):
		// What else the file has does not matter then: it may be a job.
		fault(&r.faults, root, codeNotRules, "this is not a rule file", "", "chapter: NAME or amendment: NAME, as every rule file begins")
		return
	}
	e := root.Entry("a chapter", &r.faults)
	r.chapter = e.NeedText("chapter")
	r.out.chapters = append(r.out.chapters, rulebook.Chapter{Name: r.chapter, About: e.Text("about"), Place: root.Place()})
	r.each(e.Get("settings"), "the settings", r.setting)
	r.additions(e)
	e.Done()
}

// additions reads what chapters and amendments both can declare.
func (r *reader) additions(e *document.Entry) {
	r.each(e.Get("sources"), "the sources", r.source)
	r.each(e.Get("vocabularies"), "the vocabularies", r.vocabulary)
	r.each(e.Get("kinds"), "the kinds of material", r.kind)
	r.each(e.Get("materials"), "the materials", r.material)
	r.each(e.Get("terms"), "the terms", r.term)
	r.each(e.Get("decisions"), "the decisions", r.decision)
	for _, n := range e.Items("courses") {
		r.course(n)
	}
	for _, n := range e.Items("checks") {
		r.check(n)
	}
	for _, n := range e.Items("cautions") {
		r.caution(n)
	}
	for _, n := range e.Items("refusals") {
		r.refusal(n)
	}
}

// each hands every entry of a mapping of names to read.
func (r *reader) each(n *document.Node, what string, read func(key, value *document.Node)) {
	if n == nil {
		return
	}
	if n.Shape() != document.Mapping {
		fault(&r.faults, n, document.CodeNotMapping, what+" are written as names with their entries", "", "name: followed by its entry, indented")
		return
	}
	for _, f := range n.Fields() {
		r.named(f.Key)
		read(f.Key, f.Value)
	}
}

// named refuses a name that an expression could not write.
func (r *reader) named(key *document.Node) {
	if !language.IsName(key.Text()) {
		fault(&r.faults, key, codeName, "this cannot be a name", key.Text(), "letters, digits and _, starting with a letter")
	}
}

func (r *reader) source(key, n *document.Node) {
	e := n.Entry("a source", &r.faults)
	r.out.sources = append(r.out.sources, &sourceEntry{key: key, known: e.Get("known"), Source: value.Source{ID: key.Text(),
		Document: e.NeedText("document"), Clause: e.Text("clause"), Known: value.Known(e.NeedText("known")), Via: e.Text("via"), Note: e.Text("note")}})
	e.Done()
}

func (r *reader) vocabulary(key, n *document.Node) {
	e := n.Entry("a vocabulary", &r.faults)
	v := &vocabularyEntry{key: key}
	e.NeedText("about")
	r.each(e.Need("words"), "the words", func(key, n *document.Node) {
		v.words = append(v.words, r.word(key, n))
	})
	e.Done()
	r.out.vocabularies = append(r.out.vocabularies, v)
}

// word reads a word with its label, or with its label and its meaning.
func (r *reader) word(key, n *document.Node) wordEntry {
	w := wordEntry{key: key, name: key.Text()}
	if n.Shape() == document.Scalar {
		w.label = n.Text()
	} else {
		e := n.Entry("a word", &r.faults)
		w.label, w.about, w.also = e.NeedText("label"), e.Text("about"), e.Items("also")
		e.Done()
		for _, n := range w.also {
			r.named(n)
		}
	}
	if w.label == "" {
		w.label = w.name
	}
	return w
}

func (r *reader) kind(key, n *document.Node) {
	e := n.Entry("a kind of material", &r.faults)
	k := &kindEntry{key: key}
	e.NeedText("about")
	r.each(e.Get("properties"), "the properties", func(key, n *document.Node) {
		pe := n.Entry("a property", &r.faults)
		p := propertyEntry{is: pe.Get("is")}
		p.Property = rulebook.Property{Name: key.Text(), Kind: value.Kind(pe.NeedText("is")), About: pe.NeedText("about"), Optional: pe.Bool("optional", false)}
		pe.Done()
		k.properties = append(k.properties, p)
	})
	e.Done()
	r.out.kinds = append(r.out.kinds, k)
}

func (r *reader) material(key, n *document.Node) {
	e := n.Entry("a material", &r.faults)
	e.NeedText("kind")
	m := &materialEntry{key: key, kind: e.Get("kind"), label: e.NeedText("label"), about: e.Text("about"), source: e.Need("source"), chapter: r.chapter}
	r.each(e.Get("properties"), "the properties", func(key, n *document.Node) {
		m.properties = append(m.properties, document.Field{Key: key, Value: n})
	})
	e.Done()
	r.out.materials = append(r.out.materials, m)
}

func (r *reader) setting(key, n *document.Node) {
	e := n.Entry("a setting", &r.faults)
	s := &settingEntry{key: key, value: e.Need("value"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"), because: e.Need("because"), source: e.Need("source")}
	s.Setting = rulebook.Setting{Name: key.Text(), Because: text(s.because), Place: key.Place(), Chapter: r.chapter}
	e.Done()
	r.out.settings = append(r.out.settings, s)
}

func (r *reader) term(key, n *document.Node) {
	e := n.Entry("a term", &r.faults)
	t := &termEntry{key: key, is: e.Get("is"), value: e.Need("value"), source: e.Get("source"), when: e.Get("when")}
	t.Term = rulebook.Term{Name: key.Text(), Kind: value.Kind(e.NeedText("is")), About: e.NeedText("about"), Value: text(t.value),
		When: text(t.when), Place: key.Place(), Chapter: r.chapter}
	e.Done()
	r.out.terms = append(r.out.terms, t)
}

func (r *reader) decision(key, n *document.Node) {
	e := n.Entry("a decision", &r.faults)
	d := &decisionEntry{key: key, when: e.Get("when"), answers: e.Get("answers"), take: e.Get("take")}
	d.Decision = rulebook.Decision{Name: key.Text(), Asks: e.NeedText("asks"), Kind: value.Kind(e.NeedText("answers")), Take: rulebook.Take(e.NeedText("take")),
		When: text(d.when), Place: key.Place(), Chapter: r.chapter}
	d.list = e.Need("rules")
	for _, item := range e.Items("rules") {
		d.rules = append(d.rules, r.rule(item))
	}
	e.Done()
	r.out.decisions = append(r.out.decisions, d)
}

func (r *reader) rule(n *document.Node) *ruleEntry {
	e := n.Entry("a rule", &r.faults)
	id := e.NeedText("rule")
	rule := r.ruleBody(e, n)
	rule.ID, rule.id = id, e.Get("rule")
	e.Done()
	return rule
}

// ruleBody reads all of a rule but its id.
func (r *reader) ruleBody(e *document.Entry, n *document.Node) *ruleEntry {
	out := &ruleEntry{when: e.Get("when"), answer: e.Need("answer"), because: e.Need("because"), source: e.Need("source"), standing: e.Get("standing")}
	out.Rule = rulebook.Rule{When: text(out.when), Answer: text(out.answer), Because: text(out.because), Standing: rulebook.Standing(e.Text("standing")),
		Confirm: e.Text("confirm"), Place: n.Place(), Chapter: r.chapter}
	return out
}

func (r *reader) course(n *document.Node) {
	e := n.Entry("a course", &r.faults)
	name, label := e.NeedText("course"), e.NeedText("label")
	c := &courseEntry{node: e.Get("course"), is: e.Need("is"), when: e.Get("when"), because: e.Need("because"), source: e.Need("source")}
	c.Course = rulebook.Course{Name: name, Label: label, When: text(c.when), Because: text(c.because), Place: n.Place(), Chapter: r.chapter}
	r.each(e.Need("attributes"), "the attributes", func(key, n *document.Node) {
		c.attributes = append(c.attributes, document.Field{Key: key, Value: n})
	})
	e.Done()
	r.out.courses = append(r.out.courses, c)
}

func (r *reader) check(n *document.Node) {
	e := n.Entry("a check", &r.faults)
	id, asks := e.NeedText("check"), e.NeedText("asks")
	c := &checkEntry{id: e.Get("check"), when: e.Get("when"), holds: e.Get("holds"), value: e.Get("value"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"),
		failing: e.Need("failing"), says: e.Need("says"), because: e.Need("because"), source: e.Need("source")}
	c.Check = rulebook.Check{ID: id, Asks: asks, When: text(c.when), Holds: text(c.holds), Value: text(c.value), Says: text(c.says),
		Because: text(c.because), Failing: rulebook.Failing(text(c.failing).Text), Place: n.Place(), Chapter: r.chapter}
	e.Done()
	r.out.checks = append(r.out.checks, c)
}

func (r *reader) caution(n *document.Node) {
	e := n.Entry("a caution", &r.faults)
	id := e.NeedText("caution")
	c := &cautionEntry{id: e.Get("caution"), when: e.Get("when"), says: e.Need("says"), source: e.Need("source")}
	c.Caution = rulebook.Caution{ID: id, When: text(c.when), Says: text(c.says), Place: n.Place(), Chapter: r.chapter}
	e.Done()
	r.out.cautions = append(r.out.cautions, c)
}

func (r *reader) refusal(n *document.Node) {
	e := n.Entry("a refusal", &r.faults)
	id := e.NeedText("refusal")
	c := &refusalEntry{id: e.Get("refusal"), when: e.Need("when"), says: e.Need("says"), who: e.Need("who"), source: e.Need("source")}
	c.Refusal = rulebook.Refusal{ID: id, When: text(c.when), Says: text(c.says), Who: text(c.who), Place: n.Place(), Chapter: r.chapter}
	e.Done()
	r.out.refusals = append(r.out.refusals, c)
}
