package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/section"
)

var bookPrintCommand = &command{
	name:  "book print",
	usage: "groundrule book print [flags]",
	about: "the whole rulebook as a document to read and to print",
	text: `Writes every entry of the rulebook as a numbered clause: where it applies, in
plain English, what it answers, why, and where that comes from. What amendments
changed has beside it who, when and why; what they took away is struck through.

  groundrule book print --html -o standard.html
  groundrule book print --amend ours --as-of 2026-03-01 > ours.md

The document is Markdown, or with --html one file that any browser opens and
prints. With --expressions each sentence has the expression that it was made
from beside it. A file that is there already is written over only with --over.
`,
	flags: append([]string{flagHTML, flagExpressions, flagProve, flagOut, flagOver}, ofBook...),
	exits: `Exit code: 0 done; 2 a rule file or the command line is wrong.
`,
	run: runBookPrint,
}

var bookDiffCommand = &command{
	name:  "book diff",
	usage: "groundrule book diff [A B] [flags]",
	about: "what differs between two rulebooks, clause by clause",
	text: `Writes what book print writes, but only the clauses in which two rulebooks
differ. A and B are folders of rules or of amendments, or the word standard:

  groundrule book diff standard ours
  groundrule book diff ours_of_last_year ours

Without A and B the flags name both, the later as everywhere, the earlier with
the flags that begin with --before:

  groundrule book diff --amend ours --before-as-of 2026-01-01 --as-of 2026-07-01
`,
	flags: append(append([]string{flagHTML, flagExpressions, flagOut, flagOver}, ofBook...), flagBeforeRules, flagBeforeAmend, flagBeforeAsOf),
	exits: bookPrintCommand.exits,
	run:   runBookDiff,
}

func runBookPrint(c *call) int {
	if len(c.args) > 0 {
		return c.usageError("it takes no arguments, and %d given; a folder goes behind --rules or --amend", len(c.args))
	}
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	var before *groundrule.Book
	if len(c.files.amend) > 0 {
		plain := c.files
		plain.amend = nil
		if before, err = plain.open(); err != nil {
			return c.fail(err)
		}
	}
	o := review.PrintOptions{Before: before}
	if c.prove {
		if o.Proof, err = c.proof(book); err != nil {
			return c.fail(err)
		}
	}
	return c.print(book, o)
}

// proof settles the promises of a rulebook.
func (c *call) proof(book *groundrule.Book) (*review.Report, error) {
	layers, err := c.files.layers()
	if err != nil {
		return nil, err
	}
	ctx, stop := interruptible()
	defer stop()
	line := c.progress()
	defer line.end()
	return review.Prove(ctx, book, review.SurveyOptions{Seed: c.seed, Trials: withTrials(layers), Progress: line.show})
}

func runBookDiff(c *call) int {
	c.before.prefix = "before-"
	switch len(c.args) {
	case 0:
		if len(c.before.amend) == 0 && c.before.rules == "" && !c.before.asOf.IsZero() {
			c.before.rules, c.before.amend = c.files.rules, c.files.amend
		}
	case 2:
		for i, f := range []*rulebookFiles{&c.before, &c.files} {
			if err := f.take(c.args[i]); err != nil {
				return c.fail(err)
			}
		}
	default:
		return c.usageError("two rulebooks are needed, and %d given", len(c.args))
	}
	if c.before.asOf.IsZero() {
		c.before.asOf = c.files.asOf
	}
	if c.files.same(&c.before) {
		return c.usageError("both rulebooks are the same; name two, or two days")
	}
	before, after, err := c.beforeAndAfter()
	if err != nil {
		return c.fail(err)
	}
	return c.print(after, review.PrintOptions{Before: before, OnlyChanges: true})
}

// take has a folder for the rules, or for the amendments if that is what it
// holds. The word standard is the standard rulebook.
func (f *rulebookFiles) take(dir string) error {
	if dir == "standard" {
		return nil
	}
	if err := isFolder(dir); err != nil {
		return err
	}
	amends := false
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil || amends || d.IsDir() || !slices.Contains([]string{".yaml", ".yml"}, filepath.Ext(path)) {
			return err
		}
		text, err := os.ReadFile(path)
		amends = amendmentKey.Match(text)
		return err
	})
	if amends {
		f.amend = append(f.amend, dir)
	} else {
		f.rules = dir
	}
	return err
}

// amendmentKey is what a file of amendments has.
var amendmentKey = regexp.MustCompile(`(?m)^amendment:`)

// print writes a rulebook to the file of the flags, or to standard output.
func (c *call) print(book *groundrule.Book, o review.PrintOptions) int {
	o.HTML, o.Expressions = c.html, c.expressions
	var text bytes.Buffer
	if err := review.Print(&text, book, o); err != nil {
		return c.fail(err)
	}
	return c.done(section.Designed, c.deliver(text.Bytes()))
}

// writeFile writes a file, over another only where the flags allow it.
func (c *call) writeFile(path string, data []byte) error {
	how := os.O_WRONLY | os.O_CREATE | os.O_EXCL
	if c.over {
		how = os.O_WRONLY | os.O_CREATE | os.O_TRUNC
	}
	file, err := os.OpenFile(path, how, 0o644)
	if errors.Is(err, fs.ErrExist) {
		instead := ""
		if slices.Contains(c.flags, flagOver) {
			instead = ", or add --" + flagOver + " to write over it"
		}
		return fmt.Errorf("%s is there already, and nothing was written; name another file%s", path, instead)
	}
	if err != nil {
		return cannot("file", path, err)
	}
	_, err = file.Write(data)
	return errors.Join(err, file.Close())
}
