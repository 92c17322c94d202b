package schema

// Kind is a kind of file: one that people write, or the section as JSON.
type Kind struct {
	Name string
	// About says what such a file is.
	About string
	// Schema makes its schema anew.
	Schema func() *Schema
}

// Kinds lists the kinds of file that have a schema.
func Kinds() []Kind {
	return []Kind{
		{"chapter", "a rule file of a rulebook", Chapter},
		{"amendment", "a company's change to a rulebook", Amendment},
		{"job", "what is known of a job", Job},
		{"trial", "jobs, and what must come of them", Trial},
		{"section", "the result of a design, as JSON", Section},
	}
}

// For returns the schema of a kind of file, false if there is no such kind.
func For(kind string) (*Schema, bool) {
	for _, k := range Kinds() {
		if k.Name == kind {
			return k.Schema(), true
		}
	}
	return nil, false
}
