package schema

// saidOf maps names to expressions.
func saidOf(names string) *Schema {
	return &Schema{Type: []string{"object"}, Names: &Schema{of: names}, Others: expression()}
}

func optionEntry() entry {
	return workEntry("option", "Option", "Another way to build a job, told beside the way that the job asks for.",
		need("about", sentence(), "what is built then, as a noun"),
		need("gives", sentence(), "what it gives, in one sentence"),
		need("lacks", sentence(), "what it lacks, in one sentence"),
		may("leaves_out", sentence(), "what it leaves out, as a noun, for the sentence of what that costs"),
		may("takes", saidOf("taken"), "what the job says then: paths of the job, and decisions that it takes over, each with an expression"))
}

func remedyEntry() entry {
	return workEntry("remedy", "Remedy", "What to do with what is in the ground already when a section changes.",
		need("as", text(), "what must differ for it: section_depth rises, section_depth falls or fabric_kind changes"),
		need("says", sentence(), "what to do"))
}

func clientEntry() entry {
	return workEntry("client", "Client", "What the client is told, in words without jargon.",
		need("part", of("client_part"), "the part of the client's sheet, a word of the vocabulary client_part"),
		may("tells", list(of("telling")), "the rules, limits, checks, cautions and refusals that it tells of: it is told where one of them speaks, in place of course and when"),
		need("says", sentence(), "what the client is told"))
}

// workEntry is the schema of a quantity, a step, a tolerance or a stop, with its own keys.
func workEntry(sort, title, about string, sentences ...key) entry {
	keys := []key{
		need(sort, text(), "its id, which no other rule, check, caution, step or stop has"),
		may("course", of("laid"), "the course that it is about, or a kind of course: it applies only where one is laid"),
		may("when", condition(), aboutWhen),
	}
	return entry{title: title, about: about, keys: append(append(keys, sentences...),
		need("because", sentence(), "why"), need("source", of("source"), aboutSource))}
}

func quantityEntry() entry {
	return workEntry("quantity", "Quantity", "How much of something the job takes.",
		need("about", sentence(), "what it is, as a noun"),
		need("kind", of("quantity_kind"), "a word of the vocabulary quantity_kind"),
		need("amount", expression(), "how much: a count, a length, an area, a volume, a mass, a time or a layout"),
		may("item", expression(), "what it is bought as, a word or a text: all quantities of one item are one order; without it the quantity is only told"),
		may("step", expression(), "the whole unit in which it is ordered, of the kind of the amount"),
		may("counted_in", text(), "what these units are called, one of them: load, bag, roll"),
		may("weighs", expression(), "the density of a volume, the areal mass of an area, by which it is weighed; of a mass, the density in which it is bought"))
}

func stepEntry() entry {
	return workEntry("step", "Step", "One thing that the crew does, in its order.",
		need("says", sentence(), "what the crew does"),
		may("sizes", sentence(), "how thick, long or far it is done, as the crew reads it beside the depth of the course"),
		may("hold", sentence(), "what must be looked at before work goes on"))
}

func toleranceEntry() entry {
	return workEntry("tolerance", "Tolerance", "What the crew checks its work against.",
		need("says", sentence(), "what is within tolerance"),
		need("measure", sentence(), "how it is measured"))
}

func stopEntry() entry {
	return workEntry("stop", "Stop", "What the crew may find and then stops for.",
		need("finds", sentence(), "what it may find"),
		need("does", sentence(), "what it does at once"),
		need("calls", sentence(), "whom it calls"),
		may("found", saidOf("input"), "what the job would say if that were found: paths of the job, each with an expression"))
}
