package engine

import (
	"cmp"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// reader reads the files of a rulebook into entries, and entries into what they
// say, gathering faults as it goes.
type reader struct {
	faults   diagnostic.List
	chapter  string
	chapters []rulebook.Chapter
	entries  []*entry

	amendments []*amendment
	builtIn    []string         // vocabularies of the library
	texts      []*document.Node // files of texts in other languages
	limits     rulebook.Limits
	files      []rulebook.File

	// unread reports whether a file could not be read at all, so that nothing can be
	// said of what refers to it.
	unread bool
}

// file reads one file: a chapter, or an amendment where amends is true.
func (r *reader) file(name string, data []byte, amends bool) {
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
	if root.Shape() == document.NoShape {
		return // refused when it was read
	}
	keys := namesIn(root.Fields(), func(f document.Field) string { return f.Key.Text() })
	isChapter, isAmendment := slices.Contains(keys, "chapter"), slices.Contains(keys, "amendment")
	switch {
	case slices.Contains(keys, "texts") && amends:
		r.texts = append(r.texts, root)
		return
	case isAmendment && amends:
		r.amendments = append(r.amendments, r.amendment(root))
		return
	case isAmendment:
		fault(&r.faults, root, codeNotRules, "an amendment is kept in a folder of its own", "", "chapter: NAME here, and the amendment in a folder of amendments")
		return
	case isChapter && amends:
		fault(&r.faults, root, codeNotRules, "a chapter cannot stand among amendments: it does not say who changed the rulebook, when and why", "",
			"amendment: NAME, who, when and why, with what the chapter adds in a list under add")
		return
	case !isChapter && (root.Shape() == document.Mapping || amends):
		r.notRules(root, keys, amends)
		return
	}
	e := root.Entry("a chapter", &r.faults)
	r.chapter = e.NeedText("chapter")
	r.chapters = append(r.chapters, rulebook.Chapter{Name: r.chapter, About: e.Text("about"), Place: root.Place()})
	for _, s := range sections {
		if s.listed {
			for _, n := range e.Items(s.key) {
				r.entries = append(r.entries, r.entry(s.sort, n, "")...)
			}
			continue
		}
		r.each(e.Get(s.key), s.what, func(key, n *document.Node) {
			r.entries = append(r.entries, r.within(&entry{sort: s.sort, name: key, node: n, chapter: r.chapter})...)
		})
	}
	e.Done()
}

// notRules reports a file that is neither a chapter nor an amendment. What else it
// has does not matter then.
func (r *reader) notRules(root *document.Node, keys []string, amends bool) {
	first, what := "chapter", "rule file"
	if amends {
		first, what = "amendment", "amendment"
	}
	at, message, found := root, "this is not a rule file", ""
	for _, f := range root.Fields() {
		if nearly(root, first) && diagnostic.Nearest(f.Key.Text(), []string{first}) != "" {
			at, message, found = f.Key, "unknown key "+f.Key.Text()+" in a file of rules", f.Key.Text()
		}
	}
	switch {
	case found != "":
	case root.Shape() == document.Sequence:
		message, found = "this is not a rule file", "a list"
	case slices.Contains(keys, "area") && slices.Contains(keys, "use"):
		message, found = "this is not a rule file", "a job"
	case slices.Contains(keys, "trials"):
		message, found = "this is not a rule file", "a trial"
	case slices.Contains(keys, "prices"):
		message, found = "this is not a rule file; price lists are kept in a folder "+pricesFolder, "a price list"
	}
	fault(&r.faults, at, codeNotRules, message, found, first+": NAME, as every "+what+" begins", first)
}

// entry makes an entry of a mapping that has its name under the key of its sort,
// and of all that stands within it.
func (r *reader) entry(s sort, n *document.Node, of string) []*entry {
	return r.within(&entry{sort: s, name: n.Field(string(s)), node: n, of: of, chapter: r.chapter})
}

// within returns an entry with those that stand in it: the rules and limits of a
// decision, the words of a vocabulary.
func (r *reader) within(e *entry) []*entry {
	out := []*entry{e}
	switch e.sort {
	case decisionSort:
		out = append(out, r.table(e)...)
		for _, n := range e.node.Field("rules").Items() {
			out = append(out, r.entry(ruleSort, n, e.id())...)
		}
		for _, n := range e.node.Field("limits").Items() {
			out = append(out, r.entry(limitSort, n, e.id())...)
		}
	case vocabularySort:
		r.each(e.node.Field("words"), "the words", func(key, n *document.Node) {
			out = append(out, &entry{sort: wordSort, name: key, node: n, of: e.id(), chapter: r.chapter})
		})
	}
	return out
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

// named reports whether an expression could write a name, and reports it if not.
func (r *reader) named(key *document.Node) bool {
	if language.IsName(key.Text()) {
		return true
	}
	wanted := "letters, digits and _, starting with a letter"
	if language.IsName(key.Text() + "_") {
		wanted = "another name: the rule language keeps this one for itself"
	}
	fault(&r.faults, key, codeName, "this cannot be a name", key.Text(), wanted)
	return false
}

// written reads what is left of the entries after amending.
func (r *reader) written(a *amender) *written {
	w := &written{chapters: r.chapters, variances: a.variances, gone: map[string]*entry{}, own: map[string]*amendment{}}
	for _, each := range r.amendments {
		w.own[each.Place.File] = each
	}
	decisions, vocabularies := map[string]*decisionEntry{}, map[string]*vocabularyEntry{}
	for _, e := range a.entries {
		if e.lifted != nil && !e.speaks() {
			w.gone[e.id()] = e
			continue
		}
		switch e.sort {
		case sourceSort:
			w.sources = append(w.sources, r.source(e))
		case vocabularySort:
			v := r.vocabulary(e)
			w.vocabularies = append(w.vocabularies, v)
			vocabularies[e.id()] = v
		case wordSort:
			if v := vocabularies[e.of]; v != nil {
				v.words = append(v.words, r.word(e))
			}
		case kindSort:
			w.kinds = append(w.kinds, r.kind(e))
		case materialSort, loadCaseSort, baseTypeSort, soilNameSort, compactorSort:
			w.materials = append(w.materials, r.material(e))
		case questionSort:
			q := r.question(e)
			w.questions = append(w.questions, q)
			if q.decision != nil {
				w.decisions = append(w.decisions, q.decision)
			}
		case settingSort:
			s := r.setting(e)
			s.variance = a.varies(func(v *varianceEntry) bool { return v.Setting == s.Name })
			if s.variance != nil {
				s.variance.used = a.comes(s.Name) // what it permits holds on other days
			}
			w.settings = append(w.settings, s)
		case termSort:
			w.terms = append(w.terms, r.term(e))
		case decisionSort:
			d := r.decision(e)
			w.decisions = append(w.decisions, d)
			decisions[e.id()] = d
		case ruleSort:
			if d := decisions[e.of]; d != nil && e.lifted != nil {
				d.lifted = append(d.lifted, liftedRule{r.rule(e), len(d.rules)})
			} else if d != nil {
				d.rules = append(d.rules, r.rule(e))
			}
		case limitSort:
			if d := decisions[e.of]; d != nil {
				l := r.limit(e)
				l.variance = a.varies(func(v *varianceEntry) bool { return v.Bound == l.ID })
				d.limits = append(d.limits, l)
			}
		case courseSort:
			w.courses = append(w.courses, r.course(e))
		case checkSort:
			w.checks = append(w.checks, r.check(e))
		case cautionSort:
			w.cautions = append(w.cautions, r.caution(e))
		case refusalSort:
			w.refusals = append(w.refusals, r.refusal(e))
		case promiseSort:
			w.promises = append(w.promises, r.promise(e))
		case lineSort:
			w.lines = append(w.lines, r.line(e))
		default:
			if e.sort.isWork() {
				w.work = append(w.work, r.work(e))
			}
		}
	}
	return w
}

// speaks reports whether an entry is worked out although an amendment took it
// away, so that a section can tell that it would have spoken.
func (e *entry) speaks() bool {
	switch e.sort {
	case ruleSort, limitSort, courseSort, checkSort, cautionSort, refusalSort, promiseSort:
		return true
	}
	return e.sort.isWork()
}

// open opens the mapping of an entry. Its name is a key of the mapping unless it
// stands before it.
func (r *reader) open(e *entry, what string) *document.Entry {
	opened := e.node.Entry(what, &r.faults)
	if e.name == nil || e.node.Field(string(e.sort)) == e.name {
		opened.NeedText(string(e.sort))
	}
	for _, key := range e.keys {
		opened.Get(key)
	}
	return opened
}

func (r *reader) source(n *entry) *sourceEntry {
	e := r.open(n, "a source")
	out := &sourceEntry{entry: n, known: e.Get("known"), Source: value.Source{ID: n.id(),
		Document: e.NeedText("document"), Clause: e.Text("clause"), Known: value.Known(e.NeedText("known")), Via: e.Text("via"), Note: e.Text("note")}}
	e.Done()
	return out
}

func (r *reader) setting(n *entry) *settingEntry {
	e := r.open(n, "a setting")
	s := &settingEntry{entry: n, value: e.Need("value"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"), because: e.Need("because"), source: e.Need("source")}
	s.Setting = rulebook.Setting{Name: n.id(), About: e.Text("about"), Because: text(s.because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return s
}

// place is where an entry stands: at its name, or at the mapping that has it.
func (e *entry) place() diagnostic.Place {
	if e.name == nil || e.node.Field(string(e.sort)) == e.name {
		return e.node.Place()
	}
	return e.name.Place()
}

func (r *reader) term(n *entry) *termEntry {
	e := r.open(n, "a term")
	t := &termEntry{entry: n, is: e.Get("is"), value: e.Need("value"), because: e.Need("because"), source: e.Need("source"), when: e.Get("when")}
	t.Term = rulebook.Term{Name: n.id(), Kind: value.Kind(e.NeedText("is")), About: e.NeedText("about"), Value: text(t.value),
		When: text(t.when), Because: text(t.because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return t
}

func (r *reader) decision(n *entry) *decisionEntry {
	e := r.open(n, "a decision")
	d := &decisionEntry{entry: n, when: e.Get("when"), answers: e.Get("answers"), take: e.Get("take")}
	d.Decision = rulebook.Decision{Name: n.id(), Asks: e.NeedText("asks"), About: e.Text("about"), Kind: value.Kind(e.NeedText("answers")),
		When: text(d.when), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	table := e.Get("table")
	if table != nil && e.Get("rules") == nil {
		d.Take = rulebook.Take(cmp.Or(e.Text("take"), string(rulebook.Only)))
	} else {
		d.Take = rulebook.Take(e.NeedText("take"))
		d.list = e.Need("rules")
	}
	if table != nil {
		for _, column := range table.Field("columns").Items() {
			if column.Text() != answerCell {
				d.Columns = append(d.Columns, column.Text())
			}
		}
	}
	e.Items("rules")
	e.Items("limits")
	e.Done()
	return d
}

func (r *reader) rule(n *entry) *ruleEntry {
	what := "a rule"
	if n.row != nil {
		what = "a row"
	}
	e := r.open(n, what)
	out := &ruleEntry{entry: n, when: e.Get("when"), answer: e.Need("answer"), because: e.Need("because"), source: e.Need("source"), standing: e.Get("standing"),
		confirm: e.Get("confirm")}
	out.Rule = rulebook.Rule{ID: n.id(), When: text(out.when), Answer: text(out.answer), Because: text(out.because), Standing: rulebook.Standing(e.Text("standing")),
		Confirm: e.Text("confirm"), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	if n.row != nil && out.when == n.row.when {
		out.Cells = n.row.texts()
	}
	e.Done()
	return out
}

func (r *reader) limit(n *entry) *limitEntry {
	e := r.open(n, "a limit")
	out := &limitEntry{entry: n, when: e.Get("when"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"), oneOf: e.Get("one_of"), noneOf: e.Get("none_of"),
		because: e.Need("because"), source: e.Need("source")}
	given := slices.DeleteFunc([]*document.Node{out.atLeast, out.atMost, out.oneOf, out.noneOf}, func(n *document.Node) bool { return n == nil })
	if len(given) != 1 && n.node.Shape() == document.Mapping {
		fault(&r.faults, orNode(n.name, n.node), codeCheck, "a limit says one thing", "", "one of at_least, at_most, one_of and none_of")
	}
	out.Bound = rulebook.Bound{ID: n.id(), Decision: n.of, When: text(out.when), AtLeast: text(out.atLeast), AtMost: text(out.atMost),
		Because: text(out.because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return out
}

func (r *reader) course(n *entry) *courseEntry {
	e := r.open(n, "a course")
	label := e.NeedText("label")
	c := &courseEntry{entry: n, is: e.Need("is"), when: e.Get("when"), because: e.Need("because"), source: e.Need("source"), shows: e.Items("shows")}
	c.Course = rulebook.Course{Name: n.id(), Label: label, When: text(c.when), Because: text(c.because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	r.each(e.Need("attributes"), "the attributes", func(key, n *document.Node) {
		c.attributes = append(c.attributes, document.Field{Key: key, Value: n})
	})
	r.each(e.Get("drawn"), "how it is drawn", func(key, n *document.Node) {
		c.drawn = append(c.drawn, document.Field{Key: key, Value: n})
	})
	e.Done()
	return c
}

func (r *reader) check(n *entry) *checkEntry {
	e := r.open(n, "a check")
	asks := e.NeedText("asks")
	c := &checkEntry{entry: n, when: e.Get("when"), holds: e.Get("holds"), value: e.Get("value"), atLeast: e.Get("at_least"), atMost: e.Get("at_most"),
		failing: e.Need("failing"), says: e.Need("says"), passes: e.Get("passes"), because: e.Need("because"), source: e.Need("source")}
	c.Check = rulebook.Check{ID: n.id(), Asks: asks, When: text(c.when), Holds: text(c.holds), Value: text(c.value), Says: text(c.says), Passes: text(c.passes),
		Because: text(c.because), Failing: rulebook.Failing(text(c.failing).Text), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return c
}

func (r *reader) caution(n *entry) *cautionEntry {
	e := r.open(n, "a caution")
	c := &cautionEntry{entry: n, when: e.Get("when"), says: e.Need("says"), short: e.Get("short"), real: e.Get("real_when"), source: e.Need("source")}
	if n.first != nil && c.short == n.first.node.Field("short") && c.says != n.first.node.Field("says") {
		c.short = nil // it is short for what an amendment words otherwise
	}
	c.Caution = rulebook.Caution{ID: n.id(), When: text(c.when), Says: text(c.says), Short: text(c.short), RealWhen: text(c.real), Owed: e.Bool("owed", false), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return c
}

func (r *reader) refusal(n *entry) *refusalEntry {
	e := r.open(n, "a refusal")
	c := &refusalEntry{entry: n, when: e.Need("when"), says: e.Need("says"), who: e.Need("who"), source: e.Need("source")}
	c.Refusal = rulebook.Refusal{ID: n.id(), When: text(c.when), Says: text(c.says), Who: text(c.who), Contradicts: e.Bool("contradicts", false), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return c
}

func (r *reader) promise(n *entry) *promiseEntry {
	e := r.open(n, "a promise")
	p := &promiseEntry{entry: n, when: e.Get("when"), always: e.Get("always"), never: e.Get("never"), as: e.Get("as"), then: e.Get("then"),
		because: e.Need("because"), source: e.Need("source")}
	p.Promise = rulebook.Promise{ID: n.id(), When: text(p.when), Always: text(p.always), Never: text(p.never), As: text(p.as), Then: text(p.then),
		Because: text(p.because), Place: n.place(), Chapter: n.chapter, Amended: n.amended}
	e.Done()
	return p
}
