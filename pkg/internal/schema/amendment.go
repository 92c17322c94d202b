package schema

// Amendment is the schema of an amendment file.
func Amendment() *Schema {
	keys := []key{
		need("amendment", text(), "its name, by which others build on it"),
		need("who", text(), "who made it"),
		need("why", text(), "why it was made"),
		need("when", day(), "the day on which it was made"),
		may("from", day(), "the first day on which it holds"),
		may("until", day(), "the last day on which it holds"),
		may("over", list(text()), "the amendments that it builds on"),
		may("settings", named(reference("setting_change")), "settings with the values that they get"),
		may("words", named(named(reference("word"))), "vocabularies with the words that are added to them"),
		may("rules", list(reference("rule_change")), "rules that are replaced, retired or added"),
		may("variances", list(reference("variance")), "permission for settings to cross their limits"),
		may("new_settings", named(reference("setting")), "settings that the rulebook does not have"),
	}
	more := definitions()
	for _, d := range []struct {
		name  string
		entry entry
	}{
		{"setting_change", settingChangeEntry()}, {"rule_change", ruleChangeEntry()}, {"variance", varianceEntry()}, {"replacement", ruleEntry(ifThere)},
	} {
		more = append(more, Property{d.name, d.entry.schema()})
	}
	return file(entry{title: "Amendment of a rulebook", about: "A company's change to a rulebook, with who made it, when and why.", keys: append(keys, additions()...)}, more)
}

func settingChangeEntry() entry {
	return entry{title: "Change of a setting", about: "The value that a setting gets.", keys: []key{
		need("value", single(), "the value, within the limits of the setting"),
		need("because", sentence(), "why it has this value"),
		may("source", text(), aboutSource),
		may("from", day(), "the first day on which it holds"),
		may("until", day(), "the last day on which it holds"),
	}}
}

func ruleChangeEntry() entry {
	does := one(
		all(given("replace"), given("with"), absent("retire"), absent("add")),
		all(given("retire"), absent("with"), absent("replace"), absent("add")),
		all(given("add"), absent("with"), absent("replace"), absent("retire")),
	)
	does.Description = "replace and with, or retire, or add"
	place := &Schema{Not: all(given("before"), given("after")), Description: "before or after, not both"}
	return entry{title: "Change of a rule", about: "A rule replaced, retired or added.", rules: []*Schema{does, place}, keys: []key{
		may("replace", text(), "the id of the rule that is replaced"),
		may("with", reference("replacement"), "the rule that stands in its place; without an id of its own it keeps that one's"),
		may("retire", single(), "the id of the rule, check, caution or refusal that is taken out"),
		may("add", reference("rule"), "a rule that is added"),
		may("to", single(), "the decision to which it is added"),
		may("before", single(), "the id of the rule before which it is added"),
		may("after", single(), "the id of the rule after which it is added"),
		may("because", single(), "why this change is made, if not for the reason of the whole amendment"),
	}}
}

func varianceEntry() entry {
	return entry{title: "Variance", about: "Permission for a setting to cross its limit.", keys: []key{
		need("variance", text(), "its name"),
		need("setting", text(), "the setting"),
		need("to", text(), "how far the setting may go"),
		need("who", text(), "who gave permission"),
		need("why", text(), "why"),
		may("from", day(), "the first day on which it holds"),
		need("until", day(), "the last day on which it holds"),
	}}
}
