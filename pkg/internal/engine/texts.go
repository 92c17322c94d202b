package engine

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
)

// A file of texts gives texts of entries in another language. Each says of which text
// it is the translation, and stands for that text alone: where an amendment or a later
// rulebook words it otherwise, the new text stands until it is translated too. A text
// quotes the values that the other quotes, and nothing else of an entry can be given.

// textual are the keys of entries that only people read.
var textual = []string{"because", "says", "label", "about", "asks", "confirm", "who", "how", "test", "hold", "sizes", "measure", "finds", "does", "calls", "gives", "lacks", "leaves_out", "short", "passes"}

// Texts are those of a rulebook in one language.
type Texts struct {
	// Language is the one in which the book was opened, "" for its own.
	Language string
	// Numbers says how it writes numbers and units: see [quantity.System.Writing].
	Numbers map[string]string
	// Names are what it calls the names of the rule language: inputs, settings, terms,
	// decisions and attributes.
	Names map[string]string
	// All is how many texts the rulebook has, and Missing those of them that are not
	// given in the language, as "caution UTILITIES: says", in the order of the rulebook.
	All     int
	Missing []string
	printed []document.Field // what it writes for texts that are values
	in      map[quantity.System]quantity.System
}

// texts lists the texts of an entry with their keys, such as presumed.because.
func (e *entry) texts() []document.Field {
	if e.sort == wordSort && e.node.Shape() == document.Scalar {
		return []document.Field{{Key: document.Key("label", e.node), Value: e.node}}
	}
	if e.sort == sourceSort {
		return nil // the names of documents
	}
	return textsOf(e.node, "", 0)
}

func textsOf(n *document.Node, prefix string, depth int) (out []document.Field) {
	for _, f := range n.Fields() {
		key := f.Key.Text()
		switch shape := f.Value.Shape(); {
		case shape == document.Scalar && slices.Contains(textual, key):
			out = append(out, document.Field{Key: document.Key(prefix+key, f.Key), Value: f.Value})
		case shape == document.Mapping && (depth > 0 || key == "presumed" || key == properties):
			out = append(out, textsOf(f.Value, prefix+key+".", depth+1)...)
		}
	}
	return out
}

// translator lays texts over the entries of an amended rulebook.
type translator struct {
	r       *reader
	entries []*entry
	Texts
	inputs []rulebook.Input
	first  map[string]*document.Node // every text, where it is given
	stale  map[string]bool           // what is given for other texts alone
	put    map[*document.Node]bool   // texts of the language, where they stand now
	tags   []string
}

// translate checks every file of texts, and puts those of a language in place.
func (r *reader) translate(entries []*entry, setup Setup) (Texts, error) {
	language := setup.Language
	t := &translator{r: r, inputs: setup.Inputs, stale: map[string]bool{}, entries: entries, Texts: Texts{Language: language, Numbers: map[string]string{}, Names: map[string]string{}}, first: map[string]*document.Node{}, put: map[*document.Node]bool{}}
	for _, root := range r.texts {
		t.file(root)
	}
	if language == "" {
		return t.Texts, nil
	}
	t.in = map[quantity.System]quantity.System{quantity.US: quantity.US.Writing(t.Numbers), quantity.SI: quantity.SI.Writing(t.Numbers)}
	if !slices.Contains(t.tags, language) {
		return t.Texts, &SetupError{fmt.Errorf("no file of the amendments gives texts in the language %q; wanted %s", language, cmp.Or(strings.Join(t.tags, ", "), "a folder of amendments with a file that begins texts: "+language))}
	}
	for _, e := range entries {
		for _, f := range e.texts() {
			if e.lifted != nil {
				continue
			}
			if t.All++; !t.put[f.Value] {
				name := string(e.sort) + " " + e.id() + ": " + f.Key.Text()
				if t.stale[name] {
					name += " (given, of another text)"
				}
				t.Missing = append(t.Missing, name)
			}
		}
	}
	return t.Texts, nil
}

var tag = regexp.MustCompile(`^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$`)

func (t *translator) file(root *document.Node) {
	e := root.Entry("a file of texts", &t.r.faults)
	language := e.NeedText("texts")
	if language != "" && !tag.MatchString(language) {
		fault(&t.r.faults, e.Get("texts"), codeText, "this is not the tag of a language", language, "such as fr, es or pt-BR")
	}
	if !slices.Contains(t.tags, language) {
		t.tags = append(t.tags, language)
	}
	t.numbers(e, language)
	t.names(e.Get("names"), language)
	for _, s := range append(slices.Clone(sections), section{key: "rules", sort: ruleSort}, section{key: "limits", sort: limitSort}, section{key: "words", sort: wordSort}) {
		if s.sort == sourceSort {
			continue
		}
		if n := e.Get(s.key); n != nil {
			if n.Shape() != document.Mapping {
				fault(&t.r.faults, n, document.CodeNotMapping, "texts stand under the names of their entries", "", "NAME: {says: {of: THE TEXT, is: IN THE LANGUAGE}}")
			}
			for _, f := range n.Fields() {
				t.entry(s.sort, f, language)
			}
		}
	}
	e.Done()
}

// entry reads the texts of one entry. Those that an amendment put another in the place
// of are there too: they are told as lifted.
func (t *translator) entry(s sort, named document.Field, language string) {
	var of []*entry
	ofSort := slices.DeleteFunc(slices.Clone(t.entries), func(e *entry) bool { return e.sort != s || e.name == nil })
	for _, e := range ofSort {
		if e.id() == named.Key.Text() {
			of = append(of, e)
		}
	}
	if len(of) == 0 {
		names := namesIn(ofSort, (*entry).id)
		fault(&t.r.faults, named.Key, codeEntry, "no "+string(s)+" is called "+named.Key.Text(), named.Key.Text(), "the name of a "+string(s)+" of the rulebook", names...)
		return
	}
	opened := named.Value.Entry("the texts of a "+string(s), &t.r.faults)
	known := map[string]bool{}
	for _, e := range of {
		for _, f := range e.texts() {
			key := f.Key.Text()
			n := opened.Get(key)
			if n == nil || known[key] {
				continue
			}
			known[key] = true
			t.text(of, string(s)+" "+e.id()+": "+key, key, n, language)
		}
	}
	opened.Done()
}

// text reads one text, and puts it in place where its original still stands.
func (t *translator) text(entries []*entry, name, key string, n *document.Node, language string) {
	e := n.Entry("a text", &t.r.faults)
	of, is := e.NeedText("of"), e.NeedText("is")
	e.Done()
	if of == "" || is == "" {
		return
	}
	at := language + " " + name + " " + of
	if first := t.first[at]; first != nil {
		twice(&t.r.faults, n, first, "this text is given in "+language+" already", name, "", "it is given here first")
		return
	}
	t.first[at] = n
	if was, is := numbered(of), numbered(is); !slices.Equal(was, is) {
		fault(&t.r.faults, e.Get("is"), codeSentence, "the text does not have the values and numbers of the one that it translates", strings.Join(is, ", "), cmp.Or(strings.Join(was, ", "), "none"))
		return
	}
	if language != t.Language {
		return
	}
	t.stale[name] = true // or it is not missing
	for _, each := range entries {
		for _, f := range each.texts() {
			if f.Key.Text() == key && oneLine(f.Value.Text()) == oneLine(of) {
				if each.untranslated == nil {
					each.untranslated = each.node
				}
				each.node = each.node.Put(key, e.Get("is"))
				t.put[e.Get("is")] = true
			}
		}
	}
}

// oneLine is a text without the breaks of its lines.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }

var digits = regexp.MustCompile("[0-9]+")

// numbered lists what a text quotes, and the digits that it writes itself.
func numbered(text string) []string {
	out := append(holes(text), digits.FindAllString(text, -1)...)
	slices.Sort(out)
	return out
}

// names reads what a language calls the names of the rule language. Whatever the library
// calls them without is made of the name itself.
func (t *translator) names(n *document.Node, language string) {
	known := namesIn(t.inputs, func(in rulebook.Input) string { return in.Name })
	for _, e := range t.entries {
		switch e.sort {
		case settingSort, termSort, decisionSort, questionSort:
			known = append(known, e.id())
		case courseSort:
			known = append(known, namesIn(e.node.Field("attributes").Fields(), func(f document.Field) string { return f.Key.Text() })...)
		}
	}
	t.words(n, known, "names", language, t.Names)
}

// words reads what a language says for names, for each once.
func (t *translator) words(n *document.Node, known []string, under, language string, into map[string]string) {
	if n != nil && n.Shape() != document.Mapping {
		fault(&t.r.faults, n, document.CodeNotMapping, under+" are given as names with what they are called", "", "NAME: what it is called, such as "+append(known, "lean clay")[0])
	}
	for _, f := range n.Fields() {
		name, as := f.Key.Text(), f.Value.Text()
		switch at := language + " " + under + " " + name; {
		case known != nil && !slices.Contains(known, name):
			fault(&t.r.faults, f.Key, codeEntry, "nothing under "+under+" is called "+name, name, wordsUnder[under], known...)
		case t.first[at] != nil:
			twice(&t.r.faults, f.Key, t.first[at], name+" is given in "+language+" already", name, "", "it is given here first")
		case as == "" || strings.ContainsAny(as, "\t\n") || under == "numbers" && (utf8.RuneCountInString(as) != 1 || digits.MatchString(as)):
			fault(&t.r.faults, f.Value, CodeWrong, "this cannot be written for "+name, as, "a mark of one character under numbers, or else words")
		default:
			t.first[at] = f.Key
			if language == t.Language {
				into[name] = as
			}
		}
	}
}

// unprinted reports what is written for texts that no value prints: neither the label of
// a word, nor the name of a soil group, nor a text that a rule answers or a word has.
func (b *Book) unprinted() (faults diagnostic.List) {
	var known []string
	for _, kind := range b.Vocabularies() {
		for _, w := range b.Words(kind) {
			known = append(known, w.Label, w.About)
			for _, p := range w.Properties() {
				if text, is := p.PlainText(); is {
					known = append(known, text)
				}
			}
		}
	}
	for _, d := range b.Decisions() {
		for _, r := range d.Rules {
			known = append(known, strings.Trim(r.Answer.Text, "'"))
		}
	}
	slices.Sort(known)
	for _, f := range b.texts.printed {
		if !slices.Contains(known, f.Key.Text()) {
			fault(&faults, f.Key, codeEntry, "no value prints this", f.Key.Text(), "the label of a word, or a text that a rule answers", known...)
		}
	}
	return faults
}

var wordsUnder = map[string]string{
	"numbers": "decimal or thousands",
	"units":   "what values print, such as in, sq ft or yes",
	"names":   "the name of an input, a setting, a term, a decision or an attribute of a course",
}

// values are what values print beside numbers and units.
var values = []string{"yes", "no", "none", "nothing", "million"}

// numbers reads how a language writes numbers and units. A number is not broken at a
// space in it.
func (t *translator) numbers(e *document.Entry, language string) {
	names := slices.Clone(values)
	for _, u := range quantity.Units() {
		names = append(names, u.Symbol, cmp.Or(u.Plural, u.Symbol))
	}
	t.words(e.Get("numbers"), []string{"decimal", "thousands"}, "numbers", language, t.Numbers)
	t.words(e.Get("units"), names, "units", language, t.Numbers)
	t.printed = append(t.printed, e.Get("values").Fields()...)
	t.words(e.Get("values"), nil, "values", language, t.Numbers)
	if t.Numbers["thousands"] == " " {
		t.Numbers["thousands"] = "\u00a0"
	}
}
