package engine

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/calculation"
	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
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
	// Language is the one in which texts are taken from the amendments; "" for that of
	// the rulebook.
	Language string

	// Limits bound what is read and told.
	Limits rulebook.Limits
	// Whole asks for a rulebook that can design: with courses, refusals and
	// cautions.
	Whole bool

	// Thickness is the attribute of courses by which they add up to a depth: a
	// length, and never below zero. "" if there is none.
	Thickness string
	// Added is the term that counts the thickness of courses that amendments add, into
	// whatever depth reads it. "" if there is none.
	Added string
	// Depth is the decision that answers that depth. "" if there is none.
	Depth string

	Inputs       []rulebook.Input
	Functions    []calculation.Function
	Objects      []Object
	Vocabularies []value.Vocabulary
}

// compiler compiles a written rulebook, gathering faults as it goes.
type compiler struct {
	setup        Setup
	r            *reader // of entries; what is wrong with their form is told before all else
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
	broken       map[string]bool                 // names whose declaration was reported, so that none who reads one is
	lifts        bool                            // what is compiled was taken away
	stillRead    map[string][]diagnostic.Related // where what was retired is read, by name
}

func compile(r *reader, in *written, setup Setup) (*Book, diagnostic.List, error) {
	c := &compiler{setup: setup, r: r, in: in,
		book: &Book{chapters: in.chapters, inputs: map[string]rulebook.Input{}, files: r.files, sources: map[string]value.Source{}, byName: map[string]any{},
			words: map[string]rulebook.Word{}, declared: map[string]rulebook.Source{}, kinds: map[value.Kind]rulebook.Vocabulary{}},
		declared:     map[string]*document.Node{},
		kinds:        map[string]*document.Node{},
		properties:   map[value.Kind][]rulebook.Property{},
		literals:     &literals{words: map[string]*value.Word{}, labels: map[*value.Word][]string{}, objects: setup.Objects},
		clauseByText: map[string]int{},
		rules:        map[string]*document.Node{},
		broken:       map[string]bool{},
		stillRead:    map[string][]diagnostic.Related{},
	}
	for _, k := range language.OwnKinds() {
		c.kinds[string(k)] = nil // no vocabulary can take its name
	}
	c.sources()
	c.vocabularies()
	c.materials()
	c.unspoken()
	c.inputs()
	c.questions()
	c.settings()
	c.depths()
	c.declareTermsAndDecisions()
	c.grouped()
	c.declares.Functions = setup.Functions
	env, err := language.New(c.declares)
	if err != nil {
		return nil, c.faults, &SetupError{err}
	}
	c.book.env, c.book.literals, c.book.thickness, c.book.depth = env, c.literals, setup.Thickness, setup.Depth
	c.settingReasons()
	c.terms()
	for _, d := range c.in.decisions {
		c.decision(d)
	}
	c.askings()
	c.courses()
	c.spoken()
	c.goneAndRead()
	if len(c.faults) == 0 {
		c.order()
	}
	for _, f := range c.faults {
		if f.Place == builtIn {
			return nil, nil, &SetupError{f}
		}
	}
	for _, name := range slices.Sorted(maps.Keys(c.in.gone)) {
		c.book.gone = append(c.book.gone, (&lifted{entry: c.in.gone[name]}).told())
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
	for _, n := range c.declares.Names {
		kinds[n.Name] = n.Kind
	}
	for _, name := range slices.Sorted(maps.Keys(c.declared)) {
		i := strings.LastIndexByte(name, '.')
		if i < 0 {
			continue
		}
		group, tail := name[:i], name[i+1:]
		if slices.ContainsFunc(c.properties[kinds[group]], func(p rulebook.Property) bool { return p.Name == tail }) {
			twice(&c.faults, c.declared[name], c.declared[group], "this name would hide a property of "+group, name, "another name", group+" is declared here")
		}
	}
}

// goneAndRead reports each entry that an amendment retired and that others read,
// once, at the amendment.
func (c *compiler) goneAndRead() {
	for _, name := range slices.Sorted(maps.Keys(c.stillRead)) {
		e := c.in.gone[name]
		c.faults.Add(&diagnostic.Diagnostic{Place: e.lifted.Place, Width: 1, Code: codeGone, Message: "the " + string(e.sort) + " " + name + " is retired here, and others read it",
			Found: name, Wanted: "changes of those, or none of it", Related: c.stillRead[name]})
	}
}

func (c *compiler) inputs() {
	for _, in := range c.setup.Inputs {
		c.claim(in.Name, nil)
		c.book.inputs[in.Name] = in
		c.book.byName[in.Name] = in
		c.declares.Names = append(c.declares.Names, language.Name{Name: in.Name, Kind: in.Kind, MayLack: !in.Required})
	}
}

func (c *compiler) declareTermsAndDecisions() {
	for _, t := range c.in.of[termSort] {
		is, when := t.node.Field("is"), t.node.Field("when")
		kind := value.Kind(is.Text())
		if !c.claim(t.id(), t.name) || strings.TrimSpace(is.Text()) == "" || !c.kindKnown(kind, is, "a term") {
			c.broken[t.id()] = true
			continue
		}
		c.declares.Names = append(c.declares.Names, language.Name{Name: t.id(), Kind: kind, MayLack: when != nil})
	}
	for _, d := range c.in.decisions {
		if !c.claim(d.Name, d.name) || !c.kindKnown(d.Kind, cmp.Or(d.answers, d.name), "a decision") {
			c.broken[d.Name] = true
			continue
		}
		if d.Take == rulebook.All {
			d.Kind = value.ListOf(d.Kind)
		}
		c.declares.Names = append(c.declares.Names, language.Name{Name: d.Name, Kind: d.Kind, MayLack: d.when != nil})
	}
}

// kindKnown checks a kind before the language is built. One that is missing is
// reported already.
func (c *compiler) kindKnown(k value.Kind, n *document.Node, what string) bool {
	if k == value.NoKind {
		return false
	}
	base := k
	if element, ok := k.Element(); ok {
		base = element
	}
	if c.in.gone[string(base)] != nil {
		c.readsGone(string(base), placeOf(n))
		return false
	}
	if _, known := c.kinds[string(base)]; known {
		return true
	}
	fault(&c.faults, n, codeKind, what+" is of a kind that does not exist", string(k), "number, bool, text, a dimension, a vocabulary or a kind of material", slices.Sorted(maps.Keys(c.kinds))...)
	return false
}

func (c *compiler) decision(d *decisionEntry) {
	name, ok := c.book.env.NameOf(d.Name)
	if !ok || c.declared[d.Name] != d.name {
		return // its name or its kind was reported
	}
	out := &Decision{Decision: d.Decision, index: len(c.book.decisions)}
	answerKind := name.Kind
	switch d.Take {
	case rulebook.First, rulebook.Only:
	case rulebook.All:
		answerKind, _ = name.Kind.Element()
	case rulebook.Largest, rulebook.Smallest:
		if !language.IsOrdered(answerKind) {
			fault(&c.faults, d.take, codeNoOrder, "answers of this kind have no order", string(d.Take)+" of "+string(answerKind), "first, only or all")
		}
	default:
		c.notOneOf(d.take, codeTake, "this is not a way of taking an answer", "first", "only", "largest", "smallest", "all")
	}
	left := slices.DeleteFunc(slices.Clone(d.rules), func(r *entry) bool { return r.lifted != nil })
	if len(left) == 0 && (d.node.Field("rules") != nil || len(d.rules) > 0) {
		none := fault(&c.faults, d.name, codeNoRules, "the decision "+d.Name+" has no rules", "", "at least one rule, or it would come to no answer on any job")
		if n := len(d.rules); n > 0 {
			none.Place, none.Width, none.Message = d.rules[n-1].lifted.Place, 1, none.Message+" left"
		}
	}
	out.When = c.condition(d.when, nil)
	given := out.When.settles(nil)
	c.table(d, given)
	for _, r := range left {
		out.Rules = append(out.Rules, c.rule(r, answerKind, given))
	}
	before := 0
	for _, r := range d.rules {
		if r.lifted == nil {
			before++
			continue
		}
		out.lifted = append(out.lifted, c.lifting(r, func(l *lifted) {
			l.rule, l.before = c.rule(r, answerKind, given), before
			l.says, l.speaks = l.rule.Because, func(o *Outcome) (bool, error) { return o.wouldDecide(l), nil }
		}))
	}
	out.limits = standing(c, d.limits, func(e *entry) *Limit { return c.limit(out, e, answerKind, given) }, func(l *lifted, x *Limit) {
		l.says, l.speaks = x.Because, func(o *Outcome) (bool, error) { return o.wouldCross(l, x) }
	})
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

// begin opens an entry that has an id.
func (c *compiler) begin(n *entry, what string) *document.Entry {
	c.ruleID(n.id(), n.name)
	return c.r.open(n, what)
}

// when compiles the condition of an entry, and returns it with what is given where
// it holds.
func (c *compiler) when(n *document.Node, given language.Given) (rulebook.Text, *Condition, language.Given) {
	out := c.condition(n, given)
	return text(n), out, out.settles(given)
}

// sentence compiles a sentence of an entry, and returns it as written too.
func (c *compiler) sentence(n *document.Node, given language.Given) (rulebook.Text, *Template) {
	return text(n), c.template(n, given)
}

// rule compiles a rule, or a row of a table. What is wrong in the cells of a row is
// told, and nothing else of it.
func (c *compiler) rule(n *entry, kind value.Kind, given language.Given) *Rule {
	what, row := "a rule", n.row
	if row != nil {
		what = "a row"
	}
	e := c.begin(n, what)
	when, answer, because, source, standing, confirm := e.Get("when"), e.Need("answer"), e.Need("because"), e.Need("source"), e.Get("standing"), e.Get("confirm")
	out := &Rule{Rule: rulebook.Rule{ID: n.id(), Answer: text(answer), Standing: rulebook.Standing(e.Text("standing")), Confirm: e.Text("confirm"),
		Place: n.place(), Chapter: n.chapter, Amended: n.amended}}
	e.Done()
	if row != nil && when == row.when {
		out.Cells, when = row.texts(), row.asks
	}
	t := &out.Rule
	if t.When = text(when); row != nil && row.wrong {
		t.Because = text(because)
		return out
	}
	t.Source = c.sourceOf(source)
	switch t.Standing {
	case rulebook.NoStanding, rulebook.Measured, rulebook.Correlated, rulebook.Presumed:
	default:
		c.notOneOf(standing, codeStanding, "this is not a standing", "measured", "correlated", "presumed")
	}
	t.When, out.When, given = c.when(when, given)
	if len(t.Cells) > 0 {
		row.mark(out.When)
	}
	out.answer = c.expression(answer, kind, given)
	t.Because, out.Because = c.sentence(because, given)
	out.ToConfirm = c.template(confirm, given)
	return out
}

// ruleID takes the id of a rule, check, caution or refusal: each is named once
// in the whole rulebook, so that a reason can name it alone.
func (c *compiler) ruleID(id string, n *document.Node) {
	if id == "" || c.lifts {
		return
	}
	if first, taken := c.rules[id]; taken {
		if c.in.own[first.Place().File] != nil && c.in.own[n.Place().File] == nil {
			first, n = n, first // the amendment takes a name that the rulebook has
		}
		twice(&c.faults, n, first, id+" is there already", id, "a name that no other rule, limit, check, caution, refusal or promise has", "it stands here first")
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
	if kind == value.TextKind && len(faults) > 0 && strings.Contains(strings.TrimSpace(n.Text()), " ") && !strings.ContainsAny(n.Text(), "'\"()") {
		fault(&c.faults, n, codeUnquoted, "a text in an expression stands in quotes of its own", n.Text(), `"'`+n.Text()+`'"`)
		return nil
	}
	if c.report(n, 0, faults) {
		return nil
	}
	return &Expression{source: x, node: n}
}

func (c *compiler) terms() {
	for _, n := range c.in.of[termSort] {
		e := c.r.open(n, "a term")
		e.Bool("sum")
		e.Get("is")
		of, because, source, when := e.Need("value"), e.Need("because"), e.Need("source"), e.Get("when")
		e.NeedText("is")
		t := rulebook.Term{Name: n.id(), About: e.NeedText("about"), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
		e.Done()
		name, ok := c.book.env.NameOf(t.Name)
		if !ok || c.declared[t.Name] != n.name {
			continue // its name or its kind was reported
		}
		t.Kind, t.Value, t.Source = name.Kind, text(of), c.sourceOf(source)
		out := &Term{}
		var given language.Given
		t.When, out.When, given = c.when(when, nil)
		t.Because, out.Why = c.sentence(because, given)
		if out.Term = t; name.Kind == value.BoolKind {
			out.TermCondition = c.condition(of, given)
		} else {
			out.expr = c.expression(of, name.Kind, given)
		}
		c.book.terms = append(c.book.terms, out)
		c.book.byName[n.id()] = out
	}
}
