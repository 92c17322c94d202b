package main

import (
	"errors"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/site"
)

func runBookImpact(c *call) error {
	if c.before.asOf.IsZero() {
		c.before.asOf = c.files.asOf
	}
	switch {
	case len(c.args) == 0:
		return misused("a folder of jobs is needed, or a file of JSON lines; groundrule book jobs makes some up")
	case c.files.same(&c.before):
		return misused("both rulebooks are the same; name the one after the edit with --rules or --amend")
	}
	before, after, err := c.beforeAndAfter()
	if err != nil {
		return err
	}
	if err := c.jobsThere(); err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	line := c.progress()
	report, err := review.Impact(ctx, before, after, c.readJobs, review.ImpactOptions{Shown: c.shown,
		Progress: func(done int) { line.show("jobs", done, 0) }})
	line.end()
	err = c.reviewed(report, err, exitBadUse)
	if report != nil && !report.OK() {
		fmt.Fprintf(c.err, "groundrule %s: %s\n", c.Name, report.Summary())
	}
	return err
}

// beforeAndAfter opens both rulebooks of a command that compares two.
func (c *call) beforeAndAfter() (before, after *groundrule.Book, err error) {
	if before, err = c.before.open(); err != nil {
		return nil, nil, err
	}
	after, err = c.book()
	return before, after, err
}

// same reports whether two sets of flags name one rulebook.
func (f *rulebookFiles) same(g *rulebookFiles) bool {
	return f.rules == g.rules && f.asOf == g.asOf && slices.Equal(f.amend, g.amend)
}

// jobsThere tells what is wrong with the arguments before anything is designed.
func (c *call) jobsThere() error {
	for _, path := range c.args {
		if path == "-" {
			continue
		}
		if _, err := os.Stat(path); err != nil {
			return cannot("file or folder of jobs", path, err)
		}
	}
	return nil
}

// readJobs hands out the jobs of every argument.
func (c *call) readJobs(yield func(*site.Site, error) bool) {
	for _, path := range c.args {
		for job, err := range c.jobsOf(path) {
			if !yield(job, err) {
				return
			}
		}
	}
}

// jobsOf returns the jobs of one argument.
func (c *call) jobsOf(path string) iter.Seq2[*site.Site, error] {
	info, err := os.Stat(path)
	switch {
	case path == "-":
		return review.ReadJobLines(stdinName, c.in)
	case err == nil && info.IsDir():
		return review.ReadJobs(os.DirFS(path))
	}
	return func(yield func(*site.Site, error) bool) {
		if err == nil && strings.EqualFold(filepath.Ext(path), ".jsonl") {
			if file, err := os.Open(path); err == nil {
				defer file.Close()
				review.ReadJobLines(filepath.ToSlash(path), file)(yield)
				return
			}
		}
		c.several = true
		f, err := c.job(nil, path)
		var wrong *site.Error
		switch {
		case errors.As(err, &wrong):
			yield(nil, wrong)
		case err != nil:
			yield(nil, err)
		default:
			yield(f.site, nil)
		}
	}
}
