package schema

import (
	"slices"
	"strings"
)

// changed names the sorts of entries that an amendment changes, in the order of the
// key by which a change is told to be of one.
var changed = strings.Fields("rule limit check caution refusal promise quantity step tolerance stop option remedy client course decision term setting " +
	"material load_case base_type soil_name compactor edge_kind question word vocabulary source kind line")

// added are the keys of an added entry beside those of its sort.
func added(sort string) []key {
	switch sort {
	case "rule":
		return []key{may("to", of("decision"), "the decision that it answers")}
	case "limit":
		return []key{may("to", of("decision"), "the decision whose answers it holds")}
	case "word":
		return []key{need("to", of("vocabulary"), "the vocabulary that it is a word of")}
	case "caution", "refusal", "decision", "source", "kind", "line":
		return []key{may("because", text(), "why it is added, if not for the reason of the whole amendment")}
	}
	return nil
}

// Amendment is the schema of an amendment file.
func Amendment() *Schema {
	es := declare()
	whole := es.get("amendment").entry
	more := es.ofRules()
	for i, k := range es.get("word").keys {
		if k.name == "because" || k.name == "source" { // an added one has no vocabulary to have them from
			es.get("word").keys[i].use = needed
		}
	}
	for _, sort := range changed {
		s := es.get(sort)
		beside := append(added(sort), beside(sort)...)
		e := s.entry
		e.about = ""
		body := e.keys
		if body[0].name == s.name {
			body = body[1:]
		} else {
			e.keys = append([]key{need(s.name, name(), "its name")}, e.keys...)
		}
		switch s.name {
		case "rule", "limit":
			e.rules = append(slices.Clone(e.rules), anyOf(given("to"), given("before"), given("after")))
		case "course", "step":
			e.rules = append(slices.Clone(e.rules), anyOf(given("before"), given("after")))
		}
		e.rules = append(slices.Clone(e.rules), &Schema{Not: all(given("before"), given("after")), Description: "before or after, not both"})
		e.keys = slices.Concat(e.keys, beside, days())
		more = append(more, Property{"added_" + s.name, e.schema()})
		more = append(more, Property{"set_" + s.name, entry{keys: some(body)}.schema()},
			Property{"whole_" + s.name, entry{keys: append([]key{ifThere(s.name, text(), "its name, if it is another")}, body...), rules: s.entry.rules}.schema()})
		named := need(s.name, of(s.name), "the "+s.name+" that is changed")
		more = append(more, Property{"replaced_" + s.name, entry{title: "Replaced " + s.name, keys: append([]key{named,
			may("set", reference("set_"+s.name), "the keys that change, with what they become; a key without a value is taken away"),
			may("with", reference("whole_"+s.name), "a whole "+s.name+" that takes its place"), mayBecause()}, days()...),
			rules: []*Schema{one(all(given("set"), absent("with")), all(absent("set"), given("with"))), anyOf(given("because"), saysWhy("set"), saysWhy("with"))}}.schema()})
	}
	for i, name := range changed {
		first := []*Schema{given(name)}
		for _, before := range changed[:i] {
			first = append(first, absent(before))
		}
		more = append(more, Property{"of_" + name, all(first...)})
	}
	moved := taken("Moved entry", changed, beside("entry")...)
	moved.AllOf = append(moved.AllOf, one(all(given("before"), absent("after")), all(absent("before"), given("after"))))
	for _, does := range []struct {
		name, about string
		is          *Schema
	}{
		{"add", "entries that are added", eachOf("added_", changed)}, {"replace", "entries that are changed, or that others take the place of", eachOf("replaced_", changed)},
		{"retire", "entries that are taken out", taken("Retired entry", changed)}, {"move", "entries that are put elsewhere in their order", moved},
	} {
		more = append(more, Property{does.name, does.is})
		whole.keys = append(whole.keys, may(does.name, list(reference(does.name)), does.about))
	}
	more = append(more, Property{"variance", es.get("variance").schema()})
	whole.keys = append(whole.keys, may("variances", list(reference("variance")), "permission to cross a limit, or to take away what every job is owed"))
	return file(whole, more)
}

// beside are the keys by which an entry goes beside another of its sort.
func beside(sort string) []key {
	return []key{may("before", of(sort), "the entry before which it goes"), may("after", of(sort), "the entry after which it goes")}
}

// some are the keys of an entry of which an amendment sets any.
func some(keys []key) []key {
	out := slices.Clone(keys)
	for i := range out {
		if out[i].use == needed {
			out[i].use = filled
		}
	}
	return out
}

// eachOf is the schema of a change: it is of the first sort whose key it has, and
// as that sort's schema, of a name that begins with does, says.
func eachOf(does string, names []string) *Schema {
	var has, out []*Schema
	for _, name := range names {
		out = append(out, anyOf(&Schema{Not: reference("of_" + name)}, reference(does+name)))
		has = append(has, given(name))
	}
	return all(append(out, anyOf(has...))...)
}

// taken is the schema of a change that names an entry of any sort and says no
// more than more does.
func taken(title string, names []string, more ...key) *Schema {
	e := entry{title: title, keys: slices.Concat([]key{need("because", text(), "why")}, more, days())}
	var has []*Schema
	for _, name := range names {
		e.keys = append(e.keys, ifThere(name, of(name), "the "+name))
		has = append(has, given(name))
	}
	e.rules = []*Schema{one(has...)}
	return e.schema()
}

// saysWhy holds where what stands under a key has a because.
func saysWhy(key string) *Schema {
	return &Schema{Required: []string{key}, Properties: Properties{{key, given("because")}}}
}

func days() []key {
	return []key{may("from", day(), "the first day on which it holds"), may("until", day(), "the last day on which it holds")}
}

func mayBecause() key {
	return may("because", text(), "why this change is made; where what it sets has a because, that will do")
}
