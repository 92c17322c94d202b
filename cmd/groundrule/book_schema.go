package main

import (
	"strings"

	"example.com/groundrule/pkg/review"
)

var bookSchemaCommand = &command{
	name:  "book schema",
	usage: "groundrule book schema " + strings.Join(review.SchemaKinds(), "|") + " [flags]",
	about: "the JSON Schema of a kind of file, for editors",
	text: `Writes the JSON Schema (draft 2020-12) of chapters, amendments, job files,
trials or price lists. An editor that knows schemas completes the keys with it,
shows what each is for, and marks slips while they are typed:

  groundrule book schema job > job.schema.json
  groundrule book schema amendment --amend ours > amendment.schema.json

It knows the settings, rules, decisions, words, sources and materials of the
rulebook that the flags name; write it anew when you have added some. The schema
of a section is for programs that read what design --json writes.

What a schema cannot know, expressions and units, is told by groundrule book
check.
`,
	flags: ofBook,
	exits: `Exit code: 0 done; 2 a rule file or the command line is wrong.
`,
	run: runBookSchema,
}

func runBookSchema(c *call) int {
	if len(c.args) != 1 {
		return c.usageError("one kind of file is needed, and %d given", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	before := c.files
	before.amend = nil
	plain, err := before.open()
	if err != nil {
		return c.fail(err)
	}
	data, err := review.Schema(book, c.args[0], plain)
	if err != nil {
		return c.usageError("%v", err)
	}
	c.out.Write(data)
	return exitDone
}
