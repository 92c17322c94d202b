package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/review"
	"example.com/groundrule/pkg/rulebook"
)

var bookTrialsCommand = &command{
	name:  "book trials",
	usage: "groundrule book trials [DIR...] [flags]",
	about: "whether the trials that are kept beside the rules pass",
	text: `Runs every trial: a job and what must come of it. Without DIR they are those in the folder
trials beside the rules, or with --amend those beside the amendments; with DIR, those of
that folder. What fails is told with what was wanted, what came of it, and by which rule.

  groundrule book trials --amend ours
  groundrule book trials --coverage

A trial is a few lines in a file of trials; groundrule book schema trial tells its keys.
`,
	flags: append([]string{flagCoverage}, ofBook...),
	exits: `Exit code: 0 every trial passes; 1 a trial fails; 2 there is no trial, or a trial, a rule
file or the command line is wrong.
`,
}

func init() { bookTrialsCommand.run = runBookTrials }

func runBookTrials(c *call) int {
	book, err := c.book()
	if err != nil {
		return c.fail(err)
	}
	folders, err := c.trialFolders()
	if err != nil {
		return c.fail(err)
	}
	var all []review.Trial
	for _, f := range folders {
		some, err := f.load()
		if err != nil {
			return c.fail(&located{err: err, trials: folders})
		}
		all = append(all, some...)
	}
	if len(all) == 0 {
		return c.fail(errors.New("there are no trials here; give the folder they lie in"))
	}
	report, err := review.RunTrials(book, all)
	if err != nil {
		return c.fail(&located{err: err, trials: folders})
	}
	if !c.coverage {
		report.Coverage = nil
	}
	switch err := report.Write(c.out); {
	case err != nil:
		return c.fail(err)
	case report.Failed > 0:
		return exitNo
	}
	return exitDone
}

// trialFolder is a folder of trials, by the name that places have for it.
type trialFolder struct {
	label string
	fsys  fs.FS
}

// trialFolders returns the folders of the arguments, or else those beside the
// amendments, or beside the rules where there are no amendments.
func (c *call) trialFolders() ([]trialFolder, error) {
	var out []trialFolder
	for _, dir := range c.args {
		if err := isFolder(dir); err != nil {
			return nil, fmt.Errorf("the trials: %w", err)
		}
		if beside := filepath.Join(dir, rulebook.TrialsFolder); isFolder(beside) == nil {
			dir = beside
		}
		out = append(out, trialFolder{path.Clean(filepath.ToSlash(dir)), os.DirFS(dir)})
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
	for _, l := range layers {
		if sub, err := fs.Sub(l.FS, rulebook.TrialsFolder); err == nil {
			out = append(out, trialFolder{path.Join(l.Label, rulebook.TrialsFolder), sub})
		}
	}
	return out, nil
}

// load reads the trials of the folder. The faults of all its files are reported
// in one run.
func (f trialFolder) load() ([]review.Trial, error) {
	entries, err := fs.ReadDir(f.fsys, ".")
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("the trials: %w", err)
	}
	var out []review.Trial
	var faults diagnostic.List
	for _, entry := range entries {
		if entry.IsDir() || path.Ext(entry.Name()) != ".yaml" {
			continue
		}
		data, err := fs.ReadFile(f.fsys, entry.Name())
		if err != nil {
			return nil, fmt.Errorf("the trials: %w", err)
		}
		some, err := review.ReadTrials(path.Join(f.label, entry.Name()), data)
		var wrong *review.TrialError
		switch {
		case errors.As(err, &wrong):
			faults = append(faults, wrong.Faults...)
		case err != nil:
			return nil, err
		}
		out = append(out, some...)
	}
	return out, append(faults, twice(out)...).Err()
}

// twice reports trials of one name in several files.
func twice(trials []review.Trial) diagnostic.List {
	first := map[string]diagnostic.Place{}
	var out diagnostic.List
	for i := range trials {
		t := &trials[i]
		if at, taken := first[t.Name()]; taken {
			out.Add(&diagnostic.Diagnostic{Place: t.Place, Code: review.CodeTwice, Message: "the trial " + t.Name() + " is there already", Found: t.Name(),
				Related: []diagnostic.Related{{Place: at, Message: "it stands here first"}}})
			continue
		}
		first[t.Name()] = t.Place
	}
	return out
}

// textIn returns the text of a file of the folder by the name that places have
// for it.
func (f trialFolder) textIn(name string) ([]byte, bool) {
	below, under := strings.CutPrefix(name, f.label+"/")
	if f.label == "." {
		below, under = name, true
	}
	if !under {
		return nil, false
	}
	data, err := fs.ReadFile(f.fsys, below)
	return data, err == nil
}
