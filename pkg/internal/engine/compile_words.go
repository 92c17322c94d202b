package engine

import (
	"cmp"
	"reflect"
	"slices"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/internal/signature"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

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
				c.kinds[k.Name] = nil
			}
		}
	}
	for _, o := range c.setup.Objects {
		c.declares.Objects = append(c.declares.Objects, o.Kind)
		c.kinds[string(o.Kind)] = nil
	}
	for _, v := range c.in.vocabularies {
		name := v.id()
		e := c.r.open(v.entry, "a vocabulary")
		e.Text("because")
		about, because, source := e.NeedText("about"), e.Need("because"), e.Need("source")
		e.Need("words")
		e.Done()
		entries := asTold(v.words, c.r.word)
		if !c.claimKind(name, v.name) {
			continue
		}
		c.book.kinds[value.Kind(name)] = rulebook.Vocabulary{About: about, Amended: v.amended}
		var words []*value.Word
		for _, w := range entries {
			if out := c.word(value.Kind(name), w); out != nil {
				words = append(words, out)
				c.book.words[out.Name] = c.wordTold(out, w, cmp.Or(w.because, because), cmp.Or(w.source, source))
			}
		}
		c.kindsOf(entries)
		c.declares.Vocabularies = append(c.declares.Vocabularies, language.Vocabulary{Kind: value.Kind(name), Words: words})
	}
}

// word makes a word of an entry, nil if its name is taken.
func (c *compiler) word(vocabulary value.Kind, w *wordEntry) *value.Word {
	if !c.claim(w.id(), w.name) {
		return nil
	}
	out := &value.Word{Vocabulary: vocabulary, Name: w.id(), Label: w.label, Go: cmp.Or(w.inJobs, w.id()), About: w.about}
	c.literals.words[out.Name] = out
	if w.untranslated != nil { // jobs and rules go on writing it as they did
		c.literals.labels[out] = []string{cmp.Or(w.untranslated.Text(), w.untranslated.Field("label").Text())}
	}
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
	return rulebook.Word{Word: *out, Sort: string(w.sort), Also: namesIn(w.also, (*document.Node).Text), Loosely: w.loosely, Because: text(because),
		Source: c.sourceOf(source), Place: w.place(), Chapter: w.chapter, Amended: w.amended, Own: w.own}
}

// addedVocabulary reports whether an amendment declares a vocabulary.
func (c *compiler) addedVocabulary(name string) bool {
	return slices.ContainsFunc(c.in.vocabularies, func(v *vocabularyEntry) bool { return v.id() == name && v.amended != nil })
}

// unspoken declares without words the kinds of what jobs tell and no file has words
// for.
func (c *compiler) unspoken() {
	for _, in := range c.setup.Inputs {
		if _, known := c.kinds[string(in.Kind)]; known || language.IsTaken(in.Kind) {
			continue
		}
		if _, list := in.Kind.Element(); !list && c.claimKind(string(in.Kind), nil) {
			c.declares.Vocabularies = append(c.declares.Vocabularies, language.Vocabulary{Kind: in.Kind})
		}
	}
}

// kindsOf reads which words of a vocabulary are kinds of others.
func (c *compiler) kindsOf(entries []*wordEntry) {
	for _, w := range entries {
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
