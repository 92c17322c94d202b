package schema

import (
	_ "embed"

	"example.com/groundrule/pkg/site"
)

// Kind is a kind of file: one that people write, or the section as JSON.
type Kind struct {
	Name string
	// Schema makes its schema anew, with the words of a rulebook's jobs.
	Schema func(*site.Table) *Schema
}

// Kinds lists the kinds of file that have a schema.
func Kinds() []Kind {
	return []Kind{
		{"chapter", func(*site.Table) *Schema { return Chapter() }},
		{"amendment", func(*site.Table) *Schema { return Amendment() }},
		{"job", Job},
		{"trial", Trial},
		{"texts", func(*site.Table) *Schema { return Texts() }},
		{"prices", func(*site.Table) *Schema { return Prices() }},
		{"section", func(*site.Table) *Schema { return Section() }},
	}
}

// For returns the schema of a kind of file, false if there is no such kind.
func For(kind string, t *site.Table) (*Schema, bool) {
	for _, k := range Kinds() {
		if k.Name == kind {
			return k.Schema(t), true
		}
	}
	return nil, false
}

// sectionSchema is made by a test of this package from the declarations of
// package section, as JSON.md there is.
//
//go:embed section.schema.json
var sectionSchema []byte

// Section is the schema of a section as JSON, in each of its forms.
func Section() *Schema { return &Schema{written: sectionSchema} }
