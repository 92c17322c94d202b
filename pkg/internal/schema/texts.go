package schema

// Texts is the schema of a file of texts in another language.
func Texts() *Schema {
	mapOf := func(is *Schema) *Schema { return &Schema{Type: []string{"object"}, Others: is} }
	tag := text()
	tag.Pattern = "^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$"
	tag.Type = []string{"string"}
	mark := text()
	mark.Pattern = "^[^0-9]$"
	keys := []key{
		need("texts", tag, "the language by its tag, such as fr, es or pt-BR"),
		may("numbers", entry{about: "The marks of numbers.", keys: []key{
			may("decimal", mark, "what stands between a number and its decimals, such as a comma"),
			may("thousands", mark, "what stands between thousands; a space is printed as one at which no line is broken"),
		}}.schema(), "how numbers are written"),
		may("units", mapOf(text()), "what is written for a unit by its symbol, such as in, sq ft or days, and for yes, no, none and million"),
		may("names", mapOf(text()), "what a name of the rule language is called, such as overlap, support_cbr or soil.cbr"),
	}
	for _, sort := range []string{"settings", "vocabularies", "kinds", "materials", "load_cases", "base_types", "soil_names", "compactors", "edge_kinds", "questions", "terms", "decisions", "courses", "client",
		"checks", "cautions", "refusals", "promises", "quantities", "steps", "tolerances", "stops", "options", "remedies", "lines", "rules", "limits", "words"} {
		keys = append(keys, may(sort, mapOf(reference("entry")), "texts by the names of the entries"))
	}
	return file(entry{title: "Texts in another language", about: "Texts of a rulebook's entries in another language; whatever is not given stays in the rulebook's own.", keys: keys}, Properties{
		{"entry", &Schema{Description: "texts by their keys, such as label, says or presumed.because", Type: []string{"object"}, Others: orNull(reference("text"))}},
		{"text", entry{title: "Text", keys: []key{
			need("of", text(), "the text as the rulebook has it; where that is worded otherwise by now, the translation does not stand"),
			need("is", text(), "the text in the language, with the same values in braces and the same numbers"),
		}}.schema()},
	})
}
