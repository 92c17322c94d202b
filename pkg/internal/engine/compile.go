package engine

import (
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Object is a kind of value that rules only pass on, with how a material's
// entry writes it.
type Object struct {
	Kind  value.Kind
	Parse func(text string) (any, error)
}

// Setup is what a rulebook is compiled against: what a site can give, and what
// rules can call.
type Setup struct {
	// Label goes before the names of the rulebook's own files.
	Label string
	// Amendments are folders of amendments, and AsOf the day as of which they
	// hold; needed where any of them holds on some days only.
	Amendments []rulebook.Layer
	AsOf       rulebook.Date

	// Limits bound what is read and told.
	Limits rulebook.Limits
	// Whole asks for a rulebook that can design: with courses, refusals and
	// cautions.
	Whole bool

	// Thickness is the attribute of courses by which they add up to a depth: a
	// length, and never below zero. "" if there is none.
	Thickness string

	Inputs       []rulebook.Input
	Functions    []calculation.Function
	Objects      []Object
	Vocabularies []value.Vocabulary
}

// compiler compiles a written rulebook, gathering faults as it goes.
type compiler struct {
	setup        Setup
	in           *written
	book         *Book
	faults       diagnostic.List
	declares     language.Declarations
	declared     map[string]*document.Node // every name and word, where it is declared; nil by the library
	kinds        map[string]*document.Node // every kind of value
	properties   map[value.Kind][]rulebook.Property
	literals     *literals
	clauseByText map[string]int
	rules        map[string]*document.Node       // every id of a rule, limit, check, caution or refusal
	lifts        bool                            // what is compiled was taken away
	stillRead    map[string][]diagnostic.Related // where what was retired is read, by name
}

func compile(in *written, setup Setup, files []rulebook.File) (*Book, diagnostic.List, error) {
	c := &compiler{setup: setup, in: in,
		book: &Book{chapters: in.chapters, inputs: map[string]rulebook.Input{}, files: files, sources: map[string]value.Source{}, byName: map[string]any{},
			words: map[string]rulebook.Word{}, declared: map[string]rulebook.Source{}, kinds: map[value.Kind]*rulebook.Amended{}},
		declared:     map[string]*document.Node{},
		kinds:        builtInKinds(),
		properties:   map[value.Kind][]rulebook.Property{},
		literals:     &literals{words: map[string]*value.Word{}, objects: setup.Objects},
		clauseByText: map[string]int{},
		rules:        map[string]*document.Node{},
		stillRead:    map[string][]diagnostic.Related{},
	}
	c.sources()
	c.vocabularies()
	c.materials()
	c.inputs()
	c.settings()
	c.declareTermsAndDecisions()
	c.grouped()
	c.declares.Functions = setup.Functions
	env, err := language.New(c.declares)
	if err != nil {
		return nil, c.faults, &SetupError{err}
	}
	c.book.env, c.book.literals, c.book.thickness = env, c.literals, setup.Thickness
	c.settingReasons()
	c.terms()
	c.decisions()
	c.courses()
	c.checks()
	c.cautions()
	c.refusals()
	c.goneAndRead()
	if len(c.faults) == 0 {
		c.order()
	}
	for _, f := range c.faults {
		if f.Place == builtIn {
			return nil, nil, &SetupError{f}
		}
	}
	return c.book, c.faults, nil
}

// claim takes a name, or reports who has it already.
func (c *compiler) claim(name string, n *document.Node) bool { return c.claimIn(c.declared, name, n) }

// claimKind takes the name of a vocabulary or of a kind of material. Kinds are
// named apart from values: sand can be a word and a kind.
func (c *compiler) claimKind(name string, n *document.Node) bool {
	if language.IsTaken(value.Kind(name)) {
		return c.claimIn(map[string]*document.Node{name: nil}, name, n)
	}
	return c.claimIn(c.kinds, name, n)
}

func (c *compiler) claimIn(names map[string]*document.Node, name string, n *document.Node) bool {
	first, taken := names[name]
	if !taken {
		names[name] = n
		return true
	}
	// An amendment that takes a name is at fault, and so is a file that takes one
	// of the library's, whichever is read first.
	late := first != nil && (n == nil || c.in.own[first.Place().File] != nil && c.in.own[n.Place().File] == nil)
	if late {
		first, n = n, first
		names[name] = first
		c.unclaim(name)
	}
	twice(&c.faults, n, first, "the name is taken", name, "a name that stands for one thing in the whole rulebook", "it was declared here first")
	return late
}

// unclaim takes back what was declared under a name.
func (c *compiler) unclaim(name string) {
	delete(c.literals.words, name)
	for i, v := range c.declares.Vocabularies {
		c.declares.Vocabularies[i].Words = slices.DeleteFunc(v.Words, func(w *value.Word) bool { return w.Name == name })
	}
	c.declares.Names = slices.DeleteFunc(c.declares.Names, func(n language.Name) bool { return n.Name == name })
}

// grouped refuses a name such as spare.strength where spare is a material: it
// would hide that material's property.
func (c *compiler) grouped() {
	kinds := map[string]value.Kind{}
	for _, w := range c.literals.words {
		kinds[w.Name] = w.Vocabulary
	}
	for _, t := range c.in.terms {
		kinds[t.Name] = t.Kind
	}
	for _, d := range c.in.decisions {
		kinds[d.Name] = d.Kind
	}
	for _, name := range slices.Sorted(maps.Keys(c.declared)) {
		i := strings.LastIndexByte(name, '.')
		if i < 0 {
			continue
		}
		group, tail := name[:i], name[i+1:]
		hides := slices.ContainsFunc(c.properties[kinds[group]], func(p rulebook.Property) bool { return p.Name == tail })
		if hides {
			twice(&c.faults, c.declared[name], c.declared[group], "this name would hide a property of "+group, name, "another name", group+" is declared here")
		}
	}
}

// goneAndRead reports each entry that an amendment retired and that others read,
// once, at the amendment.
func (c *compiler) goneAndRead() {
	for _, name := range slices.Sorted(maps.Keys(c.stillRead)) {
		e := c.in.gone[name]
		d := &diagnostic.Diagnostic{Place: e.lifted.Place, Width: 1, Code: codeGone, Message: "the " + string(e.sort) + " " + name + " is retired here, and others read it",
			Found: name, Wanted: "changes of those, or none of it", Related: c.stillRead[name]}
		c.faults.Add(d)
	}
}

func (c *compiler) sources() {
	for _, k := range []value.Known{value.Practice, value.Own, value.Company} {
		c.book.sources[string(k)] = value.Source{ID: string(k), Known: k}
	}
	first := map[string]*document.Node{}
	for _, s := range c.in.sources {
		if !s.Known.Valid() {
			c.notOneOf(s.known, codeTag, "this is not a way of knowing", namesIn(value.AllKnown(), func(k value.Known) string { return string(k) })...)
		}
		if _, taken := c.book.sources[s.ID]; taken {
			twice(&c.faults, s.name, first[s.ID], "the source is there already", s.ID, "", "it was declared here first")
			continue
		}
		first[s.ID] = s.name
		c.book.sources[s.ID] = s.Source
		c.book.declared[s.ID] = rulebook.Source{Place: s.place(), Amended: s.amended}
	}
}

// sourceOf reads "id" or "id, clause".
func (c *compiler) sourceOf(n *document.Node) value.Source {
	if n == nil {
		return value.Source{}
	}
	if n.Shape() != document.Scalar {
		c.notScalar(n, "a source")
		return value.Source{}
	}
	id, clause, _ := strings.Cut(n.Text(), ",")
	id, clause = strings.TrimSpace(id), strings.TrimSpace(clause)
	s, ok := c.book.sources[id]
	if !ok && c.in.gone[id] != nil {
		c.readsGone(id, n.Place())
		return value.Source{}
	}
	if !ok {
		fault(&c.faults, n, codeSource, "no source is called "+id, id, "practice, own, company, or a name under sources", slices.Sorted(maps.Keys(c.book.sources))...)
		return value.Source{}
	}
	if clause != "" {
		s.Clause = clause
	}
	c.ownSource(n, &s, clause != "")
	return s
}

// ownSource holds a source that an amendment gives to what it changes: the
// company's standard bears the company's name, and a publication of the rulebook
// is named with the place that says so.
func (c *compiler) ownSource(n *document.Node, s *value.Source, placed bool) {
	by := c.in.own[n.Place().File]
	switch {
	case by == nil:
	case s.Known == value.Company && s.Document == "":
		s.Document = by.Company
	case s.Known == value.Own:
		fault(&c.faults, n, codeSource, "own is the rulebook's own choice, and this is an amendment", n.Text(), "company, practice, or the name of a source")
	case s.Published() && !placed && !c.declaredByAmendment(s.ID):
		fault(&c.faults, n, codeSource, "this document does not say what an amendment says", n.Text(), "company, or the place in the document after a comma, as in "+s.ID+", table 2")
	}
}

// declaredByAmendment reports whether an amendment declares a source.
func (c *compiler) declaredByAmendment(id string) bool {
	for _, s := range c.in.sources {
		if s.ID == id {
			return s.amended != nil
		}
	}
	return false
}

// vocabularies declares the words of the files and of whatever the inputs and
// calculations speak in.
func (c *compiler) vocabularies() {
	seen := map[string]bool{}
	add := func(v value.Vocabulary) {
		if seen[v.Name] {
			return
		}
		seen[v.Name] = true
		c.claimKind(v.Name, nil)
		var words []*value.Word
		for _, w := range v.Words {
			c.claim(w.Name, nil)
			out := &value.Word{Vocabulary: value.Kind(v.Name), Name: w.Name, Label: w.Label, Go: w.GoValue(), About: w.About}
			c.literals.words[w.Name] = out
			words = append(words, out)
		}
		c.declares.Vocabularies = append(c.declares.Vocabularies, language.Vocabulary{Kind: value.Kind(v.Name), Words: words})
	}
	for _, v := range c.setup.Vocabularies {
		add(v)
	}
	for _, f := range c.setup.Functions {
		sig, err := signature.Of(f)
		if err != nil {
			continue // reported when the language is built
		}
		for _, k := range append(sig.Params, sig.Result) {
			if w, ok := reflect.Zero(k.Go).Interface().(value.Worded); ok {
				add(w.Vocabulary())
			}
			if k.Form == signature.Object {
				c.declares.Objects = append(c.declares.Objects, value.Kind(k.Name))
			}
		}
	}
	for _, o := range c.setup.Objects {
		c.declares.Objects = append(c.declares.Objects, o.Kind)
		c.kinds[string(o.Kind)] = nil
	}
	for _, v := range c.in.vocabularies {
		name := v.id()
		if !c.claimKind(name, v.name) {
			continue
		}
		c.book.kinds[value.Kind(name)] = v.amended
		var words []*value.Word
		for _, w := range v.words {
			out := c.word(value.Kind(name), w)
			if out == nil {
				continue
			}
			words = append(words, out)
			c.book.words[out.Name] = c.wordTold(out, w, orNode(w.because, v.because), orNode(w.source, v.source))
		}
		c.kindsOf(v)
		c.declares.Vocabularies = append(c.declares.Vocabularies, language.Vocabulary{Kind: value.Kind(name), Words: words})
	}
}

// word makes a word of an entry, nil if its name is taken.
func (c *compiler) word(vocabulary value.Kind, w *wordEntry) *value.Word {
	if !c.claim(w.id(), w.name) {
		return nil
	}
	out := &value.Word{Vocabulary: vocabulary, Name: w.id(), Label: w.label, Go: w.id(), About: w.about}
	c.literals.words[out.Name] = out
	for _, n := range w.also {
		if c.claim(n.Text(), n) {
			c.literals.words[n.Text()] = out
			c.declares.Also = append(c.declares.Also, language.Also{Name: n.Text(), Word: out})
		}
	}
	return out
}

// wordTold is a word or a material with its because and source, each of its own
// or, for a word, that of its vocabulary. A word that an amendment adds or
// changes has its own.
func (c *compiler) wordTold(out *value.Word, w *wordEntry, because, source *document.Node) rulebook.Word {
	moved := w.amended != nil && w.first == nil && len(w.amended.Replaced) > 0
	own := w.amended != nil && !moved && !c.addedVocabulary(w.of)
	if own {
		because, source = w.because, w.source
	}
	for _, each := range []struct {
		key string
		is  *document.Node
	}{{"because", because}, {"source", source}} {
		if each.is == nil && own && w.sort == wordSort {
			fault(&c.faults, w.name, document.CodeMissingKey, "a word of an amendment needs the key \""+each.key+"\"", "", each.key)
		}
	}
	return rulebook.Word{Word: *out, Because: text(because), Source: c.sourceOf(source), Place: w.place(), Chapter: w.chapter, Amended: w.amended}
}

// addedVocabulary reports whether an amendment declares a vocabulary.
func (c *compiler) addedVocabulary(name string) bool {
	return slices.ContainsFunc(c.in.vocabularies, func(v *vocabularyEntry) bool { return v.id() == name && v.amended != nil })
}

// kindsOf reads which words of a vocabulary are kinds of others.
func (c *compiler) kindsOf(v *vocabularyEntry) {
	for _, w := range v.words {
		word := c.literals.words[w.id()]
		if w.kind == nil || word == nil {
			continue
		}
		wider, ok := c.literal(w.kind, word.Vocabulary)
		if !ok {
			continue
		}
		to, _ := wider.Word()
		for at := to; at.KindOf != nil || at.Name == word.Name; at = *at.KindOf {
			if at.Name == word.Name {
				fault(&c.faults, w.kind, codeCircle, "a word cannot be a kind of itself", word.Name, "a wider word")
				ok = false
				break
			}
		}
		if ok {
			word.KindOf = c.literals.words[to.Name]
		}
	}
}

func (c *compiler) inputs() {
	for _, in := range c.setup.Inputs {
		c.claim(in.Name, nil)
		c.book.inputs[in.Name] = in
		c.book.byName[in.Name] = in
		c.declares.Names = append(c.declares.Names, language.Name{Name: in.Name, Kind: in.Kind, About: in.About, MayLack: !in.Required})
	}
}

func (c *compiler) declareTermsAndDecisions() {
	for _, t := range c.in.terms {
		if !c.claim(t.Name, t.name) || !c.kindKnown(t.Kind, orNode(t.is, t.name), "a term") {
			continue
		}
		c.declares.Names = append(c.declares.Names, language.Name{Name: t.Name, Kind: t.Kind, About: t.About, MayLack: t.when != nil})
	}
	for _, d := range c.in.decisions {
		if !c.claim(d.Name, d.name) || !c.kindKnown(d.Kind, orNode(d.answers, d.name), "a decision") {
			continue
		}
		if d.Take == rulebook.All {
			d.Kind = value.ListOf(d.Kind)
		}
		c.declares.Names = append(c.declares.Names, language.Name{Name: d.Name, Kind: d.Kind, About: d.Asks, MayLack: d.when != nil})
	}
}

// orNode returns a node, and another if it is not there.
func orNode(n, otherwise *document.Node) *document.Node {
	if n == nil {
		return otherwise
	}
	return n
}

// kindKnown checks a kind before the language is built. One that is missing is
// reported already.
func (c *compiler) kindKnown(k value.Kind, n *document.Node, what string) bool {
	if k == value.NoKind {
		return false
	}
	base := k
	if c.in.gone[string(base)] != nil {
		c.readsGone(string(base), placeOf(n))
		return false
	}
	if element, ok := k.Element(); ok {
		base = element
	}
	if _, known := c.kinds[string(base)]; known {
		return true
	}
	fault(&c.faults, n, codeKind, what+" is of a kind that does not exist", string(k), "number, bool, text, a dimension, a vocabulary or a kind of material", slices.Sorted(maps.Keys(c.kinds))...)
	return false
}

func (c *compiler) decisions() {
	for _, d := range c.in.decisions {
		c.decision(d)
	}
}

func (c *compiler) decision(d *decisionEntry) {
	name, ok := c.book.env.NameOf(d.Name)
	if !ok {
		return // its name or its kind was reported
	}
	out := &Decision{Decision: d.Decision, index: len(c.book.decisions)}
	answerKind := name.Kind
	switch d.Take {
	case rulebook.First, rulebook.Only:
	case rulebook.All:
		answerKind, _ = name.Kind.Element()
	case rulebook.Largest, rulebook.Smallest:
		if !ordered(answerKind) {
			fault(&c.faults, d.take, codeNoOrder, "answers of this kind have no order", string(d.Take)+" of "+string(answerKind), "first, only or all")
		}
	default:
		c.notOneOf(d.take, codeTake, "this is not a way of taking an answer", "first", "only", "largest", "smallest", "all")
	}
	if len(d.rules) == 0 && d.list != nil {
		none := fault(&c.faults, d.name, codeNoRules, "the decision "+d.Name+" has no rules", "", "at least one rule, or it would come to no answer on any job")
		if n := len(d.lifted); n > 0 {
			none.Place, none.Width, none.Message = d.lifted[n-1].entry.lifted.Place, 1, none.Message+" left"
		}
	}
	out.when = c.condition(d.when, nil)
	given := out.when.settles(nil)
	for _, r := range d.rules {
		out.Rules = append(out.Rules, c.rule(r, answerKind, given))
	}
	for _, r := range d.lifted {
		gone := c.lifting(r.entry, func(l *lifted) { l.rule, l.before = c.rule(r.ruleEntry, answerKind, given), r.before })
		out.lifted = append(out.lifted, gone)
	}
	for _, l := range d.limits {
		if l.lifted != nil {
			c.lifting(l.entry, func(gone *lifted) { gone.limit = c.limit(out, l, answerKind, given) })
			continue
		}
		out.limits = append(out.limits, c.limit(out, l, answerKind, given))
	}
	c.book.decisions = append(c.book.decisions, out)
	c.book.byName[d.Name] = out
}

// notOneOf reports a text that is not one of a closed list of words.
func (c *compiler) notOneOf(n *document.Node, code diagnostic.Code, message string, words ...string) {
	if n == nil {
		return // that it is missing was reported
	}
	last := len(words) - 1
	fault(&c.faults, n, code, message, n.Text(), strings.Join(words[:last], ", ")+" or "+words[last], words...)
}

func (c *compiler) rule(r *ruleEntry, kind value.Kind, given language.Given) *Rule {
	c.ruleID(r.ID, r.name)
	out := &Rule{Rule: r.Rule}
	out.Source = c.sourceOf(r.source)
	switch r.Standing {
	case rulebook.NoStanding, rulebook.Measured, rulebook.Correlated, rulebook.Presumed:
	default:
		c.notOneOf(r.standing, codeStanding, "this is not a standing", "measured", "correlated", "presumed")
	}
	out.when = c.condition(r.when, given)
	here := out.when.settles(given)
	out.answer = c.expression(r.answer, kind, here)
	out.because = c.template(r.because, here)
	return out
}

// ruleID takes the id of a rule, check, caution or refusal: each is named once
// in the whole rulebook, so that a reason can name it alone.
func (c *compiler) ruleID(id string, n *document.Node) {
	if id == "" || c.lifts {
		return
	}
	if first, taken := c.rules[id]; taken {
		twice(&c.faults, n, first, "the rule is there already", id, "an id that no other rule has", "it stands here first")
		return
	}
	c.rules[id] = n
}

func (c *compiler) expression(n *document.Node, kind value.Kind, given language.Given) *Expression {
	if n == nil {
		return nil
	}
	if n.Shape() != document.Scalar {
		c.notScalar(n, "an expression")
		return nil
	}
	x, faults := c.book.env.Expression(n.Text(), kind, given)
	if c.report(n, 0, faults) {
		return nil
	}
	return &Expression{source: x, node: n}
}

func (c *compiler) terms() {
	for _, t := range c.in.terms {
		name, ok := c.book.env.NameOf(t.Name)
		if !ok {
			continue
		}
		out := &Term{Term: t.Term, index: len(c.book.terms)}
		out.Source = c.sourceOf(t.source)
		out.when = c.condition(t.when, nil)
		given := out.when.settles(nil)
		out.because = c.template(t.because, given)
		if name.Kind == value.BoolKind {
			out.condition = c.condition(t.value, given)
		} else {
			out.expr = c.expression(t.value, name.Kind, given)
		}
		c.book.terms = append(c.book.terms, out)
		c.book.byName[t.Name] = out
	}
}
