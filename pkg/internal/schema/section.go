package schema

import _ "embed"

// sectionSchema is made by a test of this package from the declarations of
// package section, as JSON.md there is.
//
//go:embed section.schema.json
var sectionSchema []byte

// Section is the schema of a section as JSON, in each of its forms.
func Section() *Schema { return &Schema{written: sectionSchema} }
