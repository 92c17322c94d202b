package schema

import (
	_ "embed"
	"slices"
	"strings"

	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/value"
)

// entriesFile declares the entries of files, and says how it is written.
//
//go:embed entries.txt
var entriesFile string

// declared is an entry with its name, the part of entries.txt in which it stands, and
// the section of a chapter in which such entries stand, if any.
type declared struct {
	entry
	name, part            string
	section, sectionHolds string
}

type entries []*declared

// declare makes every entry anew, since a schema that knows names is changed.
func declare() (es entries) {
	part := ""
	for line := range strings.Lines(entriesFile) {
		line = strings.TrimSuffix(line, "\n")
		fields := append(strings.Split(line, " | "), "", "", "", "")
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			part = strings.Trim(line, "[]")
		case line[0] != '\t':
			es = append(es, &declared{name: fields[0], part: part, section: fields[3], sectionHolds: fields[4], entry: entry{title: fields[1], about: fields[2]}})
		default:
			es.declareKey(es[len(es)-1], fields)
		}
	}
	accounted := func(key string) *Schema {
		rows := &Schema{Others: all(&Schema{Type: []string{"object"}}, given(key))}
		return anyOf(given(key), &Schema{Properties: Properties{{"rows", rows}}})
	}
	es.get("table").rules = []*Schema{accounted("because"), accounted("source")} // of the table, or of each row
	es.get("trial").rules = []*Schema{anyOf(given("expect"), all(given("cases"), &Schema{Properties: Properties{{"cases", &Schema{MinItems: 1}}}}))}
	return es
}

// declareKey adds what a line below an entry says: a key, the keys of another entry,
// or what holds keys to each other.
func (es entries) declareKey(e *declared, fields []string) {
	first := strings.TrimPrefix(fields[0], "\t")
	if other, is := strings.CutPrefix(first, "+ "); is {
		e.keys = append(e.keys, es.get(other).keys...)
		return
	}
	if kind, is := strings.CutPrefix(first, "= "); is {
		kind, about, _ := strings.Cut(kind, ":")
		var ways []*Schema
		for _, each := range fields[1:slices.Index(fields, "")] {
			ways = append(ways, way(each))
		}
		rule := map[string]func(...*Schema) *Schema{"one": one, "any": anyOf}[kind](ways...)
		rule.Description = strings.TrimSpace(about)
		e.rules = append(e.rules, rule)
		return
	}
	k := key{strings.TrimSuffix(first, "!"), optional, es.shape(strings.Fields(fields[1])), fields[2]}
	if strings.HasSuffix(first, "!") {
		k.use = needed
	}
	e.keys = append(e.keys, k)
}

// way is one way in which keys go together: those with a value, and behind - those
// without; of two joined by ^, one has a value.
func way(text string) *Schema {
	var out []*Schema
	for _, word := range strings.Fields(text) {
		name, isAbsent := strings.CutPrefix(word, "-")
		left, right, either := strings.Cut(name, "^")
		switch {
		case either:
			out = append(out, one(given(left), given(right)))
		case isAbsent:
			out = append(out, absent(name))
		default:
			out = append(out, given(name))
		}
	}
	if len(out) == 1 {
		return out[0]
	}
	return all(out...)
}

// get returns an entry by its name.
func (es entries) get(name string) *declared {
	for _, e := range es {
		if e.name == name {
			return e
		}
	}
	return &declared{}
}

// definitions are the schemas of the entries of a part, by their names.
func (es entries) definitions(part string) (out Properties) {
	for _, e := range es {
		if e.part == part {
			out = append(out, Property{e.name, e.schema()})
		}
	}
	return out
}

// shape makes the schema of a shape as entries.txt has it: made of others, one of
// shapes, or an entry that the schema declares.
func (es entries) shape(words []string) *Schema {
	rest := words[1:]
	switch words[0] {
	case "list":
		return list(es.shape(rest))
	case "named":
		return named(es.shape(rest))
	case "map":
		return &Schema{Type: []string{"object"}, Others: es.shape(rest)}
	case "either":
		return anyOf(single(), es.shape(rest))
	case "entry":
		return es.get(rest[0]).schema()
	case "of":
		return of(rest[0])
	case "words":
		return several(rest[0])
	case "names":
		return list(&Schema{Type: single().Type, of: rest[0]})
	case "pairs":
		return &Schema{Type: []string{"object"}, Names: &Schema{of: rest[0]}, Others: es.shape(rest[1:])}
	}
	if shape := shapes[words[0]]; shape != nil {
		return shape()
	}
	return reference(words[0])
}

// shapes are the shapes that are not made of others. An expression and a condition are
// in the rule language; a sentence may quote values of it.
var shapes = map[string]func() *Schema{
	"single": single, "sentence": text, "text": text, "expression": text, "condition": text, "day": day, "flag": flag,
	"known": func() *Schema { return oneOf(value.AllKnown()...) },
	"take": func() *Schema {
		return oneOf(rulebook.First, rulebook.Only, rulebook.Largest, rulebook.Smallest, rulebook.All)
	},
	"standing": func() *Schema { return oneOf(rulebook.Measured, rulebook.Correlated, rulebook.Presumed) },
	"failing":  func() *Schema { return oneOf(rulebook.Stops, rulebook.Cautions) },
	"status":   func() *Schema { return oneOf(section.Designed, section.Refused, section.Stopped) },
	"cells":    cells,
	"rows_of_cells": func() *Schema {
		return &Schema{Type: []string{"object"}, Fewest: 1, Others: anyOf(cells(), reference("row"))}
	},
	"name":           name,
	"currency":       func() *Schema { return pattern("^[A-Z]{3}$", single().Type...) },
	"mark":           func() *Schema { return pattern("^[^0-9]$", single().Type...) },
	"language":       func() *Schema { return pattern("^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$", "string") },
	"texts_of_entry": func() *Schema { return reference("entry") },
	"own_or_sourced": func() *Schema { return anyOf(orNull(single()), reference("sourced")) },
	"settings": func() *Schema {
		return &Schema{Type: []string{"object"}, Names: &Schema{of: "setting"}, Others: anyOf(single(), list(single()),
			withKey("by_variance", "a value beyond the limits of the setting", &Schema{nothing: true}),
			withKey("like", "the material that it is like", single()))}
	},
	"cases": func() *Schema { return list(reference("case")) },
	"between": func() *Schema {
		s := list(single())
		s.MinItems, s.MaxItems = 2, 2
		return s
	},
	"deciding": func() *Schema {
		return anyOf(&Schema{Type: single().Type, of: "deciding"}, list(&Schema{Type: single().Type, of: "deciding"}))
	},
}

func pattern(text string, types ...string) *Schema { return &Schema{Type: types, Pattern: text} }

// cells are those of a row: a word or several, yes or no, a value, a band, any or
// not known.
func cells() *Schema { return list(anyOf(text(), several("word"))) }

// several are one or more names of entries of a sort.
func several(sort string) *Schema {
	s := list(of(sort))
	s.MinItems = 1
	return s
}

// withKey is a mapping with a single value under a key, and others under any other.
func withKey(key, about string, others *Schema) *Schema {
	return &Schema{Type: []string{"object"}, Required: []string{key}, Others: others,
		Properties: Properties{{key, &Schema{Type: single().Type, Description: about}}}}
}
