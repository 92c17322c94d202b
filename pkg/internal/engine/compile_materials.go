package engine

import (
	"cmp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// materials declares the kinds of material and the catalog.
func (c *compiler) materials() {
	var kinds []string
	for _, k := range c.in.of[kindSort] {
		if c.claimKind(k.id(), k.name) {
			c.book.kinds[value.Kind(k.id())] = rulebook.Vocabulary{About: k.node.Field("about").Text(), Amended: k.amended}
			kinds = append(kinds, k.id())
		}
	}
	byKind := map[value.Kind][]*value.Word{}
	for _, m := range c.in.materials {
		kind := string(m.in)
		if kind == "" {
			continue // reported when it was read
		}
		if c.in.gone[kind] != nil {
			c.readsGone(kind, placeOf(cmp.Or(m.kind, m.name)))
			continue
		}
		if !slices.Contains(kinds, kind) {
			fault(&c.faults, cmp.Or(m.kind, m.name), codeKind, "no kind is called "+kind, kind, strings.Join(kinds, ", "), kinds...)
			continue
		}
		if w := c.word(m.in, m); w != nil {
			byKind[m.in] = append(byKind[m.in], w)
		}
	}
	for _, k := range c.in.of[kindSort] {
		kind, properties := value.Kind(k.id()), c.kindProperties(k)
		if slices.Contains(kinds, k.id()) {
			c.properties[kind] = properties
			c.declares.Vocabularies = append(c.declares.Vocabularies, language.Vocabulary{Kind: kind, Words: byKind[kind], Properties: properties})
		}
	}
	for _, m := range c.in.materials {
		if w := c.literals.words[m.id()]; w != nil && w.Vocabulary == m.in {
			*w = w.With(c.materialProperties(m, w.Vocabulary))
			told := c.wordTold(w, m, m.because, m.source)
			c.book.materials = append(c.book.materials, told)
			c.book.words[w.Name] = told
		}
	}
}

// kindProperties reads the properties that everything of a kind has.
func (c *compiler) kindProperties(k *entry) []rulebook.Property {
	e := c.r.open(k, "a kind")
	e.NeedText("about")
	out := []rulebook.Property{}
	c.r.each(e.Get("properties"), "the properties", func(key, n *document.Node) {
		pe := n.Entry("a property", &c.r.faults)
		is, usual, atLeast, atMost := pe.Get("is"), pe.Get("usual"), pe.Get("at_least"), pe.Get("at_most")
		p := rulebook.Property{Name: key.Text(), Kind: value.Kind(pe.NeedText("is")), About: pe.NeedText("about"), Optional: pe.Bool("optional"), Because: text(pe.Get("because"))}
		source := pe.Get("source")
		pe.Done()
		if !c.kindKnown(p.Kind, is, "a property") {
			return
		}
		p.Usual, _ = c.literal(usual, p.Kind)
		p.AtLeast, _ = c.literal(atLeast, p.Kind)
		p.AtMost, _ = c.literal(atMost, p.Kind)
		p.Source = c.sourceOf(source)
		out = append(out, p)
	})
	e.Done()
	return out
}

// owned returns the value of a property, nil if there is none. One that is a
// mapping has a because and a source of its own.
func (c *compiler) owned(m *wordEntry, f document.Field, p rulebook.Property) *document.Node {
	if f.Value.Shape() != document.Mapping {
		return f.Value
	}
	e := f.Value.Entry("a property", &c.faults)
	is := e.Need("value")
	e.NeedText("because")
	p.Because, p.Source = text(e.Get("because")), c.sourceOf(e.Need("source"))
	e.Done()
	m.owns(p)
	return is
}

func (m *wordEntry) owns(p rulebook.Property) {
	if m.own == nil {
		m.own = map[string]rulebook.Property{}
	}
	m.own[p.Name] = p
}

func (c *compiler) materialProperties(m *wordEntry, kind value.Kind) map[string]value.Value {
	out := map[string]value.Value{}
	declared := c.properties[kind]
	names := namesIn(declared, func(p rulebook.Property) string { return p.Name })
	given := map[string]bool{}
	for _, f := range m.properties {
		i := slices.Index(names, f.Key.Text())
		if i < 0 {
			d := fault(&c.faults, f.Key, language.CodeUnknownProperty, string(kind)+" has no property called "+f.Key.Text(), f.Key.Text(), strings.Join(names, ", "), names...)
			given[d.Nearest] = true
			continue
		}
		if f.Value.Null() {
			continue
		}
		given[names[i]] = true
		is := c.owned(m, f, declared[i])
		if v, ok := c.literal(is, declared[i].Kind); ok {
			out[names[i]] = v
			c.within(v, declared[i].AtLeast, declared[i].AtMost, is, names[i]+" is beyond its bound")
		}
	}
	for _, p := range declared {
		if !given[p.Name] && !p.Usual.IsZero() {
			if out[p.Name] = p.Usual; !p.Source.IsZero() {
				m.owns(p)
			}
		} else if !given[p.Name] && !p.Optional {
			fault(&c.faults, m.name, codeProperty, m.id()+" lacks a property that every "+string(kind)+" has", "", p.Name+": "+p.About)
		}
	}
	return out
}
