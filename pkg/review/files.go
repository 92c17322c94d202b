package review

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"strings"

	"example.com/groundrule/pkg/diagnostic"
	"example.com/groundrule/pkg/groundrule"
	"example.com/groundrule/pkg/internal/jobs"
	"example.com/groundrule/pkg/internal/schema"
	"example.com/groundrule/pkg/rulebook"
	"example.com/groundrule/pkg/site"
)

// Jobs makes up plausible jobs, to try a rulebook on while there are no past
// ones: mostly patios, walks and driveways, some permeable ones, a few heavier
// ones, and now and then a job that no rulebook should accept. They come without
// errors, and one seed always gives the same. The mix is demonstration data, not
// a count of anything. They are in the words of a rulebook, its own too; those of
// the standard with none.
func Jobs(book *groundrule.Book, count int, seed uint64) iter.Seq2[*site.Site, error] {
	return jobs.Sure(jobs.Generate(book.Table(), count, seed))
}

// ReadJobs reads every job below the root of a folder, in the order of the paths:
// each .yaml, .yml or .json file is one job, and each line of a .jsonl file is
// one. A job that cannot be read comes with its error, a [*site.Error] or that of
// the file system, and reading goes on with the next. A job without a name is
// called by its file.
func ReadJobs(fsys fs.FS) iter.Seq2[*site.Site, error] { return jobs.ReadFolder(fsys) }

// ReadJobLines reads jobs, one a line, each a job file in JSON; empty lines are
// passed over. A line that is not a job comes with its [*site.Error], and reading
// goes on with the next. An error of the reader itself ends it. The name is what
// places are shown in.
func ReadJobLines(name string, r io.Reader) iter.Seq2[*site.Site, error] {
	return jobs.ReadJSONLines(name, r)
}

// WriteJobs writes jobs one a line, each a job file in JSON, for [ReadJobLines].
// It ends with the first job that comes with an error or cannot be written.
func WriteJobs(w io.Writer, all iter.Seq2[*site.Site, error]) error {
	return jobs.WriteJSONLines(w, all)
}

// SchemaKinds lists the kinds of file that have a [Schema].
func SchemaKinds() []string {
	var out []string
	for _, k := range schema.Kinds() {
		out = append(out, k.Name)
	}
	return out
}

// Schema returns the JSON Schema (draft 2020-12) of a kind of file, for an editor
// that completes keys and marks slips with it: with the words that a rulebook has
// for jobs, and with the names of its entries. Where amendments took names away that
// they still tell, the rulebook before them has these. The error is of a kind that
// is not among [SchemaKinds].
func Schema(book *groundrule.Book, kind string, before ...*groundrule.Book) ([]byte, error) {
	s, ok := schema.For(kind, book.Table())
	if !ok {
		err := fmt.Errorf("there is no schema of %q; there are %s", kind, strings.Join(SchemaKinds(), ", "))
		if near := diagnostic.Nearest(kind, SchemaKinds()); near != "" {
			err = fmt.Errorf("%w; did you mean %q?", err, near)
		}
		return nil, err
	}
	if book != nil && kind != "section" {
		var all []rulebook.Contents
		for _, each := range append(before, book) {
			all = append(all, each.Rules())
		}
		s.Know(all...)
	}
	var b bytes.Buffer
	err := s.Write(&b)
	return b.Bytes(), err
}
