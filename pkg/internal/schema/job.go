package schema

import (
	"regexp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Job is the schema of a job file, with the words of a table.
func Job(t *site.Table) *Schema {
	s := jobEntry(t, true, "#")
	s.Dialect = dialect
	return s
}

// jobEntry makes the schema of a job from the table that its reader follows.
// Of a change to a job nothing is needed: what it leaves out is as before. At is where
// it stands in the schema; the keys of an area refer to those of the job there.
func jobEntry(t *site.Table, whole bool, at string) *Schema {
	s := mapping("Job", "What is known of a job. What is not known is left out.")
	if !whole {
		s.Title, s.Description = "Change of a job", "What is laid over a job; a key left empty takes away what was there."
	}
	under := map[string]*Schema{"": s}
	var ofAreas []string
	for _, f := range t.Fields() {
		cut := strings.LastIndexByte(f.Path, '.')
		in, name := f.Path[:max(0, cut)], f.Path[cut+1:]
		made := fieldSchema(f, whole)
		under[f.Path], under[f.Path+"[]"] = made, made.Items
		into := under[in]
		// A change may leave out what a job needs, but cannot take it away.
		into.Properties = append(into.Properties, Property{name, made})
		if in == "" && !f.WholeJob {
			ofAreas = append(ofAreas, name)
		}
		switch {
		case !f.Required || !whole && !strings.HasSuffix(in, "[]"):
		case f.Unless == nil:
			into.Required = append(into.Required, name)
		default:
			either := anyOf(given(name))
			for _, other := range f.Unless {
				either.AnyOf = append(either.AnyOf, &Schema{Required: []string{other}})
			}
			into.AllOf = append(into.AllOf, either)
		}
	}
	for _, list := range []string{"areas[]", "alternatives[]"} {
		for _, name := range ofAreas {
			under[list].Properties = append(under[list].Properties, Property{name, orNull(&Schema{Ref: at + "/properties/" + name})})
		}
	}
	return s
}

func mapping(title, about string) *Schema {
	return &Schema{Title: title, Description: about, Type: []string{"object"}, Others: &Schema{nothing: true}}
}

// fieldSchema makes the schema of one field of a job.
func fieldSchema(f site.Field, whole bool) *Schema {
	s := formSchema(f)
	switch {
	case !f.Required || whole && f.Unless != nil:
		s = orNull(s)
	case f.Form == site.TextForm:
		s = text()
	}
	s.Description = f.About
	if f.Form != site.GroupForm {
		s.Description += ": " + f.Wanted()
	}
	return s
}

// formSchema makes the schema of what may be written.
func formSchema(f site.Field) *Schema {
	switch f.Form {
	case site.GroupForm:
		return mapping("", "")
	case site.AnswersForm:
		return &Schema{Type: []string{"object"}, Others: orNull(single())}
	case site.ListForm:
		return list(mapping(f.Item, ""))
	case site.TextForm:
		return pattern(`^$|\S`, single().Type...)
	case site.WordForm:
		if len(f.Vocabulary.Words) == 0 {
			return text() // open
		}
		return wordSchema(f.Vocabulary)
	case site.FlagForm:
		return &Schema{Type: []string{"boolean", "string"}, Pattern: `^([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])$`}
	case site.NumberForm:
		return numberSchema(f)
	case site.NumbersForm:
		return anyOf(numberSchema(f), list(numberSchema(f)))
	}
	return measureSchema(f)
}

// numberSchema is a number, or one written as a text: with its thousands set
// apart, or with a % sign behind it.
func numberSchema(f site.Field) *Schema {
	behind := ""
	if f.Range.Unit == "%" {
		behind = `%?\s*`
	}
	return &Schema{Type: []string{"number", "string"}, Pattern: `^\s*[+-]?((\d{1,3}(,\d{3})+|\d+)(\.\d*)?|\.\d+)([eE][+-]?\d+)?\s*` + behind + `$`}
}

// measureSchema is a number with something that could be its unit.
func measureSchema(f site.Field) *Schema {
	return &Schema{Type: []string{"string"}, Pattern: `\d.*[^\d\s.,]|[^\d\s.,+-].*\d`, Examples: []string{f.Example}}
}

// wordSchema is one of the words of a vocabulary, as an editor offers them, or in
// any of the spellings that the reader takes for them: case, spaces, hyphens and
// underscores do not count.
func wordSchema(v value.Vocabulary) *Schema {
	offered := &Schema{}
	var patterns []string
	add := func(spelling string) {
		if p := loosely(spelling); !slices.Contains(patterns, p) {
			patterns = append(patterns, p)
		}
	}
	for _, w := range v.Words {
		offered.Enum = append(offered.Enum, w.GoValue())
		for _, spelling := range append([]string{w.GoValue(), w.Label, w.Name}, w.Also...) {
			add(spelling)
		}
		// A dual soil group is read in the Army's order too: GM-GC for GC-GM.
		if first, second, dual := strings.Cut(w.GoValue(), "-"); dual {
			add(second + "-" + first)
		}
	}
	loose := &Schema{Type: []string{"string"}, Pattern: `^[ _-]*(` + strings.Join(patterns, "|") + `)$`}
	return anyOf(offered, loose)
}

// loosely is a pattern of a word in any case, with spaces, hyphens and
// underscores anywhere.
func loosely(word string) string {
	var b strings.Builder
	for _, r := range word {
		switch {
		case strings.ContainsRune(" _-", r):
			continue
		case strings.ToLower(string(r)) != strings.ToUpper(string(r)):
			b.WriteString("[" + strings.ToLower(string(r)) + strings.ToUpper(string(r)) + "]")
		default:
			b.WriteString(regexp.QuoteMeta(string(r)))
		}
		b.WriteString("[ _-]*")
	}
	return b.String()
}
