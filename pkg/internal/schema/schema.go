// Package schema describes the files that people write - chapters, amendments,
// jobs and trials - as JSON Schemas (draft 2020-12), so that an editor can
// complete keys, show what each is for, and mark a slip while it is typed.
//
// A schema knows the keys, which of them are needed, the shapes and the closed
// lists of words. It takes whatever the readers take, but for a blank in quotes
// where a word is wanted. What it cannot know - expressions, units, ranges,
// names that other files declare - is left to them; groundrule book check tells
// all of it.
//
// The schema of a section, as JSON, is that of what the library itself writes. It
// is made from the structs by a test.
//
// The schema of a job is made from the table that its reader follows. Those of
// chapters, amendments, trials, prices and texts are made of entries.txt, and tests
// hold them to the readers, key by key.
package schema

import (
	"bytes"
	"encoding/json"
	"io"
)

// dialect names the draft in which schemas are written.
const dialect = "https://json-schema.org/draft/2020-12/schema"

// Schema is a JSON Schema, with as much of the standard as is needed here. The
// zero Schema takes anything.
type Schema struct {
	Dialect     string   `json:"$schema,omitempty"`
	Title       string   `json:"title,omitempty"`
	Description string   `json:"description,omitempty"`
	Ref         string   `json:"$ref,omitempty"`
	Type        []string `json:"type,omitempty"`
	Enum        []any    `json:"enum,omitempty"`
	Pattern     string   `json:"pattern,omitempty"`
	Examples    []string `json:"examples,omitempty"`
	// Properties are the keys of a mapping, Required those that must be there;
	// Others is what may stand under any other key, and Names how those are
	// written.
	Properties Properties `json:"properties,omitempty"`
	Required   []string   `json:"required,omitempty"`
	Names      *Schema    `json:"propertyNames,omitempty"`
	Others     *Schema    `json:"additionalProperties,omitempty"`
	Fewest     int        `json:"minProperties,omitempty"`
	Items      *Schema    `json:"items,omitempty"`
	MinItems   int        `json:"minItems,omitempty"`
	MaxItems   int        `json:"maxItems,omitempty"`
	AnyOf      []*Schema  `json:"anyOf,omitempty"`
	OneOf      []*Schema  `json:"oneOf,omitempty"`
	AllOf      []*Schema  `json:"allOf,omitempty"`
	Not        *Schema    `json:"not,omitempty"`
	// Definitions are what Ref refers to, as "#/$defs/NAME".
	Definitions Properties `json:"$defs,omitempty"`

	// of is the sort of entry whose names may stand here, "" for any text.
	of string
	// nothing marks the schema that takes nothing; written is one that is there as
	// JSON alone.
	nothing bool
	written json.RawMessage
}

// Property is a name with its schema.
type Property struct {
	Name   string
	Schema *Schema
}

// Properties keep the order in which they were declared.
type Properties []Property

// Get returns the schema under a name, or nil.
func (p Properties) Get(name string) *Schema {
	for _, each := range p {
		if each.Name == name {
			return each.Schema
		}
	}
	return nil
}

// Nothing reports whether the schema takes nothing.
func (s *Schema) Nothing() bool { return s.nothing }

// MarshalJSON writes the schema; the one that takes nothing is false.
func (s *Schema) MarshalJSON() ([]byte, error) {
	switch {
	case s.nothing:
		return []byte("false"), nil
	case s.written != nil:
		return s.written, nil
	}
	type plain Schema
	return encode((*plain)(s))
}

// MarshalJSON writes an object in the order of the properties.
func (p Properties) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, each := range p {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := encode(each.Name)
		if err != nil {
			return nil, err
		}
		schema, err := encode(each.Schema)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(schema)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// encode leaves <, > and & as they are.
func encode(x any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(x)
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), err
}

// Write writes the schema as indented JSON, ending in a line break. The only
// error is that of w.
func (s *Schema) Write(w io.Writer) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(s)
}
