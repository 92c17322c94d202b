package schema

import (
	"maps"
	"slices"
	"strings"

	"example.com/groundrule/pkg/internal/language"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Know gives the schema the names of some rulebooks, so that it completes and checks
// them: those of the rulebook before amendments and after them, of which one may
// name what the other took away.
func (s *Schema) Know(books ...rulebook.Contents) {
	names := map[string][]string{"column": {"answer"}}
	for _, k := range language.OwnKinds() {
		names["value"] = append(names["value"], string(k))
	}
	words := map[string][]string{} // of each setting that is a word
	for _, b := range books {
		gather(names, b)
		for _, set := range b.Settings {
			if w, isWord := set.Value.Word(); isWord {
				for _, v := range b.Vocabularies {
					if v.Kind == w.Vocabulary {
						words[set.Name] = append(words[set.Name], wordsOf(v)...)
					}
				}
			}
		}
	}
	for _, sort := range []string{"check", "caution", "refusal", "limit"} {
		names["owed"] = append(names["owed"], names[sort]...)
	}
	names["given"] = slices.Concat(names["caution"], names["quantity"], names["step"], names["tolerance"], names["stop"], names["option"], names["remedy"], names["client"])
	names["telling"] = slices.Concat(names["rule"], names["limit"], names["check"], names["caution"], names["refusal"])
	names["taken"] = slices.Concat(names["input"], names["decision"])
	names["deciding"] = append([]string{"override"}, names["rule"]...)
	names["refusing"] = slices.Concat(names["refusal"], names["rule"]) // a calculation refuses in a rule
	for sort, all := range names {
		slices.Sort(all)
		names[sort] = slices.Compact(all)
	}
	s.know(names)
	for _, sort := range slices.Sorted(maps.Keys(names)) {
		known := enum(names[sort])
		if sort == "source" { // a clause may stand behind it
			known = anyOf(known, &Schema{Pattern: `^(` + strings.Join(names[sort], "|") + `),`})
		}
		s.Definitions = append(s.Definitions, Property{"names_of_" + sort, known})
	}
	if changed := s.Definitions.Get("replaced_setting"); changed != nil {
		for _, name := range names["setting"] {
			if len(words[name]) > 0 {
				set := &Schema{Properties: Properties{{"value", enum(words[name])}}}
				changed.AllOf = append(changed.AllOf, anyOf(&Schema{Not: &Schema{Properties: Properties{{"setting", enum([]string{name})}}}}, &Schema{Properties: Properties{{"set", set}}}))
			}
		}
	}
}

// gather adds the names of every sort of entry of a rulebook.
func gather(names map[string][]string, b rulebook.Contents) {
	add := func(sort, name string, was *rulebook.Amended) {
		names[sort] = append(names[sort], name)
		names["entry"] = append(names["entry"], name)
		if was != nil {
			for _, r := range was.Replaced {
				names[sort] = append(names[sort], r.ID)
			}
		}
	}
	kinds := map[value.Kind]rulebook.Vocabulary{}
	for _, v := range b.Vocabularies {
		kinds[v.Kind] = v
		add("value", string(v.Kind), nil)
		add(map[bool]string{true: "vocabulary", false: "kind"}[v.Properties == nil], string(v.Kind), nil)
		for _, w := range v.Words {
			add("word", w.Word.Name, nil)
			if v.Kind == "course_kind" {
				add("course_kind", w.Word.Name, nil)
				add("laid", w.Word.Name, nil)
			}
			if v.Kind == "quantity_kind" {
				add("quantity_kind", w.Word.Name, nil)
			}
		}
		for _, p := range v.Properties {
			add("value", string(p.Kind), nil)
		}
	}
	read := func(name string, kind value.Kind) {
		add("value", string(kind), nil)
		names["column"] = append(names["column"], name)
		for _, p := range kinds[kind].Properties {
			names["column"] = append(names["column"], name+"."+p.Name)
		}
	}
	for _, a := range b.Amendments {
		add("amendment", a.Name, nil)
	}
	for _, x := range b.Courses {
		add("laid", x.Name, x.Amended)
	}
	for _, x := range b.Inputs {
		names["input"] = append(names["input"], x.Name)
		read(x.Name, x.Kind)
	}
	for _, x := range b.Settings {
		read(x.Name, x.Value.Kind())
	}
	for _, x := range b.Terms {
		read(x.Name, x.Kind)
	}
	for _, x := range b.Decisions {
		if x.Question != "" {
			add("question", x.Name, x.Amended)
		}
		read(x.Name, x.Kind)
	}
	b.Each(func(sort, name, _ string, by *rulebook.Amended) { add(sort, name, by) })
}

func wordsOf(v rulebook.Vocabulary) []string {
	var out []string
	for _, w := range v.Words {
		out = append(out, w.Word.Name)
	}
	return out
}

// enum is one of some names, of whatever type.
func enum[W ~string](names []W) *Schema {
	out := &Schema{}
	for _, n := range names {
		out.Enum = append(out.Enum, string(n))
	}
	return out
}

// know puts the names where entries of their sort are named.
func (s *Schema) know(names map[string][]string) {
	if s == nil {
		return
	}
	if s.of != "" && len(names[s.of]) > 0 {
		s.AnyOf = []*Schema{reference("names_of_" + s.of)}
		if slices.Contains(s.Type, "null") {
			s.AnyOf = append(s.AnyOf, &Schema{Type: []string{"null"}})
		}
		s.of = ""
	}
	for _, list := range [][]*Schema{s.AnyOf, s.OneOf, s.AllOf, {s.Names, s.Others, s.Items}} {
		for _, each := range list {
			each.know(names)
		}
	}
	for _, list := range []Properties{s.Properties, s.Definitions} {
		for _, each := range list {
			each.Schema.know(names)
		}
	}
}
