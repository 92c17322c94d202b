package schema

import (
	"example.com/groundrule/pkg/site"
)

// Chapter is the schema of a rule file.
func Chapter() *Schema {
	es := declare()
	e := es.get("chapter").entry
	for _, s := range es {
		is := named
		if s.section != "" && s.keys[0].name == s.name {
			is = list
		}
		if s.section != "" {
			e.keys = append(e.keys, may(s.section, is(reference(s.name)), s.sectionHolds))
		}
	}
	return file(e, es.ofRules())
}

// ofRules are the entries that chapters and amendments have alike. A word is written
// with its label, or with its label and its meaning; left empty, the label is the word
// itself.
func (es entries) ofRules() Properties {
	word := &Schema{Title: "Word", Description: "How a sheet shows the word, or that with its meaning.", AnyOf: []*Schema{orNull(single()), es.get("word").schema()}}
	return append(es.definitions("rules"), Property{"word", word})
}

// Prices is the schema of a price list.
func Prices() *Schema {
	es := declare()
	return file(es.get("prices").entry, es.definitions("prices"))
}

// Trial is the schema of a file of trials, with the words of a table.
func Trial(t *site.Table) *Schema {
	es := declare()
	expect := es.get("expect").schema()
	expect.Fewest = 1
	return file(es.get("trials").entry, Properties{{"trial", es.get("trial").schema()}, {"case", es.get("case").schema()}, {"expect", expect},
		{"job", jobEntry(t, true, reference("job").Ref)}, {"change", jobEntry(t, false, reference("change").Ref)}})
}

// Texts is the schema of a file of texts in another language.
func Texts() *Schema {
	es := declare()
	return file(es.get("texts").entry, Properties{
		{"entry", &Schema{Description: "texts by their keys, such as label, says or presumed.because", Type: []string{"object"}, Others: orNull(reference("text"))}},
		{"text", es.get("text").schema()},
	})
}
