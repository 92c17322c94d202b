package schema

import (
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/value"
)

// Chapter is the schema of a rule file.
func Chapter() *Schema {
	keys := []key{
		need("chapter", text(), "the subject of this file"),
		may("about", single(), "what the chapter decides, in a sentence or two"),
		may("settings", named(reference("setting")), "values that a company may set, within limits"),
	}
	return file(entry{title: "Chapter of a rulebook", about: "One rule file, on one subject.", keys: append(keys, additions()...)}, definitions())
}

// additions are the keys that chapters and amendments have alike.
func additions() []key {
	return []key{
		may("sources", named(reference("source")), "publications that rules rest on"),
		may("vocabularies", named(reference("vocabulary")), "closed lists of words"),
		may("kinds", named(reference("kind")), "kinds of material and of words of jobs, with the properties that each has"),
		may("materials", named(reference("material")), "the material catalog"),
		may("load_cases", named(reference("load_case")), "what paving may carry"),
		may("base_types", named(reference("base_type")), "the kinds of base"),
		may("soil_names", named(reference("soil_name")), "what the ground is called, by eye and feel"),
		may("compactors", named(reference("compactor")), "the compactors"),
		may("edge_kinds", named(reference("edge_kind")), "what edges of paving meet"),
		may("questions", named(reference("question")), "what a company asks of a job, beside what every job may say"),
		may("terms", named(reference("term")), "values worked out from the site, for rules to use"),
		may("decisions", named(reference("decision")), "questions about the section, with the rules that answer them"),
		may("courses", list(reference("course")), "the courses, from the bottom up"),
		may("checks", list(reference("check")), "what the finished section must satisfy"),
		may("cautions", list(reference("caution")), "what to tell whoever builds the section"),
		may("refusals", list(reference("refusal")), "the limits of what the rulebook covers"),
		may("promises", list(reference("promise")), "what the rulebook owes on every job"),
		may("quantities", list(reference("quantity")), "what the job takes and is ordered"),
		may("steps", list(reference("step")), "what the crew does, in this order"),
		may("tolerances", list(reference("tolerance")), "what the crew checks its work against"),
		may("stops", list(reference("stop")), "what the crew may find and then stops for"),
		may("options", list(reference("option")), "other ways to build a job"),
		may("remedies", list(reference("remedy")), "what to do with what is in the ground when a section changes"),
		may("client", list(reference("client")), "what the client is told, in this order"),
		may("lines", named(reference("line")), "the headings and fixed sentences of the sheets"),
	}
}

const (
	aboutWhen   = "the condition under which it holds; without one it always does"
	aboutSource = "practice, own (the rulebook's own choice), company, or the name of a source; a clause may follow after a comma"
)

// definitions are the entries that chapters and amendments have alike.
func definitions() Properties {
	out := Properties{{"setting", settingEntry().schema()}}
	for _, d := range []struct {
		name  string
		entry entry
	}{
		{"source", sourceEntry()}, {"vocabulary", vocabularyEntry()}, {"kind", kindEntry()}, {"property", propertyEntry()}, {"sourced", sourcedEntry()},
		{"material", materialEntry()}, {"load_case", jobWordEntry("Load case")}, {"base_type", jobWordEntry("Base type")},
		{"soil_name", jobWordEntry("Soil name")}, {"compactor", jobWordEntry("Compactor")}, {"edge_kind", jobWordEntry("Edge kind")}, {"question", questionEntry()}, {"term", termEntry()}, {"decision", decisionEntry()}, {"rule", ruleEntry(need)}, {"table", tableEntry()}, {"row", rowEntry()}, {"limit", limitEntry()},
		{"course", courseEntry()}, {"check", checkEntry()}, {"caution", cautionEntry()}, {"refusal", refusalEntry()}, {"promise", promiseEntry()},
		{"quantity", quantityEntry()}, {"step", stepEntry()}, {"tolerance", toleranceEntry()}, {"stop", stopEntry()}, {"option", optionEntry()}, {"remedy", remedyEntry()}, {"client", clientEntry()}, {"line", lineEntry()},
	} {
		out = append(out, Property{d.name, d.entry.schema()})
	}
	return append(out, Property{"word", word()})
}

func settingEntry() entry {
	return entry{title: "Setting", about: "A named value that a company may set.", keys: []key{
		need("value", single(), "a number, a quantity such as 4 in, true or false, a word, or a text in quotes"),
		may("about", single(), "what a sentence calls it, where the words of its name do not read well"),
		may("at_least", text(), "the least that an amendment may set; only a variance may go below"),
		may("at_most", text(), "the most that an amendment may set; only a variance may go above"),
		need("because", sentence(), "why it has this value"),
		need("source", of("source"), aboutSource),
	}}
}

func sourceEntry() entry {
	return entry{title: "Source", about: "A publication, with how it is known.", keys: []key{
		need("document", text(), "the document, with its edition"),
		may("clause", single(), "the clause, table or page"),
		need("known", oneOf(value.AllKnown()...), "how it is known: read in the document itself (seen), read in something that relays it, from memory, worked out, common practice, or the company's own"),
		may("via", single(), "in what a relayed document was read"),
		may("note", single(), "what a reader should know of it"),
	}}
}

// limitEntry declares a limit of the answers of a decision.
func limitEntry() entry {
	keys := []string{"at_least", "at_most", "one_of", "none_of"}
	var ways []*Schema
	for _, has := range keys {
		each := []*Schema{given(has)}
		for _, other := range keys {
			if other != has {
				each = append(each, absent(other))
			}
		}
		ways = append(ways, all(each...))
	}
	says := one(ways...)
	says.Description = "one of at_least, at_most, one_of and none_of"
	return entry{title: "Limit", about: "A limit of the answers of a decision, whoever gives them.", rules: []*Schema{says}, keys: []key{
		need("limit", text(), "its id, which no other rule, limit, check, caution or refusal has"),
		may("when", condition(), aboutWhen),
		may("at_least", expression(), "the least that may be answered"),
		may("at_most", expression(), "the most that may be answered"),
		may("one_of", words("word"), "the words that may be answered"),
		may("none_of", words("word"), "the words that may not be answered"),
		need("because", sentence(), "why, in a sentence; {name} quotes a value"),
		need("source", of("source"), aboutSource),
	}}
}

func termEntry() entry {
	return entry{title: "Term", about: "A named value worked out from the site.", keys: []key{
		need("is", of("value"), "number, bool, text, a dimension such as length, a vocabulary or a kind of material"),
		need("about", text(), "what it tells"),
		need("value", expression(), "the expression that works it out"),
		need("because", sentence(), "why it is worked out so"),
		need("source", of("source"), aboutSource),
		may("when", condition(), "the condition under which it has a value"),
	}}
}

func decisionEntry() entry {
	form := anyOf(all(given("rules"), given("take")), all(given("table"), absent("rules")))
	form.Description = "rules with take, or a table, or both"
	return entry{title: "Decision", about: "One question about the section.", rules: []*Schema{form}, keys: []key{
		need("asks", text(), "the question"),
		may("about", single(), "what a printed sentence calls the answer, where the words of its name do not read well; whether ... for a bool"),
		need("answers", of("value"), "the kind of answer: number, bool, text, a dimension such as length, a vocabulary or a kind of material"),
		may("take", oneOf(rulebook.First, rulebook.Only, rulebook.Largest, rulebook.Smallest, rulebook.All), "how the answer is taken from the rules that hold; for a table, only is the default"),
		may("when", condition(), "the condition under which it is asked"),
		may("rules", list(reference("rule")), "the rules, in their order"),
		may("table", reference("table"), "rules as rows and columns, before any others"),
		may("limits", list(reference("limit")), "limits of its answers, whoever gives them"),
	}}
}

// tableEntry declares a table; because and source are those of the rows that have
// none.
func tableEntry() entry {
	accounted := func(key string) *Schema {
		rows := &Schema{Others: &Schema{Type: []string{"object"}, Required: []string{key}}}
		return anyOf(given(key), &Schema{Properties: Properties{{"rows", rows}}})
	}
	return entry{title: "Table", about: "A decision as rows and columns.", rules: []*Schema{accounted("because"), accounted("source")}, keys: []key{
		need("columns", words("column"), "the names that cells are compared with, and answer"),
		need("rows", &Schema{Type: []string{"object"}, Fewest: 1, Others: anyOf(cells(), reference("row"))}, "the rows, each under its id"),
		may("because", sentence(), "why, in a sentence; {name} quotes a value"),
		may("source", of("source"), aboutSource),
		may("standing", oneOf(rulebook.Measured, rulebook.Correlated, rulebook.Presumed), "that of the rows that have none"),
		may("confirm", single(), "what to do to confirm the answers of rows without a standing of their own"),
	}}
}

// cells are those of a row: a word or several, yes or no, a value, a band, any or
// not known.
func cells() *Schema { return list(anyOf(text(), words("word"))) }

func rowEntry() entry {
	body := some(ruleEntry(need).keys)
	keys := []key{need("cells", cells(), "a word, [several, words], yes or no, a value, a band (3 to 5, below 3, 5 and more, up to 3, over 3), any, known or not known; and the answer")}
	for _, k := range body {
		if k.name != "rule" && k.name != "when" && k.name != "answer" {
			keys = append(keys, k)
		}
	}
	return entry{title: "Row", about: "A row that has a because, a source or a standing of its own.", keys: keys}
}

// ruleEntry declares a rule; id is need or ifThere.
func ruleEntry(id func(string, *Schema, string) key) entry {
	return entry{title: "Rule", about: "When it applies, what it answers, because of what, on whose authority.", keys: []key{
		id("rule", text(), "its id, which no other rule, check, caution or refusal has"),
		may("when", condition(), aboutWhen),
		need("answer", expression(), "the expression that answers"),
		need("because", sentence(), "why, in a sentence; {name} quotes a value"),
		need("source", of("source"), aboutSource),
		may("standing", oneOf(rulebook.Measured, rulebook.Correlated, rulebook.Presumed), "how well the answer is known, of a rule that tells a value of the site"),
		may("confirm", single(), "what to do to confirm a presumed answer before building"),
	}}
}

func courseEntry() entry {
	return entry{title: "Course", about: "One layer or element of the section.", keys: []key{
		need("course", text(), "its name"),
		need("label", text(), "how a sheet shows it"),
		need("is", of("course_kind"), "a word of the vocabulary course_kind"),
		may("when", condition(), "the condition under which it is laid"),
		need("because", sentence(), "why it is there"),
		need("source", of("source"), aboutSource),
		need("attributes", named(of("decision")), "each attribute with the decision that it is taken from"),
		may("shows", list(text()), "the attributes that a page shows beside it"),
		may("drawn", named(text()), "as what a drawing shows it, and which attributes give what is shown; without it the drawing only names it"),
	}}
}

func checkEntry() entry {
	asks := one(
		all(given("holds"), absent("value"), absent("at_least"), absent("at_most")),
		all(absent("holds"), given("value"), one(given("at_least"), given("at_most"))),
	)
	asks.Description = "either holds, or value with at_least or at_most"
	return entry{title: "Check", about: "Something that the finished section must satisfy.", rules: []*Schema{asks}, keys: []key{
		need("check", text(), "its id, which no other rule, check, caution or refusal has"),
		need("asks", text(), "what it asks"),
		may("when", condition(), "the condition under which it applies"),
		may("holds", condition(), "the condition that must hold; or value with a limit"),
		may("value", expression(), "the value that is compared with a limit"),
		may("at_least", expression(), "the least that the value may be"),
		may("at_most", expression(), "the most that the value may be"),
		need("failing", oneOf(rulebook.Stops, rulebook.Cautions), "what it does if it does not hold"),
		need("says", sentence(), "what to do if it does not hold"),
		may("passes", sentence(), "what a page says where it holds, behind yes: a clause; without it the check is only counted there"),
		need("because", sentence(), "why it is checked"),
		need("source", of("source"), aboutSource),
	}}
}

func cautionEntry() entry {
	return entry{title: "Caution", about: "Something to tell whoever builds the section.", keys: []key{
		need("caution", text(), "its id, which no other rule, check, caution or refusal has"),
		may("when", condition(), aboutWhen),
		may("owed", flag(), "true if every section owes it, so that only a variance takes it away"),
		need("says", sentence(), "what to tell"),
		may("short", sentence(), "that in one line, for a page; without it says serves"),
		may("real_when", condition(), "the condition under which the job makes it real, so that a page puts it before others"),
		need("source", of("source"), aboutSource),
	}}
}

func lineEntry() entry {
	return entry{title: "Line", about: "A heading or a fixed sentence of the sheets.", keys: []key{
		need("says", text(), "its text; what stands in braces is filled by the sheet, and each hole must stay"),
	}}
}

func refusalEntry() entry {
	return entry{title: "Refusal", about: "A limit of what the rulebook covers.", keys: []key{
		need("refusal", text(), "its id, which no other rule, check, caution or refusal has"),
		need("when", condition(), "the condition under which the job is refused"),
		need("says", sentence(), "which limit the job crosses"),
		need("who", sentence(), "who should design it instead"),
		may("contradicts", flag(), "true if what the job says cannot all be true, so that nobody is asked what would lead to it"),
		need("source", of("source"), aboutSource),
	}}
}

// promiseEntry declares a promise, which says one thing.
func promiseEntry() entry {
	says := one(
		all(given("always"), absent("never"), absent("as"), absent("then")),
		all(absent("always"), given("never"), absent("as"), absent("then")),
		all(absent("always"), absent("never"), given("as"), given("then")),
	)
	says.Description = "either always, or never, or as with then"
	return entry{title: "Promise", about: "What the rulebook owes on every job that gets a section.", rules: []*Schema{says}, keys: []key{
		need("promise", text(), "its id, which no other rule, check, caution, refusal or promise has"),
		may("when", condition(), "the condition of the jobs that it is about; without one it is about all"),
		may("always", condition(), "what holds on every such job"),
		may("never", condition(), "what holds on no such job"),
		may("as", text(), "an input or a decision, and which way it moves: support_cbr falls"),
		may("then", text(), "what it never does while all else stays as it is: stone_need never falls; a comparison never lapses"),
		need("because", sentence(), "why it is owed"),
		need("source", of("source"), aboutSource),
	}}
}
