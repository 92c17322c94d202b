package engine

import (
	"regexp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
)

// reader reads chapters into a written rulebook, gathering faults as it goes.
type reader struct {
	out     *written
	faults  diagnostic.List
	chapter string

	amendments []*amendmentEntry
	// unread tells that a file could not be read at all, so that nothing can be
	// said of what refers to it.
	unread bool
}

// file reads one file: a chapter or an amendment.
func (r *reader) file(name string, data []byte) {
	root, faults := document.Read(name, data, document.Limits{})
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
	for _, f := range root.Fields() {
		if f.Key.Text() == "amendment" {
			r.amendments = append(r.amendments, r.amendment(root))
			return
		}
	}
	e := root.Entry("a chapter", &r.faults)
	r.chapter = e.NeedText("chapter")
	r.out.chapters = append(r.out.chapters, &chapterEntry{name: r.chapter, about: e.Text("about"), at: root.Place()})
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
		r.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Code: document.CodeNotMapping,
			Message: what + " are written as names with their entries", Wanted: "name: followed by its entry, indented"})
		return
	}
	for _, f := range n.Fields() {
		r.named(f.Key)
		read(f.Key, f.Value)
	}
}

// named refuses a name that an expression could not write.
func (r *reader) named(key *document.Node) {
	if !isName(key.Text()) {
		r.faults.Add(&diagnostic.Diagnostic{Place: key.Place(), Width: len([]rune(key.Text())), Code: codeName,
			Message: "this cannot be a name", Found: key.Text(), Wanted: "letters, digits and _, starting with a letter"})
	}
}

// isName reports whether expressions can read s as one name. A name may have
// groups, joined by dots.
func isName(s string) bool {
	for group := range strings.SplitSeq(s, ".") {
		if !identifier.MatchString(group) || reserved[group] {
			return false
		}
	}
	return true
}

var identifier = regexp.MustCompile(`^[A-Za-z_][A-Za-z0-9_]*$`)

// reserved are the words that CEL keeps for itself.
var reserved = map[string]bool{"true": true, "false": true, "null": true, "in": true, "as": true, "break": true,
	"const": true, "continue": true, "else": true, "for": true, "function": true, "if": true, "import": true,
	"let": true, "loop": true, "package": true, "namespace": true, "return": true, "var": true, "void": true, "while": true}

func (r *reader) source(key, n *document.Node) {
	e := n.Entry("a source", &r.faults)
	r.out.sources = append(r.out.sources, &sourceEntry{id: key.Text(), document: e.NeedText("document"), clause: e.Text("clause"),
		known: e.NeedText("known"), via: e.Text("via"), note: e.Text("note"), at: key.Place(), node: e.Get("known")})
	e.Done()
}

func (r *reader) vocabulary(key, n *document.Node) {
	e := n.Entry("a vocabulary", &r.faults)
	v := &vocabularyEntry{name: key.Text(), about: e.NeedText("about"), at: key.Place()}
	r.each(e.Need("words"), "the words", func(key, n *document.Node) {
		v.words = append(v.words, r.word(key, n))
	})
	e.Done()
	r.out.vocabularies = append(r.out.vocabularies, v)
}

// word reads a word with its label, or with its label and its meaning.
func (r *reader) word(key, n *document.Node) wordEntry {
	w := wordEntry{name: key.Text(), at: key.Place()}
	if n.Shape() == document.Scalar {
		w.label = n.Text()
	} else {
		e := n.Entry("a word", &r.faults)
		w.label, w.about = e.NeedText("label"), e.Text("about")
		e.Done()
	}
	if w.label == "" {
		w.label = w.name
	}
	return w
}

func (r *reader) kind(key, n *document.Node) {
	e := n.Entry("a kind of material", &r.faults)
	k := &kindEntry{name: key.Text(), about: e.NeedText("about"), at: key.Place()}
	r.each(e.Get("properties"), "the properties", func(key, n *document.Node) {
		p := propertyEntry{name: key.Text(), at: key.Place()}
		pe := n.Entry("a property", &r.faults)
		p.is, p.about, p.optional = pe.NeedText("is"), pe.NeedText("about"), pe.Bool("optional", false)
		pe.Done()
		k.properties = append(k.properties, p)
	})
	e.Done()
	r.out.kinds = append(r.out.kinds, k)
}

func (r *reader) material(key, n *document.Node) {
	e := n.Entry("a material", &r.faults)
	m := &materialEntry{name: key.Text(), kind: e.NeedText("kind"), label: e.NeedText("label"), about: e.Text("about"),
		source: e.Need("source"), at: key.Place(), chapter: r.chapter}
	r.each(e.Get("properties"), "the properties", func(key, n *document.Node) {
		m.properties = append(m.properties, document.Field{Key: key, Value: n})
	})
	e.Done()
	r.out.materials = append(r.out.materials, m)
}

func (r *reader) setting(key, n *document.Node) {
	e := n.Entry("a setting", &r.faults)
	r.out.settings = append(r.out.settings, &settingEntry{name: key.Text(), value: e.Need("value"), atLeast: e.Get("at_least"),
		atMost: e.Get("at_most"), because: e.Need("because"), source: e.Need("source"), at: key.Place(), chapter: r.chapter})
	e.Done()
}

func (r *reader) term(key, n *document.Node) {
	e := n.Entry("a term", &r.faults)
	r.out.terms = append(r.out.terms, &termEntry{name: key.Text(), is: e.NeedText("is"), isNode: e.Get("is"), about: e.NeedText("about"),
		value: e.Need("value"), source: e.Get("source"), when: e.Get("when"), at: key.Place(), chapter: r.chapter})
	e.Done()
}

func (r *reader) decision(key, n *document.Node) {
	e := n.Entry("a decision", &r.faults)
	d := &decisionEntry{name: key.Text(), asks: e.NeedText("asks"), answers: e.NeedText("answers"), take: e.NeedText("take"),
		when: e.Get("when"), at: key.Place(), answersNode: e.Get("answers"), takeNode: e.Get("take"), chapter: r.chapter}
	e.Need("rules")
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
	rule.id = id
	e.Done()
	return rule
}

// ruleBody reads all of a rule but its id.
func (r *reader) ruleBody(e *document.Entry, n *document.Node) *ruleEntry {
	return &ruleEntry{when: e.Get("when"), answer: e.Need("answer"), because: e.Need("because"),
		source: e.Need("source"), standing: e.Text("standing"), standingNode: e.Get("standing"), confirm: e.Text("confirm"),
		at: n.Place(), chapter: r.chapter}
}

func (r *reader) course(n *document.Node) {
	e := n.Entry("a course", &r.faults)
	c := &courseEntry{name: e.NeedText("course"), label: e.NeedText("label"), is: e.Need("is"), when: e.Get("when"),
		because: e.Need("because"), source: e.Need("source"), at: n.Place(), chapter: r.chapter}
	r.each(e.Need("attributes"), "the attributes", func(key, n *document.Node) {
		c.attributes = append(c.attributes, document.Field{Key: key, Value: n})
	})
	e.Done()
	r.out.courses = append(r.out.courses, c)
}

func (r *reader) check(n *document.Node) {
	e := n.Entry("a check", &r.faults)
	r.out.checks = append(r.out.checks, &checkEntry{id: e.NeedText("check"), asks: e.NeedText("asks"), when: e.Get("when"),
		holds: e.Get("holds"), value: e.Get("value"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"),
		failing: e.Need("failing"), says: e.Need("says"), because: e.Need("because"), source: e.Need("source"),
		at: n.Place(), chapter: r.chapter})
	e.Done()
}

func (r *reader) caution(n *document.Node) {
	e := n.Entry("a caution", &r.faults)
	r.out.cautions = append(r.out.cautions, &cautionEntry{id: e.NeedText("caution"), when: e.Get("when"), says: e.Need("says"),
		source: e.Need("source"), at: n.Place(), chapter: r.chapter})
	e.Done()
}

func (r *reader) refusal(n *document.Node) {
	e := n.Entry("a refusal", &r.faults)
	r.out.refusals = append(r.out.refusals, &refusalEntry{id: e.NeedText("refusal"), when: e.Need("when"), says: e.Need("says"),
		who: e.Need("who"), source: e.Need("source"), at: n.Place(), chapter: r.chapter})
	e.Done()
}
