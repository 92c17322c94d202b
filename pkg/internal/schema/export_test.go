package schema

// For the test that makes the schema of a section.
const Dialect = dialect

var Day = day

// Never is the schema that takes nothing.
func Never() *Schema { return &Schema{nothing: true} }
