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
)

func runBookPrint(c *call) error {
	book, plain, err := c.amendedAndNot()
	if err != nil {
		return err
	}
	o := review.PrintOptions{Before: plain}
	if c.prove {
		if o.Proof, err = c.search(review.Prove, book, &review.SurveyOptions{}); err != nil {
			return err
		}
	}
	return c.print(book, o)
}

func runBookDiff(c *call) error {
	switch len(c.args) {
	case 0:
		if len(c.before.amend) == 0 && c.before.rules == "" && !c.before.asOf.IsZero() {
			c.before.rules, c.before.amend = c.files.rules, c.files.amend
		}
	case 2:
		for i, f := range []*rulebookFiles{&c.before, &c.files} {
			if err := f.take(c.args[i]); err != nil {
				return err
			}
		}
	}
	if c.before.asOf.IsZero() {
		c.before.asOf = c.files.asOf
	}
	if c.files.same(&c.before) {
		return misused("both rulebooks are the same; name two, or two days")
	}
	before, after, err := c.beforeAndAfter()
	if err != nil {
		return err
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
func (c *call) print(book *groundrule.Book, o review.PrintOptions) error {
	o.HTML, o.Expressions = c.html, c.expressions
	var text bytes.Buffer
	if err := review.Print(&text, book, o); err != nil {
		return err
	}
	return c.deliver(text.Bytes())
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
		if slices.Contains(c.Flags, "over") {
			instead = ", or add --over to write over it"
		}
		return fmt.Errorf("%s is there already, and nothing was written; name another file%s", path, instead)
	}
	if err != nil {
		return cannot("file", path, err)
	}
	_, err = file.Write(data)
	return errors.Join(err, file.Close())
}
