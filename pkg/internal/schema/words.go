package schema

func vocabularyEntry() entry {
	return entry{title: "Vocabulary", about: "A closed list of words.", keys: []key{
		need("about", text(), "what the words tell"),
		need("because", sentence(), "why these are the words"),
		need("source", of("source"), aboutSource),
		need("words", named(reference("word")), "each word with how a sheet shows it"),
	}}
}

// wordEntry declares a word in full; accounted is need for one that an amendment
// adds, since it has no vocabulary to have its source from.
func wordEntry(accounted func(string, *Schema, string) key) entry {
	return entry{keys: append([]key{
		need("label", text(), "how a sheet shows it"),
		may("about", single(), "what it means"),
		may("kind_of", of("word"), "the wider word that it is a kind of: rules that ask for that one hold for it too"),
		accounted("because", sentence(), "why it is a word of its own"),
		accounted("source", of("source"), aboutSource),
	}, called()...)}
}

// called are the keys of what else a word is called.
func called() []key {
	name := nameSchema()
	name.Type = []string{"string"}
	return []key{
		may("also", list(name), "other names that jobs and rules may write for it"),
		may("loosely", list(text()), "what people say who mean it and leave open what has to be known: a job that says so is told this word"),
		may("in_jobs", single(), "as jobs write it, where that is not its name"),
	}
}

func questionEntry() entry {
	presumed := entry{title: "Presumed", about: "What is presumed where the job does not say; without it a rule must ask known(...).", keys: []key{
		need("value", single(), "the answer"),
		need("because", sentence(), "why that is presumed"),
		need("confirm", sentence(), "what to do to confirm it before building"),
	}}
	cases := entry{title: "Values of a case", keys: []key{need("when", condition(), "the condition under which these are worth trying"), need("values", list(single()), "the values")}}
	return entry{title: "Question", about: "How people are asked for a value of a job. Under the name of a key of jobs, such as soil.consistency, that is all. Under any other it is an input of the company, and says with answers what it answers with: a job answers it under company; rules read the answer, or what is presumed, by its name.", keys: []key{
		need("asks", text(), "the question"),
		may("test", text(), "what finds the answer out, as a noun, such as a cone test"),
		may("how", sentence(), "how to find the answer out"),
		may("when", condition(), "the condition under which it is asked; without one it always may be"),
		may("may_be", list(anyOf(single(), cases.schema())), "answers worth trying, each written as in a job, or a mapping of values with the condition when they are; without it yes and no, or every word"),
		may("answers", text(), "for a question of the company: bool, number, a dimension such as length, or a vocabulary"),
		may("at_least", text(), "the least that a job may say"),
		may("at_most", text(), "the most that a job may say"),
		may("presumed", presumed.schema(), "what is presumed where the job does not say"),
		need("because", sentence(), "why it is asked"),
		need("source", text(), aboutSource),
	}}
}

// jobWordEntry declares a word of jobs with properties.
func jobWordEntry(title string) entry {
	e := materialEntry()
	e.title, e.about = title, "A word of jobs, which rules know by its properties."
	e.keys = append(e.keys[1:], called()...)
	return e
}

func words(sort string) *Schema {
	s := list(of(sort))
	s.MinItems = 1
	return s
}

// word is a word with its label, or with its label and its meaning; left empty,
// the label is the word itself.
func word() *Schema {
	full := wordEntry(may).schema()
	return &Schema{Title: "Word", Description: "How a sheet shows the word, or that with its meaning.", AnyOf: []*Schema{orNull(single()), full}}
}

func kindEntry() entry {
	return entry{title: "Kind", about: "A kind of material, or of a word of jobs, with the properties that each has.", keys: []key{
		need("about", text(), "what materials of this kind are for, or what the words tell"),
		may("properties", named(reference("property")), "the properties that each of this kind has"),
	}}
}

func propertyEntry() entry {
	return entry{title: "Property", about: "A property of everything of a kind.", keys: []key{
		need("is", of("value"), "number, bool, text, a dimension such as length, a vocabulary, or gradation"),
		need("about", text(), "what it is"),
		may("optional", flag(), "true if one may lack it"),
		may("usual", single(), "what one has that does not say"),
		may("at_least", single(), "the least that one may say"),
		may("at_most", single(), "the most that one may say"),
		may("because", sentence(), "why what is usual is so"),
		may("source", of("source"), aboutSource),
	}}
}

func materialEntry() entry {
	return entry{title: "Material", about: "An entry of the catalog.", keys: []key{
		need("kind", of("kind"), "the kind of material"),
		need("label", text(), "how a sheet shows it"),
		may("about", single(), "what it is for"),
		need("because", sentence(), "where its values come from, and how good they are"),
		need("source", of("source"), aboutSource),
		may("properties", named(anyOf(orNull(single()), reference("sourced"))), "its properties, as its kind declares them"),
	}}
}

func sourcedEntry() entry {
	return entry{title: "Value", about: "A value with a source of its own.", keys: []key{
		need("value", single(), "the value"),
		need("because", sentence(), "why it is so"),
		need("source", of("source"), aboutSource),
	}}
}
