package main

import (
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/review"
)

var bookSchemaCommand = &command{
	name:  "book schema",
	usage: "groundrule book schema " + strings.Join(schemaKinds(), "|"),
	about: "the JSON Schema of a kind of file, for editors",
	text: `Writes the JSON Schema (draft 2020-12) of chapters, amendments, job files or trials. An
editor that knows schemas completes the keys with it, shows what each is for, and marks
slips while they are typed:

  groundrule book schema job > job.schema.json

What a schema cannot know - expressions, units, names that other files declare - is told
by groundrule book check.
`,
	exits: `Exit code: 0 done; 2 the command line is wrong.
`,
}

func init() { bookSchemaCommand.run = runBookSchema }

func schemaKinds() []string {
	var out []string
	for _, k := range review.SchemaKinds() {
		out = append(out, k.Name)
	}
	return out
}

func runBookSchema(c *call) int {
	if len(c.args) != 1 {
		return c.usageError("one kind of file is needed, and %d given", len(c.args))
	}
	s, ok := review.Schema(c.args[0])
	if !ok {
		near := ""
		if n := diagnostic.Nearest(c.args[0], schemaKinds()); n != "" {
			near = "; did you mean " + n + "?"
		}
		return c.usageError("there is no schema of %q; there are %s%s", c.args[0], strings.Join(schemaKinds(), ", "), near)
	}
	if err := s.Write(c.out); err != nil {
		return c.fail(err)
	}
	return exitDone
}
