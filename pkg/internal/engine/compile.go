package engine

import (
	"fmt"
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

	// Whole asks for a rulebook that can design: with courses, refusals and
	// cautions.
	Whole bool

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
	builder      *language.Builder
	declared     map[string]diagnostic.Place // every name and word, with its place
	kinds        map[string]diagnostic.Place // every kind of value
	kindList     []string                    // their names, once all are declared
	properties   map[value.Kind][]rulebook.Property
	literals     *literals
	clauseByText map[string]int
	rules        map[string]diagnostic.Place
}

// builtInPlace is where names stand that no rule file declares.
var builtInPlace = diagnostic.Place{File: "the library"}

func compile(in *written, setup Setup, files []rulebook.File) (*Book, diagnostic.List, error) {
	c := &compiler{setup: setup, in: in, builder: language.NewBuilder(),
		book:         &Book{chapters: in.chapters, inputs: map[string]rulebook.Input{}, files: files, sources: map[string]value.Source{}, byName: map[string]any{}},
		declared:     map[string]diagnostic.Place{},
		kinds:        builtInKinds(),
		properties:   map[value.Kind][]rulebook.Property{},
		literals:     &literals{words: map[string]*value.Word{}, objects: setup.Objects},
		clauseByText: map[string]int{},
		rules:        map[string]diagnostic.Place{},
	}
	c.sources()
	c.vocabularies()
	c.materials()
	c.inputs()
	c.settings()
	c.declareTermsAndDecisions()
	c.grouped()
	for _, f := range setup.Functions {
		c.builder.AddFunction(f)
	}
	env, err := c.builder.Build()
	if err != nil {
		return nil, c.faults, &SetupError{err}
	}
	c.book.env, c.book.literals = env, c.literals
	c.settingReasons()
	c.terms()
	c.decisions()
	c.courses()
	c.checks()
	c.cautions()
	c.refusals()
	if len(c.faults) == 0 {
		c.order()
	}
	for _, f := range c.faults {
		if f.Place == builtInPlace {
			return nil, nil, &SetupError{f}
		}
	}
	return c.book, c.faults, nil
}

// claim takes a name, or reports who has it already.
func (c *compiler) claim(name string, at diagnostic.Place) bool {
	return c.claimIn(c.declared, name, at)
}

// claimKind takes the name of a vocabulary or of a kind of material. Kinds are
// named apart from values: sand can be a word and a kind.
func (c *compiler) claimKind(name string, at diagnostic.Place) bool {
	if language.IsTaken(value.Kind(name)) {
		return c.claimIn(map[string]diagnostic.Place{name: builtInPlace}, name, at)
	}
	return c.claimIn(c.kinds, name, at)
}

func (c *compiler) claimIn(names map[string]diagnostic.Place, name string, at diagnostic.Place) bool {
	if first, taken := names[name]; taken {
		c.faults.Add(&diagnostic.Diagnostic{Place: at, Width: len(name), Code: CodeTwice, Message: "the name is taken",
			Found: name, Wanted: "a name that stands for one thing in the whole rulebook",
			Related: []diagnostic.Related{{Place: first, Message: "it was declared here first"}}})
		return false
	}
	names[name] = at
	return true
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
			c.faults.Add(&diagnostic.Diagnostic{Place: c.declared[name], Width: len(name), Code: CodeTwice, Message: "this name would hide a property of " + group,
				Found: name, Wanted: "another name", Related: []diagnostic.Related{{Place: c.declared[group], Message: group + " is declared here"}}})
		}
	}
}

func (c *compiler) sources() {
	for _, k := range []value.Known{value.Practice, value.Own, value.Company} {
		c.book.sources[string(k)] = value.Source{ID: string(k), Known: k}
	}
	places := map[string]diagnostic.Place{}
	for _, s := range c.in.sources {
		if !s.Known.Valid() && s.known != nil {
			c.faults.Add(&diagnostic.Diagnostic{Place: s.known.Place(), Width: s.known.Width(), Code: codeTag, Message: "this is not a way of knowing",
				Found: string(s.Known), Wanted: fmt.Sprint(value.AllKnown()), Nearest: diagnostic.Nearest(string(s.Known), knownTags())})
		}
		if _, taken := c.book.sources[s.ID]; taken {
			c.faults.Add(&diagnostic.Diagnostic{Place: s.at, Width: len(s.ID), Code: CodeTwice, Message: "the source is there already", Found: s.ID,
				Related: []diagnostic.Related{{Place: places[s.ID], Message: "it was declared here first"}}})
			continue
		}
		places[s.ID] = s.at
		c.book.sources[s.ID] = s.Source
	}
}

func knownTags() []string {
	var out []string
	for _, k := range value.AllKnown() {
		out = append(out, string(k))
	}
	return out
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
	if !ok {
		ids := slices.Sorted(maps.Keys(c.book.sources))
		c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: len([]rune(id)), Code: codeSource, Message: "no source is called " + id,
			Found: id, Wanted: "practice, own, company, or a name under sources", Nearest: diagnostic.Nearest(id, ids)})
		return value.Source{}
	}
	if clause != "" {
		s.Clause = clause
	}
	return s
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
		c.claimKind(v.Name, builtInPlace)
		var words []*value.Word
		for _, w := range v.Words {
			words = append(words, c.word(value.Kind(v.Name), wordEntry{name: w.Name, label: w.Label, about: w.About, at: builtInPlace}, w.GoValue()))
		}
		c.builder.AddVocabulary(value.Kind(v.Name), words, nil)
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
				c.builder.AddObject(value.Kind(k.Name))
			}
		}
	}
	for _, o := range c.setup.Objects {
		c.builder.AddObject(o.Kind)
	}
	for _, v := range c.in.vocabularies {
		if !c.claimKind(v.name, v.at) {
			continue
		}
		var words []*value.Word
		for _, w := range v.words {
			words = append(words, c.word(value.Kind(v.name), w, w.name))
		}
		c.builder.AddVocabulary(value.Kind(v.name), words, nil)
	}
}

func (c *compiler) word(vocabulary value.Kind, w wordEntry, goValue string) *value.Word {
	c.claim(w.name, w.at)
	out := &value.Word{Vocabulary: vocabulary, Name: w.name, Label: w.label, Go: goValue, About: w.about}
	c.literals.words[w.name] = out
	return out
}

func (c *compiler) inputs() {
	for _, in := range c.setup.Inputs {
		c.claim(in.Name, builtInPlace)
		c.book.inputs[in.Name] = in
		c.book.byName[in.Name] = in
		c.builder.AddName(language.Name{Name: in.Name, Kind: in.Kind, About: in.About, MayLack: !in.Required})
	}
}

func (c *compiler) declareTermsAndDecisions() {
	for _, t := range c.in.terms {
		if !c.claim(t.Name, t.Place) || !c.kindKnown(t.Kind, placeOf(t.is, t.Place), "a term") {
			continue
		}
		c.builder.AddName(language.Name{Name: t.Name, Kind: t.Kind, About: t.About, MayLack: t.when != nil})
	}
	for _, d := range c.in.decisions {
		if !c.claim(d.Name, d.Place) || !c.kindKnown(d.Kind, placeOf(d.answers, d.Place), "a decision") {
			continue
		}
		if d.Take == rulebook.All {
			d.Kind = value.ListOf(d.Kind)
		}
		c.builder.AddName(language.Name{Name: d.Name, Kind: d.Kind, About: d.Asks, MayLack: d.when != nil})
	}
}

// placeOf returns where a node stands, and otherwise if there is none.
func placeOf(n *document.Node, otherwise diagnostic.Place) diagnostic.Place {
	if n == nil {
		return otherwise
	}
	return n.Place()
}

// kindKnown checks a kind before the language is built.
func (c *compiler) kindKnown(k value.Kind, at diagnostic.Place, what string) bool {
	names := c.kindNames()
	base := k
	if element, ok := k.Element(); ok {
		base = element
	}
	if slices.Contains(names, string(base)) {
		return true
	}
	c.faults.Add(&diagnostic.Diagnostic{Place: at, Width: len(k), Code: codeKind, Message: what + " is of a kind that does not exist",
		Found: string(k), Wanted: "number, bool, text, a dimension, a vocabulary or a kind of material", Nearest: diagnostic.Nearest(string(k), names)})
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
			c.faults.Add(&diagnostic.Diagnostic{Place: d.take.Place(), Width: d.take.Width(), Code: codeNoOrder, Message: "answers of this kind have no order",
				Found: string(d.Take) + " of " + string(answerKind), Wanted: "first, only or all"})
		}
	default:
		c.notOneOf(d.take, codeTake, "this is not a way of taking an answer", "first", "only", "largest", "smallest", "all")
	}
	out.when = c.condition(d.when, nil)
	given := out.when.settles(nil)
	for _, r := range d.rules {
		out.Rules = append(out.Rules, c.rule(r, answerKind, given))
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
	c.faults.Add(&diagnostic.Diagnostic{Place: n.Place(), Width: n.Width(), Code: code, Message: message, Found: n.Text(),
		Wanted: strings.Join(words[:last], ", ") + " or " + words[last], Nearest: diagnostic.Nearest(n.Text(), words)})
}

func (c *compiler) rule(r *ruleEntry, kind value.Kind, given language.Given) *Rule {
	c.ruleID(r.ID, r.Place)
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
func (c *compiler) ruleID(id string, at diagnostic.Place) {
	if id == "" {
		return
	}
	if first, taken := c.rules[id]; taken {
		c.faults.Add(&diagnostic.Diagnostic{Place: at, Code: CodeTwice, Message: "the rule is there already", Found: id,
			Wanted: "an id that no other rule has", Related: []diagnostic.Related{{Place: first, Message: "it stands here first"}}})
		return
	}
	c.rules[id] = at
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
		if name.Kind == value.BoolKind {
			out.condition = c.condition(t.value, given)
		} else {
			out.expr = c.expression(t.value, name.Kind, given)
		}
		c.book.terms = append(c.book.terms, out)
		c.book.byName[t.Name] = out
	}
}
