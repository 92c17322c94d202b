package main

import (
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
)

var bookSchemaCommand = &command{
	name:  "book schema",
	usage: "groundrule book schema " + strings.Join(review.SchemaKinds(), "|"),
	about: "the JSON Schema of a kind of file, for editors",
	text: `Writes the JSON Schema (draft 2020-12) of chapters, amendments, job files or
trials. An editor that knows schemas completes the keys with it, shows what each
is for, and marks slips while they are typed:

  groundrule book schema job > job.schema.json

The schema of a section is for programs that read what design --json writes.

What a schema cannot know - expressions, units, names that other files declare -
is told by groundrule book check.
`,
	exits: `Exit code: 0 done; 2 the command line is wrong.
`,
	run: runBookSchema,
}

func runBookSchema(c *call) int {
	if len(c.args) != 1 {
		return c.usageError("one kind of file is needed, and %d given", len(c.args))
	}
	book, err := groundrule.Standard()
	if err != nil {
		return c.fail(err)
	}
	data, err := review.Schema(book, c.args[0])
	if err != nil {
		return c.usageError("%v", err)
	}
	c.out.Write(data)
	return exitDone
}
