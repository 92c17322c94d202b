package jobs

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"path"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/internal/document"
	"example.com/groundrule/pkg/internal/jobnode"
	"example.com/groundrule/pkg/site"
)

// WriteJSONLines writes jobs one a line, each a job file in JSON that
// [ReadJSONLines] reads back as the same job, to the last bit of each value. The
// error says which job, counted from 1, came with an error, does not validate or
// could not be written.
func WriteJSONLines(w io.Writer, jobs iter.Seq2[*site.Site, error]) error {
	out := bufio.NewWriter(w)
	i := 0
	for job, err := range jobs {
		var line []byte
		if err == nil {
			line, err = job.MarshalJSON()
		}
		if err == nil {
			_, err = out.Write(append(line, '\n'))
		}
		if i++; err != nil {
			return fmt.Errorf("job %d: %w", i, err)
		}
	}
	return out.Flush()
}

// ReadJSONLines reads jobs, one a line, each a job file in JSON; empty lines are
// passed over. A line that is not a job comes with its [*site.Error], with the file,
// the line and the column, and reading goes on with the next. An error of the reader
// itself ends it.
//
// The places of values inside a job that was read ([site.Site.PlaceOf]) count
// from the line of the job, as if it stood in a file of its own; those of its
// overrides are in the archive.
func ReadJSONLines(file string, r io.Reader) iter.Seq2[*site.Site, error] {
	return func(yield func(*site.Site, error) bool) {
		lines := bufio.NewReader(r)
		for n := 1; ; n++ {
			text, err := nextLine(lines)
			if err != nil && err != io.EOF {
				yield(nil, fmt.Errorf("%s: line %d: %w", file, n, err))
				return
			}
			text = bytes.TrimRight(text, "\r\n")
			if len(bytes.TrimSpace(text)) > 0 && !yield(readLine(file, n, text)) || err != nil {
				return
			}
		}
	}
}

// nextLine reads a line, of a long one no more than the reader of jobs needs to refuse
// it. At the end of what is read the error is [io.EOF], and the last line may come
// with it.
func nextLine(from *bufio.Reader) (line []byte, err error) {
	for {
		part, err := from.ReadSlice('\n')
		line = append(line, part[:min(len(part), document.DefaultBytes+3-len(line))]...)
		if err != bufio.ErrBufferFull {
			return line, err
		}
	}
}

// asJSON is a name by which a line is read as JSON by the letter.
const asJSON = "line.json"

func readLine(file string, line int, text []byte) (*site.Site, error) {
	at := func(p diagnostic.Place) diagnostic.Place {
		p.File = file
		p.Line = line + max(0, p.Line-1)
		return p
	}
	job, err := site.Read(asJSON, text)
	var wrong *site.Error
	if errors.As(err, &wrong) {
		for _, d := range wrong.Faults {
			d.Place = at(d.Place)
			for i := range d.Related {
				d.Related[i].Place = at(d.Related[i].Place)
			}
		}
		return nil, wrong
	}
	if err != nil {
		return nil, fmt.Errorf("%s: line %d: %w", file, line, err)
	}
	jobnode.Move(job, at)
	return job, nil
}

// ReadFolder reads every job below the root of a folder, in the order of the
// paths: each .yaml, .yml or .json file is one job, and each line of a .jsonl
// file is one. A file that is not a job comes with its [*site.Error], and reading
// goes on with the next; one that cannot be read comes with the error of the file
// system, and so does what is not a regular file. A job without a name is called by its file.
func ReadFolder(fsys fs.FS) iter.Seq2[*site.Site, error] {
	return func(yield func(*site.Site, error) bool) {
		names, err := document.Files(fsys, ".yaml", ".yml", ".json", ".jsonl")
		if err != nil {
			yield(nil, fmt.Errorf("jobs: %w", err))
			return
		}
		for _, name := range names {
			for job, err := range readFile(fsys, name) {
				if !yield(job, err) {
					return
				}
			}
		}
	}
}

func readFile(fsys fs.FS, name string) iter.Seq2[*site.Site, error] {
	return func(yield func(*site.Site, error) bool) {
		if strings.EqualFold(path.Ext(name), ".jsonl") {
			f, err := document.Open(fsys, name)
			if err != nil {
				yield(nil, fmt.Errorf("jobs: %w", err))
				return
			}
			defer f.Close()
			ReadJSONLines(name, f)(yield)
			return
		}
		data, err := document.ReadFile(fsys, name, document.DefaultBytes)
		if err != nil {
			yield(nil, fmt.Errorf("jobs: %w", err))
			return
		}
		job, err := site.Read(name, data)
		if err == nil && job.Job == "" {
			job.Job = strings.TrimSuffix(name, path.Ext(name))
		}
		yield(job, err)
	}
}
