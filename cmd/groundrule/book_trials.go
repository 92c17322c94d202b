package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
)

var bookTrialsCommand = &command{
	name:  "book trials",
	usage: "groundrule book trials [DIR...] [flags]",
	about: "whether the trials that are kept beside the rules pass",
	text: `Runs every trial: a job and what must come of it. Without DIR they are those in
the folder trials beside the rules, or with --amend those beside the amendments;
with DIR, those of that folder. What fails is told with what was wanted, what
came of it, and by which rule.

  groundrule book trials --amend ours
  groundrule book trials --coverage

A trial is a few lines in a file of trials; groundrule book schema trial tells
its keys.
`,
	flags: append([]string{flagCoverage, flagJSON}, ofBook...),
	exits: `Exit code: 0 every trial passes; 1 a trial fails; 2 there is no trial, or a
trial, a rule file or the command line is wrong.
`,
	run: runBookTrials,
}

func runBookTrials(c *call) int {
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	folders, err := c.trialFolders()
	if err != nil {
		return c.fail(err)
	}
	ctx, stop := interruptible()
	defer stop()
	run := review.Trials
	if c.coverage {
		run = review.Coverage
	}
	report, err := run(ctx, book, folders...)
	if errors.Is(err, review.ErrNoTrials) {
		return c.fail(fmt.Errorf("%w; give the folder that holds them", err))
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
