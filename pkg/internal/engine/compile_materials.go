package engine

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// kindNames lists every kind that values can have, sorted.
func (c *compiler) kindNames() []string {
	if c.kindList == nil {
		for _, o := range c.setup.Objects {
			c.kinds[string(o.Kind)] = builtInPlace
		}
		c.kindList = slices.Sorted(maps.Keys(c.kinds))
	}
	return c.kindList
}

// builtInKinds are the kinds that every rulebook has; no vocabulary can take
// their names.
func builtInKinds() map[string]diagnostic.Place {
	out := map[string]diagnostic.Place{}
	for _, k := range language.OwnKinds() {
		out[string(k)] = builtInPlace
	}
	return out
}

func ordered(k value.Kind) bool {
	if k == value.NumberKind {
		return true
	}
	d, ok := quantity.DimensionNamed(string(k))
	return ok && d != quantity.DimRatio
}

// materials declares the kinds of material and the catalog.
func (c *compiler) materials() {
	byKind := map[value.Kind][]*value.Word{}
	kinds := map[string]*kindEntry{}
	for _, k := range c.in.kinds {
		if c.claimKind(k.name, k.at) {
			kinds[k.name] = k
		}
	}
	for _, m := range c.in.materials {
		if _, ok := kinds[m.kind]; !ok {
			var names []string
			for _, k := range c.in.kinds {
				names = append(names, k.name)
			}
			c.faults.Add(&diagnostic.Diagnostic{Place: m.at, Width: len(m.name), Code: codeKind, Message: "no kind of material is called " + m.kind,
				Found: m.kind, Wanted: strings.Join(names, ", "), Nearest: diagnostic.Nearest(m.kind, names)})
			continue
		}
		w := c.word(value.Kind(m.kind), wordEntry{name: m.name, label: m.label, about: m.about, at: m.at}, m.name)
		byKind[value.Kind(m.kind)] = append(byKind[value.Kind(m.kind)], w)
	}
	for _, k := range c.in.kinds {
		properties := []rulebook.Property{}
		for _, p := range k.properties {
			if c.kindKnown(p.Kind, p.at, "a property") {
				properties = append(properties, p.Property)
			}
		}
		c.properties[value.Kind(k.name)] = properties
		c.builder.AddVocabulary(value.Kind(k.name), byKind[value.Kind(k.name)], properties)
	}
	for _, m := range c.in.materials {
		if w := c.literals.words[m.name]; w != nil && string(w.Vocabulary) == m.kind {
			*w = w.With(c.materialProperties(m))
			c.book.materials = append(c.book.materials, rulebook.Material{Word: *w, Source: c.sourceOf(m.source), Place: m.at, Chapter: m.chapter})
		}
	}
}

func (c *compiler) materialProperties(m *materialEntry) map[string]value.Value {
	out := map[string]value.Value{}
	declared := c.properties[value.Kind(m.kind)]
	var names []string
	for _, p := range declared {
		names = append(names, p.Name)
	}
	for _, f := range m.properties {
		var property *rulebook.Property
		for i := range declared {
			if declared[i].Name == f.Key.Text() {
				property = &declared[i]
			}
		}
		if property == nil {
			c.faults.Add(&diagnostic.Diagnostic{Place: f.Key.Place(), Width: len(f.Key.Text()), Code: language.CodeUnknownProperty,
				Message: m.kind + " has no property called " + f.Key.Text(), Found: f.Key.Text(), Wanted: strings.Join(names, ", "),
				Nearest: diagnostic.Nearest(f.Key.Text(), names)})
			continue
		}
		if f.Value.Null() {
			continue
		}
		if v, ok := c.literal(f.Value, property.Kind); ok {
			out[property.Name] = v
		}
	}
	for _, p := range declared {
		if _, has := out[p.Name]; !has && !p.Optional {
			c.faults.Add(&diagnostic.Diagnostic{Place: m.at, Width: len(m.name), Code: codeProperty, Message: m.name + " lacks a property that every " + m.kind + " has",
				Wanted: p.Name + ": " + p.About})
		}
	}
	return out
}
