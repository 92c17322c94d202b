// Package review is what a standards keeper runs on a rulebook after an edit.
//
// [groundrule.Open] itself reports what is wrong in the files. Then [Trials]
// holds the rulebook to the jobs that are kept beside it, [Survey] searches the
// whole range of jobs for questions with no answer or with two, and [Impact]
// tells what the edit would change on a set of jobs: past ones ([ReadJobs],
// [ReadJobLines]) or, while there are none, made-up ones ([Jobs]). Each review
// returns a [Report]. [Schema] is for the editors in which the files are written,
// and [Print] writes the rulebook, or what differs between two, as a document.
package review

import (
	"bytes"
	"encoding/json"
	"io"

	"example.com/groundrule/pkg/internal/page"
	"example.com/groundrule/pkg/quantity"
)

// Report is what a review came to.
type Report struct{ of findings }

// findings are what the reports of all reviews have in common.
type findings interface {
	OK() bool
	Summary() string
}

// OK reports whether all is well: every trial passes, no fault is found, every
// job could be read.
func (r *Report) OK() bool { return r.of.OK() }

// Summary returns what the review came to in one line.
func (r *Report) Summary() string { return r.of.Summary() }

// WriteText writes the whole report for a person to read, in one system of units
// and in lines of at most 80 columns. Nothing in it acts on a terminal, whatever
// stands in the files that were read. The error is the writer's.
func (r *Report) WriteText(w io.Writer, system quantity.System) error {
	var p page.Page
	switch of := r.of.(type) {
	case interface{ Tell(*page.Page) }:
		of.Tell(&p)
	case interface {
		Tell(*page.Page, quantity.System)
	}:
		of.Tell(&p, system)
	}
	return p.Write(w)
}

// MarshalJSON returns the whole report for another program. Names of fields are
// in small letters; places have file, line and column.
func (r *Report) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(r.of)
	return b.Bytes(), err
}
