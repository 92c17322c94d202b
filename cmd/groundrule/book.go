package main

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
)

// interruptible returns a context that is done when the user interrupts.
func interruptible() (context.Context, context.CancelFunc) {
	return signal.NotifyContext(context.Background(), os.Interrupt)
}

// reviewed writes what a review came to. Where not all is well, the exit code is
// notWell.
func (c *call) reviewed(r *review.Report, err error, notWell exit) error {
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintf(c.err, "groundrule %s: interrupted; nothing was proven\n", c.Name)
		return exit(exitFailed)
	case err != nil:
		return err
	case c.json:
		err = c.encode(r, "  ")
	default:
		err = r.WriteText(c.out, c.system)
	}
	if err == nil && !r.OK() {
		return notWell
	}
	return err
}

//go:embed begin
var begun embed.FS

func runBookBegin(c *call) error {
	files, err := fs.Sub(begun, "begin")
	if err != nil {
		return err
	}
	var names []string
	for _, pattern := range []string{"*.yaml", "*/*.yaml"} {
		found, _ := fs.Glob(files, pattern)
		names = append(names, found...)
	}
	for i, name := range names {
		names[i] = filepath.Join(c.args[0], filepath.FromSlash(name))
		if _, err := os.Lstat(names[i]); err == nil {
			return fmt.Errorf("%s is there already, and nothing is written over; name another folder", names[i])
		}
	}
	if err := os.CopyFS(c.args[0], files); err != nil {
		return err
	}
	_, err = fmt.Fprintf(c.out, "wrote %s\n\nFill in company, who, when and why, and work through the examples: each is in\nforce until you change or delete it.\n", strings.Join(names, "\nwrote "))
	return err
}

func runBookJobs(c *call, book *groundrule.Book) error {
	_ = review.WriteJobs(c.out, review.Jobs(book, c.count, c.seed)) // output keeps its error
	return nil
}

func runBookNames(c *call, book *groundrule.Book) error {
	r, err := review.Names(book)
	return c.reviewed(r, err, exitFailed)
}

func runBookSchema(c *call) error {
	book, plain, err := c.amendedAndNot()
	if err != nil {
		return err
	}
	data, err := review.Schema(book, c.args[0], plain)
	if err != nil {
		return misused("%v", err)
	}
	return c.deliver(data)
}

// amendedAndNot opens the rulebook that the flags name, and that without its
// amendments.
func (c *call) amendedAndNot() (book, plain *groundrule.Book, err error) {
	if book, err = c.book(); err != nil {
		return nil, nil, err
	}
	if len(c.files.amend) == 0 {
		return book, book, nil
	}
	without := c.files
	without.amend = nil
	plain, err = without.open()
	return book, plain, err
}

func runBookTrials(c *call, book *groundrule.Book) error {
	folders, err := c.trialFolders()
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	run := review.Trials
	if c.coverage {
		run = review.Coverage
	}
	report, err := run(ctx, book, folders...)
	if errors.Is(err, review.ErrNoTrials) {
		return fmt.Errorf("%w; give the folder that holds them", err)
	}
	if err != nil {
		err = &located{err: err, trials: folders}
	}
	return c.reviewed(report, err, exitNo)
}

// trialFolders returns the folders of the arguments, or else those beside the
// amendments, or beside the rules where there are no amendments.
func (c *call) trialFolders() ([]rulebook.Layer, error) {
	var out []rulebook.Layer
	for _, dir := range c.args {
		if err := isFolder(dir); err != nil {
			return nil, fmt.Errorf("the trials: %w", err)
		}
		out = append(out, rulebook.Layer{Label: filepath.ToSlash(filepath.Clean(dir)), FS: os.DirFS(dir)})
	}
	if len(c.args) > 0 {
		return out, nil
	}
	layers, err := c.files.layers()
	if err != nil {
		return nil, err
	}
	if len(layers) > 1 {
		layers = layers[1:] // amendments may replace what the rulebook's own trials name
	}
	return withTrials(layers), nil
}

// withTrials returns the folders that hold a folder of trials.
func withTrials(layers []rulebook.Layer) []rulebook.Layer {
	return slices.DeleteFunc(layers, func(l rulebook.Layer) bool {
		info, err := fs.Stat(l.FS, rulebook.TrialsFolder)
		return err != nil || !info.IsDir()
	})
}

// searched runs a review that searches the whole range of jobs.
func (c *call) searched(search func(context.Context, *groundrule.Book, review.SurveyOptions) (*review.Report, error)) error {
	if err := c.jobsThere(); err != nil {
		return misused("%v; a part of the rulebook stands behind --within", err)
	}
	book, err := c.book()
	if err != nil {
		return err
	}
	o := review.SurveyOptions{Jobs: c.jobs, Inputs: map[string]string{}, Examples: c.readJobs}
	for _, part := range c.within {
		name, value, fixed := strings.Cut(part, "=")
		switch name, value = strings.TrimSpace(name), strings.TrimSpace(value); {
		case !fixed:
			o.Names = append(o.Names, name)
		case name == "chapter":
			o.Chapters = append(o.Chapters, value)
		default:
			o.Inputs[name] = value
		}
	}
	report, err := c.search(search, book, &o)
	if err != nil {
		err = &located{err: err, trials: o.Trials}
	}
	return c.reviewed(report, err, exitNo)
}

// search runs a search with the trials beside the rules, and shows how far it is.
func (c *call) search(run func(context.Context, *groundrule.Book, review.SurveyOptions) (*review.Report, error), book *groundrule.Book, o *review.SurveyOptions) (*review.Report, error) {
	layers, err := c.files.layers()
	if err != nil {
		return nil, err
	}
	ctx, stop := interruptible()
	defer stop()
	line := c.progress()
	defer line.end()
	o.Seed, o.Trials, o.Progress = c.seed, withTrials(layers), line.show
	return run(ctx, book, *o)
}
