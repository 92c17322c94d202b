package engine

import (
	"cmp"
	"slices"
	"strings"

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
	if root.Shape() == document.NoShape {
		return // what is wrong was reported when it was read
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
		r.each(e.Get(s.key), "the "+strings.ReplaceAll(s.key, "_", " "), func(key, n *document.Node) {
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
		if diagnostic.Nearest(f.Key.Text(), []string{first}) != "" {
			at, message, found = f.Key, "unknown key "+f.Key.Text()+" in a file of rules", f.Key.Text()
		}
	}
	switch {
	case found != "":
	case root.Shape() == document.Sequence:
		found = "a list"
	case slices.Contains(keys, "area") && slices.Contains(keys, "use"):
		found = "a job"
	case slices.Contains(keys, "trials"):
		found = "a trial"
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

// fields lists the entries of a mapping of names.
func (r *reader) fields(n *document.Node, what string) (out []document.Field) {
	r.each(n, what, func(key, value *document.Node) { out = append(out, document.Field{Key: key, Value: value}) })
	return out
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

// written reads what is left of the entries after amending, as far as it is wanted
// before any expression can be compiled.
func (r *reader) written(a *amender) *written {
	w := &written{chapters: r.chapters, variances: a.variances, gone: map[string]*entry{}, of: map[sort][]*entry{}, own: map[string]*amendment{}}
	for _, each := range r.amendments {
		w.own[each.Place.File] = each
	}
	for _, v := range a.variances {
		v.used = v.used || v.Setting != "" && a.comes(v.Setting) // what it permits holds on other days
	}
	decisions, vocabularies := map[string]*decisionEntry{}, map[string]*vocabularyEntry{}
	for _, e := range a.entries {
		if e.lifted != nil && !e.speaks() {
			w.gone[e.id()] = e
			continue
		}
		switch e.sort {
		case vocabularySort:
			v := &vocabularyEntry{entry: e}
			w.vocabularies = append(w.vocabularies, v)
			vocabularies[e.id()] = v
		case wordSort:
			if v := vocabularies[e.of]; v != nil {
				v.words = append(v.words, e)
			}
		case materialSort, loadCaseSort, baseTypeSort, soilNameSort, compactorSort, edgeKindSort:
			w.materials = append(w.materials, r.material(e))
		case questionSort:
			w.of[e.sort] = append(w.of[e.sort], e)
			if d := decisionOf(e); d != nil {
				w.decisions = append(w.decisions, d)
			}
		case decisionSort:
			d := r.decision(e)
			w.decisions = append(w.decisions, d)
			decisions[e.id()] = d
		case ruleSort:
			if d := decisions[e.of]; d != nil {
				d.rules = append(d.rules, e)
			}
		case limitSort:
			if d := decisions[e.of]; d != nil {
				d.limits = append(d.limits, e)
			}
		default:
			if w.of[e.sort] = append(w.of[e.sort], e); e.sort.isWork() {
				w.work = append(w.work, e)
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

// place is where an entry stands: at its name, or at the mapping that has it.
func (e *entry) place() diagnostic.Place {
	if e.name == nil || e.node.Field(string(e.sort)) == e.name {
		return e.node.Place()
	}
	return e.name.Place()
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
		e.Need("rules")
	}
	if table != nil {
		for _, column := range table.Field("columns").Items() {
			if column.Text() != answerCell {
				d.Columns = append(d.Columns, column.Text())
			}
		}
	}
	e.Bool("sum")
	e.Items("rules")
	e.Items("limits")
	e.Done()
	return d
}
