package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// stdinName is what messages call standard input.
const stdinName = "stdin"

// jobFile is a job file, or another that a person wrote, as it was read.
type jobFile struct {
	name string
	data []byte
	site *site.Site
	// whole is the job of which site is an area, or site itself.
	whole *site.Site
}

// job reads a job file by the words of a rulebook, or with its words open if that
// is nil; "-" is standard input.
func (c *call) job(book *groundrule.Book, path string) (*jobFile, error) {
	f, err := c.file("job file", path)
	if err != nil {
		return nil, err
	}
	f.site, err = book.Table().Read(f.name, f.data)
	if err != nil {
		return nil, &located{err: err, job: f}
	}
	f.whole = f.site
	return f, c.pick(f)
}

// pick leaves of a job of several areas the one that the flag names.
func (c *call) pick(f *jobFile) error {
	var names []string
	for _, a := range f.site.Areas {
		names = append(names, a.Job)
	}
	at := slices.Index(names, c.area)
	switch {
	case c.area == "" && (c.several || names == nil):
		return nil
	case c.area == "":
		return fmt.Errorf("%s is a job of several areas, and groundrule %s takes one: name it with --in AREA; they are %s", f.name, c.Name, strings.Join(names, ", "))
	case names == nil:
		return fmt.Errorf("%s is a job of one area, so there is none to name with --in", f.name)
	case at < 0:
		return fmt.Errorf("%s has no area %q%s; they are %s", f.name, c.area, didYouMean(c.area, names), strings.Join(names, ", "))
	}
	f.site = f.site.Parts()[at]
	return nil
}

// file reads a file that a person wrote, called what in messages; "-" is standard
// input.
func (c *call) file(what, path string) (*jobFile, error) {
	f := &jobFile{name: path}
	var in io.Reader = c.in
	if path == "-" {
		f.name = stdinName
	} else {
		file, err := os.Open(path)
		if err != nil {
			return nil, cannot(what, path, err)
		}
		defer file.Close()
		if info, err := file.Stat(); err == nil && info.IsDir() {
			return nil, fmt.Errorf("%s is a folder; name a %s in it", path, what)
		}
		in = file
	}
	// One byte more than is allowed is enough for the reader to say so.
	data, err := io.ReadAll(io.LimitReader(in, site.MostBytes+1))
	if err != nil {
		return nil, cannot(what, f.name, err)
	}
	f.data = data
	return f, nil
}

// book opens the rulebook that the flags name.
func (c *call) book() (*groundrule.Book, error) { return c.files.open() }

// located is an error whose places stand in the job file, in the files of a
// rulebook, in trials, in a price list, or in any of these.
type located struct {
	err    error
	job    *jobFile
	files  *rulebookFiles
	trials []rulebook.Layer
	list   *jobFile // a price list
}

func (l *located) Error() string { return l.err.Error() }
func (l *located) Unwrap() error { return l.err }

// text returns the text of a file by the name that places have for it. Where a
// rule file and the job file have one name, it is the rule file that came to no
// answer, and the job file in which anything else is wrong.
func (l *located) text(name string) ([]byte, bool) {
	if l.list != nil && name == l.list.name {
		return l.list.data, true
	}
	var run *rulebook.RunError
	inJob := l.job != nil && name == l.job.name
	if inJob && !errors.As(l.err, &run) {
		return l.job.data, true
	}
	if data, ok := l.files.text(name); ok {
		return data, true
	}
	if inJob {
		return l.job.data, true
	}
	return textIn(l.trials, name)
}
