package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"example.com/groundrule/pkg/document"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
	"example.com/groundrule/rules"
)

// stdinName is what messages call standard input.
const stdinName = "stdin"

// jobFile is a job file as it was read.
type jobFile struct {
	name string
	data []byte
	site *site.Site
}

// job reads a job file; "-" is standard input.
func (c *call) job(path string) (*jobFile, error) {
	f := &jobFile{name: path}
	var in io.Reader = c.in
	if path == "-" {
		f.name = stdinName
	} else {
		file, err := os.Open(path)
		if err != nil {
			return nil, fmt.Errorf("the job file: %w", err)
		}
		defer file.Close()
		in = file
	}
	// One byte more than is allowed is enough for the reader to say so.
	data, err := io.ReadAll(io.LimitReader(in, document.DefaultBytes+1))
	if err != nil {
		return nil, fmt.Errorf("the job file: %w", err)
	}
	f.data = data
	f.site, err = site.Read(f.name, data)
	if err != nil {
		return nil, &located{err: err, job: f}
	}
	return f, nil
}

// book opens the rulebook that the flags name.
func (c *call) book() (*groundrule.Book, error) {
	if c.rules == "" {
		b, err := groundrule.Standard()
		return b, c.inRules(err)
	}
	info, err := os.Stat(c.rules)
	if err == nil && !info.IsDir() {
		err = &fs.PathError{Op: "open", Path: c.rules, Err: errors.New("is not a folder")}
	}
	if err != nil {
		return nil, fmt.Errorf("--rules: %w", err)
	}
	b, err := groundrule.Open(os.DirFS(c.rules))
	return b, c.inRules(err)
}

func (c *call) inRules(err error) error {
	if err == nil {
		return nil
	}
	return &located{err: err, call: c}
}

// located is an error whose places stand in the job file, in the rule files of
// a call, or in either.
type located struct {
	err  error
	job  *jobFile
	call *call
}

func (l *located) Error() string { return l.err.Error() }
func (l *located) Unwrap() error { return l.err }

// file gives a file as messages call it, and its text. Where a rule file and the
// job file have one name, it is the rule file that came to no answer, and the job
// file in which anything else is wrong.
func (l *located) file(name string) (shown string, data []byte, ok bool) {
	var run *rulebook.RunError
	inJob := l.job != nil && name == l.job.name
	if inJob && !errors.As(l.err, &run) {
		return name, l.job.data, true
	}
	if shown, data, ok = l.ruleFile(name); !ok && inJob {
		return name, l.job.data, true
	}
	return shown, data, ok
}

func (l *located) ruleFile(name string) (shown string, data []byte, ok bool) {
	switch {
	case l.call == nil || !fs.ValidPath(name):
		return name, nil, false
	case l.call.rules == "":
		data, err := fs.ReadFile(rules.Files, name)
		return name, data, err == nil
	}
	data, err := fs.ReadFile(os.DirFS(l.call.rules), name)
	if err != nil {
		return name, nil, false
	}
	return filepath.Join(l.call.rules, filepath.FromSlash(name)), data, true
}
