package groundrule

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"iter"
	"slices"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/inorder"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/section"
	"example.com/groundrule/pkg/site"
)

// Stream designs jobs, as many at once as there are processors, and writes what comes
// of each as one line of JSON, in the order of the jobs: its section in the forms, or
// those of its areas, also where it is refused or stopped; or, where it is no job or
// cannot be designed, its faults. It returns how many lines are faults. However many
// jobs come, no more than a fixed number of them are held at a time.
//
// The error wraps that of w or the context's, or [section.ErrForm]. Once the context is
// done Stream returns at once, even while it waits for the next job.
func (b *Book) Stream(ctx context.Context, w io.Writer, jobs iter.Seq2[*site.Site, error], forms ...section.Form) (wrong int, err error) {
	switch {
	case b == nil || b.rules == nil:
		return 0, errNotOpened
	case slices.Contains(forms, section.Indented):
		return 0, fmt.Errorf("%w: each section of a stream is on one line, and cannot be %s", section.ErrForm, section.Indented)
	}
	written := 0
	for out := range inorder.Each(ctx, 0, jobs, func(number int, job *site.Site, err error) line { return b.line(number, job, err, forms) }) {
		if out.err == nil {
			_, out.err = w.Write(out.text)
		}
		if out.err != nil {
			return wrong, fmt.Errorf("after %d jobs: %w", written, out.err)
		}
		if written++; out.wrong {
			wrong++
		}
	}
	if err := ctx.Err(); err != nil {
		return wrong, fmt.Errorf("after %d jobs: %w", written, err)
	}
	return wrong, nil
}

// line is what is written for one job.
type line struct {
	text  []byte
	wrong bool
	err   error
}

// faults is the line of a job that cannot be designed.
type faults struct {
	Schema  string `json:"schema"`
	Version int    `json:"version"`
	// Job counts the jobs from 1; Line is that of the file, 0 where there is none.
	Job    int             `json:"job"`
	Line   int             `json:"line,omitempty"`
	Faults diagnostic.List `json:"faults"`
}

func (b *Book) line(number int, job *site.Site, err error, forms []section.Form) line {
	text, err := b.designed(job, err, forms)
	if err == nil {
		return line{text: text}
	}
	out := faults{Schema: "groundrule/faults", Version: 1, Job: number}
	if at, written := job.PlaceOf(""); written {
		out.Line = at.Line
	}
	var run *rulebook.RunError
	switch {
	case errors.As(err, &out.Faults):
		if out.Line == 0 && len(out.Faults) > 0 {
			out.Line = out.Faults[0].Place.Line
		}
	case errors.As(err, &run):
		out.Faults = diagnostic.List{{Place: run.Place, Code: rulebook.CodeNoAnswer, Message: err.Error()}}
	default:
		out.Faults = diagnostic.List{{Message: err.Error()}}
	}
	var to bytes.Buffer
	enc := json.NewEncoder(&to)
	enc.SetEscapeHTML(false)
	err = enc.Encode(out)
	return line{to.Bytes(), true, err}
}

// designed returns the JSON of a job's section.
func (b *Book) designed(job *site.Site, err error, forms []section.Form) ([]byte, error) {
	if err != nil {
		return nil, err
	}
	if job != nil && len(job.Areas) > 0 {
		areas, err := b.Areas(job, forms...)
		if err != nil {
			return nil, err
		}
		return areas.JSON(forms...)
	}
	s, err := b.area(job, 0, job, forms)
	if err != nil {
		return nil, err
	}
	return s.JSON(forms...)
}
