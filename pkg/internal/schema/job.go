package schema

import (
	"reflect"
	"regexp"
	"slices"
	"strings"

	"example.com/groundrule/pkg/quantity"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/pkg/value"
)

// Job is the schema of a job file.
func Job() *Schema {
	s := jobEntry(true)
	s.Dialect = dialect
	return s
}

// jobEntry makes the schema of a job from the table that its reader follows.
// Of a change to a job nothing is needed: what it leaves out is as before.
func jobEntry(whole bool) *Schema {
	s := mapping("Job", "What is known of a job. What is not known is left out.")
	if !whole {
		s.Title, s.Description = "Change of a job", "What is laid over a job; a key left empty takes away what was there."
	}
	for _, f := range site.Fields() {
		into, name, inList := s, f.Path, false
		for {
			head, rest, deeper := strings.Cut(name, ".")
			if !deeper {
				break
			}
			key, isList := strings.CutSuffix(head, "[]")
			into, name = below(into, key), rest
			inList = inList || isList
		}
		// A change may leave out what a job needs, but cannot take it away.
		into.Properties = append(into.Properties, Property{name, fieldSchema(f)})
		if f.Required && (whole || inList) {
			into.Required = append(into.Required, name)
		}
	}
	return s
}

func mapping(title, about string) *Schema {
	return &Schema{Title: title, Description: about, Type: []string{"object"}, Others: &Schema{nothing: true}}
}

// below returns the mapping under a key, which was declared before what stands in
// it: of a list, that of each item.
func below(s *Schema, key string) *Schema {
	under := s.Properties.Get(key)
	if under.Items != nil {
		return under.Items
	}
	return under
}

// fieldSchema makes the schema of one field of a job.
func fieldSchema(f site.Field) *Schema {
	s := read(f.Reads)
	switch {
	case !f.Required:
		s = orNull(s)
	case f.Reads == readsText:
		s = text()
	}
	s.Description = f.About
	if !slices.Contains(s.Type, "object") {
		s.Description += ": " + f.Reads
	}
	return s
}

// How the table says what may be written.
const (
	readsText   = "text"
	readsFlag   = "yes or no"
	readsGroup  = "entries of its own"
	readsWord   = "one of "
	readsList   = "a list, each "
	readsSieve  = "sieve, such as "
	readsSlope  = "slope, such as "
	readsNumber = "a plain number, such as "
	readsPart   = "percent, such as "
	orMany      = ", or a list of such"
	suchAs      = ", such as "
)

// read makes the schema of what the table says may be written; of what it says
// in words of its own, a single value.
func read(reads string) *Schema {
	if one, many := strings.CutSuffix(reads, orMany); many {
		item := read(one)
		return anyOf(item, list(item))
	}
	words, isWord := strings.CutPrefix(reads, readsWord)
	item, isList := strings.CutPrefix(reads, readsList)
	kind, example, _ := strings.Cut(reads, suchAs)
	switch {
	case reads == readsText:
		s := single()
		s.Pattern = `^$|\S`
		return s
	case reads == readsFlag:
		return &Schema{Type: []string{"boolean", "string"}, Pattern: `^([Yy][Ee][Ss]|[Nn][Oo]|[Tt][Rr][Uu][Ee]|[Ff][Aa][Ll][Ss][Ee])$`}
	case reads == readsGroup:
		return mapping("", "")
	case isWord:
		return wordSchema(strings.Split(words, ", "))
	case isList:
		return list(mapping(item, ""))
	case strings.HasPrefix(reads, readsNumber):
		return numberSchema("")
	case strings.HasPrefix(reads, readsPart):
		return numberSchema(`%?\s*`)
	case strings.HasPrefix(reads, readsSieve), strings.HasPrefix(reads, readsSlope), isDimension(kind):
		return measureSchema(example)
	}
	return single()
}

func isDimension(words string) bool {
	return slices.ContainsFunc(quantity.Dimensions(), func(d quantity.Dimension) bool { return d.String() == words })
}

// numberSchema is a number, or one written as a text: with its thousands set
// apart, or with what may stand behind it.
func numberSchema(behind string) *Schema {
	return &Schema{Type: []string{"number", "string"}, Pattern: `^\s*[+-]?((\d{1,3}(,\d{3})+|\d+)(\.\d*)?|\.\d+)([eE][+-]?\d+)?\s*` + behind + `$`}
}

// measureSchema is a number with something that could be its unit.
func measureSchema(example string) *Schema {
	s := &Schema{Type: []string{"string"}, Pattern: `\d.*[^\d\s.,]|[^\d\s.,+-].*\d`}
	if example != "" {
		s.Examples = []string{example}
	}
	return s
}

// wordSchema is one of a list of words, as an editor offers them, or in any of
// the spellings that the reader takes for them: case, spaces, hyphens and
// underscores do not count.
func wordSchema(labels []string) *Schema {
	offered := &Schema{}
	spellings := slices.Clone(labels)
	for _, label := range labels {
		offered.Enum = append(offered.Enum, label)
		// A dual soil group is read in the Army's order too: GM-GC for GC-GM.
		if first, second, dual := strings.Cut(label, "-"); dual {
			spellings = append(spellings, second+"-"+first)
		}
	}
	spellings = append(spellings, namesOf(labels)...)
	var patterns []string
	for _, s := range spellings {
		if p := loosely(s); !slices.Contains(patterns, p) {
			patterns = append(patterns, p)
		}
	}
	loose := &Schema{Type: []string{"string"}, Pattern: `^[ _-]*(` + strings.Join(patterns, "|") + `)$`}
	return anyOf(offered, loose)
}

// namesOf returns the names and the labels that the rule language has for the
// words of a job, where the table writes them in another way.
func namesOf(words []string) []string {
	for _, in := range site.Inputs() {
		worded, ok := reflect.Zero(in.Kind.Go).Interface().(value.Worded)
		if !ok {
			continue
		}
		var written, labels, all []string
		for _, w := range worded.Vocabulary().Words {
			written, labels, all = append(written, w.GoValue()), append(labels, w.Label), append(all, w.GoValue(), w.Label, w.Name)
		}
		if slices.Equal(written, words) || slices.Equal(labels, words) {
			return all
		}
	}
	return nil
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
