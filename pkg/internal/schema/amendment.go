package schema

import "slices"

// changed are the sorts of entries that an amendment changes, in the order of
// the key by which a change is told to be of one.
func changed() []struct {
	name  string
	entry entry
	more  []key // of an added one
} {
	type sort = struct {
		name  string
		entry entry
		more  []key
	}
	why := []key{may("because", single(), "why it is added, if not for the reason of the whole amendment")}
	to := func(sort, what string, use func(string, *Schema, string) key) []key {
		return []key{use("to", of(sort), what)}
	}
	return []sort{
		{"rule", ruleEntry(need), to("decision", "the decision that it answers", may)},
		{"limit", limitEntry(), to("decision", "the decision whose answers it holds", may)},
		{"check", checkEntry(), nil}, {"caution", cautionEntry(), why}, {"refusal", refusalEntry(), why}, {"promise", promiseEntry(), nil},
		{"quantity", quantityEntry(), nil}, {"step", stepEntry(), nil}, {"tolerance", toleranceEntry(), nil}, {"stop", stopEntry(), nil}, {"option", optionEntry(), nil}, {"remedy", remedyEntry(), nil}, {"client", clientEntry(), nil}, {"course", courseEntry(), nil},
		{"decision", decisionEntry(), why}, {"term", termEntry(), nil}, {"setting", settingEntry(), nil}, {"material", materialEntry(), nil},
		{"load_case", jobWordEntry("Load case"), nil}, {"base_type", jobWordEntry("Base type"), nil}, {"soil_name", jobWordEntry("Soil name"), nil},
		{"compactor", jobWordEntry("Compactor"), nil}, {"edge_kind", jobWordEntry("Edge kind"), nil}, {"question", questionEntry(), nil},
		{"word", wordEntry(need), to("vocabulary", "the vocabulary that it is a word of", need)}, {"vocabulary", vocabularyEntry(), nil},
		{"source", sourceEntry(), why}, {"kind", kindEntry(), why}, {"line", lineEntry(), why},
	}
}

// Amendment is the schema of an amendment file.
func Amendment() *Schema {
	keys := []key{
		need("amendment", text(), "its name, by which others build on it"),
		need("company", text(), "whose standard it is"),
		need("who", text(), "who made it"),
		need("why", text(), "why it was made"),
		need("when", day(), "the day on which it was made, and from which it holds"),
		may("from", day(), "the first day on which it holds, if not that"),
		may("until", day(), "the last day on which it holds"),
		may("over", list(of("amendment")), "the amendments that it builds on"),
	}
	more := definitions()
	var names []string
	for _, s := range changed() {
		names = append(names, s.name)
		s.more = append(s.more, beside(s.name)...)
		e := s.entry
		e.about = ""
		body := e.keys
		if body[0].name == s.name {
			body = body[1:]
		} else {
			e.keys = append([]key{need(s.name, text(), "its name")}, e.keys...)
		}
		switch s.name {
		case "rule", "limit":
			e.rules = append(slices.Clone(e.rules), anyOf(given("to"), given("before"), given("after")))
		case "course", "step":
			e.rules = append(slices.Clone(e.rules), anyOf(given("before"), given("after")))
		}
		e.rules = append(slices.Clone(e.rules), &Schema{Not: all(given("before"), given("after")), Description: "before or after, not both"})
		e.keys = append(append(append([]key(nil), e.keys...), s.more...), days()...)
		more = append(more, Property{"added_" + s.name, e.schema()})
		more = append(more, Property{"set_" + s.name, entry{keys: some(body)}.schema()},
			Property{"whole_" + s.name, entry{keys: append([]key{ifThere(s.name, text(), "its name, if it is another")}, body...), rules: s.entry.rules}.schema()})
		named := need(s.name, of(s.name), "the "+s.name+" that is changed")
		more = append(more, Property{"replaced_" + s.name, entry{title: "Replaced " + s.name, keys: append([]key{named,
			may("set", reference("set_"+s.name), "the keys that change, with what they become; a key without a value is taken away"),
			may("with", reference("whole_"+s.name), "a whole "+s.name+" that takes its place"), mayBecause()}, days()...),
			rules: []*Schema{one(all(given("set"), absent("with")), all(absent("set"), given("with"))), anyOf(given("because"), saysWhy("set"), saysWhy("with"))}}.schema()})
	}
	for i, name := range names {
		first := []*Schema{given(name)}
		for _, before := range names[:i] {
			first = append(first, absent(before))
		}
		more = append(more, Property{"of_" + name, all(first...)})
	}
	moved := taken("Moved entry", names, beside("entry")...)
	moved.AllOf = append(moved.AllOf, one(all(given("before"), absent("after")), all(absent("before"), given("after"))))
	for _, does := range []struct {
		name, about string
		is          *Schema
	}{
		{"add", "entries that are added", eachOf("added_", names)}, {"replace", "entries that are changed, or that others take the place of", eachOf("replaced_", names)},
		{"retire", "entries that are taken out", taken("Retired entry", names)}, {"move", "entries that are put elsewhere in their order", moved},
	} {
		more = append(more, Property{does.name, does.is})
		keys = append(keys, may(does.name, list(reference(does.name)), does.about))
	}
	more = append(more, Property{"variance", varianceEntry().schema()})
	keys = append(keys, may("variances", list(reference("variance")), "permission to cross a limit, or to take away what every job is owed"))
	return file(entry{title: "Amendment of a rulebook", about: "A company's change to a rulebook, with who made it, when and why.", keys: keys}, more)
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
	e := entry{title: title, keys: append(append([]key{need("because", sentence(), "why")}, more...), days()...)}
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
	return may("because", single(), "why this change is made; where what it sets has a because, that will do")
}

func varianceEntry() entry {
	for_ := one(all(given("setting"), absent("limit"), absent("retires"), given("to")), all(absent("setting"), given("limit"), absent("retires"), given("to")),
		all(absent("setting"), absent("limit"), given("retires")))
	for_.Description = "a setting or a limit with how far, or what an amendment retires"
	return entry{title: "Variance", about: "Permission for one thing.", rules: []*Schema{for_}, keys: []key{
		need("variance", text(), "its name"),
		may("setting", of("setting"), "the setting that may cross its limit"),
		may("limit", of("limit"), "the limit that answers may cross"),
		may("retires", of("owed"), "the refusal, check, caution or limit that an amendment may retire or weaken"),
		may("to", text(), "how far the setting or the answer may go"),
		need("who", text(), "who gave permission"),
		need("why", text(), "why"),
		may("from", day(), "the first day on which it holds"),
		need("until", day(), "the last day on which it holds"),
	}}
}
