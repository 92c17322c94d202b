package schema

// entry declares a mapping with keys of its own.
type entry struct {
	title, about string
	keys         []key
	// rules hold the keys to each other.
	rules []*Schema
}

// key declares one key of an entry.
type key struct {
	name  string
	use   use
	is    *Schema
	about string
}

// use says whether a key must be there.
type use uint8

const (
	needed   use = iota
	optional     // may be left out, or left empty
	filled       // may be left out, but not left empty
)

func need(name string, is *Schema, about string) key    { return key{name, needed, is, about} }
func may(name string, is *Schema, about string) key     { return key{name, optional, is, about} }
func ifThere(name string, is *Schema, about string) key { return key{name, filled, is, about} }

// schema makes the schema of an entry: no key but those declared.
func (e entry) schema() *Schema {
	s := &Schema{Title: e.title, Description: e.about, Type: []string{"object"}, Others: &Schema{nothing: true}, AllOf: e.rules}
	for _, k := range e.keys {
		is := *k.is
		if k.use == optional {
			is = *orNull(k.is)
		}
		is.Description = k.about
		s.Properties = append(s.Properties, Property{k.name, &is})
		if k.use == needed {
			s.Required = append(s.Required, k.name)
		}
	}
	return s
}

// orNull takes what s takes, or nothing: a key that is left empty is as good as
// none.
func orNull(s *Schema) *Schema {
	if s.Ref != "" || len(s.AnyOf) > 0 {
		return &Schema{AnyOf: []*Schema{s, {Type: []string{"null"}}}}
	}
	out := *s
	out.Type = append(append([]string(nil), s.Type...), "null")
	if len(s.Enum) > 0 {
		out.Enum = append(append([]any(nil), s.Enum...), nil)
	}
	return &out
}

// The shapes that a key can have.

// single is a value of one piece, whatever YAML makes of it: the readers take
// its text.
func single() *Schema { return &Schema{Type: []string{"string", "number", "boolean"}} }

// text is a single value that is not blank.
func text() *Schema { return pattern(`\S`, single().Type...) }

// of is the name of an entry of a sort; see [Schema.Know].
func of(sort string) *Schema {
	s := text()
	s.of = sort
	return s
}

// day is a date.
func day() *Schema {
	return &Schema{Type: []string{"string"}, Pattern: `^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$`, Examples: []string{"2026-03-01"}}
}

// flag is true or false, and no other word for it.
func flag() *Schema { return &Schema{Type: []string{"boolean"}} }

// oneOf is one of a closed list of words.
func oneOf[W ~string](words ...W) *Schema {
	s := enum(words)
	s.Type = []string{"string"}
	return s
}

// reference is an entry that is declared under a name.
func reference(name string) *Schema { return &Schema{Ref: "#/$defs/" + name} }

// list is a list of items.
func list(item *Schema) *Schema { return &Schema{Type: []string{"array"}, Items: item} }

// named is a mapping of names, each with its entry.
func named(item *Schema) *Schema {
	return &Schema{Type: []string{"object"}, Names: nameSchema(), Others: item}
}

// nameSchema is a name that expressions can write: letters, digits and _, in
// groups joined by dots.
func nameSchema() *Schema {
	return &Schema{Pattern: `^[A-Za-z_][A-Za-z0-9_]*(\.[A-Za-z_][A-Za-z0-9_]*)*$`, Not: enum(reserved)}
}

// name is such a name as a value.
func name() *Schema {
	s := nameSchema()
	s.Type = []string{"string"}
	return s
}

// reserved are the words that the rule language keeps for itself.
var reserved = []string{"true", "false", "null", "in", "as", "break", "const", "continue", "else", "for", "function", "if",
	"import", "let", "loop", "package", "namespace", "return", "var", "void", "while"}

// given holds where a key has a value; absent where it has none.
func given(name string) *Schema {
	return &Schema{Required: []string{name}, Properties: Properties{{name, &Schema{Not: &Schema{Type: []string{"null"}}}}}}
}

func absent(name string) *Schema { return &Schema{Not: given(name)} }

func all(each ...*Schema) *Schema   { return &Schema{AllOf: each} }
func anyOf(each ...*Schema) *Schema { return &Schema{AnyOf: each} }
func one(each ...*Schema) *Schema   { return &Schema{OneOf: each} }

// file makes the schema of a whole file of an entry and the definitions that it
// refers to.
func file(e entry, definitions Properties) *Schema {
	s := e.schema()
	s.Dialect = dialect
	s.Definitions = definitions
	return s
}
